#include "gen.h"
#include <stdio.h>
#include <string.h>

static double between(WbRandom *random, double low, double high)
{
    return low + (high - low) * wb_random_unit(random);
}

static int whole(WbRandom *random, int low, int high)
{
    return low + (int)wb_random_below(random, (uint64_t)(high - low + 1));
}

static bool chance(WbRandom *random, double share)
{
    return wb_random_unit(random) < share;
}

static double rounded(double x, double step)
{
    return floor(x / step + 0.5) * step;
}

GenSize gen_small(WbRandom *random)
{
    return (GenSize){
        .panels = whole(random, 1, 3),
        .controllers = whole(random, 1, 3),
        .storage = whole(random, 1, 3),
        .inverters = whole(random, 0, 2),
        .dcdc = whole(random, 0, 1),
        .series = whole(random, 1, 3),
        .parallel = whole(random, 1, 2),
        .controllers_most = whole(random, 1, 2),
        .bank_series = whole(random, 1, 2),
        .bank_parallel = whole(random, 1, 2),
    };
}

static const char *new_id(Gen *gen, const char *stem)
{
    char *id = gen->id[gen->n_ids++];
    snprintf(id, sizeof gen->id[0], "%s-%02zu", stem, gen->n_ids);
    return id;
}

static WbPart part(Gen *gen, WbRandom *random, const char *stem, double low_kg, double high_kg)
{
    return (WbPart){.id = new_id(gen, stem),
                    .maker = "Maker",
                    .model = "Model",
                    .notes = "",
                    .weight_kg = rounded(between(random, low_kg, high_kg), 0.1)};
}

static void fill_panel(Gen *gen, WbRandom *random, WbPanel *panel)
{
    int cells = chance(random, 0.6) ? 36 : 72;
    double vmp = cells * 0.5, imp = rounded(between(random, 2.0, 9.0), 0.1);
    *panel = (WbPanel){.part = part(gen, random, "p", 2.0, 18.0),
                       .power_w = vmp * imp,
                       .voc_v = cells * 0.61,
                       .vmp_v = vmp,
                       .isc_a = imp * 1.07,
                       .imp_a = imp,
                       .voc_coeff_pct_k = chance(random, 0.8) ? -0.29 : WB_MISSING,
                       .isc_coeff_pct_k = 0.05,
                       .power_coeff_pct_k = chance(random, 0.8) ? -0.38 : WB_MISSING,
                       .noct_c = chance(random, 0.8) ? 45.0 : WB_MISSING,
                       .low_light_pct = cells == 36 ? 94.5 : WB_MISSING,
                       .cells = cells,
                       .max_system_v = chance(random, 0.5) ? 60.0 : WB_MISSING,
                       .series_fuse_a = chance(random, 0.8) ? 15.0 : WB_MISSING,
                       .length_mm = 10 * whole(random, 60, 180),
                       .width_mm = 10 * whole(random, 40, 110),
                       .thickness_mm = cells == 36 ? 25 : 35,
                       .mount_kg = rounded(between(random, 0.0, 2.0), 0.1)};
}

static void fill_controller(Gen *gen, WbRandom *random, WbController *controller)
{
    bool mppt = chance(random, 0.6);
    double rated = 10.0 * whole(random, 1, 5);
    *controller = (WbController){.part = part(gen, random, "c", 0.2, 4.0),
                                 .technology = mppt ? WB_CONTROLLER_MPPT : WB_CONTROLLER_PWM,
                                 .max_pv_v = mppt ? 25.0 * whole(random, 2, 6) : 50.0,
                                 .max_pv_a = rated * (mppt ? 1.2 : 1.0),
                                 .max_pv_w_12v = chance(random, 0.7) ? rated * 15.0 : WB_MISSING,
                                 .rated_output_a = rated,
                                 .bus_12v = true,
                                 .bus_24v = chance(random, 0.7),
                                 .efficiency = mppt ? 0.97 : 1.0,
                                 .idle_w = between(random, 0.1, 1.5),
                                 .headroom_v = mppt ? 2.0 : 0.5,
                                 .profile_adjustable = chance(random, 0.7),
                                 .profiles = "agm"};
}

