/* The fuse of a circuit and the fittings that go with it. Private to core. */
#ifndef WB_PROTECT_H
#define WB_PROTECT_H

#include "circuit.h"

/* The smallest sufficient rating at or above the design current, of those the cheapest with its
 * holder (ties: id). Sound, or the fault with its two numbers; *fuse may then still tell which
 * fuse it was. */
WbCircuitFault wb_circuit_fuse(const WbWireStock *stock, const WbCircuitAsk *ask,
                               const WbFuseChoice **fuse, double numbers[2]);

/* Cheapest, ties by id; NULL: the catalogue sells none. */
const WbFittingChoice *wb_holder_for(const WbWireStock *stock, const WbFuse *fuse, double most_v);
/* Does a fuse of this form for this circuit sit in a block? */
bool wb_sits_in_block(const WbWireStock *stock, const WbCircuitAsk *ask, int64_t form);

#endif
