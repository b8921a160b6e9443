#include "cli_circuits.h"

#include "cli_table.h"
#include "figures_text.h"
#include "words_circuit.h"
#include <glib/gi18n-lib.h>
#include <math.h>

/* The temperature tells which insulation. */
static char *short_conductor(const WbConductor *conductor)
{
    g_autofree char *size = wb_words_size(conductor);
    return conductor == NULL ? g_strdup("-")
                             : g_strdup_printf("%s %d °C", size, (int)conductor->insulation_c);
}

/* "2.33 of 3". */
static char *drop_text(const WbCircuit *circuit)
{
    double allowed_pct = circuit->ask.allowed_pct;
    g_autofree char *total = wb_text_number(circuit->total_pct, 2);
    g_autofree char *allowed =
        wb_text_number(allowed_pct, allowed_pct == floor(allowed_pct) ? 0 : 1);
    return circuit->fault == WB_CIRCUIT_SOUND ? g_strdup_printf(_("%s of %s"), total, allowed)
                                              : g_strdup("-");
}

static void append_row(WbTable *table, const WbProblem *problem, const WbCircuit *circuit)
{
    const WbCircuitAsk *ask = &circuit->ask;
    bool sound = circuit->fault == WB_CIRCUIT_SOUND;
    wb_table_cell(table, wb_words_circuit_title(problem, circuit));
    wb_table_cell(table, wb_text_number(ask->one_way_m, 1));
    wb_table_cell(table, wb_text_number(ask->design_a, 1));
    wb_table_cell(table, short_conductor(circuit->conductor));
    wb_table_cell(table, wb_words_fuse(circuit->fuse));
    wb_table_cell(table, drop_text(circuit));
    wb_table_cell(table, g_strdup(sound ? circuit->by_drop ? _("drop") : _("current") : "-"));
}

/* What cannot be built, one sentence each. */
static void append_faults(GString *out, const WbProblem *problem, const WbWiring *wiring)
{
    for (gsize i = 0; i < wiring->n; i++) {
        g_autofree char *fault = wb_words_circuit_fault(problem, &wiring->circuit[i]);
        if (fault != NULL)
            wb_cli_wrap(out, "  - ", fault);
    }
}

/* Of every kind of circuit the caution that belongs to it, and where its fuse stands. */
static void append_cautions(GString *out, const WbProblem *problem, const WbKit *kit,
                            const WbWiring *wiring)
{
    for (gsize i = 0; i < wiring->n; i++) {
        const WbCircuit *circuit = &wiring->circuit[i];
        if (i > 0 && wiring->circuit[i - 1].ask.kind == circuit->ask.kind)
            continue;
        const char *caution = wb_words_circuit_safety(problem, kit, circuit->ask.kind);
        g_autofree char *place = wb_words_fuse_place(problem, circuit);
        if (caution == NULL && place == NULL)
            continue;
        g_autofree char *line = g_strdup_printf(
            "%s: %s%s%s", wb_words_circuit(circuit->ask.kind), place != NULL ? place : "",
            place != NULL && caution != NULL ? " " : "", caution != NULL ? caution : "");
        wb_cli_wrap(out, "  ! ", line);
    }
}

static void append_fault_currents(GString *out, const WbWiring *wiring)
{
    g_autofree char *bank = wb_words_amps(wiring->bank_fault_a);
    g_autofree char *bus = wb_words_amps(wiring->bus_fault_a);
    g_autofree char *text =
        g_strdup_printf(_("A short draws %s at the bank, %s at the bus bars"), bank, bus);
    g_autofree char *block = wb_words_amps(wiring->block_fault_a);
    g_autofree char *line = wiring->block_fault_a > 0
                                ? g_strdup_printf(_("%s, %s at the fuse block."), text, block)
                                : g_strdup_printf("%s.", text);
    wb_cli_wrap(out, "", line);
}

static void append_fittings(GString *out, const WbWiring *wiring)
{
    if (wiring->bus != NULL)
        g_string_append_printf(out, _("Bus bars: %s %s\n"), wiring->bus->part.maker,
                               wiring->bus->part.model);
    for (int form = 0; form < WB_N_FUSE_FORMS; form++)
        if (wiring->blocks[form].block != NULL)
            g_string_append_printf(out, _("Fuse block: %d x %s %s\n"), wiring->blocks[form].count,
                                   wiring->blocks[form].block->part.maker,
                                   wiring->blocks[form].block->part.model);
}

void wb_cli_circuits_text(GString *out, const WbProblem *problem, const WbKit *kit,
                          const WbWiring *wiring)
{
    if (wiring->n == 0)
        return;
    g_autoptr(WbTable) table = wb_table_new(_("Circuit|>m|>For A|Conductor|Fuse|>Drop %|By"));
    for (gsize i = 0; i < wiring->n; i++)
        append_row(table, problem, &wiring->circuit[i]);
    g_string_append_printf(out, "\n%s\n", _("Circuits"));
    wb_table_append(table, out);
    g_autofree char *sums = wb_words_wiring(problem, wiring);
    wb_cli_wrap(out, "", sums);
    wb_cli_wrap(out, "",
                _("By: whether current or drop decided the size. Lengths are one way; the drop is "
                  "the sum from the source to the circuit's end "
                  "while everything runs, out and back, at the conductor's own heat."));
    append_faults(out, problem, wiring);
    append_fault_currents(out, wiring);
    append_fittings(out, wiring);
    append_cautions(out, problem, kit, wiring);
    wb_cli_wrap(out, "  ! ", wb_words_earthing(problem->brief->rule_set));
    wb_cli_wrap(out, "  ! ", wb_words_polarity(problem->brief->rule_set));
    wb_cli_wrap(out, "  ! ", wb_words_disconnects());
    wb_cli_wrap(out, "  ! ", wb_words_plans_only());
}
