/* A text or number of the brief, typed in place. It follows the document, edits it shortly after
 * the last key, on Enter and when the keyboard leaves, and takes back what is typed on Escape. What
 * is refused stays in the field, marked. Signals: "message" (text): why, NULL once all is well;
 * "entered": the keyboard came here; "pasted" (text, handled boolean): before a paste of several
 * lines or cells; TRUE: somebody took it. */
#ifndef WB_BRIEF_ENTRY_H
#define WB_BRIEF_ENTRY_H

#include "brief_field.h"
#include <gtk/gtk.h>

#define WB_TYPE_BRIEF_ENTRY (wb_brief_entry_get_type())
G_DECLARE_FINAL_TYPE(WbBriefEntry, wb_brief_entry, WB, BRIEF_ENTRY, GtkWidget)

/* The field lives in static storage. `chars`: width. */
GtkWidget *wb_brief_entry_new(WbDocument *document, const WbBriefField *field, int index,
                              int chars);
/* The accessible name, where the field's title is not enough. */
void wb_brief_entry_set_name(WbBriefEntry *self, const char *name);
void wb_brief_entry_set_placeholder(WbBriefEntry *self, const char *text);
/* Not editable: a plain figure to read and copy. */
void wb_brief_entry_set_editable(WbBriefEntry *self, gboolean editable);
/* Shows what the brief holds, unless something else is being typed. */
void wb_brief_entry_refresh(WbBriefEntry *self);
GtkEditable *wb_brief_entry_get_editable(WbBriefEntry *self);
int wb_brief_entry_get_index(WbBriefEntry *self);

#endif
