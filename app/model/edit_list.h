/* A few members set in order as one step. Every step of the order must give a valid brief. Private
 * to the model. */
#ifndef WB_EDIT_LIST_H
#define WB_EDIT_LIST_H

#include "document.h"

enum { WB_EDIT_LIST = 12 };

typedef struct {
    WbEdit edit[WB_EDIT_LIST];
    char *pointer[WB_EDIT_LIST], *json[WB_EDIT_LIST]; /* what `edit` points to */
    gsize n;
} WbEditList;

/* Takes the pointer. */
void wb_edit_list_set(WbEditList *list, char *pointer, const char *json);
void wb_edit_list_set_mm(WbEditList *list, char *pointer, gint64 mm);
/* Applies and empties it. `run`: see wb_document_apply_run, NULL: a step of its own. */
gboolean wb_edit_list_apply(WbEditList *list, WbDocument *document, const char *label,
                            const char *run, GError **error);

#endif
