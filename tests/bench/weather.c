/* Benchmark: made weather, and the same on a tilted plane, for growing numbers of years. CSV:
 * years, least milliseconds of five runs of each. `bench-weather hash` prints instead a hash of all
 * bits made at several places, which tests/bench/same_bits.py compares between compilers. Needs
 * nothing but core. */
#include "weather.h"
#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define RUNS 5

static uint64_t hash_of(uint64_t hash, const double *value, int n)
{
    for (int i = 0; i < n; i++) {
        uint64_t bits;
        memcpy(&bits, &value[i], sizeof bits);
        for (int byte = 0; byte < 8; byte++)
            hash = (hash ^ (bits >> 8 * byte & 0xff)) * 0x100000001b3u; /* FNV-1a */
    }
    return hash;
}

static WbPlace place_at(double latitude_deg, double clearness)
{
    WbPlace place = {.latitude_deg = latitude_deg, .longitude_deg = 7.25};
    for (int m = 0; m < WB_MONTHS; m++) {
        double season = cos((m - 5.5) / 12 * 2 * 3.14159265) * (latitude_deg < 0 ? -1 : 1);
        place.ghi_kwh_m2_day[m] = clearness * (7 + 4 * season * fabs(latitude_deg) / 70);
        place.air_mean_c[m] = 11 + 9 * season;
        place.air_max_c[m] = 16 + 10 * season;
        place.air_min_c[m] = 5 + 8 * season;
    }
    return place;
}

static double ms_since(const struct timespec *start)
{
    struct timespec now;
    timespec_get(&now, TIME_UTC);
    return (double)(now.tv_sec - start->tv_sec) * 1e3 +
           (double)(now.tv_nsec - start->tv_nsec) / 1e6;
}

static WbSite site_of(WbPlace place)
{
    return (WbSite){.place = place,
                    .months = 0xfff,
                    .tilt_deg = 35,
                    .azimuth_deg = NAN,
                    .ground_albedo = 0.2,
                    .soiling_loss = 0.03};
}

static uint64_t hash_of_place(uint64_t hash, const WbPlace *place, int years, uint64_t seed)
{
    int n = years * WB_YEAR_HOURS;
    WbSite site = site_of(*place);
    WbWeather weather;
    WbPlaneHours plane;
    if (wb_weather_make(place, years, seed, &weather) != WB_OK)
        return 0;
    hash = hash_of(hash, weather.global_w_m2, n);
    hash = hash_of(hash, weather.diffuse_w_m2, n);
    hash = hash_of(hash, weather.air_c, n);
    if (wb_plane_hours(&site, &weather, &plane) == WB_OK) {
        hash = hash_of(hash, plane.plane_w_m2, n);
        hash = hash_of(hash, plane.low_light, n);
        wb_plane_hours_free(&plane);
    }
    wb_weather_free(&weather);
    return hash;
}

static void print_hashes(void)
{
    static const double latitude_deg[] = {-90, -54.5, -33.4, 0, 28.6, 52.1, 67.3, 90};
    for (int years = 1; years <= 4; years += 3) {
        uint64_t hash = 0xcbf29ce484222325u;
        for (size_t i = 0; i < sizeof latitude_deg / sizeof *latitude_deg; i++) {
            WbPlace place = place_at(latitude_deg[i], 0.35 + 0.04 * (double)i);
            hash = hash_of_place(hash, &place, years, 1 + i);
        }
        printf("%d,%016" PRIx64 "\n", years, hash);
    }
}

static void print_times(int years)
{
    WbSite site = site_of(place_at(48, 0.5));
    double made_ms = 1e9, plane_ms = 1e9;
    for (int run = 0; run < RUNS; run++) {
        WbWeather weather;
        WbPlaneHours plane;
        struct timespec start;
        timespec_get(&start, TIME_UTC);
        if (wb_weather_make(&site.place, years, 1, &weather) != WB_OK)
            exit(1);
        made_ms = fmin(made_ms, ms_since(&start));
        timespec_get(&start, TIME_UTC);
        if (wb_plane_hours(&site, &weather, &plane) != WB_OK)
            exit(1);
        plane_ms = fmin(plane_ms, ms_since(&start));
        wb_plane_hours_free(&plane);
        wb_weather_free(&weather);
    }
    printf("%d,%.2f,%.2f\n", years, made_ms, plane_ms);
}

int main(int argc, char **argv)
{
    static const int years[] = {1, 10, 20, 100};
    if (argc > 1 && strcmp(argv[1], "hash") == 0) {
        print_hashes();
        return 0;
    }
    puts("years,made_ms,plane_ms");
    for (size_t i = 0; i < sizeof years / sizeof *years; i++)
        print_times(years[i]);
    return 0;
}
