#include "brief_file.h"
#include "brief_document.h"
#include "brief_hours.h"
#include "brief_read.h"
#include "embedded.h"
#include "store_fail.h"
#include "text_file.h"

struct WbBriefFile {
    gatomicrefcount references;
    char *name;   /* as it stands in messages */
    char *folder; /* where its relative paths start, NULL: the current folder */
    cJSON *tree;
    WbBrief brief;      /* texts borrowed from tree, its hours from `hours` */
    WbBriefHours hours; /* the hourly file it names */
    GPtrArray *not_read;
};

/* Takes the tree. `before`: whose hourly file may be taken over, or NULL. */
static WbBriefFile *make(cJSON *tree, const char *name, const char *folder,
                         const WbBriefFile *before, GError **error)
{
    WbBrief brief;
    GPtrArray *not_read;
    if (!wb_brief_read(tree, name, &brief, &not_read, error)) {
        cJSON_Delete(tree);
        return NULL;
    }
    WbBriefFile *file = g_new0(WbBriefFile, 1);
    g_atomic_ref_count_init(&file->references);
    file->name = g_strdup(name);
    file->folder = g_strdup(folder);
    file->tree = tree;
    file->brief = brief;
    file->not_read = not_read;
    wb_brief_hours_open(&file->hours, tree, folder, &brief.site.place,
                        before ? &before->hours : NULL);
    if (file->hours.file)
        file->brief.site.hours = wb_hours_file_hours(file->hours.file);
    return file;
}

WbBriefFile *wb_brief_document_take(cJSON *tree, const WbBriefFile *before, GError **error)
{
    return make(tree, before->name, before->folder, before, error);
}

const cJSON *wb_brief_document_tree(const WbBriefFile *file)
{
    return file->tree;
}

const char *wb_brief_document_name(const WbBriefFile *file)
{
    return file->name;
}

WbBriefFile *wb_brief_file_parse(const char *text, gssize length, const char *name, GError **error)
{
    cJSON *tree = wb_json_parse(text, length, name, error);
    return tree ? make(tree, name, NULL, NULL, error) : NULL;
}

/* Of a file: absolute, so that it stays the same wherever the program goes. */
static char *folder_of(const char *path)
{
    g_autofree char *whole = g_canonicalize_filename(path, NULL);
    return g_path_get_dirname(whole);
}

WbBriefFile *wb_brief_file_read(const char *path, GError **error)
{
    gsize length;
    g_autofree char *text = wb_text_file_read(path, &length, error);
    cJSON *tree = text ? wb_json_parse(text, (gssize)length, path, error) : NULL;
    g_autofree char *folder = folder_of(path);
    return tree ? make(tree, path, folder, NULL, error) : NULL;
}

WbBriefFile *wb_brief_file_at(const WbBriefFile *file, const char *path)
{
    g_autofree char *folder = folder_of(path);
    WbBriefFile *moved = make(cJSON_Duplicate(file->tree, TRUE), path, folder, file, NULL);
    g_assert(moved); /* what was valid there is valid here */
    return moved;
}

/* What is compiled in has passed the tests: an error here is the program's own. */
static WbBriefFile *parse_built_in(const char *text, gsize length, const char *name)
{
    g_autoptr(GError) error = NULL;
    WbBriefFile *file = wb_brief_file_parse(text, (gssize)length, name, &error);
    if (!file)
        g_error("%s", error->message);
    return file;
}

WbBriefFile *wb_brief_file_new(void)
{
    return parse_built_in(wb_embedded_new_brief_json, wb_embedded_new_brief_json_length,
                          "new brief");
}

WbBriefFile *wb_brief_file_demo(void)
{
    return parse_built_in(wb_embedded_demo_brief_json, wb_embedded_demo_brief_json_length,
                          "demo brief");
}

WbBriefFile *wb_brief_file_ref(WbBriefFile *file)
{
    g_atomic_ref_count_inc(&file->references);
    return file;
}

void wb_brief_file_unref(WbBriefFile *file)
{
    if (!g_atomic_ref_count_dec(&file->references))
        return;
    wb_brief_clear(&file->brief);
    wb_brief_hours_clear(&file->hours);
    g_ptr_array_unref(file->not_read);
    cJSON_Delete(file->tree);
    g_free(file->folder);
    g_free(file->name);
    g_free(file);
}

char *wb_brief_file_text(const WbBriefFile *file)
{
    g_autofree char *text = wb_json_print(file->tree);
    return g_strconcat(text, "\n", NULL);
}

char *wb_brief_file_text_without(const WbBriefFile *file, const char *const *members)
{
    cJSON *tree = cJSON_Duplicate(file->tree, TRUE);
    for (; *members; members++)
        cJSON_DeleteItemFromObjectCaseSensitive(tree, *members);
    char *text = wb_json_print(tree);
    cJSON_Delete(tree);
    return text;
}

gboolean wb_brief_file_write(const WbBriefFile *file, const char *path, GError **error)
{
    g_autofree char *text = wb_brief_file_text(file);
    return wb_text_file_write(path, text, error);
}

const GPtrArray *wb_brief_file_not_read(const WbBriefFile *file)
{
    return file->not_read;
}

const WbHoursFile *wb_brief_file_hours(const WbBriefFile *file)
{
    return file->hours.file;
}

const char *wb_brief_file_hours_path(const WbBriefFile *file)
{
    return file->hours.path;
}

const char *wb_brief_file_hours_problem(const WbBriefFile *file)
{
    return file->hours.problem ? file->hours.problem->message : NULL;
}

gboolean wb_brief_file_check_hours(const WbBriefFile *file, GError **error)
{
    const GError *problem = file->hours.problem;
    if (!problem)
        return TRUE;
    return wb_store_fail(error, problem->code, "%s: /site/weather/hourly_file: %s", file->name,
                         problem->message);
}

const WbBrief *wb_brief_file_brief(const WbBriefFile *file)
{
    return &file->brief;
}
