/* The law of an array in one hour, inline for whoever works out many. For core only. */
#ifndef WB_ARRAY_WATTS_H
#define WB_ARRAY_WATTS_H

#include "array.h"
#include "vector_code.h"

/* For doubles and for vectors of them: `law` a struct with the members of WbArrayLaw, `or_0` their
 * maximum with 0. */
#define WB_OFFERED_W(law, plane_w_m2, air_c, low_light, or_0)                                      \
    ((law)->peak_w * ((plane_w_m2) / 1000) * or_0(1.0 - (law)->low_light_loss * (low_light)) *     \
     or_0(1.0 + (law)->power_coeff_k * ((law)->heating_k_m2_w * (plane_w_m2) + ((air_c)-25))))

WB_INLINE double wb_offered_w(const WbArrayLaw *law, double plane_w_m2, double air_c,
                              double low_light)
{
    return WB_OFFERED_W(law, plane_w_m2, air_c, low_light, wb_or_0);
}

#endif
