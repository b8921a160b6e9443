/* One change away: the least single change of the roof that lets one panel more lie on it. Exact:
 * every smaller change of the same kind is proved not to do, or `proved` is false. */
#ifndef WB_ROOF_CHANGE_H
#define WB_ROOF_CHANGE_H

#include "roof.h"

typedef enum {
    WB_CHANGE_MOVE_X,       /* of one obstacle, along the roof; by_mm signed */
    WB_CHANGE_MOVE_Y,       /* across it */
    WB_CHANGE_MARGIN,       /* less by by_mm */
    WB_CHANGE_GAP,          /* less by by_mm */
    WB_CHANGE_CLEARANCE,    /* of one obstacle, less by by_mm */
    WB_CHANGE_PANEL_LENGTH, /* the panel is by_mm too long */
    WB_CHANGE_PANEL_WIDTH,  /* the panel is by_mm too wide */
} WbRoofChangeKind;

typedef struct {
    int kind;       /* WbRoofChangeKind */
    int obstacle;   /* index; -1 */
    int64_t by_mm;  /* moves: signed; else > 0 */
    bool proved;    /* nothing smaller of this kind does */
    WbRect *layout; /* of n panels on the roof so changed (of the smaller panel) */
    int n;
} WbRoofChange;

enum { WB_ROOF_CHANGES = 8 };

/* The changes that let n_panels lie (one more than fit now; where they fit already there are none):
 * along each axis the least move of any one obstacle, up to reach_mm (only the best one of all
 * obstacles), the least change of margin, of gap and of one clearance, and the two panel
 * dimensions. Moves, margin, gap and clearance by millimetres, then the dimensions; *n of them.
 *
 * What may move: an obstacle that blocks (shade areas and what panels pass over do not). It ends
 * within the frame along its move; one that stands ends inside the roof's corners too, and on no
 * other body that stands. Clearances may overlap, walkways may lie over bodies. Where n_panels lie
 * after a move but no obstacle of that kind may end there, a longer move is told.
 *
 * A question that its share of the node budget does not decide counts as "does not do": by_mm still
 * does, but may not be the least (proved false), or no change is told. The budget is for all
 * together. The roof's pins are not looked at. WB_BAD_INPUT: n_panels < 1, reach_mm < 0, and as
 * wb_roof_most. Others as wb_roof_most; free with wb_roof_changes_free. */
WbStatus wb_roof_changes(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm,
                         int n_panels, int64_t reach_mm, uint64_t node_budget, WbControl *control,
                         WbRoofChange change[WB_ROOF_CHANGES], int *n);
void wb_roof_changes_free(WbRoofChange *change, int n);

#endif
