/* How a result is made: all at once, or an answer soon and the rest behind it. Soon means: other
 * weights over kits that are known are ranked from the pool; anything else is searched with the
 * dark hours left out, but for the rows a person sees first. */
#include "brief_file.h"
#include "database.h"
#include "outline.h"
#include "result_private.h"
#include "store_error.h"
#include "words_clash.h"
#include "words_firm.h"

/* So many rows at the head of the list are told their dark hours at once. */
#define ROWS_IN_SIGHT 24

static WbResult *result_new(WbBriefFile *file, WbCatalogueView *view)
{
    WbResult *result = g_new0(WbResult, 1);
    g_atomic_ref_count_init(&result->references);
    result->file = wb_brief_file_ref(file);
    result->view = wb_catalogue_view_ref(view);
    result->judged = g_new0(WbJudged, 1);
    g_mutex_init(&result->judged->lock);
    return result;
}

/* Stopped is no failure: no error. */
static WbResult *give_up(WbResult *result, WbStatus status, GError **error)
{
    if (status != WB_STOPPED)
        g_set_error_literal(error, WB_STORE_ERROR, WB_STORE_ERROR_VALUE,
                            wb_status_describe(status));
    wb_result_unref(result);
    return NULL;
}

static WbRankOptions options_for(gsize rows)
{
    WbRankOptions options = wb_rank_options_default();
    options.workers = CLAMP((int)g_get_num_processors(), 1, WB_MOST_WORKERS);
    options.pool = TRUE;
    if (rows > 0)
        options.top = rows;
    return options;
}

/* Its problem shares all but the weights with the other's. */
static WbStatus borrow(WbResult *result, WbResult *from)
{
    result->lender = wb_result_ref(from->lender ? from->lender : from);
    WbStatus status =
        wb_problem_reweigh(from->problem, wb_brief_file_brief(result->file), &result->problem);
    if (status == WB_OK)
        wb_result_inherit_judged(result, from);
    return status;
}

static WbStatus firmness(WbResult *result, WbControl *control)
{
    WbRankFirm firm;
    WbStatus status = wb_rank_firm(result->problem, &result->ranking, control, &firm);
    if (status != WB_OK)
        return status;
    g_autofree char *sentence = wb_words_firm(result->problem, &firm);
    g_autofree char *others = wb_words_firm_others(&firm);
    if (sentence)
        result->firm = g_strjoin(" ", sentence, others, NULL);
    for (int i = 0; i < firm.n_first; i++)
        if (firm.first[i].rank > 1) {
            result->firm_kit[i] = firm.first[i].kit->kit;
            result->firm_share[i] = wb_words_firm_share(&firm.first[i]);
        }
    wb_rank_firm_free(&firm);
    return status;
}

/* The first limit to think of; where none is to blame, what rules out most. */
static WbRule clash_rule(const WbRanking *ranking, const WbClash *clash)
{
    for (int i = 0; i < WB_N_CLASH; i++)
        if (clash->limits >> i & 1)
            return wb_clash_rule((WbClashLimit)i);
    return wb_outline_decisive_rule(ranking);
}

static WbStatus clash(WbResult *result, WbControl *control)
{
    WbClash found;
    WbStatus status = wb_clash(result->problem, &result->ranking, 1, control, &found);
    if (status != WB_OK)
        return status;
    result->clash = wb_words_clash(result->problem, &found);
    result->clash_head = wb_words_clash_head(&found);
    result->clash_rule = clash_rule(&result->ranking, &found);
    return WB_OK;
}

static WbResult *finish(WbResult *result, WbStatus status, gint64 begun_us, WbControl *control,
                        GError **error)
{
    if (status == WB_OK && result->whole)
        status = firmness(result, control);
    if (status == WB_OK && result->whole)
        status = clash(result, control);
    if (status != WB_OK)
        return give_up(result, status, error);
    for (int rule = 0; rule < WB_N_RULES; rule++)
        result->nearest[rule] =
            wb_words_nearest(result->problem, (WbRule)rule, &result->ranking.ruled_out[rule]);
    result->seconds = (double)(g_get_monotonic_time() - begun_us) / 1e6;
    return result;
}

WbResult *wb_result_make(WbBriefFile *file, WbCatalogueView *view, const WbRankOptions *options,
                         WbControl *control, GError **error)
{
    gint64 begun_us = g_get_monotonic_time();
    if (!wb_brief_file_check_hours(file, error))
        return NULL;
    WbRankOptions usual = options_for(0);
    WbResult *result = result_new(file, view);
    result->whole = TRUE;
    WbStatus status = wb_problem_new(wb_brief_file_brief(file), wb_catalogue_view_get(view),
                                     control, &result->problem);
    if (status == WB_OK)
        status = wb_rank(result->problem, options ? options : &usual, control, &result->ranking);
    return finish(result, status, begun_us, control, error);
}

/* ---- an answer soon, and the rest ---- */

/* Do both ask about the same kits, though in another order perhaps? */
static gboolean same_kits(WbBriefFile *a, WbBriefFile *b)
{
    static const char *const order_only[] = {"kit_in_hand", "notes",   "weights", "anchors",
                                             "front",       "rank_by", NULL};
    if (wb_brief_file_hours(a) != wb_brief_file_hours(b))
        return FALSE;
    g_autofree char *text_a = wb_brief_file_text_without(a, order_only);
    g_autofree char *text_b = wb_brief_file_text_without(b, order_only);
    return g_str_equal(text_a, text_b);
}

/* From the pool where that answers, else by searching anew. */
static WbStatus rank_again(WbResult *result, const WbResult *base, const WbRankOptions *options,
                           WbControl *control)
{
    WbStatus status = WB_BAD_INPUT;
    const WbPool *pool = base->ranking.pool;
    if (base->ranking.proved && (options->hurried || (pool && pool->beyond)))
        status = wb_rerank(result->problem, options, &base->ranking, base->problem->brief->front,
                           control, &result->ranking);
    return status == WB_BAD_INPUT ? wb_rank(result->problem, options, control, &result->ranking)
                                  : status;
}

WbResult *wb_result_make_soon(WbBriefFile *file, WbCatalogueView *view, gsize rows, WbResult *last,
                              const WbCaches *caches, WbControl *control, GError **error)
{
    gint64 begun_us = g_get_monotonic_time();
    if (!wb_brief_file_check_hours(file, error))
        return NULL;
    WbRankOptions options = options_for(rows);
    options.hurried = TRUE;
    options.hurried_dark_rows = ROWS_IN_SIGHT;
    WbResult *result = result_new(file, view);
    WbStatus status;
    if (last && last->view == view && same_kits(last->file, file)) {
        status = borrow(result, last);
        if (status == WB_OK)
            status = rank_again(result, last, &options, control);
    } else {
        status = wb_problem_new_kept(wb_brief_file_brief(file), wb_catalogue_view_get(view), caches,
                                     control, &result->problem);
        if (status == WB_OK)
            status = wb_rank(result->problem, &options, control, &result->ranking);
    }
    return finish(result, status, begun_us, control, error);
}

WbResult *wb_result_make_whole(WbResult *soon, gsize rows, WbControl *control, GError **error)
{
    gint64 begun_us = g_get_monotonic_time();
    WbRankOptions options = options_for(rows);
    WbResult *result = result_new(soon->file, soon->view);
    result->whole = TRUE;
    WbStatus status = borrow(result, soon);
    if (status == WB_OK)
        status = rank_again(result, soon, &options, control);
    return finish(result, status, begun_us, control, error);
}
