/* The roof as open zones in whole millimetres: what a panel may use, and what it may not enter. */
#ifndef WB_ROOF_OUTLINE_H
#define WB_ROOF_OUTLINE_H

#include "roof.h"

typedef struct {
    int64_t left_mm, front_mm, right_mm, back_mm;
} WbZone;

/* All that wb_roof_most says of a roof's input. */
bool wb_roof_valid(const WbRoof *roof);
bool wb_roof_length_valid(int64_t length_mm);

/* Whether panels keep off it: not a shade area, nor what a raised panel may pass over. */
bool wb_obstacle_blocks(const WbRoof *roof, const WbObstacle *obstacle);

/* The frame less its margin; empty where right <= left or back <= front. */
WbZone wb_roof_usable(const WbRoof *roof);
/* The obstacle with its clearance all round; of a round one, its square. */
WbZone wb_obstacle_zone(const WbObstacle *obstacle);

/* Whether the panel enters the usable frame, one way or the other. */
bool wb_panel_enters(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm);

/* Area of `within` that a plain roof's obstacles leave, each zone first cut by cut_mm on its left
 * and front side. Exact, O(n^2). -1: out of memory. */
int64_t wb_roof_area_left_mm2(const WbRoof *roof, WbZone within, int64_t cut_mm);

/* Most panels on a plain roof by area alone, no more than at_most. -1: out of memory. */
int wb_roof_area_bound(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm,
                       int at_most);

#endif
