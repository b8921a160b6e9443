/* The only link between running core work and whoever started it: a stop flag, a budget of nodes
 * (never a time, so that every machine gives the same answer) and progress to read. */
#ifndef WB_CONTROL_H
#define WB_CONTROL_H

#include <stdatomic.h>
#include <stdbool.h>
#include <stdint.h>

typedef struct {
    atomic_bool stop;          /* raised by the caller, from any thread */
    atomic_uint_fast64_t done; /* steps finished, for a progress bar */
    atomic_uint_fast64_t todo; /* steps in all, 0 while unknown */
} WbControl;

void wb_control_init(WbControl *control);
void wb_control_stop(WbControl *control);
/* True once the work should end. `control` may be NULL: then never. */
bool wb_control_stopped(const WbControl *control);

#endif
