/* One conductor, fuse or fitting: in which circuits of a kit it is, and why not in the others. The
 * answer of the search itself: each circuit is sized anew with this part the only one of its kind.
 */
#ifndef WB_WIRE_WHY_H
#define WB_WIRE_WHY_H

#include "wiring.h"

typedef enum {
    WB_WIRE_USED,
    WB_WIRE_FAULT,  /* with it alone the circuit cannot be built: fault and its numbers */
    WB_WIRE_FORM,   /* holder, block: for fuses of another form than its own */
    WB_WIRE_AMPS,   /* fitting: A asked, A it takes */
    WB_WIRE_VOLTS,  /* fitting: V asked, V it takes */
    WB_WIRE_AREA,   /* lug: mm2 of the conductor, the nearer end of what it takes */
    WB_WIRE_LARGER, /* fuse: would do, but a smaller rating does: its A, A of the one taken */
    WB_WIRE_DEARER, /* would do: what it costs, what the one taken costs, minor units (of equals
                       the first id is taken). Conductors: all of the circuit's copper and lugs;
                       blocks: as many as all loads need; else one piece */
} WbWireVerdict;

typedef struct {
    size_t circuit; /* of the wiring; bus bars stand at the bank's, fuse blocks at their feed */
    WbWireVerdict verdict;
    WbCircuitFault fault;
    double value, limit;
} WbWirePlace;

/* Its index in the problem's stock; false: it cannot be bought, is of a size the brief leaves out,
 * or is no conductor, fuse or fitting. */
bool wb_wire_find(const WbProblem *problem, const char *id, WbPartKind *kind, size_t *index);

/* One place for each circuit that has a use for such a part, in the order of the wiring; room for
 * wiring->n. Returns how many. */
size_t wb_wire_why(const WbProblem *problem, const WbWiring *wiring, WbPartKind kind, size_t index,
                   WbWirePlace *places);

#endif
