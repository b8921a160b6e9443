/* explain --part: why one part is in no kit of the list, as text and JSON. */
#include "cli_find_kit.h"
#include "cli_find_panel.h"
#include "cli_job.h"
#include "cli_progress.h"
#include "cli_ranking.h"
#include "cli_table.h"
#include "part_answer.h"
#include "part_list.h"
#include "words.h"
#include "words_circuit.h"
#include <glib/gi18n-lib.h>

static const char *const state_names[] = {
    [WB_ANSWER_NOT_TICKED] = "not_ticked", [WB_ANSWER_KITS] = "kits",
    [WB_ANSWER_CIRCUITS] = "circuits",     [WB_ANSWER_LEFT_OUT] = "left_out",
    [WB_ANSWER_NO_WIRING] = "no_wiring",
};

static const char *const verdict_names[] = {
    [WB_WIRE_USED] = "used",     [WB_WIRE_FAULT] = "cannot",  [WB_WIRE_FORM] = "other_form",
    [WB_WIRE_AMPS] = "amps",     [WB_WIRE_VOLTS] = "volts",   [WB_WIRE_AREA] = "area",
    [WB_WIRE_LARGER] = "larger", [WB_WIRE_DEARER] = "dearer",
};

/* ---- JSON ---- */

static void row_json(WbJsonOut *json, const char *key, const WbProblem *problem,
                     const WbRanked *row)
{
    char id[WB_KIT_ID];
    wb_kit_id(problem, &row->kit, id);
    wb_out_object(json, key);
    wb_out_text(json, "id", id);
    wb_out_number(json, "score", row->score);
    wb_out_end_object(json);
}

static void differences_json(WbJsonOut *json, const WbProblem *problem, const WbRanked *first,
                             const WbRanked *best)
{
    wb_out_array(json, "differences");
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        if (!(problem->weight[c] > 0))
            continue;
        wb_out_object(json, NULL);
        wb_out_text(json, "criterion", wb_criterion_name((WbCriterion)c));
        wb_out_number(json, "weight", problem->weight[c]);
        wb_out_number(json, "worth", best->u[c]);
        wb_out_number(json, "worth_first", first->u[c]);
        wb_out_number(json, "lost", problem->weight[c] * (first->u[c] - best->u[c]));
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
}

static void kits_json(WbJsonOut *json, const WbProblem *problem, const WbRanking *ranking,
                      const WbPartWhy *why)
{
    wb_out_count(json, "raw_combinations", why->with.raw);
    wb_out_count(json, "feasible", why->with.feasible);
    if (why->rank > 0)
        wb_out_count(json, "rank", why->rank);
    else
        wb_out_null(json, "rank");
    if (why->on_front >= 0)
        wb_out_flag(json, "on_front", why->on_front > 0);
    else
        wb_out_null(json, "on_front");
    if (why->with.n_top > 0 && ranking->n_top > 0) {
        row_json(json, "best", problem, &why->with.top[0]);
        row_json(json, "first", problem, &ranking->top[0]);
        differences_json(json, problem, &ranking->top[0], &why->with.top[0]);
    } else {
        wb_out_null(json, "best");
    }
    wb_cli_ruled_out_json(json, problem, &why->with);
}

