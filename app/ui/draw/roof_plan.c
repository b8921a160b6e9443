#include "roof_plan_private.h"

#include "figures_text.h"
#include "format.h"
#include "pen.h"
#include <glib/gi18n-lib.h>
#include <math.h>

G_DEFINE_FINAL_TYPE(WbRoofPlan, wb_roof_plan, GTK_TYPE_WIDGET)

WbPlanPlace wb_roof_plan_place(WbRoofPlan *self)
{
    const double left = 56, top = 8, right = 8, bottom = 26;
    int width = gtk_widget_get_width(GTK_WIDGET(self));
    int height = gtk_widget_get_height(GTK_WIDGET(self));
    double scale = fmin((width - left - right) / (double)self->length_mm,
                        (height - top - bottom) / (double)self->width_mm);
    scale = fmax(scale, 1e-6);
    return (WbPlanPlace){round(left + (width - left - right - scale * (double)self->length_mm) / 2),
                         top, scale};
}

static void paint_box(WbPen *pen, const WbPlanPlace *place, const WbRect *rect, const GdkRGBA *fill,
                      const GdkRGBA *line)
{
    double x = round(place->x + place->scale * (double)rect->x_mm);
    double y = round(place->y + place->scale * (double)rect->y_mm);
    double right = round(place->x + place->scale * (double)(rect->x_mm + rect->length_mm));
    double bottom = round(place->y + place->scale * (double)(rect->y_mm + rect->width_mm));
    if (fill != NULL)
        wb_pen_box(pen, x, y, right - x, bottom - y, fill);
    wb_pen_frame(pen, x, y, fmax(right - x, 2), fmax(bottom - y, 2), line);
}

static void paint_dashed(WbPen *pen, const WbPlanPlace *place, const WbRect *rect)
{
    double x = place->x + place->scale * (double)rect->x_mm;
    double y = place->y + place->scale * (double)rect->y_mm;
    double width = place->scale * (double)rect->length_mm;
    double height = place->scale * (double)rect->width_mm;
    if (width < 2 || height < 2)
        return;
    cairo_t *cr = gtk_snapshot_append_cairo(
        pen->snapshot,
        &GRAPHENE_RECT_INIT((float)x - 1, (float)y - 1, (float)width + 2, (float)height + 2));
    cairo_set_dash(cr, (const double[]){3, 3}, 2, 0);
    cairo_set_line_width(cr, 1);
    gdk_cairo_set_source_rgba(cr, &pen->palette.dim);
    cairo_rectangle(cr, x, y, width, height);
    cairo_stroke(cr);
    cairo_destroy(cr);
}

static WbRect grown(const WbRect *rect, int64_t by)
{
    return (WbRect){rect->x_mm - by, rect->y_mm - by, rect->length_mm + 2 * by,
                    rect->width_mm + 2 * by};
}

/* Where it lies now: under the pointer while it is dragged. */
static WbRect lies(const WbRoofPlan *self, guint index)
{
    WbRect rect = self->obstacles[index].rect;
    if (self->off && self->held == (int)index) {
        rect.x_mm = self->held_x_mm;
        rect.y_mm = self->held_y_mm;
    }
    return rect;
}

static void paint_position(WbPen *pen, const WbPlanPlace *place, const WbRect *rect)
{
    g_autofree char *x = wb_text_number((double)rect->x_mm, 0);
    g_autofree char *y = wb_format_quantity((double)rect->y_mm, 0, "mm");
    g_autofree char *text = g_strdup_printf("%s, %s", x, y);
    wb_pen_card(pen, text, place->x + place->scale * (double)(rect->x_mm + rect->length_mm),
                place->y + place->scale * (double)rect->y_mm);
}

/* A frame of three pixels, so that the choice is not told by colour alone. */
static void paint_choice(WbPen *pen, const WbPlanPlace *place, const WbRect *rect)
{
    double x = round(place->x + place->scale * (double)rect->x_mm);
    double y = round(place->y + place->scale * (double)rect->y_mm);
    double right = round(place->x + place->scale * (double)(rect->x_mm + rect->length_mm));
    double bottom = round(place->y + place->scale * (double)(rect->y_mm + rect->width_mm));
    for (int by = 1; by <= 2; by++)
        wb_pen_frame(pen, x - by, y - by, right - x + 2 * by, bottom - y + 2 * by,
                     &pen->palette.accent);
}

