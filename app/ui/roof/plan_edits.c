#include "plan_edits.h"

#include "document.h"
#include "roof_edit.h"
#include "roof_shape_edit.h"
#include <glib/gi18n-lib.h>

typedef struct {
    WbRoofPlan *plan;
    WbObstacleTable *table;
    WbDocument *document;
} PlanEdits;

static void plan_edits_free(gpointer data)
{
    g_object_unref(((PlanEdits *)data)->document);
    g_free(data);
}

/* ---- one kind of thing each ---- */

static gboolean edit_obstacle(PlanEdits *self, const WbPlanEdit *edit, GError **error)
{
    const WbRect *rect = &edit->rect;
    guint index = (guint)edit->thing.index;
    switch ((int)edit->action) {
    case WB_PLAN_MOVE:
        return wb_obstacle_move(self->document, index, rect->x_mm, rect->y_mm, error);
    case WB_PLAN_RESIZE:
        return wb_obstacle_resize(self->document, index, rect->x_mm, rect->y_mm, rect->length_mm,
                                  rect->width_mm, error);
    case WB_PLAN_NUDGE:
        return wb_obstacle_nudge(self->document, index, rect->x_mm, rect->y_mm, error);
    case WB_PLAN_GROW:
        return wb_obstacle_grow(self->document, index, rect->x_mm, rect->y_mm, error);
    case WB_PLAN_REMOVE:
        wb_obstacle_table_remove(self->table, edit->thing.index); /* it chooses the next one */
        return TRUE;
    default:
        return TRUE;
    }
}

static gboolean edit_corner(PlanEdits *self, const WbPlanEdit *edit, GError **error)
{
    const WbRect *rect = &edit->rect;
    guint index = (guint)edit->thing.index;
    switch ((int)edit->action) {
    case WB_PLAN_MOVE:
        return wb_corner_move(self->document, index, rect->x_mm, rect->y_mm, error);
    case WB_PLAN_NUDGE:
        return wb_corner_nudge(self->document, index, rect->x_mm, rect->y_mm, error);
    case WB_PLAN_REMOVE:
        return wb_corner_remove(self->document, index, error);
    case WB_PLAN_ADD:
        if (!wb_corner_add(self->document, index, rect->x_mm, rect->y_mm, error))
            return FALSE;
        wb_roof_plan_choose(self->plan, (WbPlanThing){WB_PLAN_CORNER, (int)index + 1});
        return TRUE;
    default:
        return TRUE;
    }
}

static gboolean edit_edge(PlanEdits *self, const WbPlanEdit *edit, GError **error)
{
    const WbRoof *roof = &wb_document_get_brief(self->document)->roof;
    gboolean right = edit->thing.kind == WB_PLAN_RIGHT;
    if (edit->action == WB_PLAN_NUDGE)
        return wb_roof_nudge(self->document, right ? edit->rect.x_mm : 0,
                             right ? 0 : edit->rect.y_mm, error);
    if (edit->action != WB_PLAN_MOVE)
        return TRUE;
    return wb_roof_resize(self->document, right ? edit->rect.x_mm : roof->length_mm,
                          right ? roof->width_mm : edit->rect.y_mm, error);
}

static gboolean edit_gland(PlanEdits *self, const WbPlanEdit *edit, GError **error)
{
    switch ((int)edit->action) {
    case WB_PLAN_MOVE:
        return wb_gland_set(self->document, edit->rect.x_mm, edit->rect.y_mm, error);
    case WB_PLAN_NUDGE:
        return wb_gland_nudge(self->document, edit->rect.x_mm, edit->rect.y_mm, error);
    case WB_PLAN_REMOVE:
        return wb_gland_remove(self->document, error);
    default:
        return TRUE;
    }
}

/* ---- panels ---- */

/* Does it lie with the panel's width along the roof? A square one never does. */
static gboolean is_turned(PlanEdits *self, const char *part_id, const WbRect *rect)
{
    const WbCatalogue *catalogue = wb_document_get_catalogue(self->document);
    for (size_t i = 0; i < catalogue->n_panels; i++)
        if (g_strcmp0(catalogue->panels[i].part.id, part_id) == 0)
            return rect->length_mm != catalogue->panels[i].length_mm;
    return FALSE;
}

static gboolean is_free(PlanEdits *self, int panel, const WbRect *rect, GError **error)
{
    g_autofree char *sentence = wb_roof_plan_not_free(self->plan, panel, rect);
    if (sentence == NULL)
        return TRUE;
    g_set_error_literal(error, G_IO_ERROR, G_IO_ERROR_FAILED, sentence);
    return FALSE;
}

static gboolean pin(PlanEdits *self, const WbPlanPanel *panel, const WbRect *rect, GError **error)
{
    gboolean turned = is_turned(self, panel->part_id, rect);
    return wb_pin_add(self->document, panel->part_id, rect->x_mm, rect->y_mm, turned, error);
}

