/* All circuits of a kit: what is asked of each, that the answer holds and is the cheapest, and that
 * the kit's figures are the circuits' sums. */
#include "wiring.h"
#include "bill.h"
#include "gen.h"
#include "load_window.h"
#include "published.h"
#include "rules.h"
#include <string.h>

static WbKit random_kit(const WbProblem *problem, WbRandom *random)
{
    const WbLargest *most = &problem->brief->largest;
    WbKit kit = {0};
#define DRAW(member, n) kit.member = (int)wb_random_below(random, (uint64_t)(n))
    DRAW(panel, problem->n_panels);
    DRAW(n_series, most->series);
    DRAW(n_parallel, most->parallel);
    DRAW(controller, problem->n_controllers);
    DRAW(n_controllers, most->controllers);
    DRAW(storage, problem->n_storage);
    DRAW(bank_series, most->bank_series);
    DRAW(bank_parallel, most->bank_parallel);
    DRAW(inverter, problem->n_inverters);
    DRAW(dcdc, problem->n_dcdc);
#undef DRAW
    kit.n_series++, kit.n_parallel++, kit.n_controllers++, kit.bank_series++, kit.bank_parallel++;
    return kit;
}

/* ---- the answer holds ---- */

static gboolean on_roof(const WbCircuit *circuit)
{
    return circuit->ask.kind == WB_CIRCUIT_STRING || circuit->ask.kind == WB_CIRCUIT_ARRAY;
}

static const WbAmpacity *amps_of(const WbConductorChoice *choice, const WbCircuit *circuit)
{
    return on_roof(circuit) ? &choice->on_roof : &choice->inside;
}

static double drop_pct(const WbProblem *problem, const WbConductor *conductor,
                       const WbAmpacity *ampacity, const WbCircuit *circuit)
{
    const WbCircuitAsk *ask = &circuit->ask;
    double air_c = wb_wiring_air_c(problem->brief, on_roof(circuit));
    double most_a = ampacity->table_a * ampacity->ambient * ampacity->bundle;
    double conductor_c = air_c + (ampacity->column_c - air_c) * pow(ask->run_a / most_a, 2);
    double ohm = ask->wire_m / 1000 * conductor->r20_ohm_km * (230 + conductor_c) / 250;
    return 100 * ohm * ask->run_a / ask->volts;
}

static void check_sound(const WbProblem *problem, const WbCircuit *circuit)
{
    const WbCircuitAsk *ask = &circuit->ask;
    g_assert_nonnull(circuit->conductor);
    /* 14 AWG on a roof and in buildings, 16 on boats, 1 mm2 in vehicles. */
    static const double least_mm2[] = {1, 1.309, 2.081};
    double least = on_roof(circuit) ? 2.081 : least_mm2[problem->brief->rule_set];
    g_assert_cmpfloat(circuit->conductor->area_mm2, >=, least * 0.999);
    g_assert_cmpfloat(ask->design_a, >=, ask->run_a * (1 - 1e-12));
    g_assert_cmpfloat(circuit->ampacity.amps, >=, ask->design_a);
    g_assert_cmpfloat(ask->before_pct + circuit->drop_pct, <=, ask->allowed_pct + 1e-9);
    g_assert_cmpfloat_with_epsilon(
        circuit->drop_pct, drop_pct(problem, circuit->conductor, &circuit->ampacity, circuit),
        1e-9);
    g_assert_cmpint(circuit->fuse != NULL, ==, ask->fused);
    if (!circuit->fuse)
        return;
    g_assert_cmpfloat(circuit->fuse->rating_a, >=, ask->design_a);
    g_assert_cmpfloat(circuit->fuse->rating_a, <=, circuit->ampacity.fuse_a);
    g_assert_cmpfloat(circuit->fuse->rating_a, <=, ask->most_fuse_a);
    g_assert_cmpfloat(circuit->fuse->max_v, >=, ask->most_v);
    g_assert_cmpfloat(circuit->fuse->interrupt_a, >=, ask->fault_a);
}

/* Every conductor of the stock tried: none that does is cheaper with its lugs, and a circuit is
 * called impossible only if none does. */
