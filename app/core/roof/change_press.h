/* A layout carried over to a roof or a panel size that differs a little. */
#ifndef WB_CHANGE_PRESS_H
#define WB_CHANGE_PRESS_H

#include "roof.h"

typedef struct {
    int64_t length_mm, width_mm;
} WbPanelSize;

/* Where the layout lies as it is, it stays. Else every panel keeps its turn and the side on which
 * it stands of every other panel and every obstacle; all are pressed to the left and to the front.
 * True: pressed[0..n-1] is a layout of panels of size `to` on the roof, checked. False where it is
 * none, or memory is short. Cost: n^2 + n x obstacles. */
bool wb_press_layout(const WbRoof *roof, WbPanelSize from, WbPanelSize to, const WbRect *layout,
                     int n, WbRect *pressed);

#endif