static void fill_storage(Gen *gen, WbRandom *random, WbStorage *storage)
{
    bool lithium = chance(random, 0.5);
    double volts = lithium ? 12.8 : (chance(random, 0.3) ? 6.0 : 12.0);
    double capacity = 10.0 * whole(random, 5, 30);
    *storage = (WbStorage){.part = part(gen, random, "b", 6.0, 40.0),
                           .chemistry = lithium ? "lfp" : (chance(random, 0.5) ? "agm" : "wet"),
                           .nominal_v = volts,
                           .capacity_ah = capacity,
                           .rated_hours = lithium ? 5.0 : 20.0,
                           .depth_limit = chance(random, 0.7) ? WB_MISSING : 0.6,
                           .peukert = chance(random, 0.7) ? WB_MISSING : 1.15,
                           .charge_v = WB_MISSING,
                           .max_charge_a = rounded(capacity * between(random, 0.1, 0.6), 1.0),
                           .min_charge_a = lithium ? WB_MISSING : capacity * 0.1,
                           .max_discharge_a = capacity * between(random, 0.4, 1.2),
                           .surge_discharge_a = chance(random, 0.5) ? WB_MISSING : capacity * 2.0,
                           .max_series = whole(random, 1, 4),
                           .max_parallel = whole(random, 1, 3),
                           .internal_mohm = WB_MISSING,
                           .heated = chance(random, 0.2),
                           .heater_w = lithium ? 45.0 : WB_MISSING,
                           .length_mm = whole(random, 200, 520),
                           .width_mm = whole(random, 150, 270),
                           .height_mm = whole(random, 180, 300)};
}

static void fill_inverter(Gen *gen, WbRandom *random, WbInverter *inverter)
{
    double watts = 100.0 * whole(random, 2, 20);
    *inverter =
        (WbInverter){.part = part(gen, random, "i", 1.0, 12.0),
                     .bus_v = chance(random, 0.7) ? 12 : 24,
                     .waveform = chance(random, 0.7) ? WB_WAVE_PURE_SINE : WB_WAVE_MODIFIED_SINE,
                     .continuous_w = watts,
                     .surge_w = watts * between(random, 1.2, 2.2),
                     .idle_w = between(random, 2.0, 20.0),
                     .min_v = WB_MISSING,
                     .max_v = chance(random, 0.5) ? WB_MISSING : 16.0,
                     .efficiency = {.n = 3, .point = {{0.1, 0.82}, {0.5, 0.92}, {1.0, 0.88}}}};
}

static void fill_dcdc(Gen *gen, WbRandom *random, WbDcdc *dcdc)
{
    *dcdc = (WbDcdc){.part = part(gen, random, "d", 0.5, 3.0),
                     .input_v = 12,
                     .output_v = chance(random, 0.8) ? 12 : 24,
                     .output_a = 10.0 * whole(random, 1, 4),
                     .efficiency = 0.88,
                     .profile_adjustable = chance(random, 0.6),
                     .profiles = "lfp"};
}

