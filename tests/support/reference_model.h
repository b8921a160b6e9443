/* Our own test model of an off-grid system, simple enough to hand to general solvers word for word,
 * and catalogues made for it. Whole numbers; volts and amps in tenths; every division rounds down.
 *
 * panel (watts, Voc, Vmp, Isc, area, weight, cost), ns in series and np parallel, 1..6 each
 * controller (most volts, most input amps, output amps, buses, weight, cost)
 * battery (volts, Ah, depth %, charge and discharge amps, weight, cost), s and p 1..4 each
 * inverter (bus, watts, idle, weight, cost); buses of 12, 24 and 48 V; n = ns * np
 *
 *   ns*Voc <= most volts                  np*Isc <= most input amps
 *   100*ns*Vmp >= 125*bus                 100*n*watts <= output*bus*130/100
 *   n*watts*35*75/1000 >= E               n*area <= 60000
 *   bus <= s*V, 100*s*V <= 107*bus        s*p*V*Ah/10*depth/100*10 >= 15*E
 *   inverter watts >= PK                  10*(p*discharge*bus/100) >= 11*inverter watts
 *   output <= p*charge                    all weights <= 110000
 *
 * Wanted: least cost; the front of cost, weight, area, -panel watts, -battery Wh, -inverter watts,
 * where battery Wh is s*p*V*Ah/10. */
#ifndef WB_TEST_REFERENCE_MODEL_H
#define WB_TEST_REFERENCE_MODEL_H

#include "choice.h"
#include "random.h"

enum { REF_BUSES = 3, REF_MOST_STRING = 6, REF_MOST_BANK = 4 };

extern const int64_t REF_BUS_DV[REF_BUSES];

typedef struct {
    int64_t w, voc_dv, vmp_dv, isc_da, area_cm2, weight_g, cost;
} RefPanel;

typedef struct {
    int64_t most_dv, input_da, output_da, weight_g, cost;
    uint32_t buses;
} RefController;

typedef struct {
    int64_t dv, ah, depth_pct, charge_da, discharge_da, weight_g, cost;
} RefBattery;

typedef struct {
    int bus;
    int64_t w, idle_w, weight_g, cost;
} RefInverter;

typedef struct {
    RefPanel *panel;
    RefController *controller;
    RefBattery *battery;
    RefInverter *inverter;
    size_t n_panels, n_controllers, n_batteries, n_inverters;
    int64_t need_wh, peak_w; /* E, PK */
    int64_t most_weight_g, most_area_cm2;
} RefCatalogue;

/* The same numbers make the same catalogue on every machine. */
void ref_make(RefCatalogue *catalogue, uint64_t seed, size_t panels, size_t controllers,
              size_t batteries, size_t inverters);
void ref_free(RefCatalogue *catalogue);

enum { REF_ARRAY, REF_CONTROLLER, REF_BANK, REF_INVERTER, REF_SLOTS };
enum { REF_VOC, REF_ISC, REF_OUTPUT, REF_DISCHARGE, REF_CHARGE, REF_WEIGHT, REF_RULES };
enum { REF_COST, REF_GRAMS, REF_AREA, REF_PANEL_W, REF_BATTERY_WH, REF_INVERTER_W, REF_CRITERIA };

/* A row stands for these: an array (panel, ns, np), a controller on a bus, a bank (battery, s, p)
 * on its bus, an inverter. */
typedef struct {
    uint32_t part;
    uint8_t a, b, bus;
} RefRow;

/* The catalogue as a table of choices: rows that break a rule of their own are left out, the others
 * stand by part, then ns, np or s, p or bus. */
typedef struct {
    WbChoiceTable table;
    RefRow *row[REF_SLOTS];
    uint32_t *bus[REF_SLOTS];
    int64_t *column[REF_SLOTS][REF_RULES + REF_CRITERIA];
    size_t room[REF_SLOTS];
} RefTable;

void ref_table(const RefCatalogue *catalogue, RefTable *table);
void ref_table_free(RefTable *table);

#endif
