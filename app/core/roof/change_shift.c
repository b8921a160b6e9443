/* Take the least shift that lets the panels lie, and a layout for it. Push its panels back towards
 * where the obstacle stood, each until an edge, an obstacle or a panel stops it; then the obstacle.
 * It is stopped too, or the shift were not the least: by a panel (then its near side stands at an
 * edge that stops panels plus a sum of panels with their gaps), or because it may not end further
 * back. The panels that reach so to its near side are stopped by other things than its far side. So
 * only these shifts are looked at (normal patterns: Herz, IBM Journal of Research and Development
 * 16, 1972, 462; Christofides & Whitlock, Operations Research 25, 1977, 30). With slants and
 * circles, and with a great many sums, every whole millimetre is. */
#include "change_shift.h"
#include "change_body.h"
#include "plain_roof.h"
#include <stdlib.h>

/* So many sums are looked at; above that every millimetre. */
enum { SUMS_MAX = 1 << 20 };

enum { ALLOWED = 1, NORMAL = 2 };

typedef struct {
    int64_t low_mm, high_mm;
} Span;

static Span along(const WbMove *move, WbZone zone)
{
    return move->along_x ? (Span){zone.left_mm, zone.right_mm}
                         : (Span){zone.front_mm, zone.back_mm};
}

/* Seen in the direction of the move: what lies nearer is smaller. */
static Span ahead(const WbMove *move, WbZone zone)
{
    Span span = along(move, zone);
    return move->sign > 0 ? span : (Span){-span.high_mm, -span.low_mm};
}

WbObstacle wb_moved(const WbMove *move, int64_t by_mm)
{
    WbObstacle moved = move->roof->obstacles[move->obstacle];
    if (move->along_x)
        moved.x_mm += move->sign * by_mm;
    else
        moved.y_mm += move->sign * by_mm;
    return moved;
}

static int64_t frame_mm(const WbMove *move)
{
    return move->along_x ? move->roof->length_mm : move->roof->width_mm;
}

/* How far the obstacle goes before it leaves the frame. */
static int64_t last_shift_mm(const WbMove *move)
{
    const WbObstacle *obstacle = &move->roof->obstacles[move->obstacle];
    int64_t at_mm = move->along_x ? obstacle->x_mm : obstacle->y_mm;
    int64_t size_mm = move->along_x ? obstacle->length_mm : obstacle->width_mm;
    return move->sign > 0 ? frame_mm(move) - at_mm - size_mm : at_mm;
}

typedef struct {
    const WbMove *move;
    int64_t panel_mm[2]; /* grown by a gap */
    int64_t near_mm;     /* side of the obstacle's zone, as ahead() sees it */
    int64_t last_mm;
    unsigned char *mark; /* [0..last_mm] */
} Marker;

/* Panels in a row from base_mm on, up to the obstacle's near side after a shift. */
static void mark_sums(Marker *marker, int64_t base_mm)
{
    int64_t furthest_mm = marker->near_mm + marker->last_mm;
    for (int64_t a_mm = base_mm - marker->move->roof->gap_mm; a_mm <= furthest_mm;
         a_mm += marker->panel_mm[0])
        for (int64_t at_mm = a_mm; at_mm <= furthest_mm; at_mm += marker->panel_mm[1])
            if (at_mm > marker->near_mm)
                marker->mark[at_mm - marker->near_mm] |= NORMAL;
}

static bool few_sums(const Marker *marker, size_t n_bases)
{
    int64_t frame = frame_mm(marker->move);
    int64_t sums = (frame / marker->panel_mm[0] + 2) * (frame / marker->panel_mm[1] + 2);
    return sums <= SUMS_MAX / (int64_t)(n_bases + 1);
}

static void mark_all(Marker *marker)
{
    for (int64_t s = 1; s <= marker->last_mm; s++)
        marker->mark[s] |= NORMAL;
}

/* The moved obstacle's own far side is among the edges: it is looked at for nothing. */
static WbStatus mark_normal(Marker *marker)
{
    const WbMove *move = marker->move;
    WbPlainRoof plain;
    if (wb_roof_needs_steps(move->roof)) {
        mark_all(marker);
        return WB_OK;
    }
    WbStatus status = wb_plain_roof(move->roof, NULL, 0, WB_PLAIN_INNER, 1, &plain);
    if (status != WB_OK)
        return status;
    if (plain.exact && few_sums(marker, plain.roof.n_obstacles)) {
        mark_sums(marker, ahead(move, wb_roof_usable(move->roof)).low_mm);
        for (size_t i = 0; i < plain.roof.n_obstacles; i++)
            mark_sums(marker, ahead(move, wb_obstacle_zone(&plain.obstacles[i])).high_mm);
    } else {
        mark_all(marker);
    }
    wb_plain_roof_free(&plain);
    return WB_OK;
}

static size_t gather(const Marker *marker, int64_t *shift)
{
    size_t n = 0;
    for (int64_t s = 1; s <= marker->last_mm; s++) {
        bool first_allowed = !(marker->mark[s - 1] & ALLOWED) && s > 1;
        if (marker->mark[s] & ALLOWED && (marker->mark[s] & NORMAL || first_allowed))
            shift[n++] = s;
    }
    return n;
}

static WbStatus mark_allowed(Marker *marker)
{
    WbBodies bodies;
    WbStatus status = wb_bodies(marker->move, marker->last_mm, &bodies);
    for (int64_t s = 1; status == WB_OK && s <= marker->last_mm; s++)
        if (wb_bodies_allow(&bodies, s))
            marker->mark[s] |= ALLOWED;
    if (status == WB_OK)
        wb_bodies_free(&bodies);
    return status;
}

WbStatus wb_move_shifts(const WbMove *move, int64_t panel_length_mm, int64_t panel_width_mm,
                        int64_t reach_mm, int64_t **shift, size_t *n)
{
    int64_t gap_mm = move->roof->gap_mm, last_mm = last_shift_mm(move);
    Marker marker = {.move = move,
                     .panel_mm = {panel_length_mm + gap_mm, panel_width_mm + gap_mm},
                     .last_mm = last_mm < reach_mm ? last_mm : reach_mm};
    *shift = NULL;
    *n = 0;
    if (marker.last_mm < 1)
        return WB_OK;
    marker.near_mm = ahead(move, wb_obstacle_zone(&move->roof->obstacles[move->obstacle])).low_mm;
    marker.mark = calloc(marker.last_mm + 1, 1);
    *shift = malloc(marker.last_mm * sizeof **shift);
    WbStatus status = marker.mark && *shift ? mark_allowed(&marker) : WB_NO_MEMORY;
    if (status == WB_OK)
        status = mark_normal(&marker);
    if (status == WB_OK)
        *n = gather(&marker, *shift);
    free(marker.mark);
    if (status != WB_OK) {
        free(*shift);
        *shift = NULL;
    }
    return status;
}
