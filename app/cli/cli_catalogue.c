/* catalogue: export, import, check. */
#include "cli_job.h"
#include "cli_json.h"
#include "cli_not_read.h"
#include "cli_table.h"
#include "exchange.h"
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>

#define SQLITE_HEADER "SQLite format 3"

/* An export in the place of someone's database would lose it. */
static gboolean is_database(const char *path)
{
    char start[sizeof SQLITE_HEADER] = {0};
    FILE *file = g_fopen(path, "rb");
    if (file == NULL)
        return FALSE;
    size_t n = fread(start, 1, sizeof start, file);
    fclose(file);
    return n == sizeof start && memcmp(start, SQLITE_HEADER, sizeof start) == 0;
}

static int write_export(const char *path, const char *text)
{
    GError *error = NULL;
    if (strcmp(path, "-") == 0)
        return wb_cli_print(g_strdup(text));
    if (g_file_test(path, G_FILE_TEST_IS_DIR))
        return wb_cli_fail(WB_EXIT_FILE, _("“%s” is a folder; name a file for the export."), path);
    if (is_database(path))
        return wb_cli_fail(WB_EXIT_FILE,
                           _("“%s” is a database and was left as it is; name another file for the "
                             "export."),
                           path);
    if (g_file_set_contents(path, text, -1, &error))
        return WB_EXIT_DONE;
    /* GLib names its temporary file too; only the system's reason behind it helps. */
    const char *colon = strrchr(error->message, ':');
    int code = wb_cli_fail(WB_EXIT_FILE, _("“%s” cannot be written: %s."), path,
                           colon != NULL ? colon + 2 : error->message);
    g_error_free(error);
    return code;
}

static void counts_json(WbJsonOut *json, const WbCatalogue *catalogue)
{
    wb_out_object(json, "counts");
    wb_out_count(json, "panels", catalogue->n_panels);
    wb_out_count(json, "controllers", catalogue->n_controllers);
    wb_out_count(json, "storage", catalogue->n_storage);
    wb_out_count(json, "inverters", catalogue->n_inverters);
    wb_out_count(json, "dcdc", catalogue->n_dcdc);
    wb_out_count(json, "conductors", catalogue->n_conductors);
    wb_out_count(json, "fuses", catalogue->n_fuses);
    wb_out_count(json, "fittings", catalogue->n_fittings);
    wb_out_count(json, "chemistries", catalogue->n_chemistries);
    wb_out_count(json, "shops", catalogue->n_shops);
    wb_out_count(json, "offers", catalogue->n_offers);
    wb_out_end_object(json);
}

static char *counts_text(const char *path, const WbCatalogue *catalogue)
{
    g_autofree char *sentence = g_strdup_printf(
        _("“%s” holds, by kind: panels %zu, controllers %zu, storage %zu, inverters %zu, DC-DC "
          "chargers %zu, conductors %zu, fuses %zu, fittings %zu, chemistries %zu, shops %zu, "
          "offers %zu."),
        path, catalogue->n_panels, catalogue->n_controllers, catalogue->n_storage,
        catalogue->n_inverters, catalogue->n_dcdc, catalogue->n_conductors, catalogue->n_fuses,
        catalogue->n_fittings, catalogue->n_chemistries, catalogue->n_shops, catalogue->n_offers);
    GString *out = g_string_new(NULL);
    wb_cli_wrap(out, "", sentence);
    return g_string_free(out, FALSE);
}

/* `not_read` NULL: of what was written, or of a database, there is none. */
static int print_counts(const WbArguments *arguments, const char *path,
                        const WbCatalogue *catalogue, const GPtrArray *not_read)
{
    if (!arguments->json)
        return wb_cli_print(counts_text(path, catalogue));
    WbJsonOut json;
    wb_out_start(&json);
    wb_out_object(&json, NULL);
    wb_out_format(&json, "wattberth-catalogue-counts");
    wb_out_text(&json, "file", path);
    counts_json(&json, catalogue);
    if (not_read != NULL)
        wb_cli_not_read_json(&json, not_read);
    wb_out_end_object(&json);
    return wb_cli_print(wb_out_finish(&json));
}