static void fill_chemistries(Gen *gen)
{
    gen->chemistry[0] =
        (WbChemistry){.id = "agm",
                      .name = "AGM",
                      .family = WB_FAMILY_LEAD_ACID,
                      .gassing = WB_GAS_VALVE_REGULATED,
                      .cell_v = 2.0,
                      .charge_v_per_cell = 2.4,
                      .depth_limit = 0.5,
                      .charge_efficiency = 0.88,
                      .discharge_efficiency = 0.98,
                      .charge_efficiency_full = 0.6,
                      .accept_c = 0.25,
                      .accept_from = 0.8,
                      .accept_full_c = 0.01,
                      .peukert = 1.12,
                      .min_charge_c = WB_MISSING,
                      .capacity_by_c = {.n = 3, .point = {{-20, 0.5}, {0, 0.75}, {25, 1.0}}},
                      .freezing_by_depth = {.n = 2, .point = {{0.0, -60}, {1.0, -8}}}};
    gen->chemistry[1] =
        (WbChemistry){.id = "lfp",
                      .name = "LFP",
                      .family = WB_FAMILY_LITHIUM,
                      .gassing = WB_GAS_NONE,
                      .cell_v = 3.2,
                      .charge_v_per_cell = 3.55,
                      .depth_limit = 0.85,
                      .charge_efficiency = 0.97,
                      .discharge_efficiency = 0.98,
                      .charge_efficiency_full = WB_MISSING,
                      .accept_c = WB_MISSING,
                      .accept_from = WB_MISSING,
                      .accept_full_c = WB_MISSING,
                      .peukert = 1.03,
                      .min_charge_c = 0.0,
                      .capacity_by_c = {.n = 3, .point = {{-20, 0.7}, {0, 0.9}, {25, 1.0}}}};
    gen->chemistry[2] = gen->chemistry[0];
    gen->chemistry[2].id = "wet";
    gen->chemistry[2].gassing = WB_GAS_VENTED;
    gen->chemistry[2].peukert = 1.25;
    gen->catalogue.chemistries = gen->chemistry;
    gen->catalogue.n_chemistries = 3;
}

static void fill_offers(Gen *gen, WbRandom *random)
{
    static const char *const currencies[] = {"EUR", "EUR", "GBP", "USD"};
    for (int i = 0; i < 4; i++)
        gen->shop[i] = (WbShop){.id = i == 0   ? "s0"
                                      : i == 1 ? "s1"
                                      : i == 2 ? "s2"
                                               : "s3",
                                .name = "Shop",
                                .shipping_minor = 250 * whole(random, 0, 8),
                                .currency = currencies[i]};
    gen->catalogue.shops = gen->shop;
    gen->catalogue.n_shops = 4;
    size_t n = 0;
    for (size_t i = 0; i < gen->n_ids; i++)
        for (int s = 0; s < 4; s++)
            if (chance(random, 0.7))
                gen->offer[n++] = (WbOffer){.part_id = gen->id[i],
                                            .shop_id = gen->shop[s].id,
                                            .price_minor = 100 * whole(random, 30, 600),
                                            .currency = currencies[s],
                                            .date = "2026-05-01"};
    gen->catalogue.offers = gen->offer;
    gen->catalogue.n_offers = n;
}

static void fill_place(WbRandom *random, WbSite *site)
{
    *site = (WbSite){.months = 1 + (uint32_t)wb_random_below(random, 4095),
                     .tilt_deg = chance(random, 0.5) ? 0.0 : 20.0,
                     .azimuth_deg = chance(random, 0.5) ? WB_MISSING : 180.0,
                     .soiling_loss = 0.03,
                     .ground_albedo = 0.2,
                     .mounting = whole(random, 0, 2),
                     .design_cold_c = chance(random, 0.5) ? WB_MISSING : -15.0,
                     .bank_where = whole(random, 0, 2),
                     .bank_own_c = 10.0,
                     .inside_c = 15.0,
                     .sleeping_space = chance(random, 0.5),
                     .weather_years = whole(random, 1, 2),
                     .weather_seed = wb_random_below(random, 1000)};
    WbPlace *place = &site->place;
    *place = (WbPlace){.id = "x",
                       .name = "X",
                       .country = "",
                       .kind = "",
                       .source = "",
                       .years = "",
                       .latitude_deg = between(random, -60.0, 60.0)};
    for (int m = 0; m < WB_MONTHS; m++) {
        place->ghi_kwh_m2_day[m] = between(random, 1.5, 6.0);
        place->air_mean_c[m] = between(random, 0.0, 25.0);
        place->air_max_c[m] = place->air_mean_c[m] + 5.0;
        place->air_min_c[m] = place->air_mean_c[m] - 5.0;
    }
}

