/* The way kits are ranked, and why one stands where it stands, in words. */
#ifndef WB_WORDS_WAY_H
#define WB_WORDS_WAY_H

#include "rank_by.h"
#include "words.h"

/* In the middle of a sentence: "usable capacity". */
const char *wb_words_criterion(int criterion);
/* Those that count for the front: "cost, weight". (transfer full) */
char *wb_words_front(const WbBrief *brief);
/* With its unit: "1,234.00 EUR", "12.5 kg". (transfer full) */
char *wb_words_figure(const WbProblem *problem, WbCriterion criterion, double x);
/* The way of the brief with its formula, goals or steps. (transfer full) */
char *wb_words_way(const WbProblem *problem);
/* The same with one kit's figures put in. (transfer full) */
char *wb_words_stands(const WbProblem *problem, const WbFigures *figures);

#endif
