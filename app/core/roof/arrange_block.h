/* The panels as a regular block: rows and columns at one pitch, all turned alike. */
#ifndef WB_ARRANGE_BLOCK_H
#define WB_ARRANGE_BLOCK_H

#include "seating.h"

/* The best of the blocks tried takes the place of seating->rect behind the pinned panels; false:
 * none holds all panels, and seating is as it was. A panel is panel_length_mm x panel_width_mm. */
bool wb_best_block(WbSeating *seating, WbSeating *spare);

#endif
