/* explain: which kit is meant, and its JSON. The text is in cli_explain_text.c. */
#include "cli_explain.h"
#include "cli_job.h"
#include "cli_ranking.h"
#include "cli_year.h"
#include "words.h"
#include <glib/gi18n-lib.h>
#include <string.h>

/* TRUE for digits alone: a rank, not a kit's id. */
static gboolean is_rank(const char *text)
{
    return text[0] != '\0' && strspn(text, "0123456789") == strlen(text);
}

static int rank_number(const char *text, guint64 *rank)
{
    if (g_ascii_string_to_unsigned(text, 10, 1, WB_CLI_TOP_MOST, rank, NULL))
        return WB_EXIT_DONE;
    return wb_cli_fail(WB_EXIT_WRONG_USE, _("A rank is a whole number from 1 to %d, not “%s”."),
                       WB_CLI_TOP_MOST, text);
}

static int kit_at(const WbProblem *problem, const WbRanking *ranking, guint64 rank, WbKit *kit)
{
    if (ranking->feasible == 0)
        return wb_cli_fail_no_kit(problem, ranking);
    if (rank > ranking->n_top)
        return wb_cli_fail(
            WB_EXIT_WRONG_USE,
            _("There is no kit of rank %" G_GUINT64_FORMAT ": %" G_GUINT64_FORMAT " kits work."),
            rank, ranking->feasible);
    *kit = ranking->top[rank - 1].kit;
    return WB_EXIT_DONE;
}

/* The kit meant by `text` and the ranking it stands in. */
static int find_kit(const WbProblem *problem, const char *text, WbRanking *ranking, WbKit *kit)
{
    guint64 rank = 1;
    gboolean by_rank = is_rank(text);
    int code = by_rank ? rank_number(text, &rank) : WB_EXIT_DONE;
    if (code != WB_EXIT_DONE)
        return code;
    if (!by_rank && !wb_kit_parse(problem, text, kit))
        return wb_cli_fail(WB_EXIT_WRONG_USE,
                           _("“%s” is neither a rank nor the id of a kit of the ticked parts."),
                           text);
    code = wb_cli_rank(problem, (size_t)rank, ranking);
    return code == WB_EXIT_DONE && by_rank ? kit_at(problem, ranking, rank, kit) : code;
}

static void safety_json(WbJsonOut *json, const WbProblem *problem, const WbVerdict *verdict)
{
    g_auto(GStrv) notes = wb_words_safety_notes(problem, verdict);
    wb_out_array(json, "safety");
    for (guint i = 0; notes[i] != NULL; i++)
        wb_out_text(json, NULL, notes[i]);
    for (int r = 0; r < WB_N_RULES; r++) {
        g_autofree char *caution = wb_words_safety(problem, verdict, &verdict->finding[r]);
        if (caution != NULL)
            wb_out_text(json, NULL, caution);
    }
    wb_out_end_array(json);
}

static void bill_json(WbJsonOut *json, const WbProblem *problem, const WbKit *kit)
{
    WbBillLine lines[WB_BILL_MOST];
    int n = wb_cli_bill(problem, kit, lines);
    wb_out_array(json, "bill");
    for (int i = 0; i < n; i++) {
        const WbBillLine *line = &lines[i];
        const WbOffer *offer = line->sourced->offer;
        wb_out_object(json, NULL);
        wb_out_text(json, "part", line->part->id);
        wb_out_integer(json, "count", line->count);
        wb_out_integer(json, "bought", line->bought);
        wb_out_text(json, "shop", line->bought > 0 && offer != NULL ? offer->shop_id : NULL);
        if (line->sourced->priced)
            wb_out_integer(json, "price_minor", line->sourced->price_minor);
        else
            wb_out_null(json, "price_minor");
        wb_out_number(json, "weight_kg", (double)line->sourced->weight_g / 1e3);
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
}

static char *explain_json(const WbBriefFile *file, const WbProblem *problem,
                          const WbVerdict *verdict, WbStanding standing)
{
    WbJsonOut json;
    wb_out_start(&json);
    wb_out_object(&json, NULL);
    wb_cli_head_json(&json, "wattberth-kit", file);
    wb_cli_reference_json(&json, problem);
    wb_cli_kit_json(&json, "kit", problem, verdict, standing);
    wb_cli_year_json(&json, "year", &verdict->year);
    bill_json(&json, problem, &verdict->kit);
    safety_json(&json, problem, verdict);
    wb_out_end_object(&json);
    return wb_out_finish(&json);
}

static int explain(const WbArguments *arguments, const WbJob *job, WbRanking *ranking)
{
    const WbProblem *problem = job->problem;
    WbKit kit;
    WbVerdict verdict;
    const char *text = arguments->n_rest > 1 ? arguments->rest[1] : "1";
    int code = find_kit(problem, text, ranking, &kit);
    if (code != WB_EXIT_DONE)
        return code;
    wb_judge(problem, &kit, &verdict);
    WbStanding standing = wb_cli_standing(problem, ranking, &kit);
    return wb_cli_print(arguments->json ? explain_json(job->file, problem, &verdict, standing)
                                        : wb_cli_explain_text(problem, &verdict, standing));
}

int wb_cli_run_explain(const WbArguments *arguments)
{
    WbJob job = {0};
    WbRanking ranking = {0};
    int code = wb_cli_load_job(arguments, arguments->rest[0], &job);
    if (code == WB_EXIT_DONE)
        code = explain(arguments, &job, &ranking);
    wb_ranking_free(&ranking);
    wb_cli_clear_job(&job);
    return code;
}
