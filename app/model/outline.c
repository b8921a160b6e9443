/* What each step of the job has come to, read from the brief at once and from the last result. */
#include "outline.h"
#include "figures_text.h"
#include "part_list.h"
#include "words.h"
#include <glib/gi18n-lib.h>
#include <string.h>

typedef struct {
    const WbBrief *brief;
    const WbCatalogue *catalogue;
    const WbResult *result;   /* may be NULL */
    const WbVerdict *verdict; /* of the kit in hand, NULL: none */
} Facts;

const char *wb_step_name(WbStep step)
{
    static const char *const names[WB_N_STEPS] = {"loads",   "place",   "roof", "parts",
                                                  "ranking", "storage", "kit",  "shopping"};
    return step < WB_N_STEPS ? names[step] : NULL;
}

const char *wb_step_title(WbStep step)
{
    static const char *const titles[WB_N_STEPS] = {
        N_("Loads"),   N_("Place & season"), N_("Roof"),    N_("Parts"),
        N_("Ranking"), N_("Storage"),        N_("The kit"), N_("Shopping")};
    return step < WB_N_STEPS ? _(titles[step]) : NULL;
}

/* Takes both texts. */
static void set(WbOutlineLine *out, WbMark mark, char *line, char *what)
{
    out->line = line;
    out->mark = mark;
    out->what = what;
}

static void loads_line(const Facts *facts, WbOutlineLine *out)
{
    const WbBrief *brief = facts->brief;
    WbSky *sky = g_new(WbSky, 1);
    WbLoadBudget *budget = g_new(WbLoadBudget, 1);
    double most_wh = 0;
    const char *unused = NULL;
    if (wb_sky(&brief->site, sky) == WB_OK) {
        wb_load_budget(brief, sky, budget);
        for (int m = 0; m < WB_MONTHS; m++)
            if (brief->site.months >> m & 1)
                most_wh = MAX(most_wh, budget->dc_day_wh[m] + budget->ac_day_wh[m]);
    }
    g_free(sky);
    g_free(budget);
    for (gsize i = 0; i < brief->n_loads && !unused; i++)
        if (!(brief->loads[i].months & brief->site.months))
            unused = brief->loads[i].name;
    g_autofree char *number = wb_text_number(most_wh, 0);
    char *line = g_strdup_printf(_("%s Wh/day"), number);
    if (brief->n_loads == 0)
        set(out, WB_MARK_WANTS, line, g_strdup(_("Add what you want to run.")));
    else if (unused)
        set(out, WB_MARK_CONFLICT, line,
            g_strdup_printf(_("%s runs in none of the months you travel."), unused));
    else
        set(out, WB_MARK_DONE, line, NULL);
}

/* The month that decides: of the kit in hand, else the one with the least sun on the panels. */
static int worst_month(const Facts *facts)
{
    if (facts->verdict)
        return facts->verdict->figures.worst_supply_month;
    int worst = -1;
    for (int m = 0; m < WB_MONTHS; m++)
        if (facts->brief->site.months >> m & 1 &&
            (worst < 0 || facts->brief->site.place.ghi_kwh_m2_day[m] <
                              facts->brief->site.place.ghi_kwh_m2_day[worst]))
            worst = m;
    return worst;
}

static void place_line(const Facts *facts, WbOutlineLine *out)
{
    int month = worst_month(facts);
    if (month < 0)
        set(out, WB_MARK_WANTS, g_strdup(facts->brief->site.place.name),
            g_strdup(_("Tick the months you travel.")));
    else
        set(out, WB_MARK_DONE, g_strdup_printf(_("worst: %s"), wb_text_month(month)), NULL);
}

static gboolean any_panel_fits(const WbProblem *problem)
{
    for (gsize i = 0; i < problem->n_panels; i++)
        if (problem->panels[i].fit.bound > 0)
            return TRUE;
    return problem->n_panels == 0;
}

