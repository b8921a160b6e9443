/* Every rule on both sides of its limit, the table of rules, and what must hold for all of them. */
#include "random.h"
#include "rules_case.h"
#include <glib.h>
#include <string.h>

typedef enum { KEEP, NUMBER, INT, INT64, FLAG, TEXT } Kind;

/* One change to the sound kit. */
typedef struct {
    Kind kind;
    size_t offset;
    double to;
    const char *text;
} Change;

#define SET(member, number)                                                                        \
    {                                                                                              \
        NUMBER, offsetof(Case, member), number, NULL                                               \
    }
#define SET_INT(member, number)                                                                    \
    {                                                                                              \
        INT, offsetof(Case, member), number, NULL                                                  \
    }
#define SET_INT64(member, number)                                                                  \
    {                                                                                              \
        INT64, offsetof(Case, member), number, NULL                                                \
    }
#define SET_FLAG(member, flag)                                                                     \
    {                                                                                              \
        FLAG, offsetof(Case, member), flag, NULL                                                   \
    }
#define SET_TEXT(member, words)                                                                    \
    {                                                                                              \
        TEXT, offsetof(Case, member), 0, words                                                     \
    }

static void apply(Case *c, const Change *change)
{
    char *at = (char *)c + change->offset;
    switch (change->kind) {
    case KEEP:
        break;
    case NUMBER:
        *(double *)at = change->to;
        break;
    case INT:
        *(int *)at = (int)change->to;
        break;
    case INT64:
        *(int64_t *)at = (int64_t)change->to;
        break;
    case FLAG:
        *(bool *)at = change->to > 0;
        break;
    case TEXT:
        *(const char **)at = change->text;
        break;
    }
}

#define IDLE WB_MISSING, WB_MISSING
#define MAX_CHANGES 4

/* Numbers worked by hand from the formulas of the published table. */
static const struct {
    WbRule rule;
    Change change[MAX_CHANGES];
    bool holds;
    WbSeverity severity;
    double value, limit;
    uint32_t assumed;
} sides[] = {
#include "rules_sides.inc"
};

static void same(double got, double expected)
{
    if (isnan(expected))
        g_assert_true(isnan(got));
    else
        g_assert_cmpfloat_with_epsilon(got, expected, 1e-9 * (1 + fabs(expected)));
}

static void test_both_sides(void)
{
    for (size_t i = 0; i < G_N_ELEMENTS(sides); i++) {
        Case c = sound;
        for (int k = 0; k < MAX_CHANGES; k++)
            apply(&c, &sides[i].change[k]);
        WbFinding finding = judge(&c, sides[i].rule);
        const char *code = wb_rule_info(sides[i].rule)->code;
        g_test_message("row %zu, %s: %g against %g", i, code, finding.value, finding.limit);
        g_assert_cmpint(finding.rule, ==, sides[i].rule);
        g_assert_cmpint(finding.holds, ==, sides[i].holds);
        g_assert_cmpint(finding.severity, ==, sides[i].severity);
        same(finding.value, sides[i].value);
        same(finding.limit, sides[i].limit);
        g_assert_cmpuint(finding.assumed, ==, sides[i].assumed);
    }
}

static void test_every_rule_has_both_sides(void)
{
    for (int r = WB_RULE_NO_PRICE + 1; r < WB_N_RULES; r++) {
        bool held = false, broken = false;
        for (size_t i = 0; i < G_N_ELEMENTS(sides); i++) {
            held |= sides[i].rule == (WbRule)r && sides[i].holds;
            broken |= sides[i].rule == (WbRule)r && !sides[i].holds;
        }
        g_test_message("%s", wb_rule_info((WbRule)r)->code);
        g_assert_true(held && broken);
    }
}

/* Margins are shares of the limit, and months are kept. */
static void test_margins(void)
{
    WbFinding most = wb_finding_at_most(WB_RULE_MONEY, 75, 100, WB_STOP);
    same(most.margin, 0.25);
    same(wb_finding_at_most(WB_RULE_MONEY, 120, 100, WB_STOP).margin, -0.2);
    same(wb_finding_at_least(WB_RULE_SUPPLY, 150, 100, WB_STOP).margin, 0.5);
    same(wb_finding_at_least(WB_RULE_SUPPLY, 90, 100, WB_STOP).margin, -0.1);
    same(wb_finding_at_most(WB_RULE_MONEY, 1, 0, WB_STOP).margin, WB_MISSING);
    same(wb_finding_at_least(WB_RULE_AUTONOMY, INFINITY, 2, WB_STOP).margin, WB_MISSING);
    g_assert_true(wb_finding_at_least(WB_RULE_AUTONOMY, INFINITY, 2, WB_STOP).holds);
    g_assert_false(wb_finding_at_most(WB_RULE_MONEY, WB_MISSING, 1, WB_STOP).holds);
    g_assert_false(wb_finding_at_least(WB_RULE_MONEY, WB_MISSING, 1, WB_STOP).holds);
    same(judge(&sound, WB_RULE_BAY_FIT).margin, WB_MISSING);
    same(judge(&sound, WB_RULE_COLD_CHARGE).margin, WB_MISSING);
    same(judge(&sound, WB_RULE_ROOF_FIT).margin, 0.5);
    g_assert_cmpint(most.month, ==, -1);
    g_assert_cmpint(judge(&sound, WB_RULE_SUPPLY).month, ==, 11);
    g_assert_cmpint(judge(&sound, WB_RULE_AUTONOMY).month, ==, 11);
}

