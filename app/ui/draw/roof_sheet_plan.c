/* The first page: title, the roof to scale, dimensions, bar, front and north, and what to mind. */
#include "roof_sheet_private.h"

#include "figures_text.h"
#include <glib/gi18n-lib.h>
#include <math.h>

#define HEAD (20 * WB_PAPER_PT)  /* title */
#define FOOT (40 * WB_PAPER_PT)  /* bar, key and cautions */
#define LEFT (16 * WB_PAPER_PT)  /* dimension of the side */
#define UNDER (12 * WB_PAPER_PT) /* dimension of the length */
#define OVER (8 * WB_PAPER_PT)   /* the front's mark */
#define THIN 0.4
#define LINE 0.8
#define THICK 1.4

/* Points on paper = origin + mm on the roof x scale. */
typedef struct {
    double x, y, scale;
} Place;

static double room_width(const WbRoofSheet *sheet)
{
    return sheet->width_mm * WB_PAPER_PT - 2 * WB_PAPER_EDGE - LEFT;
}

static double room_height(const WbRoofSheet *sheet)
{
    return sheet->height_mm * WB_PAPER_PT - 2 * WB_PAPER_EDGE - HEAD - FOOT - OVER - UNDER;
}

int wb_paper_find_scale(const WbRoofSheet *sheet)
{
    static const int scales[] = {5, 10, 20, 25, 50, 100, 200, 500, 1000};
    for (guint i = 0; i < G_N_ELEMENTS(scales); i++) {
        double scale = WB_PAPER_PT / scales[i];
        if ((double)sheet->roof.length_mm * scale <= room_width(sheet) &&
            (double)sheet->roof.width_mm * scale <= room_height(sheet))
            return scales[i];
    }
    return scales[G_N_ELEMENTS(scales) - 1];
}

static Place place_of(const WbSheetPen *pen)
{
    double scale = WB_PAPER_PT / pen->sheet->scale;
    double spare = room_width(pen->sheet) - scale * (double)pen->sheet->roof.length_mm;
    return (Place){WB_PAPER_EDGE + LEFT + spare / 2, WB_PAPER_EDGE + HEAD + OVER, scale};
}

static double at_x(const Place *place, int64_t mm)
{
    return place->x + place->scale * (double)mm;
}

static double at_y(const Place *place, int64_t mm)
{
    return place->y + place->scale * (double)mm;
}

/* ---- shapes ---- */

static void outline_path(cairo_t *cr, const WbRoof *roof, const Place *place)
{
    cairo_new_path(cr);
    if (roof->n_corners == 0)
        cairo_rectangle(cr, place->x, place->y, place->scale * (double)roof->length_mm,
                        place->scale * (double)roof->width_mm);
    for (gsize i = 0; i < roof->n_corners; i++)
        cairo_line_to(cr, at_x(place, roof->corners[i].x_mm), at_y(place, roof->corners[i].y_mm));
    cairo_close_path(cr);
}

static void rect_path(cairo_t *cr, const Place *place, const WbRect *rect, gboolean round)
{
    double x = at_x(place, rect->x_mm), y = at_y(place, rect->y_mm);
    double width = place->scale * (double)rect->length_mm;
    double height = place->scale * (double)rect->width_mm;
    cairo_new_path(cr);
    if (round)
        cairo_arc(cr, x + width / 2, y + height / 2, width / 2, 0, 2 * G_PI);
    else
        cairo_rectangle(cr, x, y, width, height);
}

static WbRect rect_of(const WbObstacle *obstacle, int64_t grown_mm)
{
    return (WbRect){obstacle->x_mm - grown_mm, obstacle->y_mm - grown_mm,
                    obstacle->length_mm + 2 * grown_mm, obstacle->width_mm + 2 * grown_mm};
}

static void stroke(cairo_t *cr, double line_width, double dash)
{
    cairo_set_line_width(cr, line_width);
    cairo_set_dash(cr, &dash, dash > 0 ? 1 : 0, 0);
    cairo_stroke(cr);
    cairo_set_dash(cr, NULL, 0, 0);
}

/* Slanting lines inside the path: told apart on a black and white printer. */
static void hatch(cairo_t *cr, double step, gboolean falling)
{
    double x1, y1, x2, y2;
    cairo_save(cr);
    cairo_clip_preserve(cr);
    cairo_clip_extents(cr, &x1, &y1, &x2, &y2);
    cairo_path_t *path = cairo_copy_path(cr);
    cairo_new_path(cr);
    double height = y2 - y1;
    for (double x = floor((x1 - height) / step) * step; x < x2; x += step) {
        cairo_move_to(cr, x, falling ? y1 : y2);
        cairo_line_to(cr, x + height, falling ? y2 : y1);
    }
    stroke(cr, THIN, 0);
    cairo_restore(cr);
    cairo_new_path(cr);
    cairo_append_path(cr, path);
    cairo_path_destroy(path);
}

