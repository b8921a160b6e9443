#include "brief_read.h"
#include "text_rules.h"

#define ALL_MONTHS 0xFFFu

void wb_read_bit(const WbJson *at, unsigned bit, uint32_t *set)
{
    if (*set >> bit & 1)
        wb_json_refuse(at, "a value that does not stand in the list already");
    *set |= 1u << bit;
}

uint32_t wb_read_months(const WbJson *at, int least)
{
    if (!wb_json_given(at))
        return ALL_MONTHS;
    uint32_t months = 0;
    wb_json_list(at, least, WB_MONTHS);
    for (WbJson month = wb_json_first(at); month.item; month = wb_json_next(&month))
        wb_read_bit(&month, (unsigned)wb_json_integer(&month, 1, WB_MONTHS) - 1, &months);
    return months;
}

const char *wb_read_id(const WbJson *at)
{
    if (cJSON_IsString(at->item) && wb_is_id(at->item->valuestring))
        return at->item->valuestring;
    wb_json_refuse(at, WB_ID_ACCEPTED);
    return "";
}

static void read_rates(const WbJson *root, WbBrief *brief)
{
    WbJson rates = wb_json_member(root, "rates");
    if (!wb_json_given(&rates) || !wb_json_object(&rates))
        return;
    WbRate *list = g_new0(WbRate, (gsize)cJSON_GetArraySize(rates.item));
    brief->rates = list;
    for (const cJSON *item = rates.item->child; item; item = item->next) {
        if (g_str_has_prefix(item->string, "//"))
            continue;
        WbJson rate = wb_json_member(&rates, item->string);
        if (!wb_is_currency(item->string))
            wb_json_complain(&rate, WB_STORE_ERROR_VALUE, "must be named by " WB_CURRENCY_ACCEPTED);
        list[brief->n_rates++] = (WbRate){item->string, wb_json_number(&rate, 1e-9, 1e9)};
    }
}

static void read_head(const WbJson *root, WbBrief *brief)
{
    WbJson name = wb_json_member(root, "name"), notes = wb_json_member(root, "notes");
    WbJson currency = wb_json_member(root, "currency");
    brief->name = wb_json_text(&name, WB_NAME_MOST);
    wb_json_text_or(&notes, WB_NOTES_MOST, "");
    brief->currency = cJSON_IsString(currency.item) ? currency.item->valuestring : "";
    if (!wb_is_currency(brief->currency))
        wb_json_refuse(&currency, WB_CURRENCY_ACCEPTED);
    read_rates(root, brief);
}

static void read_driving(const WbJson *root, WbBrief *brief)
{
    WbJson driving = wb_json_member(root, "driving");
    if (!wb_json_given(&driving) || cJSON_IsNull(driving.item) || !wb_json_object(&driving))
        return;
    WbJson amps = wb_json_member(&driving, "alternator_a");
    WbJson volts = wb_json_member(&driving, "alternator_v");
    WbJson hours = wb_json_member(&driving, "hours_per_day");
    int64_t alternator_v = wb_json_integer(&volts, 12, 24);
    if (alternator_v != 12 && alternator_v != 24)
        wb_json_refuse(&volts, "12 or 24");
    brief->driving = (WbDriving){
        .alternator_a = wb_json_number(&amps, 0, 10000),
        .alternator_v = (int)alternator_v,
        .drive_hours_day = wb_json_number(&hours, 0, 24),
    };
}

static void read_shore(const WbJson *root, WbBrief *brief)
{
    WbJson shore = wb_json_member(root, "shore");
    if (!wb_json_given(&shore) || cJSON_IsNull(shore.item) || !wb_json_object(&shore))
        return;
    WbJson nights = wb_json_member(&shore, "nights_per_week");
    WbJson amps = wb_json_member(&shore, "charger_a");
    brief->shore = (WbShore){
        .nights_week = wb_json_number(&nights, 0, 7),
        .charger_a = wb_json_number(&amps, 0, 1000),
    };
}

gboolean wb_brief_read(const cJSON *tree, const char *name, WbBrief *brief, GPtrArray **not_read,
                       GError **error)
{
    *brief = (WbBrief){0};
    WbJsonReader reader = wb_json_begin(name);
    WbJson root = wb_json_root(&reader, tree);
    wb_json_check_format(&root, "wattberth-brief", WB_BRIEF_VERSION);
    if (!reader.error) {
        read_head(&root, brief);
        wb_read_loads(&root, brief);
        wb_read_site(&root, brief);
        wb_read_space(&root, brief);
        read_driving(&root, brief);
        read_shore(&root, brief);
        wb_read_wishes(&root, brief);
        wb_read_rank_by(&root, brief);
        wb_read_wiring(&root, brief);
        wb_read_picks(&root, brief);
    }
    if (wb_json_end(&reader, tree, not_read, error))
        return TRUE;
    wb_brief_clear(brief);
    return FALSE;
}

void wb_brief_clear(WbBrief *brief)
{
    g_free((gpointer)brief->rates);
    g_free((gpointer)brief->loads);
    g_free((gpointer)brief->roof.obstacles);
    g_free((gpointer)brief->roof.corners);
    g_free((gpointer)brief->roof.pins);
    g_free((gpointer)brief->candidates);
    g_free((gpointer)brief->owned);
    g_free((gpointer)brief->fixed_offers);
    *brief = (WbBrief){0};
}
