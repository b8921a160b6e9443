#include "brief.h"
#include <math.h>

const char *wb_criterion_name(WbCriterion criterion)
{
    static const char *const names[WB_N_CRITERIA] = {
        "cost",     "weight",      "usable_capacity", "roof_area",
        "autonomy", "spare_power", "dark_hours",      "supply_margin",
    };
    return names[criterion];
}

const char *wb_way_name(WbWay way)
{
    static const char *const names[WB_N_WAYS] = {"score", "goals", "importance"};
    return names[way];
}

const char *wb_circuit_name(WbCircuitKind kind)
{
    static const char *const names[WB_N_CIRCUITS] = {
        "string",  "array", "charge",   "dcdc_in", "dcdc_out", "shore",
        "battery", "main",  "inverter", "feed",    "load",
    };
    return names[kind];
}

double wb_circuit_usual_m(WbCircuitKind kind)
{
    static const double usual_m[WB_N_CIRCUITS] = {2, 4, 1.5, 5, 1.5, 1.5, 0.4, 0.5, 1, 1, 4};
    return usual_m[kind];
}

#define BOAT_AIR_C 30.0
#define LAND_AIR_C 40.0
#define ROOF_OVER_INSIDE_K 20.0

double wb_wiring_air_c(const WbBrief *brief, bool on_roof)
{
    const WbWiringWishes *wiring = &brief->wiring;
    double inside_c = wiring->inside_c;
    if (isnan(inside_c))
        inside_c = brief->rule_set == WB_RULES_BOAT ? BOAT_AIR_C : LAND_AIR_C;
    if (!on_roof)
        return inside_c;
    return isnan(wiring->roof_c) ? inside_c + ROOF_OVER_INSIDE_K : wiring->roof_c;
}
