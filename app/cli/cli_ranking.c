#include "cli_ranking.h"

#include "cli_job.h"
#include "cli_progress.h"
#include "figures_text.h"
#include "nearest_dark.h"
#include "outline.h"
#include "words.h"
#include <glib/gi18n-lib.h>

/* How firmly the first stands is then asked of the pool. */
static bool weighs_beyond_front(const WbProblem *problem)
{
    for (int c = 0; c < WB_N_CRITERIA; c++)
        if (problem->weight[c] > 0 && !(problem->brief->front >> c & 1))
            return true;
    return false;
}

int wb_cli_rank(const WbProblem *problem, size_t top, bool pool, WbRanking *ranking)
{
    WbRankOptions options = wb_rank_options_default();
    options.top = MAX(options.top, top);
    options.pool = pool || weighs_beyond_front(problem);
    options.workers = CLAMP((int)g_get_num_processors(), 1, WB_MOST_WORKERS);
    WbControl control;
    wb_control_init(&control);
    WbProgress *progress = wb_progress_start(_("Ranking, Ctrl-C stops it"), &control);
    WbStatus status = wb_rank(problem, &options, &control, ranking);
    wb_progress_end(progress);
    return status == WB_OK ? WB_EXIT_DONE : wb_cli_fail_status(status);
}

int wb_cli_nearest_dark(const WbProblem *problem, WbRanking *ranking)
{
    if (!wb_nearest_dark_is_open(ranking))
        return WB_EXIT_DONE;
    WbControl control;
    wb_control_init(&control);
    WbProgress *progress = wb_progress_start(_("Dark hours, Ctrl-C stops it"), &control);
    WbStatus status =
        wb_nearest_dark(problem, CLAMP((int)g_get_num_processors(), 1, WB_MOST_WORKERS), &control,
                        &ranking->ruled_out[WB_RULE_DARK_HOURS]);
    wb_progress_end(progress);
    return status == WB_OK ? WB_EXIT_DONE : wb_cli_fail_status(status);
}

static size_t find(const WbProblem *problem, const WbRanked *kits, size_t from, size_t n,
                   const WbKit *kit)
{
    while (from < n && wb_kit_compare(problem, &kits[from].kit, kit) != 0)
        from++;
    return from;
}

WbStanding wb_cli_standing(const WbProblem *problem, const WbRanking *ranking, const WbKit *kit)
{
    size_t at = find(problem, ranking->top, 0, ranking->n_top, kit);
    if (at < ranking->n_top)
        return (WbStanding){.rank = at + 1,
                            .on_front = ranking->front_too_many ? -1 : ranking->top[at].on_front};
    bool on_front = find(problem, ranking->front, 0, ranking->n_front, kit) < ranking->n_front;
    /* A front cut short, or not told at all, leaves it open. */
    if (on_front || (!ranking->front_too_many && ranking->n_front == ranking->front_count))
        return (WbStanding){.on_front = on_front};
    return (WbStanding){.on_front = -1};
}

/* Both lists run in the order of the ranking, so each search starts where the last one ended. */
WbStanding *wb_cli_standings(const WbProblem *problem, const WbRanking *ranking,
                             const WbRanked *kits, size_t n)
{
    WbStanding *standings = g_new0(WbStanding, MAX(n, 1));
    size_t at = 0;
    for (size_t i = 0; i < n; i++) {
        at = find(problem, ranking->top, at, ranking->n_top, &kits[i].kit);
        standings[i] = (WbStanding){.rank = at < ranking->n_top ? at + 1 : 0,
                                    .on_front = ranking->front_too_many ? -1 : kits[i].on_front};
    }
    return standings;
}

/* The kinds a kit cannot do without of which nothing is ticked, NULL when there are none. */
static char *missing_kinds(const WbProblem *problem)
{
    const char *words[3];
    int n = 0;
    if (problem->n_panels == 0)
        words[n++] = _("panel");
    if (problem->n_controllers == 0)
        words[n++] = _("controller");
    if (problem->n_storage == 0)
        words[n++] = _("storage");
    if (n == 0)
        return NULL;
    return n == 1   ? g_strdup(words[0])
           : n == 2 ? g_strdup_printf(_("%s and no %s"), words[0], words[1])
                    : g_strdup_printf(_("%s, no %s and no %s"), words[0], words[1], words[2]);
}

int wb_cli_fail_no_kit(const WbProblem *problem, const WbRanking *ranking)
{
    g_autofree char *missing = missing_kinds(problem);
    if (missing)
        return wb_cli_fail(WB_EXIT_NO_KIT,
                           _("There is no kit to try for “%s”: no %s is ticked in /candidates."),
                           problem->brief->name, missing);
    WbRule rule = wb_outline_decisive_rule(ranking);
    if (ranking->ruled_out[rule].first == 0 && ranking->ruled_out[rule].alone == 0)
        return wb_cli_fail(WB_EXIT_NO_KIT, _("No combination of the ticked parts works for “%s”."),
                           problem->brief->name);
    bool alone = ranking->ruled_out[rule].alone > 0;
    g_autofree char *n = wb_text_number(
        (double)(alone ? ranking->ruled_out[rule].alone : ranking->ruled_out[rule].first), 0);
    return wb_cli_fail(
        WB_EXIT_NO_KIT,
        alone ? _("No combination of the ticked parts works for “%s”; %s would work but for one "
                  "thing: %s.")
              : _("No combination of the ticked parts works for “%s”; most of them, %s, break this "
                  "rule before any other: %s."),
        problem->brief->name, n, wb_words_rule(rule));
}
