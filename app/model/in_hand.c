/* The kit in hand against the brief's limits: what the foot of the window shows. */
#include "figures_text.h"
#include "money.h"
#include "outline.h"
#include "words.h"
#include <glib/gi18n-lib.h>
#include <math.h>

/* "1,612 of 2,000 EUR", or "1,612 EUR" where there is no limit. */
static char *against(double value, double limit, int decimals, const char *unit)
{
    g_autofree char *value_text = wb_text_number(value, decimals);
    g_autofree char *limit_text = wb_text_number(limit, decimals);
    if (isnan(limit))
        return g_strdup_printf("%s %s", value_text, unit);
    /* Translators: a figure, its limit, the unit: "74 of 120 kg". */
    return g_strdup_printf(_("%s of %s %s"), value_text, limit_text, unit);
}

static void fill(WbGauge *gauge, double value, double limit, int decimals, const char *unit)
{
    gauge->value = value;
    gauge->limit = limit;
    gauge->breaks = value > limit;
    gauge->text = against(value, limit, decimals, unit);
    if (!gauge->breaks)
        return;
    g_autofree char *by = wb_text_number(value - limit, decimals);
    /* Translators: by how much a limit is broken: "88 EUR over". */
    gauge->broken_by = g_strdup_printf(_("%s %s over"), by, unit);
}

static double limit_of(const WbLimit *limit, double scale)
{
    return limit->on ? limit->value / scale : NAN;
}

/* The days are what is wanted, so the bar counts days; the energy beside them is the kit's figure
 * of usable capacity, the lowest over the months in use. */
static void fill_usable(WbGauge *gauge, const WbBrief *brief, const WbVerdict *verdict)
{
    gauge->least = TRUE;
    gauge->value = verdict->figures.autonomy_days;
    gauge->limit = brief->autonomy_target_days > 0 ? brief->autonomy_target_days : NAN;
    gauge->breaks = gauge->value < gauge->limit;
    int decimals = gauge->breaks ? 2 : 1; /* 1.46 days where 1.5 are wanted */
    g_autofree char *wh = wb_text_number(verdict->figures.usable_wh, 0);
    g_autofree char *days = wb_text_number(gauge->value, decimals);
    g_autofree char *wanted = wb_text_number(gauge->limit, decimals);
    if (isnan(gauge->limit)) {
        gauge->text = g_strdup_printf(_("%s Wh, %s days"), wh, days);
        return;
    }
    /* Translators: usable energy, days it lasts, days wished for. */
    gauge->text = g_strdup_printf(_("%s Wh, %s days; %s wanted"), wh, days, wanted);
    if (!gauge->breaks)
        return;
    g_autofree char *by = wb_text_number(gauge->limit - gauge->value, decimals);
    gauge->broken_by = g_strdup_printf(_("%s days short"), by);
}

/* The roof's limit is the fit, never the area. */
static void fill_roof(WbGauge *gauge, const WbProblem *problem, const WbVerdict *verdict)
{
    double area_m2 = (double)verdict->figures.roof_area_mm2 / 1e6;
    gauge->value = area_m2;
    gauge->limit = problem->clear_m2;
    gauge->text = against(area_m2, problem->clear_m2, 1, "m\302\262");
    gauge->breaks = !verdict->finding[WB_RULE_ROOF_FIT].holds;
    if (gauge->breaks)
        gauge->broken_by = g_strdup(_("does not fit"));
}

gboolean wb_in_hand_make(const WbResult *result, const char *kit_id, WbInHand *in_hand)
{
    *in_hand = (WbInHand){0};
    g_autofree WbVerdict *verdict = g_new(WbVerdict, 1);
    if (!result || !wb_result_judge(result, kit_id, verdict))
        return FALSE;
    const WbProblem *problem = wb_result_get_problem(result);
    const WbRanking *ranking = wb_result_get_ranking(result);
    const WbBrief *brief = problem->brief;
    double minor = pow(10, MAX(wb_currency_decimals(brief->currency), 0));
    wb_kit_id(problem, &verdict->kit, in_hand->kit_id);
    in_hand->words = wb_words_kit(problem, &verdict->kit);
    in_hand->best =
        ranking->n_top > 0 && wb_kit_compare(problem, &ranking->top[0].kit, &verdict->kit) == 0;
    fill(&in_hand->gauge[WB_GAUGE_MONEY], (double)verdict->figures.cost_minor / minor,
         limit_of(&brief->money_minor, minor), 0, brief->currency);
    fill(&in_hand->gauge[WB_GAUGE_WEIGHT], (double)verdict->figures.weight_g / 1e3,
         limit_of(&brief->weight_kg, 1), 0, "kg");
    fill_usable(&in_hand->gauge[WB_GAUGE_USABLE], brief, verdict);
    fill_roof(&in_hand->gauge[WB_GAUGE_ROOF], problem, verdict);
    return TRUE;
}

void wb_in_hand_clear(WbInHand *in_hand)
{
    g_clear_pointer(&in_hand->words, g_free);
    for (int i = 0; i < WB_N_GAUGES; i++) {
        g_clear_pointer(&in_hand->gauge[i].text, g_free);
        g_clear_pointer(&in_hand->gauge[i].broken_by, g_free);
    }
}
