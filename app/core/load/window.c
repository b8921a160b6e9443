#include "load_window.h"
#include <math.h>

/* Daylight loads in polar night and on the shortest days: around noon all the same. */
#define SHORTEST_FROM_H 10.0
#define SHORTEST_TO_H 14.0

typedef struct {
    double from_h, to_h; /* 0 <= from < 24, from < to <= from + 24 */
} Window;

static Window wrap(double from_h, double to_h)
{
    return (Window){from_h, to_h > from_h ? to_h : to_h + 24};
}

static Window window_of(const WbLoad *load, const WbSky *sky, int month)
{
    switch ((WbDayPart)load->day_part) {
    case WB_DAY_DAYLIGHT:
        return (Window){fmin(sky->sunrise_h[month], SHORTEST_FROM_H),
                        fmax(sky->sunset_h[month], SHORTEST_TO_H)};
    case WB_DAY_EVENING:
        return (Window){17, 23};
    case WB_DAY_NIGHT:
        return wrap(23, 7);
    case WB_DAY_FROM_TO:
        return wrap(load->from_h, load->to_h);
    case WB_DAY_ALL:
        break;
    }
    return (Window){0, 24};
}

static double overlap_h(double from_h, double to_h, double hour)
{
    return fmax(0, fmin(to_h, hour + 1) - fmax(from_h, hour));
}

bool wb_load_runs(const WbLoad *load, int month)
{
    return (load->months >> month & 1) && load->power_w > 0 && load->count > 0 &&
           load->hours_day > 0 && load->duty > 0 && load->days_week > 0;
}

bool wb_load_runs_in(const WbLoad *load, uint32_t months)
{
    uint32_t common = load->months & months & ((1u << WB_MONTHS) - 1);
    return common != 0 && wb_load_runs(load, __builtin_ctz(common));
}

void wb_load_window(const WbLoad *load, const WbSky *sky, int month, double share[WB_HOURS])
{
    Window window = window_of(load, sky, month);
    double length_h = window.to_h - window.from_h;
    for (int h = 0; h < WB_HOURS; h++)
        share[h] = (overlap_h(window.from_h, window.to_h, h) +
                    overlap_h(window.from_h, window.to_h, h + 24)) /
                   length_h;
}

double wb_load_watts(const WbLoad *load)
{
    return load->power_w * load->count;
}

double wb_load_day_wh(const WbLoad *load, int month)
{
    if (!wb_load_runs(load, month))
        return 0;
    return wb_load_watts(load) * load->hours_day * load->duty * load->days_week / 7;
}
