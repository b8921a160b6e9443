/* One rule applied to one kit: what was compared, by how much it holds or fails, and whose rule it
 * is. The published order of rules is the order of WbRule; a failed kit counts once, under the
 * first broken rule. Severities: stop = beyond a rating, dangerous or will not work; caution =
 * works, but shortens life, wastes over 10 % or needs an act of the owner; note = information. */
#ifndef WB_FINDING_H
#define WB_FINDING_H

#include <stdbool.h>
#include <stdint.h>

typedef enum { WB_NOTE, WB_CAUTION, WB_STOP } WbSeverity;

/* Which choices a rule looks at: the search judges array-side rules once per array and controller,
 * bank-side ones once per bank and inverter, and only the joint ones per pair. */
typedef enum { WB_SIDE_ARRAY, WB_SIDE_BANK, WB_SIDE_DCDC, WB_SIDE_JOINT } WbSide;

typedef enum {
    WB_RULE_NO_PRICE, /* a part to be bought has no usable offer */
    /* array side: panel, counts, controller and what the bank is to a charger */
    WB_RULE_ROOF_FIT,          /* panels against the most that fit */
    WB_RULE_ROOF_UNDECIDED,    /* fit not decided within the budget */
    WB_RULE_ROOF_LOAD,         /* kg on the roof */
    WB_RULE_ROOF_HEIGHT,       /* top of the panels over the roof */
    WB_RULE_CONTROLLER_SHARE,  /* strings divide evenly over the controllers */
    WB_RULE_CONTROLLERS_ALIKE, /* several controllers charge one bank */
    WB_RULE_UNLIKE_PANELS,     /* Imp of the panels of one string */
    WB_RULE_SYSTEM_VOLTAGE,    /* cold Voc against the panel's maximum system voltage */
    WB_RULE_COLD_VOC,          /* cold Voc of the string against the controller's input */
    WB_RULE_TOUCH_VOLTAGE,     /* cold Voc of the string against what is safe to touch */
    WB_RULE_PV_CURRENT,        /* 1.25 x Isc of the strings against the controller's input */
    WB_RULE_HOT_VMP,           /* hot Vmp against charging voltage + headroom */
    WB_RULE_MPPT_START,        /* MPPT: hot Voc against the bank's voltage + headroom to start */
    WB_RULE_PWM_MATCH,         /* PWM: Vmp wasted over the charging voltage */
    WB_RULE_PWM_CELLS,         /* PWM: cells of the string against 36 for each 12 V */
    WB_RULE_ARRAY_WATTS,       /* array W against what the controller's maker allows */
    WB_RULE_OUTPUT_CLIPPED,    /* array W against rated output */
    WB_RULE_STRING_FUSE,       /* (strings - 1) x 1.25 x Isc against the series fuse */
    WB_RULE_CONTROLLER_BUS,    /* controller made for this system voltage */
    WB_RULE_CHARGE_PROFILE,    /* controller has a profile for the chemistry */
    /* bank side: storage, counts, inverter */
    WB_RULE_BANK_SYSTEM,         /* bank volts make a 12, 24 or 48 V system the brief allows */
    WB_RULE_BANK_SERIES,         /* maker's limit */
    WB_RULE_BANK_PARALLEL,       /* maker's limit */
    WB_RULE_LOAD_VOLTAGE,        /* DC loads made for the bank's system voltage */
    WB_RULE_LOAD_CONVERTER,      /* DC loads of volts that no bank makes: amps with a converter */
    WB_RULE_MOTOR_START,         /* starting DC load against what a quick fuse stands */
    WB_RULE_BAY_FIT,             /* storage bay */
    WB_RULE_NO_INVERTER,         /* AC loads, no inverter */
    WB_RULE_INVERTER_BUS,        /* inverter made for this system voltage */
    WB_RULE_INVERTER_WINDOW,     /* charging voltage against the inverter's highest input */
    WB_RULE_INVERTER_LOWEST,     /* inverter's lowest input against the bank's nominal voltage */
    WB_RULE_INVERTER_CUTOUT,     /* the same against the lowest the bank may be drawn to */
    WB_RULE_INVERTER_CONTINUOUS, /* AC peak W */
    WB_RULE_INVERTER_SURGE,      /* AC starting W */
    WB_RULE_WAVEFORM,            /* pure sine needed */
    WB_RULE_INVERTER_DRAW,       /* full-load DC amps against the bank's discharge limit */
    WB_RULE_INVERTER_SURGE_DRAW, /* surge DC amps against the bank's limit for seconds */
    WB_RULE_PEAK_DRAW,           /* all loads' peak amps against the bank's discharge limit */
    WB_RULE_SHORE_CHARGE,        /* shore charger's amps against the bank's limit */
    WB_RULE_COLD_CHARGE,         /* charging below the chemistry's limit at design cold */
    WB_RULE_FREEZING,            /* electrolyte at the depth limit and design cold */
    WB_RULE_VENTILATION,         /* hydrogen from lead-acid */
    WB_RULE_AUTONOMY,            /* days against the target */
    /* DC-DC charger and what the bank is to a charger */
    WB_RULE_DCDC_SOURCE,     /* an alternator drives it, of its input voltage */
    WB_RULE_DCDC_BUS,        /* output voltage is the system's */
    WB_RULE_DCDC_PROFILE,    /* has a profile for the chemistry */
    WB_RULE_DCDC_ALTERNATOR, /* input amps against half the alternator's rating */
    WB_RULE_SOURCE_CIRCUITS, /* of array and starter battery: circuits that cannot be built */
    /* joint */
    WB_RULE_BANK_CIRCUITS,  /* all that hangs on the bus bars: circuits that cannot be built */
    WB_RULE_FITTINGS,       /* holders, lugs, switches that the catalogue does not sell */
    WB_RULE_CHARGE_MAXIMUM, /* charging amps against the bank's limit */
    WB_RULE_CHARGE_MINIMUM, /* charging amps against the recommended minimum */
    WB_RULE_SUPPLY,         /* supply against need, worst month in use */
    WB_RULE_MONEY,          /* limit */
    WB_RULE_WEIGHT,         /* limit */
    WB_RULE_DARK_HOURS,     /* hours a year without the whole load, against the target */
    WB_N_RULES,
} WbRule;

