#include "roof_sheet_private.h"

#include <glib/gi18n-lib.h>

char *wb_paper_letters(int index)
{
    char letters[8];
    int at = 7;
    letters[at] = '\0';
    for (int rest = index + 1; rest > 0 && at > 0; rest = (rest - 1) / 26)
        letters[--at] = (char)('A' + (rest - 1) % 26);
    return g_strdup(letters + at);
}

/* ---- the sheet ---- */

static void copy_roof(WbRoof *to, const WbRoof *from)
{
    WbObstacle *obstacles = g_memdup2(from->obstacles, from->n_obstacles * sizeof *obstacles);
    *to = *from;
    for (gsize i = 0; i < from->n_obstacles; i++)
        obstacles[i].name = g_strdup(obstacles[i].name != NULL ? obstacles[i].name : "");
    to->obstacles = obstacles;
    to->corners = g_memdup2(from->corners, from->n_corners * sizeof *from->corners);
    to->pins = g_memdup2(from->pins, from->n_pins * sizeof *from->pins);
    for (gsize i = 0; i < from->n_pins; i++)
        ((WbPin *)to->pins)[i].part_id = NULL; /* the place alone is shown */
}

WbRoofSheet *wb_roof_sheet_new(const char *title, const WbRoof *roof, const WbSheetPanel *panels,
                               int n, double load_kg, gboolean letter)
{
    WbRoofSheet *sheet = g_new0(WbRoofSheet, 1);
    double shorter = letter ? WB_PAPER_LETTER_SHORT_MM : WB_PAPER_A4_SHORT_MM,
           longer = letter ? WB_PAPER_LETTER_LONG_MM : WB_PAPER_A4_LONG_MM;
    gboolean across = roof->length_mm >= roof->width_mm;
    sheet->title = g_strdup(title);
    copy_roof(&sheet->roof, roof);
    sheet->panels = g_new0(WbSheetPanel, n + 1);
    for (int i = 0; i < n; i++)
        sheet->panels[i] = (WbSheetPanel){panels[i].rect, g_strdup(panels[i].name)};
    sheet->n = n;
    sheet->load_kg = load_kg;
    sheet->width_mm = across ? longer : shorter;
    sheet->height_mm = across ? shorter : longer;
    sheet->scale = wb_paper_find_scale(sheet);
    return sheet;
}

void wb_roof_sheet_free(WbRoofSheet *sheet)
{
    for (int i = 0; i < sheet->n; i++)
        g_free((char *)sheet->panels[i].name);
    for (gsize i = 0; i < sheet->roof.n_obstacles; i++)
        g_free((char *)sheet->roof.obstacles[i].name);
    g_free((void *)sheet->roof.obstacles);
    g_free((void *)sheet->roof.corners);
    g_free((void *)sheet->roof.pins);
    g_free(sheet->panels);
    g_free(sheet->title);
    g_free(sheet);
}

double wb_roof_sheet_width_mm(const WbRoofSheet *sheet)
{
    return sheet->width_mm;
}

double wb_roof_sheet_height_mm(const WbRoofSheet *sheet)
{
    return sheet->height_mm;
}

int wb_roof_sheet_scale(const WbRoofSheet *sheet)
{
    return sheet->scale;
}

int wb_roof_sheet_pages(const WbRoofSheet *sheet)
{
    return 1 + wb_paper_table_pages(sheet);
}

static void draw_foot(WbSheetPen *pen, int page)
{
    g_autofree char *text = g_strdup_printf(_("%s, roof plan, page %d of %d"), pen->sheet->title,
                                            page + 1, wb_roof_sheet_pages(pen->sheet));
    wb_paper_text(&pen->paper, text, 7, FALSE, pen->paper.width - WB_PAPER_EDGE,
                  pen->paper.height - WB_PAPER_EDGE / 2, 1, 0.5);
}

void wb_roof_sheet_draw(const WbRoofSheet *sheet, int page, cairo_t *cr)
{
    g_return_if_fail(page >= 0 && page < wb_roof_sheet_pages(sheet));
    WbSheetPen pen = {.sheet = sheet,
                      .paper = {cr, pango_cairo_create_layout(cr), sheet->width_mm * WB_PAPER_PT,
                                sheet->height_mm * WB_PAPER_PT}};
    cairo_save(cr);
    cairo_set_source_rgb(cr, 0, 0, 0);
    if (page == 0)
        wb_paper_draw_plan(&pen);
    else
        wb_paper_draw_table(&pen, page - 1);
    draw_foot(&pen, page);
    cairo_restore(cr);
    g_object_unref(pen.paper.layout);
}

/* ---- printing ---- */

static void draw_page(gpointer sheet, int page, cairo_t *cr)
{
    wb_roof_sheet_draw(sheet, page, cr);
}

WbPrint *wb_roof_sheet_print(WbRoofSheet *sheet)
{
    WbPrint *print = g_new0(WbPrint, 1);
    *print = (WbPrint){.title = g_strdup(sheet->title),
                       .job = g_strdup(_("Roof plan")),
                       .written = g_strdup_printf(_("It is drawn at 1:%d: print it at its true "
                                                    "size, never fitted to the page."),
                                                  sheet->scale),
                       .width_mm = sheet->width_mm,
                       .height_mm = sheet->height_mm,
                       .pages = wb_roof_sheet_pages(sheet),
                       .draw = draw_page,
                       .drawing = sheet,
                       .free_drawing = (GDestroyNotify)wb_roof_sheet_free};
    return print;
}
