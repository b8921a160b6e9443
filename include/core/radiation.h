/* How the global radiation on the ground splits into beam and diffuse and over the hours of a day,
 * and what of it reaches a tilted plane. */
#ifndef WB_RADIATION_H
#define WB_RADIATION_H

/* Diffuse share of global on a horizontal plane, 0..1, from the clearness index (global over
 * extraterrestrial) of an hour, a day or a monthly mean day: Erbs, Klein & Duffie, Solar Energy 28,
 * 1982, 293; day and month have one curve for sunset angles up to 81.4 deg and one beyond.
 * Outside the month's fitted range, 0.3..0.8: below, the polynomial is carried on, at most 1;
 * above, the share rises in a straight line from its value at 0.8 to 1 at 1 and stays there. So
 * much light arrives only near the polar night, where the mean day is darker than the month; a beam
 * of it would be stronger than the sun. */
double wb_erbs_hour(double clearness);
double wb_erbs_day(double clearness, double sunset_rad);
double wb_erbs_month(double clearness, double sunset_rad);

/* Share of the day's global radiation that falls in the hour around this hour angle (Collares-
 * Pereira & Rabl, Solar Energy 22, 1979, 155):
 * pi/24 (a + b cos w)(cos w - cos ws) / (sin ws - ws cos ws),
 * a = 0.409 + 0.5016 sin(ws - 60 deg), b = 0.6609 - 0.4767 sin(ws - 60 deg). */
double wb_global_hour_share(double hour_angle_rad, double sunset_rad);

/* The same for diffuse (Liu & Jordan, Solar Energy 4(3), 1960, 1):
 * pi/24 (cos w - cos ws) / (sin ws - ws cos ws). Both are 0 while the sun is down. */
double wb_diffuse_hour_share(double hour_angle_rad, double sunset_rad);

/* On a horizontal plane, all in one unit (W/m2, or energy of one hour). */
typedef struct {
    double beam, diffuse;
    double extraterrestrial;
} WbHorizontal;

/* The plane a tilt model works on. */
typedef struct {
    double tilt_rad;
    double cos_incidence, cos_zenith; /* of the sun now */
    double ground_albedo;             /* 0..1 */
} WbTilted;

/* On the tilted plane, in the unit of `on`. With Rb = max(0, cos incidence) / cos zenith:
 * isotropic sky (Liu & Jordan 1963; Duffie & Beckman 2.15.1):
 *   Ib Rb + Id (1 + cos tilt)/2 + (Ib + Id) albedo (1 - cos tilt)/2
 * HDKR, Hay, Davies, Klucher & Reindl (Duffie & Beckman 2.16.7), with
 * f = sqrt(Ib / (Ib + Id)) and Ai = Ib/I0, at most (I0 - Ib)/Id: beam and circumsolar together are
 * never stronger than the sun outside (only light beyond any clear sky meets that limit):
 *   (Ib + Id Ai) Rb + Id (1 - Ai)(1 + cos tilt)/2 (1 + f sin^3(tilt/2))
 *   + (Ib + Id) albedo (1 - cos tilt)/2
 * A sun on or below the horizon gives no beam. */
double wb_plane_isotropic(const WbHorizontal *on, const WbTilted *plane);
double wb_plane_hdkr(const WbHorizontal *on, const WbTilted *plane);

/* Relative air mass (Kasten & Young, Applied Optics 28, 1989, 4735), z in degrees, at most 90:
 * 1 / (cos z + 0.50572 (96.07995 - z)^-1.6364) */
double wb_air_mass(double zenith_rad);

/* Perez, Ineichen, Seals, Michalsky & Stewart, Solar Energy 44, 1990, 271 (sky clearness and
 * brightness choose the light around the sun, F1, and along the horizon, F2; table in perez.c):
 *   Ib Rb + max(0, Id ((1 - F1)(1 + cos tilt)/2 + F1 a/b + F2 sin tilt))
 *   + (Ib + Id) albedo (1 - cos tilt)/2
 * a = max(0, cos incidence), b = max(cos 85 deg, cos zenith). In a it is a straight line, so the
 * mean over several azimuths under one sun is the value for the mean of max(0, cos incidence),
 * which may stand in for cos_incidence. Brightness counts no diffuse above the extraterrestrial,
 * and F1 is at most 1 and so small that beam and circumsolar together are never stronger than the
 * sun outside: light in excess, as hours at the edge of the day have, comes from all the sky. A sun
 * on or below the horizon leaves an even sky. */
double wb_plane_perez(const WbHorizontal *on, const WbTilted *plane);

#endif
