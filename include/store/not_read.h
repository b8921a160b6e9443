/* Members of a file that no reader asked for: kept as they are, but they change no figure. One
 * whose name starts with // is a comment and not among them. */
#ifndef WB_NOT_READ_H
#define WB_NOT_READ_H

#include <glib.h>

typedef struct {
    char *pointer; /* JSON Pointer (RFC 6901) */
    char *nearest; /* a member of the same object it may have been meant for, or NULL */
} WbNotRead;

void wb_not_read_free(WbNotRead *member);

/* "/loads/4/dutty; did you mean duty?" or "/loads/4/x". (transfer full) */
char *wb_not_read_text(const WbNotRead *member);

#endif
