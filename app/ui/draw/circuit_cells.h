/* The circuits as a table, the same on screen and on paper. */
#ifndef WB_CIRCUIT_CELLS_H
#define WB_CIRCUIT_CELLS_H

#include "wiring.h"
#include <glib.h>

typedef enum {
    WB_CIRCUIT_NO,
    WB_CIRCUIT_NAME,
    WB_CIRCUIT_CONDUCTOR,
    WB_CIRCUIT_LENGTH,
    WB_CIRCUIT_FUSE,
    WB_CIRCUIT_AMPS,
    WB_CIRCUIT_DROP,
    WB_CIRCUIT_TOTAL, /* drop from the source */
    WB_CIRCUIT_DECIDED,
    WB_CIRCUIT_COLUMNS
} WbCircuitColumn;

/* Borrowed, translated. */
const char *wb_circuit_head(WbCircuitColumn column);
gboolean wb_circuit_column_is_figure(WbCircuitColumn column);
/* (transfer full) */
char *wb_circuit_cell(const WbProblem *problem, const WbWiring *wiring, gsize row,
                      WbCircuitColumn column);

#endif
