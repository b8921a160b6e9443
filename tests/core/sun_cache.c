/* Kept weather and kept sums: the same by every bit as made anew, whatever in the question differs;
 * bounded; shared by threads; found again after a change of loads. */
#include "sun_cache.h"
#include "gen.h"
#include "rank.h"
#include "year_kits.h"
#include <string.h>

static bool same_supply(const WbSupply *a, const WbSupply *b)
{
    return memcmp(a, b, sizeof *a) == 0;
}

/* Laws that differ in the idle draw alone share a sum; each gets what it would get alone. */
static void test_sums(void)
{
    WbRandom random;
    YearWorld world;
    wb_random_seed(&random, 21);
    year_world(&random, 2, 0xfff, 50, &world);
    WbArraySums *sums = wb_array_sums_new(&world.plane);
    WbArrayLaw law[40];
    for (int i = 0; i < 40; i++)
        law[i] = year_array(&random);
    for (int turn = 0; turn < 400; turn++) {
        WbArrayLaw asked = law[wb_random_below(&random, 40)];
        WbSupply kept, alone;
        asked.idle_w = year_between(&random, 0, 5);
        wb_array_sums_months(sums, &asked, &kept);
        wb_array_months(&asked, &world.plane, &alone);
        g_assert_true(same_supply(&kept, &alone));
    }
    WbArraySumsCount count = wb_array_sums_count(sums);
    g_assert_cmpuint(count.asked, ==, 400);
    g_assert_cmpuint(count.kept, ==, 40);
    g_assert_cmpuint(count.reused, ==, 360);
    wb_array_sums_free(sums);
    year_world_clear(&world);
}

/* Every member of a law but the idle draw makes it another. */
static void test_other_laws(void)
{
    WbRandom random;
    YearWorld world;
    wb_random_seed(&random, 22);
    year_world(&random, 1, 0xfff, 50, &world);
    WbArraySums *sums = wb_array_sums_new(&world.plane);
    WbArrayLaw law = year_array(&random);
    for (int i = 0; i < 6; i++) {
        WbArrayLaw other = law;
        double *member[] = {&law.idle_w,           &other.peak_w,         &other.power_coeff_k,
                            &other.heating_k_m2_w, &other.low_light_loss, &other.limit_w};
        *member[i] *= 1 + 1e-15;
        WbSupply kept;
        wb_array_sums_months(sums, &other, &kept);
        g_assert_cmpuint(wb_array_sums_count(sums).kept, ==, i + 1);
    }
    wb_array_sums_free(sums);
    year_world_clear(&world);
}

/* An array that is never clipped is a multiple of its unit; one that is clipped is summed. */
static void test_units(void)
{
    WbRandom random;
    YearWorld world;
    wb_random_seed(&random, 23);
    year_world(&random, 1, 0xfff, 50, &world);
    WbArraySums *sums = wb_array_sums_new(&world.plane);
    int clipped = 0;
    for (int i = 0; i < 60; i++) {
        WbArrayLaw law = year_array(&random);
        WbArrayUnit unit, again;
        WbSupply by_unit, alone;
        wb_array_sums_unit(sums, &law, &unit);
        wb_array_sums_unit(sums, &law, &again);
        g_assert_cmpmem(&unit, sizeof unit, &again, sizeof again);
        double most = 0;
        for (int at = 0; at < WB_YEAR_HOURS; at++)
            most = fmax(most, wb_array_offered_w(&law, world.plane.plane_w_m2[at],
                                                 world.plane.air_c[at], world.plane.low_light[at]));
        g_assert_cmpfloat_with_epsilon(unit.most * law.peak_w, most, 1e-9 * most);
        wb_array_months_by_unit(&law, &unit, sums, &by_unit);
        wb_array_months(&law, &world.plane, &alone);
        clipped += alone.clipped_wh[6] > 0;
        for (int m = 0; m < WB_MONTHS; m++) {
            g_assert_cmpfloat_with_epsilon(by_unit.day_wh[m], alone.day_wh[m], 1e-8);
            g_assert_cmpfloat_with_epsilon(by_unit.clipped_wh[m], alone.clipped_wh[m], 1e-8);
        }
    }
    g_assert_cmpint(clipped, >, 10);
    g_assert_cmpint(clipped, <, 50);
    wb_array_sums_free(sums);
    year_world_clear(&world);
}

