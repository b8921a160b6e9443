/* What follows at once: a clause whose literals are all false but one sets that one. */
#include "sat_state.h"

void wb_sat_set(WbSat *sat, int32_t literal, int32_t reason)
{
    int variable = literal / 2;
    sat->value[literal] = 1;
    sat->value[literal ^ 1] = -1;
    sat->reason[variable] = reason;
    sat->level[variable] = (int32_t)sat->level_start.n;
    sat->trail[sat->n_trail++] = literal;
}

/* Looks for another literal to watch instead of the second. False: there is none. */
static bool watch_another(WbSat *sat, int32_t clause)
{
    int32_t size = sat->clauses.at[clause], *literal = sat->clauses.at + clause + WB_SAT_HEAD;
    for (int k = 2; k < size; k++)
        if (sat->value[literal[k]] >= 0) {
            int32_t was = literal[1];
            literal[1] = literal[k];
            literal[k] = was;
            wb_sat_watch(sat, literal[1], (WbSatWatch){clause, literal[0]});
            return true;
        }
    return false;
}

/* `untrue` has just turned false. Answers the clause in conflict. */
static int32_t visit_watches(WbSat *sat, int32_t untrue)
{
    WbSatWatches *watches = &sat->watches[untrue];
    int32_t conflict = WB_SAT_NONE;
    int kept = 0, k = 0;
    for (; k < watches->n && conflict == WB_SAT_NONE; k++) {
        WbSatWatch entry = watches->at[k];
        if (sat->value[entry.other] > 0) {
            watches->at[kept++] = entry;
            continue;
        }
        int32_t *literal = sat->clauses.at + entry.clause + WB_SAT_HEAD;
        if (literal[0] == untrue) {
            literal[0] = literal[1];
            literal[1] = untrue;
        }
        entry.other = literal[0];
        if (sat->value[entry.other] > 0 || !watch_another(sat, entry.clause)) {
            watches->at[kept++] = entry;
            if (sat->value[entry.other] < 0)
                conflict = entry.clause;
            else if (sat->value[entry.other] == 0)
                wb_sat_set(sat, entry.other, entry.clause);
        }
    }
    while (k < watches->n)
        watches->at[kept++] = watches->at[k++];
    watches->n = kept;
    return conflict;
}

int32_t wb_sat_propagate(WbSat *sat)
{
    int32_t conflict = WB_SAT_NONE;
    while (sat->head < sat->n_trail && conflict == WB_SAT_NONE) {
        sat->propagations++;
        conflict = visit_watches(sat, sat->trail[sat->head++] ^ 1);
    }
    return conflict;
}

void wb_sat_back_to(WbSat *sat, int level)
{
    if ((int)sat->level_start.n <= level)
        return;
    int kept = sat->level_start.at[level];
    while (sat->n_trail > kept) {
        int32_t literal = sat->trail[--sat->n_trail];
        sat->value[literal] = sat->value[literal ^ 1] = 0;
        sat->phase[literal / 2] = literal & 1;
        wb_sat_heap_insert(sat, literal / 2);
    }
    sat->head = kept;
    sat->level_start.n = level;
}
