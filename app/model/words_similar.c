#include "words_similar.h"

#include "figures_text.h"
#include <glib/gi18n-lib.h>

const char *wb_words_choice(WbKitChoice choice)
{
    static const char *const names[WB_N_KIT_CHOICES + 1] = {
        [WB_KIT_PANELS] = N_("the panels"),
        [WB_KIT_CONTROLLERS] = N_("the controllers"),
        [WB_KIT_BANK] = N_("the bank"),
        [WB_KIT_INVERTER] = N_("the inverter"),
        [WB_KIT_DCDC] = N_("the DC-DC charger"),
        [WB_N_KIT_CHOICES] = N_("the wiring of the panels"),
    };
    return _(names[choice]);
}

/* "the controllers (9), the inverter (5)" */
static char *list_choices(const WbLike *like, gsize n)
{
    gsize count[WB_N_KIT_CHOICES + 1] = {0};
    GString *text = g_string_new(NULL);
    for (gsize i = 0; i < n; i++)
        count[like[i].differs]++;
    for (int c = 0; c <= WB_N_KIT_CHOICES; c++) {
        if (count[c] == 0)
            continue;
        if (text->len > 0)
            g_string_append(text, ", ");
        g_string_append(text, wb_words_choice((WbKitChoice)c));
        if (count[c] < n)
            g_string_append_printf(text, " (%" G_GSIZE_FORMAT ")", count[c]);
    }
    return g_string_free(text, FALSE);
}

/* The first of those that have least of it: the best in the order of the list. */
static const WbLike *find_least(const WbLike *like, gsize n, gboolean weight)
{
    const WbLike *least = like;
    for (gsize i = 1; i < n; i++)
        if (weight ? like[i].weight_g < least->weight_g : like[i].cost_minor < least->cost_minor)
            least = &like[i];
    return least;
}

static char *with_rank(const char *figure, const WbLike *like)
{
    if (like->rank == 0)
        return g_strdup(figure);
    g_autofree char *rank = wb_text_number((double)like->rank, 0);
    return g_strdup_printf(_("%s (number %s)"), figure, rank);
}

static char *cost_text(const WbProblem *problem, const WbLike *like)
{
    g_autofree char *money = wb_words_money(like->cost_minor, problem->brief->currency);
    return with_rank(money, like);
}

static char *weight_text(const WbLike *like)
{
    g_autofree char *kg = wb_text_number((double)like->weight_g / 1e3, 1);
    g_autofree char *text = g_strdup_printf(_("%s kg"), kg);
    return with_rank(text, like);
}

char *wb_words_like_it(const WbProblem *problem, const WbLike *like, gsize n)
{
    const WbLike *cheapest = find_least(like, n, FALSE);
    const WbLike *lightest = find_least(like, n, TRUE);
    g_autofree char *number = wb_text_number((double)n, 0);
    g_autofree char *choices = list_choices(like, n);
    g_autofree char *weight = weight_text(lightest);
    if (cheapest != lightest) {
        g_autofree char *cost = cost_text(problem, cheapest);
        return g_strdup_printf(
            _("%s like it, differing in %s; of these the cheapest %s, the lightest %s"), number,
            choices, cost, weight);
    }
    g_autofree char *cost = wb_words_money(cheapest->cost_minor, problem->brief->currency);
    return n == 1 ? g_strdup_printf(_("%s like it, differing in %s: %s, %s"), number, choices, cost,
                                    weight)
                  : g_strdup_printf(
                        _("%s like it, differing in %s; of these the cheapest and lightest %s, %s"),
                        number, choices, cost, weight);
}
