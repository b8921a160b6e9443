/* Edits give a new brief file: a copy of the tree is edited and read again. */
#include "brief_document.h"

static cJSON *copy_tree(const WbBriefFile *file)
{
    return cJSON_Duplicate(wb_brief_document_tree(file), TRUE);
}

/* Takes the tree. */
static WbBriefFile *finish(const WbBriefFile *file, cJSON *tree, gboolean edited, GError **error)
{
    if (edited)
        return wb_brief_document_take(tree, file, error);
    cJSON_Delete(tree);
    return NULL;
}

static cJSON *parse_value(const char *json, const char *pointer, GError **error)
{
    g_autofree char *place = wb_json_shorten(pointer);
    g_autofree char *name = g_strdup_printf("The new value of %s", place);
    return wb_json_parse(json, -1, name, error);
}

WbBriefFile *wb_brief_file_set(const WbBriefFile *file, const char *pointer, const char *json,
                               GError **error)
{
    cJSON *value = parse_value(json, pointer, error);
    if (!value)
        return NULL;
    cJSON *tree = copy_tree(file);
    return finish(file, tree, wb_json_set(tree, pointer, value, error), error);
}

WbBriefFile *wb_brief_file_insert(const WbBriefFile *file, const char *pointer, const char *json,
                                  GError **error)
{
    cJSON *value = parse_value(json, pointer, error);
    if (!value)
        return NULL;
    cJSON *tree = copy_tree(file);
    return finish(file, tree, wb_json_insert(tree, pointer, value, error), error);
}

WbBriefFile *wb_brief_file_remove(const WbBriefFile *file, const char *pointer, GError **error)
{
    cJSON *tree = copy_tree(file);
    return finish(file, tree, wb_json_remove(tree, pointer, error), error);
}

WbBriefFile *wb_brief_file_move(const WbBriefFile *file, const char *array_pointer, int from,
                                int to, GError **error)
{
    cJSON *tree = copy_tree(file);
    return finish(file, tree, wb_json_move(tree, array_pointer, from, to, error), error);
}

char *wb_brief_file_get(const WbBriefFile *file, const char *pointer)
{
    const cJSON *found = wb_json_at((cJSON *)wb_brief_document_tree(file), pointer);
    return found ? wb_json_print(found) : NULL;
}
