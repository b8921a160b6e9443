/* A load's members as a person reads and types them, column by column. */
#include "figures_text.h"
#include "load_list.h"
#include "store_error.h"
#include <glib/gi18n-lib.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static const char *const supply_words[] = {"DC", "AC", NULL};
static const char *const drop_words[] = {"3 %", "10 %", NULL};

static const WbLoadColumn columns[WB_N_LOAD_COLUMNS] = {
    [WB_LOAD_NAME] = {"name", N_("Load"), "", N_("a name"), WB_CELL_TEXT, NULL},
    [WB_LOAD_WATTS] = {"watts", N_("Power"), "W", N_("watts of one, 0 or more"), WB_CELL_NUMBER,
                       NULL},
    [WB_LOAD_COUNT] = {"count", N_("Count"), "", N_("a whole number from 1"), WB_CELL_NUMBER, NULL},
    [WB_LOAD_SUPPLY] = {"supply", N_("Supply"), "", N_("DC or AC"), WB_CELL_CHOICE, supply_words},
    [WB_LOAD_HOURS] = {"hours_per_day", N_("Hours"), N_("a day"), N_("hours a day, 0 to 24"),
                       WB_CELL_NUMBER, NULL},
    [WB_LOAD_DUTY] = {"duty", N_("Duty"), "%",
                      N_("per cent of those hours it really draws, 0 to 100"), WB_CELL_NUMBER,
                      NULL},
    [WB_LOAD_WHEN] = {"when", N_("When"), "",
                      N_("all day, daylight, evening, night, or hours like 07:30-09:00"),
                      WB_CELL_TEXT, NULL},
    [WB_LOAD_MONTHS] = {"months", N_("Months"), "", N_("all, or months like 5-9, 12"), WB_CELL_TEXT,
                        NULL},
    [WB_LOAD_DAYS] = {"days_per_week", N_("Days"), N_("a week"), N_("days a week, 0 to 7"),
                      WB_CELL_NUMBER, NULL},
    [WB_LOAD_SURGE] = {"surge_factor", N_("Start"), N_("times"),
                       N_("starting watts as a multiple, 1 or more"), WB_CELL_NUMBER, NULL},
    [WB_LOAD_TOGETHER] = {"runs_together", N_("With others"), "", N_("yes or no"), WB_CELL_FLAG,
                          NULL},
    [WB_LOAD_SINE] = {"needs_pure_sine", N_("Pure sine"), "", N_("yes or no"), WB_CELL_FLAG, NULL},
    [WB_LOAD_DROP] = {"drop_percent", N_("Drop"), "", N_("3 % or 10 %"), WB_CELL_CHOICE,
                      drop_words},
    [WB_LOAD_LENGTH] = {"length_m", N_("Cable"), "m",
                        N_("metres of cable one way, 0.05 to 100, or nothing: as the wiring says"),
                        WB_CELL_NUMBER, NULL},
};

const WbLoadColumn *wb_load_column(WbLoadField field)
{
    g_return_val_if_fail((int)field >= 0 && field < WB_N_LOAD_COLUMNS, NULL);
    return &columns[field];
}

/* ---- to text ---- */

static char *clock_text(double hour)
{
    int minutes = (int)lround(hour * 60);
    return g_strdup_printf("%02d:%02d", minutes / 60, minutes % 60);
}

static char *when_text(const WbLoad *load)
{
    static const char *const parts[] = {"all day", "daylight", "evening", "night"};
    if (load->day_part != WB_DAY_FROM_TO)
        return g_strdup(parts[load->day_part]);
    g_autofree char *from = clock_text(load->from_h);
    g_autofree char *to = clock_text(load->to_h);
    return g_strdup_printf("%s-%s", from, to);
}

static char *months_text(guint32 months)
{
    if ((months & 0xfff) == 0xfff)
        return g_strdup("all");
    GString *text = g_string_new(NULL);
    for (int m = 0; m < 12; m++) {
        if (!(months >> m & 1))
            continue;
        int last = m;
        while (last < 11 && months >> (last + 1) & 1)
            last++;
        g_string_append_printf(text, "%s%d", text->len ? ", " : "", m + 1);
        if (last > m)
            g_string_append_printf(text, "-%d", last + 1);
        m = last;
    }
    return g_string_free(text, FALSE);
}

char *wb_load_text(const WbLoad *load, WbLoadField field)
{
    switch (field) {
    case WB_LOAD_NAME:
        return g_strdup(load->name);
    case WB_LOAD_WATTS:
        return wb_text_plain(load->power_w);
    case WB_LOAD_COUNT:
        return wb_text_plain(load->count);
    case WB_LOAD_SUPPLY:
        return g_strdup(supply_words[load->ac ? 1 : 0]);
    case WB_LOAD_HOURS:
        return wb_text_plain(load->hours_day);
    case WB_LOAD_DUTY:
        return wb_text_plain(round(load->duty * 1e6) / 1e4);
    case WB_LOAD_WHEN:
        return when_text(load);
    case WB_LOAD_MONTHS:
        return months_text(load->months);
    case WB_LOAD_DAYS:
        return wb_text_plain(load->days_week);
    case WB_LOAD_SURGE:
        return wb_text_plain(load->surge_factor);
    case WB_LOAD_TOGETHER:
        return g_strdup(load->together ? "yes" : "no");
    case WB_LOAD_SINE:
        return g_strdup(load->needs_pure_sine ? "yes" : "no");
    case WB_LOAD_DROP:
        return g_strdup(drop_words[load->drop_pct == 10 ? 1 : 0]);
    case WB_LOAD_LENGTH:
        return isnan(load->length_m) ? g_strdup("") : wb_text_plain(load->length_m);
    case WB_N_LOAD_COLUMNS:
        break;
    }
    g_return_val_if_reached(NULL);
}

