/* together for machines. */
#include "cli_json.h"
#include "cli_together.h"

static void peak_json(WbJsonOut *json, const WbPeak *peak)
{
    wb_out_number(json, "power_w", peak->power_w);
    wb_out_number(json, "voltage_v", peak->voltage_v);
    wb_out_number(json, "current_a", peak->current_a);
}

static const WbTogetherRun *run_at(const WbTogether *together, guint i)
{
    return &g_array_index(together->runs, WbTogetherRun, i);
}

static void panels_json(WbJsonOut *json, const WbTogether *together)
{
    wb_out_array(json, "panels");
    for (guint i = 0; i < together->runs->len; i++) {
        const WbTogetherRun *item = run_at(together, i);
        wb_out_object(json, NULL);
        wb_out_text(json, "panel", item->run.panel->part.id);
        wb_out_integer(json, "count", item->run.n);
        peak_json(json, &item->own);
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
}

static void colds_json(WbJsonOut *json, const WbTogether *together, gboolean series)
{
    guint32 assumed = 0;
    wb_out_array(json, "open_circuit");
    for (int i = 0; i < WB_TOGETHER_COLDS; i++) {
        double cold_c = wb_together_cold_c[i];
        wb_out_object(json, NULL);
        wb_out_number(json, "cell_c", cold_c);
        wb_out_number(json, "voltage_v",
                      series ? wb_together_series_voc_v(together, cold_c, &assumed)
                             : wb_together_parallel_voc_v(together, cold_c, &assumed));
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
}

static void way_json(WbJsonOut *json, const WbTogether *together, gboolean series)
{
    const WbPeak *peak = series ? &together->series : &together->parallel;
    g_autofree char *sentence =
        series ? wb_together_series_sentence(together) : wb_together_parallel_sentence(together);
    wb_out_object(json, series ? "series" : "parallel");
    peak_json(json, peak);
    wb_out_number(json, "lost_share", wb_together_lost(together, peak));
    wb_out_text(json, "sentence", sentence);
    wb_out_array(json, "strings");
    for (guint i = 0; i < together->runs->len; i++) {
        const WbPanelRun *run = &run_at(together, i)->run;
        WbPeak at = {.voltage_v = peak->voltage_v, .current_a = peak->current_a};
        if (series)
            at.voltage_v = wb_run_voltage_v(run, peak->current_a);
        else
            at.current_a = wb_run_current_a(run, peak->voltage_v);
        at.power_w = at.voltage_v * at.current_a;
        wb_out_object(json, NULL);
        wb_out_text(json, "panel", run->panel->part.id);
        peak_json(json, &at);
        if (!series)
            wb_out_number(json, "back_a", wb_together_back_a(together, i));
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
    colds_json(json, together, series);
    wb_out_end_object(json);
}

char *wb_together_json(const WbTogether *together)
{
    g_autoptr(GPtrArray) cautions = wb_together_cautions(together);
    WbJsonOut json;
    wb_out_start(&json);
    wb_out_object(&json, NULL);
    wb_out_format(&json, "wattberth-together");
    panels_json(&json, together);
    wb_out_number(&json, "apart_w", together->apart_w);
    if (together->tell_series)
        way_json(&json, together, TRUE);
    else
        wb_out_null(&json, "series");
    if (together->tell_parallel)
        way_json(&json, together, FALSE);
    else
        wb_out_null(&json, "parallel");
    wb_out_array(&json, "cautions");
    for (guint i = 0; i < cautions->len; i++)
        wb_out_text(&json, NULL, cautions->pdata[i]);
    wb_out_end_array(&json);
    wb_out_end_object(&json);
    return wb_out_finish(&json);
}
