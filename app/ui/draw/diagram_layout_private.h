/* Shared by diagram_layout.c, which lays out, and diagram_place.c, which keeps what was laid. */
#ifndef WB_DIAGRAM_LAYOUT_PRIVATE_H
#define WB_DIAGRAM_LAYOUT_PRIVATE_H

#include "diagram_layout.h"

#define WB_DIAGRAM_HALF 22.0 /* of a chain's symbols, to either side of its wire */

WbDiagramLayout *wb_diagram_layout_new(void);
/* Moves all so that it begins `pad` from the origin, and tells the layout its size. */
void wb_diagram_layout_settle(WbDiagramLayout *layout, double pad);

#endif