/* The amps an array pushes into a bank: by its watts or by the controllers' rating, whichever is
 * less; behind PWM by Imp. Worked by hand. */
static void test_solar_amps(void)
{
    WbController pwm = sound.controller;
    pwm.technology = WB_CONTROLLER_PWM;
    pwm.efficiency = 1;
    const WbBankVolts none = {0, 0, 0};
    const WbPanel *panel = &sound.panel;
    const WbController *mppt = &sound.controller;
    same(wb_solar_charge_a(panel, 1, 2, mppt, 1, &sound.bank), 16); /* 200 x 0.96 / 12 */
    same(wb_solar_charge_a(panel, 2, 2, mppt, 1, &sound.bank), 20); /* 32 A, rated 20 */
    same(wb_solar_charge_a(panel, 2, 2, mppt, 2, &sound.bank), 32);
    same(wb_solar_charge_a(panel, 2, 3, &pwm, 1, &sound.bank), 16.5); /* 3 x 5.5 */
    same(wb_solar_charge_a(panel, 1, 4, &pwm, 1, &sound.bank), 20);
    same(wb_solar_charge_a(panel, 1, 2, mppt, 1, &none), 20);
}

/* A bank that makes no system voltage stops by its own rule; the others stay finite or idle. */
static void test_no_system_voltage(void)
{
    Case c = sound;
    c.bank = (WbBankVolts){0, 0, 0};
    for (int r = 0; r < WB_N_RULES; r++) {
        WbFinding finding = judge(&c, (WbRule)r);
        bool idle = isnan(finding.value) && isnan(finding.limit) && finding.holds;
        g_test_message("%s", wb_rule_info((WbRule)r)->code);
        g_assert_true(idle || (isfinite(finding.value) && isfinite(finding.limit)));
        if (r == WB_RULE_CONTROLLER_BUS || r == WB_RULE_INVERTER_BUS || r == WB_RULE_DCDC_BUS)
            g_assert_true(idle);
    }
    g_assert_false(judge(&c, WB_RULE_BANK_SYSTEM).holds);
}

static void test_table(void)
{
    for (int r = 0; r < WB_N_RULES; r++) {
        const WbRuleInfo *info = wb_rule_info((WbRule)r);
        g_assert_cmpint(info->rule, ==, r);
        g_assert_true(g_regex_match_simple("^[a-z]+(-[a-z]+)*$", info->code, 0, 0));
        g_assert_cmpint(strlen(info->unit), >, 0);
        g_assert_cmpint(strlen(info->formula), >, 10);
        g_assert_true(
            g_regex_match_simple("common practice|NFPA 70|IEC |TM [0-9]", info->source, 0, 0));
        for (int other = 0; other < r; other++)
            g_assert_cmpstr(info->code, !=, wb_rule_info((WbRule)other)->code);
    }
    for (size_t i = 0; i < G_N_ELEMENTS(sides); i++)
        g_assert_cmpint(sides[i].severity, <=, wb_rule_info(sides[i].rule)->severity);
    g_assert_cmpstr(wb_severity_name(WB_NOTE), ==, "note");
    g_assert_cmpstr(wb_severity_name(WB_CAUTION), ==, "caution");
    g_assert_cmpstr(wb_severity_name(WB_STOP), ==, "stop");
}

/* Limits that can be tightened: down (what is allowed grows less) or up (what is asked for grows).
 */
