/* The brief as core needs it: what to run, where, on which roof, within which limits, and how the
 * kits are to be judged. Built by the store from the person's JSON file; all values are valid. */
#ifndef WB_BRIEF_H
#define WB_BRIEF_H

#include "place.h"
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef enum {
    WB_DAY_ALL,      /* 0..24 h */
    WB_DAY_DAYLIGHT, /* sunrise to sunset of the month's mean day, at least 10..14 h */
    WB_DAY_EVENING,  /* 17..23 h */
    WB_DAY_NIGHT,    /* 23..7 h */
    WB_DAY_FROM_TO,  /* from_h..to_h, past midnight where to < from */
} WbDayPart;

typedef struct {
    const char *name;
    double power_w; /* of one */
    double volts;   /* it is made for; NaN: given in watts, not known */
    int count;
    bool ac;
    double hours_day; /* 0..24 */
    double duty;      /* 0..1, share of those hours it really draws */
    int day_part;     /* WbDayPart */
    double from_h, to_h;
    uint32_t months; /* bit m */
    double days_week;
    double surge_factor; /* >= 1, starting watts = power_w x this */
    bool together;       /* may run together with the others: counts in the peak */
    int drop_pct;        /* 3 or 10 */
    double length_m;     /* one way from the fuse block; NaN: WbWiringWishes.length_m */
    bool needs_pure_sine;
} WbLoad;

typedef enum {
    WB_OBSTACLE_STANDS,  /* vent, hatch, rack, aerial */
    WB_OBSTACLE_WALKWAY, /* kept free to walk on: no panel over it at any standoff */
    WB_OBSTACLE_SHADE,   /* often shaded: panels may lie there, layouts keep away where they can */
} WbObstacleKind;

typedef struct {
    const char *name;
    int64_t x_mm, y_mm, length_mm, width_mm; /* x, length along the roof; from its left front */
    int64_t clearance_mm;                    /* axis-wise, all round */
    int64_t height_mm;                       /* over the roof; 0: not known, nothing passes over */
    int kind;                                /* WbObstacleKind */
    bool round; /* a circle: length_mm == width_mm is its diameter, x, y the square's corner */
} WbObstacle;

typedef struct {
    int64_t x_mm, y_mm;
} WbCorner;

/* A panel fixed by hand: its true outline stands with its left front corner here. */
typedef struct {
    const char *part_id;
    int64_t x_mm, y_mm;
    bool turned; /* by 90 degrees: its width lies along the roof */
} WbPin;

typedef struct {
    int64_t length_mm, width_mm; /* of the roof, or of the frame its corners lie in */
    int64_t margin_mm;           /* kept free along the edge, axis-wise */
    int64_t gap_mm;              /* between panels, axis-wise */
    const WbObstacle *obstacles;
    size_t n_obstacles;
    double max_load_kg; /* panels with mounts; NaN: no limit */
    /* A simple polygon, either way round; every corner in 0..length_mm, 0..width_mm.
     * n_corners 0: the rectangle. */
    const WbCorner *corners;
    size_t n_corners;
    int64_t standoff_mm;      /* from the roof to the underside of the panels */
    bool over_obstacles;      /* panels may pass over what stands lower than the standoff */
    int64_t max_height_mm;    /* of a panel's top over the roof; 0: no limit */
    double front_azimuth_deg; /* compass direction from the back edge to the front; NaN: any */
    bool has_gland;
    WbCorner gland; /* where the cables go through the roof */
    const WbPin *pins;
    size_t n_pins;
} WbRoof;

typedef struct {
    int64_t length_mm, width_mm, height_mm; /* 0: no bay given, nothing is checked */
    int64_t gap_mm;                         /* of air between batteries, axis-wise */
} WbBay;

/* A limit keeps its value while it is switched off: kits over it then show by how much. */
typedef struct {
    double value;
    bool on;
} WbLimit;

typedef enum {
    WB_CRITERION_COST,     /* minor units of the brief's currency, less is better */
    WB_CRITERION_WEIGHT,   /* kg, less is better */
    WB_CRITERION_USABLE,   /* Wh, more is better, enough is enough */
    WB_CRITERION_ROOF,     /* m2, less is better */
    WB_CRITERION_AUTONOMY, /* days, more is better, enough is enough */
    WB_CRITERION_SPARE,    /* W of inverter beyond the AC peak, more is better, enough is enough */
    WB_CRITERION_DARK,     /* dark hours a year, less is better */
    /* Wh a day of supply beyond the need in the month where that is least, more is better, enough
     * is enough */
    WB_CRITERION_MARGIN,
    WB_N_CRITERIA,
} WbCriterion;

typedef struct {
    double full, none; /* worth 1 and worth 0; NaN in the brief: the default of wb_anchors */
} WbAnchor;

/* What puts one kit before another. */
typedef enum {
    WB_WAY_SCORE,      /* the higher weighted score */
    WB_WAY_GOALS,      /* the shorter distance from the goals */
    WB_WAY_IMPORTANCE, /* criterion by criterion, in steps */
    WB_N_WAYS,
} WbWay;

typedef struct {
    int criterion; /* WbCriterion */
    double step;   /* figures in one step of this size are equal; 0: only the same figure is; NaN in
                      the brief: a twentieth of the distance between the anchors */
} WbImportant;

