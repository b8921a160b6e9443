/* A table for the terminal: columns as wide as their widest cell, two spaces between them. */
#ifndef WB_CLI_TABLE_H
#define WB_CLI_TABLE_H

#include <glib.h>

/* Text is at most this wide; longer last columns and sentences are wrapped. */
#define WB_CLI_WIDTH 96

typedef struct WbTable WbTable;

/* `heads`: one text a column, joined by '|'; a head that starts with '>' is aligned right. */
WbTable *wb_table_new(const char *heads);
void wb_table_free(WbTable *table);
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbTable, wb_table_free)

/* Adds one cell; a row is complete with its last column. Takes the text. */
void wb_table_cell(WbTable *table, char *text);
/* A whole line below the row just completed, indented under the second column. Takes the text. */
void wb_table_line(WbTable *table, char *text);
void wb_table_append(const WbTable *table, GString *out);

/* A sentence wrapped to WB_CLI_WIDTH: the first line starts with `first`, the others with as many
 * spaces. */
void wb_cli_wrap(GString *out, const char *first, const char *sentence);

#endif