static int run_export(const WbArguments *arguments, const char *path)
{
    g_autoptr(WbCatalogueView) view = NULL;
    int code = wb_cli_load_catalogue(arguments, &view);
    if (code != WB_EXIT_DONE)
        return code;
    const WbCatalogue *catalogue = wb_catalogue_view_get(view);
    g_autofree char *text = wb_exchange_export(catalogue);
    code = write_export(path, text);
    /* On standard output the export stands alone. */
    if (code != WB_EXIT_DONE || strcmp(path, "-") == 0)
        return code;
    return print_counts(arguments, path, catalogue, NULL);
}

/* Told on standard error; of an export that has passed. (transfer full) */
static GPtrArray *find_not_read(const GString *text, const char *path)
{
    GPtrArray *not_read = wb_exchange_not_read(text->str, (gssize)text->len, path, NULL);
    if (not_read == NULL)
        return g_ptr_array_new();
    wb_cli_say_not_read(not_read);
    return not_read;
}

static int run_check(const WbArguments *arguments, const char *path)
{
    GError *error = NULL;
    g_autoptr(WbCatalogueView) view = wb_exchange_load(path, &error);
    if (view == NULL)
        return wb_cli_fail_with(error);
    g_autoptr(GPtrArray) not_read = NULL;
    if (!is_database(path)) {
        g_autoptr(GString) text = g_string_new(NULL);
        int code = wb_cli_read_text(path, text);
        if (code != WB_EXIT_DONE)
            return code;
        not_read = find_not_read(text, path);
    }
    return print_counts(arguments, path, wb_catalogue_view_get(view), not_read);
}

static int print_report(const WbArguments *arguments, const WbImportReport *report,
                        const GPtrArray *not_read)
{
    if (!arguments->json)
        return wb_cli_print(g_strdup_printf(
            arguments->preview
                ? _("Would add %d rows and change %d; %d are the same. Nothing was written.\n")
                : _("Added %d rows and changed %d; %d are the same.\n"),
            report->added, report->changed, report->same));
    WbJsonOut json;
    wb_out_start(&json);
    wb_out_object(&json, NULL);
    wb_out_format(&json, "wattberth-import");
    wb_out_flag(&json, "preview", arguments->preview);
    wb_out_integer(&json, "added", report->added);
    wb_out_integer(&json, "changed", report->changed);
    wb_out_integer(&json, "same", report->same);
    wb_cli_not_read_json(&json, not_read);
    wb_out_end_object(&json);
    return wb_cli_print(wb_out_finish(&json));
}

/* Into the database at `target`; ":memory:" stands for one that is not there yet. */
static int import_into(const char *target, const char *path, const GString *text, gboolean preview,
                       WbImportReport *report)
{
    GError *error = NULL;
    g_autoptr(WbDatabase) database = wb_database_open(target, FALSE, &error);
    if (database == NULL ||
        !wb_exchange_import(database, text->str, (gssize)text->len, path, preview, report, &error))
        return wb_cli_fail_with(error);
    return WB_EXIT_DONE;
}

static int run_import(const WbArguments *arguments, const char *path)
{
    g_autoptr(GString) text = g_string_new(NULL);
    g_autofree char *target =
        arguments->catalogue != NULL ? g_strdup(arguments->catalogue) : wb_database_default_path();
    gboolean there = g_file_test(target, G_FILE_TEST_EXISTS);
    WbImportReport report = {0};
    int code = wb_cli_read_text(path, text);
    /* A database is made only for an import that succeeds. */
    if (code == WB_EXIT_DONE && !there)
        code = import_into(":memory:", path, text, TRUE, &report);
    if (code == WB_EXIT_DONE && (there || !arguments->preview))
        code = import_into(target, path, text, arguments->preview, &report);
    if (code != WB_EXIT_DONE)
        return code;
    g_autoptr(GPtrArray) not_read = find_not_read(text, path);
    return print_report(arguments, &report, not_read);
}

int wb_cli_run_catalogue(const WbArguments *arguments)
{
    const char *action = arguments->rest[0], *path = arguments->rest[1];
    if (arguments->preview && strcmp(action, "import") != 0)
        return wb_cli_fail(WB_EXIT_WRONG_USE, _("--preview belongs to catalogue import only."));
    if (strcmp(action, "export") == 0)
        return run_export(arguments, path);
    if (strcmp(action, "import") == 0)
        return run_import(arguments, path);
    if (strcmp(action, "check") == 0)
        return run_check(arguments, path);
    return wb_cli_fail(WB_EXIT_WRONG_USE,
                       _("catalogue takes “export”, “import” or “check”, not “%s”."), action);
}
