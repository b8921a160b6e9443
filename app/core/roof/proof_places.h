/* The places the checker of proofs looks at, found by code of its own.
 *
 * Of the layouts with so many panels on whole millimetres take one whose sum of all x and y is
 * least. No panel of it can move by 1 mm to the left: it stands at the usable edge, at the right
 * side of a strip, or a gap right of another panel of the layout; likewise in front. So every x is
 * the edge or a strip's right side plus a sum of sides with their gaps, every y likewise, and every
 * panel has something to rest against both ways. Places that are not so are left out, again and
 * again until none goes. (Positions between millimetres: rounded down, what was apart stays apart,
 * for all sizes and strips are whole.) */
#ifndef WB_PROOF_PLACES_H
#define WB_PROOF_PLACES_H

#include "roof_proof.h"

enum { WB_PROOF_PLACES_MAX = 1 << 20 };

typedef struct {
    int64_t left_mm, front_mm, right_mm, back_mm; /* usable edge */
    int64_t gap_mm;
    int turns;
    int64_t along_mm[2], across_mm[2]; /* sides, by turn */
    int64_t *x_mm, *y_mm;              /* ascending, on the roof */
    int nx, ny;
    uint8_t *open; /* [(turn * ny + j) * nx + i] */
    int n;         /* turns * nx * ny */
} WbProofPlaces;

/* False: no memory or too many; nothing to free then. */
bool wb_proof_places_find(WbProofPlaces *places, const WbRoof *roof, int64_t panel_length_mm,
                          int64_t panel_width_mm, const WbRect *strips, size_t n_strips);
void wb_proof_places_free(WbProofPlaces *places);

/* True outline. */
WbRect wb_proof_place(const WbProofPlaces *places, int place);

#endif
