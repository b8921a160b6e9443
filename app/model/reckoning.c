/* One circuit reckoned from its current to its drop, a line for every step. */
#include "figures_text.h"
#include "words.h"
#include "words_circuit.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define MOST_LINES 16
#define TIMES "\303\227"

static void add(WbReckoning *self, const char *label, char *text)
{
    g_return_if_fail(self->n < MOST_LINES);
    self->line[self->n++] = (WbCircuitLine){g_strdup(label), text};
}

static gboolean is_solar(WbCircuitKind kind)
{
    return kind == WB_CIRCUIT_STRING || kind == WB_CIRCUIT_ARRAY;
}

/* ---- current ---- */

static void add_current(WbReckoning *self, const WbCircuitAsk *ask)
{
    g_autofree char *run = wb_words_amps(ask->run_a);
    g_autofree char *design = wb_words_amps(ask->design_a);
    g_autofree char *factor = wb_text_number(ask->design_a / ask->run_a, 2);
    add(self, _("Runs at most"), g_strdup(run));
    if (is_solar(ask->kind))
        add(self, _("Design current"),
            g_strdup_printf(_("%s: 1.5625 " TIMES " the panels’ short-circuit current (NEC 690.8)"),
                            design));
    else if (ask->design_a > ask->run_a * 1.001)
        add(self, _("Design current"),
            g_strdup_printf(_("%s = %s " TIMES " %s, for it may run over three hours (NEC 210.19)"),
                            design, factor, run));
    else
        add(self, _("Design current"), g_strdup(design));
}

/* ---- conductor ---- */

/* Of the tables two decimals, of a root between them more. */
static char *factor(double share)
{
    double hundredths = share * 100;
    return wb_text_number(share, fabs(hundredths - round(hundredths)) < 1e-6 ? 2 : 4);
}

static void add_conductor(WbReckoning *self, const WbCircuit *circuit)
{
    const WbAmpacity *carries = &circuit->ampacity;
    g_autofree char *conductor = wb_words_conductor(circuit->conductor);
    g_autofree char *one_way = wb_text_number(circuit->ask.one_way_m, 1);
    g_autofree char *wire = wb_text_number(circuit->ask.wire_m, 1);
    g_autofree char *table = wb_words_amps(carries->table_a);
    g_autofree char *ambient = factor(carries->ambient);
    g_autofree char *bundle = factor(carries->bundle);
    g_autofree char *amps = wb_words_amps(carries->amps);
    add(self, _("Conductor"),
        g_strdup_printf(_("%s; %s m one way, %s m of conductor"), conductor, one_way, wire));
    if (isfinite(carries->terminals)) {
        g_autofree char *terminals = wb_words_amps(carries->terminals);
        add(self, _("It carries"),
            g_strdup_printf(_("%s = the least of %s by the table " TIMES " %s for the air " TIMES
                              " %s for its bundle, and %s by the terminals"),
                            amps, table, ambient, bundle, terminals));
    } else {
        add(self, _("It carries"),
            g_strdup_printf(
                _("%s = %s by the table " TIMES " %s for the air " TIMES " %s for its bundle"),
                amps, table, ambient, bundle));
    }
    add(self, _("Decided by"), g_strdup(wb_words_decided(circuit)));
}

static void add_drop(WbReckoning *self, const WbCircuit *circuit)
{
    const WbCircuitAsk *ask = &circuit->ask;
    g_autofree char *heat = wb_text_number(circuit->conductor_c, 0);
    g_autofree char *ohms = wb_text_number(circuit->r_ohm_km, 3);
    g_autofree char *length = wb_text_number(ask->one_way_m, 1);
    g_autofree char *run = wb_words_amps(ask->run_a);
    g_autofree char *drop_v = wb_text_number(circuit->drop_v, 3);
    g_autofree char *drop = wb_text_number(circuit->drop_pct, 2);
    g_autofree char *volts = wb_text_number(ask->volts, 1);
    g_autofree char *total = wb_text_number(circuit->total_pct, 2);
    g_autofree char *allowed = wb_text_number(ask->allowed_pct, 1);
    add(self, _("Drop"),
        g_strdup_printf(_("%s V = 2 " TIMES " %s m " TIMES " %s; %s %% of %s V"), drop_v, length,
                        run, drop, volts));
    add(self, _("Resistance"),
        g_strdup_printf(_("%s Ω a km at the %s °C the conductor reaches (IEC 60228)"), ohms, heat));
    add(self, _("Drop from the source"),
        g_strdup_printf(_("%s %% with the circuits before it; %s %% allowed"), total, allowed));
}

/* ---- fuse and fittings ---- */

