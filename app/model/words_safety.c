/* Cautions that stand beside the figure they concern, and the general ones of a kit. */
#include "words.h"

#include "figures_text.h"
#include <glib/gi18n-lib.h>
#include <math.h>

static const char *const beside[WB_N_RULES] = {
    [WB_RULE_SYSTEM_VOLTAGE] =
        N_("Panels are live whenever light falls on them: cover them before you touch a lead."),
    [WB_RULE_COLD_VOC] =
        N_("Panels are live whenever light falls on them: cover them before you touch a lead, and "
           "never part a DC plug under load."),
    [WB_RULE_PV_CURRENT] =
        N_("Conductor and fuse of the panels are sized for 1.5625 x the short-circuit current, and "
           "made for DC."),
    [WB_RULE_STRING_FUSE] = N_("Use fuses made for DC of at least the string's cold voltage."),
    [WB_RULE_INVERTER_CONTINUOUS] =
        N_("The inverter's output kills like the mains: residual-current protection and a sound "
           "neutral bond belong to it, by a licensed person where the law asks for one."),
    [WB_RULE_INVERTER_DRAW] =
        N_("Currents like these start fires in a loose lug: the first fuse sits at the battery, "
           "and the battery is disconnected before any work."),
    [WB_RULE_PEAK_DRAW] = N_("The first fuse sits at the battery, and no larger than the conductor "
                             "behind it can carry."),
    [WB_RULE_INVERTER_SURGE_DRAW] =
        N_("Currents like these start fires in a loose lug: tighten every one by its torque, and "
           "look at them again after a month."),
    [WB_RULE_TOUCH_VOLTAGE] =
        N_("Direct current of this voltage can hold a hand fast and kill: cover the panels and "
           "open their disconnect before you touch anything."),
    [WB_RULE_SHORE_CHARGE] =
        N_("Shore power and the inverter's output are never joined without a changeover switch; "
           "the mains side is work for a licensed person where the law asks for one."),
    [WB_RULE_BANK_CIRCUITS] =
        N_("A conductor without a fuse that protects it burns: the first fuse sits at the battery, "
           "and the battery is disconnected before any work."),
    [WB_RULE_SOURCE_CIRCUITS] =
        N_("Panels are live whenever light falls on them, and what parts their circuit must be "
           "made for DC: cover them before you touch a lead."),
    [WB_RULE_COLD_CHARGE] = N_("A lithium battery charged too cold plates metal inside and can "
                               "fail short later."),
    [WB_RULE_FREEZING] = N_("Never charge a frozen battery: it can burst and spill acid."),
    [WB_RULE_VENTILATION] =
        N_("Hydrogen explodes: vent the battery's box to the outside, keep sparks away, and keep "
           "it out of the air people sleep in."),
    [WB_RULE_DCDC_ALTERNATOR] =
        N_("When a battery's own protection cuts off under charge, the surge can destroy the "
           "alternator: use a charger that stands it."),
    [WB_RULE_CHARGE_MAXIMUM] =
        N_("Charging above the limit overheats a battery; a lithium bank's own protection may cut "
           "off instead, without warning."),
    [WB_RULE_SUPPLY] = N_("This is a mean day: some weeks bring less, so do not hang anything on "
                          "it that keeps someone alive."),
};

/* Where the kit is built decides what is to be feared. */
typedef struct {
    WbRule rule;
    const char *text[WB_RULES_BUILDING + 1];
} ByPlace;

static const ByPlace by_place[] = {
    {WB_RULE_ROOF_FIT,
     {N_("Fix the panels against the wind of the road and the storm, and seal every hole: a panel "
         "that comes off kills."),
      N_("Fix the panels against gale and sea with fittings that stand salt, and seal every hole: "
         "a panel that comes off kills."),
      N_("Fix the panels against the storm, and seal every hole: a panel that comes off kills.")}},
    {WB_RULE_ROOF_LOAD,
     {N_("Ask the vehicle's or roof's maker what it carries while it moves."),
      N_("Ask the boat's builder or a surveyor what the deck carries in a seaway."),
      N_("Have it judged what the roof carries with wind and snow on top of the panels.")}},
    {WB_RULE_ROOF_HEIGHT,
     {N_("What stands high takes the wind of the road: fix it for that, and mind low bridges and "
         "boughs."),
      N_("What stands high takes the gale: fix it for that, and keep it clear of boom and lines."),
      N_("What stands high takes the storm: fix it for that.")}},
    {WB_RULE_BAY_FIT,
     {N_("Fasten the batteries so that they stay put in a crash or a roll-over."),
      N_("Fasten the batteries so that they stay put in a knockdown or a capsize."),
      N_("Fasten the batteries so that they cannot tip, and cover their terminals.")}},
    {WB_RULE_WEIGHT,
     {N_("Have the loaded vehicle weighed: axle and roof limits bind as well as the total."),
      N_("Weight changes a hull's stability and trim: keep it low and near the middle, and ask the "
         "boat's builder what she carries."),
      N_("Have it judged what the roof and the floor under the bank carry.")}},
};

