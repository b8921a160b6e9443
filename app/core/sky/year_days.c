/* The calendar of a year of 365 days. */
#include "weather.h"

static const int first_day[WB_MONTHS + 1] = {0,   31,  59,  90,  120, 151,         181,
                                             212, 243, 273, 304, 334, WB_YEAR_DAYS};

int wb_month_of_day(int day)
{
    int month = 0;
    while (day >= first_day[month + 1])
        month++;
    return month;
}

int wb_first_day_of_month(int month)
{
    return first_day[month];
}

int wb_days_of_month(int month)
{
    return first_day[month + 1] - first_day[month];
}
