/* The ranking in the background: the newest question's answer, and no other, is shown. */
#include "fit_cache.h"
#include "hours_csv.h"
#include "ranking_job.h"
#include "rig.h"
#include "roof_edit.h"
#include "site_edit.h"
#include <math.h>
#include <string.h>

typedef struct {
    WbRankingJob *job;
    guint results;        /* whole ones */
    guint soon;           /* answers before */
    gboolean idle, ended; /* ended: idle, stopped or failed */
    double loads_wh[8];   /* of each result, to tell them apart */
} Heard;

static void on_result(WbRankingJob *job, Heard *heard)
{
    WbResult *result = wb_ranking_job_get_result(job);
    const WbBrief *brief = wb_result_get_brief(result);
    if (!wb_result_is_whole(result)) {
        g_assert_false(wb_ranking_job_get_stale(job));
        heard->soon++;
        return;
    }
    if (heard->results < G_N_ELEMENTS(heard->loads_wh))
        heard->loads_wh[heard->results] = brief->loads[0].power_w;
    heard->results++;
}

static void on_state(WbRankingJob *job, GParamSpec *pspec, Heard *heard)
{
    heard->idle = wb_ranking_job_get_state(job) == WB_JOB_IDLE;
    heard->ended = wb_ranking_job_get_state(job) != WB_JOB_RUNNING;
}

/* A question answered in a moment: the tests are about answers, not about searching. */
static WbDocument *small_document(void)
{
    WbDocument *document = rig_document();
    g_assert_true(wb_document_set_json(document, "Small", "/largest",
                                       "{\"series\": 1, \"parallel\": 2, \"bank_series\": 1, "
                                       "\"bank_parallel\": 2}",
                                       NULL));
    return document;
}

static WbRankingJob *listen(WbDocument *document, Heard *heard)
{
    *heard = (Heard){.job = wb_ranking_job_new(document)};
    g_signal_connect(heard->job, "result", G_CALLBACK(on_result), heard);
    g_signal_connect(heard->job, "notify::state", G_CALLBACK(on_state), heard);
    return heard->job;
}

static void set_watts(WbDocument *document, double watts)
{
    g_assert_true(wb_document_set_number(document, "Change watts", "/loads/0/watts", watts, NULL));
}

static void test_first_answer(void)
{
    g_autoptr(WbDocument) document = small_document();
    Heard heard;
    g_autoptr(WbRankingJob) job = listen(document, &heard);
    g_assert_cmpint(wb_ranking_job_get_state(job), ==, WB_JOB_RUNNING);
    g_assert_null(wb_ranking_job_get_result(job));
    rig_wait(&heard.idle);
    g_assert_cmpuint(heard.results, ==, 1);
    g_assert_false(wb_ranking_job_get_stale(job));
    g_assert_cmpuint(wb_result_get_ranking(wb_ranking_job_get_result(job))->raw, >, 0);
}

/* The same question asked on the main thread has the same answer. */
static void test_same_as_direct(void)
{
    g_autoptr(WbDocument) document = small_document();
    Heard heard;
    g_autoptr(WbRankingJob) job = listen(document, &heard);
    rig_wait(&heard.idle);
    const WbRanking *told = wb_result_get_ranking(wb_ranking_job_get_result(job));
    g_autoptr(WbResult) direct = wb_result_make(wb_document_get_file(document),
                                                wb_document_get_view(document), NULL, NULL, NULL);
    const WbRanking *ours = wb_result_get_ranking(direct);
    g_assert_cmpuint(told->feasible, ==, ours->feasible);
    g_assert_cmpuint(told->n_top, ==, ours->n_top);
    for (gsize i = 0; i < told->n_top; i++)
        g_assert_true(told->top[i].score == ours->top[i].score);
}

