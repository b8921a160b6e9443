#include "json_asked.h"
#include "edit_distance.h"
#include <string.h>

#define NEAR_MOST 2u

WbJsonAsked *wb_json_asked_new(void)
{
    return g_hash_table_new_full(NULL, NULL, NULL, (GDestroyNotify)g_ptr_array_unref);
}

void wb_json_asked_add(WbJsonAsked *asked, const cJSON *object, const char *key)
{
    GPtrArray *keys = g_hash_table_lookup(asked, object);
    if (!keys) {
        keys = g_ptr_array_new();
        g_hash_table_insert(asked, (gpointer)object, keys);
    }
    g_ptr_array_add(keys, (gpointer)key);
}

static gboolean holds(const GPtrArray *keys, const char *key)
{
    for (guint i = 0; i < keys->len; i++)
        if (strcmp(keys->pdata[i], key) == 0)
            return TRUE;
    return FALSE;
}

/* Slips of the finger, and a name without its unit: "nocct" and "noct" are near noct_c. Of a word
 * of three letters two changes leave nothing. */
static guint distance(const char *written, const char *key)
{
    guint most = strlen(written) > 3 ? NEAR_MOST : 1;
    guint whole = wb_edit_distance(written, key, most);
    const char *unit = strrchr(key, '_');
    if (unit) {
        g_autofree char *bare = g_strndup(key, (gsize)(unit - key));
        whole = MIN(whole, wb_edit_distance(written, bare, most));
    }
    return whole <= most ? whole : NEAR_MOST + 1;
}

static const char *nearest_key(const GPtrArray *keys, const cJSON *member, const cJSON *object)
{
    const char *nearest = NULL;
    guint least = NEAR_MOST + 1;
    for (guint i = 0; i < keys->len; i++) {
        const char *key = keys->pdata[i];
        guint changes = distance(member->string, key);
        if (changes < least && !cJSON_GetObjectItemCaseSensitive(object, key)) {
            least = changes;
            nearest = key;
        }
    }
    return nearest;
}

static gboolean unasked(const GPtrArray *keys, const cJSON *member)
{
    return !g_str_has_prefix(member->string, "//") && !holds(keys, member->string);
}

static void add_rest(WbJsonAsked *asked, const cJSON *item, GString *pointer, GPtrArray *rest)
{
    const GPtrArray *keys = cJSON_IsObject(item) ? g_hash_table_lookup(asked, item) : NULL;
    if (!keys && !cJSON_IsArray(item))
        return;
    gsize length = pointer->len;
    int index = 0;
    for (const cJSON *child = item->child; child; child = child->next, index++) {
        if (keys)
            wb_json_append_step(pointer, child->string);
        else
            g_string_append_printf(pointer, "/%d", index);
        if (!keys || holds(keys, child->string)) {
            add_rest(asked, child, pointer, rest);
        } else if (unasked(keys, child)) {
            WbNotRead *member = g_new(WbNotRead, 1);
            member->pointer = g_strdup(pointer->str);
            member->nearest = g_strdup(nearest_key(keys, child, item));
            g_ptr_array_add(rest, member);
        }
        g_string_truncate(pointer, length);
    }
}

GPtrArray *wb_json_asked_rest(WbJsonAsked *asked, const cJSON *tree)
{
    GPtrArray *rest = g_ptr_array_new_with_free_func((GDestroyNotify)wb_not_read_free);
    g_autoptr(GString) pointer = g_string_new(NULL);
    add_rest(asked, tree, pointer, rest);
    return rest;
}

const char *wb_json_asked_similar(WbJsonAsked *asked, const cJSON *object, const char *key)
{
    const GPtrArray *keys = g_hash_table_lookup(asked, object);
    const char *similar = NULL;
    guint least = NEAR_MOST + 1;
    for (const cJSON *member = object->child; keys && member; member = member->next) {
        guint changes = unasked(keys, member) ? distance(member->string, key) : NEAR_MOST + 1;
        if (changes < least) {
            least = changes;
            similar = member->string;
        }
    }
    return similar;
}

void wb_not_read_free(WbNotRead *member)
{
    g_free(member->pointer);
    g_free(member->nearest);
    g_free(member);
}

char *wb_not_read_text(const WbNotRead *member)
{
    g_autofree char *place = wb_json_shorten(member->pointer);
    return member->nearest ? g_strdup_printf("%s; did you mean %s?", place, member->nearest)
                           : g_strdup(place);
}
