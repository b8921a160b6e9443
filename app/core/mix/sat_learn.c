/* What a conflict teaches: the clause of the first unique implication point, less the literals that
 * follow from its others (Sorensson & Biere 2009, from memory). */
#include "sat_state.h"

static void push(WbSat *sat, WbInts *ints, int32_t value)
{
    if (!wb_ints_push(ints, value))
        sat->status = WB_NO_MEMORY;
}

static void see(WbSat *sat, int32_t literal)
{
    sat->seen[literal / 2] = 1;
    push(sat, &sat->cleared, literal / 2);
}

/* Counts the levels of the literals. */
static int span_of(WbSat *sat, const int32_t *literal, int n)
{
    int span = 0;
    sat->mark++;
    for (int k = 0; k < n; k++) {
        int32_t level = sat->level[literal[k] / 2];
        if (level > 0 && sat->level_mark[level] != sat->mark) {
            sat->level_mark[level] = sat->mark;
            span++;
        }
    }
    return span;
}

static void mark_used(WbSat *sat, int32_t clause)
{
    int32_t *at = sat->clauses.at + clause;
    if (!(at[1] & WB_SAT_LEARNT))
        return;
    int span = span_of(sat, at + WB_SAT_HEAD, at[0]);
    if (span > 0 && span < at[1] >> WB_SAT_SPAN_SHIFT)
        at[1] = span << WB_SAT_SPAN_SHIFT | WB_SAT_LEARNT;
    at[1] |= WB_SAT_USED;
}

/* Takes in a clause's literals but the one it set; answers how many of the present level. */
static int take_in(WbSat *sat, int32_t clause, int32_t set)
{
    int present = 0;
    mark_used(sat, clause);
    for (int32_t k = 0; k < sat->clauses.at[clause]; k++) {
        int32_t literal = sat->clauses.at[clause + WB_SAT_HEAD + k];
        int32_t level = sat->level[literal / 2];
        if (literal == set || sat->seen[literal / 2] || level == 0)
            continue;
        see(sat, literal);
        wb_sat_bump(sat, literal / 2);
        if (level == (int32_t)sat->level_start.n)
            present++;
        else
            push(sat, &sat->clause, literal);
    }
    return present;
}

/* Whether a false literal follows from others that are seen. What was found is kept as seen; where
 * it does not follow, the marks made on the way are taken back. */
static bool follows(WbSat *sat, int32_t literal)
{
    size_t cleared = sat->cleared.n;
    sat->stack.n = 0;
    push(sat, &sat->stack, literal);
    while (sat->stack.n > 0 && sat->status == WB_OK) {
        int32_t clause = sat->reason[sat->stack.at[--sat->stack.n] / 2];
        for (int32_t k = 1; k < sat->clauses.at[clause]; k++) {
            int32_t next = sat->clauses.at[clause + WB_SAT_HEAD + k];
            if (sat->seen[next / 2] || sat->level[next / 2] == 0)
                continue;
            if (sat->reason[next / 2] == WB_SAT_NONE ||
                sat->level_mark[sat->level[next / 2]] != sat->mark) {
                while (sat->cleared.n > cleared)
                    sat->seen[sat->cleared.at[--sat->cleared.n]] = 0;
                return false;
            }
            see(sat, next);
            push(sat, &sat->stack, next);
        }
    }
    return sat->status == WB_OK;
}

static void shorten(WbSat *sat)
{
    size_t kept = 1;
    span_of(sat, sat->clause.at, (int)sat->clause.n); /* marks the levels for follows() */
    for (size_t k = 1; k < sat->clause.n; k++) {
        int32_t literal = sat->clause.at[k];
        if (sat->reason[literal / 2] == WB_SAT_NONE || !follows(sat, literal))
            sat->clause.at[kept++] = literal;
    }
    sat->clause.n = kept;
}

/* The second literal becomes one of the highest level of the rest; answers that level. */
static int highest_second(WbSat *sat)
{
    int32_t *literal = sat->clause.at;
    size_t highest = 1;
    if (sat->clause.n < 2)
        return 0;
    for (size_t k = 2; k < sat->clause.n; k++)
        if (sat->level[literal[k] / 2] > sat->level[literal[highest] / 2])
            highest = k;
    int32_t was = literal[1];
    literal[1] = literal[highest];
    literal[highest] = was;
    return sat->level[literal[1] / 2];
}

int wb_sat_learn(WbSat *sat, int32_t conflict, int *span)
{
    int at = sat->n_trail, present;
    sat->clause.n = sat->cleared.n = 0;
    push(sat, &sat->clause, 0);
    present = take_in(sat, conflict, WB_SAT_NONE);
    int32_t literal = WB_SAT_NONE;
    while (sat->status == WB_OK) {
        do
            literal = sat->trail[--at];
        while (!sat->seen[literal / 2]);
        if (--present == 0)
            break;
        present += take_in(sat, sat->reason[literal / 2], literal);
    }
    if (sat->status == WB_OK) {
        sat->clause.at[0] = literal ^ 1;
        shorten(sat);
    }
    for (size_t k = 0; k < sat->cleared.n; k++)
        sat->seen[sat->cleared.at[k]] = 0;
    *span = span_of(sat, sat->clause.at, (int)sat->clause.n);
    return highest_second(sat);
}
