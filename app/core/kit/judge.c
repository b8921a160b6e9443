#include "kit_year.h"
#include "loom.h"

/* Circuits of panels and starter battery, and of all that hangs on the bus bars. */
typedef struct {
    WbLoom sources, bank;
} Looms;

/* Parts and circuits of all sides. */
static WbSideBill whole_bill(const WbProblem *problem, const WbKit *kit, const Looms *looms)
{
    WbSideBill bill = wb_array_bill(problem, kit);
    const WbSideBill bank = wb_bank_bill(problem, kit), dcdc = wb_dcdc_bill(problem, kit);
    wb_bill_join(problem, &bill, &bank);
    wb_bill_join(problem, &bill, &dcdc);
    wb_bill_join(problem, &bill, &looms->sources.bill);
    wb_bill_join(problem, &bill, &looms->bank.bill);
    return bill;
}

static Looms looms_of(const WbProblem *problem, const WbKit *kit, const WbBankKind *kind)
{
    Looms looms = {wb_loom_empty(NULL), wb_loom_empty(NULL)};
    wb_loom_array(problem, kit, &looms.sources);
    wb_loom_dcdc_in(problem, kit, &looms.sources);
    wb_loom_bank(problem, kit, kind, wb_charged_a(problem, kit), &looms.bank);
    double bus_fault_a = looms.bank.bus_fault_a;
    wb_loom_charge(problem, kit, kind, bus_fault_a, &looms.bank);
    wb_loom_dcdc_out(problem, kit, kind, bus_fault_a, &looms.bank);
    return looms;
}

static void circuit_findings(const WbBrief *brief, const Looms *looms, WbFinding *f)
{
    const WbLoom *sources = &looms->sources, *bank = &looms->bank;
    f[WB_RULE_SOURCE_CIRCUITS] =
        wb_rule_circuits(brief, WB_RULE_SOURCE_CIRCUITS, sources->faults, sources->assumed);
    f[WB_RULE_BANK_CIRCUITS] =
        wb_rule_circuits(brief, WB_RULE_BANK_CIRCUITS, bank->faults, bank->assumed);
    f[WB_RULE_FITTINGS] =
        wb_rule_fittings(brief, sources->missing_fittings + bank->missing_fittings);
}

static void fill_figures(const WbProblem *problem, const WbKit *kit, const WbBankSide *bank,
                         WbSideBill *bill, WbFigures *figures)
{
    const WbPanel *panel = problem->panels[kit->panel].panel;
    int64_t n = (int64_t)kit->n_series * kit->n_parallel;

    figures->priced = bill->unpriced == 0;
    wb_figures_money(problem, bill, figures);
    figures->weight_g = bill->weight_g;
    figures->roof_area_mm2 = n * panel->length_mm * panel->width_mm;
    figures->usable_wh = bank->lowest_usable_wh;
    figures->autonomy_days = bank->lowest_autonomy_days;
    figures->spare_w = bank->spare_w;
    figures->worst_usable_month = bank->worst_usable_month;
    figures->worst_autonomy_month = bank->worst_autonomy_month;
}

static void fill_month(const WbProblem *problem, const WbKit *kit, const WbBankSide *bank,
                       const WbBankKind *kind, const WbSupply *supply, int m, WbMonth *month)
{
    const WbStorage *storage = problem->storage[kit->storage].storage;
    const WbNeed *need = &problem->inverters[kit->inverter].need;
    double dark_h = need->dark_h[m] > 0.0 ? need->dark_h[m] : WB_HOURS;
    double dark_wh = need->dark_h[m] > 0.0 ? need->dark_wh[m] : need->day_wh[m];
    month->array_wh = supply->day_wh[m];
    month->clipped_wh = supply->clipped_wh[m];
    if (problem->brief->site.months >> m & 1) {
        month->alternator_wh = wb_alternator_wh(problem, kit->dcdc, kind);
        month->shore_wh = wb_shore_wh(problem->brief, &kind->volts);
    }
    month->storing_loss_wh = bank->storing_loss_wh[m];
    month->supply_wh =
        (month->array_wh + (month->alternator_wh + month->shore_wh)) - month->storing_loss_wh;
    month->need_wh = bank->need_wh[m];
    month->usable_wh = bank->usable_wh[m];
    month->autonomy_days = bank->autonomy_days[m];
    month->bank_c = wb_bank_temperature_c(&problem->brief->site, m);
    month->dark_current_a = dark_wh / dark_h / kind->volts.nominal_v / kit->bank_parallel;
    month->temperature_factor = wb_temperature_factor(kind->chemistry, month->bank_c);
    month->rate_factor =
        wb_rate_factor(storage->capacity_ah, storage->rated_hours,
                       wb_peukert_exponent(storage, kind->chemistry), month->dark_current_a);
}

