#include "brief_file.h"
#include "database.h"
#include "result_private.h"

WbResult *wb_result_ref(WbResult *result)
{
    g_atomic_ref_count_inc(&result->references);
    return result;
}

void wb_result_unref(WbResult *result)
{
    if (!g_atomic_ref_count_dec(&result->references))
        return;
    wb_ranking_free(&result->ranking);
    for (int rule = 0; rule < WB_N_RULES; rule++)
        g_free(result->nearest[rule]);
    g_free(result->firm);
    for (int i = 0; i < WB_FIRM_SHARES; i++)
        g_free(result->firm_share[i]);
    g_free(result->clash);
    g_free(result->clash_head);
    wb_problem_free(result->problem);
    g_mutex_clear(&result->judged->lock);
    g_free(result->judged);
    g_clear_pointer(&result->lender, wb_result_unref);
    wb_catalogue_view_unref(result->view);
    wb_brief_file_unref(result->file);
    g_free(result);
}

const WbProblem *wb_result_get_problem(const WbResult *result)
{
    return result->problem;
}

const WbRanking *wb_result_get_ranking(const WbResult *result)
{
    return &result->ranking;
}

const WbBrief *wb_result_get_brief(const WbResult *result)
{
    return result->problem->brief;
}

const WbCatalogue *wb_result_get_catalogue(const WbResult *result)
{
    return result->problem->catalogue;
}

const char *wb_result_get_nearest(const WbResult *result, WbRule rule)
{
    return result->nearest[rule];
}

const char *wb_result_get_clash_head(const WbResult *result)
{
    return result->clash_head;
}

const char *wb_result_get_clash(const WbResult *result, WbRule *rule)
{
    if (rule && result->clash)
        *rule = result->clash_rule;
    return result->clash;
}

const char *wb_result_get_firm_of(const WbResult *result, const WbKit *kit)
{
    const WbRanking *ranking = &result->ranking;
    if (ranking->n_top > 0 && wb_kit_compare(NULL, &ranking->top[0].kit, kit) == 0)
        return result->firm;
    for (int i = 0; i < WB_FIRM_SHARES; i++)
        if (result->firm_share[i] && wb_kit_compare(NULL, &result->firm_kit[i], kit) == 0)
            return result->firm_share[i];
    return NULL;
}

const char *wb_result_get_firm(const WbResult *result)
{
    return result->firm;
}

gboolean wb_result_is_whole(const WbResult *result)
{
    return result->whole;
}

double wb_result_get_seconds(const WbResult *result)
{
    return result->seconds;
}

static gboolean choose(const WbResult *result, const char *kit_id, WbKit *kit)
{
    if (kit_id && *kit_id && wb_kit_parse(result->problem, kit_id, kit))
        return TRUE;
    if (result->ranking.n_top == 0)
        return FALSE;
    *kit = result->ranking.top[0].kit;
    return TRUE;
}

static gboolean judged_before(WbJudged *judged, const WbKit *kit, WbVerdict *verdict)
{
    g_mutex_lock(&judged->lock);
    gboolean same = judged->known && wb_kit_compare(NULL, kit, &judged->verdict.kit) == 0;
    if (same)
        *verdict = judged->verdict;
    g_mutex_unlock(&judged->lock);
    return same;
}

static void remember(WbJudged *judged, const WbVerdict *verdict)
{
    g_mutex_lock(&judged->lock);
    judged->known = TRUE;
    judged->verdict = *verdict;
    g_mutex_unlock(&judged->lock);
}

void wb_result_inherit_judged(WbResult *result, const WbResult *from)
{
    g_mutex_lock(&from->judged->lock);
    if (from->judged->known) {
        WbVerdict *verdict = &result->judged->verdict;
        *verdict = from->judged->verdict;
        verdict->score = wb_score(result->problem, &verdict->figures, verdict->u);
        result->judged->known = TRUE;
    }
    g_mutex_unlock(&from->judged->lock);
}

gboolean wb_result_judge(const WbResult *result, const char *kit_id, WbVerdict *verdict)
{
    WbKit kit;
    if (!choose(result, kit_id, &kit))
        return FALSE;
    if (judged_before(result->judged, &kit, verdict))
        return TRUE;
    if (wb_judge(result->problem, &kit, verdict) == WB_OK)
        remember(result->judged, verdict);
    return TRUE;
}

gboolean wb_result_kit_id(const WbResult *result, const char *kit_id, char text[WB_KIT_ID])
{
    WbKit kit;
    if (!choose(result, kit_id, &kit))
        return FALSE;
    wb_kit_id(result->problem, &kit, text);
    return TRUE;
}
