/* What each rule means when it ruled out kits. */
#include "words.h"

#include <glib/gi18n-lib.h>

static const char *const meanings[WB_N_RULES] = {
    [WB_RULE_NO_PRICE] = N_("a part has no usable offer"),
    [WB_RULE_ROOF_FIT] = N_("the panels do not fit the roof"),
    [WB_RULE_ROOF_UNDECIDED] =
        N_("whether the panels fit the roof is not decided or hangs on 1 mm"),
    [WB_RULE_ROOF_LOAD] = N_("the panels are too heavy for the roof"),
    [WB_RULE_ROOF_HEIGHT] = N_("the panels stand too high over the roof"),
    [WB_RULE_CONTROLLER_SHARE] = N_("the strings do not divide evenly over the controllers"),
    [WB_RULE_CONTROLLERS_ALIKE] = N_("several controllers have to be set alike"),
    [WB_RULE_UNLIKE_PANELS] = N_("the panels of a string do not match"),
    [WB_RULE_SYSTEM_VOLTAGE] = N_("the cold string is over the panel's own voltage limit"),
    [WB_RULE_COLD_VOC] = N_("the cold string is over the controller's input voltage"),
    [WB_RULE_TOUCH_VOLTAGE] = N_("the cold string is not safe to touch"),
    [WB_RULE_PV_CURRENT] = N_("the panels' current is over the controller's input"),
    [WB_RULE_HOT_VMP] = N_("the hot string is too low to fill the bank"),
    [WB_RULE_MPPT_START] = N_("the hot string is too low to start the controller"),
    [WB_RULE_PWM_MATCH] = N_("a PWM controller wastes the panels' voltage"),
    [WB_RULE_PWM_CELLS] = N_("the panels' cells do not suit the bank behind a PWM controller"),
    [WB_RULE_ARRAY_WATTS] = N_("more panel watts than the controller's maker allows"),
    [WB_RULE_OUTPUT_CLIPPED] = N_("the controller cuts off part of the panels' power"),
    [WB_RULE_STRING_FUSE] = N_("the strings need a fuse each"),
    [WB_RULE_CONTROLLER_BUS] = N_("the controller is made for another system voltage"),
    [WB_RULE_CHARGE_PROFILE] = N_("the controller cannot charge this chemistry"),
    [WB_RULE_BANK_SYSTEM] = N_("the bank makes no system voltage you allow"),
    [WB_RULE_BANK_SERIES] = N_("more batteries in series than their maker allows"),
    [WB_RULE_BANK_PARALLEL] = N_("more batteries in parallel than their maker allows"),
    [WB_RULE_LOAD_VOLTAGE] = N_("a DC load is made for another voltage"),
    [WB_RULE_LOAD_CONVERTER] = N_("a DC load needs a converter of its own"),
    [WB_RULE_MOTOR_START] = N_("a starting DC load needs a slow fuse"),
    [WB_RULE_BAY_FIT] = N_("the bank does not fit the storage bay"),
    [WB_RULE_NO_INVERTER] = N_("AC loads and no inverter"),
    [WB_RULE_INVERTER_BUS] = N_("the inverter is made for another system voltage"),
    [WB_RULE_INVERTER_WINDOW] = N_("the charging voltage is over the inverter's input"),
    [WB_RULE_INVERTER_LOWEST] = N_("the bank is under the inverter's lowest input"),
    [WB_RULE_INVERTER_CUTOUT] = N_("the inverter would drain the bank too far"),
    [WB_RULE_INVERTER_CONTINUOUS] = N_("the AC loads are over the inverter's power"),
    [WB_RULE_INVERTER_SURGE] = N_("starting AC loads are over the inverter's surge"),
    [WB_RULE_WAVEFORM] = N_("a load needs a pure sine"),
    [WB_RULE_INVERTER_DRAW] = N_("the inverter draws more than the bank gives"),
    [WB_RULE_INVERTER_SURGE_DRAW] = N_("the inverter's surge is over what the bank gives"),
    [WB_RULE_PEAK_DRAW] = N_("all loads together draw more than the bank gives"),
    [WB_RULE_SHORE_CHARGE] = N_("the shore charger is too strong for the bank"),
    [WB_RULE_COLD_CHARGE] = N_("the bank gets too cold to be charged"),
    [WB_RULE_FREEZING] = N_("the bank can freeze when drawn down"),
    [WB_RULE_VENTILATION] = N_("the bank gives off hydrogen and needs air"),
    [WB_RULE_AUTONOMY] = N_("the bank does not last the days you want"),
    [WB_RULE_DCDC_SOURCE] = N_("no alternator of the DC-DC charger's voltage"),
    [WB_RULE_DCDC_BUS] = N_("the DC-DC charger puts out another voltage"),
    [WB_RULE_DCDC_PROFILE] = N_("the DC-DC charger cannot charge this chemistry"),
    [WB_RULE_DCDC_ALTERNATOR] = N_("the DC-DC charger overloads the alternator"),
    [WB_RULE_SOURCE_CIRCUITS] =
        N_("a circuit of the panels or the starter battery cannot be built"),
    [WB_RULE_BANK_CIRCUITS] = N_("a circuit on the bus bars cannot be built"),
    [WB_RULE_FITTINGS] = N_("the catalogue lacks fittings of the circuits"),
    [WB_RULE_CHARGE_MAXIMUM] = N_("more charging current than the bank takes"),
    [WB_RULE_CHARGE_MINIMUM] = N_("less charging current than the bank wants"),
    [WB_RULE_SUPPLY] = N_("less comes in than the loads need"),
    [WB_RULE_MONEY] = N_("the kit costs too much"),
    [WB_RULE_WEIGHT] = N_("the kit weighs too much"),
    [WB_RULE_DARK_HOURS] = N_("the loads go short for too many hours a year"),
};

const char *wb_words_rule(WbRule rule)
{
    return _(meanings[rule]);
}
