#include "diagram_view.h"

#include "diagram_paint.h"
#include "pen.h"
#include "roof_view.h"
#include "words_circuit.h"
#include <glib/gi18n-lib.h>
#include <math.h>

#define LARGEST_FIT 1.4 /* px a unit where there is room for more */
#define LEAST_HEIGHT 180
#define CARD_WIDTH 400
#define LEAST_CARD 260
#define CARD_GAPS 36
#define SCROLL_MARGIN 60
#define STEP 1.25 /* of zoom */

struct _WbDiagramView {
    GtkWidget parent_instance;
    WbDiagram *diagram; /* NULL: nothing to show */
    WbDiagramLayout *layout;
    char **line, **card; /* of each circuit, for a screen reader and for its card */
    WbRoofView view;
    int chosen, pointed;
    double x, y;     /* of the pointer */
    gboolean by_key; /* chosen so: its card is shown */
    double dragged_x, dragged_y;
};

G_DEFINE_FINAL_TYPE(WbDiagramView, wb_diagram_view, GTK_TYPE_WIDGET)

enum { CHOSEN, N_SIGNALS };
static guint signals[N_SIGNALS];

/* ---- place ---- */

static WbViewFrame frame_of(WbDiagramView *self)
{
    return (WbViewFrame){
        gtk_widget_get_width(GTK_WIDGET(self)), gtk_widget_get_height(GTK_WIDGET(self)),
        (int64_t)ceil(self->layout->width), (int64_t)ceil(self->layout->height), true};
}

static WbPlanPlace place_of(WbDiagramView *self)
{
    WbViewFrame frame = frame_of(self);
    return wb_roof_view_place(&self->view, &frame);
}

static int line_at(WbDiagramView *self, double x, double y)
{
    if (self->diagram == NULL)
        return -1;
    WbPlanPlace place = place_of(self);
    return wb_diagram_at(self->layout, (x - place.x) / place.scale, (y - place.y) / place.scale);
}

/* ---- words ---- */

static void describe(WbDiagramView *self)
{
    g_autoptr(GString) text = g_string_new(NULL);
    if (self->diagram != NULL)
        g_string_append_printf(text,
                               ngettext("%d circuit; the table below has the same data.",
                                        "%d circuits; the table below has the same data.",
                                        (unsigned long)self->diagram->n_lines),
                               self->diagram->n_lines);
    if (self->chosen >= 0)
        g_string_append_printf(text, _(" Chosen: %s"), self->line[self->chosen]);
    wb_pen_describe(GTK_WIDGET(self), _("Wiring diagram"), text->str);
}

static char *card_text(const WbProblem *problem, const WbKit *kit, const WbCircuit *circuit,
                       int number)
{
    g_autoptr(WbReckoning) reckoning = wb_reckoning_new(problem, kit, circuit);
    g_autofree char *title = wb_words_circuit_title(problem, circuit);
    GString *text = g_string_new(NULL);
    g_string_append_printf(text, "%d  %s", number, title);
    for (gsize i = 0; i < reckoning->n; i++)
        g_string_append_printf(text, "\n%s: %s", reckoning->line[i].label, reckoning->line[i].text);
    return g_string_free(text, FALSE);
}

/* ---- showing ---- */

static void paint_diagram(WbDiagramView *self, GtkSnapshot *snapshot, const WbPalette *palette)
{
    int width = gtk_widget_get_width(GTK_WIDGET(self));
    int height = gtk_widget_get_height(GTK_WIDGET(self));
    WbPlanPlace place = place_of(self);
    cairo_t *cr =
        gtk_snapshot_append_cairo(snapshot, &GRAPHENE_RECT_INIT(0, 0, (float)width, (float)height));
    cairo_translate(cr, place.x, place.y);
    cairo_scale(cr, place.scale, place.scale);
    wb_diagram_paint(self->diagram, self->layout, cr, palette, self->chosen, self->pointed);
    cairo_destroy(cr);
}

