#include "cli_kit_json.h"
#include "cli_similar.h"

#include "cli_way.h"
#include "words.h"

static void part_json(WbJsonOut *json, const char *key, const WbPart *part, int count, int series,
                      int parallel)
{
    if (part == NULL) {
        wb_out_null(json, key);
        return;
    }
    wb_out_object(json, key);
    wb_out_text(json, "id", part->id);
    wb_out_integer(json, "count", count);
    if (series > 0) {
        wb_out_integer(json, "series", series);
        wb_out_integer(json, "parallel", parallel);
    }
    wb_out_end_object(json);
}

static void parts_json(WbJsonOut *json, const WbProblem *problem, const WbKit *kit)
{
    const WbInverter *inverter = problem->inverters[kit->inverter].inverter;
    const WbDcdc *dcdc = problem->dcdc[kit->dcdc].dcdc;
    wb_out_object(json, "parts");
    part_json(json, "panel", &problem->panels[kit->panel].panel->part,
              kit->n_series * kit->n_parallel, kit->n_series, kit->n_parallel);
    part_json(json, "controller", &problem->controllers[kit->controller].controller->part,
              kit->n_controllers, 0, 0);
    part_json(json, "storage", &problem->storage[kit->storage].storage->part,
              kit->bank_series * kit->bank_parallel, kit->bank_series, kit->bank_parallel);
    part_json(json, "inverter", inverter == NULL ? NULL : &inverter->part, 1, 0, 0);
    part_json(json, "dcdc", dcdc == NULL ? NULL : &dcdc->part, 1, 0, 0);
    wb_out_end_object(json);
}

static void figures_json(WbJsonOut *json, const WbFigures *figures)
{
    wb_out_object(json, "figures");
    wb_out_integer(json, "cost_minor", figures->cost_minor);
    wb_out_integer(json, "parts_minor", figures->parts_minor);
    wb_out_integer(json, "wiring_minor", figures->wiring_minor);
    wb_out_integer(json, "shipping_minor", figures->shipping_minor);
    wb_out_integer(json, "allowance_minor", figures->allowance_minor);
    wb_out_number(json, "weight_kg", (double)figures->weight_g / 1e3);
    wb_out_number(json, "usable_capacity_wh", figures->usable_wh);
    wb_out_number(json, "roof_area_m2", (double)figures->roof_area_mm2 / 1e6);
    wb_out_number(json, "autonomy_days", figures->autonomy_days);
    wb_out_number(json, "spare_power_w", figures->spare_w);
    wb_out_number(json, "dark_hours", figures->dark_h);
    wb_out_number(json, "supply_margin_wh", figures->supply_margin_wh);
    wb_out_end_object(json);
}

static void month_json(WbJsonOut *json, const WbProblem *problem, const WbMonth *month, int m)
{
    wb_out_object(json, NULL);
    wb_out_integer(json, "month", m + 1);
    wb_out_flag(json, "in_use", problem->brief->site.months >> m & 1u);
    wb_out_number(json, "array_wh", month->array_wh);
    wb_out_number(json, "alternator_wh", month->alternator_wh);
    wb_out_number(json, "shore_wh", month->shore_wh);
    wb_out_number(json, "storing_loss_wh", month->storing_loss_wh);
    wb_out_number(json, "supply_wh", month->supply_wh);
    wb_out_number(json, "need_wh", month->need_wh);
    wb_out_number(json, "clipped_wh", month->clipped_wh);
    wb_out_number(json, "usable_wh", month->usable_wh);
    wb_out_number(json, "autonomy_days", month->autonomy_days);
    wb_out_number(json, "bank_c", month->bank_c);
    wb_out_number(json, "temperature_factor", month->temperature_factor);
    wb_out_number(json, "rate_factor", month->rate_factor);
    wb_out_number(json, "dark_current_a", month->dark_current_a);
    wb_out_end_object(json);
}

static void worth_json(WbJsonOut *json, const WbVerdict *verdict)
{
    wb_out_object(json, "worth");
    for (int c = 0; c < WB_N_CRITERIA; c++)
        wb_out_number(json, wb_criterion_name((WbCriterion)c), verdict->u[c]);
    wb_out_end_object(json);
    wb_out_number(json, "score", verdict->score);
}

