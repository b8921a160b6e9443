/* Whole text files in and out, with a sentence when it does not work. Private to the store. */
#ifndef WB_TEXT_FILE_H
#define WB_TEXT_FILE_H

#include <glib.h>

/* No file of ours comes near this; it keeps a wrong or endless one from filling the memory. */
#define WB_TEXT_FILE_MOST (16 * 1024 * 1024)

/* (transfer full), NUL-terminated; NULL and error. Pipes work too. */
char *wb_text_file_read(const char *path, gsize *length, GError **error);
/* The same with another limit. */
char *wb_text_file_read_most(const char *path, gsize most_mib, gsize *length, GError **error);
/* Temporary beside the target, flushed, then renamed over it. A symbolic link stays one; an
 * existing file keeps its permissions. */
gboolean wb_text_file_write(const char *path, const char *text, GError **error);

#endif
