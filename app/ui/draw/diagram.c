#include "diagram.h"

#include "figures_text.h"
#include "words_circuit.h"
#include <glib/gi18n-lib.h>
#include <math.h>

/* ---- lines ---- */

static gboolean fed_from_bus(WbCircuitKind kind)
{
    return kind != WB_CIRCUIT_DCDC_IN && kind != WB_CIRCUIT_BATTERY && kind != WB_CIRCUIT_MAIN &&
           kind != WB_CIRCUIT_ARRAY;
}

static void fill_line(WbDiagramLine *line, const WbCircuit *circuit, int number)
{
    const WbCircuitAsk *ask = &circuit->ask;
    g_autofree char *size = wb_words_size(circuit->conductor);
    g_autofree char *length = wb_text_number(ask->one_way_m, 1);
    g_autofree char *amps = wb_words_amps(ask->design_a);
    g_autofree char *drop = wb_text_number(circuit->drop_pct, 2);
    line->fault = circuit->fault != WB_CIRCUIT_SOUND;
    line->switched = ask->switched;
    line->fuse_at_bus = fed_from_bus(ask->kind);
    line->tag = g_strdup_printf("%d", number);
    line->wire = g_strdup_printf(_("%s, %s m"), size, length);
    g_autofree char *flow = line->fault ? g_strdup_printf(_("%s: cannot be built"), amps)
                                        : g_strdup_printf(_("%s, %s %%"), amps, drop);
    line->flow = ask->count > 1 ? g_strdup_printf(_("%s, %d alike"), flow, ask->count)
                                : g_steal_pointer(&flow);
    if (ask->fused)
        line->fuse = circuit->fuse != NULL ? wb_words_fuse(circuit->fuse) : g_strdup(_("no fuse"));
}

static int find(const WbWiring *wiring, WbCircuitKind kind)
{
    for (gsize i = 0; i < wiring->n; i++)
        if (wiring->circuit[i].ask.kind == kind)
            return (int)i;
    return -1;
}

/* ---- chains ---- */

static WbDiagramStep *add(WbDiagramChain *chain, int line, WbMark mark, char *title, char *detail)
{
    WbDiagramStep *step = &chain->step[chain->n++];
    *step = (WbDiagramStep){line, mark, title, detail, 1};
    return step;
}

/* Of a part's plate: "30 A". (transfer full) */
static char *rated(double amps)
{
    g_autofree char *number = wb_text_number(amps, amps == floor(amps) ? 0 : 1);
    return g_strdup_printf("%s A", number);
}

/* "2 x " before what is there several times. (transfer full) */
static char *times(int count)
{
    return count > 1 ? g_strdup_printf("%d \303\227 ", count) : g_strdup("");
}

static char *panels_detail(const WbPanel *panel, const WbKit *kit)
{
    g_autofree char *watts = wb_text_number(panel->power_w, 0);
    if (kit->n_series == 1)
        return g_strdup_printf(_("%s W each\n%s"), watts, panel->part.model);
    return g_strdup_printf(_("%d in series, %s W each\n%s"), kit->n_series, watts,
                           panel->part.model);
}

static void add_array(WbDiagram *self, const WbProblem *problem, const WbKit *kit,
                      const WbWiring *wiring)
{
    const WbController *controller = problem->controllers[kit->controller].controller;
    const WbPanel *panel = problem->panels[kit->panel].panel;
    int string = find(wiring, WB_CIRCUIT_STRING);
    WbDiagramChain *chain = &self->above[self->n_above++];
    g_autofree char *of = times(kit->n_controllers);
    g_autofree char *amps = rated(controller->rated_output_a);
    gboolean mppt = controller->technology == WB_CONTROLLER_MPPT;
    add(chain, find(wiring, WB_CIRCUIT_CHARGE), WB_MARK_CONVERTER,
        g_strdup_printf(_("%sCharge controller"), of),
        g_strdup_printf("%s %s\n%s", amps, mppt ? "MPPT" : "PWM", controller->part.model))
        ->count = kit->n_controllers;
    if (string >= 0)
        add(chain, find(wiring, WB_CIRCUIT_ARRAY), WB_MARK_JOINT, NULL,
            g_strdup_printf(_("%d strings joined"), kit->n_parallel / kit->n_controllers));
    g_autofree char *strings = times(kit->n_parallel);
    add(chain, string >= 0 ? string : find(wiring, WB_CIRCUIT_ARRAY), WB_MARK_PANELS,
        g_strdup_printf(kit->n_series > 1 ? _("%sPanel string") : _("%sPanel"), strings),
        panels_detail(panel, kit))
        ->count = kit->n_parallel;
}