static void joint_findings(const WbProblem *problem, const WbKit *kit, const WbBankKind *kind,
                           const WbBankSide *bank, WbVerdict *verdict)
{
    const WbPanel *panel = problem->panels[kit->panel].panel;
    const WbController *controller = problem->controllers[kit->controller].controller;
    const WbStorage *storage = problem->storage[kit->storage].storage;
    const WbDcdc *dcdc = problem->dcdc[kit->dcdc].dcdc;
    WbFigures *figures = &verdict->figures;
    WbFinding *f = verdict->finding;
    double solar_a = wb_solar_charge_a(panel, kit->n_series, kit->n_parallel, controller,
                                       kit->n_controllers, &kind->volts);
    f[WB_RULE_CHARGE_MAXIMUM] = wb_rule_charge_maximum(solar_a, dcdc, storage, kit->bank_parallel);
    f[WB_RULE_CHARGE_MINIMUM] =
        wb_rule_charge_minimum(solar_a, dcdc, storage, kind->chemistry, kit->bank_parallel);

    double array_wh[WB_MONTHS], supply_wh = 0.0;
    for (int m = 0; m < WB_MONTHS; m++)
        array_wh[m] = verdict->month[m].array_wh;
    double other_wh =
        wb_alternator_wh(problem, kit->dcdc, kind) + wb_shore_wh(problem->brief, &kind->volts);
    int worst = wb_worst_supply_month(problem, array_wh, other_wh, bank, &supply_wh);
    figures->worst_supply_month = worst;
    figures->supply_margin_wh = worst < 0 ? 0.0 : supply_wh - bank->need_wh[worst];
    f[WB_RULE_SUPPLY] = worst < 0 ? wb_finding_idle(WB_RULE_SUPPLY)
                                  : wb_rule_supply(supply_wh, bank->need_wh[worst], worst);
    f[WB_RULE_SUPPLY].assumed = worst < 0 ? 0 : wb_array_assumed(panel, controller);
    f[WB_RULE_MONEY] = figures->priced ? wb_rule_money(problem->brief, figures->cost_minor)
                                       : wb_finding_idle(WB_RULE_MONEY);
    f[WB_RULE_WEIGHT] = wb_rule_weight(problem->brief, figures->weight_g);
}

void wb_judge_without_year(const WbProblem *problem, const WbKit *kit, WbVerdict *verdict)
{
    *verdict = (WbVerdict){.kit = *kit};
    WbBankKind kind = wb_bank_kind(problem, kit->storage, kit->bank_series);
    verdict->bank = kind.volts;
    WbBankSide bank;
    wb_bank_side(problem, kit, &kind, &bank);
    Looms looms = looms_of(problem, kit, &kind);
    WbSideBill bill = whole_bill(problem, kit, &looms);
    fill_figures(problem, kit, &bank, &bill, &verdict->figures);

    WbSupply supply;
    wb_kit_array_months(problem, kit, &kind.volts, &supply);
    for (int m = 0; m < WB_MONTHS; m++)
        fill_month(problem, kit, &bank, &kind, &supply, m, &verdict->month[m]);

    WbFinding *f = verdict->finding;
    f[WB_RULE_NO_PRICE] = wb_finding_at_most(WB_RULE_NO_PRICE, bill.unpriced, 0.0, WB_STOP);
    wb_array_findings_own(problem, kit, f);
    wb_array_findings_with(problem, kit, &kind, f);
    wb_bank_findings(problem, kit, &kind, bank.lowest_autonomy_days, bank.worst_autonomy_month, f);
    wb_dcdc_findings(problem, kit, &kind, f);
    circuit_findings(problem->brief, &looms, f);
    joint_findings(problem, kit, &kind, &bank, verdict);
    wb_judge_dark_hours(problem, WB_MISSING, verdict);
}

void wb_judge_dark_hours(const WbProblem *problem, double dark_h, WbVerdict *verdict)
{
    WbFinding *f = verdict->finding;
    verdict->figures.dark_h = dark_h;
    f[WB_RULE_DARK_HOURS] = wb_rule_dark_hours(problem->brief, dark_h);
    verdict->broken = wb_stops(f, (WbRule)0, (WbRule)(WB_RULE_DARK_HOURS - 1));
    if (!verdict->broken)
        verdict->broken = wb_stops(f, WB_RULE_DARK_HOURS, WB_RULE_DARK_HOURS);
    verdict->feasible = verdict->broken == 0;
    verdict->undecided = verdict->broken == UINT64_C(1) << WB_RULE_ROOF_UNDECIDED;
    verdict->score = wb_score(problem, &verdict->figures, verdict->u);
}

WbStatus wb_judge(const WbProblem *problem, const WbKit *kit, WbVerdict *verdict)
{
    WbYearKit year_kit;
    wb_judge_without_year(problem, kit, verdict);
    wb_kit_year_fill(problem, kit, &year_kit);
    WbStatus status = wb_year_run(&year_kit, &problem->plane, &verdict->year, NULL);
    if (status == WB_OK)
        wb_judge_dark_hours(problem, verdict->year.dark_h, verdict);
    return status;
}
