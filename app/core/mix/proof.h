/* Does each clause of a proof follow from the facts and the earlier ones? */
#ifndef WB_MIX_PROOF_H
#define WB_MIX_PROOF_H

#include "proof_clauses.h"

/* Reverse unit propagation: with every literal of the clause false, unit propagation meets a
 * contradiction (Goldberg & Novikov 2003, from memory). True where that holds for each clause in
 * turn and the last is empty. False also for want of memory and for malformed proofs. */
bool wb_proof_follows(const WbFacts *facts, const int32_t *literals, size_t n_literals);

#endif