/* One law too many: all are forgotten, and answers stay as they are. */
static void test_sums_are_bounded(void)
{
    WbRandom random;
    YearWorld world;
    wb_random_seed(&random, 24);
    year_world(&random, 1, 0xfff, 50, &world);
    WbArraySums *sums = wb_array_sums_new(&world.plane);
    WbArrayLaw law = year_array(&random);
    WbSupply first, again;
    for (int i = 0; i <= WB_ARRAY_SUMS_MOST; i++) {
        WbArrayLaw other = law;
        other.limit_w += i;
        wb_array_sums_months(sums, &other, i ? &again : &first);
        g_assert_cmpuint(wb_array_sums_count(sums).kept, <=, WB_ARRAY_SUMS_MOST);
    }
    g_assert_cmpuint(wb_array_sums_count(sums).kept, ==, 1);
    wb_array_sums_months(sums, &law, &again);
    g_assert_true(same_supply(&first, &again));
    g_assert_cmpuint(wb_array_sums_count(sums).reused, ==, 0);
    wb_array_sums_free(sums);
    year_world_clear(&world);
}

static void fill_site(WbSite *site)
{
    *site = (WbSite){.place = {.name = "somewhere", .latitude_deg = 50, .longitude_deg = 8},
                     .months = 0xfff,
                     .tilt_deg = 20,
                     .azimuth_deg = NAN,
                     .soiling_loss = 0.05,
                     .ground_albedo = 0.2,
                     .weather_years = 1,
                     .weather_seed = 1};
    for (int m = 0; m < WB_MONTHS; m++) {
        double summer = 1 - cos((m + 0.5) * 2 * G_PI / WB_MONTHS);
        site->place.ghi_kwh_m2_day[m] = 0.6 + 2.2 * summer;
        site->place.air_mean_c[m] = 2 + 8 * summer;
        site->place.air_max_c[m] = 6 + 8 * summer;
        site->place.air_min_c[m] = -2 + 8 * summer;
    }
}

static void check_same_plane(const WbPlaneHours *a, const WbPlaneHours *b)
{
    gsize n = (gsize)a->n_years * WB_YEAR_HOURS;
    g_assert_cmpint(a->n_years, ==, b->n_years);
    g_assert_cmpmem(a->plane_w_m2, n * sizeof(double), b->plane_w_m2, n * sizeof(double));
    g_assert_cmpmem(a->air_c, n * sizeof(double), b->air_c, n * sizeof(double));
    g_assert_cmpmem(a->low_light, n * sizeof(double), b->low_light, n * sizeof(double));
    g_assert_cmpmem(a->plane_kwh_m2_day, sizeof a->plane_kwh_m2_day, b->plane_kwh_m2_day,
                    sizeof b->plane_kwh_m2_day);
    g_assert_true(a->hottest_air_c == b->hottest_air_c);
}

/* Asks, compares with weather made anew, tells whether it was there. */
static bool found(WbSunCache *cache, const WbSite *site)
{
    const WbSiteSun *kept, *anew;
    uint64_t before = wb_sun_cache_count(cache).reused;
    g_assert_cmpint(wb_sun_cache_get(cache, site, &kept), ==, WB_OK);
    g_assert_cmpint(wb_sun_cache_get(NULL, site, &anew), ==, WB_OK);
    check_same_plane(&kept->plane, &anew->plane);
    wb_site_sun_unref(kept);
    wb_site_sun_unref(anew);
    return wb_sun_cache_count(cache).reused > before;
}

enum { EDITS = 14 };

static void edit(WbSite *site, int which)
{
    double *member[] = {&site->place.latitude_deg,  &site->place.longitude_deg,
                        &site->place.altitude_m,    &site->place.ghi_kwh_m2_day[3],
                        &site->place.air_mean_c[5], &site->place.air_max_c[11],
                        &site->place.air_min_c[0],  &site->tilt_deg,
                        &site->shading_loss[7],     &site->soiling_loss,
                        &site->ground_albedo};
    if (which < (int)G_N_ELEMENTS(member))
        *member[which] += 0.01;
    else if (which == 11)
        site->months = 0x1f0;
    else if (which == 12)
        site->weather_seed = 2;
    else
        site->azimuth_deg = 170;
}

