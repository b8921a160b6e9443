/* explain: its JSON. The text is in cli_explain_text.c. */
#include "cli_explain.h"
#include "cli_circuits.h"
#include "cli_find_kit.h"
#include "cli_job.h"
#include "cli_ranking.h"
#include "cli_year.h"

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
                          const WbVerdict *verdict, WbStanding standing, const WbWiring *wiring)
{
    WbJsonOut json;
    wb_out_start(&json);
    wb_out_object(&json, NULL);
    wb_cli_head_json(&json, "wattberth-kit", file);
    wb_cli_reference_json(&json, problem);
    wb_cli_kit_json(&json, "kit", problem, verdict, standing);
    wb_cli_year_json(&json, "year", problem, &verdict->year);
    bill_json(&json, problem, &verdict->kit);
    wb_cli_circuits_json(&json, "circuits", problem, &verdict->kit, wiring);
    wb_cli_safety_json(&json, problem, verdict);
    wb_out_end_object(&json);
    return wb_out_finish(&json);
}

static int explain(const WbArguments *arguments, const WbJob *job, WbRanking *ranking)
{
    const WbProblem *problem = job->problem;
    WbKit kit;
    WbVerdict verdict;
    const char *text = arguments->n_rest > 1 ? arguments->rest[1] : NULL;
    int code = wb_cli_find_kit(problem, text, true, ranking, &kit);
    if (code != WB_EXIT_DONE)
        return code;
    wb_judge(problem, &kit, &verdict);
    WbStanding standing = wb_cli_standing(problem, ranking, &kit);
    WbWiring wiring;
    if (wb_wiring(problem, &kit, &wiring) != WB_OK)
        return wb_cli_fail_status(WB_NO_MEMORY);
    code =
        wb_cli_print(arguments->json ? explain_json(job->file, problem, &verdict, standing, &wiring)
                                     : wb_cli_explain_text(problem, &verdict, standing, &wiring));
    wb_wiring_free(&wiring);
    return code;
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
