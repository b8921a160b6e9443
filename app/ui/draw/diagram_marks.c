/* Symbols in the manner of IEC 60617, drawn by us from memory of the standard: each about the
 * origin, leads up and down, in a square of 40 units. */
#include "diagram_paint.h"

#include <math.h>

#define THIN 1.0
#define LINE 1.4
#define THICK 2.6

static void line(cairo_t *cr, double x1, double y1, double x2, double y2)
{
    cairo_move_to(cr, x1, y1);
    cairo_line_to(cr, x2, y2);
}

static void stroke(cairo_t *cr, double width)
{
    cairo_set_line_width(cr, width);
    cairo_stroke(cr);
}

static void box(cairo_t *cr)
{
    cairo_rectangle(cr, -20, -20, 40, 40);
    stroke(cr, LINE);
}

/* Direct current: a line over a dashed one; alternating current: a wave. */
static void direct(cairo_t *cr, double x, double y)
{
    line(cr, x - 7, y - 2, x + 7, y - 2);
    for (int i = -1; i <= 1; i++)
        line(cr, x + i * 5.5 - 1.5, y + 2, x + i * 5.5 + 1.5, y + 2);
    stroke(cr, THIN);
}

static void alternating(cairo_t *cr, double x, double y)
{
    cairo_move_to(cr, x - 7, y);
    cairo_curve_to(cr, x - 4, y - 8, x - 2, y - 6, x, y);
    cairo_curve_to(cr, x + 2, y + 6, x + 4, y + 8, x + 7, y);
    stroke(cr, THIN);
}

static void converter(cairo_t *cr, gboolean ac_above, gboolean ac_below)
{
    box(cr);
    line(cr, -20, 20, 20, -20);
    stroke(cr, THIN);
    if (ac_above)
        alternating(cr, -8, -9);
    else
        direct(cr, -8, -9);
    if (ac_below)
        alternating(cr, 8, 10);
    else
        direct(cr, 8, 10);
}

/* Plates of a cell: the long one is positive. */
static void cell(cairo_t *cr, double y, double reach)
{
    line(cr, -reach, y - 2.5, reach, y - 2.5);
    stroke(cr, LINE);
    line(cr, -reach / 2, y + 2.5, reach / 2, y + 2.5);
    stroke(cr, THICK);
}

static void arrow_head(cairo_t *cr, double x, double y, double angle, double size)
{
    cairo_save(cr);
    cairo_translate(cr, x, y);
    cairo_rotate(cr, angle);
    cairo_move_to(cr, 0, 0);
    cairo_line_to(cr, -size, -size / 2.4);
    cairo_line_to(cr, -size, size / 2.4);
    cairo_close_path(cr);
    cairo_fill(cr);
    cairo_restore(cr);
}

/* Light falls on a cell in a box. */
static void panels(cairo_t *cr)
{
    box(cr);
    line(cr, 0, -20, 0, 2.5);
    line(cr, 0, 9.5, 0, 20);
    stroke(cr, THIN);
    cairo_save(cr);
    cairo_translate(cr, 0, 6);
    cell(cr, 0, 11);
    cairo_restore(cr);
    for (int i = 0; i < 2; i++) {
        double x = -15 + 7 * i;
        line(cr, x, -16, x + 7, -5);
        stroke(cr, THIN);
        arrow_head(cr, x + 8, -3.5, atan2(11, 7), 5);
    }
}

static void battery(cairo_t *cr)
{
    cell(cr, -6, 13);
    cell(cr, 6, 13);
    line(cr, 0, -3.5, 0, 3.5);
    stroke(cr, THIN);
    line(cr, -19, -12, -13, -12); /* + at the positive plate */
    line(cr, -16, -15, -16, -9);
    stroke(cr, THIN);
}

static void fuse(cairo_t *cr)
{
    cairo_rectangle(cr, -5, -10, 10, 20);
    line(cr, 0, -13, 0, 13);
    stroke(cr, LINE);
}

/* Switch-disconnector: the bar and circle at its fixed contact say that it parts safely. */
static void disconnect(cairo_t *cr)
{
    line(cr, 0, -13, 0, -8);
    line(cr, -5, -8, 5, -8);
    line(cr, 0, 13, 0, 8);
    line(cr, 0, 8, -9, -6);
    stroke(cr, LINE);
    cairo_new_sub_path(cr);
    cairo_arc(cr, 0, -5.5, 2.5, 0, 2 * G_PI);
    stroke(cr, THIN);
}

static void load(cairo_t *cr)
{
    line(cr, 0, -7, 0, 0);
    stroke(cr, LINE);
    arrow_head(cr, 0, 7, G_PI_2, 9);
}

static void earth(cairo_t *cr, gboolean circled)
{
    line(cr, 0, -20, 0, 0);
    for (int i = 0; i < 3; i++)
        line(cr, -10 + 3.5 * i, 4 * i, 10 - 3.5 * i, 4 * i);
    stroke(cr, LINE);
    if (!circled)
        return;
    cairo_new_sub_path(cr);
    cairo_arc(cr, 0, 1, 14, 0, 2 * G_PI);
    stroke(cr, THIN);
}

static void chassis(cairo_t *cr)
{
    line(cr, 0, -20, 0, 0);
    line(cr, -12, 0, 12, 0);
    for (int i = 0; i < 3; i++)
        line(cr, -12 + 12 * i, 0, -17 + 12 * i, 8);
    stroke(cr, LINE);
}

void wb_diagram_mark(cairo_t *cr, WbMark mark, double x, double y, gboolean across)
{
    cairo_save(cr);
    cairo_translate(cr, x, y);
    if (across)
        cairo_rotate(cr, -G_PI_2);
    cairo_new_path(cr);
    switch (mark) {
    case WB_MARK_PANELS:
        panels(cr);
        break;
    case WB_MARK_BATTERY:
        battery(cr);
        break;
    case WB_MARK_CONVERTER:
        converter(cr, FALSE, FALSE);
        break;
    case WB_MARK_INVERTER:
        converter(cr, FALSE, TRUE);
        break;
    case WB_MARK_RECTIFIER:
        converter(cr, TRUE, FALSE);
        break;
    case WB_MARK_LOAD:
        load(cr);
        break;
    case WB_MARK_JOINT:
        cairo_arc(cr, 0, 0, 3.5, 0, 2 * G_PI);
        cairo_fill(cr);
        break;
    case WB_MARK_FUSE:
        fuse(cr);
        break;
    case WB_MARK_SWITCH:
        disconnect(cr);
        break;
    case WB_MARK_EARTH:
        earth(cr, FALSE);
        break;
    case WB_MARK_PROTECTIVE_EARTH:
        earth(cr, TRUE);
        break;
    case WB_MARK_CHASSIS:
        chassis(cr);
        break;
    }
    cairo_restore(cr);
}
