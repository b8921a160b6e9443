/* rank: the table and the JSON of a ranking. */
#include "cli_clash.h"
#include "cli_job.h"
#include "cli_json.h"
#include "cli_kit_json.h"
#include "cli_parts.h"
#include "cli_rank_more.h"
#include "cli_ranking.h"
#include "cli_similar.h"
#include "cli_table.h"
#include "cli_way.h"
#include "figures_text.h"
#include "money.h"
#include "rank_by.h"
#include "words_firm.h"
#include "words_way.h"
#include <glib/gi18n-lib.h>
#include <string.h>

/* What is listed of the best, or of the front: every kit, or those that lead similar ones. */
typedef struct {
    const WbRanked *kits;
    WbStanding *standings; /* one for each kit, owned */
    size_t n;
    WbCliSimilar similar; /* of the whole list */
    WbCliLeaders leaders; /* owns the kits where they alone are listed */
    bool every;
} Listed;

/* What was found out beside the ranking. */
typedef struct {
    const WbMore *more; /* NULL: not asked for */
    WbClash clash;
} Beside;

static bool lists_front(const WbArguments *arguments)
{
    return g_strcmp0(arguments->list, "front") == 0;
}

static int choose_list(const WbArguments *arguments, const WbProblem *problem,
                       const WbRanking *ranking, Listed *listed)
{
    bool front = lists_front(arguments);
    *listed = (Listed){.every = arguments->every || arguments->json};
    int code = wb_cli_similar(problem, ranking, front, &listed->similar);
    if (code != WB_EXIT_DONE)
        return code;
    if (!listed->every) {
        listed->leaders =
            wb_cli_leaders(problem, ranking, &listed->similar, front, (size_t)arguments->top);
        listed->kits = listed->leaders.kits;
        listed->n = listed->leaders.n;
        listed->standings = g_steal_pointer(&listed->leaders.standings);
        return code;
    }
    listed->kits = front ? ranking->front : ranking->top;
    listed->n = MIN(front ? ranking->n_front : ranking->n_top, (size_t)arguments->top);
    listed->standings = wb_cli_standings(problem, ranking, listed->kits, listed->n);
    return code;
}

static void clear_list(Listed *listed)
{
    g_free(listed->standings);
    wb_cli_leaders_clear(&listed->leaders);
    wb_cli_similar_clear(&listed->similar);
}

static void nearest_json(WbJsonOut *json, const WbProblem *problem, WbRule rule,
                         const WbRuledOut *out)
{
    char id[WB_KIT_ID];
    if (out->alone == 0) {
        wb_out_null(json, "nearest");
        return;
    }
    g_autofree char *sentence = wb_words_nearest(problem, rule, out);
    wb_kit_id(problem, &out->nearest, id);
    wb_out_object(json, "nearest");
    wb_out_text(json, "id", id);
    wb_out_number(json, "value", out->value);
    wb_out_number(json, "limit", out->limit);
    wb_out_text(json, "unit", wb_rule_info(rule)->unit);
    wb_out_text(json, "sentence", sentence);
    wb_out_end_object(json);
}

static void rival_json(WbJsonOut *json, const char *key, const WbProblem *problem,
                       const WbRanked *rival)
{
    char id[WB_KIT_ID];
    if (rival != NULL)
        wb_kit_id(problem, &rival->kit, id);
    wb_out_text(json, key, rival != NULL ? id : NULL);
}

static void ranges_json(WbJsonOut *json, const WbProblem *problem, const WbRankFirm *firm)
{
    wb_out_array(json, "ranges");
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        if (!(firm->criteria >> c & 1))
            continue;
        wb_out_object(json, NULL);
        wb_out_text(json, "criterion", wb_criterion_name((WbCriterion)c));
        wb_out_number(json, "weight", problem->weight[c]);
        wb_out_number(json, "low", firm->firmness.range[c].low);
        wb_out_number(json, "high", firm->firmness.range[c].high);
        rival_json(json, "below", problem, firm->below[c]);
        rival_json(json, "above", problem, firm->above[c]);
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
}