static void fill_loads(Gen *gen, WbRandom *random)
{
    int n = whole(random, 0, 4);
    for (int i = 0; i < n; i++)
        gen->load[i] = (WbLoad){.name = "load",
                                .power_w = rounded(between(random, 2.0, 120.0), 1.0),
                                .count = whole(random, 1, 2),
                                .ac = chance(random, 0.15),
                                .hours_day = between(random, 0.2, 4.0),
                                .duty = between(random, 0.3, 1.0),
                                .day_part = whole(random, 0, 4),
                                .from_h = 20.0,
                                .to_h = 2.0,
                                .months = chance(random, 0.7) ? 4095 : 0x3c3,
                                .days_week = whole(random, 3, 7),
                                .surge_factor = chance(random, 0.3) ? 3.0 : 1.0,
                                .together = chance(random, 0.8),
                                .drop_pct = chance(random, 0.5) ? 3 : 10,
                                .length_m = chance(random, 0.5) ? WB_MISSING : 6.0,
                                .needs_pure_sine = chance(random, 0.2)};
    gen->brief.loads = gen->load;
    gen->brief.n_loads = (size_t)n;
}

static void fill_roof(Gen *gen, WbRandom *random)
{
    int n = whole(random, 0, 3);
    for (int i = 0; i < n; i++)
        gen->obstacle[i] = (WbObstacle){.name = "vent",
                                        .x_mm = 50 * whole(random, 0, 50),
                                        .y_mm = 50 * whole(random, 0, 24),
                                        .length_mm = 400,
                                        .width_mm = 400,
                                        .clearance_mm = 50};
    gen->brief.roof = (WbRoof){.length_mm = 3200,
                               .width_mm = 1700,
                               .margin_mm = 40,
                               .gap_mm = 20,
                               .obstacles = gen->obstacle,
                               .n_obstacles = (size_t)n,
                               .max_load_kg = chance(random, 0.5) ? WB_MISSING : 60.0,
                               .standoff_mm = 20,
                               .max_height_mm = n == 3 ? 50 : 0};
    if (chance(random, 0.5))
        gen->brief.bay = (WbBay){.length_mm = 900, .width_mm = 400, .height_mm = 300};
}

static const WbRate rates[] = {{"GBP", 1.17}};

/* On draws of its own, so that all others stay what they were. */
static void fill_margin(WbBrief *brief, WbRandom aside)
{
    brief->weight[WB_CRITERION_MARGIN] = chance(&aside, 0.4) ? whole(&aside, 1, 3) : 0;
    if (chance(&aside, 0.25))
        brief->front |= 1U << WB_CRITERION_MARGIN;
}

static void fill_brief(Gen *gen, WbRandom *random, const GenSize *size)
{
    WbBrief *brief = &gen->brief;
    *brief = (WbBrief){
        .name = "random",
        .currency = "EUR",
        .rates = rates,
        .n_rates = 1,
        .inverter_hours_day = chance(random, 0.5) ? WB_MISSING : 4.0,
        .autonomy_target_days = between(random, 0.2, 1.2),
        .money_minor = {.value = 100.0 * whole(random, 800, 4000), .on = chance(random, 0.85)},
        .weight_kg = {.value = whole(random, 40, 160), .on = chance(random, 0.85)},
        .dark_hours = {.value = 20.0 * whole(random, 0, 40), .on = chance(random, 0.75)},
        .roof_on = chance(random, 0.85),
        .bay_on = chance(random, 0.7),
        .front =
            (chance(random, 0.7) ? 15 : 63) | (chance(random, 0.1) ? 1U << WB_CRITERION_DARK : 0U),
        .largest = {size->series, size->parallel, size->controllers_most, size->bank_series,
                    size->bank_parallel},
        .rule_set = WB_RULES_ROAD_VEHICLE,
        .system_v = chance(random, 0.7) ? 7 : 1,
        .sundries_pct = 7.0,
        .picked_kit = ""};
    for (int c = 0; c < WB_N_CRITERIA; c++)
        brief->anchor[c] = (WbAnchor){WB_MISSING, WB_MISSING};
    for (int c = 0; c < WB_CRITERION_MARGIN; c++)
        brief->weight[c] = c < 4 ? whole(random, 0, 3) : whole(random, 0, 1);
    brief->weight[WB_CRITERION_DARK] = chance(random, 0.2) ? 1 : 0;
    fill_margin(brief, *random);
    if (chance(random, 0.2))
        brief->shore = (WbShore){.nights_week = whole(random, 1, 3), .charger_a = 10.0};
    if (chance(random, 0.7))
        brief->driving =
            (WbDriving){.alternator_a = 90.0, .alternator_v = 12, .drive_hours_day = 1.5};
    fill_place(random, &brief->site);
    fill_loads(gen, random);
    fill_roof(gen, random);
    gen->owned[0] = (WbOwned){.part_id = gen->id[wb_random_below(random, gen->n_ids)],
                              .count = whole(random, 1, 2)};
    brief->owned = gen->owned;
    brief->n_owned = chance(random, 0.5) ? 1 : 0;
}