/* White under the text, so that it is read over hatching. */
static void text_on_white(WbSheetPen *pen, const char *text, double size, double x, double y)
{
    double width = wb_paper_text_width(&pen->paper, text, size) + 3;
    cairo_save(pen->paper.cr);
    cairo_set_source_rgb(pen->paper.cr, 1, 1, 1);
    cairo_rectangle(pen->paper.cr, x - width / 2, y - size * 0.7, width, size * 1.4);
    cairo_fill(pen->paper.cr);
    cairo_restore(pen->paper.cr);
    wb_paper_text(&pen->paper, text, size, TRUE, x, y, 0.5, 0.5);
}

/* ---- what stands and lies ---- */

static void draw_obstacle(WbSheetPen *pen, const Place *place, int index)
{
    const WbObstacle *obstacle = &pen->sheet->roof.obstacles[index];
    WbRect rect = rect_of(obstacle, 0), grown = rect_of(obstacle, obstacle->clearance_mm);
    g_autofree char *letters = wb_paper_letters(index);
    if (obstacle->clearance_mm > 0 && obstacle->kind == WB_OBSTACLE_STANDS) {
        rect_path(pen->paper.cr, place, &grown, obstacle->round);
        stroke(pen->paper.cr, THIN, 2);
    }
    rect_path(pen->paper.cr, place, &rect, obstacle->round);
    if (obstacle->kind == WB_OBSTACLE_STANDS)
        hatch(pen->paper.cr, 3, FALSE);
    else if (obstacle->kind == WB_OBSTACLE_SHADE)
        hatch(pen->paper.cr, 8, TRUE);
    stroke(pen->paper.cr, obstacle->kind == WB_OBSTACLE_STANDS ? LINE : THIN,
           obstacle->kind == WB_OBSTACLE_STANDS ? 0 : 4);
    double x = place->scale * (double)rect.length_mm, y = place->scale * (double)rect.width_mm;
    double middle = at_y(place, rect.y_mm) + y / 2;
    if (x > 12 && y > 9)
        text_on_white(pen, letters, 7, at_x(place, rect.x_mm) + x / 2, middle);
    else
        text_on_white(pen, letters, 7, at_x(place, rect.x_mm) + x + 6, middle);
}

static gboolean is_pinned(const WbRoof *roof, const WbRect *rect)
{
    for (gsize i = 0; i < roof->n_pins; i++)
        if (roof->pins[i].x_mm == rect->x_mm && roof->pins[i].y_mm == rect->y_mm)
            return TRUE;
    return FALSE;
}

static void draw_panel(WbSheetPen *pen, const Place *place, int index)
{
    const WbRect *rect = &pen->sheet->panels[index].rect;
    double width = place->scale * (double)rect->length_mm;
    double height = place->scale * (double)rect->width_mm;
    double x = at_x(place, rect->x_mm) + width / 2, y = at_y(place, rect->y_mm) + height / 2;
    g_autofree char *number =
        g_strdup_printf("%d%s", index + 1, is_pinned(&pen->sheet->roof, rect) ? _(" pinned") : "");
    g_autofree char *length = wb_text_number((double)rect->length_mm, 0);
    g_autofree char *across = wb_text_number((double)rect->width_mm, 0);
    g_autofree char *size = g_strdup_printf("%s \303\227 %s", length, across);
    rect_path(pen->paper.cr, place, rect, FALSE);
    stroke(pen->paper.cr, THICK, 0);
    gboolean room = wb_paper_text_width(&pen->paper, size, 7) + 4 < width && height > 24;
    text_on_white(pen, number, 10, x, room ? y - 6 : y);
    if (room)
        text_on_white(pen, size, 7, x, y + 7);
}

static void draw_gland(WbSheetPen *pen, const Place *place)
{
    const WbRoof *roof = &pen->sheet->roof;
    if (!roof->has_gland)
        return;
    double x = at_x(place, roof->gland.x_mm), y = at_y(place, roof->gland.y_mm);
    cairo_new_path(pen->paper.cr);
    cairo_arc(pen->paper.cr, x, y, 3, 0, 2 * G_PI);
    stroke(pen->paper.cr, LINE, 0);
    wb_paper_line(&pen->paper, x - 5, y, x + 5, y, LINE);
    wb_paper_line(&pen->paper, x, y - 5, x, y + 5, LINE);
    wb_paper_text(&pen->paper, _("cables"), 6, FALSE, x + 6, y, 0, 0);
}

