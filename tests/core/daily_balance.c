/* Do the pencil methods of daily_balance.h give the values worked out elsewhere? */
#include "daily_balance.h"
#include "debilt.h"
#include "published.h"

/* An independent computation over the measured series; not published. Array 1.0, 1.2, 1.5 times
 * what the worst month carries, bank of 1, 2, 3, 5, 10 days. */
static const double bank_days[5] = {1, 2, 3, 5, 10};
static const struct {
    double array, lost[5];
} debilt_rows[3] = {{1.0, {0.02300, 0.01403, 0.00980, 0.00521, 0.00026}},
                    {1.2, {0.01317, 0.00553, 0.00267, 0.00069, 0}},
                    {1.5, {0.00573, 0.00148, 0.00034, 0.00001, 0}}};

static double lost(const double *days, size_t n, double mean, double array, double bank)
{
    double share = NAN;
    g_assert_cmpint(wb_loss_of_load_daily(n, days, mean, array, bank, &share), ==, WB_OK);
    return share;
}

static void test_debilt(void)
{
    g_autofree double *days = debilt_days_kwh_m2();
    double mean = debilt_worst_month_kwh_m2(days, DEBILT_YEARS);
    published("De Bilt 1959-1988, an independent computation", mean, 0.4922, 1e-4);
    for (gsize i = 0; i < G_N_ELEMENTS(debilt_rows); i++)
        for (gsize c = 0; c < G_N_ELEMENTS(bank_days); c++)
            published(
                "De Bilt 1959-1988, an independent computation (method: Egido & Lorenzo 1992)",
                lost(days, DEBILT_DAYS, mean, debilt_rows[i].array, bank_days[c]),
                debilt_rows[i].lost[c], 1e-5);
}

/* More array or more bank never loses more. */
static void test_loss_falls(void)
{
    g_autofree double *days = debilt_days_kwh_m2();
    for (double array = 0.6; array < 2; array += 0.2) {
        for (double bank = 0.5; bank < 12; bank *= 1.5) {
            double here = lost(days, DEBILT_DAYS, 0.4922, array, bank);
            g_assert_cmpfloat(here, >=, lost(days, DEBILT_DAYS, 0.4922, array + 0.1, bank));
            g_assert_cmpfloat(here, >=, lost(days, DEBILT_DAYS, 0.4922, array, bank * 1.2));
        }
    }
    /* What the worst month just carries never loses nothing. */
    g_assert_cmpfloat(lost(days, DEBILT_DAYS, 0.4922, 1, 10), >, 0);
    g_assert_cmpfloat(lost(days, DEBILT_DAYS, 0.4922, 0, 1), ==, 1 - 1.0 / DEBILT_DAYS);
}

static void test_sequent_peak(void)
{
    static const double library[] = {12, 8, 6, 15, 10};
    static const double textbook[] = {1, 3, 3, 5, 8, 6, 7, 2, 1};
    static const double months[] = {382.8,  303.5,  290.1, 518.7, 741.6, 950.5,
                                    1123.2, 1200.4, 973.1, 671.7, 498.9, 347.1};
    double capacity, mean = 0;
    g_assert_cmpint(wb_sequent_peak(5, library, 10, 1, &capacity), ==, WB_OK);
    published("sequent peak: inputs of a library's documentation, recomputed", capacity, 6, 1e-12);
    static const double rows[3][2] = {{3.0, 5.0}, {3.5, 7.5}, {4.0, 10.0}};
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        g_assert_cmpint(wb_sequent_peak(9, textbook, rows[i][0], 2, &capacity), ==, WB_OK);
        published("Loucks & van Beek, Water Resources Systems (from memory, recomputed)", capacity,
                  rows[i][1], 1e-12);
    }
    for (gsize i = 0; i < G_N_ELEMENTS(months); i++)
        mean += months[i] / G_N_ELEMENTS(months);
    g_assert_cmpint(wb_sequent_peak(12, months, mean, 2, &capacity), ==, WB_OK);
    published("sequent peak of twelve months at their mean, recomputed", capacity, 1659.7, 0.001);
}

