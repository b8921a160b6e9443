/* Where to cut. A panel that stands too far out enters the forbidden ground with a corner, mostly.
 * Every rectangle from this corner's square millimetre in to the slant is forbidden: the panel must
 * stay before it along the roof or across it. One half way in along the roof is taken, as deep as
 * it then gets across, and what a panel may still do on either side of it is halved with the next:
 * so slants are cut finely only where it matters. */
#include "cuts.h"
#include "exact_shape.h"
#include <stdlib.h>

/* Steps so large that nothing is cut within an edge. */
enum { NO_STEPS_MM = 1 << 24 };

enum { LEFT, FRONT, RIGHT, BACK, SIDES };

/* One cause why places are forbidden: a circle, or the outside of the outline (round NULL). */
typedef struct {
    const WbRoof *roof;
    const WbObstacle *round;
    int64_t clearance_mm;
    WbCutKind kind;
    WbPlainRoof *plain;
    int added;
} Cutter;

typedef struct {
    int64_t at_mm[SIDES];
} Box;

static WbZone zone_of(Box box)
{
    return (WbZone){box.at_mm[LEFT], box.at_mm[FRONT], box.at_mm[RIGHT], box.at_mm[BACK]};
}

static bool all_forbidden(const Cutter *cutter, Box box)
{
    return cutter->round ? wb_circle_covers(cutter->round, zone_of(box))
                         : wb_outline_avoids(cutter->roof, zone_of(box));
}

static bool all_free(const Cutter *cutter, Box box)
{
    return cutter->round ? wb_circle_avoids(cutter->round, zone_of(box))
                         : wb_outline_holds(cutter->roof, zone_of(box));
}

/* Cuts the longer side in two. False: one square millimetre. */
static bool halve(Box box, Box half[2])
{
    int64_t along_mm = box.at_mm[RIGHT] - box.at_mm[LEFT];
    int64_t across_mm = box.at_mm[BACK] - box.at_mm[FRONT];
    if (along_mm <= 1 && across_mm <= 1)
        return false;
    int low = along_mm >= across_mm ? LEFT : FRONT;
    half[0] = half[1] = box;
    half[0].at_mm[low + 2] = half[1].at_mm[low] =
        box.at_mm[low] + (box.at_mm[low + 2] - box.at_mm[low]) / 2;
    return true;
}

static bool no_free_mm(const Cutter *cutter, Box box)
{
    Box half[2];
    if (all_forbidden(cutter, box))
        return true;
    if (all_free(cutter, box))
        return false;
    return !halve(box, half) || (no_free_mm(cutter, half[0]) && no_free_mm(cutter, half[1]));
}

static bool may_cut(const Cutter *cutter, Box box)
{
    return cutter->kind == WB_CUT_WHOLE ? all_forbidden(cutter, box) : no_free_mm(cutter, box);
}

/* A part of the box that may be cut; it is none where it is all free. */
static bool find_part(const Cutter *cutter, Box box, Box *part)
{
    Box half[2];
    if (all_free(cutter, box))
        return false;
    *part = box;
    if (all_forbidden(cutter, box))
        return true;
    if (!halve(box, half))
        return cutter->kind == WB_CUT_MM;
    return find_part(cutter, half[0], part) || find_part(cutter, half[1], part);
}

/* Moves one side outward as far as it may go, up to a limit: part of what may be cut may be. */
static void stretch(const Cutter *cutter, Box *box, int side, int64_t limit_mm)
{
    int64_t good_mm = box->at_mm[side], bad_mm = limit_mm;
    if (side < RIGHT ? limit_mm >= good_mm : limit_mm <= good_mm)
        return;
    Box wide = *box;
    wide.at_mm[side] = limit_mm;
    if (may_cut(cutter, wide))
        good_mm = limit_mm;
    while (llabs(bad_mm - good_mm) > 1) {
        wide.at_mm[side] = good_mm + (bad_mm - good_mm) / 2;
        if (may_cut(cutter, wide))
            good_mm = wide.at_mm[side];
        else
            bad_mm = wide.at_mm[side];
    }
    box->at_mm[side] = good_mm;
}

