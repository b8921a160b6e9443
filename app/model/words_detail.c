/* What a rule was reckoned with. The formula stands in the published table; here are the numbers
 * that go into it, by the names the formula has for them. */
#include "words_detail.h"

#include "figures_text.h"
#include "rules.h"
#include "words.h"
#include <glib/gi18n-lib.h>
#include <math.h>

/* ---- margin ---- */

gboolean wb_finding_is_at_most(const WbFinding *finding)
{
    gboolean within = isnan(finding->margin) ? finding->holds : finding->margin >= 0;
    return within == (finding->value <= finding->limit);
}

static const char *unit_of(const WbFinding *finding)
{
    const char *unit = wb_rule_info(finding->rule)->unit;
    return g_str_equal(unit, "C") ? "°C" : g_str_equal(unit, "m3/h") ? "m³/h" : unit;
}

static char *figure(double value)
{
    double size = fabs(value);
    return wb_text_number(value, value == floor(value) || size >= 1000 ? 0 : size >= 1 ? 1 : 2);
}

char *wb_words_margin(const WbFinding *finding)
{
    if (isnan(finding->margin) || isnan(finding->value) || isnan(finding->limit) ||
        !isfinite(finding->limit))
        return NULL;
    gboolean money = finding->rule == WB_RULE_MONEY;
    gboolean within = finding->margin >= 0, ceiling = wb_finding_is_at_most(finding);
    g_autofree char *limit = figure(finding->limit);
    g_autofree char *share = wb_text_number(fabs(finding->margin) * 100, 0);
    const char *unit = unit_of(finding);
    if (money)
        return g_strdup_printf(within ? _("%s %% left of the limit") : _("%s %% over the limit"),
                               share);
    if (ceiling)
        return g_strdup_printf(within ? _("%s %% left of %s %s") : _("%s %% over %s %s"), share,
                               limit, unit);
    return g_strdup_printf(within ? _("%s %% more than %s %s") : _("%s %% short of %s %s"), share,
                           limit, unit);
}

/* ---- numbers put in ---- */

typedef enum {
    IN_NONE,
    IN_SERIES,
    IN_STRINGS,
    IN_CONTROLLERS,
    IN_POWER,
    IN_VOC,
    IN_VMP,
    IN_ISC,
    IN_IMP,
    IN_VOC_COEFF,
    IN_SERIES_FUSE,
    IN_PANEL_KG,
    IN_COLD,
    IN_HOT,
    IN_HEADROOM,
    IN_RATED_A,
    IN_BANK_V,
    IN_CHARGE_V,
    IN_BANK_SERIES,
    IN_BANK_STRINGS,
    IN_PART_V,
    IN_AH,
    IN_CHARGE_A,
    IN_DISCHARGE_A,
    IN_CONTINUOUS_W,
    IN_SURGE_W,
    IN_AC_PEAK,
    IN_DC_PEAK,
    IN_AC_SURGE,
    IN_ALTERNATOR,
    IN_DCDC_A,
    IN_SHORE_A,
    IN_DEPTH,
    IN_TARGET_DAYS,
    N_INPUTS
} Input;

