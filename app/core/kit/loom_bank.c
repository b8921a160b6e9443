/* The bank to its bus bars, and what hangs on them: inverter, fuse block with the loads, shore
 * charger. Currents at nominal volts, but the inverter's at the lowest it works at, where it draws
 * most (NEC 690.8(A)(1), stand-alone inverter input). */
#include "load_window.h"
#include "loom.h"

#define MAIN_DROP_PCT 1.0 /* bank to bus bars, and another to the fuse block: common practice */
#define FEED_DROP_PCT 2.0
#define INVERTER_DROP_PCT 3.0
#define LOWEST_V_12V                                                                               \
    10.0           /* of an inverter that tells none, as its rule has it: common practice          \
                    */
#define LONG_H 3.0 /* runs for three hours and more: continuous (NEC article 100) */

typedef struct {
    double run_a, design_a;
} Amps;

/* Of one bank, all that its circuits share. */
typedef struct {
    const WbProblem *problem;
    const WbKit *kit;
    const WbBankKind *kind;
    Amps inverter, feed, total;
    double string_mohm, bank_mohm;
    uint32_t inverter_assumed, bank_assumed;
} Bank;

static Amps continuous(double run_a)
{
    return (Amps){run_a, WB_CONTINUOUS * run_a};
}

static Amps inverter_amps(const WbInverter *inverter, uint32_t *assumed)
{
    if (!inverter)
        return (Amps){0};
    double lowest_v = inverter->min_v;
    if (!(lowest_v > 0)) {
        lowest_v = LOWEST_V_12V * (double)inverter->bus_v / 12;
        *assumed |= WB_ASSUMED_LOWEST_V;
    }
    double in_w = inverter->continuous_w / wb_inverter_efficiency(inverter, inverter->continuous_w);
    return continuous(in_w / lowest_v);
}

static Bank bank_of(const WbProblem *problem, const WbKit *kit, const WbBankKind *kind,
                    double charged_a)
{
    const WbStorage *storage = problem->storage[kit->storage].storage;
    Bank bank = {.problem = problem, .kit = kit, .kind = kind};
    bank.inverter =
        inverter_amps(problem->inverters[kit->inverter].inverter, &bank.inverter_assumed);
    bank.feed = continuous(problem->loads.peak_dc_w / kind->volts.system_v);
    double drawn_a = bank.inverter.design_a + bank.feed.design_a;
    bank.total = (Amps){bank.inverter.run_a + bank.feed.run_a, fmax(drawn_a, charged_a)};
    bank.string_mohm =
        kit->bank_series * wb_battery_mohm(storage, kind->chemistry, &bank.bank_assumed);
    bank.bank_mohm = bank.string_mohm / kit->bank_parallel;
    return bank;
}

static WbCircuitAsk ask_of(const Bank *bank, WbCircuitKind kind, Amps amps)
{
    WbCircuitAsk ask = wb_loom_ask(bank->problem, kind);
    ask.run_a = amps.run_a;
    ask.design_a = amps.design_a;
    ask.volts = bank->kind->volts.system_v;
    ask.most_v = bank->kind->volts.charge_v;
    ask.assumed = bank->bank_assumed;
    ask.lugs = 4;
    return ask;
}

/* Links between the batteries of a string belong to the circuit that takes the string up. */
static void add_links(const Bank *bank, WbCircuitAsk *ask)
{
    int links = bank->kit->bank_series - 1;
    ask->wire_m += links * bank->problem->brief->wiring.length_m[WB_CIRCUIT_BATTERY];
    ask->lugs += 2 * links;
}

static double loop_mohm(const WbCircuit *circuit)
{
    return circuit->conductor ? circuit->ask.wire_m * circuit->conductor->r20_ohm_km : 0;
}

/* Strings side by side: each has its fuse, and the others carry all while one is out (common
 * practice). A short in one is fed by the others, one behind a fuse by its own string. */
static void strings_of_batteries(const Bank *bank, WbLoom *loom, WbCircuit *circuit)
{
    int n = bank->kit->bank_parallel;
    Amps amps = {bank->total.run_a / n, bank->total.design_a / (n - 1)};
    WbCircuitAsk ask = ask_of(bank, WB_CIRCUIT_BATTERY, amps);
    add_links(bank, &ask);
    ask.count = n;
    ask.allowed_pct = MAIN_DROP_PCT / 2;
    ask.fault_a = (n > 2 ? n - 1 : 1) * wb_fault_a(ask.most_v, bank->string_mohm, 0);
    wb_loom_circuit(bank->problem, loom, &ask, circuit);
}

static void tell_bank(const Bank *bank, WbLoom *loom, double fault_a)
{
    WbWiring *wiring = loom->wiring;
    if (!wiring)
        return;
    wiring->string_mohm = bank->string_mohm;
    wiring->bank_fault_a = fault_a;
    wiring->bus_fault_a = loom->bus_fault_a;
}

static void main_circuit(const Bank *bank, WbLoom *loom)
{
    WbCircuit before = {0}, circuit;
    if (bank->kit->bank_parallel > 1)
        strings_of_batteries(bank, loom, &before);
    WbCircuitAsk ask = ask_of(bank, WB_CIRCUIT_MAIN, bank->total);
    if (bank->kit->bank_parallel == 1)
        add_links(bank, &ask);
    ask.allowed_pct = MAIN_DROP_PCT;
    ask.before_pct = before.drop_pct;
    double to_fuse_mohm = bank->bank_mohm + loop_mohm(&before) / bank->kit->bank_parallel;
    ask.fault_a = wb_fault_a(ask.most_v, to_fuse_mohm, 0);
    ask.switched = true;
    wb_loom_circuit(bank->problem, loom, &ask, &circuit);
    loom->main_pct = before.drop_pct + circuit.drop_pct;
    loom->bus_fault_a = wb_fault_a(ask.most_v, to_fuse_mohm, loop_mohm(&circuit));
    tell_bank(bank, loom, ask.fault_a);
    const WbFittingChoice *bus =
        wb_fitting_for(&bank->problem->wires, WB_FITTING_BUS, ask.design_a, 0);
    wb_loom_fitting(loom, bus, 1);
    if (loom->wiring)
        loom->wiring->bus = bus ? bus->fitting : NULL;
}

