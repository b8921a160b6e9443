#include "roof_edit.h"
#include <glib/gi18n-lib.h>

gboolean wb_obstacle_add(WbDocument *document, GError **error)
{
    const WbRoof *roof = &wb_document_get_brief(document)->roof;
    gint64 side = MAX(1, MIN(400, MIN(roof->length_mm, roof->width_mm) / 4));
    g_autofree char *json =
        g_strdup_printf("{\"name\": \"Vent %u\", \"x_mm\": %" G_GINT64_FORMAT
                        ", \"y_mm\": %" G_GINT64_FORMAT ", \"length_mm\": %" G_GINT64_FORMAT
                        ", \"width_mm\": %" G_GINT64_FORMAT ", \"clearance_mm\": 50}",
                        (guint)roof->n_obstacles + 1, (roof->length_mm - side) / 2,
                        (roof->width_mm - side) / 2, side, side);
    if (roof->n_obstacles > 0)
        return wb_document_insert(document, _("Add an obstacle"), "/roof/obstacles/-", json, error);
    g_autofree char *list = g_strdup_printf("[%s]", json); /* there may be no list yet */
    wb_document_seal(document);
    return wb_document_set_json(document, _("Add an obstacle"), "/roof/obstacles", list, error);
}

static char *pointer_of(guint index, const char *key)
{
    return key ? g_strdup_printf("/roof/obstacles/%u/%s", index, key)
               : g_strdup_printf("/roof/obstacles/%u", index);
}

gboolean wb_obstacle_duplicate(WbDocument *document, guint index, GError **error)
{
    gsize n = wb_document_get_brief(document)->roof.n_obstacles;
    g_return_val_if_fail(index < n, FALSE);
    g_autofree char *from = pointer_of(index, NULL);
    g_autofree char *json = wb_document_get_json(document, from);
    g_autofree char *to =
        index + 1 < n ? pointer_of(index + 1, NULL) : g_strdup("/roof/obstacles/-");
    return wb_document_insert(document, _("Duplicate an obstacle"), to, json, error);
}

gboolean wb_obstacle_remove(WbDocument *document, guint index, GError **error)
{
    g_return_val_if_fail(index < wb_document_get_brief(document)->roof.n_obstacles, FALSE);
    g_autofree char *pointer = pointer_of(index, NULL);
    return wb_document_remove(document, _("Remove an obstacle"), pointer, error);
}

gboolean wb_obstacle_move(WbDocument *document, guint index, gint64 x_mm, gint64 y_mm,
                          GError **error)
{
    g_return_val_if_fail(index < wb_document_get_brief(document)->roof.n_obstacles, FALSE);
    g_autofree char *x = pointer_of(index, "x_mm");
    g_autofree char *y = pointer_of(index, "y_mm");
    g_autofree char *x_json = g_strdup_printf("%" G_GINT64_FORMAT, x_mm);
    g_autofree char *y_json = g_strdup_printf("%" G_GINT64_FORMAT, y_mm);
    const WbEdit edits[] = {{WB_EDIT_SET, x, x_json}, {WB_EDIT_SET, y, y_json}};
    return wb_document_apply(document, _("Move an obstacle"), edits, G_N_ELEMENTS(edits), error);
}

gboolean wb_obstacle_nudge(WbDocument *document, guint index, gint64 dx_mm, gint64 dy_mm,
                           GError **error)
{
    g_return_val_if_fail(index < wb_document_get_brief(document)->roof.n_obstacles, FALSE);
    const WbObstacle *obstacle = &wb_document_get_brief(document)->roof.obstacles[index];
    gint64 x = obstacle->x_mm + dx_mm, y = obstacle->y_mm + dy_mm;
    if (dx_mm != 0 && dy_mm != 0)
        return wb_obstacle_move(document, index, x, y, error);
    g_autofree char *pointer = pointer_of(index, dx_mm != 0 ? "x_mm" : "y_mm");
    return wb_document_set_number(document, _("Move an obstacle"), pointer,
                                  (double)(dx_mm != 0 ? x : y), error);
}

gboolean wb_bay_set_given(WbDocument *document, gboolean given, GError **error)
{
    static const char first[] = "{\"length_mm\": 600, \"width_mm\": 400, \"height_mm\": 300}";
    if (given == (wb_document_get_brief(document)->bay.length_mm > 0))
        return TRUE;
    wb_document_seal(document);
    return wb_document_set_json(document, _("Change the storage bay"), "/bay",
                                given ? first : "null", error);
}

static gboolean same_obstacles(const WbRoof *a, const WbRoof *b)
{
    if (a->n_obstacles != b->n_obstacles)
        return FALSE;
    for (gsize i = 0; i < a->n_obstacles; i++) {
        const WbObstacle *p = &a->obstacles[i], *q = &b->obstacles[i];
        if (p->x_mm != q->x_mm || p->y_mm != q->y_mm || p->length_mm != q->length_mm ||
            p->width_mm != q->width_mm || p->clearance_mm != q->clearance_mm ||
            p->height_mm != q->height_mm || p->kind != q->kind || p->round != q->round)
            return FALSE;
    }
    return TRUE;
}

static gboolean same_corners(const WbRoof *a, const WbRoof *b)
{
    if (a->n_corners != b->n_corners)
        return FALSE;
    for (gsize i = 0; i < a->n_corners; i++)
        if (a->corners[i].x_mm != b->corners[i].x_mm || a->corners[i].y_mm != b->corners[i].y_mm)
            return FALSE;
    return TRUE;
}

static gboolean same_pins(const WbRoof *a, const WbRoof *b)
{
    if (a->n_pins != b->n_pins)
        return FALSE;
    for (gsize i = 0; i < a->n_pins; i++) {
        const WbPin *p = &a->pins[i], *q = &b->pins[i];
        if (p->x_mm != q->x_mm || p->y_mm != q->y_mm || p->turned != q->turned ||
            g_strcmp0(p->part_id, q->part_id) != 0)
            return FALSE;
    }
    return TRUE;
}

static gboolean same_gland(const WbRoof *a, const WbRoof *b)
{
    return a->has_gland == b->has_gland &&
           (!a->has_gland || (a->gland.x_mm == b->gland.x_mm && a->gland.y_mm == b->gland.y_mm));
}

gboolean wb_roof_same(const WbRoof *a, const WbRoof *b)
{
    return a->length_mm == b->length_mm && a->width_mm == b->width_mm &&
           a->margin_mm == b->margin_mm && a->gap_mm == b->gap_mm &&
           a->standoff_mm == b->standoff_mm && a->over_obstacles == b->over_obstacles &&
           same_obstacles(a, b) && same_corners(a, b) && same_pins(a, b) && same_gland(a, b);
}