/* In the order of Input: "label value unit". */
static const struct {
    const char *label, *unit;
} inputs[N_INPUTS] = {
    [IN_SERIES] = {N_("panels in series"), ""},
    [IN_STRINGS] = {N_("strings on one controller"), ""},
    [IN_CONTROLLERS] = {N_("controllers"), ""},
    [IN_POWER] = {N_("panel"), "W"},
    [IN_VOC] = {N_("panel’s Voc"), "V"},
    [IN_VMP] = {N_("panel’s Vmp"), "V"},
    [IN_ISC] = {N_("panel’s Isc"), "A"},
    [IN_IMP] = {N_("panel’s Imp"), "A"},
    [IN_VOC_COEFF] = {N_("Voc coefficient"), "%/K"},
    [IN_SERIES_FUSE] = {N_("panel’s series fuse"), "A"},
    [IN_PANEL_KG] = {N_("panel with mount"), "kg"},
    [IN_COLD] = {N_("design cold"), "°C"},
    [IN_HOT] = {N_("hottest cell"), "°C"},
    [IN_HEADROOM] = {N_("controller’s headroom"), "V"},
    [IN_RATED_A] = {N_("controller’s rated output"), "A"},
    [IN_BANK_V] = {N_("bank"), "V"},
    [IN_CHARGE_V] = {N_("charging voltage"), "V"},
    [IN_BANK_SERIES] = {N_("batteries in series"), ""},
    [IN_BANK_STRINGS] = {N_("strings of batteries"), ""},
    [IN_PART_V] = {N_("one battery"), "V"},
    [IN_AH] = {N_("one battery"), "Ah"},
    [IN_CHARGE_A] = {N_("its charging limit"), "A"},
    [IN_DISCHARGE_A] = {N_("its discharge limit"), "A"},
    [IN_CONTINUOUS_W] = {N_("inverter’s continuous"), "W"},
    [IN_SURGE_W] = {N_("inverter’s surge"), "W"},
    [IN_AC_PEAK] = {N_("AC peak"), "W"},
    [IN_DC_PEAK] = {N_("DC peak"), "W"},
    [IN_AC_SURGE] = {N_("AC peak while starting"), "W"},
    [IN_ALTERNATOR] = {N_("alternator"), "A"},
    [IN_DCDC_A] = {N_("DC-DC charger"), "A"},
    [IN_SHORE_A] = {N_("shore charger"), "A"},
    [IN_DEPTH] = {N_("drawn down at most"), "%"},
    [IN_TARGET_DAYS] = {N_("target"), N_("days")},
};

#define MOST_INPUTS 7

static const Input put_in[WB_N_RULES][MOST_INPUTS] = {
    [WB_RULE_ROOF_LOAD] = {IN_SERIES, IN_STRINGS, IN_CONTROLLERS, IN_PANEL_KG},
    [WB_RULE_CONTROLLER_SHARE] = {IN_STRINGS, IN_CONTROLLERS},
    [WB_RULE_SYSTEM_VOLTAGE] = {IN_SERIES, IN_VOC, IN_VOC_COEFF, IN_COLD},
    [WB_RULE_COLD_VOC] = {IN_SERIES, IN_VOC, IN_VOC_COEFF, IN_COLD},
    [WB_RULE_TOUCH_VOLTAGE] = {IN_SERIES, IN_VOC, IN_VOC_COEFF, IN_COLD},
    [WB_RULE_PV_CURRENT] = {IN_ISC, IN_STRINGS},
    [WB_RULE_HOT_VMP] = {IN_SERIES, IN_VMP, IN_VOC, IN_VOC_COEFF, IN_HOT, IN_CHARGE_V, IN_HEADROOM},
    [WB_RULE_MPPT_START] = {IN_SERIES, IN_VOC, IN_VOC_COEFF, IN_HOT, IN_CHARGE_V, IN_BANK_V},
    [WB_RULE_PWM_MATCH] = {IN_SERIES, IN_VMP, IN_HOT, IN_CHARGE_V},
    [WB_RULE_PWM_CELLS] = {IN_SERIES, IN_BANK_V},
    [WB_RULE_ARRAY_WATTS] = {IN_SERIES, IN_STRINGS, IN_POWER, IN_BANK_V},
    [WB_RULE_OUTPUT_CLIPPED] = {IN_SERIES, IN_STRINGS, IN_POWER, IN_RATED_A, IN_BANK_V},
    [WB_RULE_STRING_FUSE] = {IN_STRINGS, IN_ISC, IN_SERIES_FUSE},
    [WB_RULE_BANK_SYSTEM] = {IN_BANK_SERIES, IN_PART_V},
    [WB_RULE_BANK_SERIES] = {IN_BANK_SERIES},
    [WB_RULE_BANK_PARALLEL] = {IN_BANK_STRINGS},
    [WB_RULE_BAY_FIT] = {IN_BANK_SERIES, IN_BANK_STRINGS},
    [WB_RULE_INVERTER_WINDOW] = {IN_BANK_SERIES, IN_CHARGE_V},
    [WB_RULE_INVERTER_LOWEST] = {IN_BANK_V},
    [WB_RULE_INVERTER_CUTOUT] = {IN_BANK_V},
    [WB_RULE_INVERTER_CONTINUOUS] = {IN_AC_PEAK, IN_CONTINUOUS_W},
    [WB_RULE_INVERTER_SURGE] = {IN_AC_SURGE, IN_SURGE_W},
    [WB_RULE_INVERTER_DRAW] = {IN_CONTINUOUS_W, IN_BANK_V, IN_BANK_STRINGS, IN_DISCHARGE_A},
    [WB_RULE_INVERTER_SURGE_DRAW] = {IN_SURGE_W, IN_BANK_V, IN_BANK_STRINGS},
    [WB_RULE_PEAK_DRAW] = {IN_DC_PEAK, IN_AC_PEAK, IN_BANK_V, IN_BANK_STRINGS, IN_DISCHARGE_A},
    [WB_RULE_SHORE_CHARGE] = {IN_SHORE_A, IN_BANK_STRINGS, IN_CHARGE_A},
    [WB_RULE_COLD_CHARGE] = {IN_COLD},
    [WB_RULE_FREEZING] = {IN_COLD, IN_DEPTH},
    [WB_RULE_VENTILATION] = {IN_BANK_SERIES, IN_BANK_STRINGS, IN_AH},
    [WB_RULE_AUTONOMY] = {IN_BANK_SERIES, IN_BANK_STRINGS, IN_AH, IN_PART_V, IN_TARGET_DAYS},
    [WB_RULE_DCDC_ALTERNATOR] = {IN_DCDC_A, IN_ALTERNATOR},
    [WB_RULE_CHARGE_MAXIMUM] = {IN_RATED_A, IN_CONTROLLERS, IN_DCDC_A, IN_SHORE_A, IN_BANK_STRINGS,
                                IN_CHARGE_A},
    [WB_RULE_CHARGE_MINIMUM] = {IN_RATED_A, IN_CONTROLLERS, IN_BANK_STRINGS, IN_AH},
};

