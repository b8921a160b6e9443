/* A layout that is being made better: valid at every moment, never worse than before. */
#ifndef WB_SEATING_H
#define WB_SEATING_H

#include "roof_arrange.h"

typedef struct {
    const WbRoof *roof;
    int64_t panel_length_mm, panel_width_mm;
    WbRect *rect; /* [n], the pinned ones first */
    int n, n_pinned;
    WbArrangement score;
    int *member;       /* [n] panels that are tried elsewhere, together */
    bool *is_member;   /* [n], false between tries */
    int64_t work_left; /* comparisons; none is made where it is used up */
} WbSeating;

/* WB_NO_MEMORY; copies the layout. Free after WB_OK. */
WbStatus wb_seating(const WbRoof *roof, const WbRect *layout, int n, int n_pinned,
                    WbSeating *seating);
void wb_seating_free(WbSeating *seating);

/* Scores the layout that seating->rect now holds. */
void wb_seating_score(WbSeating *seating);

/* Whether this rectangle keeps off the edge, the obstacles and the first n panels that are no
 * members. */
bool wb_seating_clear(WbSeating *seating, const WbRect *rect, int n);

/* All members of 0..n_members by so much, or one panel to another place: done where it is valid and
 * the layout better for it. */
bool wb_seating_shift(WbSeating *seating, int n_members, int64_t x_mm, int64_t y_mm);
bool wb_seating_move(WbSeating *seating, int panel, const WbRect *to);

/* Slides and new places until none helps or the work is used up. */
void wb_seating_improve(WbSeating *seating);

#endif
