/* A mix on a plain roof (plain_roof.h) as a finite question.
 *
 * Every panel is grown by one gap on its right and back side, and the usable rectangle too: two
 * panels keep their gap exactly when the grown ones do not overlap. Each kind of panel has a finite
 * set of positions on each axis: the edge or an obstacle's end, plus a sum of other panels (see
 * roof_grid.h). */
#ifndef WB_MIX_QUESTION_H
#define WB_MIX_QUESTION_H

#include "mix.h"
#include "roof_outline.h"

enum { WB_ALONG, WB_ACROSS, WB_AXES };

/* One item asked for at least once. */
typedef struct {
    int item, count;
    int turns;           /* 2: may stand turned as well; 1: not, or it is a square */
    int64_t grown_mm[2]; /* its length and its width, each with a gap; turned: the other way */
    int n_at[WB_AXES];
    int64_t *at_mm[WB_AXES]; /* positions, ascending, from the usable edge */
} WbMixKind;

typedef struct {
    int64_t room_mm[WB_AXES]; /* the usable rectangle and one gap */
    int64_t edge_mm[WB_AXES]; /* its left front corner on the roof */
    int64_t gap_mm;
    WbZone *zone; /* of obstacles that reach into it, from its corner; true outlines keep off */
    int n_zones;
    WbMixKind *kind;
    int n_kinds;
    int *piece; /* [panel]: its kind; panels of a kind stand together */
    int n_pieces;
} WbMixQuestion;

/* The roof and items are valid. Positions are found by wb_mix_positions, which takes longer. */
WbStatus wb_mix_question(const WbRoof *plain, const WbMixItem *items, size_t n_items,
                         WbMixQuestion *question);
WbStatus wb_mix_positions(WbMixQuestion *question);
void wb_mix_question_free(WbMixQuestion *question);

/* Size of a grown panel along an axis, turned or not. */
static inline int64_t wb_mix_size_mm(const WbMixKind *kind, int axis, int turned)
{
    return kind->grown_mm[axis ^ turned];
}

/* Some panel enters the room neither way. */
bool wb_mix_too_large(const WbMixQuestion *question);
/* The area that is left less the grown panels'; below 0: they have more. */
WbStatus wb_mix_spare(const WbRoof *plain, const WbMixQuestion *question, int64_t *spare_mm2);

#endif
