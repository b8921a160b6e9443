/* Errors of the store: every message is one sentence for the person, naming file, place, value and
 * what is accepted. */
#ifndef WB_STORE_ERROR_H
#define WB_STORE_ERROR_H

#include <glib.h>

#define WB_STORE_ERROR (wb_store_error_quark())
GQuark wb_store_error_quark(void);

typedef enum {
    WB_STORE_ERROR_FILE,    /* cannot be opened, read or written */
    WB_STORE_ERROR_SYNTAX,  /* not JSON, cut short, duplicate member, something after the end */
    WB_STORE_ERROR_FORMAT,  /* another kind of file, or a newer version */
    WB_STORE_ERROR_VALUE,   /* a member is missing, of the wrong type or outside what is accepted */
    WB_STORE_ERROR_DAMAGED, /* the database is damaged */
    WB_STORE_ERROR_BUSY,    /* locked by another program */
} WbStoreError;

#endif
