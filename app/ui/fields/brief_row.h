/* A line of a form: name, control and unit of a figure of the brief, its note, and under it why
 * something typed was refused. The control is an entry, a choice or a tick. */
#ifndef WB_BRIEF_ROW_H
#define WB_BRIEF_ROW_H

#include "brief_field.h"
#include <gtk/gtk.h>

#define WB_TYPE_BRIEF_ROW (wb_brief_row_get_type())
G_DECLARE_FINAL_TYPE(WbBriefRow, wb_brief_row, WB, BRIEF_ROW, GtkBox)

/* The field lives in static storage. */
GtkWidget *wb_brief_row_new(WbDocument *document, const WbBriefField *field);
/* Replaces the note; NULL: none. */
void wb_brief_row_set_note(WbBriefRow *self, const char *note);
/* The grey text of an empty entry. */
void wb_brief_row_set_placeholder(WbBriefRow *self, const char *text);
/* Shows a sentence as if the field had been refused; NULL: all is well. */
void wb_brief_row_tell(WbBriefRow *self, const char *sentence);

#endif
