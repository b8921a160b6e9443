/* What of the open brief is kept but means nothing to the program. */
#include "brief_file.h"
#include "document.h"
#include <glib/gi18n-lib.h>

#define SAID_MOST 3u

char *wb_document_not_read(WbDocument *self)
{
    const GPtrArray *rest = wb_brief_file_not_read(wb_document_get_file(self));
    if (rest->len == 0)
        return NULL;
    g_autoptr(GString) list = g_string_new(NULL);
    for (guint i = 0; i < MIN(rest->len, SAID_MOST); i++) {
        const WbNotRead *member = rest->pdata[i];
        g_string_append_printf(list, "%s%s", i > 0 ? ", " : "", member->pointer);
        if (member->nearest)
            g_string_append_printf(list, _(" (did you mean %s?)"), member->nearest);
    }
    if (rest->len > SAID_MOST)
        g_string_append_printf(list, _(" and %u more"), rest->len - SAID_MOST);
    return g_strdup_printf(_("Of this brief some is kept but not read: %s."), list->str);
}
