/* The question as clauses (order encoding: Soh, Inoue, Tamura, Banbara & Nabeshima 2008, from
 * memory). data/METHOD.md, "Mixes", states the variables in their order and every clause; the
 * checker of proofs (proof_clauses.c) is written from there and shares nothing but the question. */
#ifndef WB_MIX_CLAUSES_H
#define WB_MIX_CLAUSES_H

#include "question.h"

typedef void (*WbClauseSink)(void *to, const int32_t *literals, int n);

/* How many variables; and no less than how many literals the clauses have. The positions are
 * found. */
int64_t wb_mix_variables(const WbMixQuestion *question);
double wb_mix_literals(const WbMixQuestion *question);

/* Where each panel's variables begin; answers NULL without memory. Free it. */
typedef struct {
    int32_t at[WB_AXES]; /* of "position k or later", k = 1 ..; at + k - 1 */
    int32_t turned;      /* 0: it does not turn */
} WbMixNames;
WbMixNames *wb_mix_names(const WbMixQuestion *question, int32_t *first_pair);

void wb_mix_clauses(const WbMixQuestion *question, const WbMixNames *names, int32_t first_pair,
                    WbClauseSink sink, void *to);

#endif
