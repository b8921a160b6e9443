/* The rows of one slot that a walk goes through, dearer ones later, with all it asks of them close
 * together. */
#ifndef WB_CHOICE_DOMAIN_H
#define WB_CHOICE_DOMAIN_H

#include "choice_walk.h"

typedef struct {
    size_t n;
    uint32_t *row;
    int64_t *score;
    int64_t *term;   /* [row][rule at work] */
    int64_t *after;  /* [row][slot]: the least score of a row there that goes with this one */
    uint32_t *below; /* wb_choice_below */
    uint32_t least_row;
} WbChoiceDomain;

typedef struct {
    const WbChoiceSearch *search;
    const WbChoiceGroup *group;
    int n_slots, n_rules; /* rules at work: the group's */
    int64_t limit[WB_CHOICE_RULES];
    int64_t least[WB_CHOICE_RULES][WB_CHOICE_SLOTS]; /* terms of the rows here */
    int64_t sum[WB_CHOICE_RULES];                    /* of the least terms of all slots */
    WbChoiceFloor floor;
    WbChoiceDomain domain[WB_CHOICE_SLOTS];
} WbChoiceDomains;

/* False: out of memory; wb_choice_domains_free is in order all the same. */
bool wb_choice_domains(WbChoiceDomains *domains, const WbChoiceSearch *search,
                       const WbChoiceGroup *group, const WbChoiceFloor *floor, int64_t most_score);
/* Leaves out rows that are in no choice scoring at most so much, and with `most` > 0 rows that so
 * many others of their slot could replace, each with a better choice every time. False: nothing is
 * left. */
bool wb_choice_tighten(WbChoiceDomains *domains, int64_t most_score, size_t most);
void wb_choice_domains_free(WbChoiceDomains *domains);

#endif
