/* The roof plan on paper: true to scale, its table equal to the layout, its files whole. */
#include "roof_sheet.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

static const WbObstacle obstacles[] = {
    {"Vent", 1200, 300, 400, 350, 50, 90, WB_OBSTACLE_STANDS, false},
    {"Mast", 2700, 120, 80, 80, 0, 0, WB_OBSTACLE_STANDS, true},
    {"Way", 0, 1400, 3000, 300, 0, 0, WB_OBSTACLE_WALKWAY, false},
};
static const WbCorner corners[] = {{0, 0}, {2600, 0}, {3000, 850}, {2600, 1700}, {0, 1700}};
static const WbSheetPanel panels[] = {
    {{40, 40, 1040, 1160}, "Alder 240"},
    {{1700, 500, 670, 1480}, "Alder 240"},
};

static WbRoof roof_of(int64_t length_mm, int64_t width_mm)
{
    return (WbRoof){.length_mm = length_mm,
                    .width_mm = width_mm,
                    .margin_mm = 40,
                    .max_load_kg = NAN,
                    .front_azimuth_deg = NAN};
}

static WbRoofSheet *full_sheet(void)
{
    WbRoof roof = roof_of(3000, 1700);
    roof.obstacles = obstacles;
    roof.n_obstacles = G_N_ELEMENTS(obstacles);
    roof.corners = corners;
    roof.n_corners = G_N_ELEMENTS(corners);
    roof.has_gland = true;
    roof.gland = (WbCorner){1500, 60};
    roof.front_azimuth_deg = 170;
    return wb_roof_sheet_new("The Plover", &roof, panels, G_N_ELEMENTS(panels), 31.5, FALSE);
}

/* Worked out by hand from A4 and Letter less edges, head and foot. */
static void test_scale(void)
{
    static const struct {
        int64_t length_mm, width_mm;
        gboolean letter;
        int scale;
        double width_mm_paper;
    } rows[] = {
        {1000, 500, FALSE, 5, 297},         {2500, 900, FALSE, 10, 297},
        {3420, 1700, FALSE, 20, 297},       {5400, 1900, FALSE, 25, 297},
        {12000, 4000, FALSE, 50, 297},      {1700, 3420, FALSE, 20, 210},
        {3420, 1700, TRUE, 20, 279.4},      {1700, 3420, TRUE, 20, 215.9},
        {100000, 100000, FALSE, 1000, 297},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        WbRoof roof = roof_of(rows[i].length_mm, rows[i].width_mm);
        g_autoptr(WbRoofSheet) sheet = wb_roof_sheet_new("A", &roof, NULL, 0, NAN, rows[i].letter);
        g_test_message("%" G_GINT64_FORMAT " x %" G_GINT64_FORMAT, rows[i].length_mm,
                       rows[i].width_mm);
        g_assert_cmpint(wb_roof_sheet_scale(sheet), ==, rows[i].scale);
        g_assert_cmpfloat(wb_roof_sheet_width_mm(sheet), ==, rows[i].width_mm_paper);
    }
}

/* Middles of the dark runs of one row of pixels, in mm on paper. */
static int dark_runs(cairo_surface_t *image, double y_mm, double px_of_mm, double *middle, int most)
{
    const unsigned char *row = cairo_image_surface_get_data(image) +
                               (int)(y_mm * px_of_mm) * cairo_image_surface_get_stride(image);
    int width = cairo_image_surface_get_width(image), n = 0;
    for (int x = 0; x < width && n < most; x++) {
        int first = x;
        while (x < width && row[4 * x] < 128)
            x++;
        if (x > first)
            middle[n++] = (first + x - 1 + 1) / 2.0 / px_of_mm;
    }
    return n;
}

/* 2,500 mm at 1:10 are 250 mm on paper. */
static void test_true_to_scale(void)
{
    const double px_of_mm = 8;
    double middle[8];
    WbRoof roof = roof_of(2500, 900);
    roof.margin_mm = 0;
    g_autoptr(WbRoofSheet) sheet = wb_roof_sheet_new("A", &roof, NULL, 0, NAN, FALSE);
    cairo_surface_t *image = cairo_image_surface_create(CAIRO_FORMAT_RGB24, (int)(297 * px_of_mm),
                                                        (int)(210 * px_of_mm));
    cairo_t *cr = cairo_create(image);
    cairo_set_source_rgb(cr, 1, 1, 1);
    cairo_paint(cr);
    cairo_scale(cr, px_of_mm * 25.4 / 72, px_of_mm * 25.4 / 72);
    wb_roof_sheet_draw(sheet, 0, cr);
    cairo_surface_flush(image);
    /* The side's dimension line, the left and the right edge. */
    g_assert_cmpint(dark_runs(image, 12 + 20 + 8 + 70, px_of_mm, middle, 8), ==, 3);
    g_assert_cmpfloat_with_epsilon(middle[2] - middle[1], 250, 0.15);
    g_assert_cmpfloat_with_epsilon(middle[1] - middle[0], 5, 0.15);
    cairo_destroy(cr);
    cairo_surface_destroy(image);
}

