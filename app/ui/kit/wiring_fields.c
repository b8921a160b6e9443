#include "wiring_fields.h"

#include <glib/gi18n-lib.h>

static double on(const WbBrief *brief, int index)
{
    return brief->wiring.on;
}

static double rules(const WbBrief *brief, int index)
{
    return brief->rule_set;
}

static double sizes(const WbBrief *brief, int index)
{
    return brief->wiring.sizes;
}

static double terminals(const WbBrief *brief, int index)
{
    return brief->wiring.terminal_c == 60 ? 0 : brief->wiring.terminal_c == 75 ? 1 : 2;
}

static double inside(const WbBrief *brief, int index)
{
    return brief->wiring.inside_c;
}

static double roof(const WbBrief *brief, int index)
{
    return brief->wiring.roof_c;
}

static double bundled(const WbBrief *brief, int index)
{
    return brief->wiring.bundled;
}

static const char *const rule_words[] = {N_("Road vehicle"), N_("Boat"), N_("Building"), NULL};
static const char *const rule_json[] = {"\"road-vehicle\"", "\"boat\"", "\"building\"", NULL};
static const char *const size_words[] = {N_("Metric or AWG"), N_("AWG"), N_("Metric"), NULL};
static const char *const size_json[] = {"\"any\"", "\"awg\"", "\"metric\"", NULL};
static const char *const terminal_words[] = {"60 \302\260C", "75 \302\260C", "90 \302\260C", NULL};
static const char *const terminal_json[] = {"60", "75", "90", NULL};

static const WbBriefField fields[WB_N_WIRING_FIELDS] = {
    [WB_WIRING_ON] = {.title = N_("Size the circuits, and count them in"),
                      .note = N_("Off: no conductor, fuse or fitting is chosen, paid for or "
                                 "judged."),
                      .step = N_("Switch the wiring"),
                      .pointer = "/wiring/on",
                      .kind = WB_BRIEF_FLAG,
                      .number = on},
    [WB_WIRING_RULES] = {.title = N_("Built into a"),
                         .step = N_("Change the rule set"),
                         .pointer = "/rule_set",
                         .kind = WB_BRIEF_CHOICE,
                         .words = rule_words,
                         .json = rule_json,
                         .number = rules},
    [WB_WIRING_SIZES] = {.title = N_("Sizes that are bought"),
                         .step = N_("Change the sizes of conductors"),
                         .pointer = "/wiring/sizes",
                         .kind = WB_BRIEF_CHOICE,
                         .words = size_words,
                         .json = size_json,
                         .number = sizes},
    [WB_WIRING_TERMINALS] = {.title = N_("Terminals are rated for"),
                             .step = N_("Change the rating of terminals"),
                             .pointer = "/wiring/terminals_c",
                             .kind = WB_BRIEF_CHOICE,
                             .words = terminal_words,
                             .json = terminal_json,
                             .number = terminals},
    [WB_WIRING_INSIDE] = {.title = N_("Hottest air inside"),
                          .unit = "\302\260C",
                          .step = N_("Change the hottest air inside"),
                          .pointer = "/wiring/inside_c",
                          .empty = N_("assumed"),
                          .empty_json = "null",
                          .number = inside},
    [WB_WIRING_ROOF] = {.title = N_("Hottest air on the roof"),
                        .unit = "\302\260C",
                        .step = N_("Change the hottest air on the roof"),
                        .pointer = "/wiring/roof_c",
                        .empty = N_("assumed"),
                        .empty_json = "null",
                        .number = roof},
    [WB_WIRING_BUNDLED] = {.title = N_("Conductors side by side, at most"),
                           .note = N_("Those that carry current; more of them cool worse."),
                           .step = N_("Change how many lie side by side"),
                           .pointer = "/wiring/bundled",
                           .number = bundled},
};

const WbBriefField *wb_wiring_field(WbWiringFieldId id)
{
    g_return_val_if_fail((int)id >= 0 && id < WB_N_WIRING_FIELDS, NULL);
    return &fields[id];
}

/* ---- lengths ---- */

#define LENGTH(name, kind)                                                                         \
    static double name(const WbBrief *brief, int index)                                            \
    {                                                                                              \
        return brief->wiring.length_m[kind];                                                       \
    }
LENGTH(string_m, WB_CIRCUIT_STRING)
LENGTH(array_m, WB_CIRCUIT_ARRAY)
LENGTH(charge_m, WB_CIRCUIT_CHARGE)
LENGTH(dcdc_in_m, WB_CIRCUIT_DCDC_IN)
LENGTH(dcdc_out_m, WB_CIRCUIT_DCDC_OUT)
LENGTH(shore_m, WB_CIRCUIT_SHORE)
LENGTH(battery_m, WB_CIRCUIT_BATTERY)
LENGTH(main_m, WB_CIRCUIT_MAIN)
LENGTH(inverter_m, WB_CIRCUIT_INVERTER)
LENGTH(feed_m, WB_CIRCUIT_FEED)
LENGTH(load_m, WB_CIRCUIT_LOAD)

#define LENGTH_FIELD(words, member, its_number)                                                    \
    {                                                                                              \
        .title = words, .unit = "m", .step = N_("Change a length"),                                \
        .pointer = "/wiring/lengths_m/" member, .empty = N_("assumed"), .empty_json = "null",      \
        .number = its_number                                                                       \
    }

static const WbBriefField length_fields[WB_N_CIRCUITS] = {
    [WB_CIRCUIT_STRING] = LENGTH_FIELD(N_("Panel string"), "string", string_m),
    [WB_CIRCUIT_ARRAY] = LENGTH_FIELD(N_("Joined strings to controller"), "array", array_m),
    [WB_CIRCUIT_CHARGE] = LENGTH_FIELD(N_("Controller to bus bars"), "charge", charge_m),
    [WB_CIRCUIT_DCDC_IN] =
        LENGTH_FIELD(N_("Starter battery to DC-DC charger"), "dcdc_in", dcdc_in_m),
    [WB_CIRCUIT_DCDC_OUT] = LENGTH_FIELD(N_("DC-DC charger to bus bars"), "dcdc_out", dcdc_out_m),
    [WB_CIRCUIT_SHORE] = LENGTH_FIELD(N_("Shore charger to bus bars"), "shore", shore_m),
    [WB_CIRCUIT_BATTERY] = LENGTH_FIELD(N_("Battery string"), "battery", battery_m),
    [WB_CIRCUIT_MAIN] = LENGTH_FIELD(N_("Bank to bus bars"), "main", main_m),
    [WB_CIRCUIT_INVERTER] = LENGTH_FIELD(N_("Bus bars to inverter"), "inverter", inverter_m),
    [WB_CIRCUIT_FEED] = LENGTH_FIELD(N_("Bus bars to fuse block"), "feed", feed_m),
    [WB_CIRCUIT_LOAD] = LENGTH_FIELD(N_("Fuse block to load"), "load", load_m),
};

const WbBriefField *wb_wiring_length_field(WbCircuitKind kind)
{
    g_return_val_if_fail((int)kind >= 0 && kind < WB_N_CIRCUITS, NULL);
    return &length_fields[kind];
}