/* The bank of the sequent peak carries everything, a smaller one does not. */
static void test_peak_is_least(void)
{
    g_autofree double *days = debilt_days_kwh_m2();
    for (double array = 1.1; array < 3; array += 0.3) {
        g_autofree double *inflow = g_new(double, DEBILT_DAYS);
        double capacity;
        for (int i = 0; i < DEBILT_DAYS; i++)
            inflow[i] = array * days[i] / 0.4922;
        g_assert_cmpint(wb_sequent_peak(DEBILT_DAYS, inflow, 1, 1, &capacity), ==, WB_OK);
        g_assert_cmpfloat(lost(days, DEBILT_DAYS, 0.4922, array, capacity + 1e-9), <, 1e-12);
        double short_by = lost(days, DEBILT_DAYS, 0.4922, array, capacity - 0.1) * DEBILT_DAYS;
        g_assert_cmpfloat(short_by, >=, 0.1 - 1e-9);
    }
}

static void test_autonomy(void)
{
    static const double rows[][3] = {
        {2, 15.7, 6.1}, {3, 12.5, 4.7}, {4, 9.9, 3.6}, {5, 7.9, 2.7}, {6, 6.4, 2.0}};
    const char *source = "Sandia availability chart, fit (from memory)";
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        published(source, wb_autonomy_days_99(rows[i][0]), rows[i][1], 0.1);
        published(source, wb_autonomy_days_95(rows[i][0]), rows[i][2], 0.1);
    }
    for (double hours = 0; hours < 12; hours += 0.5) {
        g_assert_cmpfloat(wb_autonomy_days_99(hours), >, wb_autonomy_days_95(hours));
        g_assert_cmpfloat(wb_autonomy_days_99(hours), >=, wb_autonomy_days_99(hours + 0.5));
        g_assert_cmpfloat(wb_autonomy_days_95(hours), >=, wb_autonomy_days_95(hours + 0.5));
    }
    g_assert_true(isnan(wb_autonomy_days_99(NAN)) && isnan(wb_autonomy_days_95(NAN)));
}

static void test_bad_input(void)
{
    static const double good[2] = {1, 2};
    static const double bad[][2] = {{1, -1}, {NAN, 1}, {INFINITY, 1}};
    double answer = 7;
    g_assert_cmpint(wb_loss_of_load_daily(0, good, 1, 1, 1, &answer), ==, WB_BAD_INPUT);
    g_assert_cmpint(wb_loss_of_load_daily(2, good, 0, 1, 1, &answer), ==, WB_BAD_INPUT);
    g_assert_cmpint(wb_loss_of_load_daily(2, good, 1, NAN, 1, &answer), ==, WB_BAD_INPUT);
    g_assert_cmpint(wb_loss_of_load_daily(2, good, 1, 1, 0, &answer), ==, WB_BAD_INPUT);
    g_assert_cmpint(wb_sequent_peak(0, good, 1, 1, &answer), ==, WB_BAD_INPUT);
    g_assert_cmpint(wb_sequent_peak(2, good, -1, 1, &answer), ==, WB_BAD_INPUT);
    g_assert_cmpint(wb_sequent_peak(2, good, 1, 0, &answer), ==, WB_BAD_INPUT);
    for (gsize i = 0; i < G_N_ELEMENTS(bad); i++) {
        g_assert_cmpint(wb_loss_of_load_daily(2, bad[i], 1, 1, 1, &answer), ==, WB_BAD_INPUT);
        g_assert_cmpint(wb_sequent_peak(2, bad[i], 1, 1, &answer), ==, WB_BAD_INPUT);
    }
    g_assert_cmpfloat(answer, ==, 7);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/daily-balance/debilt", test_debilt);
    g_test_add_func("/daily-balance/loss-falls", test_loss_falls);
    g_test_add_func("/daily-balance/sequent-peak", test_sequent_peak);
    g_test_add_func("/daily-balance/peak-is-least", test_peak_is_least);
    g_test_add_func("/daily-balance/autonomy", test_autonomy);
    g_test_add_func("/daily-balance/bad-input", test_bad_input);
    g_test_add_func("/daily-balance/published-count", published_count);
    return g_test_run();
}