static void roof_line(const Facts *facts, WbOutlineLine *out)
{
    double clear_m2 = (double)wb_roof_clear_mm2(&facts->brief->roof) / 1e6;
    g_autofree char *number = wb_text_number(clear_m2, 1);
    char *line = g_strdup_printf(_("%s m\302\262 clear"), number);
    if (clear_m2 <= 0)
        set(out, WB_MARK_CONFLICT, line,
            g_strdup(_("Margin and obstacles leave nothing of the roof.")));
    else if (facts->result && !any_panel_fits(wb_result_get_problem(facts->result)))
        set(out, WB_MARK_CONFLICT, line, g_strdup(_("No ticked panel fits on this roof.")));
    else
        set(out, WB_MARK_DONE, line, NULL);
}

static guint ticked_of(const Facts *facts, WbPartKind kind)
{
    guint n = 0;
    for (gsize i = 0; i < wb_catalogue_count(facts->catalogue, kind); i++)
        n += wb_brief_ticks(facts->brief, wb_catalogue_part(facts->catalogue, kind, i)->id);
    return n;
}

static void parts_line(const Facts *facts, WbOutlineLine *out)
{
    guint ticked[WB_KIND_DCDC + 1], all = 0;
    for (int kind = 0; kind <= WB_KIND_DCDC; kind++)
        all += ticked[kind] = ticked_of(facts, kind);
    char *line =
        g_strdup_printf(g_dngettext(GETTEXT_PACKAGE, "%u candidate", "%u candidates", all), all);
    if (!ticked[WB_KIND_PANEL])
        set(out, WB_MARK_WANTS, line, g_strdup(_("Tick a panel.")));
    else if (!ticked[WB_KIND_CONTROLLER])
        set(out, WB_MARK_WANTS, line, g_strdup(_("Tick a charge controller.")));
    else if (!ticked[WB_KIND_STORAGE])
        set(out, WB_MARK_WANTS, line, g_strdup(_("Tick a battery.")));
    else
        set(out, WB_MARK_DONE, line, NULL);
}

WbRule wb_outline_decisive_rule(const WbRanking *ranking)
{
    WbRule alone = 0, first = 0;
    for (WbRule rule = 1; rule < WB_N_RULES; rule++) {
        if (ranking->ruled_out[rule].alone > ranking->ruled_out[alone].alone)
            alone = rule;
        if (ranking->ruled_out[rule].first > ranking->ruled_out[first].first)
            first = rule;
    }
    return ranking->ruled_out[alone].alone > 0 ? alone : first;
}

char *wb_outline_why_none_works(const WbRanking *ranking)
{
    if (ranking->raw == 0)
        return g_strdup(_("There is no combination to try: a kind of part has no candidate."));
    WbRule rule = wb_outline_decisive_rule(ranking);
    guint64 n_alone = ranking->ruled_out[rule].alone;
    g_autofree char *raw = wb_text_number((double)ranking->raw, 0);
    g_autofree char *first = wb_text_number((double)ranking->ruled_out[rule].first, 0);
    g_autofree char *alone = wb_text_number((double)n_alone, 0);
    if (n_alone > 0)
        return g_strdup_printf(_("Of %s combinations, %s would work but for one thing: %s."), raw,
                               alone, wb_words_rule(rule));
    return g_strdup_printf(_("Of %s combinations, most fail here first: %s (%s)."), raw,
                           wb_words_rule(rule), first);
}

static void ranking_line(const Facts *facts, WbOutlineLine *out)
{
    if (!facts->result) {
        set(out, WB_MARK_WAITING, g_strdup(_("working it out")), NULL);
        return;
    }
    const WbRanking *ranking = wb_result_get_ranking(facts->result);
    g_autofree char *number = wb_text_number((double)ranking->feasible, 0);
    char *line =
        ranking->feasible ? g_strdup_printf(_("%s work"), number) : g_strdup(_("none works"));
    const char *clash = wb_result_get_clash_head(facts->result);
    if (ranking->feasible == 0)
        set(out, WB_MARK_CONFLICT, line,
            clash ? g_strdup(clash) : wb_outline_why_none_works(ranking));
    else
        set(out, WB_MARK_DONE, line, NULL);
}

static void without_kit(const Facts *facts, WbOutlineLine *out)
{
    set(out, facts->result ? WB_MARK_WANTS : WB_MARK_WAITING, g_strdup("\342\200\223"),
        facts->result ? g_strdup(_("No kit works yet.")) : NULL);
}