static const struct {
    WbRule rule;
    size_t offset;
    bool up;
} limits[] = {
    {WB_RULE_ROOF_LOAD, offsetof(Case, brief.roof.max_load_kg), false},
    {WB_RULE_SYSTEM_VOLTAGE, offsetof(Case, panel.max_system_v), false},
    {WB_RULE_COLD_VOC, offsetof(Case, controller.max_pv_v), false},
    {WB_RULE_PV_CURRENT, offsetof(Case, controller.max_pv_a), false},
    {WB_RULE_HOT_VMP, offsetof(Case, controller.headroom_v), true},
    {WB_RULE_MPPT_START, offsetof(Case, controller.start_headroom_v), true},
    {WB_RULE_INVERTER_LOWEST, offsetof(Case, inverter.min_v), true},
    {WB_RULE_INVERTER_CUTOUT, offsetof(Case, chemistry.end_v_per_cell), true},
    {WB_RULE_INVERTER_SURGE_DRAW, offsetof(Case, storage.surge_discharge_a), false},
    {WB_RULE_SHORE_CHARGE, offsetof(Case, storage.max_charge_a), false},
    {WB_RULE_ARRAY_WATTS, offsetof(Case, controller.max_pv_w_12v), false},
    {WB_RULE_OUTPUT_CLIPPED, offsetof(Case, controller.rated_output_a), false},
    {WB_RULE_STRING_FUSE, offsetof(Case, panel.series_fuse_a), false},
    {WB_RULE_INVERTER_WINDOW, offsetof(Case, inverter.max_v), false},
    {WB_RULE_INVERTER_CONTINUOUS, offsetof(Case, inverter.continuous_w), false},
    {WB_RULE_INVERTER_SURGE, offsetof(Case, inverter.surge_w), false},
    {WB_RULE_INVERTER_DRAW, offsetof(Case, storage.max_discharge_a), false},
    {WB_RULE_PEAK_DRAW, offsetof(Case, storage.max_discharge_a), false},
    {WB_RULE_PEAK_DRAW, offsetof(Case, storage.surge_discharge_a), false},
    {WB_RULE_COLD_CHARGE, offsetof(Case, chemistry.min_charge_c), true},
    {WB_RULE_AUTONOMY, offsetof(Case, brief.autonomy_target_days), true},
    {WB_RULE_DCDC_ALTERNATOR, offsetof(Case, brief.driving.alternator_a), false},
    {WB_RULE_CHARGE_MAXIMUM, offsetof(Case, storage.max_charge_a), false},
    {WB_RULE_CHARGE_MINIMUM, offsetof(Case, storage.min_charge_a), true},
    {WB_RULE_SUPPLY, offsetof(Case, need_wh), true},
    {WB_RULE_MONEY, offsetof(Case, brief.money_minor.value), false},
    {WB_RULE_WEIGHT, offsetof(Case, brief.weight_kg.value), false},
    {WB_RULE_DARK_HOURS, offsetof(Case, brief.dark_hours.value), false},
};

/* A kit near the sound one: counts and the figures the rules compare, each 0.3 to 3 times. */
static Case random_case(WbRandom *random)
{
    static const size_t figures[] = {
        offsetof(Case, panel.voc_v),
        offsetof(Case, panel.vmp_v),
        offsetof(Case, panel.isc_a),
        offsetof(Case, panel.power_w),
        offsetof(Case, panel.mount_kg),
        offsetof(Case, bank.charge_v),
        offsetof(Case, loads.peak_dc_w),
        offsetof(Case, loads.surge_dc_w),
        offsetof(Case, loads.peak_ac_w),
        offsetof(Case, loads.surge_ac_w),
        offsetof(Case, dcdc.output_a),
        offsetof(Case, autonomy_days),
        offsetof(Case, supply_wh),
        offsetof(Case, solar_a),
        offsetof(Case, dark_h),
        offsetof(Case, cold_c),
        offsetof(Case, inverter.continuous_w),
        offsetof(Case, controller.max_pv_v),
    };
    Case c = sound;
    for (size_t i = 0; i < G_N_ELEMENTS(figures); i++)
        *(double *)((char *)&c + figures[i]) *= 0.3 + 2.7 * wb_random_unit(random);
    c.n_series = 1 + (int)wb_random_below(random, 4);
    c.n_parallel = 1 + (int)wb_random_below(random, 4);
    c.bank_parallel = 1 + (int)wb_random_below(random, 3);
    c.cost_minor = (int64_t)wb_random_below(random, 300000);
    c.weight_g = (int64_t)wb_random_below(random, 150000);
    return c;
}

/* Tightening any limit never turns a broken rule into one that holds. */
static void test_tightening(void)
{
    WbRandom random;
    wb_random_seed(&random, 20261124);
    unsigned broke[G_N_ELEMENTS(limits)] = {0};
    for (int round = 0; round < 4000; round++) {
        Case c = random_case(&random);
        for (size_t i = 0; i < G_N_ELEMENTS(limits); i++) {
            Case tight = c;
            double *limit = (double *)((char *)&tight + limits[i].offset);
            double step = wb_random_unit(&random);
            *limit = limits[i].up ? *limit + 10 * step : *limit * step;
            bool held = judge(&c, limits[i].rule).holds;
            bool holds = judge(&tight, limits[i].rule).holds;
            g_assert_true(held || !holds);
            broke[i] += held && !holds;
        }
    }
    /* Each limit did decide something, or the test would prove nothing. */
    for (size_t i = 0; i < G_N_ELEMENTS(limits); i++)
        g_assert_cmpuint(broke[i], >, 0);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/rules/both-sides", test_both_sides);
    g_test_add_func("/rules/every-rule-has-both-sides", test_every_rule_has_both_sides);
    g_test_add_func("/rules/margins", test_margins);
    g_test_add_func("/rules/solar-amps", test_solar_amps);
    g_test_add_func("/rules/no-system-voltage", test_no_system_voltage);
    g_test_add_func("/rules/table", test_table);
    g_test_add_func("/rules/tightening", test_tightening);
    return g_test_run();
}
