/* How firmly the first kit stands, in words. */
#include "words_firm.h"
#include "figures_text.h"
#include "words_way.h"

#include <glib/gi18n-lib.h>

static char *percent(double share)
{
    return wb_text_number(100 * share, 1);
}

static void append_share(GString *text, const WbFirmness *firmness)
{
    g_autofree char *share = percent(firmness->share);
    if (firmness->share_error > 0)
        g_string_append_printf(
            text, _("Of all ways to weigh what counts now it is first in %s %% (drawn at random)."),
            share);
    else
        g_string_append_printf(
            text, _("Of all ways to weigh what counts now it is first in %s %%."), share);
}

/* From which criteria weight was taken, and to which it went. */
static void list_moves(const double from[WB_N_CRITERIA], const double to[WB_N_CRITERIA], bool taken,
                       GString *names)
{
    const double least = 1e-9;
    for (int c = 0; c < WB_N_CRITERIA; c++)
        if ((taken ? from[c] - to[c] : to[c] - from[c]) > least)
            g_string_append_printf(names, "%s%s", names->len > 0 ? ", " : "",
                                   wb_words_criterion(c));
}

static void append_rival(GString *text, const WbProblem *problem, const WbRankFirm *firm)
{
    const WbFirmness *firmness = &firm->firmness;
    if (firm->by == NULL) {
        g_string_append_printf(text, " %s", _("No change of weights puts another kit first."));
        return;
    }
    GString *from = g_string_new(NULL), *to = g_string_new(NULL);
    list_moves(problem->weight, firmness->weight, true, from);
    list_moves(problem->weight, firmness->weight, false, to);
    g_autofree char *kit = wb_words_kit(problem, &firm->by->kit);
    g_autofree char *moved = percent(firmness->moved);
    g_string_append_c(text, ' ');
    if (from->len == 0)
        g_string_append_printf(text, _("Level with it stands %s."), kit);
    else
        g_string_append_printf(
            text, _("The least that changes it: %s %% of the weight from %s to %s puts %s first."),
            moved, from->str, to->str, kit);
    g_string_free(from, TRUE);
    g_string_free(to, TRUE);
}

static void append_ranges(GString *text, const WbProblem *problem, const WbRankFirm *firm)
{
    GString *ranges = g_string_new(NULL);
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        const WbWeightRange *range = &firm->firmness.range[c];
        if (!(firm->criteria >> c & 1))
            continue;
        g_autofree char *low = percent(range->low), *high = percent(range->high);
        g_autofree char *now = percent(problem->weight[c]);
        /* Translators: a criterion, the weights between which the kit stays first, and now. */
        g_string_append_printf(ranges, _("%s%s %s to %s %% (now %s)"), ranges->len > 0 ? "; " : "",
                               wb_words_criterion(c), low, high, now);
    }
    g_string_append_printf(
        text, _(" It stays first while one weight lies within: %s; the others in proportion."),
        ranges->str);
    g_string_free(ranges, TRUE);
}

char *wb_words_firm(const WbProblem *problem, const WbRankFirm *firm)
{
    if (!firm->known)
        return NULL;
    GString *text = g_string_new(NULL);
    append_share(text, &firm->firmness);
    append_rival(text, problem, firm);
    append_ranges(text, problem, firm);
    return g_string_free(text, FALSE);
}

char *wb_words_firm_share(const WbFirstShare *first)
{
    g_autofree char *share = percent(first->share);
    return first->share_error > 0
               ? g_strdup_printf(_("At other weights it is first: in %s %% of all ways to weigh "
                                   "what counts now (drawn at random)."),
                                 share)
               : g_strdup_printf(_("At other weights it is first: in %s %% of all ways to weigh "
                                   "what counts now."),
                                 share);
}

char *wb_words_firm_others(const WbRankFirm *firm)
{
    GString *text = g_string_new(NULL);
    for (int i = 0; i < firm->n_first; i++) {
        const WbFirstShare *first = &firm->first[i];
        if (first->rank == 1)
            continue;
        g_autofree char *share = percent(first->share);
        /* Translators: a place in the ranking, a share of all weightings. */
        g_string_append_printf(text, _("%snumber %u in %s %%"), text->len > 0 ? ", " : "",
                               (guint)first->rank, share);
    }
    char *sentence =
        text->len > 0 ? g_strdup_printf(_("First at other weights: %s."), text->str) : NULL;
    g_string_free(text, TRUE);
    return sentence;
}
