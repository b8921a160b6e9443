#include "edit_list.h"

void wb_edit_list_set(WbEditList *list, char *pointer, const char *json)
{
    g_assert(list->n < WB_EDIT_LIST);
    list->pointer[list->n] = pointer;
    list->json[list->n] = g_strdup(json);
    list->edit[list->n] = (WbEdit){WB_EDIT_SET, pointer, list->json[list->n]};
    list->n++;
}

void wb_edit_list_set_mm(WbEditList *list, char *pointer, gint64 mm)
{
    g_autofree char *json = g_strdup_printf("%" G_GINT64_FORMAT, mm);
    wb_edit_list_set(list, pointer, json);
}

gboolean wb_edit_list_apply(WbEditList *list, WbDocument *document, const char *label,
                            const char *run, GError **error)
{
    gboolean done = wb_document_apply_run(document, label, run, list->edit, list->n, error);
    for (gsize i = 0; i < list->n; i++) {
        g_free(list->pointer[i]);
        g_free(list->json[i]);
    }
    list->n = 0;
    return done;
}