static double panel_input(const WbPanel *panel, Input input)
{
    return input == IN_POWER         ? panel->power_w
           : input == IN_VOC         ? panel->voc_v
           : input == IN_VMP         ? panel->vmp_v
           : input == IN_ISC         ? panel->isc_a
           : input == IN_IMP         ? panel->imp_a
           : input == IN_VOC_COEFF   ? panel->voc_coeff_pct_k
           : input == IN_SERIES_FUSE ? panel->series_fuse_a
                                     : panel->part.weight_kg + panel->mount_kg;
}

static double bank_input(const WbProblem *problem, const WbVerdict *verdict, Input input)
{
    const WbStorageChoice *choice = &problem->storage[verdict->kit.storage];
    return input == IN_BANK_V         ? verdict->bank.nominal_v
           : input == IN_CHARGE_V     ? verdict->bank.charge_v
           : input == IN_BANK_SERIES  ? verdict->kit.bank_series
           : input == IN_BANK_STRINGS ? verdict->kit.bank_parallel
           : input == IN_PART_V       ? choice->storage->nominal_v
           : input == IN_AH           ? choice->storage->capacity_ah
           : input == IN_CHARGE_A     ? choice->storage->max_charge_a
           : input == IN_DISCHARGE_A  ? choice->storage->max_discharge_a
                                      : 100 * wb_depth_limit(choice->storage, choice->chemistry);
}

static double ac_input(const WbProblem *problem, const WbKit *kit, Input input)
{
    const WbInverter *inverter = problem->inverters[kit->inverter].inverter;
    if (input == IN_AC_PEAK)
        return problem->loads.peak_ac_w;
    if (input == IN_DC_PEAK)
        return problem->loads.peak_dc_w;
    if (input == IN_AC_SURGE)
        return problem->loads.surge_ac_w;
    if (inverter == NULL)
        return NAN;
    return input == IN_SURGE_W ? inverter->surge_w : inverter->continuous_w;
}