void gen_fill(Gen *gen, WbRandom *random, const GenSize *size)
{
    memset(gen, 0, sizeof *gen);
    WbCatalogue *catalogue = &gen->catalogue;
    for (int i = 0; i < size->panels; i++)
        fill_panel(gen, random, &gen->panel[i]);
    for (int i = 0; i < size->controllers; i++)
        fill_controller(gen, random, &gen->controller[i]);
    for (int i = 0; i < size->storage; i++)
        fill_storage(gen, random, &gen->storage[i]);
    for (int i = 0; i < size->inverters; i++)
        fill_inverter(gen, random, &gen->inverter[i]);
    for (int i = 0; i < size->dcdc; i++)
        fill_dcdc(gen, random, &gen->dcdc[i]);
    catalogue->panels = gen->panel;
    catalogue->n_panels = (size_t)size->panels;
    catalogue->controllers = gen->controller;
    catalogue->n_controllers = (size_t)size->controllers;
    catalogue->storage = gen->storage;
    catalogue->n_storage = (size_t)size->storage;
    catalogue->inverters = gen->inverter;
    catalogue->n_inverters = (size_t)size->inverters;
    catalogue->dcdc = gen->dcdc;
    catalogue->n_dcdc = (size_t)size->dcdc;
    fill_chemistries(gen);
    fill_offers(gen, random);
    fill_brief(gen, random, size);
    gen_wiring(gen, random);
}

static void swap_bytes(char *a, char *b, size_t size)
{
    for (size_t i = 0; i < size; i++) {
        char held = a[i];
        a[i] = b[i];
        b[i] = held;
    }
}

static void shuffle(WbRandom *random, void *records, size_t n, size_t size)
{
    char *base = records;
    for (size_t i = n; i > 1; i--)
        swap_bytes(base + (i - 1) * size, base + wb_random_below(random, i) * size, size);
}

void gen_shuffle(Gen *gen, WbRandom *random)
{
    const WbCatalogue *c = &gen->catalogue;
    shuffle(random, gen->panel, c->n_panels, sizeof(WbPanel));
    shuffle(random, gen->controller, c->n_controllers, sizeof(WbController));
    shuffle(random, gen->storage, c->n_storage, sizeof(WbStorage));
    shuffle(random, gen->inverter, c->n_inverters, sizeof(WbInverter));
    shuffle(random, gen->dcdc, c->n_dcdc, sizeof(WbDcdc));
    shuffle(random, gen->conductor, c->n_conductors, sizeof(WbConductor));
    shuffle(random, gen->fuse, c->n_fuses, sizeof(WbFuse));
    shuffle(random, gen->fitting, c->n_fittings, sizeof(WbFitting));
    shuffle(random, gen->chemistry, c->n_chemistries, sizeof(WbChemistry));
}
