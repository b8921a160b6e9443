#include "words_clash.h"
#include "figures_text.h"

#include <glib/gi18n-lib.h>

/* "money, weight and roof" */
static char *limit_names(uint32_t limits)
{
    static const char *const names[WB_N_CLASH] = {
        [WB_CLASH_MONEY] = N_("money"),     [WB_CLASH_WEIGHT] = N_("weight"),
        [WB_CLASH_DARK] = N_("dark hours"), [WB_CLASH_ROOF] = N_("roof"),
        [WB_CLASH_BAY] = N_("storage bay"),
    };
    GString *text = g_string_new(NULL);
    int left = __builtin_popcount(limits);
    for (int i = 0; i < WB_N_CLASH; i++) {
        if (!(limits >> i & 1))
            continue;
        g_string_append(text, _(names[i]));
        left--;
        if (left > 0)
            g_string_append(text, left == 1 ? _(" and ") : ", ");
    }
    return g_string_free(text, FALSE);
}

char *wb_words_clash_head(const WbClash *clash)
{
    if (!clash->asked)
        return NULL;
    if (clash->limits == 0)
        return g_strdup(
            _("The limits are not to blame: with all of them off nothing works either."));
    g_autofree char *names = limit_names(clash->limits);
    /* Translators: limits such as "money and weight". */
    return g_strdup_printf(_("These limits cannot all be kept: %s."), names);
}

static char *tail(const WbProblem *problem, const WbClash *clash)
{
    if (clash->limits == 0)
        return g_strdup(_("The ticked parts do not go together, or the loads want more than they "
                          "give."));
    g_autofree char *works = wb_text_number((double)clash->works, 0);
    g_autofree char *money = wb_words_money(clash->cheapest_minor, problem->brief->currency);
    g_autofree char *weight = wb_text_number(clash->lightest_kg, 1);
    /* Translators: a number, an amount of money, kilograms. */
    return g_strdup_printf(_("Without them %s kits work; the cheapest of these costs %s, the "
                             "lightest weighs %s kg."),
                           works, money, weight);
}

char *wb_words_clash(const WbProblem *problem, const WbClash *clash)
{
    if (!clash->asked)
        return NULL;
    g_autofree char *head = wb_words_clash_head(clash), *rest = tail(problem, clash);
    return g_strdup_printf("%s %s", head, rest);
}
