/* How the store sets its errors. Private to the store. */
#ifndef WB_STORE_FAIL_H
#define WB_STORE_FAIL_H

#include "store_error.h"

/* Whatever comes in by a file name or a damaged file, the message is valid UTF-8 on one line.
 * Always FALSE. */
gboolean wb_store_fail(GError **error, WbStoreError code, const char *format, ...)
    G_GNUC_PRINTF(3, 4);

#endif
