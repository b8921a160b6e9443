#include "debilt.h"
#include "weather.h"
#include <glib.h>
#include <math.h>

double *debilt_days_kwh_m2(void)
{
    const char *folder = g_getenv("WB_TEST_DATA"); /* set by tests/meson.build */
    g_assert_nonnull(folder);
    g_autofree char *file = g_build_filename(folder, "debilt.csv", NULL);
    g_autofree char *text = NULL;
    g_assert_true(g_file_get_contents(file, &text, NULL, NULL));
    g_auto(GStrv) line = g_strsplit(text, "\n", -1);
    double *days = g_new(double, DEBILT_DAYS);
    int n = 0;
    for (int i = 0; line[i] != NULL; i++) {
        if (!g_ascii_isdigit(line[i][0]))
            continue;
        g_auto(GStrv) cell = g_strsplit(line[i], ",", -1);
        g_assert_cmpuint(g_strv_length(cell), ==, 3);
        g_auto(GStrv) day = g_strsplit(cell[2], ";", -1);
        for (int d = 0; day[d] != NULL; d++) {
            g_assert_cmpint(n, <, DEBILT_DAYS);
            days[n++] = g_ascii_strtod(day[d], NULL) / 1000;
        }
    }
    g_assert_cmpint(n, ==, DEBILT_DAYS);
    return days;
}

void debilt_months_kwh_m2(const double *days_kwh_m2, int n_years, double months_kwh_m2[12])
{
    double sum[12] = {0};
    for (int d = 0; d < n_years * WB_YEAR_DAYS; d++)
        sum[wb_month_of_day(d % WB_YEAR_DAYS)] += days_kwh_m2[d];
    for (int m = 0; m < 12; m++)
        months_kwh_m2[m] = sum[m] / (n_years * wb_days_of_month(m));
}

double debilt_worst_month_kwh_m2(const double *days_kwh_m2, int n_years)
{
    double months[12], worst = INFINITY;
    debilt_months_kwh_m2(days_kwh_m2, n_years, months);
    for (int m = 0; m < 12; m++)
        worst = fmin(worst, months[m]);
    return worst;
}