static const char *caution_text(const WbProblem *problem, WbRule rule)
{
    for (gsize i = 0; i < G_N_ELEMENTS(by_place); i++)
        if (by_place[i].rule == rule)
            return by_place[i].text[problem->brief->rule_set];
    return beside[rule];
}

static bool concerns(const WbFinding *finding)
{
    return !finding->holds || !isnan(finding->value);
}

/* What draws much from a bank that may cut itself off. */
static const char *cut_off(WbRule rule, bool lithium)
{
    bool draws = rule == WB_RULE_INVERTER_DRAW || rule == WB_RULE_INVERTER_SURGE_DRAW ||
                 rule == WB_RULE_PEAK_DRAW;
    if (!lithium || !draws)
        return NULL;
    return N_("A lithium bank's own protection may cut off under load without warning.");
}

/* Cold hurts lithium in charging, whatever its limit says; other rules speak for all kits. */
char *wb_words_safety(const WbProblem *problem, const WbVerdict *verdict, const WbFinding *finding)
{
    const char *text = caution_text(problem, finding->rule);
    if (text == NULL || !concerns(finding))
        return NULL;
    bool lithium = problem->storage[verdict->kit.storage].chemistry->family == WB_FAMILY_LITHIUM;
    const char *more = cut_off(finding->rule, lithium);
    if (finding->rule == WB_RULE_COLD_CHARGE && !lithium)
        return NULL;
    return more == NULL ? g_strdup(_(text)) : g_strdup_printf("%s %s", _(text), _(more));
}

static void add(GPtrArray *notes, bool applies, const char *note)
{
    if (applies)
        g_ptr_array_add(notes, g_strdup(note));
}

static void add_battery_notes(GPtrArray *notes, const WbChemistry *chemistry, int rules)
{
    add(notes, true,
        _("Disconnect battery and panels before any work, and fit the first fuse at the battery."));
    add(notes, rules == WB_RULES_ROAD_VEHICLE,
        _("Fasten the batteries so that they stay put in a crash or a roll-over."));
    add(notes, rules == WB_RULES_BOAT,
        _("Fasten the batteries so that they stay put in a knockdown or a capsize, and stow them "
          "low: their weight changes the hull's stability and trim."));
    add(notes, chemistry->family == WB_FAMILY_LITHIUM,
        _("A lithium bank's own protection may cut off under load without warning, and can damage "
          "an alternator that charges it."));
}

/* The air by IEC 62485-2 is the finding's own figure. */
static void add_hydrogen(GPtrArray *notes, const WbChemistry *chemistry, const WbFinding *finding)
{
    if (chemistry->gassing == WB_GAS_NONE)
        return;
    if (isnan(finding->value)) {
        add(notes, true,
            _("Lead-acid batteries give off hydrogen while they charge: air their space to the "
              "outside and keep sparks and sleepers away."));
        return;
    }
    g_autofree char *air = wb_text_number(finding->value, finding->value < 1 ? 2 : 1);
    g_ptr_array_add(notes, g_strdup_printf(_("Lead-acid batteries give off hydrogen while they "
                                             "charge: this bank needs %s m³ of fresh air an hour "
                                             "(IEC 62485-2). Air its space to the outside, keep "
                                             "sparks away, and keep it out of the air people "
                                             "sleep in."),
                                           air));
}

char **wb_words_safety_notes(const WbProblem *problem, const WbVerdict *verdict)
{
    GPtrArray *notes = g_ptr_array_new();
    int rules = problem->brief->rule_set;
    bool inverter = problem->inverters[verdict->kit.inverter].inverter != NULL;
    const WbChemistry *chemistry = problem->storage[verdict->kit.storage].chemistry;
    add_battery_notes(notes, chemistry, rules);
    g_autofree char *shipping = wb_words_shipping(problem, &verdict->kit);
    add(notes, shipping != NULL, shipping);
    add_hydrogen(notes, chemistry, &verdict->finding[WB_RULE_VENTILATION]);
    add(notes, inverter,
        _("Never join the inverter's output with shore power or a generator without a changeover "
          "switch; it needs a neutral bond and residual-current protection."));
    add(notes, true,
        _("Panels are live whenever light falls on them; fix them against wind, and seal every "
          "hole in the roof."));
    add(notes, rules == WB_RULES_BOAT,
        _("On a boat use tinned conductors and gear that does not spark wherever petrol vapour can "
          "gather, and keep every joint out of spray and salt."));
    add(notes, !problem->brief->wiring.on,
        _("Wires and fuses are not sized, for the brief leaves the wiring out: size every circuit "
          "before you buy cable."));
    add(notes, true,
        _("This tool plans; it does not replace local codes or licensed practice. High-current DC, "
          "batteries and roof work can burn, gas and kill."));
    g_ptr_array_add(notes, NULL);
    return (char **)g_ptr_array_free(notes, FALSE);
}

char *wb_words_shipping(const WbProblem *problem, const WbKit *kit)
{
    if (problem->storage[kit->storage].chemistry->family != WB_FAMILY_LITHIUM)
        return NULL;
    return g_strdup(_("Lithium batteries travel under dangerous-goods rules: ask the shop how they "
                      "ship and how they may be returned."));
}