/* Three quick edits: only the last one's answer arrives, and the old one stays until then. */
static void test_stale_dropped(void)
{
    g_autoptr(WbDocument) document = rig_document();
    Heard heard;
    g_autoptr(WbRankingJob) job = listen(document, &heard);
    rig_wait(&heard.idle);
    WbResult *old = wb_ranking_job_get_result(job);
    set_watts(document, 11);
    rig_settle(5); /* it is surely at work now */
    set_watts(document, 12);
    set_watts(document, 13);
    g_assert_true(wb_ranking_job_get_stale(job));
    g_assert_true(wb_ranking_job_get_result(job) == old);
    heard.idle = FALSE;
    rig_wait(&heard.idle);
    rig_settle(300); /* a late answer would come now */
    g_assert_cmpuint(heard.results, <=, 3);
    g_assert_cmpfloat(heard.loads_wh[heard.results - 1], ==, 13);
    for (guint i = 1; i < heard.results; i++)
        g_assert_cmpfloat(heard.loads_wh[i], >, heard.loads_wh[i - 1]);
    g_assert_false(wb_ranking_job_get_stale(job));
    g_assert_cmpfloat(wb_result_get_brief(wb_ranking_job_get_result(job))->loads[0].power_w, ==,
                      13);
}

static void test_stop(void)
{
    g_autoptr(WbDocument) document = small_document();
    Heard heard;
    g_autoptr(WbRankingJob) job = listen(document, &heard);
    rig_wait(&heard.idle);
    WbResult *old = wb_ranking_job_get_result(job);
    set_watts(document, 20);
    wb_ranking_job_stop(job);
    g_assert_cmpint(wb_ranking_job_get_state(job), ==, WB_JOB_STOPPED);
    rig_settle(300);
    g_assert_cmpuint(heard.results, ==, 1);
    g_assert_true(wb_ranking_job_get_result(job) == old);
    g_assert_true(wb_ranking_job_get_stale(job));
    heard.idle = FALSE;
    wb_ranking_job_restart(job);
    rig_wait(&heard.idle);
    g_assert_cmpuint(heard.results, ==, 2);
    g_assert_cmpfloat(heard.loads_wh[1], ==, 20);
}

/* A kit kept in the brief or a note asks no new question. */
static void test_no_needless_work(void)
{
    g_autoptr(WbDocument) document = small_document();
    Heard heard;
    g_autoptr(WbRankingJob) job = listen(document, &heard);
    rig_wait(&heard.idle);
    wb_document_set_text(document, "Keep kit", "/kit_in_hand", "some kit", NULL);
    wb_document_set_text(document, "Note", "/notes", "something", NULL);
    g_assert_cmpint(wb_ranking_job_get_state(job), ==, WB_JOB_IDLE);
    g_assert_false(wb_ranking_job_get_stale(job));
    g_assert_cmpuint(heard.results, ==, 1);
}

/* Another limit asks nothing of the roof and the bay that was not answered before; another margin
 * asks of every panel, its undo of none. */
static void test_fits_are_kept(void)
{
    g_autoptr(WbDocument) document = small_document();
    g_assert_true(wb_bay_set_given(document, TRUE, NULL));
    WbFitCache *fits = wb_document_get_fits(document);
    Heard heard;
    g_autoptr(WbRankingJob) job = listen(document, &heard);
    rig_wait(&heard.idle);
    const WbProblem *problem = wb_result_get_problem(wb_ranking_job_get_result(job));
    guint64 n_panels = problem->n_panels, n_all = n_panels + problem->n_storage;
    WbFitCacheCount before = wb_fit_cache_count(fits), after;
    g_assert_cmpuint(n_panels, >, 5);
    g_assert_cmpuint(before.kept, >, 5);
    static const struct {
        const char *pointer;
        double value; /* NaN: undo */
        gboolean searches;
    } edits[] = {{"/limits/money_minor/value", 123400, FALSE},
                 {"/roof/margin_mm", 83, TRUE},
                 {NULL, NAN, FALSE}};
    for (gsize i = 0; i < G_N_ELEMENTS(edits); i++) {
        heard.idle = FALSE;
        if (edits[i].pointer)
            g_assert_true(
                wb_document_set_number(document, "Edit", edits[i].pointer, edits[i].value, NULL));
        else
            wb_document_undo(document);
        rig_wait(&heard.idle);
        after = wb_fit_cache_count(fits);
        guint64 asked = after.asked - before.asked, reused = after.reused - before.reused;
        g_test_message("edit %zu: %" G_GUINT64_FORMAT " of %" G_GUINT64_FORMAT " fits reused", i,
                       reused, asked);
        g_assert_cmpuint(asked, <=, n_all); /* no room in height: not asked */
        g_assert_cmpuint(asked, >=, n_panels);
        if (edits[i].searches)
            g_assert_cmpuint(reused, <, asked);
        else
            g_assert_cmpuint(reused, ==, asked);
        before = after;
    }
}

