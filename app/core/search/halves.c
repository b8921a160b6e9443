#include "halves.h"
#include "kit_year.h"
#include "loom.h"
#include <stdlib.h>

static bool count_halves(WbHalves *halves, uint64_t broken, uint64_t count)
{
    for (size_t i = 0; i < halves->n_counts; i++)
        if (halves->counts[i].broken == broken) {
            halves->counts[i].count += count;
            return true;
        }
    if (halves->n_counts == halves->counts_room) {
        size_t room = halves->counts_room ? 2 * halves->counts_room : 64;
        WbHalfCount *grown = realloc(halves->counts, room * sizeof *grown);
        if (!grown)
            return false;
        halves->counts = grown;
        halves->counts_room = room;
    }
    halves->counts[halves->n_counts++] = (WbHalfCount){.broken = broken, .count = count};
    return true;
}

static bool count_half(WbHalves *halves, uint64_t broken)
{
    return count_halves(halves, broken, 1);
}

bool wb_may_hold(const WbPartChoice *holding, WbPartKind kind, int index)
{
    return !holding || holding->kind != kind || holding->index == index;
}

static bool more_than_one(uint64_t bits)
{
    return (bits & (bits - 1)) != 0;
}

/* Room for one more half, or NULL: out of memory. */
static WbHalf *new_half(WbHalves *halves)
{
    if (halves->n == halves->room) {
        size_t room = halves->room ? 2 * halves->room : 256;
        WbHalf *grown = realloc(halves->half, room * sizeof *grown);
        if (!grown)
            return NULL;
        halves->half = grown;
        halves->room = room;
    }
    return &halves->half[halves->n++];
}

/* Counts a half. *kept is the half to fill in further, NULL where it breaks two rules or more.
 * False: out of memory. */
static bool add_half(WbHalves *halves, const WbKit *kit, uint64_t broken, const WbSideBill *bill,
                     WbHalf **kept)
{
    *kept = NULL;
    if (!count_half(halves, broken))
        return false;
    if (more_than_one(broken))
        return true;
    *kept = new_half(halves);
    if (!*kept)
        return false;
    (*kept)->kit = *kit;
    (*kept)->broken = broken;
    (*kept)->bill = *bill;
    return true;
}

static WbFinding count_finding(WbRule rule, int n)
{
    return wb_finding_at_most(rule, n, 0, WB_STOP);
}

static uint64_t unpriced_bit(const WbSideBill *bill, WbFinding finding[WB_N_RULES])
{
    finding[WB_RULE_NO_PRICE] = count_finding(WB_RULE_NO_PRICE, bill->unpriced);
    return bill->unpriced ? UINT64_C(1) << WB_RULE_NO_PRICE : 0;
}

/* What the side's circuits cost joins its bill; the rule they break, if any. */
static uint64_t add_loom(const WbProblem *problem, const WbLoom *loom, WbSideBill *bill,
                         WbFinding finding[WB_N_RULES])
{
    wb_bill_join(problem, bill, &loom->bill);
    finding[WB_RULE_SOURCE_CIRCUITS] = count_finding(WB_RULE_SOURCE_CIRCUITS, loom->faults);
    return loom->faults > 0 ? UINT64_C(1) << WB_RULE_SOURCE_CIRCUITS : 0;
}

/* The two numbers of the one rule that is broken. */
static void tell_miss(const WbFinding finding[WB_N_RULES], uint64_t broken, double *value,
                      double *limit)
{
    *value = *limit = WB_MISSING;
    if (!broken || more_than_one(broken))
        return;
    const WbFinding *one = &finding[__builtin_ctzll(broken)];
    *value = one->value;
    *limit = one->limit;
}

