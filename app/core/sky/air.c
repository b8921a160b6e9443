#include "air.h"
#include "sun.h"
#include <math.h>

#define WARMEST_H 14.0

double wb_air_c(double mean_c, double max_c, double min_c, double sunrise_h, double solar_h)
{
    double coldest_h = fmin(10, fmax(2, sunrise_h));
    double course;
    if (solar_h >= coldest_h && solar_h <= WARMEST_H) {
        course = -cos(WB_PI * (solar_h - coldest_h) / (WARMEST_H - coldest_h));
    } else {
        double since_h = solar_h > WARMEST_H ? solar_h - WARMEST_H : solar_h + 24 - WARMEST_H;
        course = cos(WB_PI * since_h / (24 - WARMEST_H + coldest_h));
    }
    return mean_c + (max_c - min_c) / 2 * course;
}
