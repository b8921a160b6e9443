/* The law of an array in one hour, inline for whoever works out many. For core only. */
#ifndef WB_ARRAY_WATTS_H
#define WB_ARRAY_WATTS_H

#include "array.h"
#include "vector_code.h"

WB_INLINE double wb_offered_w(const WbArrayLaw *law, double plane_w_m2, double air_c,
                              double low_light)
{
    double light = wb_more(1 - law->low_light_loss * low_light, 0);
    double above_stc_k = air_c + law->heating_k_m2_w * plane_w_m2 - 25;
    double heat = wb_more(1 + law->power_coeff_k * above_stc_k, 0);
    return law->peak_w * (plane_w_m2 / 1000) * light * heat;
}

#endif