static bool list_array(const WbProblem *problem, const WbKit *kit, WbArrays *arrays)
{
    WbFinding finding[WB_N_RULES];
    WbSideBill bill = wb_array_bill(problem, kit);
    wb_array_findings_own(problem, kit, finding);
    uint64_t broken =
        wb_stops(finding, WB_FIRST_OWN_RULE, WB_LAST_OWN_RULE) | unpriced_bit(&bill, finding);
    /* Rules by the kind of bank come later in the published order: they cannot be the first. */
    if (!more_than_one(broken)) {
        WbLoom loom = wb_loom_empty(NULL);
        wb_loom_array(problem, kit, &loom);
        broken |= add_loom(problem, &loom, &bill, finding);
    }
    if (more_than_one(broken))
        return count_half(&arrays->rest, broken);
    if (arrays->n == arrays->room) {
        size_t room = arrays->room ? 2 * arrays->room : 1024;
        WbArray *grown = realloc(arrays->array, room * sizeof *grown);
        if (!grown)
            return false;
        arrays->array = grown;
        arrays->room = room;
    }
    WbArray *array = &arrays->array[arrays->n++];
    *array = (WbArray){.kit = *kit, .broken = broken, .bill = bill};
    tell_miss(finding, broken, &array->value, &array->limit);
    return true;
}

static bool list_arrays_of(const WbProblem *problem, int panel, int controller, WbArrays *arrays)
{
    const WbLargest *largest = &problem->brief->largest;
    WbKit kit = {.panel = panel, .controller = controller};
    for (kit.n_series = 1; kit.n_series <= largest->series; kit.n_series++)
        for (kit.n_parallel = 1; kit.n_parallel <= largest->parallel; kit.n_parallel++)
            for (kit.n_controllers = 1; kit.n_controllers <= largest->controllers;
                 kit.n_controllers++)
                if (!list_array(problem, &kit, arrays))
                    return false;
    return true;
}

static int by_chargers(const void *left, const void *right)
{
    const WbArray *a = left, *b = right;
    int order = a->kit.controller - b->kit.controller;
    if (!order)
        order = a->kit.n_controllers - b->kit.n_controllers;
    if (!order)
        order = (a->bill.parts_minor > b->bill.parts_minor) -
                (a->bill.parts_minor < b->bill.parts_minor);
    return order ? order : wb_kit_compare(NULL, &a->kit, &b->kit);
}

WbStatus wb_arrays_list(const WbProblem *problem, const WbPartChoice *holding, WbControl *control,
                        WbArrays *arrays)
{
    for (size_t p = 0; p < problem->n_panels; p++)
        for (size_t c = 0; c < problem->n_controllers; c++) {
            if (wb_control_stopped(control))
                return WB_STOPPED;
            if (!wb_may_hold(holding, WB_KIND_PANEL, (int)p) ||
                !wb_may_hold(holding, WB_KIND_CONTROLLER, (int)c))
                continue;
            if (!list_arrays_of(problem, (int)p, (int)c, arrays))
                return WB_NO_MEMORY;
        }
    if (arrays->n)
        qsort(arrays->array, arrays->n, sizeof *arrays->array, by_chargers);
    return WB_OK;
}

void wb_arrays_free(WbArrays *arrays)
{
    free(arrays->array);
    wb_halves_free(&arrays->rest);
    *arrays = (WbArrays){0};
}

static bool add_array(const WbProblem *problem, const WbBankKind *bank, const WbArray *array,
                      WbHalves *halves)
{
    WbFinding finding[WB_N_RULES];
    const WbKit *kit = &array->kit;
    wb_array_findings_with(problem, kit, bank, finding);
    uint64_t broken = array->broken | wb_stops(finding, WB_FIRST_ARRAY_RULE, WB_LAST_ARRAY_RULE);
    WbHalf *half;
    if (!add_half(halves, kit, broken, &array->bill, &half))
        return false;
    if (!half)
        return true;
    if (array->broken) {
        half->value = array->value;
        half->limit = array->limit;
    } else {
        tell_miss(finding, broken, &half->value, &half->limit);
    }
    const WbPanelChoice *panel = &problem->panels[kit->panel];
    const WbController *controller = problem->controllers[kit->controller].controller;
    half->solar_a = wb_solar_charge_a(panel->panel, kit->n_series, kit->n_parallel, controller,
                                      kit->n_controllers, &bank->volts);
    half->law = wb_kit_array_law(problem, kit, &bank->volts);
    return true;
}

WbStatus wb_halves_array(const WbProblem *problem, const WbBankKind *bank, const WbArrays *arrays,
                         WbControl *control, WbHalves *halves)
{
    for (size_t i = 0; i < arrays->rest.n_counts; i++)
        if (!count_halves(halves, arrays->rest.counts[i].broken, arrays->rest.counts[i].count))
            return WB_NO_MEMORY;
    for (size_t i = 0; i < arrays->n; i++) {
        if (i % 256 == 0 && wb_control_stopped(control))
            return WB_STOPPED;
        if (!add_array(problem, bank, &arrays->array[i], halves))
            return WB_NO_MEMORY;
    }
    return WB_OK;
}

