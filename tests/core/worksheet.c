/* The pencil worksheet. Method: SAND87-7023 and IEEE 1013, from memory; the worked case is our own
 * arithmetic by hand. */
#include "worksheet.h"
#include <glib.h>
#include <math.h>

/* January: 1200 Wh DC + 600 Wh AC; June: half of it and more sun. */
static WbWorksheetInput two_months(void)
{
    WbWorksheetInput input = {
        .bank_v = 12,
        .inverter_efficiency = 0.9,
        .wire_efficiency = 0.98,
        .charge_efficiency = 0.9,
        .string_a = 8,
        .derating = 0.9,
        .storage_days = 5,
        .depth = 0.5,
        .battery_ah = 100,
    };
    const int month[] = {0, 5};
    for (int i = 0; i < 2; i++) {
        int m = month[i];
        input.in_use[m] = true;
        input.dc_wh[m] = i == 0 ? 1200 : 600;
        input.ac_wh[m] = i == 0 ? 600 : 300;
        input.peak_sun_h[m] = i == 0 ? 4 : 6;
        input.temperature_factor[m] = i == 0 ? 0.9 : 1;
    }
    return input;
}

static void by_hand(void)
{
    WbWorksheetInput input = two_months();
    WbWorksheet sheet;
    g_assert_cmpint(wb_worksheet(&input, &sheet), ==, WB_OK);
    g_assert_cmpfloat_with_epsilon(sheet.load_ah[0], 155.6, 0.05);
    g_assert_cmpfloat_with_epsilon(sheet.corrected_ah[0], 176.4, 0.05);
    g_assert_cmpfloat_with_epsilon(sheet.design_a[0], 44.1, 0.05);
    g_assert_cmpfloat_with_epsilon(sheet.required_ah[0], 1960, 0.5);
    g_assert_cmpint(sheet.design_month, ==, 0);
    g_assert_cmpint(sheet.storage_month, ==, 0);
    /* 44.1 / 7.2 = 6.12; 1960 / 100 = 19.6 */
    g_assert_cmpint(wb_worksheet_whole(sheet.strings_exact), ==, 7);
    g_assert_cmpint(wb_worksheet_whole(sheet.batteries_parallel_exact), ==, 20);
    g_assert_cmpfloat(sheet.load_ah[1], ==, 0);
}

static void months_out_of_use(void)
{
    WbWorksheetInput input = two_months();
    input.in_use[0] = false;
    input.dc_wh[0] = NAN;
    WbWorksheet sheet;
    g_assert_cmpint(wb_worksheet(&input, &sheet), ==, WB_OK);
    g_assert_cmpint(sheet.design_month, ==, 5);
    g_assert_cmpint(sheet.storage_month, ==, 5);
}

static void no_sun(void)
{
    WbWorksheetInput input = two_months();
    input.peak_sun_h[5] = 0;
    WbWorksheet sheet;
    g_assert_cmpint(wb_worksheet(&input, &sheet), ==, WB_OK);
    g_assert_cmpint(sheet.design_month, ==, 5);
    g_assert_cmpint(wb_worksheet_whole(sheet.strings_exact), ==, -1);
    input.dc_wh[5] = input.ac_wh[5] = 0;
    g_assert_cmpint(wb_worksheet(&input, &sheet), ==, WB_OK);
    g_assert_cmpint(sheet.design_month, ==, 0);
}

static void bad_input(void)
{
    WbWorksheet sheet;
    WbWorksheetInput good = two_months(), bad = good;
    double *const field[] = {&bad.dc_wh[0],
                             &bad.peak_sun_h[5],
                             &bad.temperature_factor[0],
                             &bad.bank_v,
                             &bad.inverter_efficiency,
                             &bad.wire_efficiency,
                             &bad.charge_efficiency,
                             &bad.string_a,
                             &bad.derating,
                             &bad.storage_days,
                             &bad.depth,
                             &bad.battery_ah};
    const double value[] = {-1, NAN, INFINITY};
    for (size_t f = 0; f < G_N_ELEMENTS(field); f++)
        for (size_t v = 0; v < G_N_ELEMENTS(value); v++) {
            bad = good;
            *field[f] = value[v];
            g_assert_cmpint(wb_worksheet(&bad, &sheet), ==, WB_BAD_INPUT);
        }
    bad = good;
    bad.in_use[0] = bad.in_use[5] = false;
    g_assert_cmpint(wb_worksheet(&bad, &sheet), ==, WB_BAD_INPUT);
}

static void whole_counts(void)
{
    g_assert_cmpint(wb_worksheet_whole(0), ==, 0);
    g_assert_cmpint(wb_worksheet_whole(3.0000000001), ==, 3);
    g_assert_cmpint(wb_worksheet_whole(3.001), ==, 4);
    g_assert_cmpint(wb_worksheet_whole(INFINITY), ==, -1);
    g_assert_cmpint(wb_worksheet_whole(NAN), ==, -1);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/worksheet/by-hand", by_hand);
    g_test_add_func("/worksheet/months-out-of-use", months_out_of_use);
    g_test_add_func("/worksheet/no-sun", no_sun);
    g_test_add_func("/worksheet/bad-input", bad_input);
    g_test_add_func("/worksheet/whole-counts", whole_counts);
    return g_test_run();
}