static gboolean edit_pinned(PlanEdits *self, const WbPlanEdit *edit, int index, const char *part_id,
                            GError **error)
{
    const WbRect *rect = &edit->rect;
    guint at = (guint)index;
    switch ((int)edit->action) {
    case WB_PLAN_MOVE:
        return wb_pin_move(self->document, at, rect->x_mm, rect->y_mm, error);
    case WB_PLAN_NUDGE:
        return wb_pin_nudge(self->document, at, rect->x_mm, rect->y_mm, error);
    case WB_PLAN_TURN:
        return wb_pin_turn(self->document, at, is_turned(self, part_id, rect), error);
    case WB_PLAN_PIN: /* pinned already: unpinned */
    case WB_PLAN_REMOVE:
        return wb_pin_remove(self->document, at, error);
    default:
        return TRUE;
    }
}

static gboolean edit_panel(PlanEdits *self, const WbPlanEdit *edit, GError **error)
{
    const WbPlanPanel *panel = wb_roof_plan_get_panel(self->plan, edit->thing.index);
    WbRect rect = edit->rect;
    gboolean moves = edit->action == WB_PLAN_MOVE || edit->action == WB_PLAN_NUDGE ||
                     edit->action == WB_PLAN_TURN;
    if (panel == NULL)
        return TRUE;
    if (edit->action == WB_PLAN_NUDGE)
        rect = (WbRect){panel->rect.x_mm + rect.x_mm, panel->rect.y_mm + rect.y_mm,
                        panel->rect.length_mm, panel->rect.width_mm};
    if ((moves || panel->part_id == NULL) && !is_free(self, edit->thing.index, &rect, error))
        return FALSE;
    if (panel->pin >= 0)
        return edit_pinned(self, edit, panel->pin, panel->part_id, error);
    return edit->action == WB_PLAN_REMOVE || pin(self, panel, &rect, error);
}

/* ---- signals ---- */

static gboolean do_edit(PlanEdits *self, const WbPlanEdit *edit, GError **error)
{
    switch (edit->thing.kind) {
    case WB_PLAN_OBSTACLE:
        return edit_obstacle(self, edit, error);
    case WB_PLAN_PANEL:
        return edit_panel(self, edit, error);
    case WB_PLAN_CORNER:
        return edit_corner(self, edit, error);
    case WB_PLAN_RIGHT:
    case WB_PLAN_BACK:
        return edit_edge(self, edit, error);
    case WB_PLAN_GLAND:
        return edit_gland(self, edit, error);
    case WB_PLAN_NONE:
        break;
    }
    return TRUE;
}

static void on_edit(WbRoofPlan *plan, gconstpointer edit, PlanEdits *self)
{
    g_autoptr(GError) error = NULL;
    wb_obstacle_table_tell(self->table, NULL);
    if (do_edit(self, edit, &error))
        return;
    wb_roof_plan_tell(plan, error->message);
    wb_obstacle_table_tell(self->table, error->message);
}

static void on_plan_chosen(WbRoofPlan *plan, int kind, int index, PlanEdits *self)
{
    wb_document_seal(self->document);
    wb_obstacle_table_choose(self->table, kind == WB_PLAN_OBSTACLE ? index : -1);
}

static void on_table_chosen(WbObstacleTable *table, int index, PlanEdits *self)
{
    wb_roof_plan_choose(self->plan,
                        (WbPlanThing){index >= 0 ? WB_PLAN_OBSTACLE : WB_PLAN_NONE, index});
}

void wb_plan_edits_connect(WbRoofPlan *plan, WbObstacleTable *table, WbDocument *document)
{
    PlanEdits *self = g_new0(PlanEdits, 1);
    *self = (PlanEdits){plan, table, g_object_ref(document)};
    g_object_set_data_full(G_OBJECT(plan), "wb-plan-edits", self, plan_edits_free);
    g_signal_connect(plan, "edit", G_CALLBACK(on_edit), self);
    g_signal_connect(plan, "chosen", G_CALLBACK(on_plan_chosen), self);
    g_signal_connect(table, "chosen", G_CALLBACK(on_table_chosen), self);
}

void wb_plan_edits_show(WbRoofPlan *plan, const WbRoof *roof, const char *part_id,
                        const WbRect *layout, int n)
{
    g_autofree WbPlanPanel *panels = g_new0(WbPlanPanel, n + 1);
    for (int i = 0; i < n; i++) {
        panels[i] = (WbPlanPanel){layout[i], part_id, -1};
        for (gsize pin = 0; pin < roof->n_pins; pin++)
            if (g_strcmp0(roof->pins[pin].part_id, part_id) == 0 &&
                roof->pins[pin].x_mm == layout[i].x_mm && roof->pins[pin].y_mm == layout[i].y_mm)
                panels[i].pin = (int)pin;
    }
    wb_roof_plan_show(plan, roof, panels, (guint)n);
}
