/* A figure of a part as text to type, and typed text back into the record. */
#ifndef WB_PART_EDIT_H
#define WB_PART_EDIT_H

#include "part_fields.h"
#include <glib.h>

typedef enum {
    WB_TYPED_GOOD,
    WB_TYPED_UNUSUAL, /* kept, but questioned: outside what such parts usually have */
    WB_TYPED_REFUSED, /* impossible or not understood: the record is untouched */
} WbTyped;

/* "" for a figure the data sheet does not give. (transfer full) */
char *wb_part_edit_text(const WbField *field, const void *record);

/* Reads `text` into the record; a text field then points at `text`, which must outlive it.
 * `sentence` (transfer full): what to say about it, NULL when good. */
WbTyped wb_part_edit_read(const WbField *field, const char *text, void *record, char **sentence);

/* Does the figure as it stands lie outside what is usual? (transfer full) NULL: no. */
char *wb_part_edit_question(const WbField *field, const void *record);

#endif
