/* A sum line by line, to be followed with a pencil: what it is, how it is worked out, with which
 * numbers, what comes out. Every text can be selected; a button copies the whole. */
#ifndef WB_PENCIL_TABLE_H
#define WB_PENCIL_TABLE_H

#include <gtk/gtk.h>

typedef struct {
    const char *label;
    const char *formula; /* "need / efficiency" */
    const char *numbers; /* the same in figures */
    const char *value, *unit;
    const char *source; /* "": common practice */
} WbPencilLine;

#define WB_TYPE_PENCIL_TABLE (wb_pencil_table_get_type())
G_DECLARE_FINAL_TYPE(WbPencilTable, wb_pencil_table, WB, PENCIL_TABLE, GtkBox)

GtkWidget *wb_pencil_table_new(void);
/* Copies. */
void wb_pencil_table_set(WbPencilTable *self, const WbPencilLine *lines, gsize n);
/* The same as text with a line each, cells set apart by tabs: for spreadsheets. (transfer full) */
char *wb_pencil_table_dup_text(WbPencilTable *self);

#endif
