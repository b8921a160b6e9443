#include "hours_text.h"
#include "store_fail.h"
#include <math.h>
#include <string.h>

#define LONGEST_NUMBER 48
#define LONGEST_SHOWN 40

gboolean wb_hours_text_next(WbHoursText *text, WbCell *line)
{
    if (text->at >= text->end)
        return FALSE;
    gsize left = (gsize)(text->end - text->at);
    const char *stop = memchr(text->at, '\n', left);
    gsize n = stop ? (gsize)(stop - text->at) : left;
    *line = (WbCell){text->at, n};
    if (n > 0 && text->at[n - 1] == '\r')
        line->n--;
    text->at += stop ? n + 1 : n;
    text->line++;
    return TRUE;
}

static WbCell bare(WbCell cell)
{
    while (cell.n > 0 && (*cell.text == ' ' || *cell.text == '\t')) {
        cell.text++;
        cell.n--;
    }
    while (cell.n > 0 && (cell.text[cell.n - 1] == ' ' || cell.text[cell.n - 1] == '\t'))
        cell.n--;
    if (cell.n >= 2 && *cell.text == '"' && cell.text[cell.n - 1] == '"')
        cell = (WbCell){cell.text + 1, cell.n - 2};
    return cell;
}

gsize wb_cells(WbCell line, WbCell *cells, gsize most)
{
    gsize count = 0, from = 0;
    gboolean quoted = FALSE;
    for (gsize i = 0; i <= line.n; i++) {
        if (i < line.n && line.text[i] == '"')
            quoted = !quoted;
        if (i < line.n && (quoted || line.text[i] != ','))
            continue;
        if (count < most)
            cells[count] = bare((WbCell){line.text + from, i - from});
        count++;
        from = i + 1;
    }
    return count;
}

gboolean wb_cell_is(WbCell cell, const char *word)
{
    return cell.n == strlen(word) && wb_cell_begins(cell, word);
}

gboolean wb_cell_begins(WbCell cell, const char *word)
{
    return cell.n >= strlen(word) && g_ascii_strncasecmp(cell.text, word, strlen(word)) == 0;
}

char *wb_cell_show(WbCell cell)
{
    if (cell.n <= LONGEST_SHOWN)
        return g_strndup(cell.text, cell.n);
    g_autofree char *start = g_strndup(cell.text, LONGEST_SHOWN);
    return g_strconcat(start, "...", NULL);
}

static gboolean parse_number(WbCell cell, double *value)
{
    static const char letters[] = "0123456789.+-eE";
    if (cell.n == 0 || cell.n > LONGEST_NUMBER)
        return FALSE;
    for (gsize i = 0; i < cell.n; i++)
        if (cell.text[i] == '\0' || !strchr(letters, cell.text[i]))
            return FALSE;
    char *end;
    *value = g_ascii_strtod(cell.text, &end);
    return end == cell.text + cell.n && isfinite(*value);
}

/* "0 to 24 h" or "0 W/m2 or more". (transfer full) */
static char *accepted(const WbFigure *figure)
{
    const char *gap = *figure->unit ? " " : "";
    if (isinf(figure->most))
        return g_strdup_printf("%g%s%s or more", figure->least, gap, figure->unit);
    return g_strdup_printf("%g to %g%s%s", figure->least, figure->most, gap, figure->unit);
}

static gboolean refuse(const WbHoursText *text, const WbFigure *figure, WbCell cell,
                       const char *kind, GError **error)
{
    g_autofree char *shown = wb_cell_show(cell), *range = accepted(figure);
    return wb_store_fail(error, WB_STORE_ERROR_VALUE,
                         "%s, line %d: %s is \"%s\"; %s, %s, is accepted.", text->name, text->line,
                         figure->column, shown, kind, range);
}

gboolean wb_cell_figure(const WbHoursText *text, const WbFigure *figure, WbCell cell, double *value,
                        GError **error)
{
    double number;
    if (!parse_number(cell, &number) || !(number >= figure->least && number <= figure->most))
        return refuse(text, figure, cell, "a number with a decimal point", error);
    *value = number;
    return TRUE;
}

gboolean wb_cell_whole(const WbHoursText *text, const WbFigure *figure, WbCell cell, int *value,
                       GError **error)
{
    double number;
    if (!parse_number(cell, &number) || !(number >= figure->least && number <= figure->most) ||
        number != floor(number))
        return refuse(text, figure, cell, "a whole number", error);
    *value = (int)number;
    return TRUE;
}