static void check_cheapest(const WbProblem *problem, const WbCircuit *circuit)
{
    const WbWireStock *stock = &problem->wires;
    const WbCircuitAsk *ask = &circuit->ask;
    const WbConductorChoice *chosen = NULL;
    gint64 least = G_MAXINT64;
    for (size_t i = 0; i < stock->n_conductors; i++) {
        const WbConductorChoice *choice = &stock->conductors[i];
        const WbAmpacity *ampacity = amps_of(choice, circuit);
        if (!(ampacity->amps > 0) || ampacity->amps < ask->design_a ||
            (circuit->fuse && ampacity->fuse_a < circuit->fuse->rating_a) ||
            ask->before_pct + drop_pct(problem, choice->conductor, ampacity, circuit) >
                ask->allowed_pct + 1e-9)
            continue;
        gint64 minor = llround(ask->wire_m * (double)choice->sourced.price_minor) +
                       (choice->lug ? ask->lugs * choice->lug_sourced.price_minor : 0);
        if (minor < least) {
            least = minor;
            chosen = choice;
        }
    }
    if (circuit->fault == WB_CIRCUIT_SOUND)
        g_assert_true(chosen->conductor == circuit->conductor);
    else if (circuit->fault == WB_CIRCUIT_OVER_AMPS || circuit->fault == WB_CIRCUIT_OVER_DROP ||
             circuit->fault == WB_CIRCUIT_UNPROTECTED)
        g_assert_null(chosen);
}

/* No smaller fuse would do either. */
static void check_next_size(const WbProblem *problem, const WbCircuit *circuit)
{
    const WbCircuitAsk *ask = &circuit->ask;
    for (size_t i = 0; i < problem->wires.n_fuses; i++) {
        const WbFuse *fuse = problem->wires.fuses[i].fuse;
        gboolean does = fuse->rating_a >= ask->design_a && fuse->max_v >= ask->most_v &&
                        fuse->interrupt_a >= ask->fault_a;
        if (circuit->fuse)
            g_assert_true(!does || fuse->rating_a >= circuit->fuse->rating_a);
        else if (circuit->fault == WB_CIRCUIT_OVER_FUSE_A ||
                 circuit->fault == WB_CIRCUIT_OVER_FUSE_V ||
                 circuit->fault == WB_CIRCUIT_OVER_INTERRUPT)
            g_assert_false(does);
    }
}

static void check_circuit(const WbProblem *problem, const WbCircuit *circuit)
{
    if (circuit->fault == WB_CIRCUIT_SOUND) {
        check_sound(problem, circuit);
        g_assert_true(isnan(circuit->value));
    } else {
        g_assert_null(circuit->conductor);
        g_assert_cmpfloat(circuit->value, >, circuit->limit);
    }
    check_cheapest(problem, circuit);
    if (circuit->ask.fused)
        check_next_size(problem, circuit);
}

/* ---- what is asked ---- */

static const WbCircuit *find(const WbWiring *wiring, WbCircuitKind kind)
{
    for (size_t i = 0; i < wiring->n; i++)
        if (wiring->circuit[i].ask.kind == kind)
            return &wiring->circuit[i];
    return NULL;
}

static int wired_loads(const WbBrief *brief)
{
    int n = 0;
    for (size_t i = 0; i < brief->n_loads; i++) {
        gboolean runs = FALSE;
        for (int m = 0; m < WB_MONTHS; m++)
            runs |= (brief->site.months >> m & 1) && wb_load_runs(&brief->loads[i], m);
        n += runs && !brief->loads[i].ac;
    }
    return n;
}

static void check_list(const WbProblem *problem, const WbKit *kit, const WbWiring *wiring)
{
    int loads = 0;
    for (size_t i = 0; i < wiring->n; i++) {
        const WbCircuitAsk *ask = &wiring->circuit[i].ask;
        loads += ask->kind == WB_CIRCUIT_LOAD;
        g_assert_true(i == 0 || wiring->circuit[i - 1].ask.kind <= ask->kind);
        if (ask->kind == WB_CIRCUIT_LOAD)
            g_assert_cmpfloat(ask->fault_a, ==, wiring->block_fault_a);
    }
    g_assert_cmpint(loads, ==, wired_loads(problem->brief));
    g_assert_cmpint(find(wiring, WB_CIRCUIT_FEED) != NULL, ==, loads > 0);
    g_assert_cmpint(find(wiring, WB_CIRCUIT_INVERTER) != NULL, ==, kit->inverter > 0);
    g_assert_cmpint(find(wiring, WB_CIRCUIT_DCDC_IN) != NULL, ==, kit->dcdc > 0);
    g_assert_cmpint(find(wiring, WB_CIRCUIT_DCDC_OUT) != NULL, ==, kit->dcdc > 0);
    g_assert_cmpint(find(wiring, WB_CIRCUIT_BATTERY) != NULL, ==, kit->bank_parallel > 1);
    g_assert_nonnull(find(wiring, WB_CIRCUIT_MAIN));
    g_assert_cmpint(find(wiring, WB_CIRCUIT_CHARGE)->ask.count, ==, kit->n_controllers);
    g_assert_cmpfloat(wiring->block_fault_a, <=, wiring->bus_fault_a);
    g_assert_cmpfloat(wiring->bus_fault_a, <=, wiring->bank_fault_a);
}

