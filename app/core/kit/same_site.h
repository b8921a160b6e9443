/* Do two sites have the same weather on their panels? */
#ifndef WB_SAME_SITE_H
#define WB_SAME_SITE_H

#include "weather.h"

/* By every bit of what wb_weather_of_site and wb_plane_hours look at. */
bool wb_same_site(const WbSite *a, const WbSite *b);
/* With hours of its own and without names. False: out of memory. */
bool wb_site_copy(const WbSite *site, WbSite *copy);
void wb_site_copy_free(WbSite *copy);

#endif
