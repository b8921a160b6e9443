/* The published table of rules: one row each, in the published order. */
#include "finding.h"

#define PRACTICE "common practice"
#define RATING "data sheet of the part; common practice"
#define LIMIT "limit of the brief; common practice"

static const WbRuleInfo table[WB_N_RULES] = {
    {WB_RULE_NO_PRICE, "no-price", "parts", WB_SIDE_JOINT, WB_STOP,
     "parts to be bought without a usable offer = 0", PRACTICE},
    {WB_RULE_ROOF_FIT, "roof-fit", "panels", WB_SIDE_ARRAY, WB_STOP,
     "panels <= the most that can be laid, each turned by 0 or 90 degrees; broken when more are "
     "proved impossible; a note while the limit is off",
     LIMIT},
    {WB_RULE_ROOF_UNDECIDED, "roof-undecided", "panels", WB_SIDE_ARRAY, WB_STOP,
     "panels <= the most laid out; broken when the search ended between a layout and a proof; a "
     "note while the limit is off",
     LIMIT},
    {WB_RULE_ROOF_LOAD, "roof-load", "kg", WB_SIDE_ARRAY, WB_STOP,
     "panels x (panel + mount) <= load the roof takes", LIMIT},
    {WB_RULE_ROOF_HEIGHT, "roof-height", "mm", WB_SIDE_ARRAY, WB_STOP,
     "standoff + thickness of the panel <= height over the roof", LIMIT},
    {WB_RULE_CONTROLLER_SHARE, "controller-share", "strings", WB_SIDE_ARRAY, WB_STOP,
     "strings left over when shared evenly among the controllers = 0", PRACTICE},
    {WB_RULE_CONTROLLERS_ALIKE, "controllers-alike", "controllers", WB_SIDE_ARRAY, WB_CAUTION,
     "controllers that charge the bank <= 1; more need the same model, the same settings, and each "
     "its own strings",
     PRACTICE},
    {WB_RULE_UNLIKE_PANELS, "unlike-panels", "%", WB_SIDE_ARRAY, WB_CAUTION,
     "100 x (largest - smallest Imp) / largest, among the panels of a string <= 5", PRACTICE},
    {WB_RULE_SYSTEM_VOLTAGE, "system-voltage", "V", WB_SIDE_ARRAY, WB_STOP,
     "series x Voc x (1 + Voc coefficient x (design cold - 25 C)) <= panel's maximum system "
     "voltage; without a coefficient the table factor; without a maximum 50 V, and a caution",
     "NFPA 70 (NEC) 690.7(A), table factors from memory"},
    {WB_RULE_COLD_VOC, "cold-voc", "V", WB_SIDE_ARRAY, WB_STOP,
     "series x Voc x (1 + Voc coefficient x (design cold - 25 C)) <= controller's highest input "
     "voltage; without a coefficient the table factor",
     "NFPA 70 (NEC) 690.7(A), table factors from memory"},
    {WB_RULE_TOUCH_VOLTAGE, "touch-voltage", "V", WB_SIDE_ARRAY, WB_CAUTION,
     "series x cold Voc <= 60 V, on a boat 50 V; above it live parts are guarded and marked",
     "NFPA 70 (NEC) 110.27(A), from memory; boats: 33 CFR 183.401"},
    {WB_RULE_PV_CURRENT, "pv-current", "A", WB_SIDE_ARRAY, WB_STOP,
     "1.25 x Isc x strings of one controller <= controller's highest input current",
     "NFPA 70 (NEC) 690.8(A)(1)"},
    {WB_RULE_HOT_VMP, "hot-vmp", "V", WB_SIDE_ARRAY, WB_STOP,
     "series x (Vmp + Voc x Voc coefficient x (hottest cell - 25 C)) >= charging voltage + "
     "controller's headroom; without a coefficient -0.45 %/K of Vmp",
     PRACTICE},
    {WB_RULE_MPPT_START, "mppt-start", "V", WB_SIDE_ARRAY, WB_STOP,
     "MPPT: series x Voc x (1 + Voc coefficient x (hottest cell - 25 C)) >= charging voltage + "
     "headroom to start (caution), >= nominal voltage + it (stop); without a coefficient -0.45 %/K",
     PRACTICE},
    {WB_RULE_PWM_MATCH, "pwm-match", "%", WB_SIDE_ARRAY, WB_CAUTION,
     "PWM: 100 x (1 - charging voltage / hot Vmp of the string) <= 10", PRACTICE},
    {WB_RULE_PWM_CELLS, "pwm-cells", "cells", WB_SIDE_ARRAY, WB_CAUTION,
     "PWM: series x cells within a tenth of 36 x system V / 12", PRACTICE},
    {WB_RULE_ARRAY_WATTS, "array-watts", "W", WB_SIDE_ARRAY, WB_STOP,
     "array W of one controller <= array W its maker allows at 12 V x system V / 12; where he "
     "names none, what the panels bring <= rated output A x bank V, and a caution",
     RATING},
    {WB_RULE_OUTPUT_CLIPPED, "output-clipped", "W", WB_SIDE_ARRAY, WB_NOTE,
     "array W of one controller (PWM: strings x Imp x bank V) <= rated output A x bank V", RATING},
    {WB_RULE_STRING_FUSE, "string-fuse", "A", WB_SIDE_ARRAY, WB_CAUTION,
     "(strings in parallel - 1) x 1.25 x Isc <= panel's series fuse; above it one fuse per "
     "string",
     "NFPA 70 (NEC) 690.9(A), from memory"},
    {WB_RULE_CONTROLLER_BUS, "controller-bus", "V", WB_SIDE_ARRAY, WB_STOP,
     "system V = one the controller charges, the nearest", RATING},
    {WB_RULE_CHARGE_PROFILE, "charge-profile", "profiles", WB_SIDE_ARRAY, WB_STOP,
     "controller has a profile for the chemistry, or a free one", RATING},

    {WB_RULE_BANK_SYSTEM, "bank-system", "V", WB_SIDE_BANK, WB_STOP,
     "system V <= series x part V <= 1.07 x system V, of a system V the brief tries, the nearest",
     PRACTICE},
    {WB_RULE_BANK_SERIES, "bank-series", "batteries", WB_SIDE_BANK, WB_STOP,
     "batteries in series <= maker's limit", RATING},
    {WB_RULE_BANK_PARALLEL, "bank-parallel", "batteries", WB_SIDE_BANK, WB_STOP,
     "strings in parallel <= maker's limit", RATING},
    {WB_RULE_LOAD_VOLTAGE, "load-voltage", "V", WB_SIDE_BANK, WB_CAUTION,
     "volts of every DC load in use make the bank's system V: 10 to 15 V make 12, 20 to 30 V 24, "
     "40 to 60 V 48; a note where a load given in watts meets a bank that is not of 12 V",
     PRACTICE},
    {WB_RULE_LOAD_CONVERTER, "load-converter", "A", WB_SIDE_BANK, WB_NOTE,
     "W of the DC loads in use whose volts make no system V / 0.85 / bank V <= their W / bank V: "
     "any such load is told",
     PRACTICE},
    {WB_RULE_MOTOR_START, "motor-start", "A", WB_SIDE_BANK, WB_NOTE,
     "starting A of the DC load in use with the largest surge factor <= 2 x its running A",
     "ISO 8820-3, from memory; common practice"},
    {WB_RULE_BAY_FIT, "bay-fit", "batteries", WB_SIDE_BANK, WB_STOP,
     "batteries stand upright in the bay, each turned by 0 or 90 degrees, or by 0 alone where the "
     "model must not turn; where that is not proved the limit is one less; a note while the limit "
     "is off",
     LIMIT},
    {WB_RULE_NO_INVERTER, "no-inverter", "inverters", WB_SIDE_BANK, WB_STOP,
     "AC loads in use need one inverter", PRACTICE},
    {WB_RULE_INVERTER_BUS, "inverter-bus", "V", WB_SIDE_BANK, WB_STOP,
     "system V = inverter's input V", RATING},
    {WB_RULE_INVERTER_WINDOW, "inverter-window", "V", WB_SIDE_BANK, WB_STOP,
     "charging voltage of the bank <= inverter's highest input; without one 1.25 x its volts, and "
     "a caution",
     RATING},
    {WB_RULE_INVERTER_LOWEST, "inverter-lowest", "V", WB_SIDE_BANK, WB_STOP,
     "inverter's lowest input <= nominal voltage of the bank; without one 10 V for each 12 V",
     RATING},
    {WB_RULE_INVERTER_CUTOUT, "inverter-cutout", "V", WB_SIDE_BANK, WB_CAUTION,
     "inverter's lowest input >= cells x lowest V of a cell; without one by family: lead-acid "
     "1.75, lithium 2.5",
     "cell data sheets; common practice"},
    {WB_RULE_INVERTER_CONTINUOUS, "inverter-continuous", "W", WB_SIDE_BANK, WB_STOP,
     "AC peak of what may run together <= continuous W", RATING},
    {WB_RULE_INVERTER_SURGE, "inverter-surge", "W", WB_SIDE_BANK, WB_STOP,
     "AC peak while the load that adds most starts <= surge W", RATING},
    {WB_RULE_WAVEFORM, "waveform", "pure sine outputs", WB_SIDE_BANK, WB_STOP,
     "a load that needs a pure sine needs one such output", PRACTICE},
    {WB_RULE_INVERTER_DRAW, "inverter-draw", "A", WB_SIDE_BANK, WB_STOP,
     "continuous W / efficiency at full load / bank V <= strings x discharge limit", RATING},
    {WB_RULE_INVERTER_SURGE_DRAW, "inverter-surge-draw", "A", WB_SIDE_BANK, WB_CAUTION,
     "surge W / efficiency / bank V <= strings x limit for seconds; without one the discharge "
     "limit",
     RATING},
    {WB_RULE_PEAK_DRAW, "peak-draw", "A", WB_SIDE_BANK, WB_STOP,
     "(DC peak W + AC peak W / efficiency) / bank V <= strings x discharge limit, and with one "
     "load starting <= strings x limit for seconds; told is the pair nearer its limit",
     RATING},
    {WB_RULE_SHORE_CHARGE, "shore-charge", "A", WB_SIDE_BANK, WB_STOP,
     "shore charger A <= strings x charging limit", RATING},
    {WB_RULE_COLD_CHARGE, "cold-charge", "C", WB_SIDE_BANK, WB_STOP,
     "bank in every month in use >= lowest charging temperature (stop), design cold >= it "
     "(caution), "
     "unless the battery warms itself",
     "cell data sheets: lithium iron phosphate charges at 0 to 60 C; common practice"},
    {WB_RULE_FREEZING, "freezing", "C", WB_SIDE_BANK, WB_CAUTION,
     "design cold >= freezing point of the electrolyte at the depth limit",
     "TM 10-6140-200-14 table 1-1"},
    {WB_RULE_VENTILATION, "ventilation", "m3/h", WB_SIDE_BANK, WB_CAUTION,
     "air needed 0.05 x cells x I_gas x Ah / 1000 = 0, I_gas 20 mA/Ah vented, 8 valve-regulated; "
     "a caution where people sleep, else a note",
     "IEC 62485-2, boost charging, from memory"},
    {WB_RULE_AUTONOMY, "autonomy", "days", WB_SIDE_BANK, WB_STOP,
     "usable capacity / daily need at the terminals >= target, worst month in use", LIMIT},

    {WB_RULE_DCDC_SOURCE, "dcdc-source", "V", WB_SIDE_DCDC, WB_STOP,
     "alternator V (0: none, or never driven) = charger's input V", RATING},
    {WB_RULE_DCDC_BUS, "dcdc-bus", "V", WB_SIDE_DCDC, WB_STOP, "system V = charger's output V",
     RATING},
    {WB_RULE_DCDC_PROFILE, "dcdc-profile", "profiles", WB_SIDE_DCDC, WB_STOP,
     "charger has a profile for the chemistry, or a free one", RATING},
    {WB_RULE_DCDC_ALTERNATOR, "dcdc-alternator", "A", WB_SIDE_DCDC, WB_CAUTION,
     "output A x output V / efficiency / input V <= alternator A / 2", PRACTICE},

    {WB_RULE_SOURCE_CIRCUITS, "source-circuits", "circuits", WB_SIDE_JOINT, WB_STOP,
     "circuits of panels and starter battery without a conductor and fuse of the catalogue that "
     "carry, protect and keep the drop = 0",
     "NFPA 70 (NEC) 310.16, 240.4, 690.8, 690.9, from memory; 33 CFR 183.425, 183.455; IEC 60228"},
    {WB_RULE_BANK_CIRCUITS, "bank-circuits", "circuits", WB_SIDE_JOINT, WB_STOP,
     "the same of all that hangs on the bus bars: bank, controllers, chargers, inverter, loads = 0",
     "NFPA 70 (NEC) 310.16, 240.4, 690.8, from memory; 33 CFR 183.425, 183.455; IEC 60228"},
    {WB_RULE_FITTINGS, "fittings", "pieces", WB_SIDE_JOINT, WB_CAUTION,
     "fuse holders, lugs, switches, fuse blocks and bus bars that the catalogue does not sell = 0",
     PRACTICE},
    {WB_RULE_CHARGE_MAXIMUM, "charge-maximum", "A", WB_SIDE_JOINT, WB_STOP,
     "solar A + DC-DC A <= strings x charging limit; solar A = min(array W x efficiency / bank V, "
     "rated output), PWM min(strings x Imp, rated output)",
     RATING},
    {WB_RULE_CHARGE_MINIMUM, "charge-minimum", "A", WB_SIDE_JOINT, WB_CAUTION,
     "solar A + DC-DC A >= strings x recommended minimum; lead-acid without one Ah / 10", RATING},
    {WB_RULE_SUPPLY, "supply", "Wh/day", WB_SIDE_JOINT, WB_STOP,
     "supply >= need, worst month in use", PRACTICE},
    {WB_RULE_MONEY, "money", "minor units", WB_SIDE_JOINT, WB_STOP,
     "parts + shipping + allowance <= limit; a note while the limit is off", LIMIT},
    {WB_RULE_WEIGHT, "weight", "kg", WB_SIDE_JOINT, WB_STOP,
     "weight of all parts and mounts <= limit; a note while the limit is off", LIMIT},
    {WB_RULE_DARK_HOURS, "dark-hours", "h/year", WB_SIDE_JOINT, WB_STOP,
     "mean hours a year, in the months in use, in which the hourly balance leaves some load unmet "
     "<= limit; a note while the limit is off",
     LIMIT},
};

const WbRuleInfo *wb_rule_info(WbRule rule)
{
    return &table[rule];
}

const char *wb_severity_name(WbSeverity severity)
{
    static const char *const names[] = {"note", "caution", "stop"};
    return names[severity];
}