static void check_same_list(const WbRanking *a, const WbRanking *b)
{
    g_assert_cmpuint(a->n_top, ==, b->n_top);
    g_assert_cmpuint(a->front_count, ==, b->front_count);
    for (gsize i = 0; i < a->n_top; i++) {
        g_assert_cmpint(wb_kit_compare(NULL, &a->top[i].kit, &b->top[i].kit), ==, 0);
        g_assert_true(a->top[i].score == b->top[i].score);
        g_assert_cmpfloat(a->top[i].figures.dark_h, ==, b->top[i].figures.dark_h);
        g_assert_true(a->top[i].on_front == b->top[i].on_front);
    }
}

/* What was judged under other weights is scored by these; asked twice, it is the same. */
static void check_same_judged(const WbResult *told, const WbResult *direct)
{
    for (int i = 0; i < 2; i++) {
        WbVerdict a, b;
        g_assert_true(wb_result_judge(told, "", &a));
        g_assert_true(wb_result_judge(direct, "", &b));
        g_assert_cmpint(wb_kit_compare(NULL, &a.kit, &b.kit), ==, 0);
        g_assert_true(a.score == b.score && a.feasible == b.feasible);
        g_assert_true(a.year.dark_h == b.year.dark_h && a.year.n_years == b.year.n_years);
        for (int c = 0; c < WB_N_CRITERIA; c++)
            g_assert_true(a.u[c] == b.u[c]);
    }
}

/* Other weights, anchors or another front: the kits are not searched again, no fit is asked, and
 * the answer is the one of a search. */
static void test_other_weights(void)
{
    g_autoptr(WbDocument) document = small_document();
    WbFitCache *fits = wb_document_get_fits(document);
    Heard heard;
    g_autoptr(WbRankingJob) job = listen(document, &heard);
    rig_wait(&heard.idle);
    WbVerdict begun;
    g_assert_true(wb_result_judge(wb_ranking_job_get_result(job), "", &begun));
    static const struct {
        const char *pointer, *json;
    } edits[] = {
        {"/weights/cost", "9"},
        {"/weights/roof_area", "40"},
        {"/anchors", "{\"weight\": {\"full\": 10, \"none\": 60}}"},
        {"/front", "[\"cost\", \"roof_area\"]"},
        {"/weights/dark_hours", "3"},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(edits); i++) {
        g_assert_true(
            wb_document_set_json(document, "Edit", edits[i].pointer, edits[i].json, NULL));
        guint64 asked = wb_fit_cache_count(fits).asked;
        heard.idle = FALSE;
        rig_wait(&heard.idle);
        g_assert_cmpuint(wb_fit_cache_count(fits).asked, ==, asked);
        g_autoptr(WbResult) direct = wb_result_make(
            wb_document_get_file(document), wb_document_get_view(document), NULL, NULL, NULL);
        WbResult *told = wb_ranking_job_get_result(job);
        check_same_list(wb_result_get_ranking(told), wb_result_get_ranking(direct));
        check_same_judged(told, direct);
    }
    g_assert_cmpuint(heard.results, ==, 1 + G_N_ELEMENTS(edits));
    g_assert_cmpuint(heard.soon, ==, heard.results);
}

/* The first answer of a search comes without the limit on dark hours and says so; its first rows
 * have their figure. */
static void test_answer_soon(void)
{
    g_autoptr(WbDocument) document = small_document();
    WbCaches caches = {.fits = wb_document_get_fits(document)};
    g_autoptr(WbResult) soon =
        wb_result_make_soon(wb_document_get_file(document), wb_document_get_view(document), 0, NULL,
                            &caches, NULL, NULL);
    g_assert_false(wb_result_is_whole(soon));
    const WbRanking *first = wb_result_get_ranking(soon);
    g_assert_false(first->proved);
    g_assert_cmpuint(first->n_top, >, 0);
    g_assert_false(isnan(first->top[0].figures.dark_h));
    g_assert_true(isnan(first->top[first->n_top - 1].figures.dark_h));
    g_autoptr(WbResult) whole = wb_result_make_whole(soon, 0, NULL, NULL);
    g_assert_true(wb_result_is_whole(whole));
    const WbRanking *all = wb_result_get_ranking(whole);
    g_assert_true(all->proved);
    g_assert_cmpuint(all->feasible, <=, first->feasible);
    for (gsize i = 0; i < all->n_top; i++)
        g_assert_cmpfloat(all->top[i].figures.dark_h, <=, 100);
    g_autoptr(WbResult) more = wb_result_make_whole(whole, 5000, NULL, NULL);
    g_assert_cmpuint(wb_result_get_ranking(more)->n_top, ==, MIN(all->feasible, 5000));
}

