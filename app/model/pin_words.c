/* Why a pinned panel does not hold: the one thing that forbids its place. */
#include "figures_text.h"
#include "roof_pins.h"
#include "roof_words.h"
#include <glib/gi18n-lib.h>

typedef struct {
    const WbRoof *roof;
    const WbPanel *panel;
    const WbRect *pinned; /* of this panel */
    int bad;              /* the first that does not hold */
} Refused;

/* Whether it may stand on such a roof, without the others. */
static gboolean holds_on(const Refused *refused, const WbRoof *roof)
{
    return wb_roof_layout_ok(roof, refused->panel->length_mm, refused->panel->width_mm,
                             &refused->pinned[refused->bad], 1, NULL);
}

/* No panel can be laid where a length is beyond what is reckoned with, not even none. */
static gboolean can_be_reckoned_with(const WbRoof *roof, const WbPanel *panel)
{
    WbRoofFit fit;
    if (wb_roof_most(roof, panel->length_mm, panel->width_mm, 0, 1, NULL, &fit) != WB_OK)
        return FALSE;
    wb_roof_fit_free(&fit);
    return TRUE;
}

/* NULL: the edge does not forbid it. */
static char *edge_words(const Refused *refused)
{
    WbRoof bare = *refused->roof;
    bare.n_obstacles = 0;
    if (holds_on(refused, &bare))
        return NULL;
    bare.margin_mm = 0;
    if (!holds_on(refused, &bare))
        return g_strdup(_("it reaches over the edge of the roof"));
    g_autofree char *margin = wb_text_number((double)refused->roof->margin_mm, 0);
    return g_strdup_printf(_("it does not keep the margin of %s mm to the edge"), margin);
}

static char *obstacle_words(const Refused *refused, int index)
{
    WbRoof alone = *refused->roof;
    WbObstacle obstacle = alone.obstacles[index];
    alone.obstacles = &obstacle;
    alone.n_obstacles = 1;
    if (holds_on(refused, &alone))
        return NULL;
    g_autofree char *name = wb_roof_obstacle_name(refused->roof, index);
    obstacle.clearance_mm = 0;
    if (!holds_on(refused, &alone))
        return g_strdup_printf(_("it lies over %s"), name);
    g_autofree char *apart =
        wb_text_number((double)refused->roof->obstacles[index].clearance_mm, 0);
    return g_strdup_printf(_("it is nearer to %s than the clearance of %s mm"), name, apart);
}

static char *other_words(const Refused *refused, int other)
{
    const WbRect pair[] = {refused->pinned[other], refused->pinned[refused->bad]};
    const WbPanel *panel = refused->panel;
    WbRoof roof = *refused->roof;
    if (wb_roof_layout_ok(&roof, panel->length_mm, panel->width_mm, pair, 2, NULL))
        return NULL;
    g_autofree char *x = wb_text_number((double)pair[0].x_mm, 0);
    g_autofree char *y = wb_text_number((double)pair[0].y_mm, 0);
    g_autofree char *gap = wb_text_number((double)roof.gap_mm, 0);
    roof.gap_mm = 0;
    return wb_roof_layout_ok(&roof, panel->length_mm, panel->width_mm, pair, 2, NULL)
               ? g_strdup_printf(_("it is nearer than the gap of %s mm to the one pinned %s mm "
                                   "from the left and %s mm from the front"),
                                 gap, x, y)
               : g_strdup_printf(_("it lies over the one pinned %s mm from the left and %s mm "
                                   "from the front"),
                                 x, y);
}

static char *reason_words(const Refused *refused)
{
    char *words = edge_words(refused);
    for (gsize i = 0; i < refused->roof->n_obstacles && words == NULL; i++)
        words = obstacle_words(refused, (int)i);
    for (int i = 0; i < refused->bad && words == NULL; i++)
        words = other_words(refused, i);
    return words;
}

char *wb_roof_refused_words(const WbRoof *roof, const WbPanel *panel)
{
    int n;
    Refused refused = {.roof = roof, .panel = panel};
    g_autofree WbRect *pinned = wb_roof_pinned(roof, panel, &n);
    refused.pinned = pinned;
    gboolean all_hold =
        n == 0 || !can_be_reckoned_with(roof, panel) ||
        wb_roof_layout_ok(roof, panel->length_mm, panel->width_mm, pinned, n, &refused.bad);
    g_autofree char *reason = all_hold ? NULL : reason_words(&refused);
    if (reason == NULL)
        return g_strdup(_("This roof and this panel cannot be reckoned with: a length is beyond "
                          "100 m or an obstacle far beyond the roof."));
    g_autofree char *x = wb_text_number((double)pinned[refused.bad].x_mm, 0);
    g_autofree char *y = wb_text_number((double)pinned[refused.bad].y_mm, 0);
    /* Translators: two lengths in mm, then why. */
    return g_strdup_printf(_("The panel pinned %s mm from the left and %s mm from the front does "
                             "not hold there: %s. Move it or unpin it."),
                           x, y, reason);
}
