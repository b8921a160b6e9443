/* What a circuit is called, what answers it, and what cannot be built. */
#include "words_circuit.h"

#include "figures_text.h"
#include <glib/gi18n-lib.h>
#include <math.h>

#define DASH "\342\200\223"

const char *wb_words_circuit(WbCircuitKind kind)
{
    static const char *const names[WB_N_CIRCUITS] = {
        [WB_CIRCUIT_STRING] = N_("Panel string"),
        [WB_CIRCUIT_ARRAY] = N_("Panels to controller"),
        [WB_CIRCUIT_CHARGE] = N_("Controller to bus bars"),
        [WB_CIRCUIT_DCDC_IN] = N_("Starter battery to DC-DC charger"),
        [WB_CIRCUIT_DCDC_OUT] = N_("DC-DC charger to bus bars"),
        [WB_CIRCUIT_SHORE] = N_("Shore charger to bus bars"),
        [WB_CIRCUIT_BATTERY] = N_("Battery string"),
        [WB_CIRCUIT_MAIN] = N_("Bank to bus bars"),
        [WB_CIRCUIT_INVERTER] = N_("Bus bars to inverter"),
        [WB_CIRCUIT_FEED] = N_("Bus bars to fuse block"),
        [WB_CIRCUIT_LOAD] = N_("Fuse block to load"),
    };
    return _(names[kind]);
}

static gboolean is_load(const WbProblem *problem, const WbCircuitAsk *ask)
{
    return ask->kind == WB_CIRCUIT_LOAD && ask->load >= 0 &&
           (gsize)ask->load < problem->brief->n_loads;
}

char *wb_words_circuit_title(const WbProblem *problem, const WbCircuit *circuit)
{
    const WbCircuitAsk *ask = &circuit->ask;
    const char *name =
        is_load(problem, ask) ? problem->brief->loads[ask->load].name : wb_words_circuit(ask->kind);
    if (ask->count <= 1)
        return g_strdup(name);
    /* Translators: a circuit that is there several times: "Panel string (2 alike)". */
    return g_strdup_printf(_("%s (%d alike)"), name, ask->count);
}

char *wb_words_size(const WbConductor *conductor)
{
    if (conductor == NULL)
        return g_strdup(DASH);
    if (conductor->system == WB_SIZE_METRIC)
        return g_strdup_printf("%s mm\302\262", conductor->size);
    return g_strdup_printf("%s AWG", conductor->size);
}

char *wb_words_conductor(const WbConductor *conductor)
{
    g_autofree char *size = wb_words_size(conductor);
    if (conductor == NULL)
        return g_steal_pointer(&size);
    /* Translators: size, temperature the insulation stands: "10 mm² copper, 90 °C". */
    return g_strdup_printf(_("%s copper, %d °C"), size, (int)conductor->insulation_c);
}

const char *wb_words_fuse_form(int64_t form)
{
    static const char *const names[WB_N_FUSE_FORMS] = {
        [WB_FUSE_BLADE] = N_("blade"),     [WB_FUSE_MIDI] = N_("MIDI"),
        [WB_FUSE_MEGA] = N_("MEGA"),       [WB_FUSE_ANL] = N_("ANL"),
        [WB_FUSE_CLASS_T] = N_("class T"), [WB_FUSE_TERMINAL] = N_("terminal"),
        [WB_FUSE_GPV] = N_("10×38"),
    };
    g_return_val_if_fail(form >= 0 && form < WB_N_FUSE_FORMS, "");
    return _(names[form]);
}

char *wb_words_fuse(const WbFuse *fuse)
{
    if (fuse == NULL)
        return g_strdup(DASH);
    g_autofree char *rating =
        wb_text_number(fuse->rating_a, fuse->rating_a == floor(fuse->rating_a) ? 0 : 1);
    return g_strdup_printf("%s A %s", rating, wb_words_fuse_form(fuse->form));
}

char *wb_words_amps(double amps)
{
    g_autofree char *number = wb_text_number(amps, amps >= 100 ? 0 : amps >= 1 ? 1 : 2);
    return g_strdup_printf("%s A", number);
}

const char *wb_words_decided(const WbCircuit *circuit)
{
    return circuit->by_drop ? _("voltage drop") : _("current");
}

/* ---- faults ---- */

typedef struct {
    int decimals;
    const char *sentence, *change;
} Fault;

