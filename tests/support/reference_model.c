#include "reference_model.h"
#include <glib.h>

const int64_t REF_BUS_DV[REF_BUSES] = {120, 240, 480};

enum { MOST_WEIGHT_G = 110000, MOST_AREA_CM2 = 60000 };

/* ---- catalogues ---- */

static int64_t between(WbRandom *random, int64_t low, int64_t high)
{
    return low + (int64_t)wb_random_below(random, (uint64_t)(high - low + 1));
}

static RefPanel make_panel(WbRandom *random)
{
    bool large = between(random, 0, 99) < 60;
    RefPanel panel = {.w = large ? between(random, 160, 450) : between(random, 40, 200)};
    panel.voc_dv = large ? between(random, 220, 500) : between(random, 190, 260);
    panel.vmp_dv = panel.voc_dv * between(random, 79, 86) / 100;
    panel.isc_da = panel.w * 100 * between(random, 104, 110) / panel.vmp_dv / 100 + 1;
    panel.area_cm2 = panel.w * 1000 / between(random, 16, 23);
    panel.weight_g = panel.w * between(random, 38, 75);
    panel.cost = panel.w * between(random, 40, 150) + between(random, 500, 3000);
    return panel;
}

static RefController make_controller(WbRandom *random)
{
    static const int64_t OUTPUT_DA[] = {100, 150, 200, 300, 400, 500, 600, 700, 850, 1000};
    int64_t size = between(random, 0, G_N_ELEMENTS(OUTPUT_DA) - 1);
    RefController controller = {.output_da = OUTPUT_DA[size]};
    controller.most_dv = 250 * between(random, 2, 6 + size);
    controller.input_da = controller.output_da * between(random, 50, 110) / 100;
    controller.buses = between(random, 0, 99) < 50 && size > 3 ? 7 : between(random, 0, 5) ? 3 : 1;
    controller.weight_g = 400 + controller.output_da * between(random, 4, 9);
    controller.cost =
        controller.output_da * between(random, 35, 90) + controller.most_dv * between(random, 2, 8);
    return controller;
}

static RefBattery make_battery(WbRandom *random)
{
    static const int64_t VOLTS_DV[] = {60, 120, 128, 32, 128, 128, 240, 256, 256, 512};
    int64_t kind = between(random, 0, G_N_ELEMENTS(VOLTS_DV) - 1);
    bool lead = kind < 2;
    RefBattery battery = {.dv = VOLTS_DV[kind]};
    battery.ah = 10 * between(random, 5, battery.dv > 200 ? 20 : 40);
    battery.depth_pct = lead ? between(random, 50, 60) : between(random, 80, 100);
    int64_t wh = battery.dv * battery.ah / 10;
    battery.charge_da =
        battery.ah * 10 * (lead ? between(random, 15, 30) : between(random, 30, 80)) / 100;
    battery.discharge_da =
        battery.ah * 10 * (lead ? between(random, 30, 60) : between(random, 50, 120)) / 100;
    battery.weight_g = lead ? wh * between(random, 25, 36) : wh * between(random, 8, 13);
    battery.cost = lead ? wh * between(random, 12, 24) : wh * between(random, 20, 60);
    return battery;
}

static RefInverter make_inverter(WbRandom *random)
{
    RefInverter inverter = {.bus = (int)between(random, 0, REF_BUSES - 1)};
    inverter.w = 50 * between(random, 6, 80);
    inverter.idle_w = between(random, 5, 40);
    inverter.weight_g = 1500 + inverter.w * between(random, 3, 9);
    inverter.cost = 5000 + inverter.w * between(random, 12, 45);
    return inverter;
}

void ref_make(RefCatalogue *catalogue, uint64_t seed, size_t panels, size_t controllers,
              size_t batteries, size_t inverters)
{
    WbRandom random;
    wb_random_seed(&random, seed);
    *catalogue = (RefCatalogue){.panel = g_new(RefPanel, panels + 1),
                                .controller = g_new(RefController, controllers + 1),
                                .battery = g_new(RefBattery, batteries + 1),
                                .inverter = g_new(RefInverter, inverters + 1),
                                .n_panels = panels,
                                .n_controllers = controllers,
                                .n_batteries = batteries,
                                .n_inverters = inverters,
                                .need_wh = 2200,
                                .peak_w = 1400,
                                .most_weight_g = MOST_WEIGHT_G,
                                .most_area_cm2 = MOST_AREA_CM2};
    for (size_t i = 0; i < panels; i++)
        catalogue->panel[i] = make_panel(&random);
    for (size_t i = 0; i < controllers; i++)
        catalogue->controller[i] = make_controller(&random);
    for (size_t i = 0; i < batteries; i++)
        catalogue->battery[i] = make_battery(&random);
    for (size_t i = 0; i < inverters; i++)
        catalogue->inverter[i] = make_inverter(&random);
}

