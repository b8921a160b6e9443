/* How firmly the first kit of a ranking stands, in words. */
#ifndef WB_WORDS_FIRM_H
#define WB_WORDS_FIRM_H

#include "rank_firm.h"
#include "words.h"

/* Its share of all weightings, the least change that dethrones it and by which kit, and the range
 * of each weight. NULL: not known. (transfer full) */
char *wb_words_firm(const WbProblem *problem, const WbRankFirm *firm);

/* Of one that is not first now. (transfer full) */
char *wb_words_firm_share(const WbFirstShare *first);
/* Which of the following kits are first at other weights; NULL: none. (transfer full) */
char *wb_words_firm_others(const WbRankFirm *firm);

#endif
