/* Edits of the roof's outline. */
#include "edit_list.h"
#include "roof_shape_edit.h"
#include "store_error.h"
#include <glib/gi18n-lib.h>
#include <string.h>

static const WbRoof *roof_of(WbDocument *document)
{
    return &wb_document_get_brief(document)->roof;
}

/* (transfer full) [[x, y], ...] */
static char *corners_json(const WbCorner *corners, gsize n)
{
    GString *json = g_string_new("[");
    for (gsize i = 0; i < n; i++)
        g_string_append_printf(json, "%s[%" G_GINT64_FORMAT ", %" G_GINT64_FORMAT "]",
                               i > 0 ? ", " : "", corners[i].x_mm, corners[i].y_mm);
    return g_string_free(g_string_append(json, "]"), FALSE);
}

/* The frame must hold the old corners until the new ones are set, so it shrinks last. */
static gboolean reshape(WbDocument *document, const char *label, const char *run,
                        const WbCorner *corners, gint64 length_mm, gint64 width_mm, GError **error)
{
    const WbRoof *roof = roof_of(document);
    g_autofree char *json = corners_json(corners, roof->n_corners);
    WbEditList list = {0};
    if (length_mm > roof->length_mm)
        wb_edit_list_set_mm(&list, g_strdup("/roof/length_mm"), length_mm);
    if (width_mm > roof->width_mm)
        wb_edit_list_set_mm(&list, g_strdup("/roof/width_mm"), width_mm);
    if (roof->n_corners > 0)
        wb_edit_list_set(&list, g_strdup("/roof/corners"), json);
    wb_edit_list_set_mm(&list, g_strdup("/roof/length_mm"), length_mm);
    wb_edit_list_set_mm(&list, g_strdup("/roof/width_mm"), width_mm);
    return wb_edit_list_apply(&list, document, label, run, error);
}

static gboolean leaves_nothing(const WbRoof *roof, gint64 length_mm, gint64 width_mm,
                               GError **error)
{
    g_autofree char *sentence = wb_roof_left_outside(roof, length_mm, width_mm);
    if (sentence != NULL)
        g_set_error_literal(error, WB_STORE_ERROR, WB_STORE_ERROR_VALUE, sentence);
    return sentence == NULL;
}

gboolean wb_roof_resize(WbDocument *document, gint64 length_mm, gint64 width_mm, GError **error)
{
    const WbRoof *roof = roof_of(document);
    g_autofree WbCorner *corners = g_new0(WbCorner, roof->n_corners + 1);
    for (gsize i = 0; i < roof->n_corners; i++) {
        corners[i] = roof->corners[i];
        if (corners[i].x_mm == roof->length_mm)
            corners[i].x_mm = length_mm;
        if (corners[i].y_mm == roof->width_mm)
            corners[i].y_mm = width_mm;
    }
    WbRoof moved = *roof;
    moved.corners = corners;
    if (!leaves_nothing(&moved, length_mm, width_mm, error))
        return FALSE;
    return reshape(document, _("Change the roof's size"), NULL, corners, length_mm, width_mm,
                   error);
}

gboolean wb_roof_nudge(WbDocument *document, gint64 dx_mm, gint64 dy_mm, GError **error)
{
    const WbRoof *roof = roof_of(document);
    gint64 length = roof->length_mm + dx_mm, width = roof->width_mm + dy_mm;
    if (!leaves_nothing(roof, length, width, error))
        return FALSE;
    return dx_mm != 0 ? wb_document_set_number(document, _("Change the roof's length"),
                                               "/roof/length_mm", (double)length, error)
                      : wb_document_set_number(document, _("Change the roof's width"),
                                               "/roof/width_mm", (double)width, error);
}

gboolean wb_corners_set_given(WbDocument *document, gboolean given, GError **error)
{
    const WbRoof *roof = roof_of(document);
    if (given == (roof->n_corners > 0))
        return TRUE;
    const WbCorner rectangle[] = {
        {0, 0}, {roof->length_mm, 0}, {roof->length_mm, roof->width_mm}, {0, roof->width_mm}};
    g_autofree char *json = corners_json(rectangle, G_N_ELEMENTS(rectangle));
    wb_document_seal(document);
    return wb_document_set_json(document, _("Change the roof's outline"), "/roof/corners",
                                given ? json : "null", error);
}

gboolean wb_corner_add(WbDocument *document, guint edge, gint64 x_mm, gint64 y_mm, GError **error)
{
    gsize n = roof_of(document)->n_corners;
    g_return_val_if_fail(edge < n, FALSE);
    g_autofree char *pointer =
        edge + 1 < n ? g_strdup_printf("/roof/corners/%u", edge + 1) : g_strdup("/roof/corners/-");
    const WbCorner corner = {x_mm, y_mm};
    g_autofree char *list = corners_json(&corner, 1);
    list[strlen(list) - 1] = '\0'; /* the one item of the list */
    return wb_document_insert(document, _("Add a corner"), pointer, list + 1, error);
}

gboolean wb_corner_remove(WbDocument *document, guint index, GError **error)
{
    g_return_val_if_fail(index < roof_of(document)->n_corners, FALSE);
    g_autofree char *pointer = g_strdup_printf("/roof/corners/%u", index);
    return wb_document_remove(document, _("Remove a corner"), pointer, error);
}

static gboolean move(WbDocument *document, guint index, gint64 x_mm, gint64 y_mm, const char *run,
                     GError **error)
{
    const WbRoof *roof = roof_of(document);
    g_autofree WbCorner *corners =
        g_memdup2(roof->corners, roof->n_corners * sizeof *roof->corners);
    corners[index] = (WbCorner){x_mm, y_mm};
    return reshape(document, _("Move a corner"), run, corners, MAX(roof->length_mm, x_mm),
                   MAX(roof->width_mm, y_mm), error);
}

gboolean wb_corner_move(WbDocument *document, guint index, gint64 x_mm, gint64 y_mm, GError **error)
{
    g_return_val_if_fail(index < roof_of(document)->n_corners, FALSE);
    return move(document, index, x_mm, y_mm, NULL, error);
}

gboolean wb_corner_nudge(WbDocument *document, guint index, gint64 dx_mm, gint64 dy_mm,
                         GError **error)
{
    g_return_val_if_fail(index < roof_of(document)->n_corners, FALSE);
    const WbCorner *corner = &roof_of(document)->corners[index];
    g_autofree char *run = g_strdup_printf("/roof/corners/%u", index);
    return move(document, index, corner->x_mm + dx_mm, corner->y_mm + dy_mm, run, error);
}
