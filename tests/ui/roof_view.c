/* The mapping between a roof's millimetres and a drawing's pixels. No display is needed. */
#include "roof_view.h"
#include <glib.h>
#include <math.h>

/* Room for the roof itself: 800 x 400 px, so that 8000 x 2000 mm come at 0.1 px a mm. */
static const WbViewFrame frame = {800 + WB_VIEW_LEFT + WB_VIEW_RIGHT,
                                  400 + WB_VIEW_TOP + WB_VIEW_BOTTOM, 8000, 2000};

static void test_fits(void)
{
    WbRoofView view = {0};
    WbPlanPlace place = wb_roof_view_place(&view, &frame);
    g_assert_cmpfloat_with_epsilon(place.scale, 0.1, 1e-12);
    g_assert_cmpfloat(place.x, ==, WB_VIEW_LEFT);
    g_assert_cmpfloat(place.y, ==, WB_VIEW_TOP + 100); /* in the middle of 400 px */
}

/* What is under the pointer stays there, to half a pixel, at any zoom. */
static void test_zoom_stays(void)
{
    WbRoofView view = {0};
    const double x = 300, y = 200;
    WbPlanPlace place = wb_roof_view_place(&view, &frame);
    double x_mm = (x - place.x) / place.scale, y_mm = (y - place.y) / place.scale;
    for (int i = 0; i < 12; i++) {
        wb_roof_view_zoom(&view, &frame, 1.15, x, y);
        place = wb_roof_view_place(&view, &frame);
        g_assert_cmpfloat_with_epsilon(place.x + x_mm * place.scale, x, 1.0);
        g_assert_cmpfloat_with_epsilon(place.y + y_mm * place.scale, y, 1.0);
    }
    g_assert_cmpfloat_with_epsilon(place.scale, 0.1 * pow(1.15, 12), 1e-9);
    for (int i = 0; i < 12; i++)
        wb_roof_view_zoom(&view, &frame, 1 / 1.15, x, y);
    g_assert_cmpfloat(view.zoom, ==, 1); /* all the way back is all of the roof again */
}

static void test_zoom_ends(void)
{
    WbRoofView view = {0};
    for (int i = 0; i < 100; i++)
        wb_roof_view_zoom(&view, &frame, 2, 400, 200);
    g_assert_cmpfloat_with_epsilon(wb_roof_view_place(&view, &frame).scale, 4, 1e-9);
    for (int i = 0; i < 100; i++)
        wb_roof_view_zoom(&view, &frame, 0.5, 400, 200);
    g_assert_cmpfloat_with_epsilon(wb_roof_view_place(&view, &frame).scale, 0.05, 1e-9);
    wb_roof_view_fit(&view);
    g_assert_cmpfloat_with_epsilon(wb_roof_view_place(&view, &frame).scale, 0.1, 1e-12);
}

/* However far it is pushed, some of the roof is in the middle of the drawing. */
static void test_pan(void)
{
    WbRoofView view = {0};
    wb_roof_view_pan(&view, &frame, 50, 50); /* all is in sight: nothing to push */
    g_assert_cmpfloat(wb_roof_view_place(&view, &frame).x, ==, WB_VIEW_LEFT);
    wb_roof_view_zoom(&view, &frame, 4, 400, 200);
    WbPlanPlace before = wb_roof_view_place(&view, &frame);
    wb_roof_view_pan(&view, &frame, 50, -20);
    WbPlanPlace after = wb_roof_view_place(&view, &frame);
    g_assert_cmpfloat_with_epsilon(after.x - before.x, 50, 1.0);
    g_assert_cmpfloat_with_epsilon(after.y - before.y, -20, 1.0);
    wb_roof_view_pan(&view, &frame, 1e7, -1e7);
    after = wb_roof_view_place(&view, &frame);
    g_assert_cmpfloat_with_epsilon(after.x, WB_VIEW_LEFT + 400, 1.0);
    g_assert_cmpfloat_with_epsilon(after.y + 2000 * after.scale, WB_VIEW_TOP + 200, 1.0);
}

static void test_grid(void)
{
    static const struct {
        double scale;
        gint64 mm;
    } table[] = {{1, 100}, {0.15, 100}, {0.1, 500}, {0.02, 1000}, {0.001, 50000}, {1e-5, 100000}};
    for (guint i = 0; i < G_N_ELEMENTS(table); i++)
        g_assert_cmpint(wb_roof_view_grid_mm(table[i].scale), ==, table[i].mm);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/roof-view/fits", test_fits);
    g_test_add_func("/roof-view/zoom-stays", test_zoom_stays);
    g_test_add_func("/roof-view/zoom-ends", test_zoom_ends);
    g_test_add_func("/roof-view/pan", test_pan);
    g_test_add_func("/roof-view/grid", test_grid);
    return g_test_run();
}
