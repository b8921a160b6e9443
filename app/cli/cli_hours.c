/* Rows are written a day at a time: a hundred years are some 150 MB of text. */
#include "cli_hours.h"

#include "kit_year.h"
#include <errno.h>
#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>

#define HEAD                                                                                       \
    "year,day,hour,plane_w_m2,air_c,array_wh,clipped_wh,alternator_wh,shore_wh,need_wh,idle_wh,"   \
    "heater_wh,unmet_wh,charged_wh,stored_wh,drawn_wh,drained_wh,lost_wh,spilled_wh,charge_wh,"    \
    "floor_wh\n"

/* ---- what is asked for ---- */

/* A person's own hours are CSV too, and easily named here by mistake. */
static bool is_foreign(const char *path)
{
    char start[sizeof HEAD] = {0};
    FILE *file = g_fopen(path, "rbe");
    if (file == NULL)
        return false;
    size_t n = fread(start, 1, sizeof HEAD - 1, file);
    fclose(file);
    return n > 0 && strcmp(start, HEAD) != 0;
}

static int check_path(const WbArguments *arguments)
{
    if (strcmp(arguments->hours, "-") == 0)
        return arguments->json
                   ? wb_cli_fail(WB_EXIT_WRONG_USE, _("--json and --hours - cannot both go to "
                                                      "standard output; name a file for --hours."))
                   : WB_EXIT_DONE;
    if (g_file_test(arguments->hours, G_FILE_TEST_IS_DIR))
        return wb_cli_fail(WB_EXIT_FILE, _("“%s” is a folder; name a file for the hours."),
                           arguments->hours);
    if (g_file_test(arguments->hours, G_FILE_TEST_IS_REGULAR) && is_foreign(arguments->hours))
        return wb_cli_fail(WB_EXIT_FILE,
                           _("“%s” was not written by --hours and was left as it is; name another "
                             "file for the hours."),
                           arguments->hours);
    return WB_EXIT_DONE;
}

int wb_cli_hours_wanted(const WbArguments *arguments, const WbProblem *problem,
                        WbHoursWanted *wanted)
{
    int n_years = problem->plane.n_years;
    guint64 year = 1;
    *wanted = (WbHoursWanted){.path = arguments->hours, .n_years = n_years};
    if (arguments->year != NULL && arguments->hours == NULL)
        return wb_cli_fail(WB_EXIT_WRONG_USE,
                           _("--year says which hours --hours writes; name a file with --hours."));
    if (arguments->hours == NULL)
        return WB_EXIT_DONE;
    if (arguments->year != NULL) {
        if (!g_ascii_string_to_unsigned(arguments->year, 10, 1, (guint64)n_years, &year, NULL))
            return wb_cli_fail(
                WB_EXIT_WRONG_USE,
                _("--year takes a year of the weather, a whole number from 1 to %d, not “%s”."),
                n_years, arguments->year);
        wanted->first_year = (int)year - 1;
        wanted->n_years = 1;
    }
    return check_path(arguments);
}

/* ---- rows ---- */

/* 15 digits: the balance of an hour still closes to 1e-9. */
static void append_number(GString *row, double value)
{
    char text[G_ASCII_DTOSTR_BUF_SIZE] = "0";
    if (value != 0)
        g_ascii_formatd(text, sizeof text, "%.15g", value);
    g_string_append_c(row, ',');
    g_string_append(row, text);
}

static void append_hour(GString *rows, const WbPlaneHours *plane, const WbYearHour *trace, int i)
{
    const WbYearHour *of = &trace[i];
    const double figures[] = {
        plane->plane_w_m2[i], plane->air_c[i], of->array_wh, of->clipped_wh, of->alternator_wh,
        of->shore_wh,         of->need_wh,     of->idle_wh,  of->heater_wh,  of->unmet_wh,
        of->charged_wh,       of->stored_wh,   of->drawn_wh, of->drained_wh, of->lost_wh,
        of->spilled_wh,       of->charge_wh,   of->floor_wh,
    };
    int day = i / WB_HOURS;
    g_string_append_printf(rows, "%d,%d,%d", day / WB_YEAR_DAYS + 1, day % WB_YEAR_DAYS + 1,
                           i % WB_HOURS);
    for (gsize f = 0; f < G_N_ELEMENTS(figures); f++)
        append_number(rows, figures[f]);
    g_string_append_c(rows, '\n');
}

