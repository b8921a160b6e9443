/* What do unlike panels lose in one string, or side by side? */
#include "mismatch.h"
#include <glib.h>
#include <math.h>

static const WbPanel big = {
    .power_w = 180, .voc_v = 22, .vmp_v = 18, .isc_a = 10.6, .imp_a = 10, .cells = 36};
static const WbPanel half = {
    .power_w = 90, .voc_v = 22, .vmp_v = 18, .isc_a = 5.3, .imp_a = 5, .cells = 36};
static const WbPanel tall = {
    .power_w = 180, .voc_v = 44, .vmp_v = 36, .isc_a = 5.3, .imp_a = 5, .cells = 72};
static const WbPanel spark = {
    .power_w = 1, .voc_v = 22, .vmp_v = 18, .isc_a = 0.06, .imp_a = 0.0556, .cells = 36};

static double series(const WbPanel *a, int n_a, const WbPanel *b, int n_b)
{
    double kept = -1;
    WbPanelRun runs[] = {{a, n_a}, {b, n_b}};
    g_assert_cmpint(wb_mismatch_series(runs, 2, &kept), ==, WB_OK);
    return kept;
}

static double parallel(const WbPanel *a, int n_a, const WbPanel *b, int n_b)
{
    double kept = -1;
    WbPanelRun runs[] = {{a, n_a}, {b, n_b}};
    g_assert_cmpint(wb_mismatch_parallel(runs, 2, &kept), ==, WB_OK);
    return kept;
}

static void test_alike_lose_nothing(void)
{
    g_assert_cmpfloat_with_epsilon(series(&big, 2, &big, 3), 1, 1e-9);
    g_assert_cmpfloat_with_epsilon(parallel(&big, 2, &big, 2), 1, 1e-9);
    /* The same current at another voltage in a string, the same voltage at another current beside.
     */
    g_assert_cmpfloat_with_epsilon(series(&half, 1, &tall, 1), 1, 1e-9);
    g_assert_cmpfloat_with_epsilon(parallel(&big, 1, &half, 1), 1, 1e-9);
    g_assert_cmpfloat_with_epsilon(parallel(&half, 2, &tall, 1), 1, 1e-9);
}

/* At the weak panel's current the strong one stands between its Vmp and Voc: 5 A x (18 + 18..22).
 */
static void test_series_shares_the_current(void)
{
    double kept = series(&big, 1, &half, 1);
    g_assert_cmpfloat(kept, >, 5 * (18 + 18) / 270.0);
    g_assert_cmpfloat(kept, <, 5.3 * (22 + 22) / 270.0);
}

/* A panel that gives next to nothing is passed by: two diodes of it are lost at 10 A. */
static void test_series_bypasses(void)
{
    double kept = series(&big, 3, &spark, 1);
    g_assert_cmpfloat_with_epsilon(kept, (3 * 180 - 10 * 1.0) / 541, 0.005);
    g_assert_cmpfloat(series(&big, 1, &spark, 1), >, 0.9);
}

/* At 18 V the tall panel gives little more than its Isc; at 36 V the big one takes instead. */
static void test_parallel_shares_the_voltage(void)
{
    double kept = parallel(&big, 1, &tall, 1);
    g_assert_cmpfloat(kept, >, (180 + 18 * 5) / 360.0);
    g_assert_cmpfloat(kept, <, (180 + 22 * 5.3) / 360.0);
}

static void test_never_more_than_all(void)
{
    const WbPanel *kinds[] = {&big, &half, &tall, &spark};
    for (int a = 0; a < 4; a++)
        for (int b = 0; b < 4; b++)
            for (int n = 1; n < 4; n++) {
                g_assert_cmpfloat(series(kinds[a], n, kinds[b], 1), <=, 1);
                g_assert_cmpfloat(series(kinds[a], n, kinds[b], 1), >, 0.4);
                g_assert_cmpfloat(parallel(kinds[a], n, kinds[b], 1), <=, 1);
                g_assert_cmpfloat(parallel(kinds[a], n, kinds[b], 1), >, 0);
                g_assert_cmpfloat_with_epsilon(series(kinds[a], n, kinds[b], 1),
                                               series(kinds[b], 1, kinds[a], n), 1e-9);
            }
}

