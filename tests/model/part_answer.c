/* Why one part is in no kit: every state, in sentences, beside the window, stopped; and the kit
 * nearest to the limit of dark hours. */
#include "part_answer.h"
#include "dark_answer.h"
#include "rig.h"
#include "words.h"
#include <math.h>

#define WORKS "p-brambleray-100-rigid"
#define TOO_LARGE "p-sundrell-450-rigid"
#define SMALL "{\"series\": 2, \"parallel\": 2, \"bank_series\": 1, \"bank_parallel\": 2}"

static WbResult *make_result(const char *pointer, const char *value)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDocument) document = rig_document();
    g_assert_true(wb_document_begin_demo(document, &error));
    g_assert_true(wb_document_set_json(document, "Small", "/largest", SMALL, &error));
    if (pointer != NULL)
        g_assert_true(wb_document_set_json(document, "Other", pointer, value, &error));
    WbResult *result = wb_result_make(wb_document_get_file(document),
                                      wb_document_get_view(document), NULL, NULL, &error);
    g_assert_no_error(error);
    return result;
}

static WbPartAnswer *answer_of(WbResult *result, const char *id)
{
    g_autoptr(GError) error = NULL;
    WbPartAnswer *answer = wb_part_answer_new(
        wb_result_get_problem(result), wb_result_get_ranking(result), id, NULL, NULL, &error);
    g_assert_no_error(error);
    g_assert_nonnull(answer);
    g_assert_cmpstr(answer->part_id, ==, id);
    return answer;
}

/* A kit spoken of is one of this problem and holds the part, or is the first of all. */
static void check_kits(WbResult *result, const WbPartAnswer *answer)
{
    const WbProblem *problem = wb_result_get_problem(result);
    for (gsize i = 0; i < answer->n; i++) {
        const WbAnswerLine *line = &answer->line[i];
        WbKit kit;
        g_assert_true(g_utf8_validate(line->text, -1, NULL));
        g_assert_cmpint(line->kit_id != NULL, ==, line->kit_words != NULL);
        if (line->kit_id == NULL)
            continue;
        g_assert_true(wb_kit_parse(problem, line->kit_id, &kit));
        g_autofree char *words = wb_words_kit(problem, &kit);
        g_assert_cmpstr(words, ==, line->kit_words);
        if (strstr(line->kit_id, answer->part_id) == NULL)
            g_assert_cmpint(
                wb_kit_compare(problem, &kit, &wb_result_get_ranking(result)->top[0].kit), ==, 0);
    }
}

static void test_works(void)
{
    g_autoptr(WbResult) result = make_result(NULL, NULL);
    const WbRanking *ranking = wb_result_get_ranking(result);
    g_autoptr(WbPartAnswer) answer = answer_of(result, WORKS);
    g_assert_cmpint(answer->state, ==, WB_ANSWER_KITS);
    g_assert_cmpuint(answer->why.with.feasible, >, 0);
    g_assert_cmpuint(answer->why.rank, >, 0);
    WbPartChoice choice;
    g_assert_true(wb_part_choice(wb_result_get_problem(result), WORKS, &choice));
    for (uint64_t i = 0; i < answer->why.rank && i < ranking->n_top; i++)
        g_assert_cmpint(wb_kit_holds(&ranking->top[i].kit, &choice), ==, i + 1 == answer->why.rank);
    g_assert_nonnull(strstr(answer->headline, "combinations with it work"));
    check_kits(result, answer);
}

static void test_in_none(void)
{
    g_autoptr(WbResult) result = make_result(NULL, NULL);
    g_autoptr(WbPartAnswer) answer = answer_of(result, TOO_LARGE);
    g_assert_cmpint(answer->state, ==, WB_ANSWER_KITS);
    g_assert_cmpuint(answer->why.with.feasible, ==, 0);
    g_assert_true(g_str_has_prefix(answer->headline, "None of the "));
    check_kits(result, answer);
    gboolean nearest = FALSE;
    for (gsize i = 0; i < answer->n; i++)
        nearest |= answer->line[i].kit_id != NULL && g_str_has_prefix(answer->line[i].text, "Near");
    g_assert_true(nearest);
}

static void test_not_ticked(void)
{
    g_autoptr(WbResult) result = make_result(
        "/candidates", "[\"" WORKS "\", \"c-wrenlock-mppt-30-100\", \"b-hobstone-12v-280-lfp\"]");
    g_autoptr(WbPartAnswer) answer = answer_of(result, TOO_LARGE);
    g_assert_cmpint(answer->state, ==, WB_ANSWER_NOT_TICKED);
    g_assert_cmpuint(answer->n, ==, 0);
    g_assert_true(g_str_has_prefix(answer->headline, "It is not ticked"));
}

