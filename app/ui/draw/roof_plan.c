#include "roof_plan_private.h"

#include "pen.h"
#include "roof_edit.h"
#include <glib/gi18n-lib.h>

G_DEFINE_FINAL_TYPE(WbRoofPlan, wb_roof_plan, GTK_TYPE_WIDGET)

enum { CHOSEN, EDIT, N_SIGNALS };
static guint signals[N_SIGNALS];

/* ---- for the other files ---- */

WbViewFrame wb_plan_frame(WbRoofPlan *self)
{
    return (WbViewFrame){gtk_widget_get_width(GTK_WIDGET(self)),
                         gtk_widget_get_height(GTK_WIDGET(self)), MAX(self->roof.length_mm, 1),
                         MAX(self->roof.width_mm, 1)};
}

WbPlanPlace wb_plan_place(WbRoofPlan *self)
{
    WbViewFrame frame = wb_plan_frame(self);
    return wb_roof_view_place(&self->view, &frame);
}

void wb_plan_redraw(WbRoofPlan *self)
{
    gtk_widget_queue_draw(GTK_WIDGET(self));
}

void wb_plan_pick(WbRoofPlan *self, WbPlanThing thing)
{
    if (wb_plan_same(thing, self->chosen))
        return;
    wb_roof_plan_choose(self, thing);
    g_signal_emit(self, signals[CHOSEN], 0, (int)self->chosen.kind, self->chosen.index);
}

/* Where a panel will lie, so that it stays chosen in the next layout. */
static void expect(WbRoofPlan *self, WbPlanAction action, const WbRect *rect)
{
    if (action == WB_PLAN_NUDGE) {
        self->chosen_rect.x_mm += rect->x_mm;
        self->chosen_rect.y_mm += rect->y_mm;
    } else if (action != WB_PLAN_REMOVE) {
        self->chosen_rect = *rect;
    }
}

void wb_plan_ask(WbRoofPlan *self, WbPlanAction action, WbPlanThing thing, WbRect rect)
{
    const WbPlanEdit edit = {action, thing, rect};
    wb_roof_plan_tell(self, NULL);
    if (thing.kind == WB_PLAN_PANEL)
        expect(self, action, &rect);
    g_signal_emit(self, signals[EDIT], 0, &edit);
    if (self->chosen.kind == WB_PLAN_PANEL && wb_plan_has(self, self->chosen))
        self->chosen_rect = self->rects[self->chosen.index]; /* also where it was refused */
}

/* ---- drawing ---- */

static void wb_roof_plan_snapshot(GtkWidget *widget, GtkSnapshot *snapshot)
{
    WbRoofPlan *self = WB_ROOF_PLAN(widget);
    int width = gtk_widget_get_width(widget), height = gtk_widget_get_height(widget);
    const graphene_rect_t all = GRAPHENE_RECT_INIT(0, 0, (float)width, (float)height);
    if (!self->given) {
        WbPen pen;
        wb_pen_begin(&pen, widget, snapshot);
        wb_pen_empty(&pen, _("Give the roof's length and width to see it here."));
        wb_pen_end(&pen);
        return;
    }
    if (width <= 0 || height <= 0)
        return;
    WbPlanPlace place = wb_plan_place(self);
    gtk_snapshot_push_clip(snapshot, &all);
    gtk_snapshot_append_texture(snapshot, wb_plan_scene(self, &place), &all);
    cairo_t *cr = gtk_snapshot_append_cairo(snapshot, &all);
    wb_plan_paint_live(self, cr, &place);
    cairo_destroy(cr);
    gtk_snapshot_pop(snapshot);
}

static void wb_roof_plan_measure(GtkWidget *widget, GtkOrientation orientation, int for_size,
                                 int *minimum, int *natural, int *minimum_baseline,
                                 int *natural_baseline)
{
    *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 260 : 130;
    *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 560 : 260;
}

/* ---- what it is given ---- */

static gboolean same_place(const WbRect *a, const WbRect *b)
{
    return a->x_mm == b->x_mm && a->y_mm == b->y_mm && a->length_mm == b->length_mm &&
           a->width_mm == b->width_mm;
}

/* The same thing on what is shown now. A panel is found again by where it lies, as layouts put it
 * elsewhere in the list; NONE: it is not there any more. */
static WbPlanThing again(WbRoofPlan *self, WbPlanThing thing, const WbRect *rect)
{
    for (guint i = 0; thing.kind == WB_PLAN_PANEL && i < self->n_panels; i++)
        if (same_place(&self->rects[i], rect))
            return (WbPlanThing){WB_PLAN_PANEL, (int)i};
    if (thing.kind == WB_PLAN_PANEL || !wb_plan_has(self, thing))
        return (WbPlanThing){WB_PLAN_NONE, 0};
    return thing;
}

/* Answers come while a thing is dragged; only where it lies otherwise on the new roof, the hand
 * lets go. */
static void keep_held(WbRoofPlan *self)
{
    WbPlanHeld *held = &self->held;
    if (held->grip == WB_GRIP_NONE || held->grip == WB_GRIP_VIEW)
        return;
    held->thing = again(self, held->thing, &held->was);
    WbRect rect = wb_plan_rect(self, held->thing);
    if (!wb_plan_has(self, held->thing) || !same_place(&rect, &held->was))
        wb_plan_let_go(self);
}

