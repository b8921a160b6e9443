#include "circuit_cells.h"

#include "figures_text.h"
#include "words_circuit.h"
#include <glib/gi18n-lib.h>

const char *wb_circuit_head(WbCircuitColumn column)
{
    static const char *const heads[WB_CIRCUIT_COLUMNS] = {
        [WB_CIRCUIT_NO] = NC_("column head, short", "No."),
        [WB_CIRCUIT_NAME] = NC_("column head, short", "Circuit"),
        [WB_CIRCUIT_CONDUCTOR] = NC_("column head, short", "Copper"),
        [WB_CIRCUIT_LENGTH] = NC_("column head, short", "Way, m"),
        [WB_CIRCUIT_FUSE] = NC_("column head, short", "Fuse"),
        [WB_CIRCUIT_AMPS] = NC_("column head, short", "For, A"),
        [WB_CIRCUIT_DROP] = NC_("column head, short", "Drop, %"),
        [WB_CIRCUIT_TOTAL] = NC_("column head, short", "In all, %"),
        [WB_CIRCUIT_DECIDED] = NC_("column head, short", "Decided by"),
    };
    return g_dpgettext2(NULL, "column head, short", heads[column]);
}

gboolean wb_circuit_column_is_figure(WbCircuitColumn column)
{
    return column == WB_CIRCUIT_LENGTH || column == WB_CIRCUIT_AMPS || column == WB_CIRCUIT_DROP ||
           column == WB_CIRCUIT_TOTAL;
}

/* Where nothing could be chosen. */
static const char *decided(const WbCircuit *circuit)
{
    if (circuit->fault != WB_CIRCUIT_SOUND)
        return _("cannot be built");
    return circuit->by_drop ? _("drop") : _("current");
}

/* All are copper. */
static char *conductor_text(const WbConductor *conductor)
{
    g_autofree char *size = wb_words_size(conductor);
    if (conductor == NULL)
        return g_steal_pointer(&size);
    return g_strdup_printf(_("%s, %d °C"), size, (int)conductor->insulation_c);
}

static double figure(const WbCircuit *circuit, WbCircuitColumn column)
{
    if (column == WB_CIRCUIT_LENGTH)
        return circuit->ask.one_way_m;
    if (column == WB_CIRCUIT_AMPS)
        return circuit->ask.design_a;
    if (circuit->conductor == NULL)
        return WB_MISSING;
    return column == WB_CIRCUIT_DROP ? circuit->drop_pct : circuit->total_pct;
}

char *wb_circuit_cell(const WbProblem *problem, const WbWiring *wiring, gsize row,
                      WbCircuitColumn column)
{
    const WbCircuit *circuit = &wiring->circuit[row];
    gboolean share = column == WB_CIRCUIT_DROP || column == WB_CIRCUIT_TOTAL;
    if (wb_circuit_column_is_figure(column))
        return wb_text_number(figure(circuit, column), share ? 2 : 1);
    switch (column) {
    case WB_CIRCUIT_NO:
        return g_strdup_printf("%d", (int)row + 1);
    case WB_CIRCUIT_NAME:
        return wb_words_circuit_title(problem, circuit);
    case WB_CIRCUIT_CONDUCTOR:
        return conductor_text(circuit->conductor);
    case WB_CIRCUIT_FUSE:
        return circuit->ask.fused ? wb_words_fuse(circuit->fuse) : g_strdup(_("none needed"));
    case WB_CIRCUIT_DECIDED:
        return g_strdup(decided(circuit));
    case WB_CIRCUIT_LENGTH:
    case WB_CIRCUIT_AMPS:
    case WB_CIRCUIT_DROP:
    case WB_CIRCUIT_TOTAL:
    case WB_CIRCUIT_COLUMNS:
        break;
    }
    g_return_val_if_reached(NULL);
}
