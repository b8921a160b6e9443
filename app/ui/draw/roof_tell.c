/* A roof plan in words, for a screen reader. */
#include "roof_plan_private.h"

#include "format.h"
#include "pen.h"
#include "roof_words.h"
#include <glib/gi18n-lib.h>

#define MOST_OBSTACLES 20 /* told one by one */

/* Of a thing, for people. (transfer full) */
char *wb_plan_name(WbRoofPlan *self, WbPlanThing thing)
{
    switch (thing.kind) {
    case WB_PLAN_OBSTACLE:
        return wb_roof_obstacle_name(&self->roof, thing.index);
    case WB_PLAN_PANEL:
        return g_strdup_printf(self->panels[thing.index].pin >= 0 ? _("panel %d, pinned")
                                                                  : _("panel %d"),
                               thing.index + 1);
    case WB_PLAN_CORNER:
        return g_strdup_printf(_("corner %d"), thing.index + 1);
    case WB_PLAN_RIGHT:
        return g_strdup(_("the right edge"));
    case WB_PLAN_BACK:
        return g_strdup(_("the back edge"));
    case WB_PLAN_GLAND:
        return g_strdup(_("the cable gland"));
    case WB_PLAN_NONE:
        break;
    }
    return g_strdup("");
}

static const char *kind_text(const WbObstacle *obstacle)
{
    switch (obstacle->kind) {
    case WB_OBSTACLE_WALKWAY:
        return _(" It is a walkway.");
    case WB_OBSTACLE_SHADE:
        return _(" It is a shaded area.");
    default:
        return obstacle->round ? _(" It is round.") : "";
    }
}

static void tell_obstacle(WbRoofPlan *self, GString *text, int index)
{
    const WbObstacle *o = &self->roof.obstacles[index];
    g_autofree char *name = wb_roof_obstacle_name(&self->roof, index);
    g_string_append_printf(text,
                           _(" %s: %" G_GINT64_FORMAT " by %" G_GINT64_FORMAT
                             " mm at %" G_GINT64_FORMAT ", %" G_GINT64_FORMAT "."),
                           name, o->length_mm, o->width_mm, o->x_mm, o->y_mm);
    g_string_append(text, kind_text(o));
    if (o->height_mm > 0)
        g_string_append_printf(text, _(" Height %" G_GINT64_FORMAT " mm."), o->height_mm);
}

static void tell_obstacles(WbRoofPlan *self, GString *text)
{
    int n = (int)self->roof.n_obstacles;
    for (int i = 0; i < MIN(n, MOST_OBSTACLES); i++)
        tell_obstacle(self, text, i);
    if (n > MOST_OBSTACLES)
        g_string_append_printf(text,
                               g_dngettext(GETTEXT_PACKAGE, " And %d obstacle more.",
                                           " And %d obstacles more.", (gulong)(n - MOST_OBSTACLES)),
                               n - MOST_OBSTACLES);
}

static void tell_panels(WbRoofPlan *self, GString *text)
{
    guint pinned = 0;
    for (guint i = 0; i < self->n_panels; i++)
        pinned += self->panels[i].pin >= 0;
    g_string_append_printf(
        text, g_dngettext(GETTEXT_PACKAGE, " %u panel laid.", " %u panels laid.", self->n_panels),
        self->n_panels);
    if (pinned > 0)
        g_string_append_printf(
            text, g_dngettext(GETTEXT_PACKAGE, " %u is pinned.", " %u are pinned.", pinned),
            pinned);
}

/* The distances that are drawn beside it. */
static void tell_chosen(WbRoofPlan *self, GString *text)
{
    static const char *const sides[] = {N_("left"), N_("right"), N_("front"), N_("back")};
    WbPlanThing thing = self->chosen;
    if (!wb_plan_has(self, thing))
        return;
    g_autofree char *name = wb_plan_name(self, thing);
    WbRect rect = wb_plan_rect(self, thing);
    /* Translators: an obstacle's name. */
    g_string_append_printf(text, _(" Chosen: %s."), name);
    if (thing.kind == WB_PLAN_RIGHT || thing.kind == WB_PLAN_BACK)
        return;
    g_string_append_printf(text, _(" It is at %" G_GINT64_FORMAT ", %" G_GINT64_FORMAT "."),
                           rect.x_mm, rect.y_mm);
    if (thing.kind == WB_PLAN_CORNER)
        return;
    WbDistance distance[WB_N_SIDES];
    WbHeld around = wb_plan_around(self, thing);
    wb_held_distances(&around, &rect, distance);
    for (int side = 0; side < WB_N_SIDES; side++)
        if (distance[side].found)
            /* Translators: free room at a side of the chosen thing: "Free to the left: 120 mm." */
            g_string_append_printf(text, _(" Free to the %s: %" G_GINT64_FORMAT " mm."),
                                   _(sides[side]), distance[side].mm);
}

void wb_roof_plan_describe(WbRoofPlan *self)
{
    GString *text = g_string_new(NULL);
    if (!self->given) {
        g_string_append(text, _("Give the roof's length and width to see it here."));
    } else {
        g_autofree char *length = wb_format_quantity((double)self->roof.length_mm, 0, "mm");
        g_autofree char *width = wb_format_quantity((double)self->roof.width_mm, 0, "mm");
        g_string_append_printf(text, _("%s by %s."), length, width);
        if (self->roof.n_corners > 0)
            g_string_append_printf(text, _(" An outline of %u corners."),
                                   (guint)self->roof.n_corners);
        tell_obstacles(self, text);
        tell_panels(self, text);
        if (self->trial.panels != NULL)
            g_string_append_printf(text, _(" Shown dashed: how %u would lie after the change."),
                                   self->trial.n);
        tell_chosen(self, text);
        if (self->told != NULL)
            g_string_append_printf(text, " %s", self->told);
    }
    wb_pen_describe(GTK_WIDGET(self), _("The roof from above"), text->str);
    g_string_free(text, TRUE);
}