static void test_sites(void)
{
    WbSunCache *cache = wb_sun_cache_new(WB_SUN_CACHE_BYTES);
    WbSite site, other;
    fill_site(&site);
    g_assert_false(found(cache, &site));
    for (int which = 0; which < EDITS; which++) {
        other = site;
        edit(&other, which);
        g_assert_false(found(cache, &other));
        g_assert_true(found(cache, &other));
        g_assert_true(found(cache, &site));
    }
    other = site; /* what the weather on the panels does not look at */
    other.place.name = "elsewhere";
    other.design_cold_c = -30;
    other.bank_where = WB_BANK_OUTSIDE;
    other.mounting = WB_MOUNT_BONDED;
    g_assert_true(found(cache, &other));
    g_assert_cmpuint(wb_sun_cache_count(cache).kept, <=, 16);
    wb_sun_cache_unref(cache);
}

/* A person's own hours count by what they are, not by where they stand in memory. */
static void test_own_hours(void)
{
    WbSunCache *cache = wb_sun_cache_new(WB_SUN_CACHE_BYTES);
    g_autofree double *sun = g_new(double, WB_YEAR_HOURS);
    g_autofree double *none = g_new(double, WB_YEAR_HOURS);
    for (int i = 0; i < WB_YEAR_HOURS; i++)
        none[i] = WB_MISSING;
    for (int i = 0; i < WB_YEAR_HOURS; i++)
        sun[i] = i % WB_HOURS > 7 && i % WB_HOURS < 17 ? 300 : 0;
    WbHours hours = {.n_years = 1,
                     .global_w_m2 = sun,
                     .diffuse_w_m2 = none,
                     .air_c = none,
                     .utc_offset_h = WB_MISSING};
    WbSite site;
    fill_site(&site);
    g_assert_false(found(cache, &site));
    site.hours = &hours;
    g_assert_false(found(cache, &site));
    g_assert_true(found(cache, &site));
    WbHours copy = hours;
    copy.global_w_m2 = g_memdup2(sun, WB_YEAR_HOURS * sizeof *sun);
    site.hours = &copy;
    g_assert_true(found(cache, &site));
    sun[4000] += 1; /* the same memory, another content */
    site.hours = &hours;
    g_assert_false(found(cache, &site));
    site.hours = &copy;
    g_assert_true(found(cache, &site));
    hours.diffuse_w_m2 = copy.global_w_m2;
    site.hours = &hours;
    g_assert_false(found(cache, &site));
    g_free((double *)copy.global_w_m2);
    wb_sun_cache_unref(cache);
}

/* What no longer fits goes, the one used longest ago first, and whoever still uses it keeps it. */
static void test_bounded(void)
{
    WbSite site, other;
    fill_site(&site);
    other = site;
    other.tilt_deg = 5;
    const WbSiteSun *held;
    WbSunCache *cache = wb_sun_cache_new(WB_ARRAY_SUMS_BYTES + (400u << 10));
    g_assert_cmpint(wb_sun_cache_get(cache, &site, &held), ==, WB_OK);
    double first = held->plane.plane_kwh_m2_day[5];
    g_assert_false(found(cache, &other));
    g_assert_cmpuint(wb_sun_cache_count(cache).kept, ==, 1);
    g_assert_cmpuint(wb_sun_cache_count(cache).bytes, <=, WB_ARRAY_SUMS_BYTES + (400u << 10));
    g_assert_true(held->plane.plane_kwh_m2_day[5] == first);
    g_assert_false(found(cache, &site));
    wb_site_sun_unref(held);
    wb_sun_cache_unref(cache);
    cache = wb_sun_cache_new(1000); /* too small for any */
    g_assert_false(found(cache, &site));
    g_assert_false(found(cache, &site));
    g_assert_cmpuint(wb_sun_cache_count(cache).kept, ==, 0);
    wb_sun_cache_unref(cache);
}