static void check_sums(const WbProblem *problem, const WbKit *kit, const WbWiring *wiring)
{
    WbVerdict *verdict = g_new(WbVerdict, 1);
    wb_judge_without_year(problem, kit, verdict);
    gint64 circuits_minor = 0;
    int faults = 0;
    for (size_t i = 0; i < wiring->n; i++) {
        circuits_minor += wiring->circuit[i].cost_minor;
        faults += wiring->circuit[i].fault != WB_CIRCUIT_SOUND;
    }
    g_assert_cmpint(wiring->cost_minor, ==, verdict->figures.wiring_minor);
    if (problem->n_owned_wires == 0) /* bus bars and blocks join */
        g_assert_cmpint(circuits_minor, <=, wiring->cost_minor);
    g_assert_cmpint(faults, ==, wiring->faults);
    WbBill bill;
    g_assert_cmpint(wb_bill(problem, kit, wiring, &bill), ==, WB_OK);
    gint64 parts_minor = 0, wires_minor = 0;
    for (size_t i = 0; i < bill.n; i++)
        *(bill.line[i].kind < WB_KIND_CONDUCTOR ? &parts_minor : &wires_minor) +=
            bill.line[i].minor;
    g_assert_cmpint(parts_minor, ==, verdict->figures.parts_minor);
    g_assert_cmpint(wires_minor, ==, verdict->figures.wiring_minor);
    wb_bill_free(&bill);
    const WbFinding *f = verdict->finding;
    g_assert_cmpfloat(f[WB_RULE_SOURCE_CIRCUITS].value + f[WB_RULE_BANK_CIRCUITS].value, ==,
                      faults);
    g_assert_cmpfloat(f[WB_RULE_FITTINGS].value, ==, wiring->missing_fittings);
    if (faults > 0)
        g_assert_false(verdict->feasible);
    g_free(verdict);
}

/* ---- tighter ---- */

/* A tighter drop of every load never lets a circuit be built that could not be, nor makes the kit
 * cheaper. */
static void check_tighter(WbProblem *problem, WbLoad *loads, const WbKit *kit,
                          const WbWiring *wiring)
{
    WbWiring tighter;
    int drop_pct[6];
    for (size_t i = 0; i < problem->brief->n_loads; i++) {
        drop_pct[i] = loads[i].drop_pct;
        loads[i].drop_pct = 3;
    }
    g_assert_cmpint(wb_wiring(problem, kit, &tighter), ==, WB_OK);
    g_assert_cmpint(tighter.n, ==, wiring->n);
    g_assert_cmpint(tighter.faults, >=, wiring->faults);
    for (size_t c = 0; c < wiring->n; c++)
        if (wiring->circuit[c].ask.kind == WB_CIRCUIT_LOAD) {
            const WbCircuit *is = &tighter.circuit[c], *was = &wiring->circuit[c];
            g_assert_true(was->fault == WB_CIRCUIT_SOUND || is->fault != WB_CIRCUIT_SOUND);
            if (is->fault == WB_CIRCUIT_SOUND)
                g_assert_cmpint(is->cost_minor, >=, was->cost_minor);
        }
    wb_wiring_free(&tighter);
    for (size_t i = 0; i < problem->brief->n_loads; i++)
        loads[i].drop_pct = drop_pct[i];
}

