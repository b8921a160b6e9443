/* Beam and diffuse, and the hours of the day. Sources in radiation.h. */
#include "radiation.h"
#include "sun.h"
#include <math.h>
#include <stdbool.h>

/* Coefficients of 1, K, K^2, K^3, K^4. */
static double polynomial(const double c[5], double k)
{
    return c[0] + k * (c[1] + k * (c[2] + k * (c[3] + k * c[4])));
}

static double as_share(double share)
{
    return fmin(1, fmax(0, share));
}

/* Erbs' limit between winter and the other seasons. */
static bool is_winter(double sunset_rad)
{
    return sunset_rad <= 81.4 * WB_RAD_PER_DEG;
}

double wb_erbs_hour(double clearness)
{
    static const double middle[5] = {0.9511, -0.1604, 4.388, -16.638, 12.336};
    if (clearness <= 0.22)
        return as_share(1 - 0.09 * clearness);
    return clearness <= 0.80 ? as_share(polynomial(middle, clearness)) : 0.165;
}

double wb_erbs_day(double clearness, double sunset_rad)
{
    static const double winter[5] = {1, -0.2727, 2.4495, -11.9514, 9.3879};
    static const double other[5] = {1, 0.2832, -2.5557, 0.8448, 0};
    if (is_winter(sunset_rad))
        return clearness < 0.715 ? as_share(polynomial(winter, clearness)) : 0.143;
    return clearness < 0.722 ? as_share(polynomial(other, clearness)) : 0.175;
}

double wb_erbs_month(double clearness, double sunset_rad)
{
    static const double winter[5] = {1.391, -3.560, 4.189, -2.137, 0};
    static const double other[5] = {1.311, -3.022, 3.427, -1.821, 0};
    double fitted =
        as_share(polynomial(is_winter(sunset_rad) ? winter : other, fmin(clearness, 0.8)));
    double beyond = as_share((clearness - 0.8) / (1 - 0.8));
    return fitted + (1 - fitted) * beyond;
}

double wb_diffuse_hour_share(double hour_angle_rad, double sunset_rad)
{
    double above = cos(hour_angle_rad) - cos(sunset_rad);
    double day = sin(sunset_rad) - sunset_rad * cos(sunset_rad);
    if (above <= 0 || day <= 0)
        return 0;
    return WB_PI / 24 * above / day;
}

double wb_global_hour_share(double hour_angle_rad, double sunset_rad)
{
    double season = sin(sunset_rad - 60 * WB_RAD_PER_DEG);
    double a = 0.409 + 0.5016 * season, b = 0.6609 - 0.4767 * season;
    return (a + b * cos(hour_angle_rad)) * wb_diffuse_hour_share(hour_angle_rad, sunset_rad);
}