/* Nothing beyond the frame need be forbidden. */
static int64_t limit_of(const Cutter *cutter, int side)
{
    const WbRoof *roof = cutter->roof;
    const int64_t limit_mm[SIDES] = {0, 0, roof->length_mm, roof->width_mm};
    return limit_mm[side];
}

static void stretch_full(const Cutter *cutter, Box *box, int side)
{
    stretch(cutter, box, side, limit_of(cutter, side));
}

/* Deeper into the forbidden ground. Into a circle as far as its middle: what lies behind concerns
 * other panels, and a side there would only add places to try. */
static void stretch_out(const Cutter *cutter, Box *box, int side)
{
    const WbObstacle *round = cutter->round;
    int64_t limit_mm = limit_of(cutter, side);
    if (round) {
        int64_t corner_mm = side % 2 == LEFT ? round->x_mm : round->y_mm;
        int64_t middle_mm = corner_mm + round->length_mm / 2;
        bool before = side < RIGHT ? box->at_mm[side] > middle_mm : box->at_mm[side] < middle_mm;
        limit_mm = before ? middle_mm : limit_mm;
    }
    stretch(cutter, box, side, limit_mm);
}

static bool holds(const WbObstacle *outer, const WbObstacle *inner)
{
    return outer->clearance_mm >= inner->clearance_mm && !inner->round &&
           outer->x_mm <= inner->x_mm && outer->y_mm <= inner->y_mm &&
           outer->x_mm + outer->length_mm >= inner->x_mm + inner->length_mm &&
           outer->y_mm + outer->width_mm >= inner->y_mm + inner->width_mm;
}

/* Strips within the new one go. */
static WbStatus add_cut(Cutter *cutter, Box box)
{
    WbPlainRoof *plain = cutter->plain;
    WbObstacle cut = {.name = cutter->round ? cutter->round->name : "",
                      .x_mm = box.at_mm[LEFT],
                      .y_mm = box.at_mm[FRONT],
                      .length_mm = box.at_mm[RIGHT] - box.at_mm[LEFT],
                      .width_mm = box.at_mm[BACK] - box.at_mm[FRONT],
                      .clearance_mm = cutter->clearance_mm};
    size_t n = 0;
    for (size_t i = 0; i < plain->roof.n_obstacles; i++) {
        if (holds(&plain->obstacles[i], &cut))
            return WB_OK;
    }
    for (size_t i = 0; i < plain->roof.n_obstacles; i++)
        if (!holds(&cut, &plain->obstacles[i]))
            plain->obstacles[n++] = plain->obstacles[i];
    plain->roof.n_obstacles = n;
    WbObstacle *grown = realloc(plain->obstacles, (n + 1) * sizeof *grown);
    if (!grown)
        return WB_NO_MEMORY;
    grown[n] = cut;
    plain->obstacles = grown;
    plain->roof.obstacles = grown;
    plain->roof.n_obstacles = n + 1;
    cutter->added++;
    return WB_OK;
}

/* From a corner's square millimetre: half as far in along the roof as it may go, then across as far
 * as it may go. */
static WbStatus cut_between(Cutter *cutter, Box corner, int out_x, int out_y)
{
    int in_x = (out_x + 2) % SIDES;
    Box deep = corner;
    stretch_full(cutter, &deep, in_x);
    corner.at_mm[in_x] += (deep.at_mm[in_x] - corner.at_mm[in_x]) / 2;
    stretch_full(cutter, &corner, (out_y + 2) % SIDES);
    stretch_out(cutter, &corner, out_x);
    stretch_out(cutter, &corner, out_y);
    stretch_full(cutter, &corner, in_x);
    return add_cut(cutter, corner);
}

