#include "exchange_read.h"
#include <string.h>

#define MOST_ROWS 100000

/* Where and into what the rows of one list go. */
typedef struct {
    WbExchange *exchange;
    WbTableId id;
    WbTable table;
} Filling;

static void set_missing(const WbField *field, void *record)
{
    void *at = wb_field_at(field, record);
    if (field->type == WB_FIELD_NUMBER)
        *(double *)at = WB_MISSING;
    if (field->type == WB_FIELD_TEXT || field->type == WB_FIELD_WORDS)
        *(const char **)at = "";
}

static bool read_integer(const cJSON *item, int64_t *to)
{
    double value = cJSON_IsNumber(item) ? item->valuedouble : NAN;
    if (!(fabs(value) <= WB_JSON_NUMBER_MOST) || value != floor(value))
        return false;
    *to = (int64_t)value;
    return true;
}

static bool read_choice(const WbField *field, const cJSON *item, int64_t *to)
{
    if (cJSON_IsString(item))
        for (*to = 0; field->choices[*to]; ++*to)
            if (strcmp(field->choices[*to], item->valuestring) == 0)
                return true;
    return false;
}

static bool read_words(const cJSON *item, GStringChunk *texts, const char **to)
{
    if (!cJSON_IsArray(item))
        return false;
    g_autoptr(GString) words = g_string_new(NULL);
    for (const cJSON *word = item->child; word; word = word->next) {
        if (!cJSON_IsString(word) || *word->valuestring == '\0')
            return false;
        g_string_append_printf(words, "%s%s", words->len ? " " : "", word->valuestring);
    }
    *to = g_string_chunk_insert_const(texts, words->str);
    return true;
}

static bool read_curve(const cJSON *item, WbCurve *curve)
{
    if (!cJSON_IsArray(item) || cJSON_GetArraySize(item) > WB_MAX_POINTS)
        return false;
    for (const cJSON *point = item->child; point; point = point->next) {
        if (!cJSON_IsArray(point) || cJSON_GetArraySize(point) != 2 ||
            !cJSON_IsNumber(point->child) || !cJSON_IsNumber(point->child->next))
            return false;
        curve->point[curve->n++] =
            (WbPoint){point->child->valuedouble, point->child->next->valuedouble};
    }
    return true;
}

/* false: of another type. */
static bool read_value(const WbField *field, const cJSON *item, GStringChunk *texts, void *at)
{
    switch (field->type) {
    case WB_FIELD_NUMBER:
        *(double *)at = cJSON_IsNumber(item) ? item->valuedouble : WB_MISSING;
        return cJSON_IsNumber(item);
    case WB_FIELD_INTEGER:
        return read_integer(item, at);
    case WB_FIELD_FLAG:
        *(bool *)at = cJSON_IsTrue(item);
        return cJSON_IsBool(item);
    case WB_FIELD_CHOICE:
        return read_choice(field, item, at);
    case WB_FIELD_WORDS:
        return read_words(item, texts, at);
    case WB_FIELD_CURVE:
        return read_curve(item, at);
    case WB_FIELD_TEXT:
        break;
    }
    *(const char **)at = cJSON_IsString(item) ? item->valuestring : "";
    return cJSON_IsString(item);
}

static void read_field(const Filling *filling, const WbJson *row, const WbField *field,
                       void *record)
{
    WbJson at = wb_json_member(row, field->key);
    set_missing(field, record);
    bool absent = !wb_json_given(&at) || cJSON_IsNull(at.item);
    if (absent && field->may_be_missing)
        return;
    if (!absent &&
        read_value(field, at.item, filling->exchange->texts, wb_field_at(field, record)) &&
        wb_field_ok(field, record))
        return;
    g_autofree char *accepted = wb_field_accepted(field);
    wb_json_refuse(&at, field->may_be_missing ? "%s, or null" : "%s", accepted);
}

static char *key_text(const WbTable *table, const void *record)
{
    if (table->n_keys == 1)
        return g_strdup(wb_table_key(table, record, 0));
    return g_strdup_printf("%s %s %s", wb_table_key(table, record, 0),
                           wb_table_key(table, record, 1), wb_table_key(table, record, 2));
}