/* The point of one panel lies at its data-sheet Vmp and Imp but for the curve's rounding off. */
static void test_peaks(void)
{
    WbPeak peak;
    double apart_w;
    WbPanelRun one = {&big, 1}, two[] = {{&big, 1}, {&half, 2}};
    g_assert_cmpint(wb_peak_series(&one, 1, &peak), ==, WB_OK);
    g_assert_cmpfloat_with_epsilon(peak.voltage_v, 18, 0.4);
    g_assert_cmpfloat_with_epsilon(peak.current_a, 10, 0.2);
    g_assert_cmpfloat_with_epsilon(peak.power_w, peak.voltage_v * peak.current_a, 1e-9);
    g_assert_cmpfloat(peak.power_w, >=, 180);
    g_assert_cmpint(wb_peak_apart(two, 2, &apart_w), ==, WB_OK);
    g_assert_cmpfloat_with_epsilon(apart_w, 2 * peak.power_w, 1e-6);
    g_assert_cmpint(wb_peak_series(two, 2, &peak), ==, WB_OK);
    g_assert_cmpfloat_with_epsilon(wb_run_voltage_v(&two[0], peak.current_a) +
                                       wb_run_voltage_v(&two[1], peak.current_a),
                                   peak.voltage_v, 1e-9);
    g_assert_cmpint(wb_peak_parallel(two, 2, &peak), ==, WB_OK);
    g_assert_cmpfloat_with_epsilon(wb_run_current_a(&two[0], peak.voltage_v) +
                                       wb_run_current_a(&two[1], peak.voltage_v),
                                   peak.current_a, 1e-9);
    /* No current at Voc; two diodes of 36 cells passed by; above Voc a string takes. */
    g_assert_cmpfloat_with_epsilon(wb_run_current_a(&two[1], 44), 0, 1e-5);
    g_assert_cmpfloat_with_epsilon(wb_run_voltage_v(&two[1], 9), -2, 1e-12);
    g_assert_cmpfloat(wb_run_current_a(&one, 23), <, 0);
}

static void test_bad_input(void)
{
    double kept = -1;
    WbPanel wrong = big;
    wrong.imp_a = wrong.isc_a;
    WbPanelRun runs[] = {{&big, 1}, {&wrong, 1}};
    g_assert_cmpint(wb_mismatch_series(runs, 0, &kept), ==, WB_BAD_INPUT);
    g_assert_cmpint(wb_mismatch_series(runs, 2, &kept), ==, WB_BAD_INPUT);
    wrong = big;
    wrong.voc_v = NAN;
    g_assert_cmpint(wb_mismatch_parallel(runs, 2, &kept), ==, WB_BAD_INPUT);
    wrong = big;
    runs[1].n = 0;
    g_assert_cmpint(wb_mismatch_parallel(runs, 2, &kept), ==, WB_BAD_INPUT);
    /* exp(-2300) is 0 in a double. */
    wrong = big;
    wrong.vmp_v = 0.999 * wrong.voc_v;
    wrong.imp_a = 0.9 * wrong.isc_a;
    runs[1].n = 1;
    g_assert_cmpint(wb_mismatch_series(runs, 2, &kept), ==, WB_BAD_INPUT);
    g_assert_cmpint(wb_mismatch_parallel(runs, 2, &kept), ==, WB_BAD_INPUT);
    g_assert_cmpfloat(kept, ==, -1);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/mismatch/alike", test_alike_lose_nothing);
    g_test_add_func("/mismatch/series", test_series_shares_the_current);
    g_test_add_func("/mismatch/bypass", test_series_bypasses);
    g_test_add_func("/mismatch/parallel", test_parallel_shares_the_voltage);
    g_test_add_func("/mismatch/never-more", test_never_more_than_all);
    g_test_add_func("/mismatch/peaks", test_peaks);
    g_test_add_func("/mismatch/bad-input", test_bad_input);
    return g_test_run();
}
