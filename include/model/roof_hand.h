/* Help for a hand that moves things about on a roof: where they snap to, how far they are from what
 * lies around them, and why a panel cannot lie somewhere. Lengths in mm. */
#ifndef WB_ROOF_HAND_H
#define WB_ROOF_HAND_H

#include "roof.h"
#include <glib.h>

typedef enum {
    WB_HELD_OBSTACLE, /* index among the obstacles */
    WB_HELD_PANEL,    /* among the panels */
    WB_HELD_CORNER,   /* among the corners; its size is 0 */
    WB_HELD_EDGE,     /* of a rectangular roof, the right or the back one */
    WB_HELD_POINT,    /* the gland; its size is 0 */
} WbHeldKind;

/* What is held, and what lies around it. */
typedef struct {
    const WbRoof *roof;
    const WbRect *panels; /* true outlines */
    int n_panels;
    WbHeldKind kind;
    int index; /* -1: it is none of them yet */
} WbHeld;

/* Where the held thing comes to lie. Each axis by itself goes to the nearest line within reach_mm:
 * a panel to the usable line, to obstacles with their clearance, to other panels with the gap and
 * in line with them; the others to the outline and in line with obstacles and corners, and where a
 * panel just keeps its place: an obstacle beside it with its own clearance, corners and edges with
 * the margin. Without a line near, to whole steps of step_mm >= 1. reach_mm 0: steps only. */
WbRect wb_held_snap(const WbHeld *held, WbRect rect, gint64 reach_mm, gint64 step_mm);

typedef enum { WB_SIDE_LEFT, WB_SIDE_RIGHT, WB_SIDE_FRONT, WB_SIDE_BACK, WB_N_SIDES } WbSide;

/* One side of the held thing alone, the other three stay. Never smaller than 1 mm. */
WbRect wb_held_snap_side(const WbHeld *held, WbRect rect, WbSide side, gint64 to_mm,
                         gint64 reach_mm, gint64 step_mm);

typedef struct {
    gboolean found;
    gint64 mm;       /* from the side to what is nearest, >= 0 */
    gint64 along_mm; /* where the distance is drawn: y of one to the left or right, else x */
} WbDistance;

/* From each side of `rect` to the nearest panel, obstacle (shade areas left out) or edge of the
 * roof. */
void wb_held_distances(const WbHeld *held, const WbRect *rect, WbDistance distance[WB_N_SIDES]);

/* Why a panel of this true outline cannot lie here: edge, obstacle or a pinned panel. One sentence
 * (transfer full); NULL: it lies free. */
char *wb_panel_not_free(const WbRoof *roof, const WbRect *rect, const WbRect *pinned, int n_pinned);

#endif