/* What is told is of the roof and of the panel model it was told of. */
static gboolean is_of_another(WbRoofPlan *self, const WbRoof *roof, const WbPlanPanel *panels,
                              guint n)
{
    if (roof == NULL)
        return TRUE;
    WbRoof bare = *roof; /* as it is kept here */
    bare.pins = NULL;
    bare.n_pins = 0;
    const char *old = self->n_panels > 0 ? self->panels[0].part_id : NULL;
    const char *new = n > 0 && panels != NULL ? panels[0].part_id : NULL;
    return g_strcmp0(old, new) != 0 || !wb_roof_same(&bare, &self->roof);
}

void wb_roof_plan_show(WbRoofPlan *self, const WbRoof *roof, const WbPlanPanel *panels, guint n)
{
    g_return_if_fail(WB_IS_ROOF_PLAN(self));
    if (is_of_another(self, roof, panels, n))
        g_clear_pointer(&self->told, g_free);
    wb_plan_data_set(self, roof, panels, n);
    g_clear_pointer(&self->trial.panels, g_free);
    self->serial++;
    self->chosen = again(self, self->chosen, &self->chosen_rect);
    keep_held(self);
    wb_roof_plan_describe(self);
    wb_plan_redraw(self);
}

void wb_roof_plan_set(WbRoofPlan *self, const WbRoof *roof, const WbRect *layout, guint n)
{
    g_autofree WbPlanPanel *panels = g_new0(WbPlanPanel, n + 1);
    for (guint i = 0; layout != NULL && i < n; i++)
        panels[i] = (WbPlanPanel){layout[i], NULL, -1};
    wb_roof_plan_show(self, roof, panels, layout != NULL ? n : 0);
}

void wb_roof_plan_try(WbRoofPlan *self, const WbRect *panels, guint n, int obstacle,
                      const WbRect *to)
{
    g_return_if_fail(WB_IS_ROOF_PLAN(self));
    g_free(self->trial.panels);
    WbRect *copy = g_new0(WbRect, n + 1);
    for (guint i = 0; i < n; i++)
        copy[i] = panels[i];
    gboolean there = obstacle >= 0 && (gsize)obstacle < self->roof.n_obstacles;
    self->trial = (WbPlanTrial){copy, n, there ? obstacle : -1, *to};
    self->serial++;
    wb_roof_plan_describe(self);
    wb_plan_redraw(self);
}

void wb_roof_plan_make_editable(WbRoofPlan *self)
{
    g_return_if_fail(WB_IS_ROOF_PLAN(self));
    self->editable = TRUE;
    wb_plan_redraw(self);
}

void wb_roof_plan_choose(WbRoofPlan *self, WbPlanThing thing)
{
    g_return_if_fail(WB_IS_ROOF_PLAN(self));
    self->chosen = wb_plan_has(self, thing) ? thing : (WbPlanThing){WB_PLAN_NONE, 0};
    self->chosen_rect = wb_plan_rect(self, self->chosen);
    wb_roof_plan_describe(self);
    wb_plan_redraw(self);
}

WbPlanThing wb_roof_plan_get_chosen(WbRoofPlan *self)
{
    g_return_val_if_fail(WB_IS_ROOF_PLAN(self), ((WbPlanThing){WB_PLAN_NONE, 0}));
    return self->chosen;
}

const WbPlanPanel *wb_roof_plan_get_panel(WbRoofPlan *self, int index)
{
    g_return_val_if_fail(WB_IS_ROOF_PLAN(self), NULL);
    return index >= 0 && index < (int)self->n_panels ? &self->panels[index] : NULL;
}

void wb_roof_plan_tell(WbRoofPlan *self, const char *sentence)
{
    g_return_if_fail(WB_IS_ROOF_PLAN(self));
    if (g_strcmp0(sentence, self->told) == 0)
        return;
    g_free(self->told);
    self->told = g_strdup(sentence);
    wb_roof_plan_describe(self);
    wb_plan_redraw(self);
}

/* ---- GObject ---- */

static void wb_roof_plan_unrealize(GtkWidget *widget)
{
    g_clear_object(&WB_ROOF_PLAN(widget)->scene);
    GTK_WIDGET_CLASS(wb_roof_plan_parent_class)->unrealize(widget);
}

static void wb_roof_plan_finalize(GObject *object)
{
    WbRoofPlan *self = WB_ROOF_PLAN(object);
    wb_plan_data_clear(self);
    g_free(self->trial.panels);
    g_free(self->held.refusal);
    g_free(self->told);
    g_clear_object(&self->scene);
    G_OBJECT_CLASS(wb_roof_plan_parent_class)->finalize(object);
}

static void wb_roof_plan_class_init(WbRoofPlanClass *klass)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(klass);
    GType type = G_TYPE_FROM_CLASS(klass);
    G_OBJECT_CLASS(klass)->finalize = wb_roof_plan_finalize;
    widget->snapshot = wb_roof_plan_snapshot;
    widget->measure = wb_roof_plan_measure;
    widget->unrealize = wb_roof_plan_unrealize;
    signals[CHOSEN] = g_signal_new("chosen", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 2, G_TYPE_INT, G_TYPE_INT);
    signals[EDIT] = g_signal_new("edit", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                                 1, G_TYPE_POINTER);
    gtk_widget_class_set_css_name(widget, "roofplan");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_IMG);
}

static void wb_roof_plan_init(WbRoofPlan *self)
{
    wb_plan_attach_hand(self);
    wb_plan_attach_keys(self);
    wb_roof_plan_describe(self);
}

GtkWidget *wb_roof_plan_new(void)
{
    return g_object_new(WB_TYPE_ROOF_PLAN, NULL);
}
