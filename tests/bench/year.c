/* Benchmark: the hourly balance with all its physics against the trivial clamp recurrence
 * K = max(0, K + need - sun) over the same hours, one kit against one kit and
 * sixteen lanes against sixteen lanes of the same vector code, for ten years; then many kits over
 * twenty years with one worker and with two. CSV; the least of many short runs. */
#include "vector_code.h"
#include "year_kits.h"
#include <string.h>
#include <time.h>

#define RUNS 60
#define WEATHER_YEARS 10 /* what a new brief asks for */
#define HOURS (WEATHER_YEARS * WB_YEAR_HOURS)
#define LANES 16
#define KITS 1000
#define YEARS 20

static double now_s(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + 1e-9 * (double)time.tv_nsec;
}

static double kept; /* so that no work is thrown away as unused */

/* ---- the trivial recurrence ---- */

static void clamp_one(const double *need_wh, const double *sun_wh)
{
    double k_wh = 0, most_wh = 0;
    for (int i = 0; i < HOURS; i++) {
        k_wh = wb_more(k_wh + need_wh[i] - sun_wh[i], 0);
        most_wh = wb_more(k_wh, most_wh);
    }
    kept += most_wh;
}

WB_INLINE void clamp_lanes(const double *need_wh, const double *sun_wh, double lanes_wh[LANES])
{
    double k_wh[LANES] = {0}, most_wh[LANES] = {0}, share[LANES];
    for (int l = 0; l < LANES; l++)
        share[l] = 1 + 0.1 * l;
    for (int i = 0; i < HOURS; i++) {
        for (int l = 0; l < LANES; l++) {
            k_wh[l] = wb_more(k_wh[l] + need_wh[i] - share[l] * sun_wh[i], 0);
            most_wh[l] = wb_more(k_wh[l], most_wh[l]);
        }
    }
    memcpy(lanes_wh, most_wh, sizeof most_wh);
}

static void clamp_plain(const double *need_wh, const double *sun_wh, double lanes_wh[LANES])
{
    clamp_lanes(need_wh, sun_wh, lanes_wh);
}

WB_FOR_AVX2 static void clamp_avx2(const double *need_wh, const double *sun_wh,
                                   double lanes_wh[LANES])
{
    clamp_lanes(need_wh, sun_wh, lanes_wh);
}

WB_FOR_AVX512 static void clamp_avx512(const double *need_wh, const double *sun_wh,
                                       double lanes_wh[LANES])
{
    clamp_lanes(need_wh, sun_wh, lanes_wh);
}

/* ---- one year ---- */

typedef struct {
    YearWorld world;
    WbYearKit kit[KITS];
    const WbYearKit *kits[KITS];
    double dark_h[KITS], dark_again_h[KITS];
    double need_wh[HOURS], sun_wh[HOURS];
} Bench;

static void prepare(int n_years, Bench *bench)
{
    WbRandom random;
    wb_random_seed(&random, 1);
    year_world(&random, n_years, 0xfff, 60, &bench->world);
    for (int i = 0; i < KITS; i++) {
        bench->kit[i] = year_kit(&random, &bench->world);
        bench->kits[i] = &bench->kit[i];
    }
    const WbDemand *demand = &bench->world.demand[0];
    for (int i = 0; i < HOURS && i < n_years * WB_YEAR_HOURS; i++) {
        int day = i / WB_HOURS, month = wb_month_of_day(day % WB_YEAR_DAYS);
        bench->need_wh[i] = demand->wh[demand->kind[month][day % WB_WEEK]][i % WB_HOURS];
        bench->sun_wh[i] = 0.3 * bench->world.plane.plane_w_m2[i];
    }
}

static void measure_one(const Bench *bench)
{
    double clamp_s = 1e9, year_s = 1e9;
    for (int run = 0; run < RUNS; run++) {
        double start_s = now_s();
        clamp_one(bench->need_wh, bench->sun_wh);
        clamp_s = fmin(clamp_s, now_s() - start_s);
        WbYear year;
        start_s = now_s();
        if (wb_year_run(bench->kits[run % LANES], &bench->world.plane, &year, NULL) != WB_OK)
            g_error("a kit was refused");
        year_s = fmin(year_s, now_s() - start_s);
        kept += year.unmet_wh;
    }
    g_print("one-kit-year,%.3f,%.3f,%.2f\n", 1e9 * clamp_s / HOURS, 1e9 * year_s / HOURS,
            year_s / clamp_s);
}

