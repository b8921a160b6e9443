/* Every combination of a small problem judged alone, by nested loops: what the search has to equal.
 * Sorted with a plain sort, the front by comparing all pairs. */
#ifndef WB_TEST_BRUTE_H
#define WB_TEST_BRUTE_H

#include "rank.h"
#include <glib.h>

typedef struct {
    WbVerdict *kits; /* feasible ones, best first */
    size_t n;
    gboolean *on_front;
    size_t front;
    GArray *beyond; /* WbVerdict: stopped by money or weight alone, but within reach of a pool */
    guint64 raw, undecided;
    WbRuledOut ruled_out[WB_N_RULES];
} Brute;

void brute_force(const WbProblem *problem, Brute *brute);
void brute_free(Brute *brute);
/* A ranking of at most `top` rows, whole front. */
void brute_compare(const WbProblem *problem, const WbRanking *ranking, const Brute *brute,
                   size_t top);

#endif
