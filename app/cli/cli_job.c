#include "cli_job.h"

#include "cli_not_read.h"
#include "cli_way.h"
#include "exchange.h"
#include "store_error.h"
#include <errno.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>

/* No brief and no catalogue is as long; a device may be endless. */
#define TEXT_MOST (64 * 1024 * 1024)

int wb_cli_fail(WbExit code, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    g_autofree char *sentence = g_strdup_vprintf(format, arguments);
    va_end(arguments);
    /* One sentence is one line, whatever a file name holds. */
    g_strdelimit(sentence, "\r\n", ' ');
    fprintf(stderr, "wattberth: %s\n", sentence);
    return code;
}

int wb_cli_fail_with(GError *error)
{
    gboolean file = error->domain != WB_STORE_ERROR || error->code == WB_STORE_ERROR_FILE ||
                    error->code == WB_STORE_ERROR_BUSY;
    int code = wb_cli_fail(file ? WB_EXIT_FILE : WB_EXIT_WRONG_INPUT, "%s", error->message);
    g_error_free(error);
    return code;
}

int wb_cli_fail_status(WbStatus status)
{
    WbExit code = status == WB_BAD_INPUT ? WB_EXIT_WRONG_INPUT : WB_EXIT_FAILED;
    return wb_cli_fail(code, "%s", wb_status_describe(status));
}

int wb_cli_print(char *text)
{
    bool written = fputs(text, stdout) != EOF && fflush(stdout) == 0 && !ferror(stdout);
    g_free(text);
    if (written)
        return WB_EXIT_DONE;
    return wb_cli_fail(WB_EXIT_FILE, _("Standard output cannot be written: %s."),
                       g_strerror(errno));
}

static int read_stream(FILE *stream, const char *name, GString *text)
{
    char buffer[65536];
    size_t n;
    while ((n = fread(buffer, 1, sizeof buffer, stream)) > 0) {
        g_string_append_len(text, buffer, (gssize)n);
        if (text->len > TEXT_MOST)
            return wb_cli_fail(WB_EXIT_WRONG_INPUT,
                               _("%s is longer than 64 MiB, the most that is read."), name);
    }
    if (ferror(stream))
        return wb_cli_fail(WB_EXIT_FILE, _("%s cannot be read: %s."), name, g_strerror(errno));
    return WB_EXIT_DONE;
}

int wb_cli_read_text(const char *name, GString *text)
{
    if (strcmp(name, "-") == 0)
        return read_stream(stdin, _("Standard input"), text);
    FILE *file = g_fopen(name, "rb");
    if (file == NULL)
        return wb_cli_fail(WB_EXIT_FILE, _("%s cannot be opened: %s."), name, g_strerror(errno));
    int code = read_stream(file, name, text);
    fclose(file);
    return code;
}

int wb_cli_load_brief(const char *name, WbBriefFile **file)
{
    GError *error = NULL;
    if (strcmp(name, "-") == 0) {
        g_autoptr(GString) text = g_string_new(NULL);
        int code = wb_cli_read_text(name, text);
        if (code != WB_EXIT_DONE)
            return code;
        *file = wb_brief_file_parse(text->str, (gssize)text->len, _("standard input"), &error);
    } else if (strcmp(name, "demo") == 0 && !g_file_test(name, G_FILE_TEST_EXISTS)) {
        *file = wb_brief_file_demo();
    } else {
        *file = wb_brief_file_read(name, &error);
    }
    return *file != NULL ? WB_EXIT_DONE : wb_cli_fail_with(error);
}

int wb_cli_load_catalogue(const WbArguments *arguments, WbCatalogueView **view)
{
    GError *error = NULL;
    if (arguments->catalogue != NULL) {
        *view = wb_exchange_load(arguments->catalogue, &error);
    } else {
        g_autofree char *path = wb_database_default_path();
        g_autoptr(WbDatabase) database = wb_database_open(path, FALSE, &error);
        *view = database != NULL ? wb_database_load(database, &error) : NULL;
    }
    return *view != NULL ? WB_EXIT_DONE : wb_cli_fail_with(error);
}

int wb_cli_load_both(const WbArguments *arguments, const char *name, WbJob *job)
{
    GError *error = NULL;
    int code = wb_cli_load_brief(name, &job->file);
    if (code == WB_EXIT_DONE)
        wb_cli_say_not_read(wb_brief_file_not_read(job->file));
    if (code == WB_EXIT_DONE)
        code = wb_cli_load_catalogue(arguments, &job->view);
    if (code == WB_EXIT_DONE &&
        !wb_brief_file_check_parts(job->file, wb_catalogue_view_get(job->view), &error))
        code = wb_cli_fail_with(error);
    if (code == WB_EXIT_DONE && !wb_brief_file_check_hours(job->file, &error))
        code = wb_cli_fail_with(error);
    if (code == WB_EXIT_DONE)
        wb_cli_say_hours_notes(job->file);
    return code;
}

int wb_cli_load_job(const WbArguments *arguments, const char *name, WbJob *job)
{
    int code = wb_cli_load_both(arguments, name, job);
    if (code == WB_EXIT_DONE)
        code = wb_cli_take_way(arguments->by, job);
    if (code != WB_EXIT_DONE)
        return code;
    WbStatus status = wb_problem_new(wb_brief_file_brief(job->file),
                                     wb_catalogue_view_get(job->view), NULL, &job->problem);
    return status == WB_OK ? WB_EXIT_DONE : wb_cli_fail_status(status);
}

void wb_cli_clear_job(WbJob *job)
{
    g_clear_pointer(&job->problem, wb_problem_free);
    g_clear_pointer(&job->view, wb_catalogue_view_unref);
    g_clear_pointer(&job->file, wb_brief_file_unref);
}
