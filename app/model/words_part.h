/* Sentences of an answer about one part. Private to the model. */
#ifndef WB_WORDS_PART_H
#define WB_WORDS_PART_H

#include "part_answer.h"

typedef struct {
    WbPartAnswer *answer;
    const WbProblem *problem;
    GArray *lines; /* WbAnswerLine */
} WbAnswerTalk;

/* Takes text over. kit NULL: the line speaks of none. */
void wb_talk_add(WbAnswerTalk *talk, char *text, const WbKit *kit);

/* Headline and lines from what the answer holds. */
void wb_words_part_kits(WbAnswerTalk *talk, const WbRanking *ranking);
void wb_words_part_circuits(WbAnswerTalk *talk);

#endif
