/* What to change, rule by rule. */
#include "words_detail.h"

#include <glib/gi18n-lib.h>

static const char *const changes[WB_N_RULES] = {
    [WB_RULE_NO_PRICE] = N_("Enter an offer for the part, give its currency a rate, or mark it as "
                            "owned."),
    [WB_RULE_ROOF_FIT] = N_("Take fewer or smaller panels, or move what stands on the roof."),
    [WB_RULE_ROOF_UNDECIDED] = N_("Take one panel fewer, or make the roof simpler: fewer "
                                  "obstacles, round figures."),
    [WB_RULE_ROOF_LOAD] = N_("Take lighter or fewer panels; ask the roof’s maker for its load."),
    [WB_RULE_ROOF_HEIGHT] = N_("Lower the standoff, or take flat panels."),
    [WB_RULE_CONTROLLER_SHARE] = N_("Take as many strings as share out evenly over the "
                                    "controllers."),
    [WB_RULE_CONTROLLERS_ALIKE] = N_("Take one larger controller, or set all to the same charging "
                                     "voltages."),
    [WB_RULE_UNLIKE_PANELS] = N_("Put panels of one model in a string."),
    [WB_RULE_SYSTEM_VOLTAGE] = N_("Put fewer panels in series."),
    [WB_RULE_COLD_VOC] = N_("Put fewer panels in series, or take a controller with a higher input "
                            "voltage."),
    [WB_RULE_TOUCH_VOLTAGE] = N_("Put fewer panels in series, or guard and mark what is live."),
    [WB_RULE_PV_CURRENT] = N_("Put fewer strings on one controller, or more panels in series."),
    [WB_RULE_HOT_VMP] = N_("Put one more panel in series, or take a lower system voltage."),
    [WB_RULE_MPPT_START] = N_("Put one more panel in series, or take a lower system voltage."),
    [WB_RULE_PWM_MATCH] = N_("Take an MPPT controller, or panels made for the bank’s voltage."),
    [WB_RULE_PWM_CELLS] = N_("Take an MPPT controller, or panels of 36 cells for each 12 V."),
    [WB_RULE_ARRAY_WATTS] = N_("Take fewer watts of panels, a larger controller, or a higher "
                               "system voltage."),
    [WB_RULE_OUTPUT_CLIPPED] = N_("Take a larger controller, or leave it: the loss is in strong "
                                  "sun alone."),
    [WB_RULE_STRING_FUSE] = N_("Give every string its own fuse, or take two strings at most."),
    [WB_RULE_CONTROLLER_BUS] = N_("Take a controller made for the bank’s voltage."),
    [WB_RULE_CHARGE_PROFILE] = N_("Take a controller whose voltages can be set, or another "
                                  "chemistry."),
    [WB_RULE_BANK_SYSTEM] = N_("Put more or fewer batteries in series, or allow this system "
                               "voltage."),
    [WB_RULE_BANK_SERIES] = N_("Put fewer batteries in series."),
    [WB_RULE_BANK_PARALLEL] = N_("Take fewer, larger batteries."),
    [WB_RULE_LOAD_VOLTAGE] = N_("Take a bank of the load’s voltage, or add a converter for the "
                                "load."),
    [WB_RULE_LOAD_CONVERTER] = N_("Leave room for the converter and its loss, or take a load made "
                                  "for the bank’s voltage."),
    [WB_RULE_MOTOR_START] = N_("Take a slow fuse of the same rating for this load."),
    [WB_RULE_BAY_FIT] = N_("Take fewer or smaller batteries, or a larger bay."),
    [WB_RULE_NO_INVERTER] = N_("Take a kit with an inverter, or leave the AC loads out."),
    [WB_RULE_INVERTER_BUS] = N_("Take an inverter made for the bank’s voltage."),
    [WB_RULE_INVERTER_WINDOW] = N_("Take an inverter with a higher input voltage."),
    [WB_RULE_INVERTER_LOWEST] = N_("Take an inverter that works at a lower input voltage."),
    [WB_RULE_INVERTER_CUTOUT] = N_("Take an inverter that switches off earlier, or add a cut-out "
                                   "of the battery’s own."),
    [WB_RULE_INVERTER_CONTINUOUS] = N_("Take a larger inverter, or run fewer AC loads together."),
    [WB_RULE_INVERTER_SURGE] = N_("Take an inverter with more surge, or start the loads one after "
                                  "another."),
    [WB_RULE_WAVEFORM] = N_("Take an inverter with a pure sine."),
    [WB_RULE_INVERTER_DRAW] = N_("Take more or stronger batteries, a smaller inverter, or a "
                                 "higher system voltage."),
    [WB_RULE_INVERTER_SURGE_DRAW] = N_("Take batteries that give more for seconds, or a smaller "
                                       "inverter."),
    [WB_RULE_PEAK_DRAW] = N_("Run fewer loads together, or take more or stronger batteries."),
    [WB_RULE_SHORE_CHARGE] = N_("Set the shore charger lower, or take more batteries."),
    [WB_RULE_COLD_CHARGE] = N_("Put the bank in a warmer place, or take a battery that warms "
                               "itself."),
    [WB_RULE_FREEZING] = N_("Draw it down less, put it in a warmer place, or take another "
                            "chemistry."),
    [WB_RULE_VENTILATION] = N_("Vent the battery’s space to the outside, out of reach of sleepers "
                               "and sparks, or take a chemistry that gives off no gas."),
    [WB_RULE_AUTONOMY] = N_("Take a larger bank, or loads that need less."),
    [WB_RULE_DCDC_SOURCE] = N_("Enter the alternator in the brief, or take a charger of its "
                               "voltage."),
    [WB_RULE_DCDC_BUS] = N_("Take a charger that puts out the bank’s voltage."),
    [WB_RULE_DCDC_PROFILE] = N_("Take a charger whose voltages can be set."),
    [WB_RULE_DCDC_ALTERNATOR] = N_("Take a smaller charger, or have a larger alternator fitted."),
    [WB_RULE_SOURCE_CIRCUITS] = N_("Look at the circuits that cannot be built: shorten them, raise "
                                   "the voltage, or add the part they lack."),
    [WB_RULE_BANK_CIRCUITS] = N_("Look at the circuits that cannot be built: shorten them, raise "
                                 "the system voltage, or add the part they lack."),
    [WB_RULE_FITTINGS] = N_("Add the fittings to the catalogue, or leave them to the allowance."),
    [WB_RULE_CHARGE_MAXIMUM] = N_("Set the chargers lower, take smaller ones, or more batteries."),
    [WB_RULE_CHARGE_MINIMUM] = N_("Take more panels or larger chargers, or a smaller bank."),
    [WB_RULE_SUPPLY] = N_("Take more panels, tilt them, or loads that need less in that month."),
    [WB_RULE_MONEY] = N_("Raise the limit, or take a cheaper part where the shopping page shows "
                         "most money."),
    [WB_RULE_WEIGHT] = N_("Raise the limit, or take a lighter bank."),
    [WB_RULE_DARK_HOURS] = N_("Take a larger bank or more panels, or allow more dark hours."),
};

const char *wb_words_change(WbRule rule)
{
    return changes[rule] != NULL ? _(changes[rule]) : NULL;
}