void ref_free(RefCatalogue *catalogue)
{
    g_free(catalogue->panel);
    g_free(catalogue->controller);
    g_free(catalogue->battery);
    g_free(catalogue->inverter);
    *catalogue = (RefCatalogue){0};
}

/* ---- as a table ---- */

static void make_room(RefTable *table, int slot, size_t rows, const int *columns, int n_columns)
{
    table->row[slot] = g_new(RefRow, rows + 1);
    table->bus[slot] = g_new(uint32_t, rows + 1);
    table->room[slot] = rows;
    for (int i = 0; i < n_columns; i++)
        table->column[slot][columns[i]] = g_new(int64_t, rows + 1);
}

/* Rules first, then criteria. */
enum { COST = REF_RULES + REF_COST, AREA = REF_RULES + REF_AREA };
enum { PANEL_W = REF_RULES + REF_PANEL_W, BATTERY_WH = REF_RULES + REF_BATTERY_WH };
enum { INVERTER_W = REF_RULES + REF_INVERTER_W };

static void add_array(const RefCatalogue *catalogue, RefTable *table, size_t part, int64_t ns,
                      int64_t np)
{
    const RefPanel *panel = &catalogue->panel[part];
    int64_t n = ns * np;
    if (n * panel->w * 35 * 75 / 1000 < catalogue->need_wh ||
        n * panel->area_cm2 > catalogue->most_area_cm2)
        return;
    uint32_t buses = 0;
    for (int b = 0; b < REF_BUSES; b++)
        buses |= (uint32_t)(100 * ns * panel->vmp_dv >= 125 * REF_BUS_DV[b]) << b;
    if (!buses)
        return;
    size_t i = table->table.slot[REF_ARRAY].n++;
    table->row[REF_ARRAY][i] = (RefRow){(uint32_t)part, (uint8_t)ns, (uint8_t)np, 0};
    table->bus[REF_ARRAY][i] = buses;
    int64_t **column = table->column[REF_ARRAY];
    column[REF_VOC][i] = ns * panel->voc_dv;
    column[REF_ISC][i] = np * panel->isc_da;
    column[REF_OUTPUT][i] = 100 * n * panel->w;
    column[REF_WEIGHT][i] = n * panel->weight_g;
    column[COST][i] = n * panel->cost;
    column[AREA][i] = n * panel->area_cm2;
    column[PANEL_W][i] = -n * panel->w;
}

static void add_arrays(const RefCatalogue *catalogue, RefTable *table)
{
    static const int COLUMNS[] = {REF_VOC, REF_ISC, REF_OUTPUT, REF_WEIGHT, COST, AREA, PANEL_W};
    size_t counts = REF_MOST_STRING * REF_MOST_STRING;
    make_room(table, REF_ARRAY, counts * catalogue->n_panels, COLUMNS, G_N_ELEMENTS(COLUMNS));
    for (size_t i = 0; i < catalogue->n_panels; i++)
        for (int64_t ns = 1; ns <= REF_MOST_STRING; ns++)
            for (int64_t np = 1; np <= REF_MOST_STRING; np++)
                add_array(catalogue, table, i, ns, np);
}

static void add_controllers(const RefCatalogue *catalogue, RefTable *table)
{
    static const int COLUMNS[] = {REF_VOC, REF_ISC, REF_OUTPUT, REF_CHARGE, REF_WEIGHT, COST};
    make_room(table, REF_CONTROLLER, REF_BUSES * catalogue->n_controllers, COLUMNS,
              G_N_ELEMENTS(COLUMNS));
    int64_t **column = table->column[REF_CONTROLLER];
    for (size_t part = 0; part < catalogue->n_controllers; part++) {
        const RefController *controller = &catalogue->controller[part];
        for (int b = 0; b < REF_BUSES; b++) {
            if (!(controller->buses >> b & 1))
                continue;
            size_t i = table->table.slot[REF_CONTROLLER].n++;
            table->row[REF_CONTROLLER][i] = (RefRow){(uint32_t)part, 1, 1, (uint8_t)b};
            table->bus[REF_CONTROLLER][i] = UINT32_C(1) << b;
            column[REF_VOC][i] = -controller->most_dv;
            column[REF_ISC][i] = -controller->input_da;
            column[REF_OUTPUT][i] = -(controller->output_da * REF_BUS_DV[b] * 130 / 100);
            column[REF_CHARGE][i] = controller->output_da;
            column[REF_WEIGHT][i] = controller->weight_g;
            column[COST][i] = controller->cost;
        }
    }
}