/* Beside the circuit where there is most room, so that it stays in sight. */
static void show_card(WbDiagramView *self, WbPen *pen)
{
    WbBox box;
    int width = gtk_widget_get_width(GTK_WIDGET(self));
    gboolean keyed = self->by_key && self->chosen >= 0 && gtk_widget_has_focus(GTK_WIDGET(self));
    int line = self->pointed >= 0 ? self->pointed : keyed ? self->chosen : -1;
    if (line < 0 || !wb_diagram_bounds(self->layout, line, &box))
        return;
    WbPlanPlace place = place_of(self);
    double left = place.x + place.scale * box.x, right = left + place.scale * box.width;
    double y = self->pointed >= 0 ? self->y : place.y + place.scale * (box.y + box.height / 2);
    double room = MAX(left, width - right) - CARD_GAPS;
    int across = (int)CLAMP(room, MIN(LEAST_CARD, MAX(width - CARD_GAPS, 24)), CARD_WIDTH);
    pango_layout_set_width(pen->layout, across * PANGO_SCALE);
    pango_layout_set_wrap(pen->layout, PANGO_WRAP_WORD_CHAR);
    wb_pen_card(pen, self->card[line], width - right >= left ? right : left, y);
    pango_layout_set_width(pen->layout, -1);
}

static void wb_diagram_view_snapshot(GtkWidget *widget, GtkSnapshot *snapshot)
{
    WbDiagramView *self = WB_DIAGRAM_VIEW(widget);
    int width = gtk_widget_get_width(widget), height = gtk_widget_get_height(widget);
    WbPen pen;
    wb_pen_begin(&pen, widget, snapshot);
    gtk_snapshot_push_clip(snapshot, &GRAPHENE_RECT_INIT(0, 0, (float)width, (float)height));
    wb_pen_box(&pen, 0, 0, width, height, &pen.palette.paper);
    if (self->diagram != NULL) {
        paint_diagram(self, snapshot, &pen.palette);
        show_card(self, &pen);
    } else {
        wb_pen_empty(&pen, _("No circuits to draw yet"));
    }
    gtk_snapshot_pop(snapshot);
    wb_pen_end(&pen);
}

/* As high as all of it needs at the width given. */
static void wb_diagram_view_measure(GtkWidget *widget, GtkOrientation orientation, int for_size,
                                    int *minimum, int *natural, int *minimum_baseline,
                                    int *natural_baseline)
{
    WbDiagramView *self = WB_DIAGRAM_VIEW(widget);
    const int least_width = 300;
    if (self->layout == NULL) {
        *minimum = *natural =
            orientation == GTK_ORIENTATION_HORIZONTAL ? least_width : LEAST_HEIGHT;
        return;
    }
    if (orientation == GTK_ORIENTATION_HORIZONTAL) {
        *minimum = least_width;
        *natural = (int)ceil(self->layout->width);
        return;
    }
    double width = for_size > 0 ? for_size : self->layout->width;
    double scale = MIN(width / self->layout->width, LARGEST_FIT);
    *minimum = *natural = MAX((int)ceil(scale * self->layout->height), LEAST_HEIGHT);
}