static void test_table(void)
{
    static const struct {
        int row;
        WbSheetColumn column;
        const char *text;
    } cells[] = {
        {0, WB_SHEET_MARK, "1"},
        {0, WB_SHEET_NAME, "Alder 240"},
        {0, WB_SHEET_LEFT, "40"},
        {0, WB_SHEET_RIGHT, "1,080"},
        {0, WB_SHEET_FRONT, "40"},
        {0, WB_SHEET_BACK, "1,200"},
        {1, WB_SHEET_LEFT, "1,700"},
        {1, WB_SHEET_RIGHT, "2,370"},
        {1, WB_SHEET_FRONT, "500"},
        {1, WB_SHEET_BACK, "1,980"},
        {2, WB_SHEET_MARK, "A"},
        {2, WB_SHEET_LEFT, "1,200"},
        {2, WB_SHEET_RIGHT, "1,600"},
        {2, WB_SHEET_BACK, "650"},
        {2, WB_SHEET_REMARK, "400 \303\227 350, 90 high, 50 clear"},
        {3, WB_SHEET_REMARK, "round, 80 across, 0 clear"},
        {4, WB_SHEET_REMARK, "3,000 \303\227 300, walkway"},
        {5, WB_SHEET_NAME, "Corner of the roof"},
        {7, WB_SHEET_LEFT, "3,000"},
        {7, WB_SHEET_FRONT, "850"},
        {10, WB_SHEET_NAME, "Cable entry"},
        {10, WB_SHEET_FRONT, "60"},
    };
    g_autoptr(WbRoofSheet) sheet = full_sheet();
    g_assert_cmpint(wb_roof_sheet_rows(sheet), ==, 11);
    for (gsize i = 0; i < G_N_ELEMENTS(cells); i++) {
        g_autofree char *text = wb_roof_sheet_cell(sheet, cells[i].row, cells[i].column);
        g_assert_cmpstr(text, ==, cells[i].text);
    }
}

/* ---- files ---- */

/* Ends the sheet. */
static char *written(WbRoofSheet *sheet, WbSheetFormat format, gsize *length)
{
    g_autoptr(WbPrint) print = wb_roof_sheet_print(sheet);
    g_autoptr(GError) error = NULL;
    g_autofree char *path = NULL;
    char *text;
    int file = g_file_open_tmp("wattberth-sheet-XXXXXX", &path, &error);
    g_assert_no_error(error);
    g_close(file, NULL);
    g_assert_true(wb_print_save(print, format, path, &error));
    g_assert_no_error(error);
    g_assert_true(g_file_get_contents(path, &text, length, NULL));
    g_remove(path);
    return text;
}

static void on_element(GMarkupParseContext *context, const char *name, const char **names,
                       const char **values, gpointer size, GError **error)
{
    char **found = size;
    for (int i = 0; g_str_equal(name, "svg") && names[i] != NULL; i++) {
        if (g_str_equal(names[i], "width"))
            found[0] = g_strdup(values[i]);
        if (g_str_equal(names[i], "height"))
            found[1] = g_strdup(values[i]);
    }
}

static void test_svg(void)
{
    static const GMarkupParser parser = {.start_element = on_element};
    gsize length;
    char *size[2] = {NULL, NULL};
    g_autoptr(GError) error = NULL;
    g_autofree char *text = written(full_sheet(), WB_SHEET_SVG, &length);
    GMarkupParseContext *context = g_markup_parse_context_new(&parser, 0, size, NULL);
    g_assert_true(g_markup_parse_context_parse(context, text, (gssize)length, &error));
    g_assert_true(g_markup_parse_context_end_parse(context, &error));
    g_assert_no_error(error);
    g_assert_cmpstr(size[0], ==, "297mm");
    g_assert_cmpstr(size[1], ==, "420mm"); /* two pages under one another */
    g_markup_parse_context_free(context);
    g_free(size[0]);
    g_free(size[1]);
}

static gboolean holds(const char *bytes, gsize length, const char *text)
{
    gsize n = strlen(text);
    for (gsize i = 0; i + n <= length; i++)
        if (memcmp(bytes + i, text, n) == 0)
            return TRUE;
    return FALSE;
}

static void test_pdf(void)
{
    gsize length;
    g_autofree char *text = written(full_sheet(), WB_SHEET_PDF, &length);
    g_assert_true(g_str_has_prefix(text, "%PDF-"));
    g_assert_true(holds(text, length, "%%EOF"));
    g_assert_true(holds(text, length, "/Count 2"));
}

static void test_many(void)
{
    gsize length;
    g_autofree WbObstacle *many = g_new0(WbObstacle, 1000);
    WbRoof roof = roof_of(20000, 12000);
    for (int i = 0; i < 1000; i++)
        many[i] = (WbObstacle){"Vent", 200 * (i % 90), 500 * (i / 90), 60, 60, 20, 0, 0, false};
    roof.obstacles = many;
    roof.n_obstacles = 1000;
    WbRoofSheet *sheet = wb_roof_sheet_new("Many", &roof, NULL, 0, NAN, FALSE);
    g_autofree char *letters = wb_roof_sheet_cell(sheet, 999, WB_SHEET_MARK);
    g_assert_cmpstr(letters, ==, "ALL"); /* 999 = 26 + 676 + 297; 297 = 11 x 26 + 11 */
    g_assert_cmpint(wb_roof_sheet_pages(sheet), >, 20);
    g_autofree char *text = written(sheet, WB_SHEET_PDF, &length);
}

static void test_unwritable(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbPrint) print = wb_roof_sheet_print(full_sheet());
    g_assert_false(wb_print_save(print, WB_SHEET_PDF, "/nowhere/at/all/plan.pdf", &error));
    g_assert_nonnull(error);
    g_assert_nonnull(strstr(error->message, "/nowhere/at/all/plan.pdf"));
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/sheet/scale", test_scale);
    g_test_add_func("/sheet/true-to-scale", test_true_to_scale);
    g_test_add_func("/sheet/table", test_table);
    g_test_add_func("/sheet/svg", test_svg);
    g_test_add_func("/sheet/pdf", test_pdf);
    g_test_add_func("/sheet/many", test_many);
    g_test_add_func("/sheet/unwritable", test_unwritable);
    return g_test_run();
}