/* ---- from text to JSON ---- */

static char *number_json(const char *text, double scale)
{
    double value;
    return wb_text_read_number(text, &value) ? wb_text_plain(value / scale) : NULL;
}

/* A "%" after the number does no harm. */
static char *share_json(const char *text)
{
    g_autofree char *copy = g_strstrip(g_strdup(text));
    gsize n = strlen(copy);
    if (n > 0 && copy[n - 1] == '%')
        copy[n - 1] = '\0';
    return number_json(copy, 100);
}

static char *flag_json(const char *text)
{
    static const char *const yes[] = {"yes", "y", "true", "1", "x", NULL};
    static const char *const no[] = {"no", "n", "false", "0", "", NULL};
    if (g_strv_contains(yes, text))
        return g_strdup("true");
    return g_strv_contains(no, text) ? g_strdup("false") : NULL;
}

static char *supply_json(const char *text)
{
    if (g_str_equal(text, "dc") || g_str_equal(text, "ac"))
        return wb_text_json(text);
    return NULL;
}

static char *drop_json(const char *text)
{
    if (g_str_equal(text, "3") || g_str_equal(text, "3 %") || g_str_equal(text, "3%"))
        return g_strdup("3");
    if (g_str_equal(text, "10") || g_str_equal(text, "10 %") || g_str_equal(text, "10%"))
        return g_strdup("10");
    return NULL;
}

static char *when_json(const char *text)
{
    static const char *const words[][2] = {{"all day", "\"all-day\""},
                                           {"all-day", "\"all-day\""},
                                           {"daylight", "\"daylight\""},
                                           {"evening", "\"evening\""},
                                           {"night", "\"night\""}};
    int from_h, from_m, to_h, to_m, used = 0;
    for (gsize i = 0; i < G_N_ELEMENTS(words); i++)
        if (g_str_equal(text, words[i][0]))
            return g_strdup(words[i][1]);
    if (strlen(text) > 32 ||
        sscanf(text, "%2d:%2d - %2d:%2d%n", &from_h, &from_m, &to_h, &to_m, &used) != 4 ||
        text[used] != '\0')
        return NULL;
    if (from_h < 0 || from_m < 0 || to_h < 0 || to_m < 0)
        return NULL;
    return g_strdup_printf("{\"from\": \"%02d:%02d\", \"to\": \"%02d:%02d\"}", from_h, from_m, to_h,
                           to_m);
}

/* One item of "5-9, 12"; FALSE: not months. A run may go past December: "11-2". */
static gboolean add_months(const char *item, guint32 *months)
{
    int first, last, used = 0;
    if (strlen(item) > 16 || sscanf(item, " %2d %n", &first, &used) != 1)
        return FALSE;
    last = first;
    if (item[used] == '-') {
        const char *rest = item + used + 1;
        if (sscanf(rest, " %2d %n", &last, &used) != 1 || rest[used] != '\0')
            return FALSE;
    } else if (item[used] != '\0') {
        return FALSE;
    }
    if (first < 1 || first > 12 || last < 1 || last > 12)
        return FALSE;
    for (int m = first - 1;; m = (m + 1) % 12) {
        *months |= 1u << m;
        if (m == last - 1)
            return TRUE;
    }
}

static char *months_json(const char *text)
{
    guint32 months = 0;
    if (g_str_equal(text, "all") || g_str_equal(text, "all year"))
        months = 0xfff;
    g_auto(GStrv) items = months ? NULL : g_strsplit(text, ",", 13);
    for (gsize i = 0; items && items[i]; i++)
        if (!add_months(items[i], &months))
            return NULL;
    if (!months)
        return NULL;
    GString *json = g_string_new("[");
    for (int m = 0; m < 12; m++)
        if (months >> m & 1)
            g_string_append_printf(json, "%s%d", json->len > 1 ? ", " : "", m + 1);
    g_string_append_c(json, ']');
    return g_string_free(json, FALSE);
}

/* NULL: the text is not what the column holds. */
static char *to_json(WbLoadField field, const char *typed)
{
    g_autofree char *text = g_strstrip(g_strdup(typed));
    g_autofree char *lower = g_utf8_strdown(text, -1);
    switch (field) {
    case WB_LOAD_NAME:
        return *text ? wb_text_json(text) : NULL;
    case WB_LOAD_WATTS:
    case WB_LOAD_COUNT:
    case WB_LOAD_HOURS:
    case WB_LOAD_DAYS:
    case WB_LOAD_SURGE:
        return number_json(text, 1);
    case WB_LOAD_DUTY:
        return share_json(text);
    case WB_LOAD_SUPPLY:
        return supply_json(lower);
    case WB_LOAD_WHEN:
        return when_json(lower);
    case WB_LOAD_MONTHS:
        return months_json(lower);
    case WB_LOAD_TOGETHER:
    case WB_LOAD_SINE:
        return flag_json(lower);
    case WB_LOAD_DROP:
        return drop_json(lower);
    case WB_LOAD_LENGTH:
        return *text ? number_json(text, 1) : g_strdup("null");
    case WB_N_LOAD_COLUMNS:
        break;
    }
    g_return_val_if_reached(NULL);
}

char *wb_load_json(WbLoadField field, const char *text, GError **error)
{
    const WbLoadColumn *column = wb_load_column(field);
    char *json = g_utf8_validate(text, -1, NULL) ? to_json(field, text) : NULL;
    if (!json)
        g_set_error(error, WB_STORE_ERROR, WB_STORE_ERROR_VALUE,
                    /* Translators: a column, what it accepts, what was typed. */
                    _("%s takes %s; \342\200\234%.60s\342\200\235 is not that."), _(column->title),
                    _(column->hint), text);
    return json;
}