typedef struct {
    WbRule rule;
    WbSeverity severity; /* as found for this kit */
    bool holds;          /* true: within the limit, told for its margin */
    double value, limit; /* the two numbers compared, both in the rule's unit; NaN when idle */
    double margin;       /* share of the limit left, positive within; NaN where none is meant */
    int month;           /* -1, or the month that decides */
    uint32_t assumed;    /* bits of WbAssumption: defaults used for missing data-sheet figures */
} WbFinding;

typedef enum {
    WB_ASSUMED_VOC_TABLE = 1 << 0,    /* no Voc coefficient: table factor */
    WB_ASSUMED_POWER_COEFF = 1 << 1,  /* no power coefficient: -0.45 %/K */
    WB_ASSUMED_NOCT = 1 << 2,         /* no NOCT: 45 C */
    WB_ASSUMED_MAX_SYSTEM_V = 1 << 3, /* none given: 50 V */
    WB_ASSUMED_SERIES_FUSE = 1 << 4,  /* none given: 15 A */
    WB_ASSUMED_PV_WATTS = 1 << 5,     /* none given: the rated output */
    WB_ASSUMED_SURGE_A = 1 << 6,      /* none given: as continuous */
    WB_ASSUMED_WINDOW = 1 << 7,       /* inverter's highest input not given: 1.25 x its volts */
    WB_ASSUMED_VMP_COEFF = 1 << 8,    /* no Voc coefficient: hot Vmp and Voc by -0.45 %/K */
    WB_ASSUMED_START_V = 1 << 9,      /* no headroom to start: the one to run */
    WB_ASSUMED_CELLS = 1 << 10,       /* number of cells not given: not checked */
    WB_ASSUMED_LOWEST_V = 1 << 11,    /* inverter's lowest input not given: 10 V for each 12 V */
    WB_ASSUMED_END_V = 1 << 12,       /* chemistry's lowest cell voltage not given: by family */
    WB_ASSUMED_MIN_CHARGE = 1 << 13,  /* lead-acid without a least charging current: Ah / 10 */
    WB_ASSUMED_CHARGE_V = 1 << 14,    /* no charging voltage: the chemistry's a cell */
    WB_ASSUMED_DEPTH = 1 << 15,       /* no depth limit: the chemistry's */
    WB_ASSUMED_PEUKERT = 1 << 16,     /* no Peukert exponent: the chemistry's */
    WB_ASSUMED_LOW_LIGHT = 1 << 17,   /* no figure for low light: 96 % */
    WB_ASSUMED_INTERNAL_R = 1 << 18,  /* no internal resistance of a battery: by chemistry */
    WB_ASSUMED_STARTER = 1 << 19,     /* a starter battery of 5 mohm for each 12 V */
    WB_ASSUMED_LAST = WB_ASSUMED_STARTER,
} WbAssumption;

typedef struct {
    WbRule rule;
    const char *code; /* stable text: "cold-voc" */
    const char *unit; /* of value and limit */
    WbSide side;
    WbSeverity severity; /* the severest it can be */
    const char *formula;
    const char *source; /* published source, or "common practice" */
} WbRuleInfo;

/* The published table, one row per rule, in the published order. */
const WbRuleInfo *wb_rule_info(WbRule rule);
const char *wb_severity_name(WbSeverity severity); /* "note", "caution", "stop" */

#endif
