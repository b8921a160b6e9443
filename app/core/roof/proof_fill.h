/* Does the fill of an unobstructed rectangle once more, for the checker of proofs; shares nothing
 * with skyline.c.
 *
 * Sizes are grown by one gap, the room too. A stack of panels stands on every row of the room, from
 * the left side on; what is next is always the corner furthest left, of several the foremost.
 * Either a panel has its corner there, one way or the other, or the row up to the next line stays
 * empty to the next line (in a layout pushed left and to the front every panel starts where sums of
 * sides end). Emptiness is counted in mm2: beyond the room less n panels there is no way on. So are
 * the ends of rows and columns that no sum of sides fills. */
#ifndef WB_PROOF_FILL_H
#define WB_PROOF_FILL_H

#include <stdbool.h>
#include <stdint.h>

typedef enum { WB_FILL_NONE, WB_FILL_FOUND, WB_FILL_TOO_LONG } WbFillAnswer;

/* NONE: n panels do not go in, every way was tried. TOO_LONG: also without memory. */
WbFillAnswer wb_proof_fill(int64_t length_mm, int64_t width_mm, int64_t a_mm, int64_t b_mm, int n);

#endif