static void measure_lanes(WbVector vector, Bench *bench)
{
    static void (*const clamp[WB_N_VECTORS])(const double *, const double *, double[LANES]) = {
        clamp_plain, clamp_avx2, clamp_avx512};
    static const char *const name[WB_N_VECTORS] = {"plain", "avx2", "avx512"};
    double clamp_s = 1e9, year_s = 1e9, most_wh[LANES];
    for (int run = 0; run < RUNS; run++) {
        double start_s = now_s();
        clamp[vector](bench->need_wh, bench->sun_wh, most_wh);
        clamp_s = fmin(clamp_s, now_s() - start_s);
        start_s = now_s();
        if (wb_year_dark_on(vector, bench->kits, LANES, &bench->world.plane, INFINITY, NULL,
                            bench->dark_h) != WB_OK)
            g_error("a kit was refused");
        year_s = fmin(year_s, now_s() - start_s);
        kept += most_wh[run % LANES] + bench->dark_h[run % LANES];
    }
    g_print("16-lanes-%s,%.3f,%.3f,%.2f\n", name[vector], 1e9 * clamp_s / HOURS / LANES,
            1e9 * year_s / HOURS / LANES, year_s / clamp_s);
}

/* ---- many kits ---- */

typedef struct {
    Bench *bench;
    gsize first, n;
    double *dark_h;
} Share;

static gpointer run_share(gpointer data)
{
    Share *share = data;
    if (wb_year_dark(share->bench->kits + share->first, share->n, &share->bench->world.plane,
                     INFINITY, NULL, share->dark_h + share->first) != WB_OK)
        g_error("a kit was refused");
    return NULL;
}

static double run_workers(Bench *bench, gsize workers, double *dark_h)
{
    double start_s = now_s();
    Share shares[8];
    GThread *threads[8];
    for (gsize i = 0; i < workers; i++) {
        gsize first = KITS * i / workers;
        shares[i] = (Share){bench, first, KITS * (i + 1) / workers - first, dark_h};
        threads[i] = g_thread_new("share", run_share, &shares[i]);
    }
    for (gsize i = 0; i < workers; i++)
        g_thread_join(threads[i]);
    return now_s() - start_s;
}

static void measure_many(Bench *bench)
{
    g_print("kits,years,workers,seconds,same_bits\n");
    for (gsize workers = 1; workers <= 2; workers++) {
        double *dark_h = workers == 1 ? bench->dark_h : bench->dark_again_h;
        double least_s = 1e9;
        for (int run = 0; run < 5; run++)
            least_s = fmin(least_s, run_workers(bench, workers, dark_h));
        g_print("%d,%d,%" G_GSIZE_FORMAT ",%.3f,%s\n", KITS, YEARS, workers, least_s,
                memcmp(bench->dark_h, dark_h, sizeof bench->dark_h) ? "no" : "yes");
    }
}

/* ---- the months of an array ---- */

static void measure_months(const Bench *bench)
{
    double least_s = 1e9;
    WbSupply supply;
    for (int run = 0; run < RUNS; run++) {
        double start_s = now_s();
        wb_array_months(&bench->kit[run % LANES].array, &bench->world.plane, &supply);
        least_s = fmin(least_s, now_s() - start_s);
        kept += supply.day_wh[0];
    }
    g_print("months of an array over %d years,%.4f ms\n", bench->world.plane.n_years,
            1e3 * least_s);
}

int main(void)
{
    Bench *bench = g_new0(Bench, 1);
    prepare(WEATHER_YEARS, bench);
    g_print("name,clamp_ns,year_ns,ratio\n");
    measure_one(bench);
    for (int v = 0; v < WB_N_VECTORS; v++)
        if (wb_vector_runs((WbVector)v))
            measure_lanes((WbVector)v, bench);
    measure_months(bench);
    year_world_clear(&bench->world);
    prepare(YEARS, bench);
    measure_many(bench);
    year_world_clear(&bench->world);
    g_free(bench);
    return isnan(kept);
}
