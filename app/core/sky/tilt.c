/* From the horizontal to the tilted plane. Sources in radiation.h. */
#include "radiation.h"
#include <math.h>

static double beam_ratio(const WbTilted *plane)
{
    if (plane->cos_zenith <= 0)
        return 0;
    return fmax(0, plane->cos_incidence) / plane->cos_zenith;
}

static double sky_view(const WbTilted *plane)
{
    return (1 + cos(plane->tilt_rad)) / 2;
}

static double from_ground(const WbHorizontal *on, const WbTilted *plane)
{
    return (on->beam + on->diffuse) * plane->ground_albedo * (1 - cos(plane->tilt_rad)) / 2;
}

double wb_plane_isotropic(const WbHorizontal *on, const WbTilted *plane)
{
    return on->beam * beam_ratio(plane) + on->diffuse * sky_view(plane) + from_ground(on, plane);
}

/* Share of the diffuse that comes from around the sun. */
static double anisotropy_index(const WbHorizontal *on, const WbTilted *plane)
{
    if (on->beam <= 0 || on->beam >= on->extraterrestrial || plane->cos_zenith <= 0)
        return 0;
    double index = on->beam / on->extraterrestrial;
    double room = on->extraterrestrial - on->beam;
    return on->diffuse * index <= room ? index : room / on->diffuse;
}

double wb_plane_hdkr(const WbHorizontal *on, const WbTilted *plane)
{
    double global = on->beam + on->diffuse;
    if (global <= 0)
        return 0;
    double anisotropy = anisotropy_index(on, plane);
    double brightening = 1 + sqrt(on->beam / global) * pow(sin(plane->tilt_rad / 2), 3);
    return (on->beam + on->diffuse * anisotropy) * beam_ratio(plane) +
           on->diffuse * (1 - anisotropy) * sky_view(plane) * brightening + from_ground(on, plane);
}
