#include "same_site.h"
#include <stdlib.h>
#include <string.h>

/* Bits, not values: a missing number is the same as itself. */
static bool same(const double *a, const double *b, size_t n)
{
    return memcmp(a, b, n * sizeof *a) == 0;
}

static bool same_place(const WbPlace *a, const WbPlace *b)
{
    return same(&a->latitude_deg, &b->latitude_deg, 1) &&
           same(&a->longitude_deg, &b->longitude_deg, 1) &&
           same(&a->altitude_m, &b->altitude_m, 1) &&
           same(a->ghi_kwh_m2_day, b->ghi_kwh_m2_day, WB_MONTHS) &&
           same(a->air_mean_c, b->air_mean_c, WB_MONTHS) &&
           same(a->air_max_c, b->air_max_c, WB_MONTHS) &&
           same(a->air_min_c, b->air_min_c, WB_MONTHS);
}

static bool same_hours(const WbHours *a, const WbHours *b)
{
    if (!a || !b)
        return a == b;
    size_t n = (size_t)a->n_years * WB_YEAR_HOURS;
    return a->n_years == b->n_years && same(&a->utc_offset_h, &b->utc_offset_h, 1) &&
           same(a->global_w_m2, b->global_w_m2, n) && same(a->diffuse_w_m2, b->diffuse_w_m2, n) &&
           same(a->air_c, b->air_c, n);
}

bool wb_same_site(const WbSite *a, const WbSite *b)
{
    return same_place(&a->place, &b->place) && a->months == b->months &&
           same(&a->tilt_deg, &b->tilt_deg, 1) && same(&a->azimuth_deg, &b->azimuth_deg, 1) &&
           same(a->shading_loss, b->shading_loss, WB_MONTHS) &&
           same(&a->soiling_loss, &b->soiling_loss, 1) &&
           same(&a->ground_albedo, &b->ground_albedo, 1) && a->weather_years == b->weather_years &&
           a->weather_seed == b->weather_seed && same_hours(a->hours, b->hours);
}

/* Out of memory, *ok becomes false. */
static double *copy_rows(const double *rows, size_t n, bool *ok)
{
    double *copy = malloc(n * sizeof *copy);
    if (copy)
        memcpy(copy, rows, n * sizeof *copy);
    *ok = *ok && copy;
    return copy;
}

bool wb_site_copy(const WbSite *site, WbSite *copy)
{
    *copy = *site;
    copy->place.id = copy->place.name = copy->place.country = NULL;
    copy->place.kind = copy->place.source = copy->place.years = NULL;
    copy->hours = NULL;
    if (!site->hours)
        return true;
    WbHours *hours = malloc(sizeof *hours);
    if (!hours)
        return false;
    const WbHours *from = site->hours;
    size_t n = (size_t)from->n_years * WB_YEAR_HOURS;
    bool ok = true;
    *hours = *from;
    hours->name = NULL;
    hours->global_w_m2 = copy_rows(from->global_w_m2, n, &ok);
    hours->diffuse_w_m2 = copy_rows(from->diffuse_w_m2, n, &ok);
    hours->air_c = copy_rows(from->air_c, n, &ok);
    copy->hours = hours;
    return ok; /* what there is goes with wb_site_copy_free */
}

void wb_site_copy_free(WbSite *copy)
{
    WbHours *hours = (WbHours *)copy->hours;
    if (!hours)
        return;
    free((double *)hours->global_w_m2);
    free((double *)hours->diffuse_w_m2);
    free((double *)hours->air_c);
    free(hours);
    copy->hours = NULL;
}
