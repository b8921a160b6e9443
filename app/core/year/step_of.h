/* One hour of the balance, for one kind of number: a double, or a vector of them that holds a kit
 * in each lane. Included once for each, with WB_NUM its type, WB_OF(name) names of its own, WB_LESS
 * and WB_MORE its minimum and maximum (a < b ? a : b; a > b ? a : b), WB_OR_0(a) the same with 0,
 * and WB_CODE what its functions are compiled for. IEEE + - x and comparisons only, without a
 * branch: every kind gives the same bits. Private to core/year. */

/* A kit's constants. The bank's charge above accept_from decides acceptance and efficiency. Over an
 * hour that follows the falling line of acceptance A - a x, the mean taken is that line times (1 -
 * exp(-k)) / k, k = a x efficiency: the line's own solution, so nothing swings however steep it is.
 */
typedef struct {
    WB_NUM keep;                  /* share of the charge left after an hour of self-discharge */
    WB_NUM capacity_wh, from_wh;  /* accept_from of the capacity */
    WB_NUM most_charge_w;         /* the maker's and the cells' limit below accept_from */
    WB_NUM taper_w, taper_per_wh; /* mean acceptance at accept_from, and its fall */
    WB_NUM efficiency, efficiency_full;
    WB_NUM fall_per_wh;      /* of the efficiency */
    WB_NUM half_fall_per_wh; /* x W taken: its fall by the middle of the hour */
    WB_NUM most_discharge_w;
} WB_OF(WbStepKit);

/* What changes from hour to hour. */
typedef struct {
    WB_NUM kept_wh;           /* by the array */
    WB_NUM net_wh;            /* need + own draw - other sources */
    WB_NUM cost;              /* Wh of charge for each Wh given */
    WB_NUM per_cost;          /* 1 / cost */
    WB_NUM before_charging_w; /* heater; INFINITY: no charging today */
    WB_NUM floor_wh;
} WB_OF(WbStepHour);

typedef struct {
    WB_NUM surplus_wh; /* beyond the need and own draw */
    WB_NUM taken_wh;   /* for charging, before the room to full counts */
    WB_NUM efficiency;
    WB_NUM stored_wh, given_wh, drained_wh;
    WB_NUM missing_wh; /* need and own draw not met */
    WB_NUM rested_wh;  /* charge after self-discharge */
    WB_NUM charge_wh;
} WB_OF(WbStep);

WB_CODE WB_INLINE WB_OF(WbStep)
    WB_OF(wb_step)(const WB_OF(WbStepKit) * kit, const WB_OF(WbStepHour) * hour, WB_NUM charge_wh)
{
    WB_OF(WbStep) s;
    s.surplus_wh = hour->kept_wh - hour->net_wh;
    WB_NUM free_w = WB_OR_0(s.surplus_wh - hour->before_charging_w);
    WB_NUM short_w = WB_OR_0(hour->net_wh - hour->kept_wh);

    s.rested_wh = charge_wh * kit->keep;
    WB_NUM above_wh = s.rested_wh - kit->from_wh;
    WB_NUM accepted_w = WB_OR_0(kit->taper_w - kit->taper_per_wh * above_wh);
    s.taken_wh = WB_LESS(WB_LESS(free_w, kit->most_charge_w), accepted_w);
    WB_NUM falling = kit->efficiency - kit->fall_per_wh * above_wh;
    falling = falling - kit->half_fall_per_wh * s.taken_wh;
    s.efficiency = WB_MORE(kit->efficiency_full, WB_LESS(kit->efficiency, falling));
    s.stored_wh = WB_LESS(s.taken_wh * s.efficiency, kit->capacity_wh - s.rested_wh);

    WB_NUM given_wh = WB_OR_0(s.rested_wh - hour->floor_wh) * hour->per_cost;
    s.given_wh = WB_LESS(WB_LESS(short_w, kit->most_discharge_w), given_wh);
    s.drained_wh = s.given_wh * hour->cost;
    s.missing_wh = short_w - s.given_wh;
    s.charge_wh = (s.rested_wh - s.drained_wh) + s.stored_wh;
    return s;
}
