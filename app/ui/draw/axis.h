/* An axis: a range widened to round values, with a few ticks, and its pixels. */
#ifndef WB_AXIS_H
#define WB_AXIS_H

#include <glib.h>

typedef struct {
    double low, high, step; /* low and high are whole multiples of step */
    int decimals;           /* that a tick needs */
} WbAxis;

/* The finest of steps 1, 2, 5 x 10^k that needs at most `most` intervals. An empty or broken range
 * becomes 0..1 or a range about its one value. */
WbAxis wb_axis_fit(double low, double high, int most);
int wb_axis_ticks(const WbAxis *axis); /* how many */
double wb_axis_tick(const WbAxis *axis, int i);
/* Pixel of a value where low stands at `from` and high at `to`. */
double wb_axis_at(const WbAxis *axis, double value, double from, double to);

#endif