static void test_wires(void)
{
    g_autoptr(WbResult) result = make_result(NULL, NULL);
    g_autoptr(WbResult) off = make_result("/wiring/on", "false");
    const WbProblem *problem = wb_result_get_problem(result);
    WbWiring wiring;
    g_assert_cmpint(wb_wiring(problem, &wb_result_get_ranking(result)->top[0].kit, &wiring), ==,
                    WB_OK);
    const char *id = wiring.circuit[0].conductor->part.id;
    g_autoptr(WbPartAnswer) used = answer_of(result, id);
    g_assert_cmpint(used->state, ==, WB_ANSWER_CIRCUITS);
    g_assert_cmpuint(used->n, ==, used->n_places + 1);
    g_assert_cmpint(used->place[0].verdict, ==, WB_WIRE_USED);
    g_assert_true(g_str_has_prefix(used->headline, "It is in "));
    g_autoptr(WbPartAnswer) without = answer_of(off, id);
    g_assert_cmpint(without->state, ==, WB_ANSWER_NO_WIRING);
    g_autoptr(WbPartAnswer) left_out = answer_of(result, "w-teaselwire-awg-4-75c");
    g_assert_cmpint(left_out->state, ==, WB_ANSWER_LEFT_OUT);
    wb_wiring_free(&wiring);
}

static void test_no_such_part(void)
{
    g_autoptr(WbResult) result = make_result(NULL, NULL);
    const WbProblem *problem = wb_result_get_problem(result);
    const WbRanking *ranking = wb_result_get_ranking(result);
    g_autoptr(GError) near = NULL;
    g_autoptr(GError) far = NULL;
    g_assert_null(wb_part_answer_new(problem, ranking, "p-brambleray-100-rigd", NULL, NULL, &near));
    g_assert_nonnull(strstr(near->message, "did you mean " WORKS "?"));
    g_assert_null(wb_part_answer_new(problem, ranking, "", NULL, NULL, &far));
    g_assert_null(strstr(far->message, "did you mean"));
}

/* ---- beside the window ---- */

typedef struct {
    gboolean done;
    WbPartAnswer *answer;
    WbDarkAnswer *dark;
    GError *error;
} Told;

static void on_answer(GObject *source, GAsyncResult *result, gpointer data)
{
    Told *told = data;
    told->answer = wb_part_answer_ask_finish(result, &told->error);
    told->done = TRUE;
}

static void test_beside(void)
{
    g_autoptr(WbResult) result = make_result(NULL, NULL);
    g_autoptr(WbPartAnswer) direct = answer_of(result, TOO_LARGE);
    Told told = {0}, dropped = {0};
    g_autoptr(GCancellable) cancellable = g_cancellable_new();
    wb_part_answer_ask(result, WORKS, "", cancellable, on_answer, &dropped);
    g_cancellable_cancel(cancellable);
    wb_part_answer_ask(result, TOO_LARGE, "", NULL, on_answer, &told);
    rig_wait(&told.done);
    rig_wait(&dropped.done);
    g_assert_null(dropped.answer);
    g_assert_true(g_error_matches(dropped.error, G_IO_ERROR, G_IO_ERROR_CANCELLED));
    g_assert_no_error(told.error);
    g_assert_cmpstr(told.answer->headline, ==, direct->headline);
    g_assert_cmpuint(told.answer->n, ==, direct->n);
    for (gsize i = 0; i < direct->n; i++)
        g_assert_cmpstr(told.answer->line[i].text, ==, direct->line[i].text);
    wb_part_answer_free(told.answer);
    g_error_free(dropped.error);
}

static void on_dark(GObject *source, GAsyncResult *result, gpointer data)
{
    Told *told = data;
    told->dark = wb_dark_answer_ask_finish(result, &told->error);
    told->done = TRUE;
}

/* The hours told are those of the kit, judged by itself, and beyond the limit. */
static void test_dark(void)
{
    g_autoptr(WbResult) result = make_result("/limits/dark_hours/value", "60");
    g_assert_true(wb_dark_answer_is_open(result));
    Told told = {0};
    wb_dark_answer_ask(result, NULL, on_dark, &told);
    rig_wait(&told.done);
    g_assert_no_error(told.error);
    g_assert_true(g_str_has_prefix(told.dark->sentence, "Nearest: "));
    const WbRuledOut *out = &told.dark->out;
    WbVerdict *verdict = g_new(WbVerdict, 1);
    g_assert_cmpint(wb_judge(wb_result_get_problem(result), &out->nearest, verdict), ==, WB_OK);
    g_assert_true(verdict->figures.dark_h == out->value);
    g_assert_cmpfloat(out->value, >, out->limit);
    g_assert_cmpuint(out->alone, ==,
                     wb_result_get_ranking(result)->ruled_out[WB_RULE_DARK_HOURS].alone);
    g_free(verdict);
    wb_dark_answer_free(told.dark);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/part-answer/works", test_works);
    g_test_add_func("/part-answer/in-none", test_in_none);
    g_test_add_func("/part-answer/not-ticked", test_not_ticked);
    g_test_add_func("/part-answer/wires", test_wires);
    g_test_add_func("/part-answer/no-such-part", test_no_such_part);
    g_test_add_func("/part-answer/beside-the-window", test_beside);
    g_test_add_func("/part-answer/dark-hours", test_dark);
    return g_test_run();
}
