/* roof as JSON; the keys are documented in the man page. */
#include "cli_json.h"
#include "cli_kit_json.h"
#include "cli_roof_mix.h"

static void rect_json(WbJsonOut *json, const WbRect *rect)
{
    wb_out_object(json, NULL);
    wb_out_integer(json, "x_mm", rect->x_mm);
    wb_out_integer(json, "y_mm", rect->y_mm);
    wb_out_integer(json, "length_mm", rect->length_mm);
    wb_out_integer(json, "width_mm", rect->width_mm);
    wb_out_end_object(json);
}

void wb_cli_rects_json(WbJsonOut *json, const char *key, const WbRect *rects, int n)
{
    wb_out_array(json, key);
    for (int i = 0; i < n; i++)
        rect_json(json, &rects[i]);
    wb_out_end_array(json);
}

const char *wb_cli_roof_answer_code(const WbRoofFit *fit, bool proof_ok)
{
    if (fit->most == fit->at_most)
        return "at-least";
    if (fit->most == fit->bound)
        return proof_ok ? "proved" : "searched";
    return wb_roof_answer(fit, fit->most + 1) == WB_FIT_WITHIN_1_MM ? "within-1-mm" : "not-decided";
}

static void load_json(WbJsonOut *json, const WbBrief *brief, const WbRoofModel *model)
{
    int carried = wb_cli_roof_load_most(brief, model->panel);
    wb_out_number(json, "load_kg", wb_cli_roof_load_kg(model));
    if (carried < 0)
        wb_out_null(json, "load_most");
    else
        wb_out_integer(json, "load_most", carried);
}

static void model_json(WbJsonOut *json, const WbRoofReport *report, const WbRoofModel *model)
{
    const WbRoofFit *fit = &model->fit;
    const WbBrief *brief = report->brief;
    wb_out_object(json, NULL);
    wb_out_text(json, "panel", model->panel->part.id);
    wb_out_integer(json, "length_mm", model->panel->length_mm);
    wb_out_integer(json, "width_mm", model->panel->width_mm);
    wb_out_integer(json, "most", fit->most);
    wb_out_integer(json, "bound", fit->bound);
    wb_out_integer(json, "mm_bound", fit->mm_bound);
    wb_out_text(json, "answer", wb_cli_roof_answer_code(fit, model->more.proof_ok));
    if (report->count > 0)
        wb_out_integer(json, "count_asked", report->count);
    else
        wb_out_null(json, "count_asked");
    wb_out_text(json, "count_answer",
                report->count > 0 ? wb_cli_roof_count_code(report, model) : NULL);
    wb_out_count(json, "nodes", fit->nodes);
    wb_out_number(json, "time_ms", model->time_ms);
    wb_out_number(json, "power_w", fit->most * model->panel->power_w);
    load_json(json, brief, model);
    wb_out_integer(json, "top_mm", wb_cli_roof_top_mm(brief, model->panel));
    wb_out_integer(json, "pinned", model->n_pinned);
    wb_out_text(json, "pins_refused", model->refused);
    wb_cli_rects_json(json, "layout", fit->layout, fit->most);
    wb_out_flag(json, "layout_checked", model->layout_ok);
    wb_cli_roof_more_json(json, report, model);
    wb_out_end_object(json);
}

static void bay_json(WbJsonOut *json, const WbBayModel *model)
{
    wb_out_object(json, NULL);
    wb_out_text(json, "storage", model->storage->part.id);
    wb_out_integer(json, "length_mm", model->storage->length_mm);
    wb_out_integer(json, "width_mm", model->storage->width_mm);
    wb_out_integer(json, "height_mm", model->storage->height_mm);
    wb_out_integer(json, "most", model->stand);
    wb_out_integer(json, "bound", model->bound);
    wb_out_end_object(json);
}

char *wb_cli_roof_json(const WbRoofReport *report)
{
    WbJsonOut json;
    wb_out_start(&json);
    wb_out_object(&json, NULL);
    wb_cli_head_json(&json, "wattberth-roof", report->file);
    wb_out_number(&json, "clear_area_m2", (double)wb_roof_clear_mm2(&report->brief->roof) / 1e6);
    g_autofree char *nothing_left = wb_cli_roof_nothing_left(&report->brief->roof);
    wb_out_text(&json, "nothing_left", nothing_left);
    wb_out_count(&json, "node_budget", report->nodes);
    wb_out_count(&json, "change_node_budget", wb_cli_roof_change_nodes(report));
    wb_out_array(&json, "panels");
    for (guint i = 0; i < report->models->len; i++)
        model_json(&json, report, &g_array_index(report->models, WbRoofModel, i));
    wb_out_end_array(&json);
    wb_out_array(&json, "bay");
    for (guint i = 0; i < report->bays->len; i++)
        bay_json(&json, &g_array_index(report->bays, WbBayModel, i));
    wb_out_end_array(&json);
    if (report->mixes != NULL)
        wb_cli_roof_mixes_json(&json, report);
    else
        wb_out_null(&json, "mixes");
    g_autoptr(GPtrArray) cautions = wb_cli_roof_cautions(report->brief);
    wb_out_array(&json, "cautions");
    for (guint i = 0; i < cautions->len; i++)
        wb_out_text(&json, NULL, g_ptr_array_index(cautions, i));
    wb_out_end_array(&json);
    wb_out_end_object(&json);
    return wb_out_finish(&json);
}
