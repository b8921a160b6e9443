/* What more would buy: the study beside the window, and its sentences. */
#include "more_study.h"
#include "rig.h"
#include "words_more.h"
#include <math.h>

/* ---- sentences, by hand ---- */

static const WbBrief brief = {.currency = "EUR"};
static const WbProblem problem = {.brief = &brief};

static WbCurveStep steps[] = {{.resource = 100000, .gain = 2000},
                              {.resource = 150000, .gain = 2400},
                              {.resource = 180000, .gain = 2400.3}, /* reads the same */
                              {.resource = 208400, .gain = 3480}};

/* The kit in hand gives as much as is possible. */
static void check_words(WbMoreCurve curve, double in_hand, const char *wanted)
{
    ptrdiff_t at = wb_more_curve_at(&curve, in_hand);
    g_autofree char *words =
        wb_words_curve(&problem, &curve, in_hand, at >= 0 ? curve.step[at].gain : NAN);
    g_assert_cmpstr(words, ==, wanted);
}

static void test_words_of_usable(void)
{
    WbMoreCurve curve = {.resource = WB_CRITERION_COST, .gain = WB_CRITERION_USABLE, .step = steps};
    curve.limit = 200000;
    curve.reaches = 300000;
    curve.n = 4;
    check_words(curve, NAN,
                "For 84.00 EUR more than your limit the most usable capacity rises from 2,400 Wh "
                "to 3,480 Wh.");
    check_words(curve, 120000,
                "For 300.00 EUR more than the kit in hand the most usable capacity rises from "
                "2,000 Wh to 2,400 Wh. For 84.00 EUR more than your limit the most usable capacity "
                "rises from 2,400 Wh to 3,480 Wh.");
    curve.n = 3;
    check_words(curve, 150000,
                "Up to 3,000.00 EUR, half as much again as your limit, no kit has more usable "
                "capacity than 2,400 Wh.");
    curve.limit = 90000;
    check_words(curve, NAN,
                "No kit works within your limit; for 100.00 EUR more there is one, with 2,000 Wh "
                "of usable capacity.");
    curve.n = 0;
    check_words(curve, NAN, "No kit works, not even with half as much again as your limit.");
    curve.limit = curve.reaches = INFINITY;
    check_words(curve, NAN, "No kit works.");
    curve.n = 4;
    check_words(curve, NAN, "No kit that works has more usable capacity than 3,480 Wh.");
    check_words(curve, 180000,
                "For 284.00 EUR more than the kit in hand the most usable capacity rises from "
                "2,400 Wh to 3,480 Wh.");
}

static void test_words_of_dark_hours(void)
{
    static WbCurveStep dark[] = {{.resource = 40, .gain = 99.96},
                                 {.resource = 60.01, .gain = 12},
                                 {.resource = 81.04, .gain = 0}};
    WbMoreCurve curve = {.resource = WB_CRITERION_WEIGHT, .gain = WB_CRITERION_DARK, .step = dark};
    curve.limit = 60;
    curve.reaches = 90;
    curve.n = 3;
    /* 0.01 kg more is told as what a scale of 0.1 kg shows, never as nothing. */
    check_words(curve, NAN,
                "For 0.1 kg more than your limit the fewest dark hours a year fall from 100.0 h to "
                "12.0 h.");
    curve.limit = 85;
    check_words(curve, 82,
                "A kit within your limit has no dark hour all year: more buys nothing here.");
    check_words(curve, 65,
                "For 16.1 kg more than the kit in hand the fewest dark hours a year fall from "
                "12.0 h to 0.0 h. A kit within your limit has no dark hour all year: more buys "
                "nothing here.");
    curve.resource = WB_CRITERION_ROOF;
    curve.limit = curve.reaches = INFINITY;
    check_words(curve, NAN, "The fewest dark hours are none at all: more buys nothing here.");
    curve.n = 2;
    check_words(curve, NAN, "No kit that works has fewer dark hours than 12.0 h a year.");
}

/* What it could give for what it needs comes first. */
static void test_words_of_better(void)
{
    WbMoreCurve curve = {.resource = WB_CRITERION_COST, .gain = WB_CRITERION_USABLE, .step = steps};
    curve.limit = 200000;
    curve.reaches = 300000;
    curve.n = 4;
    g_autofree char *words = wb_words_curve(&problem, &curve, 150000, 2100);
    g_assert_cmpstr(
        words, ==,
        "For no more than the kit in hand another has 2,400 Wh of usable capacity in "
        "place of 2,100 Wh. For 84.00 EUR more than your limit the most usable capacity "
        "rises from 2,400 Wh to 3,480 Wh.");
    curve.gain = WB_CRITERION_DARK;
    g_autofree char *dark = wb_words_curve(&problem, &curve, 100000, 2000.5);
    g_assert_true(g_str_has_prefix(dark,
                                   "For no more than the kit in hand another leaves 2,000.0 h a "
                                   "year dark in place of 2,000.5 h. "));
    g_autofree char *worse = wb_words_curve(&problem, &curve, 100000, 1999);
    g_assert_null(strstr(worse, "in place of"));
}