static void add_bank(const RefCatalogue *catalogue, RefTable *table, size_t part, int64_t s,
                     int64_t p)
{
    const RefBattery *battery = &catalogue->battery[part];
    int64_t wh = s * p * battery->dv * battery->ah / 10;
    if (wh * battery->depth_pct / 100 * 10 < 15 * catalogue->need_wh)
        return;
    for (int b = 0; b < REF_BUSES; b++) {
        int64_t dv = s * battery->dv;
        if (dv < REF_BUS_DV[b] || 100 * dv > 107 * REF_BUS_DV[b])
            continue;
        size_t i = table->table.slot[REF_BANK].n++;
        table->row[REF_BANK][i] = (RefRow){(uint32_t)part, (uint8_t)s, (uint8_t)p, (uint8_t)b};
        table->bus[REF_BANK][i] = UINT32_C(1) << b;
        int64_t **column = table->column[REF_BANK];
        column[REF_DISCHARGE][i] = -10 * (p * battery->discharge_da * REF_BUS_DV[b] / 100);
        column[REF_CHARGE][i] = -p * battery->charge_da;
        column[REF_WEIGHT][i] = s * p * battery->weight_g;
        column[COST][i] = s * p * battery->cost;
        column[BATTERY_WH][i] = -wh;
    }
}

static void add_banks(const RefCatalogue *catalogue, RefTable *table)
{
    static const int COLUMNS[] = {REF_DISCHARGE, REF_CHARGE, REF_WEIGHT, COST, BATTERY_WH};
    size_t counts = REF_MOST_BANK * REF_MOST_BANK;
    make_room(table, REF_BANK, counts * catalogue->n_batteries, COLUMNS, G_N_ELEMENTS(COLUMNS));
    for (size_t i = 0; i < catalogue->n_batteries; i++)
        for (int64_t s = 1; s <= REF_MOST_BANK; s++)
            for (int64_t p = 1; p <= REF_MOST_BANK; p++)
                add_bank(catalogue, table, i, s, p);
}

static void add_inverters(const RefCatalogue *catalogue, RefTable *table)
{
    static const int COLUMNS[] = {REF_DISCHARGE, REF_WEIGHT, COST, INVERTER_W};
    make_room(table, REF_INVERTER, catalogue->n_inverters, COLUMNS, G_N_ELEMENTS(COLUMNS));
    int64_t **column = table->column[REF_INVERTER];
    for (size_t part = 0; part < catalogue->n_inverters; part++) {
        const RefInverter *inverter = &catalogue->inverter[part];
        if (inverter->w < catalogue->peak_w)
            continue;
        size_t i = table->table.slot[REF_INVERTER].n++;
        table->row[REF_INVERTER][i] = (RefRow){(uint32_t)part, 1, 1, (uint8_t)inverter->bus};
        table->bus[REF_INVERTER][i] = UINT32_C(1) << inverter->bus;
        column[REF_DISCHARGE][i] = 11 * inverter->w;
        column[REF_WEIGHT][i] = inverter->weight_g;
        column[COST][i] = inverter->cost;
        column[INVERTER_W][i] = -inverter->w;
    }
}

void ref_table(const RefCatalogue *catalogue, RefTable *table)
{
    *table = (RefTable){
        .table = {.n_slots = REF_SLOTS, .n_rules = REF_RULES, .n_criteria = REF_CRITERIA}};
    add_arrays(catalogue, table);
    add_controllers(catalogue, table);
    add_banks(catalogue, table);
    add_inverters(catalogue, table);
    table->table.limit[REF_WEIGHT] = catalogue->most_weight_g;
    for (int s = 0; s < REF_SLOTS; s++) {
        WbChoiceSlot *slot = &table->table.slot[s];
        slot->bus = table->bus[s];
        for (int r = 0; r < REF_RULES; r++)
            slot->term[r] = table->column[s][r];
        for (int c = 0; c < REF_CRITERIA; c++)
            slot->criterion[c] = table->column[s][c == REF_GRAMS ? REF_WEIGHT : REF_RULES + c];
    }
}

void ref_table_free(RefTable *table)
{
    for (int s = 0; s < REF_SLOTS; s++) {
        g_free(table->row[s]);
        g_free(table->bus[s]);
        for (int i = 0; i < REF_RULES + REF_CRITERIA; i++)
            g_free(table->column[s][i]);
    }
    *table = (RefTable){0};
}
