/* What a layout is made of: kept, found again, moved to its origin. */
#include "diagram_layout_private.h"

#include <math.h>

void wb_diagram_set_text(PangoLayout *pango, const WbPlacedText *text)
{
    PangoFontDescription *font = pango_font_description_from_string("Sans");
    pango_font_description_set_absolute_size(font, WB_DIAGRAM_TYPE * PANGO_SCALE);
    pango_font_description_set_weight(font, text->bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_layout_set_font_description(pango, font);
    pango_layout_set_width(pango, text->wrap > 0 ? (int)(text->wrap * PANGO_SCALE) : -1);
    pango_layout_set_wrap(pango, PANGO_WRAP_WORD_CHAR);
    pango_layout_set_ellipsize(pango, text->shortened ? PANGO_ELLIPSIZE_END : PANGO_ELLIPSIZE_NONE);
    pango_layout_set_text(pango, text->text, -1);
    pango_font_description_free(font);
}

static void clear_text(gpointer text)
{
    g_free(((WbPlacedText *)text)->text);
}

WbDiagramLayout *wb_diagram_layout_new(void)
{
    WbDiagramLayout *layout = g_new0(WbDiagramLayout, 1);
    layout->texts = g_array_new(FALSE, FALSE, sizeof(WbPlacedText));
    layout->marks = g_array_new(FALSE, FALSE, sizeof(WbPlacedMark));
    layout->strokes = g_array_new(FALSE, FALSE, sizeof(WbPlacedStroke));
    layout->areas = g_array_new(FALSE, FALSE, sizeof(WbPlacedArea));
    g_array_set_clear_func(layout->texts, clear_text);
    return layout;
}

static void widen(WbBox *all, double x, double y, double width, double height)
{
    double right = fmax(all->x + all->width, x + width);
    double bottom = fmax(all->y + all->height, y + height);
    all->x = fmin(all->x, x);
    all->y = fmin(all->y, y);
    all->width = right - all->x;
    all->height = bottom - all->y;
}

static WbBox extent(const WbDiagramLayout *layout)
{
    WbBox all = {0};
    for (guint i = 0; i < layout->texts->len; i++) {
        const WbBox *box = &g_array_index(layout->texts, WbPlacedText, i).box;
        widen(&all, box->x, box->y, box->width, box->height);
    }
    for (guint i = 0; i < layout->marks->len; i++) {
        const WbPlacedMark *mark = &g_array_index(layout->marks, WbPlacedMark, i);
        double half = mark->across ? WB_DIAGRAM_HALF / 2 : WB_DIAGRAM_HALF;
        widen(&all, mark->x - half, mark->y - half, 2 * half, 2 * half);
    }
    for (guint i = 0; i < layout->strokes->len; i++) {
        const WbPlacedStroke *stroke = &g_array_index(layout->strokes, WbPlacedStroke, i);
        widen(&all, stroke->x1, stroke->y1, 0, 0);
        widen(&all, stroke->x2, stroke->y2, 0, 0);
    }
    for (guint i = 0; i < layout->areas->len; i++) {
        const WbBox *box = &g_array_index(layout->areas, WbPlacedArea, i).box;
        widen(&all, box->x, box->y, box->width, box->height);
    }
    return all;
}

static void shift(WbDiagramLayout *layout, double dx, double dy)
{
    for (guint i = 0; i < layout->texts->len; i++) {
        WbBox *box = &g_array_index(layout->texts, WbPlacedText, i).box;
        box->x += dx, box->y += dy;
    }
    for (guint i = 0; i < layout->marks->len; i++) {
        WbPlacedMark *mark = &g_array_index(layout->marks, WbPlacedMark, i);
        mark->x += dx, mark->y += dy;
    }
    for (guint i = 0; i < layout->strokes->len; i++) {
        WbPlacedStroke *stroke = &g_array_index(layout->strokes, WbPlacedStroke, i);
        stroke->x1 += dx, stroke->x2 += dx, stroke->y1 += dy, stroke->y2 += dy;
    }
    for (guint i = 0; i < layout->areas->len; i++) {
        WbBox *box = &g_array_index(layout->areas, WbPlacedArea, i).box;
        box->x += dx, box->y += dy;
    }
}

void wb_diagram_layout_settle(WbDiagramLayout *layout, double pad)
{
    WbBox all = extent(layout);
    shift(layout, pad - all.x, pad - all.y);
    layout->width = all.width + 2 * pad;
    layout->height = all.height + 2 * pad;
}

void wb_diagram_layout_free(WbDiagramLayout *layout)
{
    g_array_unref(layout->texts);
    g_array_unref(layout->marks);
    g_array_unref(layout->strokes);
    g_array_unref(layout->areas);
    g_free(layout);
}

int wb_diagram_at(const WbDiagramLayout *layout, double x, double y)
{
    for (guint i = 0; i < layout->areas->len; i++) {
        const WbPlacedArea *area = &g_array_index(layout->areas, WbPlacedArea, i);
        const WbBox *box = &area->box;
        if (x >= box->x && x <= box->x + box->width && y >= box->y && y <= box->y + box->height)
            return area->line;
    }
    return -1;
}

gboolean wb_diagram_bounds(const WbDiagramLayout *layout, int line, WbBox *bounds)
{
    gboolean found = FALSE;
    for (guint i = 0; i < layout->areas->len; i++) {
        const WbPlacedArea *area = &g_array_index(layout->areas, WbPlacedArea, i);
        if (area->line != line)
            continue;
        if (!found)
            *bounds = area->box;
        widen(bounds, area->box.x, area->box.y, area->box.width, area->box.height);
        found = TRUE;
    }
    return found;
}
