/* What is said of the whole wiring: polarity, earth, disconnects, and the cautions of circuits. */
#include "figures_text.h"
#include "words.h"
#include "words_circuit.h"

#include <glib/gi18n-lib.h>

/* Chassis and common point are common practice; equipment grounding: NEC 690.43 and 690.41. */
const char *wb_words_earthing(int rule_set)
{
    static const char *const texts[WB_RULES_BUILDING + 1] = {
        [WB_RULES_ROAD_VEHICLE] =
            N_("Join the negative bus bar to the chassis at one point only, with a conductor no "
               "thinner than the bank’s; bring every load’s negative back to the bus bar, not to "
               "the chassis. Local code and a licensed person decide."),
        [WB_RULES_BOAT] =
            N_("Join the negative bus bar to the boat’s one common earthing point and nowhere "
               "else; the hull carries no current (ISO 10133). With a metal hull ask a surveyor "
               "first. Local code and a licensed person decide."),
        [WB_RULES_BUILDING] =
            N_("Join the frames of panels, mounts, controller and inverter to the building’s "
               "earth (equipment grounding, NEC 690.43); earth the negative at one point or not "
               "at all, as the makers of controller and inverter say (NEC 690.41). Local code and "
               "a licensed person decide."),
    };
    return _(texts[rule_set]);
}

/* IEC 60445:2017 and ISO 10133:2012 from memory. */
const char *wb_words_polarity(int rule_set)
{
    if (rule_set == WB_RULES_BOAT)
        return _("One line stands for two conductors, + and −. Mark both ends of each. On a boat "
                 "positive is red and negative black or yellow (ISO 10133).");
    return _("One line stands for two conductors, + and −. Mark both ends of each. By IEC 60445 "
             "positive (L+) is red and negative (L−) white; keep to one scheme throughout.");
}

const char *wb_words_disconnects(void)
{
    return _(
        "Open the disconnects of panels and bank before any work, the panels’ first, and cover "
        "the panels: they are live in light. High-current DC can burn and start fires.");
}

const char *wb_words_plans_only(void)
{
    return _("Plans only; local code and licensed practice decide.");
}

/* Of the circuits that can burn, gas or kill in their own way; NULL: the general ones do. */
static const char *const cautions[WB_N_CIRCUITS] = {
    [WB_CIRCUIT_STRING] =
        N_("Panels are live whenever light falls on them: cover them before you touch a lead, and "
           "never part a DC plug under load."),
    [WB_CIRCUIT_ARRAY] =
        N_("Switch and fuse must be made for DC of this voltage: one made for AC goes on burning "
           "as an arc."),
    [WB_CIRCUIT_CHARGE] =
        N_("Connect the bank before the panels and part the panels before the bank: many "
           "controllers fail the other way round."),
    [WB_CIRCUIT_DCDC_IN] =
        N_("The starter battery feeds a short as strongly as the bank: its fuse stands at the "
           "starter battery."),
    [WB_CIRCUIT_SHORE] =
        N_("The charger’s mains side is work for a licensed person where the law asks for one."),
    [WB_CIRCUIT_BATTERY] =
        N_("Strings in parallel need conductors of the same length and size, and a fuse each: a "
           "string that fails is fed by the others."),
    [WB_CIRCUIT_MAIN] =
        N_("The first fuse sits at the battery. A short before it can weld a tool and burn: take "
           "off rings, cover the other terminal, and fit this fuse last."),
    [WB_CIRCUIT_INVERTER] =
        N_("The inverter’s output kills like the mains: never join it with shore power or a "
           "generator without a changeover switch; a sound neutral bond and residual-current "
           "protection belong to it. At currents like these a loose lug starts a fire."),
    [WB_CIRCUIT_LOAD] = N_("A load’s own fuse may have to be smaller: look at its plate."),
};

/* A bank that may cut itself off takes the charge from whoever charges it. */
static const char *charger_caution(const WbProblem *problem, const WbKit *kit)
{
    if (problem->storage[kit->storage].chemistry->family != WB_FAMILY_LITHIUM)
        return NULL;
    return _("A lithium bank’s own protection may cut off under charge without warning, and the "
             "surge can destroy an alternator: use a charger that stands it.");
}

const char *wb_words_circuit_safety(const WbProblem *problem, const WbKit *kit, WbCircuitKind kind)
{
    if (kind == WB_CIRCUIT_DCDC_OUT)
        return charger_caution(problem, kit);
    return cautions[kind] != NULL ? _(cautions[kind]) : NULL;
}

char *wb_words_wiring(const WbProblem *problem, const WbWiring *wiring)
{
    g_autofree char *cost = wb_words_money(wiring->cost_minor, problem->brief->currency);
    g_autofree char *weight = wb_text_number((double)wiring->weight_g / 1e3, 1);
    GString *text = g_string_new(NULL);
    g_string_append_printf(text, ngettext("%d circuit", "%d circuits", (unsigned long)wiring->n),
                           (int)wiring->n);
    /* Translators: after "12 circuits": cost, weight. */
    g_string_append_printf(text, _("; conductors, fuses and fittings: %s, %s kg."), cost, weight);
    if (wiring->faults > 0)
        g_string_append_printf(text,
                               ngettext(" %d circuit cannot be built from this catalogue.",
                                        " %d circuits cannot be built from this catalogue.",
                                        (unsigned long)wiring->faults),
                               wiring->faults);
    if (wiring->missing_fittings > 0)
        g_string_append_printf(
            text,
            ngettext(" %d fitting is not sold in this catalogue; the allowance has to pay for it.",
                     " %d fittings are not sold in this catalogue; the allowance has to pay for "
                     "them.",
                     (unsigned long)wiring->missing_fittings),
            wiring->missing_fittings);
    return g_string_free(text, FALSE);
}
