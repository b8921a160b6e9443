/* Arrangement, proof, changes and shade of one model as JSON. */
#include "cli_roof.h"
#include "cli_roof_proof_json.h"
#include "roof_study.h"
#include "roof_words.h"

static void order_json(WbJsonOut *json, const WbRoofMore *more)
{
    if (!more->arranged) {
        wb_out_null(json, "arrangement");
        return;
    }
    const WbArrangement *order = &more->order;
    wb_out_object(json, "arrangement");
    wb_out_number(json, "shaded_m2", (double)order->shaded_mm2 / 1e6);
    wb_out_integer(json, "lines", order->lines);
    wb_out_integer(json, "turned", order->turned);
    wb_out_integer(json, "cable_mm", order->cable_mm);
    wb_out_integer(json, "off_centre_mm", order->off_centre_mm);
    wb_out_end_object(json);
}

static void change_json(WbJsonOut *json, const WbRoof *roof, const WbRoofChange *change)
{
    static const char *const kinds[] = {
        [WB_CHANGE_MOVE_X] = "move-x",          [WB_CHANGE_MOVE_Y] = "move-y",
        [WB_CHANGE_MARGIN] = "margin",          [WB_CHANGE_GAP] = "gap",
        [WB_CHANGE_CLEARANCE] = "clearance",    [WB_CHANGE_PANEL_LENGTH] = "panel-length",
        [WB_CHANGE_PANEL_WIDTH] = "panel-width"};
    g_autofree char *words = wb_roof_change_words(roof, change, 1);
    wb_out_object(json, NULL);
    wb_out_text(json, "kind", kinds[change->kind]);
    if (change->obstacle < 0)
        wb_out_null(json, "obstacle");
    else
        wb_out_integer(json, "obstacle", change->obstacle);
    wb_out_integer(json, "by_mm", change->by_mm);
    wb_out_flag(json, "proved", change->proved);
    wb_out_text(json, "sentence", words);
    wb_cli_rects_json(json, "layout", change->layout, change->n);
    wb_out_end_object(json);
}

static void changes_json(WbJsonOut *json, const WbRoofReport *report, const WbRoofMore *more)
{
    if (!more->has_changes) {
        wb_out_null(json, "changes");
        return;
    }
    wb_out_array(json, "changes");
    for (int i = 0; i < more->n_changes; i++)
        change_json(json, &report->brief->roof, &more->change[i]);
    wb_out_end_array(json);
}

static void shade_json(WbJsonOut *json, const WbRoofModel *model)
{
    const WbRoofMore *more = &model->more;
    if (!more->has_shade) {
        wb_out_null(json, "shade");
        return;
    }
    wb_out_object(json, "shade");
    wb_out_array(json, "months");
    for (int m = 0; m < 12; m++)
        wb_out_number(json, NULL, more->shade[m]);
    wb_out_end_array(json);
    wb_out_array(json, "panels");
    for (int i = 0; i < model->fit.most; i++)
        wb_out_number(json, NULL, more->shade_by_panel[i]);
    wb_out_end_array(json);
    wb_out_end_object(json);
}

void wb_cli_roof_more_json(WbJsonOut *json, const WbRoofReport *report, const WbRoofModel *model)
{
    const WbRoofMore *more = &model->more;
    order_json(json, more);
    wb_cli_roof_proof_json(json, "proof", model->panel->length_mm, model->panel->width_mm,
                           more->has_proof ? &more->proof : NULL, more->proof_ok);
    changes_json(json, report, more);
    shade_json(json, model);
}
