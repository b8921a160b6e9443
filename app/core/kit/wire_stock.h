#ifndef WB_WIRE_STOCK_H
#define WB_WIRE_STOCK_H

#include "problem.h"

/* problem->wires from its catalogue, prices and brief; WB_NO_MEMORY. */
WbStatus wb_wire_stock_fill(WbProblem *problem);
void wb_wire_stock_free(WbWireStock *stock);

#endif