static void test_random_kits(void)
{
    WbRandom random;
    wb_random_seed(&random, 1128);
    Gen *gen = g_new(Gen, 1);
    guint64 seen[WB_N_CIRCUIT_FAULTS] = {0}, drops = 0;
    for (int i = 0; i < 400; i++) {
        GenSize size = gen_small(&random);
        gen_fill(gen, &random, &size);
        gen->brief.wiring.on = true;
        if (i % 4 == 0)
            gen->panel[0].series_fuse_a = 8;
        gen->brief.site.weather_years = 1;
        WbProblem *problem;
        g_assert_cmpint(wb_problem_new(&gen->brief, &gen->catalogue, NULL, &problem), ==, WB_OK);
        for (int k = 0; k < 40; k++) {
            WbKit kit = random_kit(problem, &random);
            WbWiring wiring;
            g_assert_cmpint(wb_wiring(problem, &kit, &wiring), ==, WB_OK);
            for (size_t c = 0; c < wiring.n; c++) {
                check_circuit(problem, &wiring.circuit[c]);
                seen[wiring.circuit[c].fault]++;
                drops += wiring.circuit[c].by_drop;
            }
            if (wiring.n > 0) {
                check_list(problem, &kit, &wiring);
                check_sums(problem, &kit, &wiring);
                check_tighter(problem, gen->load, &kit, &wiring);
            }
            wb_wiring_free(&wiring);
        }
        wb_problem_free(problem);
    }
    for (int f = 0; f < WB_N_CIRCUIT_FAULTS; f++) {
        g_test_message("fault %d: %" G_GUINT64_FORMAT, f, seen[f]);
        g_assert_cmpuint(seen[f], >, 0);
    }
    g_assert_cmpuint(drops, >, 100);
    g_free(gen);
}

/* ---- a kit by hand ---- */

typedef struct {
    WbPanel panel;
    WbController controller;
    WbStorage storage;
    WbInverter inverter;
    WbChemistry chemistry;
    WbConductor conductor[4];
    WbFuse fuse[8];
    WbOffer offer[20];
    WbShop shop;
    WbLoad load;
    WbBrief brief;
    WbCatalogue catalogue;
} Small;

static void sell(Small *small, const char *id, int64_t minor)
{
    small->offer[small->catalogue.n_offers++] = (WbOffer){id, "shop", minor, "EUR", "2026-01-01"};
}

static void stock(Small *small)
{
    static const struct {
        const char *id;
        double mm2, r20;
    } wires[] = {{"w-6", 6, 3.30}, {"w-16", 16, 1.21}, {"w-35", 35, 0.554}, {"w-70", 70, 0.272}};
    static const struct {
        const char *id;
        double amps, volts, interrupt;
    } rows[] = {{"f-010", 10, 32, 1000},    {"f-015", 15, 32, 1000},   {"f-020", 20, 32, 1000},
                {"f-030", 30, 32, 5000},    {"f-040", 40, 32, 5000},   {"f-150", 150, 125, 20000},
                {"f-200", 200, 125, 20000}, {"f-v20", 20, 1000, 20000}};
    for (int i = 0; i < 4; i++) {
        small->conductor[i] =
            (WbConductor){{wires[i].id}, WB_SIZE_METRIC, "", wires[i].mm2, wires[i].r20, 90};
        sell(small, wires[i].id, (int64_t)(30 * wires[i].mm2));
    }
    for (int i = 0; i < 8; i++) {
        small->fuse[i] =
            (WbFuse){{rows[i].id}, WB_FUSE_BLADE, rows[i].amps, rows[i].volts, rows[i].interrupt};
        sell(small, rows[i].id, 200);
    }
    small->catalogue.conductors = small->conductor;
    small->catalogue.n_conductors = 4;
    small->catalogue.fuses = small->fuse;
    small->catalogue.n_fuses = 8;
}

