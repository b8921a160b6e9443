/* explain: its JSON. The text is in cli_explain_text.c. */
#include "cli_explain.h"
#include "cli_circuits.h"
#include "cli_find_kit.h"
#include "cli_job.h"
#include "cli_ranking.h"
#include "cli_year.h"

static void bill_json(WbJsonOut *json, const WbBill *bill)
{
    wb_out_array(json, "bill");
    for (gsize i = 0; i < bill->n; i++) {
        const WbBillLine *line = &bill->line[i];
        const WbOffer *offer = line->sourced->offer;
        wb_out_object(json, NULL);
        wb_out_text(json, "part", line->part->id);
        wb_out_text(json, "kind", wb_kind_name(line->kind));
        wb_out_number(json, "count", line->count);
        wb_out_number(json, "bought", line->count - line->owned);
        wb_out_text(json, "shop",
                    line->count > line->owned && offer != NULL ? offer->shop_id : NULL);
        if (line->sourced->priced)
            wb_out_integer(json, "price_minor", line->sourced->price_minor);
        else
            wb_out_null(json, "price_minor");
        wb_out_integer(json, "sum_minor", line->minor);
        wb_out_number(json, "weight_kg", (double)line->sourced->weight_g / 1e3);
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
}

static char *explain_json(const WbBriefFile *file, const WbProblem *problem,
                          const WbVerdict *verdict, WbStanding standing, const WbWiring *wiring,
                          const WbBill *bill)
{
    WbJsonOut json;
    wb_out_start(&json);
    wb_out_object(&json, NULL);
    wb_cli_head_json(&json, "wattberth-kit", file);
    wb_cli_reference_json(&json, problem);
    wb_cli_kit_json(&json, "kit", problem, verdict, standing);
    wb_cli_year_json(&json, "year", problem, &verdict->year);
    bill_json(&json, bill);
    wb_cli_circuits_json(&json, "circuits", problem, &verdict->kit, wiring);
    wb_cli_safety_json(&json, problem, verdict);
    wb_out_end_object(&json);
    return wb_out_finish(&json);
}

static int print(const WbArguments *arguments, const WbJob *job, const WbRanking *ranking,
                 const WbVerdict *verdict)
{
    const WbProblem *problem = job->problem;
    WbStanding standing = wb_cli_standing(problem, ranking, &verdict->kit);
    WbWiring wiring = {0};
    WbBill bill = {0};
    WbStatus status = wb_wiring(problem, &verdict->kit, &wiring);
    if (status == WB_OK)
        status = wb_bill(problem, &verdict->kit, &wiring, &bill);
    int code =
        status != WB_OK
            ? wb_cli_fail_status(status)
            : wb_cli_print(arguments->json
                               ? explain_json(job->file, problem, verdict, standing, &wiring, &bill)
                               : wb_cli_explain_text(problem, verdict, standing, &wiring, &bill));
    wb_bill_free(&bill);
    wb_wiring_free(&wiring);
    return code;
}

static int explain(const WbArguments *arguments, const WbJob *job, WbRanking *ranking)
{
    WbKit kit;
    WbVerdict verdict;
    const char *text = arguments->n_rest > 1 ? arguments->rest[1] : NULL;
    int code = wb_cli_find_kit(job->problem, text, true, ranking, &kit);
    if (code != WB_EXIT_DONE)
        return code;
    wb_judge(job->problem, &kit, &verdict);
    return print(arguments, job, ranking, &verdict);
}

int wb_cli_run_explain(const WbArguments *arguments)
{
    if (arguments->part != NULL)
        return wb_cli_run_part(arguments);
    WbJob job = {0};
    WbRanking ranking = {0};
    int code = wb_cli_load_job(arguments, arguments->rest[0], &job);
    if (code == WB_EXIT_DONE)
        code = explain(arguments, &job, &ranking);
    wb_ranking_free(&ranking);
    wb_cli_clear_job(&job);
    return code;
}
