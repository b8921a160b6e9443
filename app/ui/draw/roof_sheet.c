#include "roof_sheet_private.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <string.h>

/* ---- text and lines ---- */

static void set_text(WbSheetPen *pen, const char *text, double size, gboolean bold)
{
    PangoFontDescription *font = pango_font_description_from_string("Sans");
    pango_font_description_set_absolute_size(font, size * PANGO_SCALE);
    pango_font_description_set_weight(font, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_layout_set_font_description(pen->layout, font);
    pango_layout_set_width(pen->layout, -1);
    pango_layout_set_ellipsize(pen->layout, PANGO_ELLIPSIZE_NONE);
    pango_layout_set_alignment(pen->layout, PANGO_ALIGN_LEFT);
    pango_layout_set_text(pen->layout, text, -1);
    pango_font_description_free(font);
}

static void size_of(WbSheetPen *pen, double *width, double *height)
{
    int w, h;
    pango_layout_get_size(pen->layout, &w, &h);
    *width = (double)w / PANGO_SCALE;
    *height = (double)h / PANGO_SCALE;
}

double wb_paper_text(WbSheetPen *pen, const char *text, double size, gboolean bold, double x,
                     double y, double x_align, double y_align)
{
    double width, height;
    set_text(pen, text, size, bold);
    size_of(pen, &width, &height);
    cairo_move_to(pen->cr, x - x_align * width, y - y_align * height);
    pango_cairo_show_layout(pen->cr, pen->layout);
    return height;
}

double wb_paper_paragraph(WbSheetPen *pen, const char *text, double size, double x, double y,
                          double width)
{
    double used, height;
    set_text(pen, text, size, FALSE);
    pango_layout_set_width(pen->layout, (int)(width * PANGO_SCALE));
    size_of(pen, &used, &height);
    cairo_move_to(pen->cr, x, y);
    pango_cairo_show_layout(pen->cr, pen->layout);
    return height;
}

double wb_paper_text_width(WbSheetPen *pen, const char *text, double size)
{
    double width, height;
    set_text(pen, text, size, FALSE);
    size_of(pen, &width, &height);
    return width;
}

void wb_paper_cell_text(WbSheetPen *pen, const char *text, double size, gboolean bold, double x,
                        double y, double width, gboolean right)
{
    set_text(pen, text, size, bold);
    pango_layout_set_width(pen->layout, (int)(width * PANGO_SCALE));
    pango_layout_set_ellipsize(pen->layout, PANGO_ELLIPSIZE_END);
    pango_layout_set_alignment(pen->layout, right ? PANGO_ALIGN_RIGHT : PANGO_ALIGN_LEFT);
    cairo_move_to(pen->cr, x, y);
    pango_cairo_show_layout(pen->cr, pen->layout);
}

void wb_paper_line(WbSheetPen *pen, double x1, double y1, double x2, double y2, double line_width)
{
    cairo_set_line_width(pen->cr, line_width);
    cairo_move_to(pen->cr, x1, y1);
    cairo_line_to(pen->cr, x2, y2);
    cairo_stroke(pen->cr);
}

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
    double shorter = letter ? 215.9 : 210, longer = letter ? 279.4 : 297;
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
    wb_paper_text(pen, text, 7, FALSE, pen->width - WB_SHEET_EDGE, pen->height - WB_SHEET_EDGE / 2,
                  1, 0.5);
}

void wb_roof_sheet_draw(const WbRoofSheet *sheet, int page, cairo_t *cr)
{
    g_return_if_fail(page >= 0 && page < wb_roof_sheet_pages(sheet));
    WbSheetPen pen = {.sheet = sheet,
                      .cr = cr,
                      .layout = pango_cairo_create_layout(cr),
                      .width = sheet->width_mm * WB_SHEET_PT,
                      .height = sheet->height_mm * WB_SHEET_PT};
    cairo_save(cr);
    cairo_set_source_rgb(cr, 0, 0, 0);
    if (page == 0)
        wb_paper_draw_plan(&pen);
    else
        wb_paper_draw_table(&pen, page - 1);
    draw_foot(&pen, page);
    cairo_restore(cr);
    g_object_unref(pen.layout);
}

/* ---- files ---- */

static cairo_status_t gather(void *closure, const unsigned char *data, unsigned int length)
{
    g_byte_array_append(closure, data, length);
    return CAIRO_STATUS_SUCCESS;
}

static cairo_surface_t *surface_new(const WbRoofSheet *sheet, WbSheetFormat format,
                                    GByteArray *bytes)
{
    double width = sheet->width_mm * WB_SHEET_PT, height = sheet->height_mm * WB_SHEET_PT;
    if (format == WB_SHEET_PDF) {
        cairo_surface_t *pdf = cairo_pdf_surface_create_for_stream(gather, bytes, width, height);
        cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_TITLE, sheet->title);
        return pdf;
    }
    cairo_surface_t *svg = cairo_svg_surface_create_for_stream(
        gather, bytes, sheet->width_mm, sheet->height_mm * wb_roof_sheet_pages(sheet));
    cairo_svg_surface_set_document_unit(svg, CAIRO_SVG_UNIT_MM);
    return svg;
}

static void draw_all(const WbRoofSheet *sheet, WbSheetFormat format, cairo_t *cr)
{
    if (format == WB_SHEET_SVG)
        cairo_scale(cr, 1 / WB_SHEET_PT, 1 / WB_SHEET_PT);
    for (int page = 0; page < wb_roof_sheet_pages(sheet); page++) {
        wb_roof_sheet_draw(sheet, page, cr);
        if (format == WB_SHEET_PDF)
            cairo_show_page(cr);
        else
            cairo_translate(cr, 0, sheet->height_mm * WB_SHEET_PT);
    }
}

gboolean wb_roof_sheet_save(const WbRoofSheet *sheet, WbSheetFormat format, const char *path,
                            GError **error)
{
    g_autoptr(GByteArray) bytes = g_byte_array_new();
    cairo_surface_t *surface = surface_new(sheet, format, bytes);
    cairo_t *cr = cairo_create(surface);
    draw_all(sheet, format, cr);
    cairo_destroy(cr);
    cairo_surface_finish(surface);
    cairo_status_t status = cairo_surface_status(surface);
    cairo_surface_destroy(surface);
    g_autoptr(GError) own = NULL;
    if (status == CAIRO_STATUS_SUCCESS &&
        g_file_set_contents(path, (const char *)bytes->data, (gssize)bytes->len, &own))
        return TRUE;
    g_set_error(error, G_IO_ERROR, G_IO_ERROR_FAILED, _("The plan could not be written to %s: %s"),
                path, own != NULL ? own->message : cairo_status_to_string(status));
    return FALSE;
}
