/* Does the fill of an unobstructed rectangle once more, for the checker of proofs; shares nothing
 * with skyline.c.
 *
 * Sizes are grown by one gap, the room too. A stack of panels stands on every row of the room, from
 * the left side on; what is next is always the corner furthest left, of several the foremost: the
 * front end of a bay of rows between two that are fuller (or the edge). If so many panels go in,
 * they go in with each pushed left and to the front until it touches. Then there are three cases.
 * 1. A panel has its corner there, one way or the other.
 * 2. None touches the bay's bottom. Then none lies in the bay as far as its less full neighbour: it
 *    would lie between the neighbours and be held, itself or by others there, by the bottom.
 * 3. One touches the bottom further back; the foremost of them is P. What holds P from the front
 *    does not touch the bottom, so it lies, or what holds it from the left does, on the front
 *    neighbour. In front of P and left of that neighbour's end nothing lies, it would touch the
 *    bottom before P. Case 3 cuts off one row, then the corner is the next row's.
 * Emptiness is counted in mm2: beyond the room less n panels there is no way on. So are the ends of
 * rows and columns that no sum of sides fills.
 */
#ifndef WB_PROOF_FILL_H
#define WB_PROOF_FILL_H

#include <stdbool.h>
#include <stdint.h>

typedef enum { WB_FILL_NONE, WB_FILL_FOUND, WB_FILL_TOO_LONG } WbFillAnswer;

/* NONE: n panels do not go in, every way was tried. TOO_LONG: also without memory. */
WbFillAnswer wb_proof_fill(int64_t length_mm, int64_t width_mm, int64_t a_mm, int64_t b_mm, int n);

#endif
