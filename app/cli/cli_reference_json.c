#include "cli_kit_json.h"
#include "cli_not_read.h"

#include "cli_parts.h"

void wb_cli_head_json(WbJsonOut *json, const char *format, const WbBriefFile *file)
{
    const WbBrief *brief = wb_brief_file_brief(file);
    wb_out_format(json, format);
    wb_out_text(json, "brief", brief->name);
    wb_out_text(json, "currency", brief->currency);
    wb_cli_not_read_json(json, wb_brief_file_not_read(file));
}

static void criteria_json(WbJsonOut *json, const WbProblem *problem)
{
    wb_out_object(json, "anchors");
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        wb_out_object(json, wb_criterion_name((WbCriterion)c));
        wb_out_number(json, "full", problem->anchor[c].full);
        wb_out_number(json, "none", problem->anchor[c].none);
        wb_out_end_object(json);
    }
    wb_out_end_object(json);
    wb_out_object(json, "weights");
    for (int c = 0; c < WB_N_CRITERIA; c++)
        wb_out_number(json, wb_criterion_name((WbCriterion)c), problem->weight[c]);
    wb_out_end_object(json);
}

static double dark_hours(const WbSky *sky, int month)
{
    double hours = 0;
    for (int h = 0; h < WB_HOURS; h++)
        hours += sky->dark_share[month][h];
    return hours;
}

static void hours_json(WbJsonOut *json, const char *key, const double hour[WB_HOURS])
{
    wb_out_array(json, key);
    for (int h = 0; h < WB_HOURS; h++)
        wb_out_number(json, NULL, hour[h]);
    wb_out_end_array(json);
}

static void months_json(WbJsonOut *json, const WbProblem *problem)
{
    const WbSite *site = &problem->brief->site;
    wb_out_array(json, "months");
    for (int m = 0; m < WB_MONTHS; m++) {
        wb_out_object(json, NULL);
        wb_out_integer(json, "month", m + 1);
        wb_out_flag(json, "in_use", site->months >> m & 1u);
        wb_out_number(json, "ghi_kwh_m2_day", site->place.ghi_kwh_m2_day[m]);
        wb_out_number(json, "plane_kwh_m2_day", problem->sky.plane_kwh_m2_day[m]);
        wb_out_number(json, "sunrise_h", problem->sky.sunrise_h[m]);
        wb_out_number(json, "sunset_h", problem->sky.sunset_h[m]);
        wb_out_number(json, "dark_h", dark_hours(&problem->sky, m));
        wb_out_number(json, "air_mean_c", site->place.air_mean_c[m]);
        wb_out_number(json, "bank_c", wb_bank_temperature_c(site, m));
        wb_out_number(json, "dc_loads_wh", problem->loads.dc_day_wh[m]);
        wb_out_number(json, "ac_loads_wh", problem->loads.ac_day_wh[m]);
        hours_json(json, "hourly_plane_w_m2", problem->sky.plane_w_m2[m]);
        hours_json(json, "hourly_air_c", problem->sky.air_c[m]);
        hours_json(json, "hourly_dark_share", problem->sky.dark_share[m]);
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
}

static void panels_json(WbJsonOut *json, const WbProblem *problem)
{
    wb_out_array(json, "panels");
    for (size_t i = 0; i < problem->n_panels; i++) {
        const WbPanelChoice *choice = &problem->panels[i];
        wb_out_object(json, NULL);
        wb_out_text(json, "id", choice->panel->part.id);
        wb_out_number(json, "hottest_cell_c", choice->hottest_cell_c);
        wb_out_integer(json, "roof_most", choice->fit.most);
        wb_out_integer(json, "roof_bound", choice->fit.bound);
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
}

static void peaks_json(WbJsonOut *json, const WbLoadBudget *loads)
{
    wb_out_number(json, "peak_dc_w", loads->peak_dc_w);
    wb_out_number(json, "peak_ac_w", loads->peak_ac_w);
    wb_out_number(json, "surge_dc_w", loads->surge_dc_w);
    wb_out_number(json, "surge_ac_w", loads->surge_ac_w);
}

void wb_cli_reference_json(WbJsonOut *json, const WbProblem *problem)
{
    wb_out_object(json, "reference");
    wb_out_number(json, "reference_need_wh_day", problem->reference_need_wh);
    wb_out_number(json, "clear_area_m2", problem->clear_m2);
    wb_out_number(json, "design_cold_c", problem->design_cold_c);
    peaks_json(json, &problem->loads);
    criteria_json(json, problem);
    months_json(json, problem);
    panels_json(json, problem);
    wb_out_end_object(json);
}

static void no_price_json(WbJsonOut *json, const WbProblem *problem)
{
    g_autoptr(GArray) parts = wb_cli_parts(problem);
    wb_out_array(json, "no_price");
    for (guint i = 0; i < parts->len; i++) {
        const WbCliPart *listed = &g_array_index(parts, WbCliPart, i);
        if (listed->sourced->priced)
            continue;
        wb_out_object(json, NULL);
        wb_out_text(json, "id", listed->part->id);
        wb_out_text(json, "maker", listed->part->maker);
        wb_out_text(json, "model", listed->part->model);
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
}

static void no_rate_json(WbJsonOut *json, const WbProblem *problem)
{
    g_autoptr(GPtrArray) offers = wb_cli_offers_without_rate(problem);
    wb_out_array(json, "no_rate");
    for (guint i = 0; i < offers->len; i++) {
        const WbOffer *offer = offers->pdata[i];
        wb_out_object(json, NULL);
        wb_out_text(json, "part", offer->part_id);
        wb_out_text(json, "shop", offer->shop_id);
        wb_out_integer(json, "price_minor", offer->price_minor);
        wb_out_text(json, "currency", offer->currency);
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
}

void wb_cli_left_out_json(WbJsonOut *json, const WbProblem *problem)
{
    no_price_json(json, problem);
    no_rate_json(json, problem);
}