static gpointer ask_often(gpointer data)
{
    WbSunCache *cache = data;
    WbSite site;
    WbArrayLaw law = {.peak_w = 100, .power_coeff_k = -0.004, .heating_k_m2_w = 0.04};
    for (int i = 0; i < 60; i++) {
        const WbSiteSun *sun;
        WbSupply kept, alone;
        fill_site(&site);
        site.tilt_deg += i % 3;
        law.limit_w = 40 + i % 7;
        g_assert_cmpint(wb_sun_cache_get(cache, &site, &sun), ==, WB_OK);
        wb_array_sums_months(sun->sums, &law, &kept);
        wb_array_months(&law, &sun->plane, &alone);
        g_assert_true(same_supply(&kept, &alone));
        wb_site_sun_unref(sun);
    }
    return NULL;
}

static void test_threads(void)
{
    WbSunCache *cache = wb_sun_cache_new(2 * WB_ARRAY_SUMS_BYTES + (800u << 10));
    GThread *thread[4];
    for (int i = 0; i < 4; i++)
        thread[i] = g_thread_new("ask", ask_often, cache);
    for (int i = 0; i < 4; i++)
        g_thread_join(thread[i]);
    WbSunCacheCount count = wb_sun_cache_count(cache);
    g_assert_cmpuint(count.asked, ==, 240);
    g_assert_cmpuint(count.kept, <=, 2);
    wb_sun_cache_unref(cache);
}

static void check_same_ranking(const WbProblem *a, const WbProblem *b)
{
    WbRankOptions options = wb_rank_options_default();
    WbRanking one, other;
    g_assert_cmpint(wb_rank(a, &options, NULL, &one), ==, WB_OK);
    g_assert_cmpint(wb_rank(b, &options, NULL, &other), ==, WB_OK);
    g_assert_cmpuint(one.n_top, ==, other.n_top);
    for (gsize i = 0; i < one.n_top; i++) {
        g_assert_cmpint(wb_kit_compare(NULL, &one.top[i].kit, &other.top[i].kit), ==, 0);
        g_assert_true(one.top[i].score == other.top[i].score);
        g_assert_true(one.top[i].figures.supply_margin_wh == other.top[i].figures.supply_margin_wh);
        g_assert_true(one.top[i].figures.dark_h == other.top[i].figures.dark_h);
    }
    for (int r = 0; r < WB_N_RULES; r++) {
        g_assert_cmpuint(one.ruled_out[r].first, ==, other.ruled_out[r].first);
        g_assert_cmpuint(one.ruled_out[r].alone, ==, other.ruled_out[r].alone);
    }
    wb_ranking_free(&one);
    wb_ranking_free(&other);
}

/* Loads, limits and ticks change; the weather and the sums are found and nothing else shows. */
static void test_rankings(void)
{
    WbRandom random;
    wb_random_seed(&random, 25);
    g_autofree Gen *gen = g_new(Gen, 1);
    uint64_t ranked = 0, reused = 0;
    for (int i = 0; i < 25; i++) {
        GenSize size = gen_small(&random);
        gen_fill(gen, &random, &size);
        WbCaches caches = {.suns = wb_sun_cache_new(WB_SUN_CACHE_BYTES)};
        for (int turn = 0; turn < 3; turn++) {
            WbProblem *kept, *anew;
            g_assert_cmpint(wb_problem_new_kept(&gen->brief, &gen->catalogue, &caches, NULL, &kept),
                            ==, WB_OK);
            g_assert_cmpint(wb_problem_new(&gen->brief, &gen->catalogue, NULL, &anew), ==, WB_OK);
            check_same_ranking(kept, anew);
            wb_problem_free(kept);
            wb_problem_free(anew);
            gen->brief.money_minor.value *= 1.2;
            gen->brief.driving.drive_hours_day += 0.3;
            ranked++;
        }
        reused += wb_sun_cache_count(caches.suns).reused;
        wb_sun_cache_unref(caches.suns);
    }
    g_assert_cmpuint(reused, ==, ranked - 25);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/sun-cache/sums", test_sums);
    g_test_add_func("/sun-cache/other-laws", test_other_laws);
    g_test_add_func("/sun-cache/units", test_units);
    g_test_add_func("/sun-cache/sums-bounded", test_sums_are_bounded);
    g_test_add_func("/sun-cache/sites", test_sites);
    g_test_add_func("/sun-cache/own-hours", test_own_hours);
    g_test_add_func("/sun-cache/bounded", test_bounded);
    g_test_add_func("/sun-cache/threads", test_threads);
    g_test_add_func("/sun-cache/rankings", test_rankings);
    return g_test_run();
}
