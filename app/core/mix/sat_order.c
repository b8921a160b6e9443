/* Open variables in a heap: the most active first, equals by number. */
#include "sat_state.h"

static const double LARGE = 1e100;

static bool before(const WbSat *sat, int32_t a, int32_t b)
{
    return sat->activity[a] > sat->activity[b] || (sat->activity[a] == sat->activity[b] && a < b);
}

static void put(WbSat *sat, int at, int32_t variable)
{
    sat->heap[at] = variable;
    sat->heap_at[variable] = at;
}

static void rise(WbSat *sat, int at)
{
    int32_t variable = sat->heap[at];
    while (at > 0 && before(sat, variable, sat->heap[(at - 1) / 2])) {
        put(sat, at, sat->heap[(at - 1) / 2]);
        at = (at - 1) / 2;
    }
    put(sat, at, variable);
}

static void sink(WbSat *sat, int at)
{
    int32_t variable = sat->heap[at];
    for (;;) {
        int child = 2 * at + 1;
        if (child >= sat->n_heap)
            break;
        if (child + 1 < sat->n_heap && before(sat, sat->heap[child + 1], sat->heap[child]))
            child++;
        if (!before(sat, sat->heap[child], variable))
            break;
        put(sat, at, sat->heap[child]);
        at = child;
    }
    put(sat, at, variable);
}

void wb_sat_heap_insert(WbSat *sat, int variable)
{
    if (sat->heap_at[variable] >= 0)
        return;
    put(sat, sat->n_heap++, variable);
    rise(sat, sat->heap_at[variable]);
}

int wb_sat_heap_pop(WbSat *sat)
{
    if (sat->n_heap == 0)
        return -1;
    int32_t top = sat->heap[0];
    sat->heap_at[top] = -1;
    int32_t last = sat->heap[--sat->n_heap];
    if (sat->n_heap > 0) {
        put(sat, 0, last);
        sink(sat, 0);
    }
    return top;
}

void wb_sat_bump(WbSat *sat, int variable)
{
    sat->activity[variable] += sat->bump;
    if (sat->activity[variable] > LARGE) {
        for (int v = 0; v < sat->n_variables; v++)
            sat->activity[v] /= LARGE;
        sat->bump /= LARGE;
    }
    if (sat->heap_at[variable] >= 0)
        rise(sat, sat->heap_at[variable]);
}