static void paint_obstacle(WbRoofPlan *self, WbPen *pen, const WbPlanPlace *place, guint index)
{
    const WbPlanObstacle *obstacle = &self->obstacles[index];
    gboolean chosen = self->chosen == (int)index;
    WbRect rect = lies(self, index);
    WbRect clear = grown(&rect, obstacle->clearance_mm);
    const GdkRGBA *line = chosen ? &pen->palette.accent : &pen->palette.ink;
    if (obstacle->clearance_mm > 0)
        paint_dashed(pen, place, &clear);
    paint_box(pen, place, &rect, &pen->palette.grid, line);
    double width = place->scale * (double)rect.length_mm;
    double x = place->x + place->scale * (double)rect.x_mm;
    double y = place->y + place->scale * (double)rect.y_mm;
    if (chosen)
        paint_choice(pen, place, &rect);
    if (width > 34)
        wb_pen_text_within(pen, obstacle->name, x + 4, y + place->scale * (double)rect.width_mm / 2,
                           width - 8, &pen->palette.ink);
}

static void paint_obstacles(WbRoofPlan *self, WbPen *pen, const WbPlanPlace *place)
{
    for (guint i = 0; i < self->n_obstacles; i++)
        paint_obstacle(self, pen, place, i);
    if (self->off && self->held >= 0) {
        WbRect rect = lies(self, (guint)self->held);
        paint_position(pen, place, &rect);
    }
}

static void paint_layout(WbRoofPlan *self, WbPen *pen, const WbPlanPlace *place)
{
    GdkRGBA fill = pen->palette.accent;
    fill.alpha = 0.18F;
    for (guint i = 0; i < self->n_layout; i++) {
        const WbRect *panel = &self->layout[i];
        paint_box(pen, place, panel, &fill, &pen->palette.accent);
        g_autofree char *size = g_strdup_printf("%" G_GINT64_FORMAT " × %" G_GINT64_FORMAT,
                                                panel->length_mm, panel->width_mm);
        int width, height;
        wb_pen_text_size(pen, size, &width, &height);
        if (width + 8 < place->scale * (double)panel->length_mm &&
            height < place->scale * (double)panel->width_mm)
            wb_pen_text(
                pen, size,
                place->x + place->scale * ((double)panel->x_mm + (double)panel->length_mm / 2),
                place->y + place->scale * ((double)panel->y_mm + (double)panel->width_mm / 2), 0.5,
                0.5, &pen->palette.ink);
    }
}

static void paint_dimensions(WbRoofPlan *self, WbPen *pen, const WbPlanPlace *place)
{
    double right = place->x + place->scale * (double)self->length_mm;
    double bottom = place->y + place->scale * (double)self->width_mm;
    g_autofree char *length = wb_format_quantity((double)self->length_mm, 0, "mm");
    g_autofree char *width = wb_text_number((double)self->width_mm, 0);
    wb_pen_across(pen, place->x, right, bottom + 8, &pen->palette.dim);
    wb_pen_down(pen, place->x, bottom + 5, bottom + 12, &pen->palette.dim);
    wb_pen_down(pen, right - 1, bottom + 5, bottom + 12, &pen->palette.dim);
    wb_pen_text(pen, length, (place->x + right) / 2, bottom + 10, 0.5, 0, &pen->palette.ink);
    wb_pen_down(pen, place->x - 8, place->y, bottom, &pen->palette.dim);
    wb_pen_across(pen, place->x - 11, place->x - 4, place->y, &pen->palette.dim);
    wb_pen_across(pen, place->x - 11, place->x - 4, bottom - 1, &pen->palette.dim);
    wb_pen_text(pen, width, place->x - 14, (place->y + bottom) / 2, 1, 0.5, &pen->palette.ink);
}

static void wb_roof_plan_snapshot(GtkWidget *widget, GtkSnapshot *snapshot)
{
    WbRoofPlan *self = WB_ROOF_PLAN(widget);
    WbPen pen;
    wb_pen_begin(&pen, widget, snapshot);
    if (self->length_mm <= 0 || self->width_mm <= 0) {
        wb_pen_empty(&pen, _("Give the roof's length and width to see it here."));
    } else {
        WbPlanPlace place = wb_roof_plan_place(self);
        const WbRect outline = {0, 0, self->length_mm, self->width_mm};
        WbRect inside = grown(&outline, -self->margin_mm);
        paint_box(&pen, &place, &outline, &pen.palette.paper, &pen.palette.ink);
        if (self->margin_mm > 0)
            paint_dashed(&pen, &place, &inside);
        if (!self->off)
            paint_layout(self, &pen, &place);
        paint_obstacles(self, &pen, &place);
        paint_dimensions(self, &pen, &place);
    }
    wb_pen_end(&pen);
}

static void wb_roof_plan_measure(GtkWidget *widget, GtkOrientation orientation, int for_size,
                                 int *minimum, int *natural, int *minimum_baseline,
                                 int *natural_baseline)
{
    *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 260 : 130;
    *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 560 : 260;
}

