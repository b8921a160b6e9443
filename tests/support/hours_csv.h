/* A sunny year as a plain CSV of hours, for tests that need any sound file. */
#ifndef WB_TEST_HOURS_CSV_H
#define WB_TEST_HOURS_CSV_H

#include <glib.h>
#include <math.h>

/* A cosine of the day that is highest at noon of the clock, `most` W/m2; `years` of it. (transfer
 * full) */
static inline char *hours_csv(double utc_offset_h, double most, int years)
{
    GString *text = g_string_new(NULL);
    g_string_printf(text, "# utc_offset_h: %g\nglobal_w_m2,diffuse_w_m2,air_c\n", utc_offset_h);
    for (int i = 0; i < years * 8760; i++) {
        double global = MAX(0, round(most * cos((i % 24 + 0.5 - 12) * G_PI / 12)));
        g_string_append_printf(text, "%g,%g,%d\n", global, round(global * 0.3), i % 24 - 2);
    }
    return g_string_free(text, FALSE);
}

#endif
