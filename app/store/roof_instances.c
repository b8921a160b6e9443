#include "roof_instances.h"
#include "roof_instances_gather.h"
#include "store_fail.h"
#include "text_file.h"
#include <string.h>

static void free_instance(gpointer data)
{
    WbRoofInstance *instance = data;
    g_free(instance->name);
    g_free((WbObstacle *)instance->roof.obstacles);
    g_free(instance->items);
    g_free(instance);
}

static gboolean is_blank(char c)
{
    return c == ' ' || c == '\t';
}

gboolean wb_instances_next(WbHoursText *text, WbCell *line)
{
    while (wb_hours_text_next(text, line)) {
        while (line->n > 0 && is_blank(*line->text))
            *line = (WbCell){line->text + 1, line->n - 1};
        while (line->n > 0 && is_blank(line->text[line->n - 1]))
            line->n--;
        if (line->n > 0 && *line->text != '#')
            return TRUE;
    }
    return FALSE;
}

WbRoofInstance *wb_instances_add(WbRoofInstances *to, const WbHoursText *text, char *name,
                                 GError **error)
{
    WbRoofInstance *instance = g_new0(WbRoofInstance, 1);
    instance->name = name;
    instance->line = text->line;
    g_ptr_array_add(to->each, instance);
    if (to->each->len <= WB_ROOF_INSTANCES_MOST)
        return instance;
    wb_store_fail(error, WB_STORE_ERROR_VALUE,
                  "%s, line %d begins instance %u; 1 to %d of them are accepted in a file.",
                  text->name, text->line, to->each->len, WB_ROOF_INSTANCES_MOST);
    return NULL;
}

static gboolean check_is_text(const char *text, gsize length, const char *name, GError **error)
{
    const char *end;
    if (g_utf8_validate(text, (gssize)length, &end))
        return TRUE;
    int line = 1;
    for (const char *c = text; c < end; c++)
        line += *c == '\n';
    return wb_store_fail(error, WB_STORE_ERROR_FORMAT,
                         "%s, line %d holds %s; a file of instances is plain text in UTF-8.", name,
                         line, *end == '\0' ? "a NUL byte" : "bytes that are no UTF-8");
}

/* Names of the plain form hold no comma, a line of column names needs them. */
static gboolean is_csv(WbHoursText text)
{
    WbCell line;
    return wb_instances_next(&text, &line) && memchr(line.text, ',', line.n) != NULL;
}

/* text[length] is NUL. */
static WbRoofInstances *parse(const char *text, gsize length, const char *name, GError **error)
{
    static const char mark[] = "\xef\xbb\xbf"; /* some programs begin UTF-8 with it */
    WbHoursText lines = {.name = name, .at = text, .end = text + length};
    if (!check_is_text(text, length, name, error))
        return NULL;
    if (g_str_has_prefix(text, mark))
        lines.at += strlen(mark);
    g_autoptr(WbRoofInstances) instances = g_new0(WbRoofInstances, 1);
    instances->each = g_ptr_array_new_with_free_func(free_instance);
    instances->not_read = g_ptr_array_new_with_free_func(g_free);
    gboolean read = is_csv(lines) ? wb_instances_read_pallets(&lines, instances, error)
                                  : wb_instances_read_plain(&lines, instances, error);
    if (!read)
        return NULL;
    if (instances->each->len == 0) {
        wb_store_fail(error, WB_STORE_ERROR_FORMAT,
                      "%s holds no instance; a line \"name W H n_obstacles n_sizes most turns\" "
                      "begins one, or a row below the column names L,W,l,w is one.",
                      name);
        return NULL;
    }
    return g_steal_pointer(&instances);
}

WbRoofInstances *wb_roof_instances_parse(const char *text, gssize length, const char *name,
                                         GError **error)
{
    gsize n = length < 0 ? strlen(text) : (gsize)length;
    if (n > WB_TEXT_FILE_MOST) {
        wb_store_fail(error, WB_STORE_ERROR_FILE,
                      "%s is larger than %d MiB, the most that is accepted.", name,
                      WB_TEXT_FILE_MOST / (1024 * 1024));
        return NULL;
    }
    g_autofree char *copy = g_malloc(n + 1);
    memcpy(copy, text, n);
    copy[n] = '\0';
    return parse(copy, n, name, error);
}

WbRoofInstances *wb_roof_instances_read(const char *path, GError **error)
{
    gsize length;
    g_autofree char *text = wb_text_file_read(path, &length, error);
    return text ? parse(text, length, path, error) : NULL;
}

void wb_roof_instances_free(WbRoofInstances *instances)
{
    g_ptr_array_unref(instances->each);
    g_ptr_array_unref(instances->not_read);
    g_free(instances);
}

guint wb_roof_instances_count(const WbRoofInstances *instances)
{
    return instances->each->len;
}

const WbRoofInstance *wb_roof_instances_get(const WbRoofInstances *instances, guint i)
{
    g_assert(i < instances->each->len);
    return instances->each->pdata[i];
}

const GPtrArray *wb_roof_instances_not_read(const WbRoofInstances *instances)
{
    return instances->not_read;
}
