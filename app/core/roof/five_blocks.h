/* Good layouts of a rectangle without obstacles, soon: it is cut into five blocks, four round a
 * middle one (any may be empty), each of them again into five, and so on down to blocks in which
 * all panels lie one way. Morabito & Morales, J. Oper. Res. Soc. 49 (1998) 819. Nearly always the
 * most that fit, but no proof. */
#ifndef WB_ROOF_FIVE_BLOCKS_H
#define WB_ROOF_FIVE_BLOCKS_H

#include "room.h"

/* The best such layout, of at most at_most panels, grown, from the usable edge: *n of them in
 * layout. WB_BUDGET: the budget ran out or there are too many lines, *n may be less than the
 * best. A step is one way to cut a block. */
WbStatus wb_five_blocks(WbRoom *room, int at_most, WbRect *layout, int *n);

#endif
