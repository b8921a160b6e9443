#include "cli_table.h"

#include <string.h>

typedef struct {
    char *text;
    gboolean line; /* stands alone under a row */
} Cell;

struct WbTable {
    char **heads;
    guint n_columns;
    GArray *cells; /* of Cell */
};

static void clear_cell(gpointer cell)
{
    g_free(((Cell *)cell)->text);
}

WbTable *wb_table_new(const char *heads)
{
    WbTable *table = g_new0(WbTable, 1);
    table->heads = g_strsplit(heads, "|", -1);
    table->n_columns = g_strv_length(table->heads);
    table->cells = g_array_new(FALSE, FALSE, sizeof(Cell));
    g_array_set_clear_func(table->cells, clear_cell);
    return table;
}

void wb_table_free(WbTable *table)
{
    g_strfreev(table->heads);
    g_array_unref(table->cells);
    g_free(table);
}

void wb_table_cell(WbTable *table, char *text)
{
    Cell cell = {text, FALSE};
    g_array_append_val(table->cells, cell);
}

void wb_table_line(WbTable *table, char *text)
{
    Cell cell = {text, TRUE};
    g_array_append_val(table->cells, cell);
}

static const char *head_text(const WbTable *table, guint column)
{
    const char *head = table->heads[column];
    return head[0] == '>' ? head + 1 : head;
}

static int *column_widths(const WbTable *table)
{
    int *widths = g_new0(int, table->n_columns);
    for (guint c = 0; c < table->n_columns; c++)
        widths[c] = (int)g_utf8_strlen(head_text(table, c), -1);
    guint column = 0;
    for (guint i = 0; i < table->cells->len; i++) {
        const Cell *cell = &g_array_index(table->cells, Cell, i);
        if (cell->line)
            continue;
        int length = (int)g_utf8_strlen(cell->text, -1);
        widths[column] = MAX(widths[column], length);
        column = (column + 1) % table->n_columns;
    }
    return widths;
}

static void append_spaces(GString *out, int n)
{
    for (int i = 0; i < n; i++)
        g_string_append_c(out, ' ');
}

/* Where the last column starts; longer lines are wrapped under it. */
static int last_column_at(const WbTable *table, const int *widths)
{
    int at = 0;
    for (guint c = 0; c + 1 < table->n_columns; c++)
        at += widths[c] + 2;
    return at;
}

static void append_cell(const WbTable *table, GString *out, const int *widths, guint column,
                        const char *text)
{
    gboolean right = table->heads[column][0] == '>';
    gboolean last = column + 1 == table->n_columns;
    int fill = widths[column] - (int)g_utf8_strlen(text, -1);
    if (right)
        append_spaces(out, fill);
    if (last && !right) {
        g_autofree char *indent = g_strnfill((gsize)last_column_at(table, widths), ' ');
        g_autoptr(GString) wrapped = g_string_new(NULL);
        wb_cli_wrap(wrapped, indent, text);
        /* The row so far stands where the first line's indentation would. */
        g_string_append(out, wrapped->str + strlen(indent));
        return;
    }
    g_string_append(out, text);
    if (!right)
        append_spaces(out, fill);
    g_string_append(out, last ? "\n" : "  ");
}

void wb_table_append(const WbTable *table, GString *out)
{
    g_autofree int *widths = column_widths(table);
    for (guint c = 0; c < table->n_columns; c++)
        append_cell(table, out, widths, c, head_text(table, c));
    guint column = 0;
    for (guint i = 0; i < table->cells->len; i++) {
        const Cell *cell = &g_array_index(table->cells, Cell, i);
        if (cell->line) {
            g_autofree char *indent = g_strnfill((gsize)widths[0] + 2, ' ');
            wb_cli_wrap(out, indent, cell->text);
            continue;
        }
        append_cell(table, out, widths, column, cell->text);
        column = (column + 1) % table->n_columns;
    }
}

void wb_cli_wrap(GString *out, const char *first, const char *sentence)
{
    int indent = (int)g_utf8_strlen(first, -1);
    g_auto(GStrv) words = g_strsplit(sentence, " ", -1);
    int at = indent;
    g_string_append(out, first);
    for (guint i = 0; words[i] != NULL; i++) {
        int length = (int)g_utf8_strlen(words[i], -1);
        if (i > 0 && at + 1 + length > WB_CLI_WIDTH) {
            g_string_append_c(out, '\n');
            append_spaces(out, indent);
            at = indent;
        } else if (i > 0) {
            g_string_append_c(out, ' ');
            at++;
        }
        g_string_append(out, words[i]);
        at += length;
    }
    g_string_append_c(out, '\n');
}
