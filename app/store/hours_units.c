/* Can the figures of an hourly file be W/m2? */
#include "hours_gather.h"
#include "store_fail.h"

/* The strongest hour anywhere stays below the sun outside the atmosphere (1412 W/m2 in January),
 * and every place but the poles has an hour of this much in a year. No place has a day of more than
 * 15 kWh/m2 (outside the atmosphere: 13.6), or a year outside these bounds (deserts on heights have
 * 2800, the far north 600). */
#define LEAST_LARGEST_W_M2 400
#define MOST_W_M2 1500
#define MOST_DAY_KWH_M2 15
#define LEAST_YEAR_KWH_M2 300
#define MOST_YEAR_KWH_M2 3100
/* Two instruments differ by so much on a bad hour. */
#define MOST_DIFFUSE_ABOVE_W_M2 50

/* Of one year of the file. */
typedef struct {
    double sum_kwh_m2, largest_w_m2, largest_day_kwh_m2;
    guint largest_at, largest_day_at; /* rows */
} Year;

static double at(const GArray *figures, guint i)
{
    return g_array_index(figures, double, i);
}

static int line_of(const WbHoursGather *gather, guint i)
{
    return g_array_index(gather->line, int, i);
}

static Year sum_year(const WbHoursGather *gather, guint first)
{
    Year year = {.largest_at = first, .largest_day_at = first};
    for (guint day = first; day < first + WB_YEAR_HOURS; day += WB_HOURS) {
        double day_kwh_m2 = 0;
        for (guint i = day; i < day + WB_HOURS; i++) {
            double w_m2 = at(gather->global_w_m2, i);
            day_kwh_m2 += w_m2 / 1000;
            if (w_m2 > year.largest_w_m2) {
                year.largest_w_m2 = w_m2;
                year.largest_at = i;
            }
        }
        if (day_kwh_m2 > year.largest_day_kwh_m2) {
            year.largest_day_kwh_m2 = day_kwh_m2;
            year.largest_day_at = day;
        }
        year.sum_kwh_m2 += day_kwh_m2;
    }
    return year;
}

/* The unit in which the year would be one of this earth, as a clause, or "". */
static const char *looks_like(const Year *year)
{
    static const struct {
        double per_w_m2;
        const char *clause;
    } units[] = {
        {0.001, "; the figures look like kWh/m2 (multiply by 1000)"},
        {0.0036, "; the figures look like MJ/m2 (divide by 0.0036)"},
        {0.36, "; the figures look like J/cm2 (divide by 0.36)"},
        {3.6, "; the figures look like kJ/m2 (divide by 3.6)"},
        {3600, "; the figures look like J/m2 (divide by 3600)"},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(units); i++) {
        if (units[i].per_w_m2 > 1 && year->sum_kwh_m2 <= MOST_YEAR_KWH_M2)
            continue; /* one bad hour in a year that is right */
        double largest = year->largest_w_m2 / units[i].per_w_m2;
        double sum = year->sum_kwh_m2 / units[i].per_w_m2;
        if (largest >= LEAST_LARGEST_W_M2 && largest <= MOST_W_M2 && sum >= LEAST_YEAR_KWH_M2 &&
            sum <= MOST_YEAR_KWH_M2)
            return units[i].clause;
    }
    return "";
}

static gboolean check_year(const WbHoursGather *gather, const WbHoursText *text, guint first,
                           GError **error)
{
    Year year = sum_year(gather, first);
    const char *clause = looks_like(&year);
    if (year.largest_w_m2 > MOST_W_M2)
        return wb_store_fail(
            error, WB_STORE_ERROR_VALUE,
            "%s, line %d: global_w_m2 is %g; 0 to %d W/m2, the mean over the hour, "
            "is accepted%s.",
            text->name, line_of(gather, year.largest_at), year.largest_w_m2, MOST_W_M2, clause);
    if (year.largest_day_kwh_m2 > MOST_DAY_KWH_M2)
        return wb_store_fail(error, WB_STORE_ERROR_VALUE,
                             "%s, line %d: the day that begins here has %.1f kWh/m2 of global "
                             "radiation; no day anywhere has more than %d; W/m2, the mean over the "
                             "hour, is accepted.",
                             text->name, line_of(gather, year.largest_day_at),
                             year.largest_day_kwh_m2, MOST_DAY_KWH_M2);
    if (year.largest_w_m2 < LEAST_LARGEST_W_M2 || year.sum_kwh_m2 < LEAST_YEAR_KWH_M2 ||
        year.sum_kwh_m2 > MOST_YEAR_KWH_M2)
        return wb_store_fail(error, WB_STORE_ERROR_VALUE,
                             "%s: the year from line %d on has %.4g kWh/m2 of global radiation and "
                             "at most %.4g W/m2 in an hour; years of %d to %d kWh/m2 with an hour "
                             "above %d W/m2 are accepted%s.",
                             text->name, line_of(gather, first), year.sum_kwh_m2, year.largest_w_m2,
                             LEAST_YEAR_KWH_M2, MOST_YEAR_KWH_M2, LEAST_LARGEST_W_M2, clause);
    return TRUE;
}

gboolean wb_hours_check_units(const WbHoursGather *gather, const WbHoursText *text, GError **error)
{
    guint n = gather->line->len;
    for (guint first = 0; first < n; first += WB_YEAR_HOURS)
        if (!check_year(gather, text, first, error))
            return FALSE;
    for (guint i = 0; i < n; i++)
        if (at(gather->diffuse_w_m2, i) > at(gather->global_w_m2, i) + MOST_DIFFUSE_ABOVE_W_M2)
            return wb_store_fail(error, WB_STORE_ERROR_VALUE,
                                 "%s, line %d: diffuse_w_m2 is %g, more than the global %g it is a "
                                 "part of; up to %d W/m2 above is accepted as an error of "
                                 "instruments.",
                                 text->name, line_of(gather, i), at(gather->diffuse_w_m2, i),
                                 at(gather->global_w_m2, i), MOST_DIFFUSE_ABOVE_W_M2);
    return TRUE;
}