static void forget(WbRoofPlan *self)
{
    for (guint i = 0; i < self->n_obstacles; i++)
        g_free(self->obstacles[i].name);
    g_clear_pointer(&self->obstacles, g_free);
    g_clear_pointer(&self->layout, g_free);
    self->n_obstacles = self->n_layout = 0;
    self->length_mm = self->width_mm = self->margin_mm = 0;
}

static void wb_roof_plan_finalize(GObject *object)
{
    forget(WB_ROOF_PLAN(object));
    G_OBJECT_CLASS(wb_roof_plan_parent_class)->finalize(object);
}

static void wb_roof_plan_class_init(WbRoofPlanClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->finalize = wb_roof_plan_finalize;
    widget->snapshot = wb_roof_plan_snapshot;
    widget->measure = wb_roof_plan_measure;
    wb_roof_hand_class_init(class);
    gtk_widget_class_set_css_name(widget, "roofplan");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_IMG);
}

void wb_roof_plan_describe(WbRoofPlan *self)
{
    g_autofree char *length = wb_format_quantity((double)self->length_mm, 0, "mm");
    g_autofree char *width = wb_format_quantity((double)self->width_mm, 0, "mm");
    GString *text = g_string_new(NULL);
    g_string_append_printf(text, _("%s by %s."), length, width);
    for (guint i = 0; i < self->n_obstacles; i++) {
        const WbRect *rect = &self->obstacles[i].rect;
        g_string_append_printf(text,
                               _(" %s: %" G_GINT64_FORMAT " by %" G_GINT64_FORMAT
                                 " mm at %" G_GINT64_FORMAT ", %" G_GINT64_FORMAT "."),
                               self->obstacles[i].name, rect->length_mm, rect->width_mm, rect->x_mm,
                               rect->y_mm);
    }
    g_string_append_printf(text,
                           g_dngettext(NULL, " %u panel laid.", " %u panels laid.", self->n_layout),
                           self->n_layout);
    if (self->chosen >= 0)
        /* Translators: an obstacle's name. */
        g_string_append_printf(text, _(" Chosen: %s."), self->obstacles[self->chosen].name);
    wb_pen_describe(GTK_WIDGET(self), _("The roof from above"), text->str);
    g_string_free(text, TRUE);
}

static void wb_roof_plan_init(WbRoofPlan *self)
{
    self->chosen = self->held = -1;
    wb_roof_plan_describe(self);
}

GtkWidget *wb_roof_plan_new(void)
{
    return g_object_new(WB_TYPE_ROOF_PLAN, NULL);
}

void wb_roof_plan_set(WbRoofPlan *self, const WbRoof *roof, const WbRect *layout, guint n)
{
    g_return_if_fail(WB_IS_ROOF_PLAN(self));
    forget(self);
    if (roof != NULL) {
        self->length_mm = roof->length_mm;
        self->width_mm = roof->width_mm;
        self->margin_mm = roof->margin_mm;
        self->n_obstacles = (guint)roof->n_obstacles;
        self->obstacles = g_new0(WbPlanObstacle, roof->n_obstacles + 1);
        for (guint i = 0; i < self->n_obstacles; i++) {
            const WbObstacle *from = &roof->obstacles[i];
            self->obstacles[i] = (WbPlanObstacle){
                g_strdup(from->name),
                {from->x_mm, from->y_mm, from->length_mm, from->width_mm},
                from->clearance_mm,
            };
        }
        self->layout = g_memdup2(layout, n * sizeof *layout);
        self->n_layout = layout != NULL ? n : 0;
    }
    if (self->chosen >= (int)self->n_obstacles)
        self->chosen = -1;
    if (self->held >= (int)self->n_obstacles) {
        self->held = -1;
        self->off = FALSE;
    }
    wb_roof_plan_describe(self);
    gtk_widget_queue_draw(GTK_WIDGET(self));
}

void wb_roof_plan_make_editable(WbRoofPlan *self)
{
    g_return_if_fail(WB_IS_ROOF_PLAN(self));
    wb_roof_hand_attach(self);
}

void wb_roof_plan_choose(WbRoofPlan *self, int index)
{
    g_return_if_fail(WB_IS_ROOF_PLAN(self));
    self->chosen = index >= 0 && index < (int)self->n_obstacles ? index : -1;
    wb_roof_plan_describe(self);
    gtk_widget_queue_draw(GTK_WIDGET(self));
}

int wb_roof_plan_get_chosen(WbRoofPlan *self)
{
    g_return_val_if_fail(WB_IS_ROOF_PLAN(self), -1);
    return self->chosen;
}
