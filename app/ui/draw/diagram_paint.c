#include "diagram_paint.h"

#include <pango/pangocairo.h>

#define HALO 5.0   /* of a chosen circuit, about its wire */
#define BEHIND 3.0 /* a second one alike shows behind */
#define SYMBOL 40.0

void wb_palette_print(WbPalette *palette)
{
    const GdkRGBA black = {0, 0, 0, 1}, gray = {0.25f, 0.25f, 0.25f, 1};
    *palette = (WbPalette){.ink = black,
                           .dim = gray,
                           .grid = gray,
                           .paper = {1, 1, 1, 1},
                           .accent = black,
                           .warm = black,
                           .over = black};
    for (int i = 0; i < WB_N_SERIES; i++)
        palette->series[i] = black;
}

typedef struct {
    const WbDiagram *diagram;
    const WbDiagramLayout *layout;
    cairo_t *cr;
    const WbPalette *palette;
    int chosen, pointed;
} Paint;

static gboolean stands_out(const Paint *paint, int line)
{
    return line >= 0 && (line == paint->chosen || line == paint->pointed);
}

static gboolean is_fault(const Paint *paint, int line)
{
    return line >= 0 && paint->diagram->line[line].fault;
}

static const GdkRGBA *color_of(const Paint *paint, int line)
{
    if (is_fault(paint, line))
        return &paint->palette->over;
    return stands_out(paint, line) ? &paint->palette->accent : &paint->palette->ink;
}

/* A band behind the chosen circuit: seen without colour as well. */
static void paint_bands(const Paint *paint)
{
    for (guint i = 0; i < paint->layout->areas->len; i++) {
        const WbPlacedArea *area = &g_array_index(paint->layout->areas, WbPlacedArea, i);
        if (!stands_out(paint, area->line))
            continue;
        GdkRGBA band = paint->palette->accent;
        band.alpha = area->line == paint->chosen ? 0.16f : 0.08f;
        gdk_cairo_set_source_rgba(paint->cr, &band);
        cairo_rectangle(paint->cr, area->box.x, area->box.y, area->box.width + HALO,
                        area->box.height);
        cairo_fill(paint->cr);
    }
}

static void paint_strokes(const Paint *paint)
{
    static const double dash = 4;
    for (guint i = 0; i < paint->layout->strokes->len; i++) {
        const WbPlacedStroke *stroke = &g_array_index(paint->layout->strokes, WbPlacedStroke, i);
        gdk_cairo_set_source_rgba(paint->cr, color_of(paint, stroke->line));
        cairo_set_dash(paint->cr, &dash, is_fault(paint, stroke->line) ? 1 : 0, 0);
        cairo_set_line_width(paint->cr,
                             stroke->width + (stands_out(paint, stroke->line) ? 0.8 : 0));
        cairo_move_to(paint->cr, stroke->x1, stroke->y1);
        cairo_line_to(paint->cr, stroke->x2, stroke->y2);
        cairo_stroke(paint->cr);
    }
    cairo_set_dash(paint->cr, NULL, 0, 0);
}

/* Several alike: the corner of a second one looks out behind the first. */
static void paint_behind(const Paint *paint, const WbPlacedMark *mark)
{
    double left = mark->x - SYMBOL / 2, top = mark->y - SYMBOL / 2;
    cairo_move_to(paint->cr, left + BEHIND, top - 1);
    cairo_rel_line_to(paint->cr, 0, -BEHIND + 1);
    cairo_rel_line_to(paint->cr, SYMBOL, 0);
    cairo_rel_line_to(paint->cr, 0, SYMBOL);
    cairo_rel_line_to(paint->cr, -BEHIND + 1, 0);
    cairo_set_line_width(paint->cr, 1);
    cairo_stroke(paint->cr);
}

static void paint_marks(const Paint *paint)
{
    for (guint i = 0; i < paint->layout->marks->len; i++) {
        const WbPlacedMark *mark = &g_array_index(paint->layout->marks, WbPlacedMark, i);
        gdk_cairo_set_source_rgba(paint->cr, color_of(paint, mark->line));
        wb_diagram_mark(paint->cr, mark->mark, mark->x, mark->y, mark->across);
        if (mark->count > 1)
            paint_behind(paint, mark);
    }
}

static void paint_texts(const Paint *paint)
{
    PangoLayout *pango = pango_cairo_create_layout(paint->cr);
    pango_context_set_round_glyph_positions(pango_layout_get_context(pango), FALSE);
    const GdkRGBA *const tones[] = {[WB_TONE_INK] = &paint->palette->ink,
                                    [WB_TONE_DIM] = &paint->palette->dim,
                                    [WB_TONE_OVER] = &paint->palette->over};
    for (guint i = 0; i < paint->layout->texts->len; i++) {
        const WbPlacedText *text = &g_array_index(paint->layout->texts, WbPlacedText, i);
        wb_diagram_set_text(pango, text);
        gdk_cairo_set_source_rgba(paint->cr, tones[text->tone]);
        cairo_move_to(paint->cr, text->box.x, text->box.y);
        pango_cairo_show_layout(paint->cr, pango);
    }
    g_object_unref(pango);
}

void wb_diagram_paint(const WbDiagram *diagram, const WbDiagramLayout *layout, cairo_t *cr,
                      const WbPalette *palette, int chosen, int pointed)
{
    const Paint paint = {diagram, layout, cr, palette, chosen, pointed};
    cairo_save(cr);
    paint_bands(&paint);
    paint_strokes(&paint);
    paint_marks(&paint);
    paint_texts(&paint);
    cairo_restore(cr);
}
