/* The clauses of a question, made anew for the checker of proofs from data/METHOD.md, "Mixes".
 * Nothing is shared with the search but the list of whole numbers: positions, variables and clauses
 * are found by code of their own, in plain loops. */
#ifndef WB_PROOF_CLAUSES_H
#define WB_PROOF_CLAUSES_H

#include "ints.h"
#include "mix.h"

typedef struct {
    int32_t n_variables;
    WbInts literals; /* clauses one after another, each closed by 0 */
} WbFacts;

/* The plain roof and the items are valid. WB_OK, WB_NO_MEMORY; WB_BUDGET: more clauses than a
 * checker takes in. */
WbStatus wb_facts(const WbRoof *plain, const WbMixItem *items, size_t n_items, WbFacts *facts);
void wb_facts_free(WbFacts *facts);

/* Without clauses: a panel enters neither way, or there is more panel than room. */
bool wb_facts_too_large(const WbRoof *plain, const WbMixItem *items, size_t n_items);

#endif
