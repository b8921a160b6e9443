/* Names on a roof drawing, each where it hides nothing: in the thing itself where it has room, else
 * beside it, first where the roof is bare, then over a panel's paper; never over what stands there
 * or over another name. A name without any place is left out: the words beside the drawing tell
 * it. */
#include "roof_ink.h"
#include "roof_plan_private.h"

#include "figures_text.h"
#include <glib/gi18n-lib.h>
#include <math.h>

#define MOST_BESIDE 40   /* names beside small obstacles: more would cover the roof */
#define AWAY 4           /* px between a thing and a name beside it */
#define FIGURES_WIDTH 74 /* px: a panel's number and size, in its middle */
#define FIGURES_HEIGHT 30
#define HIGH_ON_ITS_OWN 34 /* px: the height over the roof gets a line of its own */

typedef struct {
    double x, y, width, height;
} Box;

typedef struct {
    WbRoofPlan *plan;
    WbInk *ink;
    GArray *taken;  /* Box: what no name may cover */
    GArray *panels; /* Box */
} Names;

/* ---- what is where ---- */

static Box box_of(const WbInk *ink, const WbRect *rect)
{
    return (Box){wb_ink_x(ink, rect->x_mm), wb_ink_y(ink, rect->y_mm),
                 ink->place.scale * (double)rect->length_mm,
                 ink->place.scale * (double)rect->width_mm};
}

static gboolean meets_any(const GArray *boxes, const Box *box)
{
    for (guint i = 0; i < boxes->len; i++) {
        const Box *other = &g_array_index(boxes, Box, i);
        if (other->x < box->x + box->width && box->x < other->x + other->width &&
            other->y < box->y + box->height && box->y < other->y + other->height)
            return TRUE;
    }
    return FALSE;
}

/* Inside the strips of the dimensions. */
static gboolean in_sight(const WbInk *ink, const Box *box)
{
    return box->x >= WB_VIEW_LEFT && box->y >= WB_VIEW_TOP && box->x + box->width <= ink->width &&
           box->y + box->height <= ink->height - WB_VIEW_BOTTOM;
}

/* The first place that is bare, else the first over a panel; NULL: there is none. */
static const Box *best_of(Names *self, const Box *place, guint n)
{
    const Box *over_panel = NULL;
    for (guint i = 0; i < n; i++) {
        if (!in_sight(self->ink, &place[i]) || meets_any(self->taken, &place[i]))
            continue;
        if (!meets_any(self->panels, &place[i]))
            return &place[i];
        over_panel = over_panel != NULL ? over_panel : &place[i];
    }
    return over_panel;
}

static gboolean is_bare(Names *self, const Box *place)
{
    return place != NULL && !meets_any(self->panels, place);
}

static void write_at(Names *self, const char *text, const Box *place)
{
    wb_ink_label(self->ink, text, place->x, place->y + place->height / 2, 0, 0.5,
                 &self->ink->palette.ink);
    g_array_append_val(self->taken, *place);
}

/* ---- beside a thing ---- */

/* Towards the roof's middle first; all four sides of the thing. */
static void places_beside(Names *self, const Box *thing, double width, double height, Box place[4])
{
    const WbRoof *roof = &self->plan->roof;
    double middle = wb_ink_x(self->ink, roof->length_mm / 2);
    double x = thing->x + (thing->width - width) / 2, y = thing->y + (thing->height - height) / 2;
    double right = thing->x + thing->width + AWAY, left = thing->x - AWAY - width;
    gboolean from_right = thing->x + thing->width / 2 > middle;
    place[0] = (Box){from_right ? left : right, y, width, height};
    place[1] = (Box){x, thing->y - AWAY - height, width, height};
    place[2] = (Box){x, thing->y + thing->height + AWAY, width, height};
    place[3] = (Box){from_right ? right : left, y, width, height};
}

/* bare_only: not over panels. */
static gboolean name_beside(Names *self, const char *text, const Box *thing, gboolean bare_only)
{
    int width, height;
    Box place[4];
    wb_ink_text_size(self->ink, text, &width, &height);
    places_beside(self, thing, width + 6, height, place);
    const Box *best = best_of(self, place, G_N_ELEMENTS(place));
    if (best == NULL || (bare_only && !is_bare(self, best)))
        return FALSE;
    write_at(self, text, best);
    return TRUE;
}

/* ---- one obstacle ---- */

/* The name, with the height under it where there is room. (transfer full) */
static char *text_of(const WbObstacle *obstacle, double height_px)
{
    if (obstacle->height_mm <= 0)
        return g_strdup(obstacle->name);
    g_autofree char *high = wb_text_number((double)obstacle->height_mm, 0);
    /* Translators: mm over the roof. */
    g_autofree char *told = g_strdup_printf(_("%s high"), high);
    return g_strdup_printf(height_px >= HIGH_ON_ITS_OWN ? "%s\n%s" : "%s, %s", obstacle->name,
                           told);
}