/* The worker may still be at work when the job, the document and the window go. */
static void test_finalization(void)
{
    for (int i = 0; i < 20; i++) {
        WbDocument *document = rig_document();
        WbRankingJob *job = wb_ranking_job_new(document);
        if (i % 2)
            rig_settle(2);
        set_watts(document, 30 + i);
        g_assert_finalize_object(job);
        g_assert_finalize_object(document);
    }
    rig_settle(300); /* answers to nobody are dropped */
}

static void test_judge(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_assert_true(wb_document_begin_demo(document, NULL));
    g_autoptr(WbResult) result = wb_result_make(wb_document_get_file(document),
                                                wb_document_get_view(document), NULL, NULL, NULL);
    const WbRanking *ranking = wb_result_get_ranking(result);
    g_assert_cmpuint(ranking->n_top, >, 2);
    WbVerdict best, third, lost;
    char id[WB_KIT_ID];
    wb_kit_id(wb_result_get_problem(result), &ranking->top[2].kit, id);
    g_assert_true(wb_result_judge(result, "", &best));
    g_assert_true(wb_result_judge(result, id, &third));
    g_assert_true(wb_result_judge(result, "no such kit", &lost));
    g_assert_true(best.score == ranking->top[0].score);
    g_assert_true(third.score == ranking->top[2].score);
    g_assert_true(lost.score == ranking->top[0].score);
    g_assert_true(best.feasible);
}

/* Stopped before it began: no result, and no error either. */
static void test_stopped_make(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_autoptr(GError) error = NULL;
    WbControl control;
    wb_control_init(&control);
    wb_control_stop(&control);
    g_assert_null(wb_result_make(wb_document_get_file(document), wb_document_get_view(document),
                                 NULL, &control, &error));
    g_assert_no_error(error);
}

/* An hourly file that cannot be used: no answer under other weather, but why; once it is mended and
 * chosen again, the question is asked again although the brief is the same. */
static void test_hourly_file(void)
{
    g_autoptr(WbDocument) document = small_document();
    g_autofree char *path = rig_scratch("own.csv");
    g_autofree char *text = hours_csv(0, 800, 1);
    g_file_set_contents(path, "global_w_m2\n1\n", -1, NULL);
    g_assert_true(wb_site_set_hourly_file(document, path, NULL));
    Heard heard;
    g_autoptr(WbRankingJob) job = listen(document, &heard);
    rig_wait(&heard.ended);
    g_assert_cmpint(wb_ranking_job_get_state(job), ==, WB_JOB_FAILED);
    g_assert_nonnull(strstr(wb_ranking_job_get_message(job), "own.csv"));
    g_assert_null(wb_ranking_job_get_result(job));
    g_file_set_contents(path, text, -1, NULL);
    g_assert_true(wb_site_set_hourly_file(document, path, NULL));
    g_assert_cmpint(wb_ranking_job_get_state(job), ==, WB_JOB_RUNNING);
    rig_wait(&heard.idle);
    const WbBrief *brief = wb_result_get_brief(wb_ranking_job_get_result(job));
    g_assert_nonnull(brief->site.hours);
    g_assert_cmpuint(heard.results, ==, 1);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/ranking/first-answer", test_first_answer);
    g_test_add_func("/ranking/same-as-direct", test_same_as_direct);
    g_test_add_func("/ranking/stale-dropped", test_stale_dropped);
    g_test_add_func("/ranking/stop", test_stop);
    g_test_add_func("/ranking/no-needless-work", test_no_needless_work);
    g_test_add_func("/ranking/fits-are-kept", test_fits_are_kept);
    g_test_add_func("/ranking/other-weights", test_other_weights);
    g_test_add_func("/ranking/answer-soon", test_answer_soon);
    g_test_add_func("/ranking/finalization", test_finalization);
    g_test_add_func("/ranking/judge", test_judge);
    g_test_add_func("/ranking/stopped-make", test_stopped_make);
    g_test_add_func("/ranking/hourly-file", test_hourly_file);
    int code = g_test_run();
    rig_scratch_end();
    return code;
}