static const Fault faults[WB_N_CIRCUIT_FAULTS] = {
    [WB_CIRCUIT_OVER_AMPS] =
        {1,
         N_("%s: %s A are asked of its conductor; the most any of the catalogue carries here is "
            "%s A."),
         N_("Shorten what runs at once, choose a higher system voltage, or add a thicker conductor "
            "to the catalogue.")},
    [WB_CIRCUIT_OVER_DROP] =
        {2, N_("%s: at least %s %% is lost from the source to its end; %s %% is allowed."),
         N_("Shorten the way, choose a higher system voltage, or add a thicker conductor to the "
            "catalogue.")},
    [WB_CIRCUIT_OVER_FUSE_V] =
        {1,
         N_("%s: up to %s V stand on it; the fuses of the catalogue are made for at most %s V "
            "DC."),
         N_("Put fewer panels in series, or add a fuse made for that voltage to the catalogue.")},
    [WB_CIRCUIT_OVER_INTERRUPT] =
        {0,
         N_("%s: a short behind its fuse draws %s A; the fuses of its voltage break at most %s "
            "A."),
         N_("Add a fuse that breaks more, such as class T, to the catalogue, or choose a bank of "
            "fewer strings.")},
    [WB_CIRCUIT_OVER_FUSE_A] =
        {1, N_("%s: it needs a fuse of %s A or more; the largest that suffices otherwise is %s A."),
         N_("Choose a higher system voltage, or add a larger fuse to the catalogue.")},
    [WB_CIRCUIT_OVER_SERIES_FUSE] =
        {1,
         N_("%s: the smallest fuse that carries it is %s A; the panel’s maker allows at most %s "
            "A."),
         N_("Add a fuse of a rating between the two to the catalogue, or choose another panel.")},
    [WB_CIRCUIT_UNPROTECTED] =
        {1,
         N_("%s: its smallest fuse is %s A; no conductor of the catalogue may be fused above %s "
            "A here."),
         N_("Add a thicker conductor or a fuse of a rating between the two to the catalogue.")},
};

/* As many decimals as it takes to tell the two numbers apart. */
static int telling(double value, double limit, int decimals)
{
    const int most = 6;
    for (double scale = pow(10, decimals);
         decimals < most && value != limit && round(value * scale) == round(limit * scale);
         scale *= 10)
        decimals++;
    return decimals;
}

char *wb_words_circuit_fault(const WbProblem *problem, const WbCircuit *circuit)
{
    if (circuit->fault == WB_CIRCUIT_SOUND)
        return NULL;
    const Fault *fault = &faults[circuit->fault];
    int decimals = telling(circuit->value, circuit->limit, fault->decimals);
    g_autofree char *title = wb_words_circuit_title(problem, circuit);
    g_autofree char *value = wb_text_number(circuit->value, decimals);
    g_autofree char *limit = wb_text_number(circuit->limit, decimals);
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
    g_autofree char *sentence = g_strdup_printf(_(fault->sentence), title, value, limit);
#pragma GCC diagnostic pop
    return g_strdup_printf("%s %s", sentence, _(fault->change));
}

/* ---- one line ---- */

char *wb_words_circuit_line(const WbProblem *problem, const WbCircuit *circuit)
{
    g_autofree char *fault = wb_words_circuit_fault(problem, circuit);
    if (fault != NULL)
        return g_steal_pointer(&fault);
    g_autofree char *title = wb_words_circuit_title(problem, circuit);
    g_autofree char *conductor = wb_words_conductor(circuit->conductor);
    g_autofree char *length = wb_text_number(circuit->ask.one_way_m, 1);
    g_autofree char *amps = wb_words_amps(circuit->ask.design_a);
    g_autofree char *drop = wb_text_number(circuit->drop_pct, 2);
    GString *text = g_string_new(NULL);
    /* Translators: a circuit, conductor, length in m, current it is made for, drop in percent. */
    g_string_append_printf(text, _("%s: %s, %s m one way, for %s, drop %s %%"), title, conductor,
                           length, amps, drop);
    if (circuit->fuse != NULL) {
        g_autofree char *fuse = wb_words_fuse(circuit->fuse);
        g_string_append_printf(text, _(", fuse %s"), fuse);
    }
    if (circuit->ask.switched)
        g_string_append(text, _(", with a disconnect"));
    g_string_append_printf(text, _("; decided by the %s."), wb_words_decided(circuit));
    return g_string_free(text, FALSE);
}

/* ---- its fuse ---- */

/* The end from which a short would be fed. (borrowed) */
static const char *source_of(WbCircuitKind kind)
{
    switch (kind) {
    case WB_CIRCUIT_STRING:
        return _("where the strings are joined");
    case WB_CIRCUIT_ARRAY:
        return _("where the strings are joined, before the way to the controller");
    case WB_CIRCUIT_DCDC_IN:
        return _("at the starter battery");
    case WB_CIRCUIT_BATTERY:
    case WB_CIRCUIT_MAIN:
        return _("at the battery’s positive terminal, before anything else");
    case WB_CIRCUIT_LOAD:
        return _("in the fuse block");
    case WB_CIRCUIT_CHARGE:
    case WB_CIRCUIT_DCDC_OUT:
    case WB_CIRCUIT_SHORE:
    case WB_CIRCUIT_INVERTER:
    case WB_CIRCUIT_FEED:
    case WB_N_CIRCUITS:
        break;
    }
    return _("at the positive bus bar");
}

char *wb_words_fuse_place(const WbProblem *problem, const WbCircuit *circuit)
{
    if (!circuit->ask.fused)
        return NULL;
    int rules = problem->brief->rule_set;
    g_autofree char *mm = wb_text_number(wb_fuse_within_mm(rules), 0);
    const char *place = source_of(circuit->ask.kind);
    if (rules == WB_RULES_BOAT)
        return g_strdup_printf(_("The fuse stands %s, within %s mm of conductor (33 CFR 183.455)."),
                               place, mm);
    return g_strdup_printf(_("The fuse stands %s, right where the conductor is fed (NEC 240.21)."),
                           place);
}