static void fill_small(Small *small)
{
    *small = (Small){
        /* A 100 W-class panel of common practice: Isc up to 6.4 A. */
        .panel = {.part = {"panel"},
                  .power_w = 100,
                  .voc_v = 22.5,
                  .vmp_v = 18.2,
                  .isc_a = 6.4,
                  .imp_a = 5.5,
                  .voc_coeff_pct_k = -0.3,
                  .series_fuse_a = 15,
                  .cells = 36,
                  .length_mm = 1000,
                  .width_mm = 500,
                  .power_coeff_pct_k = -0.4,
                  .noct_c = 45,
                  .low_light_pct = 95,
                  .max_system_v = 600},
        .controller = {.part = {"controller"},
                       .technology = WB_CONTROLLER_MPPT,
                       .max_pv_v = 75,
                       .max_pv_a = 20,
                       .max_pv_w_12v = 290,
                       .rated_output_a = 20,
                       .bus_12v = true,
                       .efficiency = 0.97,
                       .profile_adjustable = true,
                       .profiles = "",
                       .start_headroom_v = WB_MISSING},
        .storage = {.part = {"storage"},
                    .chemistry = "agm",
                    .nominal_v = 12,
                    .capacity_ah = 100,
                    .rated_hours = 20,
                    .depth_limit = 0.5,
                    .peukert = 1,
                    .charge_v = 14.4,
                    .max_charge_a = 30,
                    .min_charge_a = WB_MISSING,
                    .max_discharge_a = 100,
                    .surge_discharge_a = 500,
                    .max_series = 2,
                    .max_parallel = 4,
                    .internal_mohm = 4},
        .inverter = {.part = {"inverter"},
                     .bus_v = 12,
                     .continuous_w = 600,
                     .surge_w = 1200,
                     .min_v = 10.5,
                     .max_v = 15.5,
                     .efficiency = {1, {{1, 0.9}}}},
        .chemistry = {.id = "agm",
                      .cell_v = 2,
                      .charge_v_per_cell = 2.4,
                      .depth_limit = 0.5,
                      .charge_efficiency = 0.9,
                      .discharge_efficiency = 0.95,
                      .peukert = 1,
                      .min_charge_c = WB_MISSING,
                      .charge_efficiency_full = WB_MISSING,
                      .accept_c = WB_MISSING,
                      .accept_from = WB_MISSING,
                      .accept_full_c = WB_MISSING},
        .shop = {"shop", "Shop", 0, "EUR"},
        .load = {.name = "fridge",
                 .power_w = 60,
                 .volts = WB_MISSING,
                 .count = 1,
                 .hours_day = 24,
                 .duty = 0.4,
                 .months = 4095,
                 .days_week = 7,
                 .surge_factor = 1,
                 .together = true,
                 .drop_pct = 3,
                 .length_m = WB_MISSING},
    };
    sell(small, "panel", 9000);
    sell(small, "controller", 9000);
    sell(small, "storage", 15000);
    sell(small, "inverter", 20000);
    stock(small);
    WbCatalogue *c = &small->catalogue;
    c->panels = &small->panel, c->controllers = &small->controller, c->storage = &small->storage;
    c->inverters = &small->inverter, c->chemistries = &small->chemistry, c->shops = &small->shop;
    c->n_panels = c->n_controllers = c->n_storage = c->n_inverters = c->n_chemistries = 1;
    c->n_shops = 1, c->offers = small->offer;
    WbBrief *brief = &small->brief;
    *brief = (WbBrief){.name = "",
                       .currency = "EUR",
                       .loads = &small->load,
                       .n_loads = 1,
                       .inverter_hours_day = WB_MISSING,
                       .autonomy_target_days = 0.1,
                       .rule_set = WB_RULES_ROAD_VEHICLE,
                       .system_v = 7,
                       .largest = {2, 4, 1, 1, 2},
                       .picked_kit = "",
                       .front = 15,
                       .roof = {.length_mm = 5000, .width_mm = 5000, .max_load_kg = WB_MISSING}};
    brief->wiring = (WbWiringWishes){true, WB_SIZES_ANY, 90, 30, 30, 1, {0}};
    for (int k = 0; k < WB_N_CIRCUITS; k++)
        brief->wiring.length_m[k] = 1;
    for (int c2 = 0; c2 < WB_N_CRITERIA; c2++)
        brief->anchor[c2] = (WbAnchor){WB_MISSING, WB_MISSING};
    brief->site.months = 4095;
    brief->site.weather_years = 1;
    brief->site.ground_albedo = 0.2;
    brief->site.azimuth_deg = WB_MISSING;
    brief->site.design_cold_c = -10;
    brief->site.place.latitude_deg = 45;
    for (int m = 0; m < WB_MONTHS; m++)
        brief->site.place.ghi_kwh_m2_day[m] = 4;
}

static WbWiring wire(Small *small, const WbKit *kit, WbProblem **problem)
{
    WbWiring wiring;
    g_assert_cmpint(wb_problem_new(&small->brief, &small->catalogue, NULL, problem), ==, WB_OK);
    g_assert_cmpint(wb_wiring(*problem, kit, &wiring), ==, WB_OK);
    return wiring;
}

/* Common practice: two 100 W-class panels in parallel (Isc up to 6.4 A) sit behind a 20 A fuse and
 * a 20 A controller, and nothing stops them. 2 x 6.4 x 1.5625 = 20.0 A. */
