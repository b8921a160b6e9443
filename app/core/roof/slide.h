/* A layout that nearly lies on a roof, slid until it does. */
#ifndef WB_SLIDE_H
#define WB_SLIDE_H

#include "roof_outline.h"

/* layout: n true outlines that keep the gap; in place. Which panel stands beside which is kept, and
 * how far they go is tried one way and the other. False: it came to nothing, the layout is as it
 * was. scratch: room for n. The fixed ones stay. */
bool wb_slide(const WbRoof *roof, const WbRect *fixed, int n_fixed, WbRect *layout, int n,
              WbRect *scratch);

#endif
