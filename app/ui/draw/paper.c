#include "paper.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <gio/gio.h>
#include <glib/gi18n-lib.h>

/* ---- text and lines ---- */

static void set_text(const WbPaperPen *pen, const char *text, double size, gboolean bold)
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

static void size_of(const WbPaperPen *pen, double *width, double *height)
{
    int w, h;
    pango_layout_get_size(pen->layout, &w, &h);
    *width = (double)w / PANGO_SCALE;
    *height = (double)h / PANGO_SCALE;
}

double wb_paper_text(const WbPaperPen *pen, const char *text, double size, gboolean bold, double x,
                     double y, double x_align, double y_align)
{
    double width, height;
    set_text(pen, text, size, bold);
    size_of(pen, &width, &height);
    cairo_move_to(pen->cr, x - x_align * width, y - y_align * height);
    pango_cairo_show_layout(pen->cr, pen->layout);
    return height;
}

double wb_paper_paragraph(const WbPaperPen *pen, const char *text, double size, double x, double y,
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

double wb_paper_paragraph_height(const WbPaperPen *pen, const char *text, double size, double width)
{
    double used, height;
    set_text(pen, text, size, FALSE);
    pango_layout_set_width(pen->layout, (int)(width * PANGO_SCALE));
    size_of(pen, &used, &height);
    return height;
}

double wb_paper_text_width(const WbPaperPen *pen, const char *text, double size)
{
    double width, height;
    set_text(pen, text, size, FALSE);
    size_of(pen, &width, &height);
    return width;
}

void wb_paper_cell_text(const WbPaperPen *pen, const char *text, double size, gboolean bold,
                        double x, double y, double width, gboolean right)
{
    set_text(pen, text, size, bold);
    pango_layout_set_width(pen->layout, (int)(width * PANGO_SCALE));
    pango_layout_set_ellipsize(pen->layout, PANGO_ELLIPSIZE_END);
    pango_layout_set_alignment(pen->layout, right ? PANGO_ALIGN_RIGHT : PANGO_ALIGN_LEFT);
    cairo_move_to(pen->cr, x, y);
    pango_cairo_show_layout(pen->cr, pen->layout);
}

void wb_paper_line(const WbPaperPen *pen, double x1, double y1, double x2, double y2,
                   double line_width)
{
    cairo_set_line_width(pen->cr, line_width);
    cairo_move_to(pen->cr, x1, y1);
    cairo_line_to(pen->cr, x2, y2);
    cairo_stroke(pen->cr);
}

/* ---- files ---- */

static cairo_status_t gather(void *closure, const unsigned char *data, unsigned int length)
{
    g_byte_array_append(closure, data, length);
    return CAIRO_STATUS_SUCCESS;
}

static cairo_surface_t *surface_new(const WbPrint *print, WbSheetFormat format, GByteArray *bytes)
{
    double width = print->width_mm * WB_PAPER_PT, height = print->height_mm * WB_PAPER_PT;
    if (format == WB_SHEET_PDF) {
        cairo_surface_t *pdf = cairo_pdf_surface_create_for_stream(gather, bytes, width, height);
        cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_TITLE, print->title);
        return pdf;
    }
    cairo_surface_t *svg = cairo_svg_surface_create_for_stream(gather, bytes, print->width_mm,
                                                               print->height_mm * print->pages);
    cairo_svg_surface_set_document_unit(svg, CAIRO_SVG_UNIT_MM);
    return svg;
}

static void draw_all(const WbPrint *print, WbSheetFormat format, cairo_t *cr)
{
    if (format == WB_SHEET_SVG)
        cairo_scale(cr, 1 / WB_PAPER_PT, 1 / WB_PAPER_PT);
    for (int page = 0; page < print->pages; page++) {
        print->draw(print->drawing, page, cr);
        if (format == WB_SHEET_PDF)
            cairo_show_page(cr);
        else
            cairo_translate(cr, 0, print->height_mm * WB_PAPER_PT);
    }
}

gboolean wb_print_save(const WbPrint *print, WbSheetFormat format, const char *path, GError **error)
{
    g_autoptr(GByteArray) bytes = g_byte_array_new();
    cairo_surface_t *surface = surface_new(print, format, bytes);
    cairo_t *cr = cairo_create(surface);
    draw_all(print, format, cr);
    cairo_destroy(cr);
    cairo_surface_finish(surface);
    cairo_status_t status = cairo_surface_status(surface);
    cairo_surface_destroy(surface);
    g_autoptr(GError) own = NULL;
    if (status == CAIRO_STATUS_SUCCESS &&
        g_file_set_contents(path, (const char *)bytes->data, (gssize)bytes->len, &own))
        return TRUE;
    g_set_error(error, G_IO_ERROR, G_IO_ERROR_FAILED,
                _("The drawing could not be written to %s: %s"), path,
                own != NULL ? own->message : cairo_status_to_string(status));
    return FALSE;
}

void wb_print_free(WbPrint *print)
{
    print->free_drawing(print->drawing);
    g_free(print->title);
    g_free(print->job);
    g_free(print->written);
    g_free(print);
}
