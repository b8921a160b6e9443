/* Perez' anisotropic sky for many hours under one sun: what depends on the sun alone is worked out
 * once. Private to core/sky; the formula stands in radiation.h. */
#ifndef WB_PEREZ_H
#define WB_PEREZ_H

#include "radiation.h"

typedef struct {
    double cos_zenith, zenith_rad;
    double kappa_z3;        /* 1.041 zenith^3 */
    double air_mass_cosine; /* air mass x cos zenith */
    double horizon_cosine;  /* b: max(cos 85 deg, cos zenith) */
} WbPerezSun;

WbPerezSun wb_perez_sun(double cos_zenith);

typedef struct {
    double sky_view; /* (1 + cos tilt) / 2 */
    double sin_tilt;
    double from_ground; /* albedo (1 - cos tilt) / 2 */
} WbPerezPlane;

WbPerezPlane wb_perez_plane(double tilt_rad, double ground_albedo);

/* positive_incidence: max(0, cos incidence), or its mean over several planes of this tilt. */
double wb_perez(const WbHorizontal *on, const WbPerezSun *sun, const WbPerezPlane *plane,
                double positive_incidence);

#endif
