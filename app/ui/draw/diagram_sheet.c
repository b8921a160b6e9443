#include "diagram_sheet_private.h"

#include "diagram_paint.h"
#include "words.h"
#include "words_circuit.h"
#include <glib/gi18n-lib.h>

#define LEAST_SCALE 0.7 /* type of 7 points: smaller is not read by the light of a torch */
#define HEAD_TYPE 14.0
#define KIT_TYPE 9.0
#define NOTE_TYPE 7.5
#define FOOT (6 * WB_PAPER_PT)
#define GAP 6.0
#define MOST_COLUMNS 3

/* ---- room on a page ---- */

static double head_height(const WbDiagramSheet *sheet, const WbPaperPen *pen)
{
    double width = pen->width - 2 * WB_PAPER_EDGE;
    return wb_paper_paragraph_height(pen, sheet->title, HEAD_TYPE, width) +
           wb_paper_paragraph_height(pen, sheet->kit, KIT_TYPE, width) +
           wb_paper_paragraph_height(pen, sheet->date, KIT_TYPE, width) + 2 * GAP;
}

static double notes_height(const WbDiagramSheet *sheet, const WbPaperPen *pen)
{
    double width = pen->width - 2 * WB_PAPER_EDGE;
    return wb_paper_paragraph_height(pen, sheet->notes, NOTE_TYPE, width) + GAP;
}

/* For the drawing; pages after the first bear no head and notes. */
static WbBox room_of(const WbDiagramSheet *sheet, const WbPaperPen *pen, int page)
{
    double head = page == 0 ? head_height(sheet, pen) : GAP;
    double notes = page == 0 ? notes_height(sheet, pen) : 0;
    return (WbBox){WB_PAPER_EDGE, WB_PAPER_EDGE + head, pen->width - 2 * WB_PAPER_EDGE,
                   pen->height - 2 * WB_PAPER_EDGE - head - notes - FOOT};
}

static double fit(const WbDiagram *diagram, const WbDiagramPart *part, const WbBox *room,
                  PangoLayout *pango)
{
    g_autoptr(WbDiagramLayout) layout = wb_diagram_lay(diagram, part, pango);
    return MIN(1, MIN(room->width / layout->width, room->height / layout->height));
}

/* ---- which part on which page ---- */

/* The columns of loads that let it be largest. */
static double best_columns(const WbDiagram *diagram, WbDiagramPart *part, const WbBox *room,
                           PangoLayout *pango)
{
    WbDiagramPart tried = *part;
    double best = 0;
    for (tried.columns = 1; tried.columns <= MOST_COLUMNS; tried.columns++) {
        double scale = fit(diagram, &tried, room, pango);
        if (scale > best)
            *part = tried;
        best = MAX(best, scale);
    }
    return best;
}

/* As many loads as keep the type readable, halving what is not decided: fewer are never smaller. A
 * page of loads alone takes one at least. */
static double most_loads(const WbDiagram *diagram, WbDiagramPart *part, const WbBox *room,
                         PangoLayout *pango)
{
    int first = part->first_load, left = diagram->n_loads - first;
    int holds = part->trunk ? 0 : 1, over = left + 1;
    WbDiagramPart tried = {part->trunk, first, left, 1};
    while (over - holds > 1) {
        if (best_columns(diagram, &tried, room, pango) >= LEAST_SCALE)
            holds = tried.n_loads;
        else
            over = tried.n_loads;
        tried.n_loads = (holds + over) / 2;
    }
    part->n_loads = holds;
    return best_columns(diagram, part, room, pango);
}

/* Shares the loads out over pages held this way. Answers the smallest scale of any page. */
static double share_out(const WbDiagramSheet *sheet, const WbPaperPen *pen, GArray *parts)
{
    double least = 1;
    int done = 0;
    do {
        int page = (int)parts->len;
        WbBox room = room_of(sheet, pen, page);
        WbDiagramPart part = {page == 0, done, 0, 1};
        least = MIN(least, most_loads(sheet->diagram, &part, &room, pen->layout));
        done += part.n_loads;
        g_array_append_val(parts, part);
    } while (done < sheet->diagram->n_loads);
    return least;
}

