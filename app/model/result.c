#include "result.h"
#include "brief_file.h"
#include "database.h"
#include "store_error.h"
#include "words_firm.h"

struct WbResult {
    gatomicrefcount references;
    WbBriefFile *file;
    WbCatalogueView *view;
    WbProblem *problem;
    WbRanking ranking;
    double seconds;
    char *nearest[WB_N_RULES];
    char *firm;
};

/* Stopped is no failure: no error. */
static WbResult *give_up(WbResult *result, WbStatus status, GError **error)
{
    if (status != WB_STOPPED)
        g_set_error_literal(error, WB_STORE_ERROR, WB_STORE_ERROR_VALUE,
                            wb_status_describe(status));
    wb_result_unref(result);
    return NULL;
}

WbResult *wb_result_make_cached(WbBriefFile *file, WbCatalogueView *view,
                                const WbRankOptions *options, WbFitCache *cache, WbControl *control,
                                GError **error)
{
    gint64 begun_us = g_get_monotonic_time();
    if (!wb_brief_file_check_hours(file, error))
        return NULL;
    WbRankOptions usual = wb_rank_options_default();
    usual.workers = CLAMP((int)g_get_num_processors(), 1, WB_MOST_WORKERS);
    WbResult *result = g_new0(WbResult, 1);
    g_atomic_ref_count_init(&result->references);
    result->file = wb_brief_file_ref(file);
    result->view = wb_catalogue_view_ref(view);
    WbStatus status = wb_problem_new_cached(wb_brief_file_brief(file), wb_catalogue_view_get(view),
                                            cache, control, &result->problem);
    if (status == WB_OK)
        status = wb_rank(result->problem, options ? options : &usual, control, &result->ranking);
    if (status != WB_OK)
        return give_up(result, status, error);
    WbRankFirm firm;
    status = wb_rank_firm(result->problem, &result->ranking, control, &firm);
    if (status != WB_OK)
        return give_up(result, status, error);
    result->firm = wb_words_firm(result->problem, &firm);
    for (int rule = 0; rule < WB_N_RULES; rule++)
        result->nearest[rule] =
            wb_words_nearest(result->problem, (WbRule)rule, &result->ranking.ruled_out[rule]);
    result->seconds = (double)(g_get_monotonic_time() - begun_us) / 1e6;
    return result;
}

WbResult *wb_result_make(WbBriefFile *file, WbCatalogueView *view, const WbRankOptions *options,
                         WbControl *control, GError **error)
{
    WbFitCache *cache = wb_fit_cache_new(WB_FIT_CACHE_BYTES);
    WbResult *result = wb_result_make_cached(file, view, options, cache, control, error);
    wb_fit_cache_unref(cache);
    return result;
}

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
    if (result->problem)
        wb_problem_free(result->problem);
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

const char *wb_result_get_firm(const WbResult *result)
{
    return result->firm;
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

gboolean wb_result_judge(const WbResult *result, const char *kit_id, WbVerdict *verdict)
{
    WbKit kit;
    if (!choose(result, kit_id, &kit))
        return FALSE;
    wb_judge(result->problem, &kit, verdict);
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
