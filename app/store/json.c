#include "json.h"
#include "store_fail.h"
#include "text_file.h"
#include <string.h>

/* Walks the tree with the pointer of where it is, so that a duplicate can be named. */
static gboolean check_duplicates(const cJSON *item, GString *pointer, const char *name,
                                 GError **error)
{
    g_autoptr(GHashTable) seen = NULL;
    if (cJSON_IsObject(item))
        seen = g_hash_table_new(g_str_hash, g_str_equal);
    gsize length = pointer->len;
    int index = 0;
    for (const cJSON *child = item->child; child; child = child->next, index++) {
        if (seen)
            wb_json_append_step(pointer, child->string);
        else
            g_string_append_printf(pointer, "/%d", index);
        if (seen && !g_hash_table_add(seen, child->string)) {
            g_autofree char *place = wb_json_shorten(pointer->str);
            wb_store_fail(error, WB_STORE_ERROR_SYNTAX,
                          "%s: the member %s stands twice; once is accepted.", name, place);
            return FALSE;
        }
        if (child->child && !check_duplicates(child, pointer, name, error))
            return FALSE;
        g_string_truncate(pointer, length);
    }
    return TRUE;
}

static const char *skip_byte_order_mark(const char *text, gsize *length)
{
    if (*length < 3 || memcmp(text, "\xEF\xBB\xBF", 3) != 0)
        return text;
    *length -= 3;
    return text + 3;
}

cJSON *wb_json_parse(const char *text, gssize length, const char *name, GError **error)
{
    gsize n = length < 0 ? strlen(text) : (gsize)length;
    if (n > WB_TEXT_FILE_MOST) {
        wb_store_fail(error, WB_STORE_ERROR_FILE,
                      "%s is larger than 16 MiB, the most that is accepted.", name);
        return NULL;
    }
    text = skip_byte_order_mark(text, &n);
    if (!wb_json_scan(text, n, name, error))
        return NULL;
    g_autoptr(WbJsonTree) tree = cJSON_ParseWithLength(text, n);
    if (!tree) {
        wb_store_fail(error, WB_STORE_ERROR_SYNTAX, "%s cannot be read as JSON: memory is short.",
                      name);
        return NULL;
    }
    g_autoptr(GString) pointer = g_string_new(NULL);
    return check_duplicates(tree, pointer, name, error) ? g_steal_pointer(&tree) : NULL;
}

char *wb_json_number_text(double value)
{
    char text[G_ASCII_DTOSTR_BUF_SIZE];
    for (int digits = 15; digits <= 17; digits++) {
        char format[8];
        g_snprintf(format, sizeof format, "%%.%dg", digits);
        g_ascii_formatd(text, sizeof text, format, value);
        if (g_ascii_strtod(text, NULL) == value)
            break;
    }
    return g_strdup(text);
}

/* cJSON writes 15 digits and calls neighbours of 1e-16 equal: give it the exact text instead. */
static void write_numbers_out(cJSON *item)
{
    if (cJSON_IsNumber(item)) {
        g_autofree char *text = wb_json_number_text(item->valuedouble);
        cJSON *raw = cJSON_CreateRaw(text);
        item->type = cJSON_Raw;
        item->valuestring = raw->valuestring;
        raw->valuestring = NULL;
        cJSON_Delete(raw);
    }
    for (cJSON *child = item->child; child; child = child->next)
        write_numbers_out(child);
}

char *wb_json_print(const cJSON *tree)
{
    g_autoptr(WbJsonTree) copy = cJSON_Duplicate(tree, TRUE);
    write_numbers_out(copy);
    char *text = cJSON_Print(copy);
    char *owned = g_strdup(text);
    cJSON_free(text);
    return owned;
}

char *wb_json_shorten(const char *text)
{
    enum { MOST = 80 };
    g_autofree char *valid = g_utf8_make_valid(text, -1);
    for (char *c = valid; *c; c++)
        if (g_ascii_iscntrl(*c))
            *c = ' ';
    glong length = g_utf8_strlen(valid, -1);
    char *start = g_utf8_substring(valid, 0, MIN(length, MOST));
    if (length <= MOST)
        return start;
    char *shortened = g_strdup_printf("%s... (%ld characters)", start, length);
    g_free(start);
    return shortened;
}

char *wb_json_excerpt(const cJSON *item)
{
    if (cJSON_IsNumber(item))
        return wb_json_number_text(item->valuedouble);
    if (cJSON_IsArray(item)) {
        char *text = cJSON_PrintUnformatted(item);
        g_autofree char *shortened = wb_json_shorten(text);
        cJSON_free(text);
        return g_strdup_printf("the list %s", shortened);
    }
    if (cJSON_IsObject(item))
        return g_strdup("an object");
    if (!cJSON_IsString(item))
        return g_strdup(cJSON_IsNull(item) ? "null" : cJSON_IsTrue(item) ? "true" : "false");
    g_autofree char *shortened = wb_json_shorten(item->valuestring);
    return g_strdup_printf("\"%s\"", shortened);
}
