#include "cli_kit_json.h"

#include "cli_parts.h"

void wb_cli_head_json(WbJson *json, const char *format, const WbBrief *brief)
{
    wb_json_format(json, format);
    wb_json_text(json, "brief", brief->name);
    wb_json_text(json, "currency", brief->currency);
}

static void criteria_json(WbJson *json, const WbProblem *problem)
{
    wb_json_object(json, "anchors");
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        wb_json_object(json, wb_criterion_name((WbCriterion)c));
        wb_json_number(json, "full", problem->anchor[c].full);
        wb_json_number(json, "none", problem->anchor[c].none);
        wb_json_end_object(json);
    }
    wb_json_end_object(json);
    wb_json_object(json, "weights");
    for (int c = 0; c < WB_N_CRITERIA; c++)
        wb_json_number(json, wb_criterion_name((WbCriterion)c), problem->weight[c]);
    wb_json_end_object(json);
}

static double dark_hours(const WbSky *sky, int month)
{
    double hours = 0;
    for (int h = 0; h < WB_HOURS; h++)
        hours += sky->dark_share[month][h];
    return hours;
}

static void months_json(WbJson *json, const WbProblem *problem)
{
    const WbSite *site = &problem->brief->site;
    wb_json_array(json, "months");
    for (int m = 0; m < WB_MONTHS; m++) {
        wb_json_object(json, NULL);
        wb_json_integer(json, "month", m + 1);
        wb_json_flag(json, "in_use", site->months >> m & 1u);
        wb_json_number(json, "ghi_kwh_m2_day", site->place.ghi_kwh_m2_day[m]);
        wb_json_number(json, "plane_kwh_m2_day", problem->sky.plane_kwh_m2_day[m]);
        wb_json_number(json, "sunrise_h", problem->sky.sunrise_h[m]);
        wb_json_number(json, "sunset_h", problem->sky.sunset_h[m]);
        wb_json_number(json, "dark_h", dark_hours(&problem->sky, m));
        wb_json_number(json, "air_mean_c", site->place.air_mean_c[m]);
        wb_json_number(json, "bank_c", wb_bank_temperature_c(site, m));
        wb_json_number(json, "dc_loads_wh", problem->loads.dc_day_wh[m]);
        wb_json_number(json, "ac_loads_wh", problem->loads.ac_day_wh[m]);
        wb_json_end_object(json);
    }
    wb_json_end_array(json);
}

static void panels_json(WbJson *json, const WbProblem *problem)
{
    wb_json_array(json, "panels");
    for (size_t i = 0; i < problem->n_panels; i++) {
        const WbPanelChoice *choice = &problem->panels[i];
        wb_json_object(json, NULL);
        wb_json_text(json, "id", choice->panel->part.id);
        wb_json_number(json, "hottest_cell_c", choice->hottest_cell_c);
        wb_json_integer(json, "roof_most", choice->fit.most);
        wb_json_integer(json, "roof_bound", choice->fit.bound);
        wb_json_end_object(json);
    }
    wb_json_end_array(json);
}

static void peaks_json(WbJson *json, const WbLoadBudget *loads)
{
    wb_json_number(json, "peak_dc_w", loads->peak_dc_w);
    wb_json_number(json, "peak_ac_w", loads->peak_ac_w);
    wb_json_number(json, "surge_dc_w", loads->surge_dc_w);
    wb_json_number(json, "surge_ac_w", loads->surge_ac_w);
}

void wb_cli_reference_json(WbJson *json, const WbProblem *problem)
{
    wb_json_object(json, "reference");
    wb_json_number(json, "reference_need_wh_day", problem->reference_need_wh);
    wb_json_number(json, "clear_area_m2", problem->clear_m2);
    wb_json_number(json, "design_cold_c", problem->design_cold_c);
    peaks_json(json, &problem->loads);
    criteria_json(json, problem);
    months_json(json, problem);
    panels_json(json, problem);
    wb_json_end_object(json);
}

static void no_price_json(WbJson *json, const WbProblem *problem)
{
    g_autoptr(GArray) parts = wb_cli_parts(problem);
    wb_json_array(json, "no_price");
    for (guint i = 0; i < parts->len; i++) {
        const WbCliPart *listed = &g_array_index(parts, WbCliPart, i);
        if (listed->sourced->priced)
            continue;
        wb_json_object(json, NULL);
        wb_json_text(json, "id", listed->part->id);
        wb_json_text(json, "maker", listed->part->maker);
        wb_json_text(json, "model", listed->part->model);
        wb_json_end_object(json);
    }
    wb_json_end_array(json);
}

static void no_rate_json(WbJson *json, const WbProblem *problem)
{
    g_autoptr(GPtrArray) offers = wb_cli_offers_without_rate(problem);
    wb_json_array(json, "no_rate");
    for (guint i = 0; i < offers->len; i++) {
        const WbOffer *offer = offers->pdata[i];
        wb_json_object(json, NULL);
        wb_json_text(json, "part", offer->part_id);
        wb_json_text(json, "shop", offer->shop_id);
        wb_json_integer(json, "price_minor", offer->price_minor);
        wb_json_text(json, "currency", offer->currency);
        wb_json_end_object(json);
    }
    wb_json_end_array(json);
}

void wb_cli_left_out_json(WbJson *json, const WbProblem *problem)
{
    no_price_json(json, problem);
    no_rate_json(json, problem);
}