typedef struct {
    int way;                    /* WbWay */
    double goal[WB_N_CRITERIA]; /* NaN in the brief: the anchor "full" */
    WbImportant
        important[WB_N_CRITERIA]; /* first the most important, each criterion at most once */
    int n_important;
} WbRankBy;

/* Largest counts to try. Defaults 6, 6, 1, 4, 4. */
typedef struct {
    int series, parallel, controllers, bank_series, bank_parallel;
} WbLargest;

typedef enum { WB_RULES_ROAD_VEHICLE, WB_RULES_BOAT, WB_RULES_BUILDING } WbRuleSet;

typedef struct {
    double alternator_a; /* rated output; 0: none */
    int alternator_v;    /* 12 or 24 */
    double drive_hours_day;
} WbDriving;

/* Shore power in the months in use: on so many nights a week, spread evenly over it, from 18 to 8
 * h, a charger of so many amps at the bank's nominal volts. */
typedef struct {
    double nights_week, charger_a; /* 0: none */
} WbShore;

/* The circuits of a kit, in the order in which current flows and lists show them. */
typedef enum {
    WB_CIRCUIT_STRING,   /* a string of panels to where strings are joined */
    WB_CIRCUIT_ARRAY,    /* joined strings to their controller */
    WB_CIRCUIT_CHARGE,   /* controller to the bus bars */
    WB_CIRCUIT_DCDC_IN,  /* starter battery to the DC-DC charger */
    WB_CIRCUIT_DCDC_OUT, /* DC-DC charger to the bus bars */
    WB_CIRCUIT_SHORE,    /* shore charger to the bus bars */
    WB_CIRCUIT_BATTERY,  /* a string of batteries to where strings are joined */
    WB_CIRCUIT_MAIN,     /* bank to the bus bars */
    WB_CIRCUIT_INVERTER, /* bus bars to the inverter */
    WB_CIRCUIT_FEED,     /* bus bars to the fuse block */
    WB_CIRCUIT_LOAD,     /* fuse block to a load */
    WB_N_CIRCUITS,
} WbCircuitKind;

typedef enum { WB_SIZES_ANY, WB_SIZES_AWG, WB_SIZES_METRIC } WbSizes;

/* How the kit is to be wired. */
typedef struct {
    bool on;                        /* whether circuits are sized, paid and a limit */
    int sizes;                      /* WbSizes that are bought */
    int64_t terminal_c;             /* 60, 75 or 90: what terminals on land are rated for */
    double inside_c, roof_c;        /* hottest air round conductors; NaN: by wb_wiring_air_c */
    int bundled;                    /* conductors that carry current side by side; >= 1 */
    double length_m[WB_N_CIRCUITS]; /* one way; a load may have its own */
} WbWiringWishes;

typedef struct {
    const char *part_id;
    int count;
} WbOwned;

typedef struct {
    const char *currency;
    double rate; /* one unit of it in units of the brief's currency */
} WbRate;

typedef struct {
    const char *part_id, *shop_id;
} WbFixedOffer;

typedef struct {
    const char *name;
    const char *currency; /* ISO 4217, all money of the brief and of the results */
    const WbRate *rates;
    size_t n_rates;
    const WbLoad *loads;
    size_t n_loads;
    WbSite site;
    WbRoof roof;
    WbBay bay;
    WbDriving driving; /* drives from 9 h on */
    WbShore shore;
    double inverter_hours_day; /* hours the inverter is on; NaN: while an AC load runs */
    double autonomy_target_days;
    WbLimit money_minor, weight_kg;
    WbLimit dark_hours;   /* a year, in the months in use; 100, on */
    bool roof_on, bay_on; /* whether the fit is a limit */
    WbAnchor anchor[WB_N_CRITERIA];
    double weight[WB_N_CRITERIA]; /* >= 0, as typed; wb_score normalises the sum to 1 */
    uint32_t front;               /* bit c: criterion c counts in the front */
    WbRankBy rank_by;
    WbLargest largest;
    int rule_set; /* WbRuleSet */
    WbWiringWishes wiring;
    uint32_t system_v;             /* bit 0: 12 V, bit 1: 24 V, bit 2: 48 V are tried */
    const char *const *candidates; /* ticked part ids; NULL: every part of the catalogue */
    size_t n_candidates;
    const WbOwned *owned;
    size_t n_owned;
    const WbFixedOffer *fixed_offers;
    size_t n_fixed_offers;
    double sundries_pct;    /* allowance for lugs, ties, sealant; 7 */
    const char *picked_kit; /* text id of the kit in hand, "" none */
} WbBrief;

/* Criterion names as they stand in JSON: "cost", "weight", "usable_capacity", "roof_area",
 * "autonomy", "spare_power", "dark_hours", "supply_margin". */
const char *wb_criterion_name(WbCriterion criterion);
/* Ways to rank as they stand in JSON: "score", "goals", "importance". */
const char *wb_way_name(WbWay way);
/* Circuit names as they stand in JSON: "string", "array", "charge", "dcdc_in", "dcdc_out", "shore",
 * "battery", "main", "inverter", "feed", "load". */
const char *wb_circuit_name(WbCircuitKind kind);
/* Lengths where nothing was measured yet, m one way (our assumption, shown). */
double wb_circuit_usual_m(WbCircuitKind kind);
/* Hottest air round conductors, C, where the brief leaves it open: inside 30 on a boat (the air of
 * its table; an engine space has to be told), else 40; on the roof 20 more. */
double wb_wiring_air_c(const WbBrief *brief, bool on_roof);

#endif
