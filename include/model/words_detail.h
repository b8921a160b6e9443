/* One finding opened: how near its limit it stands, what was reckoned with which numbers, whose
 * rule it is and what to change. All (transfer full) unless said otherwise. */
#ifndef WB_WORDS_DETAIL_H
#define WB_WORDS_DETAIL_H

#include "words_circuit.h"

/* "6 % left of 50 V", "12 % short of 791.6 Wh/day"; NULL: no distance is meant. */
char *wb_words_margin(const WbFinding *finding);
/* The limit is a ceiling, else a floor. */
gboolean wb_finding_is_at_most(const WbFinding *finding);
/* What a person may change to keep the rule, or to keep farther from it. (transfer none) */
const char *wb_words_change(WbRule rule);
/* Formula, numbers put in, source, what was assumed, what to change. */
WbReckoning *wb_finding_detail(const WbProblem *problem, const WbVerdict *verdict,
                               const WbFinding *finding);

#endif
