/* Does one array never give less than another? Watts offered are a product of a share for light,
 * straight in the low-light measure L, and one for heat, straight in air temperature and irradiance
 * together. So the difference of two arrays is straight along each of (T, G), L while the other
 * stands still, and least at a corner of the box that holds all hours with sun. */
#include "array.h"

typedef struct {
    double air_c, plane_w_m2;
} Corner;

static double heat_share(const WbArrayLaw *law, Corner at)
{
    return 1 + law->power_coeff_k * (at.air_c + law->heating_k_m2_w * at.plane_w_m2 - 25);
}

static double light_share(const WbArrayLaw *law, double low_light)
{
    return 1 - law->low_light_loss * low_light;
}

static Corner corner(const WbPlaneHours *plane, int i)
{
    return (Corner){i & 1 ? plane->sun_air_max_c : plane->sun_air_min_c,
                    i & 2 ? plane->plane_max_w_m2 : 0};
}

/* At one low-light measure, for light shares that are not negative. */
static bool never_less_at(const WbArrayLaw *a, double light_a, const WbArrayLaw *b, double light_b,
                          const WbPlaneHours *plane)
{
    for (int i = 0; i < 4; i++) {
        Corner at = corner(plane, i);
        if (!(a->peak_w * light_a * heat_share(a, at) >= b->peak_w * light_b * heat_share(b, at)))
            return false;
    }
    return true;
}

/* Where b loses no less in low light, heat alone decides; else both ends of the measure do, as long
 * as a's light share is nowhere cut to 0. */
static bool offers_never_less(const WbArrayLaw *a, const WbArrayLaw *b, const WbPlaneHours *plane)
{
    if (a->low_light_loss <= b->low_light_loss && never_less_at(a, 1, b, 1, plane))
        return true;
    double most = plane->low_light_max, light_a = light_share(a, most);
    return light_a >= 0 && never_less_at(a, 1, b, 1, plane) &&
           never_less_at(a, light_a, b, light_share(b, most), plane);
}

static double most_offered_w(const WbArrayLaw *law, const WbPlaneHours *plane)
{
    double heat = 0, light = light_share(law, plane->low_light_max);
    for (int i = 0; i < 4; i++) {
        double share = heat_share(law, corner(plane, i));
        heat = share > heat ? share : heat;
    }
    return law->peak_w * plane->plane_max_w_m2 / 1000 * heat * (light > 1 ? light : 1);
}

bool wb_array_never_less(const WbArrayLaw *a, const WbArrayLaw *b, const WbPlaneHours *plane)
{
    if (!(a->idle_w <= b->idle_w) || !(a->peak_w >= 0) || !(b->peak_w >= 0))
        return false;
    bool limited_alike = a->limit_w >= b->limit_w || most_offered_w(b, plane) <= a->limit_w;
    return limited_alike && offers_never_less(a, b, plane);
}