static void inverter_circuit(const Bank *bank, WbLoom *loom)
{
    WbCircuitAsk ask = ask_of(bank, WB_CIRCUIT_INVERTER, bank->inverter);
    ask.allowed_pct = INVERTER_DROP_PCT;
    ask.before_pct = loom->main_pct;
    ask.fault_a = loom->bus_fault_a;
    ask.assumed |= bank->inverter_assumed;
    WbCircuit circuit;
    wb_loom_circuit(bank->problem, loom, &ask, &circuit);
}

static void shore_circuit(const Bank *bank, WbLoom *loom)
{
    const WbShore *shore = &bank->problem->brief->shore;
    if (!(shore->nights_week > 0 && shore->charger_a > 0))
        return;
    WbCircuitAsk ask = ask_of(bank, WB_CIRCUIT_SHORE, continuous(shore->charger_a));
    ask.fault_a = loom->bus_fault_a;
    ask.lugs = 2;
    WbCircuit circuit;
    wb_loom_circuit(bank->problem, loom, &ask, &circuit);
}

/* ---- loads ---- */

static bool is_wired(const WbBrief *brief, const WbLoad *load)
{
    return !load->ac && wb_load_runs_in(load, brief->site.months);
}

static WbCircuitAsk ask_of_load(const Bank *bank, const WbLoom *loom, size_t i, double fault_a)
{
    const WbLoad *load = &bank->problem->brief->loads[i];
    double run_a = load->power_w * load->count / bank->kind->volts.system_v;
    Amps amps = {run_a, load->hours_day >= LONG_H ? WB_CONTINUOUS * run_a : run_a};
    WbCircuitAsk ask = ask_of(bank, WB_CIRCUIT_LOAD, amps);
    ask.load = (int)i;
    ask.lugs = 0;
    if (!isnan(load->length_m))
        ask.one_way_m = load->length_m;
    ask.wire_m = 2 * ask.one_way_m;
    ask.allowed_pct = load->drop_pct;
    ask.before_pct = loom->feed_pct;
    ask.fault_a = fault_a;
    ask.block_a = bank->feed.design_a;
    return ask;
}

static void load_circuits(const Bank *bank, WbLoom *loom, double fault_a)
{
    const WbBrief *brief = bank->problem->brief;
    int ways[WB_N_FUSE_FORMS] = {0};
    for (size_t i = 0; i < brief->n_loads; i++) {
        if (!is_wired(brief, &brief->loads[i]))
            continue;
        WbCircuitAsk ask = ask_of_load(bank, loom, i, fault_a);
        WbCircuit circuit;
        wb_loom_circuit(bank->problem, loom, &ask, &circuit);
        if (circuit.in_block)
            ways[circuit.fuse->form]++;
    }
    for (int form = 0; form < WB_N_FUSE_FORMS; form++) {
        if (ways[form] == 0)
            continue;
        WbBlocks blocks = wb_blocks_for(&bank->problem->wires, form, ways[form],
                                        bank->feed.design_a, bank->kind->volts.charge_v);
        wb_loom_fitting(loom, blocks.choice, blocks.count);
        if (loom->wiring)
            loom->wiring->blocks[form] = (WbBlock){blocks.choice->fitting, blocks.count};
    }
}

static bool any_wired(const WbBrief *brief)
{
    for (size_t i = 0; i < brief->n_loads; i++)
        if (is_wired(brief, &brief->loads[i]))
            return true;
    return false;
}

static void fed_circuits(const Bank *bank, WbLoom *loom)
{
    if (!any_wired(bank->problem->brief))
        return;
    WbCircuitAsk ask = ask_of(bank, WB_CIRCUIT_FEED, bank->feed);
    ask.allowed_pct = FEED_DROP_PCT;
    ask.before_pct = loom->main_pct;
    ask.fault_a = loom->bus_fault_a;
    WbCircuit feed;
    wb_loom_circuit(bank->problem, loom, &ask, &feed);
    loom->feed_pct = loom->main_pct + feed.drop_pct;
    double bus_mohm = 1000 * ask.most_v / loom->bus_fault_a;
    double fault_a = wb_fault_a(ask.most_v, bus_mohm, loop_mohm(&feed));
    if (loom->wiring)
        loom->wiring->block_fault_a = fault_a;
    load_circuits(bank, loom, fault_a);
}

double wb_drawn_a(const WbProblem *problem, const WbKit *kit, const WbBankKind *kind)
{
    if (!problem->brief->wiring.on || kind->volts.system_v == 0)
        return 0;
    Bank bank = bank_of(problem, kit, kind, 0);
    return bank.total.design_a;
}

void wb_loom_bank(const WbProblem *problem, const WbKit *kit, const WbBankKind *kind,
                  double charged_a, WbLoom *loom)
{
    if (!problem->brief->wiring.on || kind->volts.system_v == 0)
        return;
    Bank bank = bank_of(problem, kit, kind, charged_a);
    main_circuit(&bank, loom);
    if (kit->inverter)
        inverter_circuit(&bank, loom);
    shore_circuit(&bank, loom);
    fed_circuits(&bank, loom);
}
