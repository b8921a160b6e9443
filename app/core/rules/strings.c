/* Panels in series and parallel against the controller's input: voltages and currents of a string
 * at its coldest and hottest, and what flows back into a faulty one. */
#include "compare.h"

#define STC_C 25.0
#define HOT_SHARE_PER_K 0.0045 /* of Vmp or Voc, where a data sheet gives no Voc coefficient */
#define PWM_WASTE_PCT 10.0
#define PWM_CELLS_12V 36.0     /* whose volts suit 12 V of lead-acid: common practice */
#define PWM_CELLS_SPREAD 0.1   /* a tenth more or less */
#define UNLIKE_PCT 5.0         /* of Imp among the panels of a string: common practice */
#define CLASS_C_V 50.0         /* the least that panels are built for: IEC 61730, from memory */
#define TOUCH_LAND_V 60.0      /* NEC 110.27(A), from memory */
#define TOUCH_BOAT_V 50.0      /* 33 CFR 183.401 */
#define SERIES_FUSE_A 15.0     /* where a data sheet gives none */
#define IRRADIANCE_FACTOR 1.25 /* NEC 690.8(A)(1): sun brighter than 1000 W/m2 */

/* NEC table 690.7(A), crystalline silicon, from memory: the factor for temperatures down to the
 * given one. Between two rows (the code lists whole degrees) the colder row counts. */
static const struct {
    double down_to_c, factor;
} cold_factors[] = {
    {25, 1.00},  {20, 1.02},  {15, 1.04},  {10, 1.06},  {5, 1.08},   {0, 1.10},   {-5, 1.12},
    {-10, 1.14}, {-15, 1.16}, {-20, 1.18}, {-25, 1.20}, {-30, 1.21}, {-35, 1.23}, {-40, 1.25},
};

static double cold_factor(double design_cold_c)
{
    const int n = (int)(sizeof cold_factors / sizeof cold_factors[0]);
    for (int i = 0; i < n; i++)
        if (design_cold_c >= cold_factors[i].down_to_c)
            return cold_factors[i].factor;
    return cold_factors[n - 1].factor;
}

double wb_cold_voc_v(const WbPanel *panel, double design_cold_c, uint32_t *assumed)
{
    double factor;
    if (isnan(panel->voc_coeff_pct_k)) {
        *assumed |= WB_ASSUMED_VOC_TABLE;
        factor = cold_factor(design_cold_c);
    } else {
        factor = 1 + panel->voc_coeff_pct_k / 100 * (design_cold_c - STC_C);
    }
    return panel->voc_v * fmax(1, factor);
}

static double hot_v(const WbPanel *panel, double volts, double cell_c, uint32_t *assumed)
{
    if (isnan(panel->voc_coeff_pct_k)) {
        *assumed |= WB_ASSUMED_VMP_COEFF;
        return volts * (1 - HOT_SHARE_PER_K * (cell_c - STC_C));
    }
    return volts + panel->voc_v * panel->voc_coeff_pct_k / 100 * (cell_c - STC_C);
}

double wb_hot_vmp_v(const WbPanel *panel, double cell_c, uint32_t *assumed)
{
    return hot_v(panel, panel->vmp_v, cell_c, assumed);
}

double wb_hot_voc_v(const WbPanel *panel, double cell_c, uint32_t *assumed)
{
    return hot_v(panel, panel->voc_v, cell_c, assumed);
}

/* The hottest cell itself rests on the NOCT, the charging voltage on the battery's data sheet. */
static uint32_t hot_assumed(const WbPanel *panel, const WbBankVolts *bank)
{
    return (isnan(panel->noct_c) ? WB_ASSUMED_NOCT : 0) |
           (bank->charge_v_assumed ? WB_ASSUMED_CHARGE_V : 0);
}

/* A string carries what its weakest panel does: the others lose the difference. */
WbFinding wb_rule_unlike_panels(const WbPanel *a, const WbPanel *b, int n_series)
{
    double most_a = fmax(a->imp_a, b->imp_a);
    if (n_series < 2 || !(most_a > 0))
        return wb_finding_idle(WB_RULE_UNLIKE_PANELS);
    return wb_finding_at_most(WB_RULE_UNLIKE_PANELS, 100 * fabs(a->imp_a - b->imp_a) / most_a,
                              UNLIKE_PCT, WB_CAUTION);
}

WbFinding wb_rule_system_voltage(const WbPanel *panel, int n_series, double design_cold_c)
{
    bool given = !isnan(panel->max_system_v);
    uint32_t assumed = given ? 0 : WB_ASSUMED_MAX_SYSTEM_V;
    double string_v = n_series * wb_cold_voc_v(panel, design_cold_c, &assumed);
    WbFinding finding =
        wb_finding_at_most(WB_RULE_SYSTEM_VOLTAGE, string_v,
                           given ? panel->max_system_v : CLASS_C_V, given ? WB_STOP : WB_CAUTION);
    finding.assumed = assumed;
    return finding;
}

WbFinding wb_rule_cold_voc(const WbPanel *panel, int n_series, const WbController *controller,
                           double design_cold_c)
{
    uint32_t assumed = 0;
    double string_v = n_series * wb_cold_voc_v(panel, design_cold_c, &assumed);
    WbFinding finding =
        wb_finding_at_most(WB_RULE_COLD_VOC, string_v, controller->max_pv_v, WB_STOP);
    finding.assumed = assumed;
    return finding;
}