/* ---- the study ---- */

static WbResult *make_result(const char *largest)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDocument) document = rig_document();
    g_assert_true(wb_document_set_json(document, "Small", "/largest", largest, &error));
    WbResult *result = wb_result_make(wb_document_get_file(document),
                                      wb_document_get_view(document), NULL, NULL, &error);
    g_assert_no_error(error);
    return result;
}

static void on_changed(WbMoreStudy *study, gboolean *there)
{
    *there = wb_more_study_get_state(study) == WB_MORE_THERE;
}

static void check_answer(WbMoreStudy *study, WbResult *result, guint resource, guint gain)
{
    WbResult *of;
    WbMoreCurve direct;
    const WbMoreCurve *curve = wb_more_study_get(study, &of);
    const WbRanking *ranking = wb_result_get_ranking(result);
    g_assert_nonnull(curve);
    g_assert_true(of == result);
    g_assert_false(wb_more_study_is_stale(study));
    g_assert_cmpint(wb_more_curve(wb_result_get_problem(result), ranking->pool, ranking->proved,
                                  wb_curve_resource[resource], wb_curve_gain[gain], NULL, &direct),
                    ==, WB_OK);
    g_assert_cmpint(curve->resource, ==, wb_curve_resource[resource]);
    g_assert_cmpint(curve->gain, ==, wb_curve_gain[gain]);
    g_assert_cmpuint(curve->n, ==, direct.n);
    g_assert_cmpuint(curve->n, >, 0);
    for (size_t i = 0; i < curve->n; i++)
        g_assert_cmpuint(curve->step[i].at, ==, direct.step[i].at);
    wb_more_curve_free(&direct);
}

static void test_study(void)
{
    g_autoptr(WbResult) first =
        make_result("{\"series\": 2, \"parallel\": 2, \"bank_series\": 1, \"bank_parallel\": 2}");
    g_autoptr(WbResult) second =
        make_result("{\"series\": 1, \"parallel\": 4, \"bank_series\": 1, \"bank_parallel\": 3}");
    g_autoptr(WbMoreStudy) study = wb_more_study_new();
    gboolean there = FALSE;
    WbResult *of;
    g_signal_connect(study, "changed", G_CALLBACK(on_changed), &there);
    wb_more_study_set_result(study, first);
    g_assert_cmpint(wb_more_study_get_state(study), ==, WB_MORE_NOTHING); /* asleep */
    wb_more_study_set_awake(study, TRUE);
    g_assert_cmpint(wb_more_study_get_state(study), ==, WB_MORE_RUNNING);
    g_assert_null(wb_more_study_get(study, &of));
    rig_wait(&there);
    check_answer(study, first, 0, 0);
    wb_more_study_ask(study, 2, 1);
    g_assert_false(there);
    rig_wait(&there);
    check_answer(study, first, 2, 1);
    wb_more_study_set_result(study, second);
    g_assert_true(wb_more_study_is_stale(study)); /* stays until the new one is there */
    g_assert_nonnull(wb_more_study_get(study, &of));
    g_assert_true(of == first);
    rig_wait(&there);
    check_answer(study, second, 2, 1);
    wb_more_study_ask(study, 1, 1);
    wb_more_study_stop(study);
    g_assert_cmpint(wb_more_study_get_state(study), ==, WB_MORE_STOPPED);
    rig_settle(50);
    g_assert_null(wb_more_study_get(study, &of));
    wb_more_study_go_on(study);
    rig_wait(&there);
    check_answer(study, second, 1, 1);
    wb_more_study_set_result(study, NULL);
    g_assert_cmpint(wb_more_study_get_state(study), ==, WB_MORE_NOTHING);
    g_assert_null(wb_more_study_get(study, &of));
}

/* A ranking that kept no kits has no curves, and says so. */
static void test_no_pool(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDocument) document = rig_document();
    g_assert_true(wb_document_set_json(document, "Small", "/largest",
                                       "{\"series\": 1, \"parallel\": 2, \"bank_series\": 1, "
                                       "\"bank_parallel\": 1}",
                                       &error));
    WbRankOptions options = wb_rank_options_default();
    g_autoptr(WbResult) result = wb_result_make(
        wb_document_get_file(document), wb_document_get_view(document), &options, NULL, &error);
    g_assert_no_error(error);
    g_autoptr(WbMoreStudy) study = wb_more_study_new();
    wb_more_study_set_awake(study, TRUE);
    wb_more_study_set_result(study, result);
    g_assert_cmpint(wb_more_study_get_state(study), ==, WB_MORE_TOO_MANY);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/more/words-of-usable", test_words_of_usable);
    g_test_add_func("/more/words-of-dark-hours", test_words_of_dark_hours);
    g_test_add_func("/more/words-of-better", test_words_of_better);
    g_test_add_func("/more/study", test_study);
    g_test_add_func("/more/no-pool", test_no_pool);
    return g_test_run();
}