static void draw_roof(WbSheetPen *pen, const Place *place)
{
    const WbRoof *roof = &pen->sheet->roof;
    const WbRect inside = {roof->margin_mm, roof->margin_mm, roof->length_mm - 2 * roof->margin_mm,
                           roof->width_mm - 2 * roof->margin_mm};
    if (roof->n_corners == 0 && roof->margin_mm > 0 && inside.length_mm > 0 &&
        inside.width_mm > 0) {
        rect_path(pen->paper.cr, place, &inside, FALSE);
        stroke(pen->paper.cr, THIN, 2);
    }
    for (int i = 0; i < (int)roof->n_obstacles; i++)
        if (roof->obstacles[i].kind != WB_OBSTACLE_STANDS)
            draw_obstacle(pen, place, i);
    for (int i = 0; i < pen->sheet->n; i++)
        draw_panel(pen, place, i);
    for (int i = 0; i < (int)roof->n_obstacles; i++)
        if (roof->obstacles[i].kind == WB_OBSTACLE_STANDS)
            draw_obstacle(pen, place, i);
    draw_gland(pen, place);
    outline_path(pen->paper.cr, roof, place);
    stroke(pen->paper.cr, THICK, 0);
}

/* ---- dimensions and marks ---- */

static void draw_dimensions(WbSheetPen *pen, const Place *place)
{
    const WbRoof *roof = &pen->sheet->roof;
    double right = at_x(place, roof->length_mm), bottom = at_y(place, roof->width_mm);
    double y = bottom + 5 * WB_PAPER_PT, x = place->x - 5 * WB_PAPER_PT;
    g_autofree char *length = wb_text_number((double)roof->length_mm, 0);
    g_autofree char *width = wb_text_number((double)roof->width_mm, 0);
    wb_paper_line(&pen->paper, place->x, y, right, y, THIN);
    wb_paper_line(&pen->paper, place->x, y - 4, place->x, y + 4, LINE);
    wb_paper_line(&pen->paper, right, y - 4, right, y + 4, LINE);
    text_on_white(pen, length, 9, (place->x + right) / 2, y);
    wb_paper_line(&pen->paper, x, place->y, x, bottom, THIN);
    wb_paper_line(&pen->paper, x - 4, place->y, x + 4, place->y, LINE);
    wb_paper_line(&pen->paper, x - 4, bottom, x + 4, bottom, LINE);
    text_on_white(pen, width, 9, x, (place->y + bottom) / 2);
}

static void arrow(cairo_t *cr, double x, double y, double length, double angle)
{
    cairo_save(cr);
    cairo_translate(cr, x, y);
    cairo_rotate(cr, angle);
    cairo_move_to(cr, 0, length / 2);
    cairo_line_to(cr, 0, -length / 2);
    cairo_set_line_width(cr, LINE);
    cairo_stroke(cr);
    cairo_move_to(cr, 0, -length / 2 - 2);
    cairo_line_to(cr, -3, -length / 2 + 5);
    cairo_line_to(cr, 3, -length / 2 + 5);
    cairo_close_path(cr);
    cairo_fill(cr);
    cairo_restore(cr);
}

static void draw_marks(WbSheetPen *pen, const Place *place)
{
    const WbRoof *roof = &pen->sheet->roof;
    double middle = (place->x + at_x(place, roof->length_mm)) / 2;
    double width = wb_paper_text_width(&pen->paper, _("front edge"), 8);
    wb_paper_text(&pen->paper, _("front edge"), 8, FALSE, middle, place->y - 3, 0.5, 1);
    arrow(pen->paper.cr, middle - width / 2 - 8, place->y - 9, 9, 0);
    wb_paper_text(&pen->paper, _("left edge"), 8, FALSE, place->x + 3, place->y - 3, 0, 1);
    if (isnan(roof->front_azimuth_deg))
        return;
    double x = pen->paper.width - WB_PAPER_EDGE - 14, y = WB_PAPER_EDGE + 16;
    double angle = -roof->front_azimuth_deg * G_PI / 180;
    arrow(pen->paper.cr, x, y, 26, angle);
    wb_paper_text(&pen->paper, _("N"), 9, TRUE, x + 20 * sin(angle), y - 20 * cos(angle), 0.5, 0.5);
}