static bool add_dcdc(const WbProblem *problem, const WbBankKind *bank, int dcdc, WbHalves *halves)
{
    WbKit kit = {.dcdc = dcdc};
    WbFinding finding[WB_N_RULES];
    WbSideBill bill = wb_dcdc_bill(problem, &kit);
    wb_dcdc_findings(problem, &kit, bank, finding);
    uint64_t broken =
        wb_stops(finding, WB_FIRST_DCDC_RULE, WB_LAST_DCDC_RULE) | unpriced_bit(&bill, finding);
    if (!more_than_one(broken)) {
        WbLoom loom = wb_loom_empty(NULL);
        wb_loom_dcdc_in(problem, &kit, &loom);
        broken |= add_loom(problem, &loom, &bill, finding);
    }
    WbHalf *half;
    if (!add_half(halves, &kit, broken, &bill, &half))
        return false;
    if (half) {
        tell_miss(finding, broken, &half->value, &half->limit);
        half->other_wh =
            wb_alternator_wh(problem, dcdc, bank) + wb_shore_wh(problem->brief, &bank->volts);
        half->dcdc_a = dcdc ? problem->dcdc[dcdc].dcdc->output_a : 0.0;
    }
    return true;
}

WbStatus wb_halves_dcdc(const WbProblem *problem, const WbPartChoice *holding,
                        const WbBankKind *bank, WbHalves *halves)
{
    for (size_t d = 0; d < problem->n_dcdc; d++)
        if (wb_may_hold(holding, WB_KIND_DCDC, (int)d) && !add_dcdc(problem, bank, (int)d, halves))
            return WB_NO_MEMORY;
    return WB_OK;
}

static bool add_bank(const WbProblem *problem, const WbBankKind *bank, const WbKit *kit,
                     WbHalves *halves)
{
    WbFinding finding[WB_N_RULES];
    WbSideBill bill = wb_bank_bill(problem, kit);
    WbBankSide side;
    wb_bank_side(problem, kit, bank, &side);
    wb_bank_findings(problem, kit, bank, side.lowest_autonomy_days, side.worst_autonomy_month,
                     finding);
    uint64_t broken =
        wb_stops(finding, WB_FIRST_BANK_RULE, WB_LAST_BANK_RULE) | unpriced_bit(&bill, finding);
    WbHalf *half;
    if (!add_half(halves, kit, broken, &bill, &half))
        return false;
    if (half) {
        tell_miss(finding, broken, &half->value, &half->limit);
        half->bank = side;
        half->drawn_a = wb_drawn_a(problem, kit, bank);
        half->max_charge_a =
            kit->bank_parallel * problem->storage[kit->storage].storage->max_charge_a;
    }
    return true;
}

WbStatus wb_halves_bank(const WbProblem *problem, const WbPartChoice *holding,
                        const WbBankKind *bank, int storage, int bank_series, WbHalves *halves)
{
    WbKit kit = {.storage = storage, .bank_series = bank_series};
    for (kit.bank_parallel = 1; kit.bank_parallel <= problem->brief->largest.bank_parallel;
         kit.bank_parallel++)
        for (kit.inverter = 0; kit.inverter < (int)problem->n_inverters; kit.inverter++)
            if (wb_may_hold(holding, WB_KIND_INVERTER, kit.inverter) &&
                !add_bank(problem, bank, &kit, halves))
                return WB_NO_MEMORY;
    return WB_OK;
}

void wb_halves_clear(WbHalves *halves)
{
    halves->n = 0;
    halves->n_counts = 0;
}

void wb_halves_free(WbHalves *halves)
{
    free(halves->half);
    free(halves->counts);
    *halves = (WbHalves){0};
}

WbKit wb_halves_kit(const WbHalf *array, const WbHalf *bank, const WbHalf *dcdc)
{
    WbKit kit = array->kit;
    kit.storage = bank->kit.storage;
    kit.bank_series = bank->kit.bank_series;
    kit.bank_parallel = bank->kit.bank_parallel;
    kit.inverter = bank->kit.inverter;
    kit.dcdc = dcdc->kit.dcdc;
    return kit;
}
