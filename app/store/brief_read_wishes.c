/* What the kits are judged by: target, limits, anchors, weights, front, largest counts, rules. */
#include "brief_read.h"
#include <math.h>

static const char *const rule_sets[] = {"road-vehicle", "boat", "building", NULL};

/* An optional object: given, not of another type. */
static bool open_object(const WbJson *parent, const char *key, WbJson *object)
{
    *object = wb_json_member(parent, key);
    return wb_json_given(object) && wb_json_object(object);
}

static bool read_on(const WbJson *limits, const char *key)
{
    WbJson limit;
    if (!open_object(limits, key, &limit))
        return true;
    WbJson on = wb_json_member(&limit, "on");
    return wb_json_flag_or(&on, true);
}

static void read_dark_hours(const WbJson *limits, WbLimit *to)
{
    WbJson dark;
    *to = (WbLimit){100, read_on(limits, "dark_hours")};
    if (!open_object(limits, "dark_hours", &dark))
        return;
    WbJson value = wb_json_member(&dark, "value");
    to->value = wb_json_number_or(&value, 0, 8760, 100);
}

static void read_limits(const WbJson *root, WbBrief *brief)
{
    WbJson limits = wb_json_member(root, "limits");
    if (!wb_json_object(&limits))
        return;
    WbJson money = wb_json_member(&limits, "money_minor");
    WbJson weight = wb_json_member(&limits, "weight_kg");
    if (!wb_json_object(&money) || !wb_json_object(&weight))
        return;
    WbJson money_value = wb_json_member(&money, "value");
    WbJson weight_value = wb_json_member(&weight, "value");
    brief->money_minor.value =
        (double)wb_json_integer(&money_value, 0, (int64_t)WB_JSON_NUMBER_MOST);
    brief->money_minor.on = read_on(&limits, "money_minor");
    brief->weight_kg.value = wb_json_number(&weight_value, 0, 1000000);
    brief->weight_kg.on = read_on(&limits, "weight_kg");
    brief->roof_on = read_on(&limits, "roof");
    brief->bay_on = read_on(&limits, "bay");
    read_dark_hours(&limits, &brief->dark_hours);
}

static void read_anchors(const WbJson *root, WbBrief *brief)
{
    WbJson anchors;
    bool given = open_object(root, "anchors", &anchors);
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++) {
        WbJson anchor;
        brief->anchor[c] = (WbAnchor){NAN, NAN};
        if (!given || !open_object(&anchors, wb_criterion_name(c), &anchor))
            continue;
        WbJson full = wb_json_member(&anchor, "full"), none = wb_json_member(&anchor, "none");
        brief->anchor[c].full =
            wb_json_number_or_null(&full, -WB_JSON_NUMBER_MOST, WB_JSON_NUMBER_MOST, NAN);
        brief->anchor[c].none =
            wb_json_number_or_null(&none, -WB_JSON_NUMBER_MOST, WB_JSON_NUMBER_MOST, NAN);
        if (brief->anchor[c].full == brief->anchor[c].none)
            wb_json_refuse(&none, "another number than \"full\"");
    }
}

static void read_weights(const WbJson *root, WbBrief *brief)
{
    WbJson weights;
    bool given = open_object(root, "weights", &weights);
    double sum = 0;
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++) {
        brief->weight[c] = c <= WB_CRITERION_ROOF ? 1 : 0;
        if (given) {
            WbJson weight = wb_json_member(&weights, wb_criterion_name(c));
            brief->weight[c] = wb_json_number_or(&weight, 0, 1000000, brief->weight[c]);
        }
        sum += brief->weight[c];
    }
    if (sum <= 0)
        wb_json_complain(&weights, WB_STORE_ERROR_VALUE, "are all 0; at least one must be above 0");
}

static void read_front(const WbJson *root, WbBrief *brief)
{
    const char *names[WB_N_CRITERIA + 1] = {NULL};
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++)
        names[c] = wb_criterion_name(c);
    WbJson front = wb_json_member(root, "front");
    if (!wb_json_given(&front)) {
        for (WbCriterion c = 0; c <= WB_CRITERION_ROOF; c++)
            brief->front |= 1u << c;
        return;
    }
    wb_json_list(&front, 1, WB_N_CRITERIA);
    for (WbJson item = wb_json_first(&front); item.item; item = wb_json_next(&item))
        wb_read_bit(&item, (unsigned)wb_json_word(&item, names), &brief->front);
}

static void read_largest(const WbJson *root, WbLargest *largest)
{
    const struct {
        const char *key;
        int *to, fallback;
    } counts[] = {
        {"series", &largest->series, 6},
        {"parallel", &largest->parallel, 6},
        {"controllers", &largest->controllers, 1},
        {"bank_series", &largest->bank_series, 4},
        {"bank_parallel", &largest->bank_parallel, 4},
    };
    WbJson object;
    bool given = open_object(root, "largest", &object);
    for (size_t i = 0; i < G_N_ELEMENTS(counts); i++) {
        *counts[i].to = counts[i].fallback;
        if (!given)
            continue;
        WbJson count = wb_json_member(&object, counts[i].key);
        *counts[i].to = (int)wb_json_integer_or(&count, 1, 20, counts[i].fallback);
    }
}

static void read_system_volts(const WbJson *root, WbBrief *brief)
{
    WbJson volts = wb_json_member(root, "system_volts");
    if (!wb_json_given(&volts)) {
        brief->system_v = 7;
        return;
    }
    wb_json_list(&volts, 1, 3);
    for (WbJson item = wb_json_first(&volts); item.item; item = wb_json_next(&item)) {
        int64_t v = wb_json_integer(&item, 12, 48);
        if (v != 12 && v != 24 && v != 48)
            wb_json_refuse(&item, "12, 24 or 48");
        wb_read_bit(&item, v == 12 ? 0 : v == 24 ? 1 : 2, &brief->system_v);
    }
}

void wb_read_wishes(const WbJson *root, WbBrief *brief)
{
    WbJson targets = wb_json_member(root, "targets");
    brief->autonomy_target_days = 2;
    if (wb_json_given(&targets) && wb_json_object(&targets)) {
        WbJson days = wb_json_member(&targets, "autonomy_days");
        brief->autonomy_target_days = wb_json_number_or(&days, 0, 365, 2);
    }
    WbJson inverter_hours = wb_json_member(root, "inverter_hours_per_day");
    WbJson rule_set = wb_json_member(root, "rule_set");
    WbJson sundries = wb_json_member(root, "sundries_percent");
    brief->inverter_hours_day = wb_json_number_or_null(&inverter_hours, 0, 24, NAN);
    read_limits(root, brief);
    read_anchors(root, brief);
    read_weights(root, brief);
    read_front(root, brief);
    read_largest(root, &brief->largest);
    brief->rule_set = wb_json_word_or(&rule_set, rule_sets, WB_RULES_ROAD_VEHICLE);
    read_system_volts(root, brief);
    brief->sundries_pct = wb_json_number_or(&sundries, 0, 100, 7);
}
