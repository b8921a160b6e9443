/* Tries, in this order and over again while one helps: all panels, half of them on one side of a
 * line, and those that share a line, slid onto another line, out of a shade area, towards the gland
 * and to the centre; then single panels to new places where lines, edges and neighbours meet. */
#include "seating.h"
#include <stdlib.h>

/* Obstacles whose sides give new places. */
enum { OBSTACLES_LOOKED_AT = 16 };

typedef enum { BELOW, ON_LOW, ON_HIGH, ABOVE, N_SIDES } Side;

static int64_t low_of(const WbRect *rect, int axis)
{
    return axis == 0 ? rect->x_mm : rect->y_mm;
}

static int64_t size_of(const WbRect *rect, int axis)
{
    return axis == 0 ? rect->length_mm : rect->width_mm;
}

static int64_t high_of(const WbRect *rect, int axis)
{
    return low_of(rect, axis) + size_of(rect, axis);
}

static bool shift(WbSeating *seating, int n_members, int axis, int64_t by_mm)
{
    return wb_seating_shift(seating, n_members, axis == 0 ? by_mm : 0, axis == 0 ? 0 : by_mm);
}

/* As far as it helps: the whole way, then half of it, and so on; to the millimetre where the way is
 * free up to some point. */
static bool push(WbSeating *seating, int n_members, int axis, int64_t by_mm)
{
    bool helped = false;
    for (; by_mm != 0; by_mm /= 2)
        helped |= shift(seating, n_members, axis, by_mm);
    return helped;
}

/* Where the members lie along an axis. */
typedef struct {
    int64_t low, high;
} Reach;

static Reach reach_of(const WbSeating *seating, int n_members, int axis)
{
    Reach reach = {INT64_MAX, INT64_MIN};
    for (int i = 0; i < n_members; i++) {
        const WbRect *rect = &seating->rect[seating->member[i]];
        reach.low = low_of(rect, axis) < reach.low ? low_of(rect, axis) : reach.low;
        reach.high = high_of(rect, axis) > reach.high ? high_of(rect, axis) : reach.high;
    }
    return reach;
}

/* Each line once: the first panel that has it stands for it. */
static bool first_on_line(const WbSeating *seating, int panel, int axis, bool high)
{
    const WbRect *rect = &seating->rect[panel];
    for (int i = 0; i < panel; i++)
        if (high ? high_of(&seating->rect[i], axis) == high_of(rect, axis)
                 : low_of(&seating->rect[i], axis) == low_of(rect, axis))
            return false;
    return true;
}

static bool onto_lines(WbSeating *seating, int n_members, int axis)
{
    bool helped = false;
    for (int i = 0; i < seating->n && seating->work_left > 0; i++) {
        if (first_on_line(seating, i, axis, false))
            helped |=
                shift(seating, n_members, axis,
                      low_of(&seating->rect[i], axis) - reach_of(seating, n_members, axis).low);
        if (first_on_line(seating, i, axis, true))
            helped |=
                shift(seating, n_members, axis,
                      high_of(&seating->rect[i], axis) - reach_of(seating, n_members, axis).high);
    }
    return helped;
}

static bool out_of_shade(WbSeating *seating, int n_members, int axis)
{
    bool helped = false;
    const WbRoof *roof = seating->roof;
    for (size_t k = 0; k < roof->n_obstacles && seating->work_left > 0; k++) {
        if (roof->obstacles[k].kind != WB_OBSTACLE_SHADE)
            continue;
        const WbObstacle *area = &roof->obstacles[k];
        WbRect rect = {area->x_mm, area->y_mm, area->length_mm, area->width_mm};
        helped |= push(seating, n_members, axis,
                       low_of(&rect, axis) - reach_of(seating, n_members, axis).high);
        helped |= push(seating, n_members, axis,
                       high_of(&rect, axis) - reach_of(seating, n_members, axis).low);
    }
    return helped;
}

static bool to_gland(WbSeating *seating, int n_members, int axis)
{
    const WbRoof *roof = seating->roof;
    if (!roof->has_gland)
        return false;
    int64_t gland_mm = axis == 0 ? roof->gland.x_mm : roof->gland.y_mm;
    Reach reach = reach_of(seating, n_members, axis);
    return push(seating, n_members, axis, gland_mm - (reach.low + reach.high) / 2);
}

/* Rounded either way, so that a mirrored roof is served alike. */
static bool to_centre(WbSeating *seating, int n_members, int axis)
{
    Reach all = {INT64_MAX, INT64_MIN};
    for (int i = 0; i < seating->n; i++) {
        const WbRect *rect = &seating->rect[i];
        all.low = low_of(rect, axis) < all.low ? low_of(rect, axis) : all.low;
        all.high = high_of(rect, axis) > all.high ? high_of(rect, axis) : all.high;
    }
    int64_t frame_mm = axis == 0 ? seating->roof->length_mm : seating->roof->width_mm;
    return push(seating, n_members, axis, (frame_mm - all.high - all.low) / 2);
}

