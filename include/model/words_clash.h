/* Which limits cannot be kept at once, in words. */
#ifndef WB_WORDS_CLASH_H
#define WB_WORDS_CLASH_H

#include "clash.h"
#include "words.h"

/* NULL: it was not asked. The head is its first sentence alone. (transfer full) */
char *wb_words_clash_head(const WbClash *clash);
char *wb_words_clash(const WbProblem *problem, const WbClash *clash);

#endif
