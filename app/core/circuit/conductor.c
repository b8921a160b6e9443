#include "conductor.h"
#include <math.h>

#define PI 3.14159265358979323846
#define IACS_OHM_MM2_KM 17.241
#define SAME_AREA 0.999 /* tables round areas */

static const int gauges[WB_AWG_SIZES] = {18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3};

int wb_awg_gauge(int size)
{
    return gauges[size];
}

double wb_awg_diameter_mm(int gauge)
{
    return 0.127 * pow(92, (36 - gauge) / 39.0);
}

double wb_awg_area_mm2(int gauge)
{
    double diameter_mm = wb_awg_diameter_mm(gauge);
    return PI / 4 * diameter_mm * diameter_mm;
}

double wb_awg_r20_ohm_km(int gauge)
{
    return IACS_OHM_MM2_KM / wb_awg_area_mm2(gauge);
}

double wb_handbook_circular_mils(double amps, double round_trip_ft, double drop_v)
{
    return 10.75 * amps * round_trip_ft / drop_v;
}

double wb_handbook_mm2(double amps, double round_trip_m, double drop_v)
{
    return 0.0164 * amps * round_trip_m / drop_v;
}

int wb_awg_size_within(double area_mm2)
{
    int size = -1;
    for (int i = 0; i < WB_AWG_SIZES; i++)
        if (wb_awg_area_mm2(gauges[i]) * SAME_AREA <= area_mm2)
            size = i;
    return size;
}

double wb_resistance_at(double r20_ohm_km, double conductor_c)
{
    return r20_ohm_km * (230 + conductor_c) / 250;
}

double wb_drop_v(double r_ohm_km, double one_way_m, double amps)
{
    return 2 * one_way_m * r_ohm_km / 1000 * amps;
}

double wb_conductor_c(const WbAmpacity *ampacity, double ambient_c, double amps)
{
    double most_a = ampacity->table_a * ampacity->ambient * ampacity->bundle;
    double share = most_a > 0 ? amps / most_a : 0;
    return ambient_c + (ampacity->column_c - ambient_c) * share * share;
}
