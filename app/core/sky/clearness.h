/* Daily clearness (global over extraterrestrial irradiation) of made weather. Private to core/sky.
 *
 * Persistence: a Gaussian series z[d] = 0.29 z[d-1] + sqrt(1 - 0.29^2) n[d] over all days of all
 * years, z[0] = n[0] (Graham, Hollands & Huget, Solar Energy 40, 1988, 83); u = Phi(z) is the rank
 * of the day in its month.
 *
 * Distribution: Bendt, Collares-Pereira & Rabl, Solar Energy 27, 1981, 1. Between least and most,
 * F(K) = (1 - exp(g x)) / (1 - exp(g)), x = (K - least) / (most - least). least = 0.05;
 * most = 0.6313 + 0.267 M - 11.9 (M - 0.75)^8 (Hollands & Huget, Solar Energy 30, 1983, 195; both
 * as in Duffie & Beckman 2.9, from memory), M = mean clearness of the month kept within 0.2..0.8.
 * So that any mean has a distribution (our choice): least is not above half the mean; most not
 * below a quarter of the way from the mean to 1, nor above ten times the mean.
 *
 * The one free figure g of each month is solved for the days drawn: over all years their
 * irradiation has the place's mean. No day is above 1. A mean that would need more (near the polar
 * night, where light comes from under the horizon) gets 1 on all days and falls short. */
#ifndef WB_CLEARNESS_H
#define WB_CLEARNESS_H

#include <stddef.h>

#define WB_CLEARNESS_PERSISTENCE 0.29

/* Bounds of the distribution of a month with this mean clearness above 0. */
typedef struct {
    double least, most;
} WbClearnessRange;

WbClearnessRange wb_clearness_range(double mean);

/* The distribution of shape g: above 0 more clear days than dull ones. */
typedef struct {
    double least, most, g;
    double per_g, curve; /* (most - least) / g and exp(-|g|) - 1; 0 where g is as good as 0 */
} WbClearnessLaw;

WbClearnessLaw wb_clearness_law(const WbClearnessRange *range, double g);
/* Clearness at rank u = 1 - above, both 0..1. */
double wb_clearness_at(const WbClearnessLaw *law, double u, double above);

/* The shape whose distribution has this mean; -500..500. */
double wb_clearness_shape(const WbClearnessRange *range, double mean);

/* One calendar month of all years. */
typedef struct {
    size_t n_days;
    double *rank, *above;   /* Phi(z), 1 - Phi(z) */
    double *outside_kwh_m2; /* of the day, outside the atmosphere */
    double mean_kwh_m2;     /* wanted of the days' global */
} WbClearnessMonth;

/* Clearness of each day; 0 where nothing falls outside. */
void wb_clearness_month(const WbClearnessMonth *month, double *clearness);

#endif