static void test_two_panels_behind_20_a(void)
{
    Small *small = g_new(Small, 1);
    fill_small(small);
    WbKit kit = {
        .n_series = 1, .n_parallel = 2, .n_controllers = 1, .bank_series = 1, .bank_parallel = 1};
    WbProblem *problem;
    WbWiring wiring = wire(small, &kit, &problem);
    const WbCircuit *string = find(&wiring, WB_CIRCUIT_STRING);
    const WbCircuit *array = find(&wiring, WB_CIRCUIT_ARRAY);
    published("NEC 690.8, two strings of 6.4 A", array->ask.design_a, 20, 1e-9);
    published("common practice, 20 A fuse", array->fuse->rating_a, 20, 0);
    g_assert_false(string->ask.fused); /* (2 - 1) x 1.25 x 6.4 = 8 A, the panel takes 15 */
    g_assert_cmpint(string->ask.count, ==, 2);
    WbVerdict *verdict = g_new(WbVerdict, 1);
    wb_judge_without_year(problem, &kit, verdict);
    for (int r = WB_RULE_ROOF_FIT; r <= WB_RULE_CHARGE_PROFILE; r++)
        g_assert_true(verdict->finding[r].holds || verdict->finding[r].severity != WB_STOP);
    g_assert_true(verdict->finding[WB_RULE_SOURCE_CIRCUITS].holds);
    g_assert_true(verdict->finding[WB_RULE_BANK_CIRCUITS].holds);
    g_free(verdict);
    wb_wiring_free(&wiring);
    wb_problem_free(problem);
    g_free(small);
}

/* NEC 690.9(A), from memory: three strings of 6.4 A at a 15 A panel need a fuse each (16 A come
 * back), and 6.4 x 1.5625 = 10 A is the next standard size. */
static void test_three_strings_are_fused(void)
{
    Small *small = g_new(Small, 1);
    fill_small(small);
    WbKit kit = {
        .n_series = 1, .n_parallel = 3, .n_controllers = 1, .bank_series = 1, .bank_parallel = 1};
    WbProblem *problem;
    WbWiring wiring = wire(small, &kit, &problem);
    const WbCircuit *string = find(&wiring, WB_CIRCUIT_STRING);
    g_assert_true(string->ask.fused);
    published("NEC 690.9(A), current of two other strings", string->ask.fault_a, 16, 1e-9);
    published("NEC 690.9(A), smallest fuse", string->fuse->rating_a, 10, 0);
    published("NEC 690.9(A), largest fuse", string->ask.most_fuse_a, 15, 0);
    wb_wiring_free(&wiring);
    wb_problem_free(problem);
    g_free(small);
}

/* NEC 690.8, worked example: Isc 11 A, 13.75 A, 17.19 A, fuse 20 A. A string alone needs none. */
static void test_worked_string(void)
{
    Small *small = g_new(Small, 1);
    fill_small(small);
    small->panel.isc_a = 11;
    small->panel.series_fuse_a = 20;
    WbKit kit = {
        .n_series = 2, .n_parallel = 3, .n_controllers = 1, .bank_series = 1, .bank_parallel = 1};
    WbProblem *problem;
    WbWiring wiring = wire(small, &kit, &problem);
    const WbCircuit *string = find(&wiring, WB_CIRCUIT_STRING);
    published("NEC 690.8, 11 A", string->ask.design_a, 17.19, 0.005);
    published("NEC 690.8, 11 A, next fuse", string->fuse->rating_a, 20, 0);
    g_assert_cmpstr(string->fuse->part.id, ==, "f-v20"); /* 49.7 V in the cold: no 32 V type */
    wb_wiring_free(&wiring);
    wb_problem_free(problem);
    kit.n_parallel = 1;
    wiring = wire(small, &kit, &problem);
    g_assert_null(find(&wiring, WB_CIRCUIT_STRING));
    const WbCircuit *array = find(&wiring, WB_CIRCUIT_ARRAY);
    g_assert_false(array->ask.fused);
    g_assert_true(array->ask.switched);
    g_assert_cmpfloat(array->ask.one_way_m, ==, 2);
    wb_wiring_free(&wiring);
    wb_problem_free(problem);
    g_free(small);
}