static void first_json(WbJsonOut *json, const WbProblem *problem, const WbRankFirm *firm)
{
    wb_out_array(json, "first");
    for (int i = 0; i < firm->n_first; i++) {
        wb_out_object(json, NULL);
        wb_out_count(json, "rank", firm->first[i].rank);
        rival_json(json, "id", problem, firm->first[i].kit);
        wb_out_number(json, "share", firm->first[i].share);
        wb_out_number(json, "share_error", firm->first[i].share_error);
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
}

/* Null where it is not known. */
static void firm_json(WbJsonOut *json, const WbProblem *problem, const WbRanking *ranking)
{
    WbRankFirm firm;
    if (wb_rank_firm(problem, ranking, NULL, &firm) != WB_OK || !firm.known) {
        wb_rank_firm_free(&firm);
        wb_out_null(json, "firmness");
        return;
    }
    g_autofree char *sentence = wb_words_firm(problem, &firm);
    wb_out_object(json, "firmness");
    wb_out_number(json, "share", firm.firmness.share);
    wb_out_number(json, "share_error", firm.firmness.share_error);
    wb_out_number(json, "moved", firm.firmness.moved);
    rival_json(json, "by", problem, firm.by);
    ranges_json(json, problem, &firm);
    first_json(json, problem, &firm);
    wb_rank_firm_free(&firm);
    wb_out_text(json, "sentence", sentence);
    wb_out_end_object(json);
}

void wb_cli_ruled_out_json(WbJsonOut *json, const WbProblem *problem, const WbRanking *ranking)
{
    wb_out_array(json, "ruled_out");
    for (int r = 0; r < WB_N_RULES; r++) {
        const WbRuleInfo *info = wb_rule_info((WbRule)r);
        wb_out_object(json, NULL);
        wb_out_text(json, "code", info->code);
        wb_out_count(json, "first", ranking->ruled_out[r].first);
        wb_out_count(json, "alone", ranking->ruled_out[r].alone);
        wb_out_text(json, "severity", wb_severity_name(info->severity));
        wb_out_text(json, "what", wb_words_rule((WbRule)r));
        nearest_json(json, problem, (WbRule)r, &ranking->ruled_out[r]);
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
}

static void totals_json(WbJsonOut *json, const WbProblem *problem, const WbRanking *ranking,
                        const WbClash *clash)
{
    wb_out_object(json, "totals");
    wb_out_count(json, "raw_combinations", ranking->raw);
    wb_out_count(json, "feasible", ranking->feasible);
    wb_out_count(json, "undecided", ranking->undecided);
    firm_json(json, problem, ranking);
    wb_cli_clash_json(json, problem, clash);
    wb_cli_ruled_out_json(json, problem, ranking);
    wb_cli_left_out_json(json, problem);
    wb_out_end_object(json);
}

/* The best working kit of each chemistry, for lead-acid beside lithium. */
static void chemistries_json(WbJsonOut *json, const WbProblem *problem, const WbRanking *ranking)
{
    wb_out_array(json, "chemistries");
    for (size_t i = 0; i < ranking->n_chemistries; i++) {
        const WbChemistryRank *of = &ranking->chemistries[i];
        wb_out_object(json, NULL);
        wb_out_text(json, "id", of->chemistry->id);
        wb_out_text(json, "name", of->chemistry->name);
        wb_out_count(json, "feasible", of->feasible);
        if (of->feasible > 0) {
            WbVerdict verdict;
            wb_judge(problem, &of->best.kit, &verdict);
            WbStanding standing = wb_cli_standing(problem, ranking, &of->best.kit);
            standing.on_front = of->best.on_front;
            wb_cli_kit_json(json, "best", problem, &verdict, standing);
        }
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
}

static void kits_json(WbJsonOut *json, const WbProblem *problem, const Listed *listed)
{
    wb_out_array(json, "kits");
    for (size_t i = 0; i < listed->n; i++) {
        WbVerdict verdict;
        wb_judge(problem, &listed->kits[i].kit, &verdict);
        WbStanding standing = listed->standings[i];
        standing.similar = &listed->similar;
        standing.at = i;
        wb_cli_kit_json(json, NULL, problem, &verdict, standing);
    }
    wb_out_end_array(json);
}

static char *rank_json(const WbArguments *arguments, const WbBriefFile *file,
                       const WbProblem *problem, const WbRanking *ranking, const Beside *beside,
                       const Listed *listed)
{
    WbJsonOut json;
    wb_out_start(&json);
    wb_out_object(&json, NULL);
    wb_cli_head_json(&json, "wattberth-ranking", file);
    totals_json(&json, problem, ranking, &beside->clash);
    wb_cli_reference_json(&json, problem);
    wb_cli_way_json(&json, problem);
    chemistries_json(&json, problem, ranking);
    wb_out_text(&json, "list", arguments->list != NULL ? arguments->list : "top");
    if (ranking->front_too_many)
        wb_out_null(&json, "front_count");
    else
        wb_out_count(&json, "front_count", ranking->front_count);
    kits_json(&json, problem, listed);
    if (beside->more)
        wb_cli_more_json(&json, problem, ranking, beside->more);
    wb_out_end_object(&json);
    return wb_out_finish(&json);
}

static void append_undecided(GString *out, const WbRanking *ranking)
{
    if (ranking->undecided == 0)
        return;
    g_autofree char *undecided = wb_text_number((double)ranking->undecided, 0);
    g_autofree char *more = g_strdup_printf(
        _("%s more would work if their panels fit the roof, which was not decided."), undecided);
    wb_cli_wrap(out, "", more);
}

/* The front says nothing where so many are on it. */
static char *too_many_sentence(const WbProblem *problem, const char *raw, const char *feasible)
{
    g_autofree char *most = wb_text_number(WB_RANK_FRONT_MOST, 0);
    return g_strdup_printf(
        _("%s: of %s combinations %s work. More than %s were found that beat each "
          "other nowhere: too many for a front. Fewer criteria in /front give "
          "one that helps."),
        problem->brief->name, raw, feasible, most);
}

static void append_head(GString *out, const WbProblem *problem, const WbRanking *ranking)
{
    g_autofree char *raw = wb_text_number((double)ranking->raw, 0);
    g_autofree char *feasible = wb_text_number((double)ranking->feasible, 0);
    g_autofree char *front = wb_text_number((double)ranking->front_count, 0);
    g_autofree char *counts = wb_words_front(problem->brief);
    g_autofree char *sentence = NULL;
    if (ranking->feasible == 0)
        sentence =
            g_strdup_printf(_("%s: none of %s combinations works."), problem->brief->name, raw);
    else if (ranking->front_too_many)
        sentence = too_many_sentence(problem, raw, feasible);
    else if (ranking->feasible == 1)
        sentence =
            g_strdup_printf(_("%s: one of %s combinations works."), problem->brief->name, raw);
    else
        sentence = g_strdup_printf(
            _("%s: of %s combinations %s work. %s of them, marked *, are on the front: no other is "
              "as good in all that counts there (%s) and better in one."),
            problem->brief->name, raw, feasible, front, counts);
    wb_cli_wrap(out, "", sentence);
    append_undecided(out, ranking);
}

static char *rank_text(WbStanding standing)
{
    const char *mark = standing.on_front > 0 ? "*" : " ";
    if (standing.rank == 0)
        return g_strdup_printf("-%s", mark);
    return g_strdup_printf("%" G_GUINT64_FORMAT "%s", standing.rank, mark);
}

/* Part ids with how they are wired. */
char *wb_cli_parts_text(const WbProblem *problem, const WbKit *kit)
{
    const WbInverter *inverter = problem->inverters[kit->inverter].inverter;
    const WbDcdc *dcdc = problem->dcdc[kit->dcdc].dcdc;
    GString *text = g_string_new(NULL);
    g_string_append_printf(text, "%ds%dp %s, %d x %s, %ds%dp %s", kit->n_series, kit->n_parallel,
                           problem->panels[kit->panel].panel->part.id, kit->n_controllers,
                           problem->controllers[kit->controller].controller->part.id,
                           kit->bank_series, kit->bank_parallel,
                           problem->storage[kit->storage].storage->part.id);
    if (inverter != NULL)
        g_string_append_printf(text, ", %s", inverter->part.id);
    if (dcdc != NULL)
        g_string_append_printf(text, ", %s", dcdc->part.id);
    return g_string_free(text, FALSE);
}

/* The supply margin has its column only where it counts, so that the usual table stays narrow. */
static bool margin_counts(const WbProblem *problem)
{
    return problem->weight[WB_CRITERION_MARGIN] > 0 ||
           (problem->brief->front >> WB_CRITERION_MARGIN & 1u);
}

/* What the order goes by first. */
static double key_of(const WbProblem *problem, const WbRanked *ranked)
{
    double key[WB_RANK_KEYS];
    wb_rank_key(problem, &ranked->figures, key);
    return key[0];
}

/* What the lines that start with + say. */
static void append_groups(GString *out, const WbCliSimilar *similar)
{
    g_autofree char *groups = wb_text_number((double)similar->n_groups, 0);
    g_autofree char *kits = wb_text_number((double)similar->n, 0);
    g_autofree char *sentence =
        similar->n_groups == similar->n
            ? g_strdup(_("No two of these kits are the same but for one choice."))
            : g_strdup_printf(
                  similar->whole
                      ? _("+: the same as the kit above it but for one choice. So %s kits are %s "
                          "real choices; --every lists each kit.")
                      : _("+: the same as the kit above it but for one choice. So the best %s kits "
                          "are %s real choices; --every lists each kit."),
                  kits, groups);
    wb_cli_wrap(out, "", sentence);
}

static void append_kits(GString *out, const WbProblem *problem, const Listed *listed)
{
    bool margin = margin_counts(problem);
    bool goals = problem->rank_by.way == WB_WAY_GOALS;
    g_autofree char *heads =
        g_strconcat(goals ? _(">Rank |>Distance") : _(">Rank |>Score"),
                    _("|>Cost|>Weight kg|>Usable Wh|>Roof m2|>Autonomy days|>Spare W|>Dark h"),
                    margin ? _("|>Margin Wh") : "", NULL);
    g_autoptr(WbTable) table = wb_table_new(heads);
    for (size_t i = 0; i < listed->n; i++) {
        const WbRanked *ranked = &listed->kits[i];
        const WbFigures *figures = &ranked->figures;
        wb_table_cell(table, rank_text(listed->standings[i]));
        wb_table_cell(table, wb_text_number(goals ? -key_of(problem, ranked) : ranked->score, 4));
        wb_table_cell(table, wb_words_money(figures->cost_minor, problem->brief->currency));
        wb_table_cell(table, wb_text_number((double)figures->weight_g / 1e3, 1));
        wb_table_cell(table, wb_text_number(figures->usable_wh, 0));
        wb_table_cell(table, wb_text_number((double)figures->roof_area_mm2 / 1e6, 2));
        wb_table_cell(table, wb_text_number(figures->autonomy_days, 1));
        wb_table_cell(table, wb_text_number(figures->spare_w, 0));
        wb_table_cell(table, wb_text_number(figures->dark_h, 1));
        if (margin)
            wb_table_cell(table, wb_text_number(figures->supply_margin_wh, 0));
        wb_table_line(table, wb_words_kit(problem, &ranked->kit));
        wb_table_line(table, wb_cli_parts_text(problem, &ranked->kit));
        if (!listed->every && listed->leaders.like[i] != NULL)
            wb_table_line(table, g_strdup(listed->leaders.like[i]));
    }
    g_string_append_c(out, '\n');
    wb_table_append(table, out);
    wb_cli_wrap(
        out, "",
        _("2s1p: 2 in series, 1 string. Dark h: hours a year without full power, mean. wattberth "
          "explain shows a kit in full."));
    if (!listed->every)
        append_groups(out, &listed->similar);
    if (margin)
        wb_cli_wrap(out, "", _("Margin: Wh a day of supply beyond the need in the worst month."));
}

/* The kit that comes nearest by this rule alone, and how near. */
static void append_nearest(WbTable *table, const WbProblem *problem, WbRule rule,
                           const WbRuledOut *out)
{
    g_autofree char *sentence = wb_words_nearest(problem, rule, out);
    if (sentence == NULL)
        return;
    wb_table_line(table, g_steal_pointer(&sentence));
    wb_table_line(table, wb_cli_parts_text(problem, &out->nearest));
}

static void append_ruled_out(GString *out, const WbProblem *problem, const WbRanking *ranking)
{
    g_autoptr(WbTable) table = wb_table_new(_("Ruled out by|>First|>Alone|Because"));
    uint64_t sum = 0;
    for (int r = 0; r < WB_N_RULES; r++) {
        const WbRuledOut *out_by = &ranking->ruled_out[r];
        sum += out_by->first;
        if (out_by->first == 0 && out_by->alone == 0)
            continue;
        wb_table_cell(table, g_strdup(wb_rule_info((WbRule)r)->code));
        wb_table_cell(table, wb_text_number((double)out_by->first, 0));
        wb_table_cell(table, wb_text_number((double)out_by->alone, 0));
        wb_table_cell(table, g_strdup(wb_words_rule((WbRule)r)));
        append_nearest(table, problem, (WbRule)r, out_by);
    }
    if (sum == 0)
        return;
    g_string_append_c(out, '\n');
    wb_table_append(table, out);
    wb_cli_wrap(
        out, "",
        _("First: kits whose first broken rule this is. Alone: kits that break no other; nearest: "
          "the one of these that misses the limit by least."));
}

/* The currency an offer waits for: its own, or that of the shop's shipping. */
static const char *missing_currency(const WbProblem *problem, const WbOffer *offer)
{
    int64_t converted;
    const WbCatalogue *catalogue = problem->catalogue;
    if (!wb_money_convert(problem->brief, offer->price_minor, offer->currency, &converted))
        return offer->currency;
    for (size_t i = 0; i < catalogue->n_shops; i++)
        if (strcmp(catalogue->shops[i].id, offer->shop_id) == 0)
            return catalogue->shops[i].currency;
    return offer->currency;
}

/* One line a currency: what is left out for the want of a rate, and the cure. */
static void append_rates(GString *out, const WbProblem *problem)
{
    g_autoptr(GPtrArray) offers = wb_cli_offers_without_rate(problem);
    for (guint i = 0; i < offers->len; i++) {
        const char *currency = missing_currency(problem, offers->pdata[i]);
        guint before = 0, n = 0;
        for (guint j = 0; j < offers->len; j++)
            if (strcmp(missing_currency(problem, offers->pdata[j]), currency) == 0) {
                before += j < i;
                n++;
            }
        if (before > 0)
            continue;
        g_autofree char *sentence = g_strdup_printf(
            g_dngettext(GETTEXT_PACKAGE,
                        "No rate: %u offer in %s is left out: add %s to /rates of the brief.",
                        "No rate: %u offers in %s are left out: add %s to /rates of the brief.", n),
            n, currency, currency);
        wb_cli_wrap(out, "", sentence);
    }
}

static void append_left_out(GString *out, const WbProblem *problem)
{
    g_autoptr(GArray) parts = wb_cli_parts(problem);
    for (guint i = 0; i < parts->len; i++) {
        const WbCliPart *listed = &g_array_index(parts, WbCliPart, i);
        if (listed->sourced->priced)
            continue;
        g_autofree char *sentence =
            g_strdup_printf(_("No price: %s %s (%s) has no usable offer."), listed->part->maker,
                            listed->part->model, listed->part->id);
        wb_cli_wrap(out, "", sentence);
    }
    append_rates(out, problem);
}

static void append_cautions(GString *out, const WbProblem *problem, const WbKit *kit)
{
    WbVerdict verdict;
    wb_judge(problem, kit, &verdict);
    g_string_append_printf(out, "\n%s\n", _("Cautions for the first of these kits"));
    for (int r = 0; r < WB_N_RULES; r++) {
        const WbFinding *finding = &verdict.finding[r];
        if (finding->holds || finding->severity != WB_CAUTION)
            continue;
        g_autofree char *sentence = wb_words_finding(problem, &verdict, finding);
        wb_cli_wrap(out, "  - ", sentence);
    }
    g_auto(GStrv) notes = wb_words_safety_notes(problem, &verdict);
    for (guint i = 0; notes[i] != NULL; i++)
        wb_cli_wrap(out, "  - ", notes[i]);
}

static void append_firm(GString *out, const WbProblem *problem, const WbRanking *ranking)
{
    WbRankFirm firm;
    if (wb_rank_firm(problem, ranking, NULL, &firm) == WB_OK && firm.known) {
        g_autofree char *sentence = wb_words_firm(problem, &firm);
        g_autofree char *others = wb_words_firm_others(&firm);
        g_string_append_printf(out, "\n%s\n", _("How firmly the first of all stands"));
        wb_cli_wrap(out, "", sentence);
        if (others)
            wb_cli_wrap(out, "", others);
    }
    wb_rank_firm_free(&firm);
}

static char *rank_table(const WbProblem *problem, const WbRanking *ranking, const Beside *beside,
                        const Listed *listed)
{
    GString *out = g_string_new(NULL);
    append_head(out, problem, ranking);
    wb_cli_clash_append(out, problem, &beside->clash);
    wb_cli_append_way(out, problem);
    if (listed->n > 0)
        append_kits(out, problem, listed);
    append_firm(out, problem, ranking);
    if (beside->more)
        wb_cli_more_append(out, problem, ranking, beside->more);
    append_ruled_out(out, problem, ranking);
    append_left_out(out, problem);
    if (listed->n > 0)
        append_cautions(out, problem, &listed->kits[0].kit);
    return g_string_free(out, FALSE);
}

static int print_ranking(const WbArguments *arguments, const WbJob *job, const WbRanking *ranking,
                         const Beside *beside)
{
    const WbProblem *problem = job->problem;
    Listed listed;
    int code = choose_list(arguments, problem, ranking, &listed);
    if (code == WB_EXIT_DONE)
        code = wb_cli_print(arguments->json
                                ? rank_json(arguments, job->file, problem, ranking, beside, &listed)
                                : rank_table(problem, ranking, beside, &listed));
    clear_list(&listed);
    if (code == WB_EXIT_DONE && ranking->feasible == 0)
        return wb_cli_fail_no_kit(problem, ranking);
    return code;
}

int wb_cli_run_rank(const WbArguments *arguments)
{
    WbJob job = {0};
    WbRanking ranking = {0};
    WbMore more = {0};
    Beside beside = {.more = arguments->more ? &more : NULL};
    int code = wb_cli_load_job(arguments, arguments->rest[0], &job);
    if (code == WB_EXIT_DONE)
        code = wb_cli_rank(job.problem, (size_t)arguments->top, true, &ranking);
    if (code == WB_EXIT_DONE && arguments->more)
        code = wb_cli_more(job.problem, &ranking, &more);
    if (code == WB_EXIT_DONE)
        code = wb_cli_nearest_dark(job.problem, &ranking);
    if (code == WB_EXIT_DONE)
        code = wb_cli_clash(job.problem, &ranking, &beside.clash);
    if (code == WB_EXIT_DONE)
        code = print_ranking(arguments, &job, &ranking, &beside);
    wb_cli_more_free(&more);
    wb_ranking_free(&ranking);
    wb_cli_clear_job(&job);
    return code;
}
