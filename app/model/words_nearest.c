/* The kit that one rule alone stops and that misses its limit by least. */
#include "roof_way_in.h"
#include "words.h"

#include <glib/gi18n-lib.h>

char *wb_words_nearest(const WbProblem *problem, WbRule rule, const WbRuledOut *out)
{
    if (out->alone == 0 || isnan(out->value))
        return NULL;
    WbVerdict *verdict = g_new(WbVerdict, 1);
    wb_judge_without_year(problem, &out->nearest, verdict);
    if (rule == WB_RULE_DARK_HOURS)
        wb_judge_dark_hours(problem, out->value, verdict);
    g_autofree char *sentence = wb_words_finding(problem, verdict, &verdict->finding[rule]);
    g_autofree char *way_in =
        rule == WB_RULE_ROOF_FIT ? wb_roof_way_in(problem, &out->nearest, 1) : NULL;
    g_free(verdict);
    /* Translators: one sentence on the kit that misses a limit by least, and what lets it in. */
    return way_in != NULL ? g_strdup_printf(_("Nearest: %s %s"), sentence, way_in)
                          : g_strdup_printf(_("Nearest: %s"), sentence);
}
