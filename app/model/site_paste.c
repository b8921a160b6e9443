#include "site_paste.h"
#include "figures_text.h"
#include "store_error.h"
#include <glib/gi18n-lib.h>
#include <string.h>

#define MOST_TEXT 20000

static gboolean refuse(GError **error, const char *sentence, ...) G_GNUC_PRINTF(2, 3);

static gboolean refuse(GError **error, const char *sentence, ...)
{
    va_list arguments;
    va_start(arguments, sentence);
    g_autofree char *text = g_strdup_vprintf(sentence, arguments);
    va_end(arguments);
    g_set_error_literal(error, WB_STORE_ERROR, WB_STORE_ERROR_VALUE, text);
    return FALSE;
}

/* A comma is a decimal mark only where nothing else is and no line has two: "3,5" alone. */
static const char *separator_of(const char *text)
{
    if (strchr(text, '\t'))
        return "\t";
    if (strchr(text, ';'))
        return ";";
    if (strchr(text, '.') || strstr(text, ", "))
        return ",";
    g_auto(GStrv) lines = g_strsplit(text, "\n", -1);
    for (gsize i = 0; lines[i]; i++) {
        const char *comma = strchr(lines[i], ',');
        if (comma && strchr(comma + 1, ','))
            return ",";
    }
    return "\n";
}

static gboolean is_number(const char *cell)
{
    double value;
    return wb_text_read_number(cell, &value);
}

static gboolean any_number(char **cells)
{
    for (gsize i = 0; cells[i]; i++)
        if (is_number(cells[i]))
            return TRUE;
    return FALSE;
}

static gboolean any_digit(char **lines)
{
    for (gsize i = 0; lines[i]; i++)
        if (strpbrk(lines[i], "0123456789"))
            return TRUE;
    return FALSE;
}

/* Lines of cells, without empty lines, a line of heads and a column of names. */
typedef struct {
    GPtrArray *lines; /* of char ** */
    GArray *numbers;  /* of each line in the text, from 1 */
    gsize skip;       /* cells at the left that are names */
} Cells;

static void cells_clear(Cells *cells)
{
    g_ptr_array_unref(cells->lines);
    g_array_unref(cells->numbers);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC(Cells, cells_clear)

static void split(const char *text, Cells *cells)
{
    const char *separator = separator_of(text);
    g_auto(GStrv) lines = g_strsplit(text, "\n", -1);
    cells->lines = g_ptr_array_new_with_free_func((GDestroyNotify)g_strfreev);
    cells->numbers = g_array_new(FALSE, FALSE, sizeof(guint));
    cells->skip = 1;
    for (guint i = 0; lines[i]; i++) {
        guint number = i + 1;
        if (!*g_strstrip(lines[i]))
            continue;
        char **line = g_strsplit(lines[i], separator, -1);
        if (cells->lines->len == 0 && !any_number(line) && any_digit(lines + i + 1)) {
            g_strfreev(line); /* heads */
            continue;
        }
        if (is_number(line[0]) || !line[1])
            cells->skip = 0;
        g_ptr_array_add(cells->lines, line);
        g_array_append_val(cells->numbers, number);
    }
}

static gboolean take(WbMonthPaste *paste, const char *cell, guint line, int figure, int month,
                     GError **error)
{
    double value;
    if (figure >= WB_N_MONTH_FIGURES)
        return refuse(error, _("Line %u has more columns than the table, which ends with %s."),
                      line, wb_month_figure_title(WB_N_MONTH_FIGURES - 1));
    if (month >= WB_MONTHS)
        return refuse(error, _("Line %u would come after December; twelve lines make a year."),
                      line);
    if (!wb_text_read_number(cell, &value))
        return refuse(error,
                      _("Line %u, %s: \342\200\234%.40s\342\200\235 is not a number such as 3.5."),
                      line, wb_month_figure_title(figure), cell);
    paste->given[month][figure] = TRUE;
    paste->value[month][figure] = value;
    return TRUE;
}

gboolean wb_month_paste_read(WbMonthFigure first, int month, const char *text, WbMonthPaste *paste,
                             GError **error)
{
    g_auto(Cells) cells = {0};
    *paste = (WbMonthPaste){0};
    gboolean fit = strlen(text) <= MOST_TEXT && g_utf8_validate(text, -1, NULL);
    split(fit ? text : "", &cells);
    if (cells.lines->len == 0)
        return refuse(error, _("There are no figures to paste; copy twelve lines of a spreadsheet "
                               "first."));
    for (guint i = 0; i < cells.lines->len; i++) {
        char **line = cells.lines->pdata[i];
        guint number = g_array_index(cells.numbers, guint, i);
        gsize n = g_strv_length(line) - cells.skip;
        gboolean flat = n == WB_MONTHS;
        for (gsize c = 0; c < n; c++) {
            const char *cell = line[cells.skip + c];
            int across = (int)(flat ? i : c), down = (int)(flat ? c : i);
            if (!take(paste, cell, number, (int)first + across, month + down, error))
                return FALSE;
        }
    }
    return TRUE;
}
