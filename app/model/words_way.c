/* The way kits are ranked, in words. */
#include "words_way.h"
#include "figures_text.h"

#include <glib/gi18n-lib.h>
#include <math.h>

const char *wb_words_criterion(int criterion)
{
    static const char *const names[WB_N_CRITERIA] = {
        [WB_CRITERION_COST] = N_("cost"),
        [WB_CRITERION_WEIGHT] = N_("weight"),
        [WB_CRITERION_USABLE] = N_("usable capacity"),
        [WB_CRITERION_ROOF] = N_("roof area"),
        [WB_CRITERION_AUTONOMY] = N_("autonomy"),
        [WB_CRITERION_SPARE] = N_("spare power"),
        [WB_CRITERION_DARK] = N_("dark hours"),
        [WB_CRITERION_MARGIN] = N_("supply margin"),
    };
    return _(names[criterion]);
}

static const struct {
    const char *unit;
    int decimals;
} units[WB_N_CRITERIA] = {
    [WB_CRITERION_WEIGHT] = {"kg", 1}, [WB_CRITERION_USABLE] = {"Wh", 0},
    [WB_CRITERION_ROOF] = {"m2", 2},   [WB_CRITERION_AUTONOMY] = {N_("days"), 1},
    [WB_CRITERION_SPARE] = {"W", 0},   [WB_CRITERION_DARK] = {N_("hours a year"), 1},
    [WB_CRITERION_MARGIN] = {"Wh", 0},
};

static const char *unit_of(WbCriterion criterion)
{
    return units[criterion].unit ? _(units[criterion].unit) : "";
}

char *wb_words_figure(const WbProblem *problem, WbCriterion criterion, double x)
{
    if (criterion == WB_CRITERION_COST && !isnan(x))
        return wb_words_money((int64_t)llround(x), problem->brief->currency);
    g_autofree char *number = wb_text_number(x, units[criterion].decimals);
    return units[criterion].unit ? g_strdup_printf("%s %s", number, unit_of(criterion))
                                 : g_strdup(number);
}

static void join(GString *text, const char *piece)
{
    g_string_append_printf(text, "%s%s", text->len > 0 ? ", " : "", piece);
}

char *wb_words_front(const WbBrief *brief)
{
    GString *names = g_string_new(NULL);
    for (int c = 0; c < WB_N_CRITERIA; c++)
        if (brief->front >> c & 1)
            join(names, wb_words_criterion(c));
    return g_string_free(names, FALSE);
}

static char *goals_way(const WbProblem *problem)
{
    GString *goals = g_string_new(NULL);
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        if (problem->weight[c] <= 0)
            continue;
        g_autofree char *goal = wb_words_figure(problem, (WbCriterion)c, problem->rank_by.goal[c]);
        g_autofree char *piece = g_strdup_printf("%s %s", wb_words_criterion(c), goal);
        join(goals, piece);
    }
    char *text = g_strdup_printf(
        _("Nearest to the goals first (%s). Distance = the largest weight × shortfall + 0.001 × "
          "the sum of all; shortfall = what is missing / the distance between full and no worth."),
        goals->str);
    g_string_free(goals, TRUE);
    return text;
}

/* Four figures: with fewer a hand that divides by it comes out in another step. */
static char *step_text(const WbProblem *problem, WbCriterion criterion, double step)
{
    const WbBrief *brief = problem->brief;
    if (criterion == WB_CRITERION_COST)
        return wb_words_money((int64_t)llround(step), brief->currency);
    int decimals = CLAMP(3 - (int)floor(log10(step)), 0, 9);
    g_autofree char *number = wb_text_number(step, decimals);
    return g_strdup_printf("%s %s", number, unit_of(criterion));
}

static char *step_words(const WbProblem *problem, const WbImportant *important)
{
    const char *name = wb_words_criterion(important->criterion);
    if (important->step <= 0)
        return g_strdup(name);
    g_autofree char *step = step_text(problem, (WbCriterion)important->criterion, important->step);
    /* Translators: a criterion and the size of its steps. */
    return g_strdup_printf(_("%s in steps of %s"), name, step);
}

static char *importance_way(const WbProblem *problem)
{
    GString *list = g_string_new(NULL);
    for (int i = 0; i < problem->rank_by.n_important; i++) {
        g_autofree char *piece = step_words(problem, &problem->rank_by.important[i]);
        join(list, piece);
    }
    char *text = g_strdup_printf(_("In order of importance: %s. Figures in the same step, counted "
                                   "from 0, are level; then the next decides, at last the score."),
                                 list->str);
    g_string_free(list, TRUE);
    return text;
}