static void add_chargers(WbDiagram *self, const WbProblem *problem, const WbKit *kit,
                         const WbWiring *wiring)
{
    const WbDcdc *dcdc = problem->dcdc[kit->dcdc].dcdc;
    int out = find(wiring, WB_CIRCUIT_DCDC_OUT), shore = find(wiring, WB_CIRCUIT_SHORE);
    if (out >= 0 && dcdc != NULL) {
        WbDiagramChain *chain = &self->above[self->n_above++];
        g_autofree char *amps = rated(dcdc->output_a);
        add(chain, out, WB_MARK_CONVERTER, g_strdup(_("DC-DC charger")),
            g_strdup_printf("%s\n%s", amps, dcdc->part.model));
        add(chain, find(wiring, WB_CIRCUIT_DCDC_IN), WB_MARK_BATTERY,
            g_strdup(_("Starter battery")), g_strdup_printf(_("%d V"), (int)dcdc->input_v));
    }
    if (shore < 0)
        return;
    WbDiagramChain *chain = &self->above[self->n_above++];
    g_autofree char *amps = rated(problem->brief->shore.charger_a);
    add(chain, shore, WB_MARK_RECTIFIER, g_strdup(_("Shore charger")),
        g_strdup_printf(_("%s, from shore power"), amps));
}

static void add_bank(WbDiagram *self, const WbProblem *problem, const WbKit *kit,
                     const WbWiring *wiring)
{
    const WbStorageChoice *choice = &problem->storage[kit->storage];
    int string = find(wiring, WB_CIRCUIT_BATTERY), trunk = find(wiring, WB_CIRCUIT_MAIN);
    WbDiagramChain *chain = &self->below[self->n_below++];
    g_autofree char *ah = wb_text_number(choice->storage->capacity_ah, 0);
    g_autofree char *of = times(kit->bank_parallel);
    if (string >= 0)
        add(chain, trunk, WB_MARK_JOINT, NULL,
            g_strdup_printf(_("%d strings joined"), kit->bank_parallel));
    add(chain, string >= 0 ? string : trunk, WB_MARK_BATTERY,
        g_strdup_printf(kit->bank_series > 1 ? _("%sBattery string") : _("%sBattery"), of),
        kit->bank_series > 1
            ? g_strdup_printf(_("%d in series, %s Ah %s\n%s"), kit->bank_series, ah,
                              choice->chemistry->name, choice->storage->part.model)
            : g_strdup_printf(_("%s Ah %s\n%s"), ah, choice->chemistry->name,
                              choice->storage->part.model))
        ->count = kit->bank_parallel;
}

static void add_inverter(WbDiagram *self, const WbProblem *problem, const WbKit *kit,
                         const WbWiring *wiring)
{
    const WbInverter *inverter = problem->inverters[kit->inverter].inverter;
    int line = find(wiring, WB_CIRCUIT_INVERTER);
    if (line < 0 || inverter == NULL)
        return;
    WbDiagramChain *chain = &self->below[self->n_below++];
    g_autofree char *watts = wb_text_number(inverter->continuous_w, 0);
    add(chain, line, WB_MARK_INVERTER, g_strdup(_("Inverter")),
        g_strdup_printf(_("%s W\n%s"), watts, inverter->part.model));
    add(chain, -1, WB_MARK_LOAD, g_strdup(_("AC loads")),
        g_strdup(_("neutral bond and residual-current protection here; changeover switch before "
                   "any other AC supply")));
}

/* ---- loads ---- */