static void assumed_json(WbJsonOut *json, uint32_t assumed)
{
    static const struct {
        WbAssumption bit;
        const char *code;
    } codes[] = {
        {WB_ASSUMED_VOC_TABLE, "voc-table"},
        {WB_ASSUMED_POWER_COEFF, "power-coefficient"},
        {WB_ASSUMED_NOCT, "noct"},
        {WB_ASSUMED_MAX_SYSTEM_V, "max-system-v"},
        {WB_ASSUMED_SERIES_FUSE, "series-fuse"},
        {WB_ASSUMED_PV_WATTS, "pv-watts"},
        {WB_ASSUMED_SURGE_A, "surge-current"},
        {WB_ASSUMED_WINDOW, "inverter-window"},
        {WB_ASSUMED_VMP_COEFF, "voltage-coefficient"},
        {WB_ASSUMED_START_V, "start-headroom"},
        {WB_ASSUMED_CELLS, "cells"},
        {WB_ASSUMED_LOWEST_V, "inverter-lowest"},
        {WB_ASSUMED_END_V, "end-voltage"},
        {WB_ASSUMED_MIN_CHARGE, "minimum-charge"},
        {WB_ASSUMED_CHARGE_V, "charge-voltage"},
        {WB_ASSUMED_DEPTH, "depth-limit"},
        {WB_ASSUMED_PEUKERT, "peukert"},
        {WB_ASSUMED_LOW_LIGHT, "low-light"},
        {WB_ASSUMED_INTERNAL_R, "internal-resistance"},
        {WB_ASSUMED_STARTER, "starter-battery"},
    };
    wb_out_array(json, "assumed");
    for (gsize i = 0; i < G_N_ELEMENTS(codes); i++)
        if (assumed & codes[i].bit)
            wb_out_text(json, NULL, codes[i].code);
    wb_out_end_array(json);
}

static void finding_json(WbJsonOut *json, const WbProblem *problem, const WbVerdict *verdict,
                         const WbFinding *finding)
{
    const WbRuleInfo *info = wb_rule_info(finding->rule);
    g_autofree char *sentence = wb_words_finding(problem, verdict, finding);
    wb_out_object(json, NULL);
    wb_out_text(json, "code", info->code);
    wb_out_text(json, "severity", wb_severity_name(finding->severity));
    wb_out_flag(json, "holds", finding->holds);
    wb_out_number(json, "value", finding->value);
    wb_out_number(json, "limit", finding->limit);
    wb_out_text(json, "unit", info->unit);
    wb_out_number(json, "margin", finding->margin);
    if (finding->month >= 0)
        wb_out_integer(json, "month", finding->month + 1);
    else
        wb_out_null(json, "month");
    wb_out_text(json, "sentence", sentence);
    wb_out_text(json, "source", info->source);
    assumed_json(json, finding->assumed);
    wb_out_end_object(json);
}

void wb_cli_kit_json(WbJsonOut *json, const char *key, const WbProblem *problem,
                     const WbVerdict *verdict, WbStanding standing)
{
    char id[WB_KIT_ID];
    wb_kit_id(problem, &verdict->kit, id);
    wb_out_object(json, key);
    if (standing.rank > 0)
        wb_out_count(json, "rank", standing.rank);
    else
        wb_out_null(json, "rank");
    wb_out_text(json, "id", id);
    parts_json(json, problem, &verdict->kit);
    figures_json(json, &verdict->figures);
    wb_out_array(json, "months");
    for (int m = 0; m < WB_MONTHS; m++)
        month_json(json, problem, &verdict->month[m], m);
    wb_out_end_array(json);
    worth_json(json, verdict);
    wb_cli_place_json(json, problem, &verdict->figures);
    if (standing.on_front >= 0)
        wb_out_flag(json, "on_front", standing.on_front > 0);
    else
        wb_out_null(json, "on_front");
    if (standing.similar != NULL)
        wb_cli_similar_json(json, problem, standing.similar, standing.at);
    wb_out_flag(json, "feasible", verdict->feasible);
    wb_out_array(json, "findings");
    for (int r = 0; r < WB_N_RULES; r++)
        finding_json(json, problem, verdict, &verdict->finding[r]);
    wb_out_end_array(json);
    wb_out_end_object(json);
}

void wb_cli_safety_json(WbJsonOut *json, const WbProblem *problem, const WbVerdict *verdict)
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
