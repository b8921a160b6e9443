/* Exact search for a rectangle without obstacles: fill it from the front, always at the lowest,
 * leftmost corner of the skyline, with a panel either way or with waste, and give up where the
 * waste so far and the waste still to come leave too little for n panels. */
#ifndef WB_ROOF_SKYLINE_H
#define WB_ROOF_SKYLINE_H

#include "room.h"

/* WB_OK: *found tells whether n panels fit; then layout holds them, grown, from the usable edge.
 * Each corner tries panel_length_mm along x first: exchanging the two sides searches in another
 * order for the same answer. WB_BUDGET: not decided. A step is one
 * column looked at. */
WbStatus wb_skyline_search(WbRoom *room, int n, WbRect *layout, bool *found);

#endif