static void draw_head(WbSheetPen *pen)
{
    const WbRoofSheet *sheet = pen->sheet;
    double y = WB_PAPER_EDGE;
    double height = wb_paper_text(&pen->paper, sheet->title, 14, TRUE, WB_PAPER_EDGE, y, 0, 0);
    g_autofree char *name =
        sheet->n > 0 ? g_strdup_printf("%d \303\227 %s", sheet->n, sheet->panels[0].name) : NULL;
    gboolean one = TRUE;
    for (int i = 1; i < sheet->n; i++)
        one = one && g_str_equal(sheet->panels[i].name, sheet->panels[0].name);
    g_autofree char *what = sheet->n == 0 ? g_strdup(_("no panels"))
                            : one         ? g_strdup(name)
                                  : g_strdup_printf(_("%d panels of several models"), sheet->n);
    g_autofree char *text =
        g_strdup_printf(_("Roof from above, 1:%d. %s. All lengths in mm."), sheet->scale, what);
    wb_paper_text(&pen->paper, text, 9, FALSE, WB_PAPER_EDGE, y + height + 3, 0, 0);
}

/* ---- foot ---- */

/* A bar of round length on the roof, 30 to 80 mm on paper, in five pieces. */
static double draw_bar(WbSheetPen *pen, double x, double y)
{
    static const int rounds[] = {200, 500, 1000, 2000, 5000, 10000, 20000, 50000};
    int mm = rounds[0];
    for (guint i = 0; i < G_N_ELEMENTS(rounds) && rounds[i] / pen->sheet->scale <= 80; i++)
        mm = rounds[i];
    double length = WB_PAPER_PT * mm / pen->sheet->scale;
    for (int i = 0; i < 5; i++) {
        cairo_rectangle(pen->paper.cr, x + length * i / 5, y, length / 5, 5);
        if (i % 2 == 0)
            cairo_fill_preserve(pen->paper.cr);
        stroke(pen->paper.cr, THIN, 0);
    }
    g_autofree char *roof = wb_text_number(mm, 0);
    g_autofree char *paper = wb_text_number((double)mm / pen->sheet->scale, 1);
    g_autofree char *text = g_strdup_printf(
        _("%s mm on the roof. Printed true to scale this bar is %s mm long."), roof, paper);
    wb_paper_text(&pen->paper, text, 7, FALSE, x, y + 7, 0, 0);
    return 20;
}

static char *load_text(const WbRoofSheet *sheet)
{
    g_autofree char *limit = wb_text_number(sheet->roof.max_load_kg, 1);
    if (isnan(sheet->load_kg) || sheet->n == 0)
        return g_strdup(_("Keep to the load the roof’s maker allows, mounts and snow included."));
    g_autofree char *kg = wb_text_number(sheet->load_kg, 1);
    if (isnan(sheet->roof.max_load_kg))
        return g_strdup_printf(_("The panels with their mounts weigh %s kg; no limit of the roof "
                                 "was given: ask its maker."),
                               kg);
    return g_strdup_printf(sheet->load_kg > sheet->roof.max_load_kg
                               ? _("TOO HEAVY: the panels with their mounts weigh %s kg; the roof "
                                   "was said to carry only %s kg.")
                               : _("The panels with their mounts weigh %s kg; the roof was said "
                                   "to carry %s kg."),
                           kg, limit);
}

static void draw_foot(WbSheetPen *pen, double y)
{
    double x = WB_PAPER_EDGE, width = pen->paper.width - 2 * WB_PAPER_EDGE;
    g_autofree char *load = load_text(pen->sheet);
    g_autofree char *text = g_strconcat(
        _("Thick: roof and panels, by number. Hatched: what stands on the roof, by letter, its "
          "clearance dashed. Wide hatching: often shaded. Dashed without hatching: walkway."),
        "\n", load, "\n",
        _("Check every length on the roof itself before you drill, and look what lies under the "
          "skin: ribs, cables, gas and water. Fixings must hold against the wind of the road and "
          "the storm and against vibration; follow the makers of panel, mount and roof. Seal every "
          "hole and cable entry. Secure yourself: a fall from a roof can kill. Panels in light are "
          "live; cover them while you connect."),
        NULL);
    y += draw_bar(pen, x, y);
    wb_paper_paragraph(&pen->paper, text, 7.5, x, y + 3, width);
}

void wb_paper_draw_plan(WbSheetPen *pen)
{
    Place place = place_of(pen);
    draw_head(pen);
    draw_roof(pen, &place);
    draw_dimensions(pen, &place);
    draw_marks(pen, &place);
    draw_foot(pen, pen->paper.height - WB_PAPER_EDGE - FOOT + 6);
}
