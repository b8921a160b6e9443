#include "cli_way.h"
#include "cli_table.h"
#include "words_way.h"
#include <glib/gi18n-lib.h>

int wb_cli_take_way(const char *way, WbJob *job)
{
    GError *error = NULL;
    if (way == NULL)
        return WB_EXIT_DONE;
    for (int i = 0; i < WB_N_WAYS; i++) {
        if (!g_str_equal(way, wb_way_name((WbWay)i)))
            continue;
        g_autofree char *json = g_strdup_printf("\"%s\"", way);
        WbBriefFile *file = wb_brief_file_set(job->file, "/rank_by/way", json, &error);
        if (file == NULL)
            return wb_cli_fail_with(error);
        wb_brief_file_unref(job->file);
        job->file = file;
        return WB_EXIT_DONE;
    }
    return wb_cli_fail(WB_EXIT_WRONG_USE,
                       _("--by takes “score”, “goals” or “importance”, not “%s”."), way);
}

void wb_cli_append_way(GString *out, const WbProblem *problem)
{
    g_autofree char *sentence = wb_words_way(problem);
    wb_cli_wrap(out, "", sentence);
}

void wb_cli_way_json(WbJsonOut *json, const WbProblem *problem)
{
    const WbRankBy *by = &problem->rank_by;
    g_autofree char *sentence = wb_words_way(problem);
    wb_out_object(json, "rank_by");
    wb_out_text(json, "way", wb_way_name((WbWay)by->way));
    wb_out_text(json, "sentence", sentence);
    wb_out_object(json, "goals");
    for (int c = 0; c < WB_N_CRITERIA; c++)
        wb_out_number(json, wb_criterion_name((WbCriterion)c), by->goal[c]);
    wb_out_end_object(json);
    wb_out_array(json, "importance");
    for (int i = 0; i < by->n_important; i++) {
        wb_out_object(json, NULL);
        wb_out_text(json, "criterion", wb_criterion_name((WbCriterion)by->important[i].criterion));
        wb_out_number(json, "step", by->important[i].step);
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
    wb_out_end_object(json);
}

void wb_cli_place_json(WbJsonOut *json, const WbProblem *problem, const WbFigures *figures)
{
    const WbRankBy *by = &problem->rank_by;
    double figure[WB_N_CRITERIA];
    for (int c = 0; c < WB_N_CRITERIA; c++)
        figure[c] = wb_figure(figures, (WbCriterion)c);
    wb_out_number(json, "distance", wb_distance(problem, figure));
    wb_out_object(json, "steps");
    for (int i = 0; i < by->n_important; i++) {
        int c = by->important[i].criterion;
        wb_out_number(json, wb_criterion_name((WbCriterion)c),
                      wb_step_of(problem, &by->important[i], figure[c]));
    }
    wb_out_end_object(json);
}
