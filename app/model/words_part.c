/* What became of the kits that hold one part, in sentences. */
#include "words_part.h"

#include "figures_text.h"
#include "kit_list.h"
#include "rank_by.h"
#include "words.h"
#include <glib/gi18n-lib.h>
#include <math.h>

/* A difference of worth below this is none. */
#define LEAST_WORTH 5e-5

static char *count_text(guint64 count)
{
    return wb_text_number((double)count, 0);
}

/* ---- none works ---- */

static int most_first(gconstpointer a, gconstpointer b, gpointer data)
{
    const WbRanking *with = data;
    int p = *(const int *)a, q = *(const int *)b;
    if (with->ruled_out[p].first != with->ruled_out[q].first)
        return with->ruled_out[p].first > with->ruled_out[q].first ? -1 : 1;
    return p - q;
}

static void tell_rule(WbAnswerTalk *talk, WbRule rule, const WbRuledOut *out)
{
    g_autofree char *first = count_text(out->first);
    g_autofree char *alone = count_text(out->alone);
    if (out->alone == 0) {
        wb_talk_add(talk, g_strdup_printf(_("%s fail here first: %s."), first, wb_words_rule(rule)),
                    NULL);
        return;
    }
    wb_talk_add(talk,
                g_strdup_printf(_("%s fail here first: %s; %s would work but for that."), first,
                                wb_words_rule(rule), alone),
                NULL);
    char *near = wb_words_nearest(talk->problem, rule, out);
    if (near != NULL)
        wb_talk_add(talk, near, &out->nearest);
}

static void tell_rules(WbAnswerTalk *talk)
{
    const WbRanking *with = &talk->answer->why.with;
    g_autoptr(GArray) rules = g_array_new(FALSE, FALSE, sizeof(int));
    for (int r = 0; r < WB_N_RULES; r++)
        if (with->ruled_out[r].first > 0)
            g_array_append_val(rules, r);
    g_array_sort_with_data(rules, most_first, (gpointer)with);
    for (guint i = 0; i < rules->len; i++) {
        int rule = g_array_index(rules, int, i);
        tell_rule(talk, (WbRule)rule, &with->ruled_out[rule]);
    }
}

static char *none_headline(const WbAnswerTalk *talk)
{
    const WbPartWhy *why = &talk->answer->why;
    if (why->with.raw == 0)
        return g_strdup(_("There is no combination with it: of another kind that every kit needs, "
                          "no part is ticked."));
    if (!wb_choice_sourced(talk->problem, &why->choice)->priced)
        return g_strdup(_("It has no usable offer and you own none, so no kit with it can be "
                          "bought."));
    g_autofree char *raw = count_text(why->with.raw);
    return g_strdup_printf(_("None of the %s combinations with it works."), raw);
}

/* ---- some work ---- */

static char *figure_text(const WbProblem *problem, WbCriterion criterion, const WbFigures *figures)
{
    static const int decimals[WB_N_CRITERIA] = {
        [WB_CRITERION_WEIGHT] = 1,
        [WB_CRITERION_ROOF] = 2,
        [WB_CRITERION_AUTONOMY] = 1,
        [WB_CRITERION_DARK] = 1,
    };
    if (criterion == WB_CRITERION_COST)
        return wb_words_money(figures->cost_minor, problem->brief->currency);
    g_autofree char *number = wb_text_number(wb_figure(figures, criterion), decimals[criterion]);
    return g_strdup_printf("%s %s", number, wb_criterion_unit(criterion));
}

/* By goals or by importance the score does not put the first before it: the figures alone. */
static void tell_figures(WbAnswerTalk *talk, const WbRanked *first, const WbRanked *best)
{
    const WbProblem *problem = talk->problem;
    wb_talk_add(talk, g_strdup(_("What it has against the first of all, in what is asked:")), NULL);
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        if (!wb_rank_asks(problem, (WbCriterion)c))
            continue;
        g_autofree char *theirs = figure_text(problem, (WbCriterion)c, &first->figures);
        g_autofree char *its = figure_text(problem, (WbCriterion)c, &best->figures);
        /* Translators: criterion, its figure, the figure of the first kit. */
        wb_talk_add(talk,
                    g_strdup_printf(_("%s: %s against %s."), wb_criterion_title((WbCriterion)c),
                                    its, theirs),
                    NULL);
    }
    wb_talk_add(talk, g_strdup(_("The first of all:")), &first->kit);
}

