/* One hour of the balance, shared by the single run and by the lanes of many kits. IEEE + - x and
 * comparisons only, without a branch: whatever the width of the machine's vectors, the bits are the
 * same. Private to core/year. */
#ifndef WB_STEP_H
#define WB_STEP_H

#include "vector_code.h"
#include "year.h"

/* A kit's constants. The bank's charge above accept_from decides acceptance and efficiency. Over an
 * hour that follows the falling line of acceptance A - a x, the mean taken is that line times (1 -
 * exp(-k)) / k, k = a x efficiency: the line's own solution, so nothing swings however steep it is.
 */
typedef struct {
    double keep;                  /* share of the charge left after an hour of self-discharge */
    double capacity_wh, from_wh;  /* accept_from of the capacity */
    double most_charge_w;         /* the maker's and the cells' limit below accept_from */
    double taper_w, taper_per_wh; /* mean acceptance at accept_from, and its fall */
    double efficiency, efficiency_full;
    double fall_per_wh;      /* of the efficiency */
    double half_fall_per_wh; /* x W taken: its fall by the middle of the hour */
    double most_discharge_w;
} WbStepKit;

/* What changes from hour to hour. */
typedef struct {
    double kept_wh;           /* by the array */
    double net_wh;            /* need + own draw - other sources */
    double cost;              /* Wh of charge for each Wh given */
    double per_cost;          /* 1 / cost */
    double before_charging_w; /* heater; INFINITY: no charging today */
    double floor_wh;
} WbStepHour;

typedef struct {
    double surplus_wh; /* beyond the need and own draw */
    double taken_wh;   /* for charging, before the room to full counts */
    double efficiency;
    double stored_wh, given_wh, drained_wh;
    double missing_wh; /* need and own draw not met */
    double rested_wh;  /* charge after self-discharge */
    double charge_wh;
} WbStep;

WB_INLINE WbStep wb_step(const WbStepKit *kit, const WbStepHour *hour, double charge_wh)
{
    WbStep s;
    s.surplus_wh = hour->kept_wh - hour->net_wh;
    double free_w = wb_more(s.surplus_wh - hour->before_charging_w, 0);
    double short_w = wb_more(-s.surplus_wh, 0);

    s.rested_wh = charge_wh * kit->keep;
    double above_wh = s.rested_wh - kit->from_wh;
    double accepted_w = wb_more(kit->taper_w - kit->taper_per_wh * above_wh, 0);
    s.taken_wh = wb_less(wb_less(free_w, kit->most_charge_w), accepted_w);
    double falling = kit->efficiency - kit->fall_per_wh * above_wh;
    falling = falling - kit->half_fall_per_wh * s.taken_wh;
    s.efficiency = wb_more(kit->efficiency_full, wb_less(kit->efficiency, falling));
    s.stored_wh = wb_less(s.taken_wh * s.efficiency, kit->capacity_wh - s.rested_wh);

    double given_wh = wb_more(s.rested_wh - hour->floor_wh, 0) * hour->per_cost;
    s.given_wh = wb_less(wb_less(short_w, kit->most_discharge_w), given_wh);
    s.drained_wh = s.given_wh * hour->cost;
    s.missing_wh = short_w - s.given_wh;
    s.charge_wh = (s.rested_wh - s.drained_wh) + s.stored_wh;
    return s;
}

/* The charge at which a day's cold locks the rest. */
WB_INLINE double wb_step_floor_wh(double capacity_wh, double depth, double capacity_factor)
{
    return capacity_wh * (1 - depth * capacity_factor);
}

#endif
