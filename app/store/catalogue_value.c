/* What a field of the catalogue accepts, and how a message shows it. */
#include "catalogue_table.h"
#include "json.h"
#include "json_read.h"
#include "text_rules.h"
#include <string.h>

typedef struct {
    const char *key, *accepted;
    bool (*ok)(const char *text);
} TextRule;

static const TextRule text_rules[] = {
    {"id", WB_ID_ACCEPTED, wb_is_id},
    {"part_id", WB_ID_ACCEPTED, wb_is_id},
    {"shop_id", WB_ID_ACCEPTED, wb_is_id},
    {"chemistry", WB_ID_ACCEPTED, wb_is_id},
    {"currency", WB_CURRENCY_ACCEPTED, wb_is_currency},
    {"date", WB_DATE_ACCEPTED, wb_is_date},
};

static const TextRule *text_rule(const char *key)
{
    for (size_t i = 0; i < G_N_ELEMENTS(text_rules); i++)
        if (strcmp(text_rules[i].key, key) == 0)
            return &text_rules[i];
    return NULL;
}

static glong most_characters(const WbField *field)
{
    return strcmp(field->key, "notes") == 0 ? WB_NOTES_MOST : WB_NAME_MOST;
}

static char *list_choices(const WbField *field, const char *quote)
{
    g_autoptr(GString) text = g_string_new(NULL);
    for (int i = 0; field->choices[i]; i++)
        g_string_append_printf(text, "%s%s%s%s",
                               i == 0                  ? ""
                               : field->choices[i + 1] ? ", "
                                                       : " or ",
                               quote, field->choices[i], quote);
    return g_string_free(g_steal_pointer(&text), FALSE);
}

char *wb_field_accepted(const WbField *field)
{
    const TextRule *rule = text_rule(field->key);
    switch (field->type) {
    case WB_FIELD_NUMBER:
        return wb_json_range_text("a number", field->least, field->most);
    case WB_FIELD_INTEGER:
        return field->choices ? list_choices(field, "")
                              : wb_json_range_text("a whole number", field->least, field->most);
    case WB_FIELD_FLAG:
        return g_strdup("true or false");
    case WB_FIELD_CHOICE:
        return list_choices(field, "\"");
    case WB_FIELD_WORDS:
        return g_strdup("a list of chemistry ids");
    case WB_FIELD_CURVE: {
        g_autofree char *range = wb_json_range_text("y", field->least, field->most);
        return g_strdup_printf("a list of at most %d points [x, y], x ascending, %s", WB_MAX_POINTS,
                               range);
    }
    case WB_FIELD_TEXT:
        break;
    }
    if (rule)
        return g_strdup(rule->accepted);
    return g_strdup_printf("a text of %s%ld characters",
                           field->may_be_missing ? "at most " : "1 to ", most_characters(field));
}

bool wb_field_text_ok(const WbField *field, const char *text)
{
    const TextRule *rule = text_rule(field->key);
    if (rule)
        return rule->ok(text);
    if (field->type == WB_FIELD_WORDS)
        return wb_is_id_list(text) && strlen(text) <= WB_NOTES_MOST;
    return (field->may_be_missing || *text) && g_utf8_validate(text, -1, NULL) &&
           g_utf8_strlen(text, -1) <= most_characters(field);
}

static bool number_ok(const WbField *field, double value)
{
    if (isnan(value))
        return field->may_be_missing;
    return value >= field->least && value <= field->most;
}

static bool integer_ok(const WbField *field, int64_t value)
{
    if (!field->choices || field->type == WB_FIELD_CHOICE) {
        int64_t n = 0;
        while (field->choices && field->choices[n])
            n++;
        return field->choices ? value >= 0 && value < n
                              : (double)value >= field->least && (double)value <= field->most;
    }
    for (int i = 0; field->choices[i]; i++)
        if (g_ascii_strtoll(field->choices[i], NULL, 10) == value)
            return true;
    return false;
}

static bool curve_ok(const WbField *field, const WbCurve *curve)
{
    if (curve->n < 0 || curve->n > WB_MAX_POINTS || (curve->n == 0 && !field->may_be_missing))
        return false;
    for (int i = 0; i < curve->n; i++) {
        const WbPoint *point = &curve->point[i];
        if (!(fabs(point->x) <= 1e9) || !(point->y >= field->least && point->y <= field->most))
            return false;
        if (i > 0 && point->x <= curve->point[i - 1].x)
            return false;
    }
    return true;
}

bool wb_field_ok(const WbField *field, const void *record)
{
    const void *at = wb_field_in(field, record);
    switch (field->type) {
    case WB_FIELD_NUMBER:
        return number_ok(field, *(const double *)at);
    case WB_FIELD_INTEGER:
    case WB_FIELD_CHOICE:
        return integer_ok(field, *(const int64_t *)at);
    case WB_FIELD_FLAG:
        return true;
    case WB_FIELD_CURVE:
        return curve_ok(field, at);
    case WB_FIELD_TEXT:
    case WB_FIELD_WORDS:
        break;
    }
    return *(const char *const *)at && wb_field_text_ok(field, *(const char *const *)at);
}

