#include "cli_clash.h"

#include "cli_job.h"
#include "cli_progress.h"
#include "cli_table.h"
#include "words_clash.h"
#include <glib/gi18n-lib.h>

int wb_cli_clash(const WbProblem *problem, const WbRanking *ranking, WbClash *clash)
{
    *clash = (WbClash){0};
    if (ranking->feasible > 0)
        return WB_EXIT_DONE;
    WbControl control;
    wb_control_init(&control);
    WbProgress *progress = wb_progress_start(_("Limits, Ctrl-C stops it"), &control);
    int workers = CLAMP((int)g_get_num_processors(), 1, WB_MOST_WORKERS);
    WbStatus status = wb_clash(problem, ranking, workers, &control, clash);
    wb_progress_end(progress);
    return status == WB_OK ? WB_EXIT_DONE : wb_cli_fail_status(status);
}

void wb_cli_clash_append(GString *out, const WbProblem *problem, const WbClash *clash)
{
    g_autofree char *sentence = wb_words_clash(problem, clash);
    if (sentence)
        wb_cli_wrap(out, "", sentence);
}

void wb_cli_clash_json(WbJsonOut *json, const WbProblem *problem, const WbClash *clash)
{
    static const char *const names[WB_N_CLASH] = {
        [WB_CLASH_MONEY] = "money_minor", [WB_CLASH_WEIGHT] = "weight_kg",
        [WB_CLASH_DARK] = "dark_hours",   [WB_CLASH_ROOF] = "roof",
        [WB_CLASH_BAY] = "bay",
    };
    g_autofree char *sentence = wb_words_clash(problem, clash);
    if (!sentence) {
        wb_out_null(json, "clash");
        return;
    }
    wb_out_object(json, "clash");
    wb_out_array(json, "limits");
    for (int i = 0; i < WB_N_CLASH; i++)
        if (clash->limits >> i & 1)
            wb_out_text(json, NULL, names[i]);
    wb_out_end_array(json);
    wb_out_count(json, "works", clash->works);
    if (clash->works > 0) {
        wb_out_integer(json, "cheapest_minor", clash->cheapest_minor);
        wb_out_number(json, "lightest_kg", clash->lightest_kg);
    }
    wb_out_text(json, "sentence", sentence);
    wb_out_end_object(json);
}
