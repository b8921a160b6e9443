/* Drawings on paper, in black on white: text and lines onto a page, and the pages to PDF or SVG.
 * Lengths on paper are in points (1/72 inch) unless a name says mm. */
#ifndef WB_PAPER_H
#define WB_PAPER_H

#include <glib.h>
#include <pango/pangocairo.h>

#define WB_PAPER_PT (72 / 25.4) /* points of a millimetre */
#define WB_PAPER_EDGE (12 * WB_PAPER_PT)
#define WB_PAPER_A4_SHORT_MM 210.0
#define WB_PAPER_A4_LONG_MM 297.0
#define WB_PAPER_LETTER_SHORT_MM 215.9
#define WB_PAPER_LETTER_LONG_MM 279.4

/* Onto one page. */
typedef struct {
    cairo_t *cr;
    PangoLayout *layout;
    double width, height;
} WbPaperPen;

/* Size in points. The box of the text comes with (x_align, y_align) of it to (x, y). Answers its
 * height. */
double wb_paper_text(const WbPaperPen *pen, const char *text, double size, gboolean bold, double x,
                     double y, double x_align, double y_align);
/* Wrapped to `width`; upper left at (x, y). Answers its height. */
double wb_paper_paragraph(const WbPaperPen *pen, const char *text, double size, double x, double y,
                          double width);
/* The height it would take. */
double wb_paper_paragraph_height(const WbPaperPen *pen, const char *text, double size,
                                 double width);
double wb_paper_text_width(const WbPaperPen *pen, const char *text, double size);
/* Cut to `width` with an ellipsis, left or right aligned in it. */
void wb_paper_cell_text(const WbPaperPen *pen, const char *text, double size, gboolean bold,
                        double x, double y, double width, gboolean right);
void wb_paper_line(const WbPaperPen *pen, double x1, double y1, double x2, double y2,
                   double line_width);

/* Something with pages that can be printed and written to a file. */
typedef struct {
    char *title;   /* of the file */
    char *job;     /* in the printer's list, and of the file's dialog */
    char *written; /* told after "written to FILE"; may be "" */
    double width_mm, height_mm;
    int pages;
    void (*draw)(gpointer drawing, int page, cairo_t *cr); /* origin in the paper's corner */
    gpointer drawing;
    GDestroyNotify free_drawing;
} WbPrint;

void wb_print_free(WbPrint *print);
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbPrint, wb_print_free)

typedef enum { WB_SHEET_PDF, WB_SHEET_SVG } WbSheetFormat;
/* SVG has no pages: they stand under one another. FALSE: not written, one sentence. */
gboolean wb_print_save(const WbPrint *print, WbSheetFormat format, const char *path,
                       GError **error);

#endif
