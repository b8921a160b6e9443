/* Places that others can stand for, for the checker of proofs. */
#ifndef WB_PROOF_KEEP_H
#define WB_PROOF_KEEP_H

#include "proof_places.h"

enum { WB_PROOF_KEEP_MAX = 1 << 14 };

/* Leaves open only what is kept. A place p goes where another open one, q, is in the way of p and
 * of nothing that p is not in the way of: in a layout with p, q can lie in its stead. Which goes
 * first does not matter: where q goes too, what can stand for q can stand for p. False: one that is
 * not kept stays, more than WB_PROOF_KEEP_MAX are open, or there is no memory. */
bool wb_proof_keep(const WbProofPlaces *places, uint8_t *open, const uint8_t *kept);

#endif