static void tell_criterion(WbAnswerTalk *talk, int c, const WbRanked *first, const WbRanked *best)
{
    const WbProblem *problem = talk->problem;
    double lost = problem->weight[c] * (first->u[c] - best->u[c]);
    g_autofree char *theirs = figure_text(problem, (WbCriterion)c, &first->figures);
    g_autofree char *its = figure_text(problem, (WbCriterion)c, &best->figures);
    g_autofree char *worth = wb_text_number(fabs(lost), 4);
    /* Translators: criterion, score, its figure, the figure of the first kit. */
    wb_talk_add(talk,
                g_strdup_printf(lost > 0 ? _("%s: it loses %s, with %s against %s.")
                                         : _("%s: it gains %s, with %s against %s."),
                                wb_criterion_title((WbCriterion)c), worth, its, theirs),
                NULL);
}

static void tell_differences(WbAnswerTalk *talk, const WbRanked *first, const WbRanked *best)
{
    g_autofree char *a = wb_text_number(best->score, 4), *b = wb_text_number(first->score, 4);
    wb_talk_add(talk,
                g_strdup_printf(_("Its score is %s; the first of all has %s. By criterion, each "
                                  "worth times its weight:"),
                                a, b),
                NULL);
    for (int c = 0; c < WB_N_CRITERIA; c++)
        if (talk->problem->weight[c] > 0 &&
            fabs(talk->problem->weight[c] * (first->u[c] - best->u[c])) >= LEAST_WORTH)
            tell_criterion(talk, c, first, best);
    wb_talk_add(talk, g_strdup(_("The first of all:")), &first->kit);
}

static const char *front_text(const WbPartWhy *why)
{
    if (why->on_front < 0)
        return _("Whether a kit with it is on the front is not known: the front is too large to be "
                 "kept whole.");
    return why->on_front ? _("At least one kit with it is on the front: no other kit is as good in "
                             "all that counts there and better in one.")
                         : _("No kit with it is on the front: for each there is one that is as "
                             "good in all that counts there and better in one.");
}

static char *some_headline(const WbPartWhy *why, const WbRanking *ranking)
{
    g_autofree char *works = count_text(why->with.feasible), *raw = count_text(why->with.raw);
    g_autofree char *all = count_text(ranking->feasible), *rank = count_text(why->rank);
    g_autofree char *listed = count_text(ranking->n_top);
    if (why->rank == 1)
        return g_strdup_printf(_("%s of the %s combinations with it work, and the first kit of all "
                                 "holds it."),
                               works, raw);
    if (why->rank == 0)
        return g_strdup_printf(_("%s of the %s combinations with it work, but the best of them is "
                                 "not among the first %s."),
                               works, raw, listed);
    return g_strdup_printf(_("%s of the %s combinations with it work; the best of them stands at "
                             "place %s of %s."),
                           works, raw, rank, all);
}

void wb_words_part_kits(WbAnswerTalk *talk, const WbRanking *ranking)
{
    const WbPartWhy *why = &talk->answer->why;
    if (why->with.feasible == 0) {
        talk->answer->headline = none_headline(talk);
        tell_rules(talk);
        return;
    }
    talk->answer->headline = some_headline(why, ranking);
    const WbRanked *best = &why->with.top[0];
    wb_talk_add(talk, g_strdup(_("The best with it:")), &best->kit);
    wb_talk_add(talk, g_strdup(front_text(why)), NULL);
    if (why->rank == 1 || ranking->n_top == 0)
        return;
    if (talk->problem->brief->rank_by.way == WB_WAY_SCORE)
        tell_differences(talk, &ranking->top[0], best);
    else
        tell_figures(talk, &ranking->top[0], best);
}
