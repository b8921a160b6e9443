#include "sat_state.h"
#include <stdlib.h>

enum { FORGET_FIRST = 2000, FORGET_MORE = 300, RESTART_GAP = 50, LOOK_EVERY = 64 };
static const double BUMP_GROWTH = 1 / 0.95, FAST = 1.0 / 32, SLOW = 1.0 / 8192, MARGIN = 1.2;

static bool reserve(WbSat *sat, int n_variables)
{
    size_t n = (size_t)n_variables + 1;
    sat->watches = calloc(2 * n, sizeof *sat->watches);
    sat->value = calloc(2 * n, 1);
    sat->reason = malloc(n * sizeof *sat->reason);
    sat->level = calloc(n, sizeof *sat->level);
    sat->phase = malloc(n);
    sat->seen = calloc(n, 1);
    sat->trail = malloc(n * sizeof *sat->trail);
    sat->activity = calloc(n, sizeof *sat->activity);
    sat->heap = malloc(n * sizeof *sat->heap);
    sat->heap_at = malloc(n * sizeof *sat->heap_at);
    sat->level_mark = calloc(n + 1, sizeof *sat->level_mark);
    return sat->watches && sat->value && sat->reason && sat->level && sat->phase && sat->seen &&
           sat->trail && sat->activity && sat->heap && sat->heap_at && sat->level_mark;
}

WbSat *wb_sat_new(int n_variables)
{
    WbSat *sat = calloc(1, sizeof *sat);
    if (!sat)
        return NULL;
    if (!reserve(sat, n_variables)) {
        wb_sat_free(sat);
        return NULL;
    }
    sat->n_variables = n_variables;
    sat->bump = 1;
    sat->next_forget = sat->forget_step = FORGET_FIRST;
    for (int v = 0; v < n_variables; v++) {
        sat->heap_at[v] = -1;
        sat->phase[v] = 1;
        sat->reason[v] = WB_SAT_NONE;
        wb_sat_heap_insert(sat, v);
    }
    return sat;
}

void wb_sat_free(WbSat *sat)
{
    if (!sat)
        return;
    for (int literal = 0; sat->watches && literal < 2 * sat->n_variables; literal++)
        free(sat->watches[literal].at);
    void *owned[] = {sat->watches, sat->value,   sat->reason,    sat->level,
                     sat->phase,   sat->seen,    sat->trail,     sat->activity,
                     sat->heap,    sat->heap_at, sat->level_mark};
    for (size_t k = 0; k < sizeof owned / sizeof *owned; k++)
        free(owned[k]);
    WbInts *lists[] = {&sat->clauses, &sat->learnt, &sat->level_start,
                       &sat->clause,  &sat->stack,  &sat->cleared};
    for (size_t k = 0; k < sizeof lists / sizeof *lists; k++)
        wb_ints_free(lists[k]);
    free(sat);
}

static int32_t inside(int32_t literal)
{
    return literal > 0 ? 2 * (literal - 1) : 2 * (-literal - 1) + 1;
}

static int32_t outside(int32_t literal)
{
    return literal & 1 ? -(literal / 2 + 1) : literal / 2 + 1;
}

void wb_sat_add(WbSat *sat, const int32_t *literals, int n)
{
    sat->clause.n = 0;
    for (int k = 0; k < n && sat->status == WB_OK; k++) {
        int32_t literal = inside(literals[k]);
        if (sat->value[literal] > 0)
            return;
        if (sat->value[literal] == 0 && !wb_ints_push(&sat->clause, literal))
            sat->status = WB_NO_MEMORY;
    }
    if (sat->status != WB_OK)
        return;
    if (sat->clause.n == 0)
        sat->refuted = true;
    else if (sat->clause.n == 1)
        wb_sat_set(sat, sat->clause.at[0], WB_SAT_NONE);
    else
        wb_sat_store(sat, sat->clause.at, (int)sat->clause.n, 0);
}

static void log_clause(WbSat *sat, WbInts *log, const int32_t *literal, size_t n)
{
    if (!wb_ints_reserve(log, n + 1)) {
        sat->status = WB_NO_MEMORY;
        return;
    }
    for (size_t k = 0; k < n; k++)
        log->at[log->n++] = outside(literal[k]);
    log->at[log->n++] = 0;
}

static void keep_learnt(WbSat *sat, int span)
{
    int32_t reason = WB_SAT_NONE;
    if (sat->clause.n > 1)
        reason = wb_sat_store(sat, sat->clause.at, (int)sat->clause.n,
                              span << WB_SAT_SPAN_SHIFT | WB_SAT_LEARNT | WB_SAT_USED);
    if (sat->status == WB_OK)
        wb_sat_set(sat, sat->clause.at[0], reason);
}

static void meet_conflict(WbSat *sat, int32_t conflict, WbInts *log)
{
    sat->conflicts++;
    sat->since_restart++;
    if (sat->level_start.n == 0) {
        sat->refuted = true;
        log_clause(sat, log, NULL, 0);
        return;
    }
    int span, level = wb_sat_learn(sat, conflict, &span);
    if (sat->status != WB_OK)
        return;
    log_clause(sat, log, sat->clause.at, sat->clause.n);
    wb_sat_back_to(sat, level);
    keep_learnt(sat, span);
    sat->bump *= BUMP_GROWTH;
    sat->span_fast += FAST * (span - sat->span_fast);
    double slow = 1.0 / (double)sat->conflicts;
    sat->span_slow += (slow > SLOW ? slow : SLOW) * (span - sat->span_slow);
}

/* Between conflicts: restart, forget, decide. False: every variable is set. */
static bool go_on(WbSat *sat)
{
    if (sat->since_restart >= RESTART_GAP && sat->span_fast > MARGIN * sat->span_slow) {
        sat->since_restart = 0;
        wb_sat_back_to(sat, 0);
    }
    if (sat->conflicts >= sat->next_forget) {
        wb_sat_forget(sat);
        sat->forget_step += FORGET_MORE;
        sat->next_forget = sat->conflicts + sat->forget_step;
    }
    int variable;
    do
        variable = wb_sat_heap_pop(sat);
    while (variable >= 0 && sat->value[2 * variable] != 0);
    if (variable < 0)
        return false;
    if (!wb_ints_push(&sat->level_start, sat->n_trail))
        sat->status = WB_NO_MEMORY;
    else
        wb_sat_set(sat, 2 * variable + sat->phase[variable], WB_SAT_NONE);
    return true;
}

WbStatus wb_sat_solve(WbSat *sat, uint64_t propagations, const WbControl *control, WbInts *learnt,
                      WbSatAnswer *answer)
{
    *answer = WB_SAT_OPEN;
    if (sat->refuted)
        log_clause(sat, learnt, NULL, 0);
    for (uint64_t round = 1; sat->status == WB_OK && !sat->refuted; round++) {
        int32_t conflict = wb_sat_propagate(sat);
        if (sat->status != WB_OK)
            break;
        if (conflict != WB_SAT_NONE) {
            meet_conflict(sat, conflict, learnt);
        } else if (!go_on(sat)) {
            *answer = WB_SAT_YES;
            break;
        }
        if (sat->propagations > propagations)
            break;
        if (round % LOOK_EVERY == 0 && wb_control_stopped(control))
            sat->status = WB_STOPPED;
    }
    if (sat->status == WB_OK && sat->refuted)
        *answer = WB_SAT_NO;
    return sat->status;
}

uint64_t wb_sat_propagations(const WbSat *sat)
{
    return sat->propagations;
}

bool wb_sat_true(const WbSat *sat, int variable)
{
    return sat->value[2 * (variable - 1)] > 0;
}