static WbPaperPen hold(const WbPaperPen *pen, double width_mm, double height_mm)
{
    return (WbPaperPen){pen->cr, pen->layout, width_mm * WB_PAPER_PT, height_mm * WB_PAPER_PT};
}

/* Upright or across: fewer pages first, then larger type. */
static void choose_paper(WbDiagramSheet *sheet, WbPaperPen *pen, double shorter, double longer)
{
    WbPaperPen upright = hold(pen, shorter, longer), across = hold(pen, longer, shorter);
    GArray *up = g_array_new(FALSE, FALSE, sizeof(WbDiagramPart));
    GArray *along = g_array_new(FALSE, FALSE, sizeof(WbDiagramPart));
    double up_scale = share_out(sheet, &upright, up);
    double along_scale = share_out(sheet, &across, along);
    gboolean is_across = along->len < up->len || (along->len == up->len && along_scale > up_scale);
    GArray *taken = is_across ? along : up;
    sheet->scale = is_across ? along_scale : up_scale;
    sheet->width_mm = is_across ? longer : shorter;
    sheet->height_mm = is_across ? shorter : longer;
    sheet->n_parts = (int)taken->len;
    sheet->part = g_memdup2(taken->data, taken->len * sizeof(WbDiagramPart));
    *pen = is_across ? across : upright;
    g_array_unref(up);
    g_array_unref(along);
}

/* ---- the sheet ---- */

static char *notes_of(const WbProblem *problem)
{
    int rules = problem->brief->rule_set;
    return g_strconcat(wb_words_polarity(rules), "\n", wb_words_earthing(rules), "\n",
                       wb_words_disconnects(), NULL);
}

WbDiagramSheet *wb_diagram_sheet_new(const WbProblem *problem, const WbKit *kit,
                                     const WbWiring *wiring, const char *title, const char *date,
                                     gboolean letter)
{
    g_return_val_if_fail(wiring->n > 0, NULL);
    WbDiagramSheet *sheet = g_new0(WbDiagramSheet, 1);
    PangoContext *context = pango_font_map_create_context(pango_cairo_font_map_get_default());
    WbPaperPen pen = {NULL, pango_layout_new(context), 0, 0};
    sheet->title = g_strdup(title);
    sheet->kit = wb_words_kit(problem, kit);
    sheet->date =
        g_strdup_printf(_("Wiring diagram, %s. Numbers as in the table of circuits."), date);
    sheet->sum = wb_words_wiring(problem, wiring);
    sheet->notes = notes_of(problem);
    sheet->diagram = wb_diagram_new(problem, kit, wiring);
    choose_paper(sheet, &pen, letter ? WB_PAPER_LETTER_SHORT_MM : WB_PAPER_A4_SHORT_MM,
                 letter ? WB_PAPER_LETTER_LONG_MM : WB_PAPER_A4_LONG_MM);
    wb_sheet_circuits_fill(sheet, &pen, problem, kit, wiring);
    g_object_unref(pen.layout);
    g_object_unref(context);
    return sheet;
}

void wb_diagram_sheet_free(WbDiagramSheet *sheet)
{
    for (int i = 0; i < sheet->n_circuits; i++) {
        for (int column = 0; column < WB_CIRCUIT_COLUMNS; column++)
            g_free(sheet->circuit[i].cell[column]);
        g_free(sheet->circuit[i].under);
    }
    wb_diagram_free(sheet->diagram);
    g_free(sheet->circuit);
    g_free(sheet->part);
    g_free(sheet->title);
    g_free(sheet->kit);
    g_free(sheet->date);
    g_free(sheet->sum);
    g_free(sheet->notes);
    g_free(sheet);
}

int wb_diagram_sheet_pages(const WbDiagramSheet *sheet)
{
    return sheet->n_parts + sheet->table_pages;
}

