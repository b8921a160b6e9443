/* Where one obstacle may be moved along one axis, and which of these moves can be a least one. */
#ifndef WB_CHANGE_SHIFT_H
#define WB_CHANGE_SHIFT_H

#include "roof.h"

/* Of roof->obstacles[obstacle]; sign 1: to the right or the back, -1: to the left or the front. */
typedef struct {
    const WbRoof *roof;
    int obstacle;
    bool along_x;
    int sign;
} WbMove;

/* The obstacle moved by so many mm. */
WbObstacle wb_moved(const WbMove *move, int64_t by_mm);

/* Shifts 1..reach_mm at which the obstacle may end (see roof_change.h) and that can be the least
 * that let panels of this size lie: all others are either not allowed, or as good as a smaller one.
 * Ascending; free *shift. WB_NO_MEMORY. */
WbStatus wb_move_shifts(const WbMove *move, int64_t panel_length_mm, int64_t panel_width_mm,
                        int64_t reach_mm, int64_t **shift, size_t *n);

#endif
