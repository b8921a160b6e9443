/* The anisotropic sky of Perez et al. 1990. Sources in radiation.h. */
#include "perez.h"
#include "sun.h"
#include <math.h>

#define N_BINS 8
#define KAPPA 1.041

/* F11 F12 F13 F21 F22 F23 of each bin of sky clearness, all sites (Perez et al. 1990, Table 6). */
static const double coefficient[N_BINS][6] = {
    {-0.008, 0.588, -0.062, -0.060, 0.072, -0.022}, /* overcast */
    {0.130, 0.683, -0.151, -0.019, 0.066, -0.029},  {0.330, 0.487, -0.221, 0.055, -0.064, -0.026},
    {0.568, 0.187, -0.295, 0.109, -0.152, -0.014},  {0.873, -0.392, -0.362, 0.226, -0.462, 0.001},
    {1.132, -1.237, -0.412, 0.288, -0.823, 0.056},  {1.060, -1.600, -0.359, 0.264, -1.127, 0.131},
    {0.678, -0.327, -0.250, 0.156, -1.377, 0.251}, /* clear */
};

/* Sky clearness at which each bin but the first begins. */
static const double bin_from[N_BINS - 1] = {1.065, 1.23, 1.5, 1.95, 2.8, 4.5, 6.2};

double wb_air_mass(double zenith_rad)
{
    double zenith_deg = fmin(90, zenith_rad / WB_RAD_PER_DEG);
    return 1 / (cos(zenith_deg * WB_RAD_PER_DEG) + 0.50572 * pow(96.07995 - zenith_deg, -1.6364));
}

WbPerezSun wb_perez_sun(double cos_zenith)
{
    WbPerezSun sun = {.cos_zenith = cos_zenith,
                      .zenith_rad = acos(fmax(-1, fmin(1, cos_zenith))),
                      .horizon_cosine = fmax(cos(85 * WB_RAD_PER_DEG), cos_zenith)};
    sun.kappa_z3 = KAPPA * sun.zenith_rad * sun.zenith_rad * sun.zenith_rad;
    sun.air_mass_cosine = wb_air_mass(sun.zenith_rad) * cos_zenith;
    return sun;
}

WbPerezPlane wb_perez_plane(double tilt_rad, double ground_albedo)
{
    return (WbPerezPlane){.sky_view = (1 + cos(tilt_rad)) / 2,
                          .sin_tilt = sin(tilt_rad),
                          .from_ground = ground_albedo * (1 - cos(tilt_rad)) / 2};
}

static const double *bin_of(double clearness)
{
    int bin = 0;
    while (bin < N_BINS - 1 && clearness >= bin_from[bin])
        bin++;
    return coefficient[bin];
}

double wb_perez(const WbHorizontal *on, const WbPerezSun *sun, const WbPerezPlane *plane,
                double positive_incidence)
{
    double ground = (on->beam + on->diffuse) * plane->from_ground;
    double isotropic = on->diffuse * plane->sky_view;
    if (sun->cos_zenith <= 0)
        return isotropic + ground;
    double ratio = positive_incidence / sun->cos_zenith;
    if (on->diffuse <= 0 || on->extraterrestrial <= 0)
        return on->beam * ratio + isotropic + ground;
    double normal = on->beam / sun->cos_zenith;
    double clearness = ((on->diffuse + normal) / on->diffuse + sun->kappa_z3) / (1 + sun->kappa_z3);
    /* Hours at the edge of the day may hold more light than the little sun in them sends. */
    double brightness = sun->air_mass_cosine * fmin(1, on->diffuse / on->extraterrestrial);
    const double *f = bin_of(clearness);
    double room = fmax(0, on->extraterrestrial - on->beam) / on->diffuse * sun->horizon_cosine /
                  sun->cos_zenith;
    double fitted = fmax(0, f[0] + f[1] * brightness + f[2] * sun->zenith_rad);
    double around_sun = fmin(fitted, fmin(1, room));
    double horizon = f[3] + f[4] * brightness + f[5] * sun->zenith_rad;
    double sky = isotropic * (1 - around_sun) + on->diffuse * horizon * plane->sin_tilt +
                 on->diffuse * around_sun * positive_incidence / sun->horizon_cosine;
    return on->beam * ratio + fmax(0, sky) + ground;
}

double wb_plane_perez(const WbHorizontal *on, const WbTilted *plane)
{
    WbPerezSun sun = wb_perez_sun(plane->cos_zenith);
    WbPerezPlane fixed = wb_perez_plane(plane->tilt_rad, plane->ground_albedo);
    return wb_perez(on, &sun, &fixed, fmax(0, plane->cos_incidence));
}