static void add_fuse(WbReckoning *self, const WbProblem *problem, const WbCircuit *circuit)
{
    const WbCircuitAsk *ask = &circuit->ask;
    g_autofree char *fuse = wb_words_fuse(circuit->fuse);
    g_autofree char *design = wb_words_amps(ask->design_a);
    g_autofree char *most = wb_words_amps(fmin(circuit->ampacity.fuse_a, ask->most_fuse_a));
    g_autofree char *volts = wb_text_number(ask->most_v, 1);
    g_autofree char *fault = wb_text_number(ask->fault_a, 0);
    if (circuit->fuse == NULL)
        return;
    g_autofree char *rated_v = wb_text_number(circuit->fuse->max_v, 0);
    g_autofree char *breaks = wb_text_number(circuit->fuse->interrupt_a, 0);
    add(self, _("Fuse"),
        g_strdup_printf(_("%s: at least the %s it is for, at most the %s its conductor allows"),
                        fuse, design, most));
    add(self, _("Fuse’s volts"),
        g_strdup_printf(_("made for %s V DC; up to %s V stand on it"), rated_v, volts));
    add(self, _("Short circuit"),
        g_strdup_printf(_("draws %s A; the fuse breaks up to %s A"), fault, breaks));
    add(self, _("Where"), wb_words_fuse_place(problem, circuit));
}

static void append_fitting(GString *text, const WbFitting *fitting, const char *what, int n)
{
    if (fitting == NULL)
        return;
    if (text->len > 0)
        g_string_append(text, ", ");
    g_string_append_printf(text, "%d " TIMES " %s (%s)", n, what, fitting->part.model);
}

static void add_fittings(WbReckoning *self, const WbProblem *problem, const WbCircuit *circuit)
{
    GString *text = g_string_new(NULL);
    int count = circuit->ask.count;
    append_fitting(text, circuit->holder, _("holder"), count);
    append_fitting(text, circuit->lug, _("lug"), circuit->ask.lugs * count);
    append_fitting(text, circuit->disconnect, _("disconnect"), count);
    if (circuit->missing_fittings > 0)
        g_string_append_printf(text, _("%s%d not sold in this catalogue"),
                               text->len > 0 ? "; " : "", circuit->missing_fittings);
    if (text->len > 0)
        add(self, _("Fittings"), g_string_free(text, FALSE));
    else
        g_string_free(text, TRUE);
    g_autofree char *cost = wb_words_money(circuit->cost_minor, problem->brief->currency);
    g_autofree char *weight = wb_text_number((double)circuit->weight_g / 1e3, 2);
    add(self, count > 1 ? _("Cost and weight of all") : _("Cost and weight"),
        g_strdup_printf(_("%s, %s kg"), cost, weight));
}

/* ---- what was assumed ---- */

static const struct {
    WbAssumption bit;
    const char *sentence;
} assumptions[] = {
    {WB_ASSUMED_INTERNAL_R,
     N_("The data sheet of the battery gives no internal resistance: a low one of its chemistry "
        "was used, so that the current of a short is rather too large.")},
    {WB_ASSUMED_STARTER,
     N_("Nothing is known of the starter battery: 5 mΩ for each 12 V were used.")},
    {WB_ASSUMED_LOWEST_V,
     N_("The data sheet of the inverter gives no lowest input voltage: 10 V for "
        "each 12 V were used, where it draws most.")},
};

static void add_assumed(WbReckoning *self, guint32 assumed)
{
    GString *text = g_string_new(NULL);
    for (gsize i = 0; i < G_N_ELEMENTS(assumptions); i++)
        if (assumed & assumptions[i].bit)
            g_string_append_printf(text, "%s%s", text->len > 0 ? " " : "",
                                   _(assumptions[i].sentence));
    if (text->len > 0)
        add(self, _("Assumed"), g_string_free(text, FALSE));
    else
        g_string_free(text, TRUE);
}

WbReckoning *wb_reckoning_new(const WbProblem *problem, const WbKit *kit, const WbCircuit *circuit)
{
    WbReckoning *self = g_new0(WbReckoning, 1);
    char *fault = wb_words_circuit_fault(problem, circuit);
    const char *safety = wb_words_circuit_safety(problem, kit, circuit->ask.kind);
    self->line = g_new0(WbCircuitLine, MOST_LINES);
    if (fault != NULL)
        add(self, _("Cannot be built"), fault);
    add_current(self, &circuit->ask);
    if (circuit->conductor != NULL) {
        add_conductor(self, circuit);
        add_drop(self, circuit);
    }
    if (circuit->ask.fused)
        add_fuse(self, problem, circuit);
    add_fittings(self, problem, circuit);
    add_assumed(self, circuit->ask.assumed);
    if (safety != NULL)
        add(self, _("Mind"), g_strdup(safety));
    return self;
}

void wb_reckoning_free(WbReckoning *self)
{
    for (gsize i = 0; i < self->n; i++) {
        g_free(self->line[i].label);
        g_free(self->line[i].text);
    }
    g_free(self->line);
    g_free(self);
}
