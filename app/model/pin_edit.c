/* Panels held where they are, and the cable gland. */
#include "edit_list.h"
#include "figures_text.h"
#include "roof_shape_edit.h"
#include <glib/gi18n-lib.h>
#include <string.h>

static const WbRoof *roof_of(WbDocument *document)
{
    return &wb_document_get_brief(document)->roof;
}

gboolean wb_pin_add(WbDocument *document, const char *part_id, gint64 x_mm, gint64 y_mm,
                    gboolean turned, GError **error)
{
    g_autofree char *id = wb_text_json(part_id);
    g_autofree char *json = g_strdup_printf("{\"panel\": %s, \"x_mm\": %" G_GINT64_FORMAT
                                            ", \"y_mm\": %" G_GINT64_FORMAT ", \"turned\": %s}",
                                            id, x_mm, y_mm, turned ? "true" : "false");
    if (roof_of(document)->n_pins > 0)
        return wb_document_insert(document, _("Pin a panel"), "/roof/pins/-", json, error);
    g_autofree char *list = g_strdup_printf("[%s]", json); /* there may be no list yet */
    wb_document_seal(document);
    return wb_document_set_json(document, _("Pin a panel"), "/roof/pins", list, error);
}

gboolean wb_pin_remove(WbDocument *document, guint index, GError **error)
{
    g_return_val_if_fail(index < roof_of(document)->n_pins, FALSE);
    g_autofree char *pointer = g_strdup_printf("/roof/pins/%u", index);
    return wb_document_remove(document, _("Unpin a panel"), pointer, error);
}

gboolean wb_pins_remove(WbDocument *document, const char *part_id, GError **error)
{
    const WbRoof *roof = roof_of(document);
    g_autoptr(GPtrArray) pointers = g_ptr_array_new_with_free_func(g_free);
    g_autoptr(GArray) edits = g_array_new(FALSE, TRUE, sizeof(WbEdit));
    for (gsize i = roof->n_pins;
         i-- > 0;) { /* from the last, so that the others keep their place */
        if (part_id && strcmp(roof->pins[i].part_id, part_id) != 0)
            continue;
        char *pointer = g_strdup_printf("/roof/pins/%zu", i);
        g_ptr_array_add(pointers, pointer);
        const WbEdit edit = {WB_EDIT_REMOVE, pointer, NULL};
        g_array_append_val(edits, edit);
    }
    return wb_document_apply(document, _("Unpin panels"), (const WbEdit *)(gpointer)edits->data,
                             edits->len, error);
}

static gboolean set_pin(WbDocument *document, guint index, gint64 x_mm, gint64 y_mm,
                        const char *run, GError **error)
{
    WbEditList list = {0};
    wb_edit_list_set_mm(&list, g_strdup_printf("/roof/pins/%u/x_mm", index), x_mm);
    wb_edit_list_set_mm(&list, g_strdup_printf("/roof/pins/%u/y_mm", index), y_mm);
    return wb_edit_list_apply(&list, document, _("Move a pinned panel"), run, error);
}

gboolean wb_pin_move(WbDocument *document, guint index, gint64 x_mm, gint64 y_mm, GError **error)
{
    g_return_val_if_fail(index < roof_of(document)->n_pins, FALSE);
    return set_pin(document, index, x_mm, y_mm, NULL, error);
}

gboolean wb_pin_nudge(WbDocument *document, guint index, gint64 dx_mm, gint64 dy_mm, GError **error)
{
    g_return_val_if_fail(index < roof_of(document)->n_pins, FALSE);
    const WbPin *pin = &roof_of(document)->pins[index];
    g_autofree char *run = g_strdup_printf("/roof/pins/%u", index);
    return set_pin(document, index, pin->x_mm + dx_mm, pin->y_mm + dy_mm, run, error);
}

gboolean wb_pin_turn(WbDocument *document, guint index, gboolean turned, GError **error)
{
    g_return_val_if_fail(index < roof_of(document)->n_pins, FALSE);
    if (roof_of(document)->pins[index].turned == turned)
        return TRUE;
    g_autofree char *pointer = g_strdup_printf("/roof/pins/%u/turned", index);
    wb_document_seal(document);
    return wb_document_set_flag(document, _("Turn a pinned panel"), pointer, turned, error);
}

static gboolean set_gland(WbDocument *document, gint64 x_mm, gint64 y_mm, const char *run,
                          GError **error)
{
    g_autofree char *json = g_strdup_printf(
        "{\"x_mm\": %" G_GINT64_FORMAT ", \"y_mm\": %" G_GINT64_FORMAT "}", x_mm, y_mm);
    WbEditList list = {0};
    if (!roof_of(document)->has_gland) {
        wb_edit_list_set(&list, g_strdup("/roof/gland"), json);
    } else { /* what else stands in it stays */
        wb_edit_list_set_mm(&list, g_strdup("/roof/gland/x_mm"), x_mm);
        wb_edit_list_set_mm(&list, g_strdup("/roof/gland/y_mm"), y_mm);
    }
    return wb_edit_list_apply(&list, document, _("Move the cable gland"), run, error);
}

gboolean wb_gland_set(WbDocument *document, gint64 x_mm, gint64 y_mm, GError **error)
{
    return set_gland(document, x_mm, y_mm, NULL, error);
}

gboolean wb_gland_nudge(WbDocument *document, gint64 dx_mm, gint64 dy_mm, GError **error)
{
    const WbRoof *roof = roof_of(document);
    g_return_val_if_fail(roof->has_gland, FALSE);
    return set_gland(document, roof->gland.x_mm + dx_mm, roof->gland.y_mm + dy_mm, "/roof/gland",
                     error);
}

gboolean wb_gland_remove(WbDocument *document, GError **error)
{
    if (!roof_of(document)->has_gland)
        return TRUE;
    wb_document_seal(document);
    return wb_document_set_json(document, _("Remove the cable gland"), "/roof/gland", "null",
                                error);
}
