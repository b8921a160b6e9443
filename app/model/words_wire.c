/* In which circuits of a kit a conductor, fuse or fitting is, and why not in the others. */
#include "words_part.h"

#include "figures_text.h"
#include "words.h"
#include "words_circuit.h"
#include <glib/gi18n-lib.h>

/* Sentences of two numbers, after the circuit's title. */
typedef struct {
    int decimals;
    const char *sentence;
} Reason;

static const Reason of_conductor[WB_N_CIRCUIT_FAULTS] = {
    [WB_CIRCUIT_OVER_AMPS] = {1, N_("%s: %s A are asked of it; it carries %s A here.")},
    [WB_CIRCUIT_OVER_DROP] = {2, N_("%s: with it %s %% is lost on the way; %s %% is allowed.")},
    [WB_CIRCUIT_UNPROTECTED] = {1, N_("%s: the fuse is %s A; it may be fused at %s A at most.")},
};

static const Reason of_fuse[WB_N_CIRCUIT_FAULTS] = {
    [WB_CIRCUIT_OVER_AMPS] = {1, N_("%s: %s A are asked of the conductor; the most any carries is "
                                    "%s A.")},
    [WB_CIRCUIT_OVER_DROP] = {2, N_("%s: behind it at least %s %% is lost; %s %% is allowed.")},
    [WB_CIRCUIT_OVER_FUSE_V] = {1, N_("%s: up to %s V stand on it; it is made for %s V DC.")},
    [WB_CIRCUIT_OVER_INTERRUPT] = {0, N_("%s: a short draws %s A; it breaks at most %s A.")},
    [WB_CIRCUIT_OVER_FUSE_A] = {1, N_("%s: %s A or more are needed; it is made for %s A.")},
    [WB_CIRCUIT_OVER_SERIES_FUSE] =
        {1, N_("%s: it is made for %s A; the panel’s maker allows at most %s A.")},
    [WB_CIRCUIT_UNPROTECTED] =
        {1, N_("%s: it is made for %s A; no conductor may be fused above %s A here.")},
};

static const Reason of_verdict[] = {
    [WB_WIRE_AMPS] = {1, N_("%s: %s A are asked of it; it takes %s A.")},
    [WB_WIRE_VOLTS] = {1, N_("%s: up to %s V stand on it; it takes %s V DC.")},
    [WB_WIRE_AREA] = {1, N_("%s: the conductor has %s mm²; its range ends at %s mm².")},
    [WB_WIRE_LARGER] = {0, N_("%s: it would do, but a smaller fuse is enough: not %s A but %s A.")},
};

static char *by_numbers(const Reason *reason, const char *title, const WbWirePlace *place)
{
    g_autofree char *value = wb_text_number(place->value, reason->decimals);
    g_autofree char *limit = wb_text_number(place->limit, reason->decimals);
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
    return g_strdup_printf(_(reason->sentence), title, value, limit);
#pragma GCC diagnostic pop
}

static char *fault_text(const WbAnswerTalk *talk, const WbCircuit *circuit, const char *title,
                        const WbWirePlace *place)
{
    const Reason *reasons = talk->answer->kind == WB_KIND_FUSE ? of_fuse : of_conductor;
    if (reasons[place->fault].sentence != NULL)
        return by_numbers(&reasons[place->fault], title, place);
    /* The fuse of this circuit cannot be had, whatever the conductor. */
    char *whole = wb_words_circuit_fault(talk->problem, circuit);
    return whole != NULL ? whole : g_strdup_printf(_("%s: it cannot be fused."), title);
}

static char *dearer_text(const WbAnswerTalk *talk, const char *title, const WbWirePlace *place)
{
    const char *currency = talk->problem->brief->currency;
    if (isnan(place->value) || isnan(place->limit))
        return g_strdup_printf(_("%s: it would do, but another is taken."), title);
    g_autofree char *its = wb_words_money((gint64)place->value, currency);
    g_autofree char *taken = wb_words_money((gint64)place->limit, currency);
    if (place->value == place->limit)
        return g_strdup_printf(_("%s: it would do, and costs %s as the one taken does; of equals "
                                 "the smaller or first stands."),
                               title, its);
    return g_strdup_printf(_("%s: it would do, but costs %s; the one taken costs %s."), title, its,
                           taken);
}

static char *place_text(const WbAnswerTalk *talk, const WbWirePlace *place)
{
    const WbCircuit *circuit = &talk->answer->wiring.circuit[place->circuit];
    g_autofree char *title = wb_words_circuit_title(talk->problem, circuit);
    switch (place->verdict) {
    case WB_WIRE_USED:
        return g_strdup_printf(_("%s: it is used here."), title);
    case WB_WIRE_FAULT:
        return fault_text(talk, circuit, title, place);
    case WB_WIRE_FORM:
        return g_strdup_printf(_("%s: the fuse has another form than it takes."), title);
    case WB_WIRE_DEARER:
        return dearer_text(talk, title, place);
    case WB_WIRE_AMPS:
    case WB_WIRE_VOLTS:
    case WB_WIRE_AREA:
    case WB_WIRE_LARGER:
        break;
    }
    return by_numbers(&of_verdict[place->verdict], title, place);
}

static char *headline(const WbPartAnswer *answer)
{
    gsize uses = 0;
    for (gsize i = 0; i < answer->n_places; i++)
        uses += answer->place[i].verdict == WB_WIRE_USED;
    if (answer->n_places == 0)
        return g_strdup(_("No circuit of this kit has a use for such a part."));
    if (uses == 0)
        return g_strdup(_("It is in no circuit of this kit."));
    return g_strdup_printf(g_dngettext(GETTEXT_PACKAGE,
                                       "It is in %" G_GSIZE_FORMAT " circuit of this kit.",
                                       "It is in %" G_GSIZE_FORMAT " circuits of this kit.", uses),
                           uses);
}

void wb_words_part_circuits(WbAnswerTalk *talk)
{
    WbPartAnswer *answer = talk->answer;
    answer->headline = headline(answer);
    wb_talk_add(talk, g_strdup(_("The kit asked about:")), &answer->kit);
    for (gsize i = 0; i < answer->n_places; i++)
        wb_talk_add(talk, place_text(talk, &answer->place[i]), NULL);
}