/* It stands: in it whole, upright, beside it on the bare roof, shortened in it, over a panel. */
static void name_standing(Names *self, const WbObstacle *obstacle, const Box *box)
{
    gboolean few = self->plan->roof.n_obstacles <= MOST_BESIDE;
    g_autofree char *text = text_of(obstacle, box->height);
    if (wb_ink_holds(self->ink, text, box->width, box->height)) {
        wb_ink_label_within(self->ink, text, box->x, box->y, box->width, box->height);
        return;
    }
    if (wb_ink_text_upright(self->ink, obstacle->name, box->x, box->y, box->width, box->height) ||
        (few && name_beside(self, obstacle->name, box, TRUE)) ||
        wb_ink_label_within(self->ink, obstacle->name, box->x, box->y, box->width, box->height))
        return;
    if (few)
        name_beside(self, obstacle->name, box, FALSE);
}

/* It lies flat under what stands on it: in its middle or in a corner of it, where it can be read.
 */
static void name_flat(Names *self, const WbObstacle *obstacle, const Box *box)
{
    int across, down;
    wb_ink_text_size(self->ink, obstacle->name, &across, &down);
    double width = across + 6, height = down;
    if (width > box->width || height > box->height) {
        if (self->plan->roof.n_obstacles <= MOST_BESIDE)
            name_beside(self, obstacle->name, box, FALSE);
        return;
    }
    double right = box->x + box->width - width - 2, back = box->y + box->height - height - 2;
    double x = box->x + 2, y = box->y + 2;
    const Box place[] = {
        {(x + right) / 2, (y + back) / 2, width, height},
        {x, y, width, height},
        {right, y, width, height},
        {x, back, width, height},
        {right, back, width, height},
        {(x + right) / 2, y, width, height},
        {(x + right) / 2, back, width, height},
    };
    const Box *best = best_of(self, place, G_N_ELEMENTS(place));
    if (best != NULL)
        write_at(self, obstacle->name, best);
}

static gboolean stands(const WbObstacle *obstacle)
{
    return obstacle->kind == WB_OBSTACLE_STANDS;
}

static void name_obstacle(Names *self, int index, const WbRect *rect)
{
    const WbObstacle *obstacle = &self->plan->roof.obstacles[index];
    Box box = box_of(self->ink, rect);
    if (obstacle->name == NULL || !wb_ink_in_sight(self->ink, rect))
        return;
    if (stands(obstacle))
        name_standing(self, obstacle, &box);
    else
        name_flat(self, obstacle, &box);
}

/* ---- all ---- */

static void begin(Names *self, WbRoofPlan *plan, WbInk *ink, WbPlanThing but)
{
    *self = (Names){plan, ink, g_array_new(FALSE, FALSE, sizeof(Box)),
                    g_array_new(FALSE, FALSE, sizeof(Box))};
    for (gsize i = 0; i < plan->roof.n_obstacles; i++) {
        const WbRect rect = wb_plan_rect(plan, (WbPlanThing){WB_PLAN_OBSTACLE, (int)i});
        const Box box = box_of(ink, &rect);
        if (stands(&plan->roof.obstacles[i]) &&
            !wb_plan_same(but, (WbPlanThing){WB_PLAN_OBSTACLE, (int)i}))
            g_array_append_val(self->taken, box);
    }
    gboolean trial = plan->trial.panels != NULL;
    const WbRect *panels = trial ? plan->trial.panels : plan->rects;
    for (guint i = 0; i < (trial ? plan->trial.n : plan->n_panels); i++) {
        const Box box = box_of(ink, &panels[i]);
        const Box figures = {box.x + (box.width - FIGURES_WIDTH) / 2,
                             box.y + (box.height - FIGURES_HEIGHT) / 2, FIGURES_WIDTH,
                             FIGURES_HEIGHT};
        g_array_append_val(self->panels, box);
        g_array_append_val(self->taken, figures);
    }
}

static void end(Names *self)
{
    g_array_unref(self->taken);
    g_array_unref(self->panels);
}

static void name_gland(Names *self, int64_t x_mm, int64_t y_mm)
{
    const WbRect at = {x_mm, y_mm, 0, 0};
    Box ring = box_of(self->ink, &at);
    ring = (Box){ring.x - 9, ring.y - 9, 18, 18};
    g_array_append_val(self->taken, ring);
    name_beside(self, _("Cable gland"), &ring, FALSE);
}

void wb_plan_paint_names(WbRoofPlan *self, WbInk *ink)
{
    Names names;
    const WbRoof *roof = &self->roof;
    WbPlanThing held = self->held.off ? self->held.thing : (WbPlanThing){WB_PLAN_NONE, 0};
    begin(&names, self, ink, held);
    if (roof->has_gland && held.kind != WB_PLAN_GLAND)
        name_gland(&names, roof->gland.x_mm, roof->gland.y_mm);
    for (int flat = 0; flat < 2; flat++)
        for (gsize i = 0; i < roof->n_obstacles; i++) {
            WbPlanThing thing = {WB_PLAN_OBSTACLE, (int)i};
            const WbRect rect = wb_plan_rect(self, thing);
            if (stands(&roof->obstacles[i]) != flat && !wb_plan_same(held, thing))
                name_obstacle(&names, (int)i, &rect);
        }
    end(&names);
}

void wb_plan_paint_name(WbRoofPlan *self, WbInk *ink, WbPlanThing thing, const WbRect *rect)
{
    Names names;
    begin(&names, self, ink, thing);
    if (thing.kind == WB_PLAN_GLAND)
        name_gland(&names, rect->x_mm, rect->y_mm);
    else if (thing.kind == WB_PLAN_OBSTACLE)
        name_obstacle(&names, thing.index, rect);
    end(&names);
}
