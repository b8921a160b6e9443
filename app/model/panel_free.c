#include "roof_hand.h"
#include "roof_words.h"
#include <glib/gi18n-lib.h>

/* Alone on a roof with only these obstacles, by the checker of layouts. */
static gboolean lies_on(WbRoof roof, const WbRect *rect, const WbObstacle *obstacles, gsize n)
{
    roof.obstacles = obstacles;
    roof.n_obstacles = n;
    return wb_roof_layout_ok(&roof, rect->length_mm, rect->width_mm, rect, 1, NULL);
}

static gboolean too_near(const WbRect *a, const WbRect *b, gint64 gap)
{
    return a->x_mm < b->x_mm + b->length_mm + gap && b->x_mm < a->x_mm + a->length_mm + gap &&
           a->y_mm < b->y_mm + b->width_mm + gap && b->y_mm < a->y_mm + a->width_mm + gap;
}

char *wb_panel_not_free(const WbRoof *roof, const WbRect *rect, const WbRect *pinned, int n_pinned)
{
    for (int i = 0; i < n_pinned; i++)
        if (too_near(rect, &pinned[i], roof->gap_mm))
            return g_strdup(_("A panel cannot lie there: it would be too near to a pinned one."));
    if (lies_on(*roof, rect, roof->obstacles, roof->n_obstacles))
        return NULL;
    if (!lies_on(*roof, rect, NULL, 0))
        return g_strdup(_("A panel cannot lie there: it would reach over the edge, or into what is "
                          "kept free along it."));
    for (gsize i = 0; i < roof->n_obstacles; i++) {
        if (lies_on(*roof, rect, &roof->obstacles[i], 1))
            continue;
        g_autofree char *name = wb_roof_obstacle_name(roof, (int)i);
        /* Translators: %s is an obstacle. */
        return g_strdup_printf(_("A panel cannot lie there: %s needs the room."), name);
    }
    return g_strdup(_("A panel cannot lie there."));
}
