/* Edits of a tree by JSON Pointer (RFC 6901). */
#include "json.h"
#include "store_fail.h"
#include <stdlib.h>
#include <string.h>

#define NO_MEMBER "names no member; a JSON Pointer such as /loads/0/name is needed"

void wb_json_append_step(GString *pointer, const char *step)
{
    g_string_append_c(pointer, '/');
    for (const char *c = step; *c; c++) {
        if (*c == '~')
            g_string_append(pointer, "~0");
        else if (*c == '/')
            g_string_append(pointer, "~1");
        else
            g_string_append_c(pointer, *c);
    }
}

static gboolean fail(GError **error, const char *pointer, const char *problem)
{
    g_autofree char *place = wb_json_shorten(pointer);
    wb_store_fail(error, WB_STORE_ERROR_VALUE, "The place \"%s\" %s.", place, problem);
    return FALSE;
}

/* Steps of a pointer, unescaped; NULL when it is none. (transfer full) */
static char **split(const char *pointer)
{
    if (*pointer == '\0')
        return g_new0(char *, 1);
    if (*pointer != '/')
        return NULL;
    char **steps = g_strsplit(pointer + 1, "/", -1);
    for (char **step = steps; *step; step++) {
        char *to = *step;
        for (const char *from = *step; *from; from++) {
            if (from[0] == '~' && from[1] != '0' && from[1] != '1') {
                g_strfreev(steps);
                return NULL;
            }
            *to++ = *from != '~' ? *from : *++from == '0' ? '~' : '/';
        }
        *to = '\0';
    }
    return steps;
}

/* -1: not an index of this pointer syntax (digits, no leading zero). */
static int parse_index(const char *step)
{
    size_t n = strlen(step);
    if (n == 0 || n > 7 || strspn(step, "0123456789") != n || (n > 1 && *step == '0'))
        return -1;
    return atoi(step);
}

static cJSON *child_at(cJSON *parent, const char *step)
{
    if (cJSON_IsObject(parent))
        return cJSON_GetObjectItemCaseSensitive(parent, step);
    int index = parse_index(step);
    return cJSON_IsArray(parent) && index >= 0 ? cJSON_GetArrayItem(parent, index) : NULL;
}

cJSON *wb_json_at(cJSON *tree, const char *pointer)
{
    g_auto(GStrv) steps = split(pointer);
    if (!steps)
        return NULL;
    for (char **step = steps; tree && *step; step++)
        tree = child_at(tree, *step);
    return tree;
}

/* Parent of the last step; *last points into *steps. */
static cJSON *parent_of(cJSON *tree, const char *pointer, char ***steps, const char **last,
                        GError **error)
{
    *steps = split(pointer);
    if (!*steps || !**steps) {
        fail(error, pointer, NO_MEMBER);
        return NULL;
    }
    char **step = *steps;
    for (; step[1]; step++)
        if (!(tree = child_at(tree, *step))) {
            fail(error, pointer, "does not exist");
            return NULL;
        }
    *last = *step;
    return tree;
}

/* Makes the missing objects above a pointer's last step. */
static gboolean make_parents(cJSON *tree, const char *pointer, GError **error)
{
    g_auto(GStrv) steps = split(pointer);
    if (!steps || !steps[0])
        return fail(error, pointer, NO_MEMBER);
    for (char **step = steps; step[1]; step++) {
        cJSON *child = child_at(tree, *step);
        if (!child && !cJSON_IsObject(tree))
            return fail(error, pointer, "does not exist");
        if (!child)
            child = cJSON_AddObjectToObject(tree, *step);
        tree = child;
    }
    return TRUE;
}

static gboolean set_in(cJSON *parent, const char *last, const char *pointer, cJSON *value,
                       GError **error)
{
    cJSON *old = child_at(parent, last);
    if (cJSON_IsObject(parent)) {
        if (old)
            cJSON_ReplaceItemInObjectCaseSensitive(parent, last, value);
        else
            cJSON_AddItemToObject(parent, last, value);
        return TRUE;
    }
    if (!old) {
        cJSON_Delete(value);
        return fail(error, pointer, "does not exist");
    }
    cJSON_ReplaceItemViaPointer(parent, old, value);
    return TRUE;
}

gboolean wb_json_set(cJSON *tree, const char *pointer, cJSON *value, GError **error)
{
    g_auto(GStrv) steps = NULL;
    const char *last;
    cJSON *parent = NULL;
    if (make_parents(tree, pointer, error))
        parent = parent_of(tree, pointer, &steps, &last, error);
    if (parent)
        return set_in(parent, last, pointer, value, error);
    cJSON_Delete(value);
    return FALSE;
}

/* cJSON_InsertItemInArray of Debian 12 refuses every place but the first: append, then move what is
 * to follow behind the new item. */
static void insert_at(cJSON *array, int index, cJSON *value)
{
    cJSON *item = cJSON_GetArrayItem(array, index);
    cJSON_AddItemToArray(array, value);
    while (item && item != value) {
        cJSON *next = item->next;
        cJSON_AddItemToArray(array, cJSON_DetachItemViaPointer(array, item));
        item = next;
    }
}

gboolean wb_json_insert(cJSON *tree, const char *pointer, cJSON *value, GError **error)
{
    g_autoptr(WbJsonTree) owned = value;
    g_auto(GStrv) steps = NULL;
    const char *last;
    cJSON *parent = parent_of(tree, pointer, &steps, &last, error);
    if (!parent)
        return FALSE;
    if (!cJSON_IsArray(parent))
        return fail(error, pointer, "is not in a list");
    int size = cJSON_GetArraySize(parent);
    int index = strcmp(last, "-") == 0 ? size : parse_index(last);
    if (index < 0 || index > size)
        return fail(error, pointer, "is beyond the end of its list");
    insert_at(parent, index, g_steal_pointer(&owned));
    return TRUE;
}

gboolean wb_json_remove(cJSON *tree, const char *pointer, GError **error)
{
    g_auto(GStrv) steps = NULL;
    const char *last;
    cJSON *parent = parent_of(tree, pointer, &steps, &last, error);
    if (!parent)
        return FALSE;
    cJSON *old = child_at(parent, last);
    if (!old)
        return fail(error, pointer, "does not exist");
    cJSON_Delete(cJSON_DetachItemViaPointer(parent, old));
    return TRUE;
}

gboolean wb_json_move(cJSON *tree, const char *array_pointer, int from, int to, GError **error)
{
    cJSON *array = wb_json_at(tree, array_pointer);
    if (!cJSON_IsArray(array))
        return fail(error, array_pointer, "is not a list");
    int size = cJSON_GetArraySize(array);
    if (from < 0 || from >= size || to < 0 || to >= size)
        return fail(error, array_pointer, "has no such item to move");
    insert_at(array, to, cJSON_DetachItemFromArray(array, from));
    return TRUE;
}
