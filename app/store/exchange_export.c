#include "catalogue_table.h"
#include "exchange.h"
#include "exchange_read.h"

static cJSON *words_json(const char *words)
{
    cJSON *list = cJSON_CreateArray();
    g_auto(GStrv) each = g_strsplit(words, " ", -1);
    for (char **word = each; *word; word++)
        cJSON_AddItemToArray(list, cJSON_CreateString(*word));
    return list;
}

static cJSON *curve_json(const WbCurve *curve)
{
    if (curve->n == 0)
        return cJSON_CreateNull();
    cJSON *list = cJSON_CreateArray();
    for (int i = 0; i < curve->n; i++) {
        const double point[] = {curve->point[i].x, curve->point[i].y};
        cJSON_AddItemToArray(list, cJSON_CreateDoubleArray(point, 2));
    }
    return list;
}

static cJSON *value_json(const WbField *field, const void *record)
{
    const void *at = wb_field_in(field, record);
    switch (field->type) {
    case WB_FIELD_NUMBER:
        return isnan(*(const double *)at) ? cJSON_CreateNull()
                                          : cJSON_CreateNumber(*(const double *)at);
    case WB_FIELD_INTEGER:
        return cJSON_CreateNumber((double)*(const int64_t *)at);
    case WB_FIELD_FLAG:
        return cJSON_CreateBool(*(const bool *)at);
    case WB_FIELD_CHOICE:
        return cJSON_CreateString(field->choices[*(const int64_t *)at]);
    case WB_FIELD_WORDS:
        return words_json(*(const char *const *)at);
    case WB_FIELD_CURVE:
        return curve_json(at);
    case WB_FIELD_TEXT:
        break;
    }
    return cJSON_CreateString(*(const char *const *)at);
}

static cJSON *row_json(const WbTable *table, const void *record)
{
    cJSON *row = cJSON_CreateObject();
    for (size_t i = 0; i < table->n_fields; i++)
        cJSON_AddItemToObject(row, table->fields[i].key, value_json(&table->fields[i], record));
    return row;
}

char *wb_exchange_export(const WbCatalogue *catalogue)
{
    g_autoptr(WbJsonTree) root = cJSON_CreateObject();
    cJSON_AddStringToObject(root, "format", WB_CATALOGUE_FORMAT);
    cJSON_AddNumberToObject(root, "version", WB_CATALOGUE_VERSION);
    for (WbTableId id = 0; id < WB_N_TABLES; id++) {
        WbTable table = wb_table(id);
        size_t n;
        const char *rows = wb_table_rows(&table, catalogue, &n);
        cJSON *list = cJSON_AddArrayToObject(root, table.list);
        for (size_t i = 0; i < n; i++)
            cJSON_AddItemToArray(list, row_json(&table, rows + i * table.size));
    }
    g_autofree char *text = wb_json_print(root);
    return g_strconcat(text, "\n", NULL);
}