static const WbField *field_of(const WbTable *table, const char *key)
{
    return wb_field_find(table->fields, table->n_fields, key);
}

static const WbField *panel_conflict(const WbTable *table, const WbPanel *panel, char **accepted)
{
    gboolean voltage = !(panel->vmp_v < panel->voc_v);
    if (!voltage && panel->imp_a <= panel->isc_a)
        return NULL;
    g_autofree char *limit = wb_json_number_text(voltage ? panel->voc_v : panel->isc_a);
    *accepted =
        g_strdup_printf(voltage ? "below voc_v, which is %s" : "at most isc_a, which is %s", limit);
    return field_of(table, voltage ? "vmp_v" : "imp_a");
}

/* The falling acceptance needs its three figures; one alone would be taken for no fall at all. */
static const WbField *chemistry_conflict(const WbTable *table, const WbChemistry *chemistry,
                                         char **accepted)
{
    const struct {
        const char *key;
        double value;
    } three[] = {{"accept_c", chemistry->accept_c},
                 {"accept_from", chemistry->accept_from},
                 {"accept_full_c", chemistry->accept_full_c}};
    const char *given = NULL, *missing = NULL;
    for (size_t i = G_N_ELEMENTS(three); i-- > 0;) {
        if (isnan(three[i].value))
            missing = three[i].key;
        else
            given = three[i].key;
    }
    if (given && missing) {
        *accepted = g_strdup_printf("a number, because %s is given: accept_c, accept_from and "
                                    "accept_full_c go together, all three or none",
                                    given);
        return field_of(table, missing);
    }
    if (missing || chemistry->accept_full_c <= chemistry->accept_c)
        return NULL;
    g_autofree char *most = wb_json_number_text(chemistry->accept_c);
    *accepted = g_strdup_printf("at most accept_c, which is %s", most);
    return field_of(table, "accept_full_c");
}

static const WbField *missing_in(const WbTable *table, const char *key, const char *role,
                                 char **accepted)
{
    *accepted = g_strdup_printf("a number, because a %s needs it", role);
    return field_of(table, key);
}

static const WbField *lug_conflict(const WbTable *table, const WbFitting *lug, char **accepted)
{
    if (isnan(lug->min_area_mm2) || isnan(lug->max_area_mm2))
        return missing_in(table, isnan(lug->min_area_mm2) ? "min_area_mm2" : "max_area_mm2", "lug",
                          accepted);
    return NULL;
}

/* Each role has figures without which no circuit could be judged with it. */
static const WbField *fitting_conflict(const WbTable *table, const WbFitting *fitting,
                                       char **accepted)
{
    const char *role = field_of(table, "role")->choices[fitting->role];
    bool takes_fuses = fitting->role == WB_FITTING_HOLDER || fitting->role == WB_FITTING_BLOCK;
    if (fitting->min_area_mm2 > fitting->max_area_mm2) {
        g_autofree char *most = wb_json_number_text(fitting->max_area_mm2);
        *accepted = g_strdup_printf("at most max_area_mm2, which is %s", most);
        return field_of(table, "min_area_mm2");
    }
    if (fitting->role == WB_FITTING_LUG)
        return lug_conflict(table, fitting, accepted);
    if (takes_fuses && fitting->form == WB_N_FUSE_FORMS) {
        *accepted = g_strdup_printf("the form of the fuses it takes, because it is a %s", role);
        return field_of(table, "form");
    }
    if (isnan(fitting->max_a))
        return missing_in(table, "max_a", role, accepted);
    if (isnan(fitting->max_v) && fitting->role != WB_FITTING_BUS)
        return missing_in(table, "max_v", role, accepted);
    if (fitting->role == WB_FITTING_BLOCK && fitting->ways < 1) {
        *accepted = g_strdup("at least 1, because it is a block");
        return field_of(table, "ways");
    }
    return NULL;
}

const WbField *wb_row_conflict(const WbTable *table, const void *record, char **accepted)
{
    if (strcmp(table->name, "panel") == 0)
        return panel_conflict(table, record, accepted);
    if (strcmp(table->name, "chemistry") == 0)
        return chemistry_conflict(table, record, accepted);
    if (strcmp(table->name, "fitting") == 0)
        return fitting_conflict(table, record, accepted);
    return NULL;
}

char *wb_field_value_text(const WbField *field, const void *record)
{
    const void *at = wb_field_in(field, record);
    switch (field->type) {
    case WB_FIELD_NUMBER:
        return isnan(*(const double *)at) ? g_strdup("missing")
                                          : wb_json_number_text(*(const double *)at);
    case WB_FIELD_INTEGER:
    case WB_FIELD_CHOICE:
        return g_strdup_printf("%" G_GINT64_FORMAT, *(const int64_t *)at);
    case WB_FIELD_FLAG:
        return g_strdup(*(const bool *)at ? "true" : "false");
    case WB_FIELD_CURVE:
        return g_strdup_printf("a list of %d points", ((const WbCurve *)at)->n);
    case WB_FIELD_TEXT:
    case WB_FIELD_WORDS:
        break;
    }
    const char *text = *(const char *const *)at;
    g_autofree char *shortened = wb_json_shorten(text ? text : "");
    return g_strdup_printf("\"%s\"", shortened);
}
