/* Size, shape and kind of an obstacle. */
#include "edit_list.h"
#include "roof_shape_edit.h"
#include <glib/gi18n-lib.h>

static const WbObstacle *obstacle_of(WbDocument *document, guint index)
{
    return &wb_document_get_brief(document)->roof.obstacles[index];
}

static gboolean is_there(WbDocument *document, guint index)
{
    return index < wb_document_get_brief(document)->roof.n_obstacles;
}

static char *pointer_of(guint index, const char *key)
{
    return g_strdup_printf("/roof/obstacles/%u/%s", index, key);
}

/* Every edit of a list has to give a valid brief: a round one is a rectangle while its two lengths
 * differ, and it is as large as before or after while it moves, so that it never lies outside. */
static void list_box(WbEditList *list, guint index, const WbObstacle *from, const WbObstacle *to)
{
    if (from->round)
        wb_edit_list_set(list, pointer_of(index, "shape"), "\"rectangle\"");
    wb_edit_list_set_mm(list, pointer_of(index, "length_mm"), MAX(from->length_mm, to->length_mm));
    wb_edit_list_set_mm(list, pointer_of(index, "width_mm"), MAX(from->width_mm, to->width_mm));
    wb_edit_list_set_mm(list, pointer_of(index, "x_mm"), to->x_mm);
    wb_edit_list_set_mm(list, pointer_of(index, "y_mm"), to->y_mm);
    wb_edit_list_set_mm(list, pointer_of(index, "length_mm"), to->length_mm);
    wb_edit_list_set_mm(list, pointer_of(index, "width_mm"), to->width_mm);
    if (to->round)
        wb_edit_list_set(list, pointer_of(index, "shape"), "\"round\"");
}

static gboolean resize(WbDocument *document, guint index, WbObstacle to, const char *run,
                       GError **error)
{
    if (to.round)
        to.length_mm = to.width_mm = MAX(to.length_mm, to.width_mm);
    WbEditList list = {0};
    list_box(&list, index, obstacle_of(document, index), &to);
    return wb_edit_list_apply(&list, document, _("Change an obstacle's size"), run, error);
}

gboolean wb_obstacle_resize(WbDocument *document, guint index, gint64 x_mm, gint64 y_mm,
                            gint64 length_mm, gint64 width_mm, GError **error)
{
    g_return_val_if_fail(is_there(document, index), FALSE);
    WbObstacle to = *obstacle_of(document, index);
    to.x_mm = x_mm;
    to.y_mm = y_mm;
    to.length_mm = length_mm;
    to.width_mm = width_mm;
    return resize(document, index, to, NULL, error);
}

gboolean wb_obstacle_grow(WbDocument *document, guint index, gint64 dx_mm, gint64 dy_mm,
                          GError **error)
{
    g_return_val_if_fail(is_there(document, index), FALSE);
    WbObstacle to = *obstacle_of(document, index);
    g_autofree char *run = pointer_of(index, "length_mm, width_mm");
    if (to.round)
        dx_mm = dy_mm = dx_mm != 0 ? dx_mm : dy_mm;
    to.length_mm += dx_mm;
    to.width_mm += dy_mm;
    return resize(document, index, to, run, error);
}

gboolean wb_obstacle_set_round(WbDocument *document, guint index, gboolean round, GError **error)
{
    g_return_val_if_fail(is_there(document, index), FALSE);
    WbObstacleKind kind = (WbObstacleKind)obstacle_of(document, index)->kind;
    return wb_obstacle_set_form(document, index, kind, round, error);
}

gboolean wb_obstacle_set_kind(WbDocument *document, guint index, WbObstacleKind kind,
                              GError **error)
{
    g_return_val_if_fail(is_there(document, index), FALSE);
    gboolean round = obstacle_of(document, index)->round;
    return wb_obstacle_set_form(document, index, kind, round, error);
}

static WbObstacle in_shape(WbObstacle obstacle, gboolean round)
{
    gint64 across_mm = MIN(obstacle.length_mm, obstacle.width_mm);
    if (round) {
        obstacle.x_mm += (obstacle.length_mm - across_mm) / 2;
        obstacle.y_mm += (obstacle.width_mm - across_mm) / 2;
        obstacle.length_mm = obstacle.width_mm = across_mm;
    }
    obstacle.round = round;
    return obstacle;
}

gboolean wb_obstacle_set_form(WbDocument *document, guint index, WbObstacleKind kind,
                              gboolean round, GError **error)
{
    static const char *const words[] = {"\"stands\"", "\"walkway\"", "\"shade\""};
    g_return_val_if_fail(is_there(document, index) && kind < G_N_ELEMENTS(words), FALSE);
    const WbObstacle *from = obstacle_of(document, index);
    gboolean other = from->kind != (int)kind;
    WbEditList list = {0};
    if (other)
        wb_edit_list_set(&list, pointer_of(index, "kind"), words[kind]);
    if (from->round != round) {
        WbObstacle to = in_shape(*from, round);
        list_box(&list, index, from, &to);
    }
    return list.n == 0 || wb_edit_list_apply(&list, document,
                                             other ? _("Change an obstacle's kind")
                                                   : _("Change an obstacle's shape"),
                                             NULL, error);
}

gboolean wb_obstacle_set_height(WbDocument *document, guint index, gint64 height_mm, GError **error)
{
    g_return_val_if_fail(is_there(document, index), FALSE);
    if (obstacle_of(document, index)->height_mm == height_mm)
        return TRUE;
    g_autofree char *pointer = pointer_of(index, "height_mm");
    return wb_document_set_number(document, _("Change an obstacle's height"), pointer,
                                  (double)height_mm, error);
}