/* The bank's side, every figure by hand: 600 W / 0.9 / 10.5 V = 63.49 A, x 1.25 = 79.37 A; fridge
 * 60 W / 12 V = 5 A, x 1.25 = 6.25 A; the controller charges 1.25 x 20 A = 25 A: main 85.62 A, 150
 * A fuse, 35 mm2 (as 2 AWG 90 C: 130 A) may not have it, so 70 mm2 (2/0: 195 A). 14.4 V / 4 mohm =
 * 3600 A. */
static void test_bank_by_hand(void)
{
    Small *small = g_new(Small, 1);
    fill_small(small);
    WbKit kit = {.n_series = 1,
                 .n_parallel = 1,
                 .n_controllers = 1,
                 .bank_series = 1,
                 .bank_parallel = 1,
                 .inverter = 1};
    WbProblem *problem;
    WbWiring wiring = wire(small, &kit, &problem);
    const WbCircuit *main_circuit = find(&wiring, WB_CIRCUIT_MAIN);
    const WbCircuit *inverter = find(&wiring, WB_CIRCUIT_INVERTER);
    const WbCircuit *feed = find(&wiring, WB_CIRCUIT_FEED), *load = find(&wiring, WB_CIRCUIT_LOAD);
    g_assert_cmpfloat_with_epsilon(inverter->ask.design_a, 79.365, 0.001);
    g_assert_cmpfloat_with_epsilon(feed->ask.design_a, 6.25, 1e-9);
    g_assert_cmpfloat_with_epsilon(load->ask.design_a, 6.25, 1e-9);
    g_assert_cmpfloat_with_epsilon(find(&wiring, WB_CIRCUIT_CHARGE)->ask.design_a, 25, 1e-9);
    g_assert_cmpfloat_with_epsilon(main_circuit->ask.design_a, 85.615, 0.001);
    g_assert_cmpfloat(main_circuit->fuse->rating_a, ==, 150);
    g_assert_cmpstr(main_circuit->conductor->part.id, ==, "w-70");
    g_assert_cmpfloat_with_epsilon(wiring.bank_fault_a, 3600, 1e-6);
    g_assert_cmpfloat_with_epsilon(wiring.bus_fault_a, 14400 / (4 + 2 * 0.272), 1e-6);
    g_assert_cmpfloat(feed->fuse->interrupt_a, >=, wiring.bus_fault_a);
    /* Feed and load behind 6 mm2: 2 m of 3.30 mohm/m more; 1291 A is too much for 1 kA types. */
    g_assert_cmpfloat_with_epsilon(wiring.block_fault_a, 14400 / (4 + 2 * 0.272 + 2 * 3.30), 1e-6);
    g_assert_cmpfloat(load->fuse->rating_a, ==, 20);
    g_assert_cmpstr(load->fuse->part.id, ==, "f-v20");
    g_assert_cmpfloat_with_epsilon(load->ask.before_pct, main_circuit->drop_pct + feed->drop_pct,
                                   1e-12);
    wb_wiring_free(&wiring);
    wb_problem_free(problem);
    g_free(small);
}

/* Two strings of batteries: each with its own fuse, for all of the current while one is out. */
static void test_strings_of_batteries(void)
{
    Small *small = g_new(Small, 1);
    fill_small(small);
    WbKit kit = {.n_series = 1,
                 .n_parallel = 1,
                 .n_controllers = 1,
                 .bank_series = 1,
                 .bank_parallel = 2,
                 .inverter = 1};
    WbProblem *problem;
    for (int i = 0; i < 4; i++)
        small->conductor[i].part.weight_kg = 0.1; /* of a metre */
    WbWiring wiring = wire(small, &kit, &problem);
    const WbCircuit *battery = find(&wiring, WB_CIRCUIT_BATTERY);
    const WbCircuit *main_circuit = find(&wiring, WB_CIRCUIT_MAIN);
    g_assert_cmpint(battery->ask.count, ==, 2);
    g_assert_cmpint(battery->weight_g, ==, 2 * 2 * 100);
    g_assert_cmpint(battery->cost_minor, ==,
                    2 * (200 + llround(2 * 30 * battery->conductor->area_mm2)));
    g_assert_cmpfloat(battery->ask.design_a, ==, main_circuit->ask.design_a);
    g_assert_cmpfloat(battery->ask.run_a, ==, main_circuit->ask.run_a / 2);
    g_assert_cmpfloat_with_epsilon(battery->ask.fault_a, 3600, 1e-6);
    double link_mohm = 2 * battery->conductor->r20_ohm_km;
    g_assert_cmpfloat_with_epsilon(wiring.bank_fault_a, 14400 / ((4 + link_mohm) / 2), 1e-6);
    wb_wiring_free(&wiring);
    wb_problem_free(problem);
    g_free(small);
}