static char *load_detail(const WbLoad *load)
{
    g_autofree char *watts = wb_text_number(load->power_w, load->power_w < 10 ? 1 : 0);
    if (load->count == 1)
        return g_strdup_printf(_("%s W"), watts);
    return g_strdup_printf(_("%d \303\227 %s W"), load->count, watts);
}

static void add_loads(WbDiagram *self, const WbProblem *problem, const WbWiring *wiring)
{
    GString *blocks = g_string_new(NULL);
    self->feed = find(wiring, WB_CIRCUIT_FEED);
    self->load = g_new0(WbDiagramLoad, wiring->n + 1);
    for (gsize i = 0; i < wiring->n; i++) {
        const WbCircuitAsk *ask = &wiring->circuit[i].ask;
        if (ask->kind != WB_CIRCUIT_LOAD)
            continue;
        const WbLoad *load = &problem->brief->loads[ask->load];
        self->load[self->n_loads++] =
            (WbDiagramLoad){(int)i, g_strdup(load->name), load_detail(load)};
    }
    for (int form = 0; form < WB_N_FUSE_FORMS; form++) {
        const WbBlock *block = &wiring->blocks[form];
        if (block->block == NULL)
            continue;
        g_autofree char *of = times(block->count);
        g_string_append_printf(blocks, _("%s%s%s, %d ways"), blocks->len > 0 ? "\n" : "", of,
                               block->block->part.model, (int)block->block->ways);
    }
    self->block_title = g_strdup(_("Fuse block"));
    self->block_detail = g_string_free(blocks, blocks->len == 0);
}

static void set_earth(WbDiagram *self, int rule_set)
{
    self->earth = rule_set == WB_RULES_ROAD_VEHICLE ? WB_MARK_CHASSIS
                  : rule_set == WB_RULES_BOAT       ? WB_MARK_EARTH
                                                    : WB_MARK_PROTECTIVE_EARTH;
    self->earth_text = g_strdup(
        rule_set == WB_RULES_ROAD_VEHICLE ? _("\342\210\222 to chassis, at one point only")
        : rule_set == WB_RULES_BOAT ? _("\342\210\222 to the common earthing point, once only")
                                    : _("frames to the building’s earth"));
}

WbDiagram *wb_diagram_new(const WbProblem *problem, const WbKit *kit, const WbWiring *wiring)
{
    if (wiring->n == 0)
        return NULL;
    WbDiagram *self = g_new0(WbDiagram, 1);
    self->line = g_new0(WbDiagramLine, wiring->n);
    self->n_lines = (int)wiring->n;
    for (gsize i = 0; i < wiring->n; i++)
        fill_line(&self->line[i], &wiring->circuit[i], (int)i + 1);
    add_array(self, problem, kit, wiring);
    add_chargers(self, problem, kit, wiring);
    add_bank(self, problem, kit, wiring);
    add_inverter(self, problem, kit, wiring);
    add_loads(self, problem, wiring);
    self->bus_title = g_strdup(_("Bus bars + \342\210\222"));
    self->bus_detail = wiring->bus != NULL ? g_strdup(wiring->bus->part.model) : NULL;
    set_earth(self, problem->brief->rule_set);
    return self;
}

/* ---- end ---- */

static void free_chains(WbDiagramChain *chains, int n)
{
    for (int i = 0; i < n; i++)
        for (int s = 0; s < chains[i].n; s++) {
            g_free(chains[i].step[s].title);
            g_free(chains[i].step[s].detail);
        }
}

void wb_diagram_free(WbDiagram *self)
{
    for (int i = 0; i < self->n_lines; i++) {
        g_free(self->line[i].tag);
        g_free(self->line[i].wire);
        g_free(self->line[i].flow);
        g_free(self->line[i].fuse);
    }
    free_chains(self->above, self->n_above);
    free_chains(self->below, self->n_below);
    for (int i = 0; i < self->n_loads; i++) {
        g_free(self->load[i].title);
        g_free(self->load[i].detail);
    }
    g_free(self->line);
    g_free(self->load);
    g_free(self->block_title);
    g_free(self->block_detail);
    g_free(self->bus_title);
    g_free(self->bus_detail);
    g_free(self->earth_text);
    g_free(self);
}