static double other_input(const WbProblem *problem, const WbKit *kit, Input input)
{
    const WbController *controller = problem->controllers[kit->controller].controller;
    const WbDcdc *dcdc = problem->dcdc[kit->dcdc].dcdc;
    const WbBrief *brief = problem->brief;
    return input == IN_SERIES        ? kit->n_series
           : input == IN_STRINGS     ? kit->n_parallel / kit->n_controllers
           : input == IN_CONTROLLERS ? kit->n_controllers
           : input == IN_COLD        ? problem->design_cold_c
           : input == IN_HOT         ? problem->panels[kit->panel].hottest_cell_c
           : input == IN_HEADROOM    ? controller->headroom_v
           : input == IN_RATED_A     ? controller->rated_output_a
           : input == IN_ALTERNATOR  ? brief->driving.alternator_a
           : input == IN_DCDC_A      ? (dcdc != NULL ? dcdc->output_a : NAN)
           : input == IN_SHORE_A     ? (brief->shore.nights_week > 0 ? brief->shore.charger_a : NAN)
                                     : brief->autonomy_target_days;
}

static double value_of(const WbProblem *problem, const WbVerdict *verdict, Input input)
{
    if (input >= IN_POWER && input <= IN_PANEL_KG)
        return panel_input(problem->panels[verdict->kit.panel].panel, input);
    if ((input >= IN_BANK_V && input <= IN_DISCHARGE_A) || input == IN_DEPTH)
        return bank_input(problem, verdict, input);
    if (input >= IN_CONTINUOUS_W && input <= IN_AC_SURGE)
        return ac_input(problem, &verdict->kit, input);
    return other_input(problem, &verdict->kit, input);
}

/* "panels in series 2; panel's Voc 22.3 V; ..." (transfer full) */
static char *inputs_text(const WbProblem *problem, const WbVerdict *verdict, WbRule rule)
{
    GString *text = g_string_new(NULL);
    for (int i = 0; i < MOST_INPUTS && put_in[rule][i] != IN_NONE; i++) {
        Input input = put_in[rule][i];
        double value = value_of(problem, verdict, input);
        const char *unit = inputs[input].unit;
        if (isnan(value) && input != IN_VOC_COEFF && input != IN_SERIES_FUSE)
            continue; /* the kit has no such part */
        g_autofree char *number = isnan(value)            ? g_strdup(_("not given"))
                                  : input == IN_VOC_COEFF ? wb_text_number(value, 3)
                                                          : figure(value);
        g_string_append_printf(text, "%s%s %s", text->len > 0 ? "; " : "", _(inputs[input].label),
                               number);
        if (!isnan(value) && unit[0] != '\0')
            g_string_append_printf(text, " %s", _(unit));
    }
    return g_string_free(text, FALSE);
}

static char *compared(const WbProblem *problem, const WbFinding *finding)
{
    const char *currency = problem->brief->currency;
    if (finding->rule == WB_RULE_MONEY) {
        g_autofree char *cost = wb_words_money(llround(finding->value), currency);
        g_autofree char *most = wb_words_money(llround(finding->limit), currency);
        return g_strdup_printf(_("%s against %s"), cost, most);
    }
    g_autofree char *value = figure(finding->value);
    g_autofree char *limit = figure(finding->limit);
    return g_strdup_printf(_("%s against %s %s"), value, limit, unit_of(finding));
}

/* ---- all of it ---- */

#define MOST_LINES 6

static void add(WbReckoning *self, const char *label, char *text)
{
    if (text != NULL && text[0] != '\0')
        self->line[self->n++] = (WbCircuitLine){g_strdup(label), text};
    else
        g_free(text);
}

WbReckoning *wb_finding_detail(const WbProblem *problem, const WbVerdict *verdict,
                               const WbFinding *finding)
{
    const WbRuleInfo *info = wb_rule_info(finding->rule);
    WbReckoning *self = g_new0(WbReckoning, 1);
    self->line = g_new0(WbCircuitLine, MOST_LINES);
    add(self, _("Formula"), g_strdup(info->formula));
    add(self, _("Numbers put in"), inputs_text(problem, verdict, finding->rule));
    if (!isnan(finding->value) && !isnan(finding->limit))
        add(self, _("Comes to"), compared(problem, finding));
    add(self, _("Assumed"), wb_words_assumed(problem, verdict, finding));
    add(self, _("Source"), g_strdup(info->source));
    add(self, finding->holds ? _("To keep farther from it") : _("To change"),
        g_strdup(wb_words_change(finding->rule)));
    return self;
}