static bool slide_members(WbSeating *seating, int n_members)
{
    bool helped = false;
    for (int axis = 0; axis < 2 && n_members > 0; axis++) {
        helped |= out_of_shade(seating, n_members, axis);
        helped |= onto_lines(seating, n_members, axis);
        helped |= to_gland(seating, n_members, axis);
        helped |= to_centre(seating, n_members, axis);
    }
    return helped;
}

/* Panels that are not pinned and stand so against the line of this one. */
static int gather(WbSeating *seating, int panel, int axis, Side side)
{
    const WbRect *line = &seating->rect[panel];
    int n = 0;
    for (int i = seating->n_pinned; i < seating->n; i++) {
        const WbRect *rect = &seating->rect[i];
        bool in = side == BELOW     ? low_of(rect, axis) < low_of(line, axis)
                  : side == ON_LOW  ? low_of(rect, axis) == low_of(line, axis)
                  : side == ON_HIGH ? high_of(rect, axis) == high_of(line, axis)
                                    : low_of(rect, axis) >= low_of(line, axis);
        if (in)
            seating->member[n++] = i;
    }
    return n;
}

static bool slide_sets(WbSeating *seating)
{
    int n_free = 0;
    for (int i = seating->n_pinned; i < seating->n; i++)
        seating->member[n_free++] = i;
    bool helped = slide_members(seating, n_free);
    for (int axis = 0; axis < 2; axis++)
        for (int i = 0; i < seating->n && seating->work_left > 0; i++)
            for (Side side = BELOW; side < N_SIDES; side++)
                if (first_on_line(seating, i, axis, side == ON_HIGH))
                    helped |= slide_members(seating, gather(seating, i, axis, side));
    return helped;
}

static bool slide_single(WbSeating *seating)
{
    bool helped = false;
    for (int i = seating->n_pinned; i < seating->n && seating->work_left > 0; i++) {
        seating->member[0] = i;
        helped |= slide_members(seating, 1);
    }
    return helped;
}

/* ---- new places ---- */

typedef struct {
    int64_t *at;
    int n;
} Places;

static void add_place(Places *places, int64_t at_mm)
{
    for (int i = 0; i < places->n; i++)
        if (places->at[i] == at_mm)
            return;
    places->at[places->n++] = at_mm;
}

/* Where a panel of this size would stand on a line, beside a neighbour, an obstacle or the edge. */
static void list_places(const WbSeating *seating, int axis, int64_t size_mm, Places *places)
{
    const WbRoof *roof = seating->roof;
    int64_t frame_mm = axis == 0 ? roof->length_mm : roof->width_mm;
    places->n = 0;
    add_place(places, roof->margin_mm);
    add_place(places, frame_mm - roof->margin_mm - size_mm);
    for (int i = 0; i < seating->n; i++) {
        const WbRect *rect = &seating->rect[i];
        add_place(places, low_of(rect, axis));
        add_place(places, high_of(rect, axis) - size_mm);
        add_place(places, high_of(rect, axis) + roof->gap_mm);
        add_place(places, low_of(rect, axis) - roof->gap_mm - size_mm);
    }
    for (size_t k = 0; k < roof->n_obstacles && k < OBSTACLES_LOOKED_AT; k++) {
        const WbObstacle *o = &roof->obstacles[k];
        int64_t low = axis == 0 ? o->x_mm : o->y_mm;
        int64_t high = low + (axis == 0 ? o->length_mm : o->width_mm);
        add_place(places, low - o->clearance_mm - size_mm);
        add_place(places, high + o->clearance_mm);
    }
}

static bool reseat_turned_so(WbSeating *seating, int panel, int64_t length_mm, int64_t width_mm,
                             Places places[2])
{
    bool helped = false;
    list_places(seating, 0, length_mm, &places[0]);
    list_places(seating, 1, width_mm, &places[1]);
    for (int i = 0; i < places[0].n; i++)
        for (int k = 0; k < places[1].n && seating->work_left > 0; k++) {
            WbRect to = {places[0].at[i], places[1].at[k], length_mm, width_mm};
            helped |= wb_seating_move(seating, panel, &to);
        }
    return helped;
}

static bool reseat(WbSeating *seating)
{
    size_t room = 4 * (size_t)seating->n + 2 * OBSTACLES_LOOKED_AT + 2;
    Places places[2] = {{malloc(room * sizeof(int64_t)), 0}, {malloc(room * sizeof(int64_t)), 0}};
    bool helped = false, room_found = places[0].at && places[1].at;
    for (int i = seating->n_pinned; i < seating->n && room_found; i++) {
        WbRect was = seating->rect[i];
        helped |= reseat_turned_so(seating, i, was.length_mm, was.width_mm, places);
        if (was.length_mm != was.width_mm)
            helped |= reseat_turned_so(seating, i, was.width_mm, was.length_mm, places);
    }
    free(places[0].at);
    free(places[1].at);
    return helped;
}

void wb_seating_improve(WbSeating *seating)
{
    bool helped = true;
    while (helped && seating->work_left > 0) {
        helped = slide_sets(seating);
        helped |= slide_single(seating);
        if (!helped)
            helped = reseat(seating);
    }
}
