/* Keeping clauses, and forgetting learnt ones. */
#include "sat_state.h"
#include <stdlib.h>

void wb_sat_watch(WbSat *sat, int32_t literal, WbSatWatch entry)
{
    WbSatWatches *watches = &sat->watches[literal];
    if (watches->n == watches->room) {
        int room = watches->room ? 2 * watches->room : 4;
        WbSatWatch *at = realloc(watches->at, room * sizeof *at);
        if (!at) {
            sat->status = WB_NO_MEMORY;
            return;
        }
        watches->at = at;
        watches->room = room;
    }
    watches->at[watches->n++] = entry;
}

static void watch_two(WbSat *sat, int32_t clause)
{
    const int32_t *literal = sat->clauses.at + clause + WB_SAT_HEAD;
    wb_sat_watch(sat, literal[0], (WbSatWatch){clause, literal[1]});
    wb_sat_watch(sat, literal[1], (WbSatWatch){clause, literal[0]});
}

int32_t wb_sat_store(WbSat *sat, const int32_t *literals, int n, int marks)
{
    WbInts *clauses = &sat->clauses;
    if (clauses->n + n + WB_SAT_HEAD > INT32_MAX || !wb_ints_reserve(clauses, n + WB_SAT_HEAD) ||
        ((marks & WB_SAT_LEARNT) && !wb_ints_push(&sat->learnt, (int32_t)clauses->n))) {
        sat->status = WB_NO_MEMORY;
        return WB_SAT_NONE;
    }
    int32_t clause = (int32_t)clauses->n;
    clauses->at[clauses->n++] = n;
    clauses->at[clauses->n++] = marks;
    for (int k = 0; k < n; k++)
        clauses->at[clauses->n++] = literals[k];
    watch_two(sat, clause);
    return clause;
}

static int32_t span_of(const WbSat *sat, int32_t clause)
{
    return sat->clauses.at[clause + 1] >> WB_SAT_SPAN_SHIFT;
}

static bool is_reason(const WbSat *sat, int32_t clause)
{
    int32_t literal = sat->clauses.at[clause + WB_SAT_HEAD];
    return sat->value[literal] > 0 && sat->reason[literal / 2] == clause;
}

enum { SPANS = 64, SPAN_KEPT = 3 };

/* The span from which on half of the clauses that may go are. */
static int32_t span_to_forget(const WbSat *sat)
{
    size_t count[SPANS] = {0}, half = 0, n = 0;
    for (size_t k = 0; k < sat->learnt.n; k++) {
        int32_t span = span_of(sat, sat->learnt.at[k]);
        count[span < SPANS ? span : SPANS - 1]++;
        half += span > SPAN_KEPT;
    }
    int32_t span = SPANS;
    for (half /= 2; span > SPAN_KEPT + 1 && n < half; span--)
        n += count[span - 1];
    return span;
}

/* Gone clauses get the marks -1. */
static void mark_gone(WbSat *sat)
{
    int32_t limit = span_to_forget(sat);
    size_t kept = 0;
    for (size_t k = 0; k < sat->learnt.n; k++) {
        int32_t clause = sat->learnt.at[k], *marks = &sat->clauses.at[clause + 1];
        bool goes =
            span_of(sat, clause) >= limit && !(*marks & WB_SAT_USED) && !is_reason(sat, clause);
        *marks &= ~WB_SAT_USED;
        if (goes)
            *marks = -1;
        else
            sat->learnt.at[kept++] = clause;
    }
    sat->learnt.n = kept;
}

/* Closes the gaps; a clause's first literal's variable tells whether it is a reason. */
static void move_up(WbSat *sat)
{
    int32_t *at = sat->clauses.at, to = 0, from = 0, end = (int32_t)sat->clauses.n;
    size_t learnt = 0;
    while (from < end) {
        int32_t length = at[from] + WB_SAT_HEAD;
        if (at[from + 1] >= 0) {
            if (is_reason(sat, from))
                sat->reason[at[from + WB_SAT_HEAD] / 2] = to;
            if (at[from + 1] & WB_SAT_LEARNT)
                sat->learnt.at[learnt++] = to;
            for (int32_t k = 0; k < length; k++)
                at[to + k] = at[from + k];
            to += length;
        }
        from += length;
    }
    sat->clauses.n = to;
}

void wb_sat_forget(WbSat *sat)
{
    mark_gone(sat);
    move_up(sat);
    for (int literal = 0; literal < 2 * sat->n_variables; literal++)
        sat->watches[literal].n = 0;
    for (int32_t at = 0; at < (int32_t)sat->clauses.n; at += sat->clauses.at[at] + WB_SAT_HEAD)
        watch_two(sat, at);
}