/* Part ids are unique across kinds. */
static bool part_id_taken(const WbExchange *exchange, const char *id)
{
    for (WbTableId t = WB_TABLE_PART; t < WB_TABLE_OFFER; t++)
        if (g_hash_table_contains(exchange->ids[t], id))
            return true;
    return false;
}

static void claim_key(const Filling *filling, const WbJson *row, const void *record)
{
    GHashTable *ids = filling->exchange->ids[filling->id];
    char *key = key_text(&filling->table, record);
    bool taken = wb_table_is_part(filling->id) ? part_id_taken(filling->exchange, key)
                                               : g_hash_table_contains(ids, key);
    g_hash_table_add(ids, key);
    if (!taken)
        return;
    WbJson at = wb_json_member(row, filling->table.keys[0]);
    if (filling->id == WB_TABLE_OFFER)
        wb_json_refuse(&at, "a part with one offer only by this shop on this date");
    else
        wb_json_refuse(&at, "an id that stands in the file once");
}

static void check_row(const Filling *filling, const WbJson *row, const void *record)
{
    g_autofree char *accepted = NULL;
    const WbField *field = wb_row_conflict(&filling->table, record, &accepted);
    if (!field)
        return;
    WbJson at = wb_json_member(row, field->key);
    wb_json_refuse(&at, "%s", accepted);
}

static void read_row(const Filling *filling, const WbJson *row)
{
    if (!wb_json_object(row))
        return;
    GArray *rows = filling->exchange->rows[filling->id];
    g_array_set_size(rows, rows->len + 1);
    void *record = rows->data + (rows->len - 1) * filling->table.size;
    for (size_t i = 0; i < filling->table.n_fields; i++)
        read_field(filling, row, &filling->table.fields[i], record);
    if (!row->reader->error)
        check_row(filling, row, record);
    if (!row->reader->error)
        claim_key(filling, row, record);
}

static void read_list(WbExchange *exchange, WbTableId id, const WbJson *root)
{
    Filling filling = {exchange, id, wb_table(id)};
    WbJson list = wb_json_member(root, filling.table.list);
    if (!wb_json_given(&list))
        return;
    wb_json_list(&list, 0, MOST_ROWS);
    for (WbJson row = wb_json_first(&list); row.item && !root->reader->error;
         row = wb_json_next(&row))
        read_row(&filling, &row);
}

/* Takes the tree. */
static WbExchange *exchange_new(cJSON *tree, const char *name)
{
    WbExchange *exchange = g_new0(WbExchange, 1);
    exchange->name = g_strdup(name);
    exchange->tree = tree;
    exchange->texts = g_string_chunk_new(1024);
    for (WbTableId id = 0; id < WB_N_TABLES; id++) {
        exchange->rows[id] = g_array_new(FALSE, TRUE, (guint)wb_table(id).size);
        exchange->ids[id] = g_hash_table_new_full(g_str_hash, g_str_equal, g_free, NULL);
    }
    return exchange;
}

WbExchange *wb_exchange_read(const char *text, gssize length, const char *name, GError **error)
{
    cJSON *tree = wb_json_parse(text, length, name, error);
    if (!tree)
        return NULL;
    g_autoptr(WbExchange) exchange = exchange_new(tree, name);
    WbJsonReader reader = wb_json_begin(exchange->name);
    WbJson root = wb_json_root(&reader, tree);
    wb_json_check_format(&root, WB_CATALOGUE_FORMAT, WB_CATALOGUE_VERSION);
    for (WbTableId id = 0; id < WB_N_TABLES; id++)
        read_list(exchange, id, &root);
    return wb_json_end(&reader, tree, &exchange->not_read, error) ? g_steal_pointer(&exchange)
                                                                  : NULL;
}

void wb_exchange_free(WbExchange *exchange)
{
    for (WbTableId id = 0; id < WB_N_TABLES; id++) {
        g_array_unref(exchange->rows[id]);
        g_hash_table_unref(exchange->ids[id]);
    }
    g_string_chunk_free(exchange->texts);
    g_clear_pointer(&exchange->not_read, g_ptr_array_unref);
    cJSON_Delete(exchange->tree);
    g_free(exchange->name);
    g_free(exchange);
}
