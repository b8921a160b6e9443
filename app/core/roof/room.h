/* A rectangle without obstacles and one size of panel: gaps are already in all four lengths. */
#ifndef WB_ROOF_ROOM_H
#define WB_ROOF_ROOM_H

#include "roof_outline.h"

typedef struct {
    int64_t length_mm, width_mm;             /* usable edge plus one gap */
    int64_t panel_length_mm, panel_width_mm; /* with one gap; either way round */
    WbControl *control;
    uint64_t steps, step_budget;
} WbRoom;

/* Lines a panel may start at: every sum of its sides below the room's end. */
enum { WB_ROOM_LINES = 400 };

/* For every length from 0 to longest_mm the largest sum of panel sides not above it; NULL: no
 * memory. Free it. */
int64_t *wb_room_sums(const WbRoom *room, int64_t longest_mm);

/* Sums below room_mm, ascending; answers how many, -1: more than WB_ROOM_LINES. */
int wb_room_lines(const int64_t *largest_sum_mm, int64_t room_mm, int64_t *at_mm);

#endif