/* From three hours on a load is continuous; without an inverter the chargers decide the main
 * circuit, 1.25 x (20 A + 30 A); a DC-DC charger draws 30 A / 0.9 from the starter battery. */
static void test_hours_and_chargers(void)
{
    Small *small = g_new(Small, 1);
    fill_small(small);
    const WbDcdc dcdc = {{"dcdc"}, 12, 12, 30, 0.9, true, ""};
    sell(small, "dcdc", 9000);
    small->catalogue.dcdc = &dcdc;
    small->catalogue.n_dcdc = 1;
    small->brief.driving = (WbDriving){100, 12, 2};
    const WbKit kit = {.n_series = 1,
                       .n_parallel = 1,
                       .n_controllers = 1,
                       .bank_series = 1,
                       .bank_parallel = 1,
                       .dcdc = 1};
    static const double hours[][2] = {{2.9, 5}, {3, 6.25}};
    for (int i = 0; i < 2; i++) {
        WbProblem *problem;
        small->load.hours_day = hours[i][0];
        WbWiring wiring = wire(small, &kit, &problem);
        const WbCircuit *in = find(&wiring, WB_CIRCUIT_DCDC_IN);
        g_assert_cmpfloat_with_epsilon(find(&wiring, WB_CIRCUIT_LOAD)->ask.design_a, hours[i][1],
                                       1e-9);
        g_assert_cmpfloat_with_epsilon(find(&wiring, WB_CIRCUIT_MAIN)->ask.design_a, 62.5, 1e-9);
        g_assert_cmpfloat_with_epsilon(in->ask.run_a, 30 / 0.9, 1e-9);
        g_assert_cmpfloat_with_epsilon(in->ask.design_a, 1.25 * 30 / 0.9, 1e-9);
        g_assert_cmpfloat_with_epsilon(find(&wiring, WB_CIRCUIT_DCDC_OUT)->ask.design_a, 37.5,
                                       1e-9);
        wb_wiring_free(&wiring);
        wb_problem_free(problem);
    }
    g_free(small);
}

/* Off, or a bank of no system: no circuits, nothing to pay, no finding. */
static void test_off(void)
{
    Small *small = g_new(Small, 1);
    fill_small(small);
    small->brief.wiring.on = false;
    WbKit kit = {
        .n_series = 1, .n_parallel = 1, .n_controllers = 1, .bank_series = 1, .bank_parallel = 1};
    WbProblem *problem;
    WbWiring wiring = wire(small, &kit, &problem);
    g_assert_cmpuint(wiring.n, ==, 0);
    WbVerdict *verdict = g_new(WbVerdict, 1);
    wb_judge_without_year(problem, &kit, verdict);
    g_assert_cmpint(verdict->figures.wiring_minor, ==, 0);
    g_assert_true(isnan(verdict->finding[WB_RULE_SOURCE_CIRCUITS].value));
    g_assert_true(isnan(verdict->finding[WB_RULE_FITTINGS].value));
    g_free(verdict);
    wb_wiring_free(&wiring);
    wb_problem_free(problem);
    small->brief.wiring.on = true;
    small->storage.nominal_v = 7;
    wiring = wire(small, &kit, &problem);
    g_assert_cmpuint(wiring.n, ==, 0);
    wb_wiring_free(&wiring);
    wb_problem_free(problem);
    g_free(small);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/wiring/random-kits", test_random_kits);
    g_test_add_func("/wiring/two-panels-behind-20-a", test_two_panels_behind_20_a);
    g_test_add_func("/wiring/three-strings-are-fused", test_three_strings_are_fused);
    g_test_add_func("/wiring/worked-string", test_worked_string);
    g_test_add_func("/wiring/bank-by-hand", test_bank_by_hand);
    g_test_add_func("/wiring/strings-of-batteries", test_strings_of_batteries);
    g_test_add_func("/wiring/hours-and-chargers", test_hours_and_chargers);
    g_test_add_func("/wiring/off", test_off);
    g_test_add_func("/wiring/published-count", published_count);
    return g_test_run();
}
