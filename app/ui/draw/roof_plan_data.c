#include "roof_plan_private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

void wb_plan_data_clear(WbRoofPlan *self)
{
    for (gsize i = 0; i < self->roof.n_obstacles; i++)
        g_free((char *)self->roof.obstacles[i].name);
    for (guint i = 0; i < self->n_panels; i++)
        g_free((char *)self->panels[i].part_id);
    g_free((gpointer)self->roof.obstacles);
    g_free((gpointer)self->roof.corners);
    g_clear_pointer(&self->panels, g_free);
    g_clear_pointer(&self->rects, g_free);
    self->roof = (WbRoof){0};
    self->n_panels = 0;
    self->given = FALSE;
}

static void copy_roof(WbRoofPlan *self, const WbRoof *from)
{
    WbObstacle *obstacles = g_new0(WbObstacle, from->n_obstacles + 1);
    for (gsize i = 0; i < from->n_obstacles; i++) {
        obstacles[i] = from->obstacles[i];
        obstacles[i].name = g_strdup(from->obstacles[i].name);
    }
    self->roof = *from;
    self->roof.obstacles = obstacles;
    self->roof.corners = g_memdup2(from->corners, from->n_corners * sizeof *from->corners);
    self->roof.pins = NULL; /* the panels tell which are pinned */
    self->roof.n_pins = 0;
    self->given = from->length_mm > 0 && from->width_mm > 0;
}

void wb_plan_data_set(WbRoofPlan *self, const WbRoof *roof, const WbPlanPanel *panels, guint n)
{
    wb_plan_data_clear(self);
    if (roof == NULL)
        return;
    copy_roof(self, roof);
    self->n_panels = panels != NULL ? n : 0;
    self->panels = g_new0(WbPlanPanel, self->n_panels + 1);
    self->rects = g_new0(WbRect, self->n_panels + 1);
    for (guint i = 0; i < self->n_panels; i++) {
        self->panels[i] = panels[i];
        self->panels[i].part_id = g_strdup(panels[i].part_id);
        self->rects[i] = panels[i].rect;
    }
}

gboolean wb_plan_same(WbPlanThing a, WbPlanThing b)
{
    return a.kind == b.kind && (a.kind == WB_PLAN_NONE || a.index == b.index);
}

static guint count_of(WbRoofPlan *self, WbPlanKind kind)
{
    if (!self->given)
        return 0;
    switch (kind) {
    case WB_PLAN_NONE:
        return 0;
    case WB_PLAN_OBSTACLE:
        return (guint)self->roof.n_obstacles;
    case WB_PLAN_PANEL:
        return self->n_panels;
    case WB_PLAN_CORNER:
        return (guint)self->roof.n_corners;
    case WB_PLAN_RIGHT:
    case WB_PLAN_BACK:
        return self->roof.n_corners == 0;
    case WB_PLAN_GLAND:
        return self->roof.has_gland;
    }
    return 0;
}

gboolean wb_plan_has(WbRoofPlan *self, WbPlanThing thing)
{
    return thing.index >= 0 && (guint)thing.index < count_of(self, thing.kind);
}

WbRect wb_plan_rect(WbRoofPlan *self, WbPlanThing thing)
{
    const WbRoof *roof = &self->roof;
    if (!wb_plan_has(self, thing))
        return (WbRect){0};
    switch (thing.kind) {
    case WB_PLAN_OBSTACLE: {
        const WbObstacle *o = &roof->obstacles[thing.index];
        return (WbRect){o->x_mm, o->y_mm, o->length_mm, o->width_mm};
    }
    case WB_PLAN_PANEL:
        return self->rects[thing.index];
    case WB_PLAN_CORNER:
        return (WbRect){roof->corners[thing.index].x_mm, roof->corners[thing.index].y_mm, 0, 0};
    case WB_PLAN_RIGHT:
        return (WbRect){roof->length_mm, 0, 0, roof->width_mm};
    case WB_PLAN_BACK:
        return (WbRect){0, roof->width_mm, roof->length_mm, 0};
    case WB_PLAN_GLAND:
        return (WbRect){roof->gland.x_mm, roof->gland.y_mm, 0, 0};
    case WB_PLAN_NONE:
        break;
    }
    return (WbRect){0};
}

guint wb_plan_count(WbRoofPlan *self)
{
    guint n = 0;
    for (int kind = WB_PLAN_OBSTACLE; kind <= WB_PLAN_GLAND; kind++)
        n += count_of(self, (WbPlanKind)kind);
    return n;
}

WbPlanThing wb_plan_nth(WbRoofPlan *self, guint n)
{
    for (int kind = WB_PLAN_OBSTACLE; kind <= WB_PLAN_GLAND; kind++) {
        guint count = count_of(self, (WbPlanKind)kind);
        if (n < count)
            return (WbPlanThing){(WbPlanKind)kind, (int)n};
        n -= count;
    }
    return (WbPlanThing){WB_PLAN_NONE, 0};
}

guint wb_plan_position(WbRoofPlan *self, WbPlanThing thing)
{
    guint before = 0;
    for (int kind = WB_PLAN_OBSTACLE; kind < (int)thing.kind; kind++)
        before += count_of(self, (WbPlanKind)kind);
    return before + (guint)thing.index;
}

WbHeld wb_plan_around(WbRoofPlan *self, WbPlanThing thing)
{
    gboolean edge = thing.kind == WB_PLAN_RIGHT || thing.kind == WB_PLAN_BACK;
    WbHeldKind kind = thing.kind == WB_PLAN_OBSTACLE ? WB_HELD_OBSTACLE
                      : thing.kind == WB_PLAN_PANEL  ? WB_HELD_PANEL
                      : thing.kind == WB_PLAN_CORNER ? WB_HELD_CORNER
                      : edge                         ? WB_HELD_EDGE
                                                     : WB_HELD_POINT;
    return (WbHeld){&self->roof, self->rects, (int)self->n_panels, kind, thing.index};
}

char *wb_roof_plan_not_free(WbRoofPlan *self, int panel, const WbRect *rect)
{
    g_autofree WbRect *pinned = g_new(WbRect, self->n_panels + 1);
    int n = 0;
    if (self->panels[panel].part_id == NULL)
        return g_strdup(_("A mix is only looked at: pins hold the panels of one model. Choose a "
                          "model under What fits to move its panels."));
    for (guint i = 0; i < self->n_panels; i++)
        if (self->panels[i].pin >= 0 && (int)i != panel)
            pinned[n++] = self->rects[i];
    return wb_panel_not_free(&self->roof, rect, pinned, n);
}
