#include "store_fail.h"

G_DEFINE_QUARK(wb - store - error - quark, wb_store_error)

gboolean wb_store_fail(GError **error, WbStoreError code, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    g_autofree char *text = g_strdup_vprintf(format, arguments);
    va_end(arguments);
    g_autofree char *message = g_utf8_make_valid(text, -1);
    for (char *c = message; *c; c++)
        if (g_ascii_iscntrl(*c))
            *c = ' ';
    g_set_error_literal(error, WB_STORE_ERROR, (int)code, message);
    return FALSE;
}