double wb_diagram_sheet_type(const WbDiagramSheet *sheet)
{
    return sheet->scale * WB_DIAGRAM_TYPE;
}

/* ---- drawing ---- */

static void draw_head(const WbDiagramSheet *sheet, const WbPaperPen *pen)
{
    double x = WB_PAPER_EDGE, y = WB_PAPER_EDGE, width = pen->width - 2 * WB_PAPER_EDGE;
    y += wb_paper_text(pen, sheet->title, HEAD_TYPE, TRUE, x, y, 0, 0);
    y += wb_paper_paragraph(pen, sheet->kit, KIT_TYPE, x, y, width);
    wb_paper_paragraph(pen, sheet->date, KIT_TYPE, x, y, width);
}

static void draw_part(const WbDiagramSheet *sheet, const WbPaperPen *pen, int page)
{
    WbPalette print;
    WbBox room = room_of(sheet, pen, page);
    g_autoptr(WbDiagramLayout) layout =
        wb_diagram_lay(sheet->diagram, &sheet->part[page], pen->layout);
    double scale = MIN(1, MIN(room.width / layout->width, room.height / layout->height));
    wb_palette_print(&print);
    if (page == 0) {
        draw_head(sheet, pen);
        wb_paper_paragraph(pen, sheet->notes, NOTE_TYPE, WB_PAPER_EDGE, room.y + room.height + GAP,
                           room.width);
    }
    cairo_save(pen->cr);
    cairo_translate(pen->cr, room.x + (room.width - scale * layout->width) / 2, room.y);
    cairo_scale(pen->cr, scale, scale);
    wb_diagram_paint(sheet->diagram, layout, pen->cr, &print, -1, -1);
    cairo_restore(pen->cr);
}

static void draw_foot(const WbDiagramSheet *sheet, const WbPaperPen *pen, int page)
{
    g_autofree char *text = g_strdup_printf(_("%s, wiring, page %d of %d"), sheet->title, page + 1,
                                            wb_diagram_sheet_pages(sheet));
    double y = pen->height - WB_PAPER_EDGE;
    wb_paper_text(pen, wb_words_plans_only(), 7, FALSE, WB_PAPER_EDGE, y, 0, 1);
    wb_paper_text(pen, text, 7, FALSE, pen->width - WB_PAPER_EDGE, y, 1, 1);
}

void wb_diagram_sheet_draw(const WbDiagramSheet *sheet, int page, cairo_t *cr)
{
    g_return_if_fail(page >= 0 && page < wb_diagram_sheet_pages(sheet));
    const WbPaperPen pen = {cr, pango_cairo_create_layout(cr), sheet->width_mm * WB_PAPER_PT,
                            sheet->height_mm * WB_PAPER_PT};
    cairo_save(cr);
    cairo_set_source_rgb(cr, 0, 0, 0);
    if (page < sheet->n_parts)
        draw_part(sheet, &pen, page);
    else
        wb_sheet_circuits_draw(sheet, &pen, page - sheet->n_parts);
    draw_foot(sheet, &pen, page);
    cairo_restore(cr);
    g_object_unref(pen.layout);
}

static void draw_page(gpointer sheet, int page, cairo_t *cr)
{
    wb_diagram_sheet_draw(sheet, page, cr);
}

WbPrint *wb_diagram_sheet_print(WbDiagramSheet *sheet)
{
    WbPrint *print = g_new0(WbPrint, 1);
    *print = (WbPrint){.title = g_strdup(sheet->title),
                       .job = g_strdup(_("Wiring diagram")),
                       .written = g_strdup(wb_words_plans_only()),
                       .width_mm = sheet->width_mm,
                       .height_mm = sheet->height_mm,
                       .pages = wb_diagram_sheet_pages(sheet),
                       .draw = draw_page,
                       .drawing = sheet,
                       .free_drawing = (GDestroyNotify)wb_diagram_sheet_free};
    return print;
}