static void places_json(WbJsonOut *json, const WbProblem *problem, const WbPartAnswer *answer)
{
    char id[WB_KIT_ID];
    wb_kit_id(problem, &answer->kit, id);
    wb_out_text(json, "kit", id);
    wb_out_array(json, "places");
    for (gsize i = 0; i < answer->n_places; i++) {
        const WbWirePlace *place = &answer->place[i];
        g_autofree char *title =
            wb_words_circuit_title(problem, &answer->wiring.circuit[place->circuit]);
        wb_out_object(json, NULL);
        wb_out_integer(json, "circuit", (gint64)place->circuit);
        wb_out_text(json, "title", title);
        wb_out_text(json, "verdict", verdict_names[place->verdict]);
        wb_out_number(json, "value", place->value);
        wb_out_number(json, "limit", place->limit);
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
}

static char *part_json(const WbJob *job, const WbRanking *ranking, const WbPartAnswer *answer)
{
    WbJsonOut json;
    wb_out_start(&json);
    wb_out_object(&json, NULL);
    wb_cli_head_json(&json, "wattberth-part", job->file);
    wb_out_text(&json, "part", answer->part_id);
    wb_out_text(&json, "kind", wb_kind_name(answer->kind));
    wb_out_text(&json, "title", answer->title);
    wb_out_text(&json, "state", state_names[answer->state]);
    if (answer->state == WB_ANSWER_KITS)
        kits_json(&json, job->problem, ranking, &answer->why);
    else if (answer->state == WB_ANSWER_CIRCUITS)
        places_json(&json, job->problem, answer);
    wb_out_array(&json, "sentences");
    wb_out_text(&json, NULL, answer->headline);
    for (gsize i = 0; i < answer->n; i++)
        wb_out_text(&json, NULL, answer->line[i].text);
    wb_out_end_array(&json);
    wb_out_end_object(&json);
    return wb_out_finish(&json);
}

/* ---- text ---- */

static char *part_text(const WbProblem *problem, const WbPartAnswer *answer)
{
    GString *out = g_string_new(NULL);
    g_string_append_printf(out, "%s (%s)\n", answer->title, answer->part_id);
    wb_cli_wrap(out, "", answer->headline);
    if (answer->n > 0)
        g_string_append_c(out, '\n');
    for (gsize i = 0; i < answer->n; i++) {
        const WbAnswerLine *line = &answer->line[i];
        wb_cli_wrap(out, "  - ", line->text);
        WbKit kit;
        if (line->kit_id == NULL || !wb_kit_parse(problem, line->kit_id, &kit))
            continue;
        g_autofree char *parts = wb_cli_parts_text(problem, &kit);
        wb_cli_wrap(out, "    ", line->kit_words);
        wb_cli_wrap(out, "    ", parts);
    }
    return g_string_free(out, FALSE);
}

/* ---- the command ---- */

static int find(const WbArguments *arguments, const WbCatalogue *catalogue)
{
    WbPartKind kind;
    if (wb_catalogue_find_part(catalogue, arguments->part, &kind) != NULL)
        return WB_EXIT_DONE;
    g_autofree char *told = wb_cli_told(arguments->part);
    const char *near = wb_part_near(catalogue, told);
    if (near != NULL)
        return wb_cli_fail(WB_EXIT_WRONG_USE,
                           _("The catalogue has no part “%s” (did you mean %s?)."), told, near);
    return wb_cli_fail(WB_EXIT_WRONG_USE,
                       _("The catalogue has no part “%s”; wattberth catalogue export - prints the "
                         "ids of all parts."),
                       told);
}

/* The kit whose circuits are asked about; NULL: the first. */
static int find_kit(const WbArguments *arguments, const WbProblem *problem, WbRanking *ranking,
                    WbKit *kit, const WbKit **asked)
{
    WbPartKind kind;
    wb_catalogue_find_part(problem->catalogue, arguments->part, &kind);
    *asked = NULL;
    if (arguments->n_rest < 2)
        return wb_cli_rank(problem, 1, true, ranking);
    if (kind <= WB_KIND_DCDC)
        return wb_cli_fail(WB_EXIT_WRONG_USE,
                           _("%s is no conductor, fuse or fitting: --part answers for it without a "
                             "KIT."),
                           arguments->part);
    int code = wb_cli_find_kit(problem, arguments->rest[1], true, ranking, kit);
    *asked = kit;
    return code;
}

static int answer(const WbArguments *arguments, const WbJob *job, WbRanking *ranking)
{
    WbKit kit;
    const WbKit *asked;
    int code = find(arguments, job->problem->catalogue);
    if (code == WB_EXIT_DONE)
        code = find_kit(arguments, job->problem, ranking, &kit, &asked);
    if (code != WB_EXIT_DONE)
        return code;
    WbControl control;
    wb_control_init(&control);
    WbProgress *progress = wb_progress_start(_("Ranking, Ctrl-C stops it"), &control);
    g_autoptr(GError) error = NULL;
    g_autoptr(WbPartAnswer) found =
        wb_part_answer_new(job->problem, ranking, arguments->part, asked, &control, &error);
    wb_progress_end(progress);
    if (found == NULL)
        return error != NULL ? wb_cli_fail(WB_EXIT_FAILED, "%s", error->message)
                             : wb_cli_fail_status(WB_STOPPED);
    return wb_cli_print(arguments->json ? part_json(job, ranking, found)
                                        : part_text(job->problem, found));
}

int wb_cli_run_part(const WbArguments *arguments)
{
    WbJob job = {0};
    WbRanking ranking = {0};
    int code = wb_cli_load_job(arguments, arguments->rest[0], &job);
    if (code == WB_EXIT_DONE)
        code = answer(arguments, &job, &ranking);
    wb_ranking_free(&ranking);
    wb_cli_clear_job(&job);
    return code;
}