/* out_x LEFT or RIGHT, out_y FRONT or BACK: where the corner points. */
static WbStatus cut_corner(Cutter *cutter, Box panel, int out_x, int out_y)
{
    Box corner = panel;
    corner.at_mm[(out_x + 2) % SIDES] = panel.at_mm[out_x] + (out_x == RIGHT ? -1 : 1);
    corner.at_mm[(out_y + 2) % SIDES] = panel.at_mm[out_y] + (out_y == BACK ? -1 : 1);
    if (!may_cut(cutter, corner))
        return WB_OK;
    return cut_between(cutter, corner, out_x, out_y);
}

static WbStatus cut_cause(Cutter *cutter, const WbRect *rect)
{
    int64_t by_mm = cutter->clearance_mm;
    Box panel = {{rect->x_mm - by_mm, rect->y_mm - by_mm, rect->x_mm + rect->length_mm + by_mm,
                  rect->y_mm + rect->width_mm + by_mm}};
    if (all_free(cutter, panel))
        return WB_OK;
    int before = cutter->added;
    WbStatus status = WB_OK;
    for (int k = 0; k < SIDES && status == WB_OK; k++)
        status = cut_corner(cutter, panel, k & 1 ? RIGHT : LEFT, k & 2 ? BACK : FRONT);
    Box part;
    if (status != WB_OK || cutter->added > before || !find_part(cutter, panel, &part))
        return status;
    for (int side = LEFT; side < SIDES; side++)
        stretch_full(cutter, &part, side);
    return add_cut(cutter, part);
}

WbStatus wb_cuts_against(const WbRoof *roof, const WbRect *rect, WbCutKind kind, WbPlainRoof *plain,
                         int *added)
{
    Cutter cutter = {.roof = roof, .clearance_mm = roof->margin_mm, .kind = kind, .plain = plain};
    WbStatus status = roof->n_corners > 0 ? cut_cause(&cutter, rect) : WB_OK;
    for (size_t i = 0; i < roof->n_obstacles && status == WB_OK; i++) {
        const WbObstacle *obstacle = &roof->obstacles[i];
        if (!obstacle->round || !wb_obstacle_blocks(roof, obstacle))
            continue;
        cutter.round = obstacle;
        cutter.clearance_mm = obstacle->clearance_mm;
        status = cut_cause(&cutter, rect);
    }
    *added += cutter.added;
    return status;
}

WbStatus wb_cuts_start(const WbRoof *roof, const WbRect *fixed, int n_fixed, WbPlainRoof *plain)
{
    return wb_plain_roof(roof, fixed, n_fixed, WB_PLAIN_OUTER, NO_STEPS_MM, plain);
}

static bool widen_by(Cutter *cutter, WbObstacle *cut)
{
    if (cut->clearance_mm != cutter->clearance_mm)
        return false;
    Box box = {{cut->x_mm, cut->y_mm, cut->x_mm + cut->length_mm, cut->y_mm + cut->width_mm}};
    if (!may_cut(cutter, box))
        return false;
    for (int side = LEFT; side < SIDES; side++)
        stretch_full(cutter, &box, side);
    WbZone zone = zone_of(box);
    cut->x_mm = zone.left_mm;
    cut->y_mm = zone.front_mm;
    cut->length_mm = zone.right_mm - zone.left_mm;
    cut->width_mm = zone.back_mm - zone.front_mm;
    return true;
}

void wb_cuts_widen(const WbRoof *roof, WbPlainRoof *plain)
{
    for (size_t k = 0; k < plain->roof.n_obstacles; k++) {
        WbObstacle *cut = &plain->obstacles[k];
        Cutter cutter = {
            .roof = roof, .clearance_mm = roof->margin_mm, .kind = WB_CUT_MM, .plain = plain};
        bool done = roof->n_corners > 0 && widen_by(&cutter, cut);
        for (size_t i = 0; i < roof->n_obstacles && !done; i++) {
            const WbObstacle *obstacle = &roof->obstacles[i];
            if (!obstacle->round || !wb_obstacle_blocks(roof, obstacle))
                continue;
            cutter.round = obstacle;
            cutter.clearance_mm = obstacle->clearance_mm;
            done = widen_by(&cutter, cut);
        }
    }
}