static void storage_line(const Facts *facts, WbOutlineLine *out)
{
    if (!facts->verdict) {
        without_kit(facts, out);
        return;
    }
    const WbProblem *problem = wb_result_get_problem(facts->result);
    const WbChemistry *chemistry = problem->storage[facts->verdict->kit.storage].chemistry;
    g_autofree char *number = wb_text_number(facts->verdict->figures.usable_wh, 0);
    set(out, WB_MARK_DONE, g_strdup_printf("%s Wh %s", number, chemistry->name), NULL);
}

static guint count_broken(const WbVerdict *verdict, WbSeverity severity)
{
    guint n = 0;
    for (int r = 0; r < WB_N_RULES; r++)
        n += !verdict->finding[r].holds && verdict->finding[r].severity == severity;
    return n;
}

static void kit_line(const Facts *facts, WbOutlineLine *out)
{
    if (!facts->verdict) {
        without_kit(facts, out);
        return;
    }
    guint stops = count_broken(facts->verdict, WB_STOP);
    guint cautions = count_broken(facts->verdict, WB_CAUTION);
    if (stops > 0)
        set(out, WB_MARK_CONFLICT,
            g_strdup_printf(g_dngettext(GETTEXT_PACKAGE, "%u stop", "%u stops", stops), stops),
            g_strdup(_("The kit in hand does not work; its page says why.")));
    else if (cautions > 0)
        set(out, WB_MARK_DONE,
            g_strdup_printf(g_dngettext(GETTEXT_PACKAGE, "%u caution", "%u cautions", cautions),
                            cautions),
            NULL);
    else
        set(out, WB_MARK_DONE, g_strdup(_("no cautions")), NULL);
}

static int still_to_buy(const WbSourced *sourced, int count)
{
    return MAX(count - sourced->owned, 0);
}

static void shopping_line(const Facts *facts, WbOutlineLine *out)
{
    if (!facts->verdict) {
        without_kit(facts, out);
        return;
    }
    const WbProblem *problem = wb_result_get_problem(facts->result);
    const WbKit *kit = &facts->verdict->kit;
    int n = still_to_buy(&problem->panels[kit->panel].sourced, kit->n_series * kit->n_parallel) +
            still_to_buy(&problem->controllers[kit->controller].sourced, kit->n_controllers) +
            still_to_buy(&problem->storage[kit->storage].sourced,
                         kit->bank_series * kit->bank_parallel);
    if (kit->inverter > 0)
        n += still_to_buy(&problem->inverters[kit->inverter].sourced, 1);
    if (kit->dcdc > 0)
        n += still_to_buy(&problem->dcdc[kit->dcdc].sourced, 1);
    gboolean wires = facts->verdict->figures.wiring_minor > 0;
    set(out, WB_MARK_DONE, g_strdup_printf(wires ? _("%d to buy, and wiring") : _("%d to buy"), n),
        NULL);
}

void wb_outline_make(const WbBrief *brief, const WbCatalogue *catalogue, const WbResult *result,
                     const char *kit_id, WbOutlineLine line[WB_N_STEPS])
{
    WbVerdict *verdict = g_new(WbVerdict, 1);
    gboolean judged = result && wb_result_judge(result, kit_id, verdict);
    Facts facts = {brief, catalogue, result, judged ? verdict : NULL};
    memset(line, 0, sizeof(WbOutlineLine) * WB_N_STEPS);
    loads_line(&facts, &line[WB_STEP_LOADS]);
    place_line(&facts, &line[WB_STEP_PLACE]);
    roof_line(&facts, &line[WB_STEP_ROOF]);
    parts_line(&facts, &line[WB_STEP_PARTS]);
    ranking_line(&facts, &line[WB_STEP_RANKING]);
    storage_line(&facts, &line[WB_STEP_STORAGE]);
    kit_line(&facts, &line[WB_STEP_KIT]);
    shopping_line(&facts, &line[WB_STEP_SHOPPING]);
    g_free(verdict);
}

void wb_outline_clear(WbOutlineLine line[WB_N_STEPS])
{
    for (int i = 0; i < WB_N_STEPS; i++) {
        g_clear_pointer(&line[i].line, g_free);
        g_clear_pointer(&line[i].what, g_free);
    }
}