/* A string that is over it has to be guarded, marked and cut off before anybody touches it. */
WbFinding wb_rule_touch_voltage(const WbPanel *panel, int n_series, double design_cold_c,
                                int rule_set)
{
    uint32_t assumed = 0;
    double string_v = n_series * wb_cold_voc_v(panel, design_cold_c, &assumed);
    WbFinding finding =
        wb_finding_at_most(WB_RULE_TOUCH_VOLTAGE, string_v,
                           rule_set == WB_RULES_BOAT ? TOUCH_BOAT_V : TOUCH_LAND_V, WB_CAUTION);
    finding.assumed = assumed;
    return finding;
}

WbFinding wb_rule_pv_current(const WbPanel *panel, int strings_per_controller,
                             const WbController *controller)
{
    double array_a = IRRADIANCE_FACTOR * panel->isc_a * strings_per_controller;
    return wb_finding_at_most(WB_RULE_PV_CURRENT, array_a, controller->max_pv_a, WB_STOP);
}

WbFinding wb_rule_hot_vmp(const WbPanel *panel, int n_series, const WbController *controller,
                          const WbBankVolts *bank, double hottest_cell_c)
{
    uint32_t assumed = hot_assumed(panel, bank);
    double string_v = n_series * wb_hot_vmp_v(panel, hottest_cell_c, &assumed);
    WbFinding finding = wb_finding_at_least(WB_RULE_HOT_VMP, string_v,
                                            bank->charge_v + controller->headroom_v, WB_STOP);
    finding.assumed = assumed;
    return finding;
}

/* A controller that sleeps sees the open string. Asleep at the charging voltage it wakes when the
 * bank has fallen, which costs charge; asleep at the voltage of a bank at rest it never works. */
WbFinding wb_rule_mppt_start(const WbPanel *panel, int n_series, const WbController *controller,
                             const WbBankVolts *bank, double hottest_cell_c)
{
    if (controller->technology != WB_CONTROLLER_MPPT)
        return wb_finding_idle(WB_RULE_MPPT_START);
    bool given = !isnan(controller->start_headroom_v);
    double over_v = given ? controller->start_headroom_v : controller->headroom_v;
    uint32_t assumed = hot_assumed(panel, bank) | (given ? 0 : WB_ASSUMED_START_V);
    double string_v = n_series * wb_hot_voc_v(panel, hottest_cell_c, &assumed);
    bool never = string_v < bank->nominal_v + over_v;
    WbFinding finding = wb_finding_at_least(WB_RULE_MPPT_START, string_v,
                                            (never ? bank->nominal_v : bank->charge_v) + over_v,
                                            never ? WB_STOP : WB_CAUTION);
    finding.assumed = assumed;
    return finding;
}

/* A PWM controller holds the panel at the bank's voltage: what the string could reach above it is
 * lost. */
WbFinding wb_rule_pwm_match(const WbPanel *panel, int n_series, const WbController *controller,
                            const WbBankVolts *bank, double hottest_cell_c)
{
    uint32_t assumed = hot_assumed(panel, bank);
    double string_v = n_series * wb_hot_vmp_v(panel, hottest_cell_c, &assumed);
    if (controller->technology != WB_CONTROLLER_PWM || !(string_v > 0))
        return wb_finding_idle(WB_RULE_PWM_MATCH);
    double wasted_pct = 100 * fmax(0, 1 - bank->charge_v / string_v);
    WbFinding finding =
        wb_finding_at_most(WB_RULE_PWM_MATCH, wasted_pct, PWM_WASTE_PCT, WB_CAUTION);
    finding.assumed = assumed;
    return finding;
}

/* A 36-cell panel suits a 12 V bank, 72 cells a 24 V one; 60 cells suit neither. */
WbFinding wb_rule_pwm_cells(const WbPanel *panel, int n_series, const WbController *controller,
                            const WbBankVolts *bank)
{
    if (controller->technology != WB_CONTROLLER_PWM || bank->system_v == 0)
        return wb_finding_idle(WB_RULE_PWM_CELLS);
    if (panel->cells == 0)
        return wb_finding_unchecked(WB_RULE_PWM_CELLS, WB_ASSUMED_CELLS);
    double cells = (double)(n_series * panel->cells), fitting = PWM_CELLS_12V * bank->system_v / 12;
    return wb_finding_of(WB_RULE_PWM_CELLS, cells, fitting,
                         fabs(cells - fitting) <= PWM_CELLS_SPREAD * fitting, WB_CAUTION);
}

/* The other strings feed a faulty one; above the panel's series fuse each string needs its own. */
WbFinding wb_rule_string_fuse(const WbPanel *panel, int n_parallel)
{
    bool given = !isnan(panel->series_fuse_a);
    double back_a = (n_parallel - 1) * IRRADIANCE_FACTOR * panel->isc_a;
    WbFinding finding = wb_finding_at_most(
        WB_RULE_STRING_FUSE, back_a, given ? panel->series_fuse_a : SERIES_FUSE_A, WB_CAUTION);
    finding.assumed = given ? 0 : WB_ASSUMED_SERIES_FUSE;
    return finding;
}