static GtkSizeRequestMode wb_diagram_view_request_mode(GtkWidget *widget)
{
    return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

/* ---- the page round it, which may be lower than the drawing ---- */

static GtkAdjustment *page_of(WbDiagramView *self)
{
    GtkWidget *page = gtk_widget_get_ancestor(GTK_WIDGET(self), GTK_TYPE_SCROLLED_WINDOW);
    return page != NULL ? gtk_scrolled_window_get_vadjustment(GTK_SCROLLED_WINDOW(page)) : NULL;
}

/* A click must not move what was clicked: GTK scrolls to whatever gets the focus. */
static void focus_where_it_is(WbDiagramView *self)
{
    GtkAdjustment *page = page_of(self);
    double before = page != NULL ? gtk_adjustment_get_value(page) : 0;
    gtk_widget_grab_focus(GTK_WIDGET(self));
    if (page != NULL)
        gtk_adjustment_set_value(page, before);
}

static void scroll_to_chosen(WbDiagramView *self)
{
    WbBox box;
    double x, y;
    GtkWidget *widget = GTK_WIDGET(self),
              *view = gtk_widget_get_ancestor(widget, GTK_TYPE_VIEWPORT);
    GtkAdjustment *page = page_of(self);
    if (page == NULL || view == NULL || !wb_diagram_bounds(self->layout, self->chosen, &box) ||
        !gtk_widget_translate_coordinates(widget, view, 0, 0, &x, &y))
        return;
    WbPlanPlace place = place_of(self);
    double top = y + gtk_adjustment_get_value(page) + place.y + place.scale * box.y;
    gtk_adjustment_clamp_page(page, top - SCROLL_MARGIN,
                              top + place.scale * box.height + SCROLL_MARGIN);
}

/* ---- choosing ---- */

static void set_chosen(WbDiagramView *self, int circuit, gboolean by_key)
{
    gboolean other = circuit != self->chosen;
    self->by_key = by_key;
    self->chosen = circuit;
    describe(self);
    gtk_widget_queue_draw(GTK_WIDGET(self));
    if (other)
        g_signal_emit(self, signals[CHOSEN], 0, circuit);
}

static void on_motion(WbDiagramView *self, double x, double y)
{
    int pointed = line_at(self, x, y);
    self->x = x;
    self->y = y;
    if (pointed >= 0 || self->pointed >= 0)
        gtk_widget_queue_draw(GTK_WIDGET(self));
    self->pointed = pointed;
}

static void on_leave(WbDiagramView *self)
{
    self->pointed = -1;
    gtk_widget_queue_draw(GTK_WIDGET(self));
}

static void on_pressed(GtkGestureClick *click, int n, double x, double y, WbDiagramView *self)
{
    focus_where_it_is(self);
    if (self->diagram != NULL)
        set_chosen(self, line_at(self, x, y), FALSE);
}

static void on_drag_begin(WbDiagramView *self)
{
    self->dragged_x = self->dragged_y = 0;
}

static void on_drag_update(GtkGestureDrag *drag, double dx, double dy, WbDiagramView *self)
{
    if (self->diagram == NULL)
        return;
    WbViewFrame frame = frame_of(self);
    wb_roof_view_pan(&self->view, &frame, dx - self->dragged_x, dy - self->dragged_y);
    self->dragged_x = dx;
    self->dragged_y = dy;
    gtk_widget_queue_draw(GTK_WIDGET(self));
}

static void zoom_at(WbDiagramView *self, double factor, double x, double y)
{
    if (self->diagram == NULL)
        return;
    WbViewFrame frame = frame_of(self);
    wb_roof_view_zoom(&self->view, &frame, factor, x, y);
    gtk_widget_queue_draw(GTK_WIDGET(self));
}

/* The wheel by itself scrolls the page. */
static gboolean on_scroll(GtkEventControllerScroll *scroll, double dx, double dy,
                          WbDiagramView *self)
{
    GdkModifierType state =
        gtk_event_controller_get_current_event_state(GTK_EVENT_CONTROLLER(scroll));
    if (!(state & GDK_CONTROL_MASK) || dy == 0)
        return FALSE;
    zoom_at(self, dy < 0 ? STEP : 1 / STEP, self->x, self->y);
    return TRUE;
}

/* ---- keys ---- */

static void act_choose(GtkWidget *widget, const char *action, GVariant *step)
{
    WbDiagramView *self = WB_DIAGRAM_VIEW(widget);
    int by = g_variant_get_int32(step), last = self->diagram ? self->diagram->n_lines - 1 : -1;
    if (last < 0)
        return;
    int from = self->chosen < 0 ? (by > 0 ? -1 : last + 1) : self->chosen;
    set_chosen(self, CLAMP(from + by, 0, last), TRUE);
    scroll_to_chosen(self);
}

static void act_let_go(GtkWidget *widget, const char *action, GVariant *parameter)
{
    set_chosen(WB_DIAGRAM_VIEW(widget), -1, FALSE);
}

static void act_zoom(GtkWidget *widget, const char *action, GVariant *factor)
{
    wb_diagram_view_zoom(WB_DIAGRAM_VIEW(widget), g_variant_get_double(factor));
}

static void act_fit(GtkWidget *widget, const char *action, GVariant *parameter)
{
    wb_diagram_view_fit(WB_DIAGRAM_VIEW(widget));
}

static void bind_keys(GtkWidgetClass *class)
{
    const int many = 10000;
    static const guint next[] = {GDK_KEY_Down, GDK_KEY_Right};
    static const guint before[] = {GDK_KEY_Up, GDK_KEY_Left};
    static const guint larger[] = {GDK_KEY_plus, GDK_KEY_equal, GDK_KEY_KP_Add};
    static const guint smaller[] = {GDK_KEY_minus, GDK_KEY_KP_Subtract};
    for (gsize i = 0; i < G_N_ELEMENTS(next); i++) {
        gtk_widget_class_add_binding_action(class, next[i], 0, "diagram.choose", "i", 1);
        gtk_widget_class_add_binding_action(class, before[i], 0, "diagram.choose", "i", -1);
    }
    gtk_widget_class_add_binding_action(class, GDK_KEY_Home, 0, "diagram.choose", "i", -many);
    gtk_widget_class_add_binding_action(class, GDK_KEY_End, 0, "diagram.choose", "i", many);
    gtk_widget_class_add_binding_action(class, GDK_KEY_Escape, 0, "diagram.let-go", NULL);
    for (gsize i = 0; i < G_N_ELEMENTS(larger); i++)
        gtk_widget_class_add_binding_action(class, larger[i], 0, "diagram.zoom", "d", STEP);
    for (gsize i = 0; i < G_N_ELEMENTS(smaller); i++)
        gtk_widget_class_add_binding_action(class, smaller[i], 0, "diagram.zoom", "d", 1 / STEP);
    gtk_widget_class_add_binding_action(class, GDK_KEY_0, 0, "diagram.fit", NULL);
}

/* ---- public ---- */

static void forget(WbDiagramView *self)
{
    g_clear_pointer(&self->diagram, wb_diagram_free);
    g_clear_pointer(&self->layout, wb_diagram_layout_free);
    g_clear_pointer(&self->line, g_strfreev);
    g_clear_pointer(&self->card, g_strfreev);
}

void wb_diagram_view_set(WbDiagramView *self, const WbProblem *problem, const WbKit *kit,
                         const WbWiring *wiring)
{
    g_return_if_fail(WB_IS_DIAGRAM_VIEW(self));
    forget(self);
    self->pointed = -1;
    if (problem != NULL)
        self->diagram = wb_diagram_new(problem, kit, wiring);
    if (self->diagram != NULL) {
        WbDiagramPart whole = wb_diagram_whole(self->diagram);
        PangoLayout *pango = gtk_widget_create_pango_layout(GTK_WIDGET(self), NULL);
        self->layout = wb_diagram_lay(self->diagram, &whole, pango);
        g_object_unref(pango);
        self->line = g_new0(char *, wiring->n + 1);
        self->card = g_new0(char *, wiring->n + 1);
        for (gsize i = 0; i < wiring->n; i++) {
            self->line[i] = wb_words_circuit_line(problem, &wiring->circuit[i]);
            self->card[i] = card_text(problem, kit, &wiring->circuit[i], (int)i + 1);
        }
    }
    int n = self->diagram != NULL ? self->diagram->n_lines : 0;
    self->chosen = self->chosen < n ? self->chosen : -1;
    describe(self);
    gtk_widget_queue_resize(GTK_WIDGET(self));
}

void wb_diagram_view_choose(WbDiagramView *self, int circuit)
{
    g_return_if_fail(WB_IS_DIAGRAM_VIEW(self));
    int n = self->diagram != NULL ? self->diagram->n_lines : 0;
    self->chosen = circuit < n ? circuit : -1;
    self->by_key = FALSE;
    describe(self);
    gtk_widget_queue_draw(GTK_WIDGET(self));
}

int wb_diagram_view_get_chosen(WbDiagramView *self)
{
    g_return_val_if_fail(WB_IS_DIAGRAM_VIEW(self), -1);
    return self->chosen;
}

void wb_diagram_view_zoom(WbDiagramView *self, double factor)
{
    g_return_if_fail(WB_IS_DIAGRAM_VIEW(self));
    zoom_at(self, factor, gtk_widget_get_width(GTK_WIDGET(self)) / 2.0,
            gtk_widget_get_height(GTK_WIDGET(self)) / 2.0);
}

void wb_diagram_view_fit(WbDiagramView *self)
{
    g_return_if_fail(WB_IS_DIAGRAM_VIEW(self));
    wb_roof_view_fit(&self->view);
    gtk_widget_queue_draw(GTK_WIDGET(self));
}

/* ---- building ---- */

static void wb_diagram_view_finalize(GObject *object)
{
    forget(WB_DIAGRAM_VIEW(object));
    G_OBJECT_CLASS(wb_diagram_view_parent_class)->finalize(object);
}

static void wb_diagram_view_class_init(WbDiagramViewClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->finalize = wb_diagram_view_finalize;
    widget->snapshot = wb_diagram_view_snapshot;
    widget->measure = wb_diagram_view_measure;
    widget->get_request_mode = wb_diagram_view_request_mode;
    gtk_widget_class_set_css_name(widget, "diagram");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_IMG);
    gtk_widget_class_install_action(widget, "diagram.choose", "i", act_choose);
    gtk_widget_class_install_action(widget, "diagram.let-go", NULL, act_let_go);
    gtk_widget_class_install_action(widget, "diagram.zoom", "d", act_zoom);
    gtk_widget_class_install_action(widget, "diagram.fit", NULL, act_fit);
    bind_keys(widget);
    signals[CHOSEN] = g_signal_new("chosen", WB_TYPE_DIAGRAM_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 1, G_TYPE_INT);
}

