/* The steps of the job with their live results, as the side shows them; and the kit in hand against
 * the limits, as the foot shows it. Plain functions of the document's state, no toolkit. */
#ifndef WB_OUTLINE_H
#define WB_OUTLINE_H

#include "result.h"

typedef enum {
    WB_STEP_LOADS,
    WB_STEP_PLACE,
    WB_STEP_ROOF,
    WB_STEP_PARTS,
    WB_STEP_RANKING,
    WB_STEP_STORAGE,
    WB_STEP_KIT,
    WB_STEP_SHOPPING,
    WB_N_STEPS,
} WbStep;

typedef enum {
    WB_MARK_DONE,
    WB_MARK_WANTS,    /* something is missing; `what` says what */
    WB_MARK_CONFLICT, /* two things do not go together; `what` says which */
    WB_MARK_WAITING,  /* not known yet, work runs */
} WbMark;

typedef struct {
    char *line; /* "1,240 Wh/day" */
    WbMark mark;
    char *what; /* one sentence, NULL when done */
} WbOutlineLine;

const char *wb_step_name(WbStep step);  /* "loads": page name, action target */
const char *wb_step_title(WbStep step); /* "Loads" */

/* `result` may be NULL (no answer yet) or of an older state. */
void wb_outline_make(const WbBrief *brief, const WbCatalogue *catalogue, const WbResult *result,
                     const char *kit_id, WbOutlineLine line[WB_N_STEPS]);
void wb_outline_clear(WbOutlineLine line[WB_N_STEPS]);

/* Where nothing works: the rule by which most fail alone, for there the smallest change lets kits
 * in; where nothing fails by one rule alone, the one most fail at first. */
WbRule wb_outline_decisive_rule(const WbRanking *ranking);
/* The same in a sentence with its counts. */
char *wb_outline_why_none_works(const WbRanking *ranking);

typedef enum {
    WB_GAUGE_MONEY,
    WB_GAUGE_WEIGHT,
    WB_GAUGE_USABLE,
    WB_GAUGE_ROOF,
    WB_N_GAUGES
} WbGaugeKind;

typedef struct {
    double value, limit; /* same unit; limit NaN: switched off */
    gboolean least;      /* the limit is the least (days the bank lasts), not the most */
    gboolean breaks;     /* on the wrong side of the limit */
    char *text;          /* "1,612 of 2,000 EUR" */
    char *broken_by;     /* "88 EUR over", NULL while it holds */
} WbGauge;

/* The kit in hand: its words and gauges. FALSE: no kit works (texts NULL). */
typedef struct {
    char kit_id[WB_KIT_ID];
    char *words;
    gboolean best; /* it is the first of the ranking */
    WbGauge gauge[WB_N_GAUGES];
} WbInHand;

gboolean wb_in_hand_make(const WbResult *result, const char *kit_id, WbInHand *in_hand);
void wb_in_hand_clear(WbInHand *in_hand);

#endif