char *wb_words_way(const WbProblem *problem)
{
    switch ((WbWay)problem->rank_by.way) {
    case WB_WAY_GOALS:
        return goals_way(problem);
    case WB_WAY_IMPORTANCE:
        return importance_way(problem);
    case WB_WAY_SCORE:
    case WB_N_WAYS:
        break;
    }
    return g_strdup(_("Highest score first. Score = the sum of weight × worth."));
}

/* "cost 0.25 × 0.6 = 0.15", and the name of the largest. */
static char *goals_stand(const WbProblem *problem, const double figure[WB_N_CRITERIA])
{
    GString *terms = g_string_new(NULL);
    double largest = -INFINITY, sum = 0;
    int worst = -1;
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        if (problem->weight[c] <= 0)
            continue;
        double missing = wb_shortfall(problem, (WbCriterion)c, figure[c]);
        double term = problem->weight[c] * missing;
        g_autofree char *weight = wb_text_number(problem->weight[c], 3);
        g_autofree char *shortfall = wb_text_number(missing, 3);
        g_autofree char *product = wb_text_number(term, 4);
        g_autofree char *piece =
            g_strdup_printf("%s %s × %s = %s", wb_words_criterion(c), weight, shortfall, product);
        join(terms, piece);
        sum += term;
        if (worst < 0 || !(term <= largest)) {
            largest = term;
            worst = c;
        }
    }
    g_autofree char *distance = wb_text_number(wb_distance(problem, figure), 4);
    g_autofree char *most = wb_text_number(largest, 4);
    g_autofree char *rest = wb_text_number(sum, 4);
    char *text =
        worst < 0 ? g_strdup(_("No criterion weighs."))
                  : g_strdup_printf(_("Weight × shortfall: %s. Distance = %s (%s) + 0.001 × %s = "
                                      "%s."),
                                    terms->str, most, wb_words_criterion(worst), rest, distance);
    g_string_free(terms, TRUE);
    return text;
}

static char *importance_stands(const WbProblem *problem, const double figure[WB_N_CRITERIA])
{
    GString *list = g_string_new(NULL);
    for (int i = 0; i < problem->rank_by.n_important; i++) {
        const WbImportant *important = &problem->rank_by.important[i];
        WbCriterion c = (WbCriterion)important->criterion;
        g_autofree char *x = wb_words_figure(problem, c, figure[c]);
        g_autofree char *step = wb_text_number(wb_step_of(problem, important, figure[c]), 0);
        g_autofree char *piece =
            important->step > 0
                /* Translators: a criterion, the kit's figure, the number of the step. */
                ? g_strdup_printf(_("%s %s (step %s)"), wb_words_criterion(c), x, step)
                : g_strdup_printf("%s %s", wb_words_criterion(c), x);
        join(list, piece);
    }
    char *text = g_strdup_printf(_("By importance: %s; then the score."), list->str);
    g_string_free(list, TRUE);
    return text;
}

static char *score_stands(const WbProblem *problem, const double figure[WB_N_CRITERIA])
{
    GString *terms = g_string_new(NULL);
    double u[WB_N_CRITERIA];
    g_autofree char *score = wb_text_number(wb_score_of(problem, figure, u), 4);
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        if (problem->weight[c] <= 0)
            continue;
        g_autofree char *weight = wb_text_number(problem->weight[c], 3);
        g_autofree char *worth = wb_text_number(u[c], 3);
        g_string_append_printf(terms, "%s%s %s × %s", terms->len > 0 ? " + " : "",
                               wb_words_criterion(c), weight, worth);
    }
    char *text = g_strdup_printf(_("Score = weight × worth: %s = %s."), terms->str, score);
    g_string_free(terms, TRUE);
    return text;
}

char *wb_words_stands(const WbProblem *problem, const WbFigures *figures)
{
    double figure[WB_N_CRITERIA];
    for (int c = 0; c < WB_N_CRITERIA; c++)
        figure[c] = wb_figure(figures, (WbCriterion)c);
    switch ((WbWay)problem->rank_by.way) {
    case WB_WAY_GOALS:
        return goals_stand(problem, figure);
    case WB_WAY_IMPORTANCE:
        return importance_stands(problem, figure);
    case WB_WAY_SCORE:
    case WB_N_WAYS:
        break;
    }
    return score_stands(problem, figure);
}
