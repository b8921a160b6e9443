/* The wiring diagram on paper: every circuit once on the drawings and once in the table, type large
 * enough to be read, ink within the edges, no colour, files whole. */
#include "diagram_sheet.h"
#include "diagram_parts.h"
#include "diagram_sheet_private.h"

#include <glib/gstdio.h>
#include <string.h>

#define LEAST_TYPE 6.0 /* points */
#define PX_OF_PT 1.5

static WbDiagramSheet *sheet_of(Parts *parts, const Wish *wish, gboolean letter)
{
    parts_fill(parts, wish);
    return wb_diagram_sheet_new(&parts->problem, &parts->kit, &parts->wiring,
                                "The Plover: a travelling seed library", "2026-11-28", letter);
}

static void check_parts(const WbDiagramSheet *sheet, int loads)
{
    int done = 0, page = 0, row = 0;
    for (int i = 0; i < sheet->n_parts; i++) {
        g_assert_cmpint(sheet->part[i].first_load, ==, done);
        g_assert_cmpint(sheet->part[i].trunk, ==, i == 0);
        done += sheet->part[i].n_loads;
    }
    g_assert_cmpint(done, ==, loads);
    for (row = 0; row < sheet->n_circuits; row++) {
        g_assert_cmpint(sheet->circuit[row].page, >=, page);
        page = sheet->circuit[row].page;
    }
    g_assert_cmpint(page, ==, sheet->table_pages - 1);
}

static void test_pages(void)
{
    g_autofree Parts *parts = g_new(Parts, 1);
    static const int numbers[] = {0, 1, 8, 11, 26, MOST_LOADS};
    for (gsize i = 0; i < G_N_ELEMENTS(numbers); i++)
        for (int bits = (int)i % 2; bits < 8; bits += 2) {
            int loads = numbers[i];
            Wish wish = {loads,           2,       2, 1, 2, TRUE, TRUE, TRUE, (bits & 1) != 0,
                         (bits & 2) != 0, bits % 3};
            g_autoptr(WbDiagramSheet) sheet = sheet_of(parts, &wish, (bits & 4) != 0);
            g_test_message("%d loads: %d pages, type of %.1f points", loads,
                           wb_diagram_sheet_pages(sheet), wb_diagram_sheet_type(sheet));
            g_assert_cmpfloat(wb_diagram_sheet_type(sheet), >=, LEAST_TYPE);
            g_assert_cmpint(sheet->n_circuits, ==, (int)parts->wiring.n);
            check_parts(sheet, loads);
        }
}

/* A white page with what is drawn on it. */
static cairo_surface_t *painted(const WbDiagramSheet *sheet, int page)
{
    cairo_surface_t *image = cairo_image_surface_create(
        CAIRO_FORMAT_RGB24, (int)(sheet->width_mm * WB_PAPER_PT * PX_OF_PT),
        (int)(sheet->height_mm * WB_PAPER_PT * PX_OF_PT));
    cairo_t *cr = cairo_create(image);
    cairo_set_source_rgb(cr, 1, 1, 1);
    cairo_paint(cr);
    cairo_scale(cr, PX_OF_PT, PX_OF_PT);
    wb_diagram_sheet_draw(sheet, page, cr);
    cairo_destroy(cr);
    cairo_surface_flush(image);
    return image;
}

/* Nothing nearer to the paper's end than 8 mm, which printers leave white. Answers the pixels with
 * ink. */
static int check_ink(cairo_surface_t *image)
{
    int width = cairo_image_surface_get_width(image), ink = 0;
    int height = cairo_image_surface_get_height(image);
    int edge = (int)(8 * WB_PAPER_PT * PX_OF_PT);
    for (int y = 0; y < height; y++) {
        const unsigned char *row = cairo_image_surface_get_data(image) +
                                   (gsize)y * (gsize)cairo_image_surface_get_stride(image);
        for (int x = 0; x < width; x++) {
            const unsigned char *px = row + 4 * x;
            gboolean white = px[0] > 250;
            g_assert_true(px[0] == px[1] && px[1] == px[2]);
            if (white)
                continue;
            ink++;
            g_assert_cmpint(x, >=, edge);
            g_assert_cmpint(x, <, width - edge);
            g_assert_cmpint(y, >=, edge);
            g_assert_cmpint(y, <, height - edge);
        }
    }
    return ink;
}

static void test_ink(void)
{
    g_autofree Parts *parts = g_new(Parts, 1);
    for (int bits = 0; bits < 8; bits += 3) {
        Wish wish = {bits & 1 ? 40 : 9, 4,    2,       2, 3, TRUE, TRUE, TRUE,
                     (bits & 2) != 0,   TRUE, bits % 3};
        g_autoptr(WbDiagramSheet) sheet = sheet_of(parts, &wish, (bits & 4) != 0);
        for (int page = 0; page < wb_diagram_sheet_pages(sheet); page++) {
            cairo_surface_t *image = painted(sheet, page);
            g_assert_cmpint(check_ink(image), >, 2000);
            cairo_surface_destroy(image);
        }
    }
}

static char *written(WbPrint *print, WbSheetFormat format, gsize *length)
{
    g_autoptr(GError) error = NULL;
    g_autofree char *path = NULL;
    char *text;
    int file = g_file_open_tmp("wattberth-wiring-XXXXXX", &path, &error);
    g_assert_no_error(error);
    g_close(file, NULL);
    g_assert_true(wb_print_save(print, format, path, &error));
    g_assert_no_error(error);
    g_assert_true(g_file_get_contents(path, &text, length, NULL));
    g_remove(path);
    return text;
}

static gboolean holds(const char *bytes, gsize length, const char *text)
{
    gsize n = strlen(text);
    for (gsize i = 0; i + n <= length; i++)
        if (memcmp(bytes + i, text, n) == 0)
            return TRUE;
    return FALSE;
}

static void test_files(void)
{
    gsize length;
    g_autofree Parts *parts = g_new(Parts, 1);
    const Wish wish = {24, 1, 1, 1, 1, TRUE, FALSE, FALSE, FALSE, FALSE, WB_RULES_BUILDING};
    g_autoptr(WbPrint) print = wb_diagram_sheet_print(sheet_of(parts, &wish, TRUE));
    g_autofree char *pdf = written(print, WB_SHEET_PDF, &length);
    g_autofree char *count = g_strdup_printf("/Count %d", print->pages);
    g_assert_true(g_str_has_prefix(pdf, "%PDF-"));
    g_assert_true(holds(pdf, length, "%%EOF"));
    g_assert_true(holds(pdf, length, count));
    g_autofree char *svg = written(print, WB_SHEET_SVG, &length);
    g_assert_nonnull(strstr(svg, "<svg"));
    g_assert_nonnull(strstr(svg, "</svg>"));
    g_assert_true(fabs(MIN(print->width_mm, print->height_mm) - 215.9) < 0.01);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/diagram-sheet/pages", test_pages);
    g_test_add_func("/diagram-sheet/ink", test_ink);
    g_test_add_func("/diagram-sheet/files", test_files);
    return g_test_run();
}