/* `stream` NULL: standard output. */
static bool put(GOutputStream *stream, const GString *text, GError **error)
{
    if (stream != NULL)
        return g_output_stream_write_all(stream, text->str, text->len, NULL, NULL, error);
    if (fwrite(text->str, 1, text->len, stdout) == text->len)
        return true;
    g_set_error_literal(error, G_IO_ERROR, (gint)g_io_error_from_errno(errno), g_strerror(errno));
    return false;
}

static bool put_hours(GOutputStream *stream, const WbHoursWanted *wanted, const WbPlaneHours *plane,
                      const WbYearHour *trace, GError **error)
{
    g_autoptr(GString) rows = g_string_new(HEAD);
    int first = wanted->first_year * WB_YEAR_HOURS, n = wanted->n_years * WB_YEAR_HOURS;
    for (int i = first; i < first + n; i++) {
        append_hour(rows, plane, trace, i);
        if (i % WB_HOURS != WB_HOURS - 1)
            continue;
        if (!put(stream, rows, error))
            return false;
        g_string_truncate(rows, 0);
    }
    return true;
}

/* ---- file ---- */

static bool write_file(const WbHoursWanted *wanted, const WbPlaneHours *plane,
                       const WbYearHour *trace, GError **error)
{
    g_autoptr(GFile) file = g_file_new_for_path(wanted->path);
    g_autoptr(GFileOutputStream) stream =
        g_file_replace(file, NULL, FALSE, G_FILE_CREATE_NONE, NULL, error);
    if (stream == NULL)
        return false;
    if (put_hours(G_OUTPUT_STREAM(stream), wanted, plane, trace, error))
        return g_output_stream_close(G_OUTPUT_STREAM(stream), NULL, error);
    /* A close that is cancelled leaves what stood there before. */
    g_autoptr(GCancellable) cancelled = g_cancellable_new();
    g_cancellable_cancel(cancelled);
    g_output_stream_close(G_OUTPUT_STREAM(stream), cancelled, NULL);
    return false;
}

static int write_hours(const WbHoursWanted *wanted, const WbPlaneHours *plane,
                       const WbYearHour *trace)
{
    g_autoptr(GError) error = NULL;
    if (strcmp(wanted->path, "-") == 0)
        return put_hours(NULL, wanted, plane, trace, &error)
                   ? wb_cli_print(g_strdup(""))
                   : wb_cli_fail(WB_EXIT_FILE, _("Standard output cannot be written: %s."),
                                 error->message);
    if (write_file(wanted, plane, trace, &error))
        return WB_EXIT_DONE;
    /* GLib names its temporary file too; only the system's reason behind it helps. */
    const char *colon = strrchr(error->message, ':');
    return wb_cli_fail(WB_EXIT_FILE, _("“%s” cannot be written: %s."), wanted->path,
                       colon != NULL ? colon + 2 : error->message);
}

int wb_cli_write_hours(const WbHoursWanted *wanted, const WbProblem *problem, const WbKit *kit)
{
    const WbPlaneHours *plane = &problem->plane;
    g_autofree WbYearHour *trace = g_try_new(WbYearHour, (gsize)plane->n_years * WB_YEAR_HOURS);
    if (trace == NULL)
        return wb_cli_fail_status(WB_NO_MEMORY);
    WbYearKit year_kit;
    WbYear year;
    wb_kit_year_fill(problem, kit, &year_kit);
    WbStatus status = wb_year_run(&year_kit, plane, &year, trace);
    return status == WB_OK ? write_hours(wanted, plane, trace) : wb_cli_fail_status(status);
}