static void wb_diagram_view_init(WbDiagramView *self)
{
    GtkWidget *widget = GTK_WIDGET(self);
    GtkEventController *motion = gtk_event_controller_motion_new();
    GtkEventController *scroll =
        gtk_event_controller_scroll_new(GTK_EVENT_CONTROLLER_SCROLL_VERTICAL);
    GtkGesture *click = gtk_gesture_click_new(), *drag = gtk_gesture_drag_new();
    self->chosen = self->pointed = -1;
    gtk_widget_set_focusable(widget, TRUE);
    gtk_widget_set_overflow(widget, GTK_OVERFLOW_HIDDEN);
    g_signal_connect_swapped(motion, "enter", G_CALLBACK(on_motion), self);
    g_signal_connect_swapped(motion, "motion", G_CALLBACK(on_motion), self);
    g_signal_connect_swapped(motion, "leave", G_CALLBACK(on_leave), self);
    g_signal_connect(scroll, "scroll", G_CALLBACK(on_scroll), self);
    g_signal_connect(click, "pressed", G_CALLBACK(on_pressed), self);
    g_signal_connect_swapped(drag, "drag-begin", G_CALLBACK(on_drag_begin), self);
    g_signal_connect(drag, "drag-update", G_CALLBACK(on_drag_update), self);
    gtk_widget_add_controller(widget, motion);
    gtk_widget_add_controller(widget, scroll);
    gtk_widget_add_controller(widget, GTK_EVENT_CONTROLLER(click));
    gtk_widget_add_controller(widget, GTK_EVENT_CONTROLLER(drag));
    describe(self);
}

GtkWidget *wb_diagram_view_new(void)
{
    return g_object_new(WB_TYPE_DIAGRAM_VIEW, NULL);
}
