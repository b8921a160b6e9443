/* Similar kits: the same but for one choice. Of a list, best first, each kit that is like one above
 * it stands with that one, so that the first ten that stand for themselves are ten real choices. */
#ifndef WB_SIMILAR_H
#define WB_SIMILAR_H

#include "kit.h"

/* What a person chooses. The same panels wired otherwise are the same choice: the same things are
 * bought, and the two differ by some wire. The same batteries wired otherwise are another one: they
 * make another voltage, which asks for another inverter. */
typedef enum {
    WB_KIT_PANELS,      /* model and number of all */
    WB_KIT_CONTROLLERS, /* model and number */
    WB_KIT_BANK,        /* model, in series, in parallel */
    WB_KIT_INVERTER,
    WB_KIT_DCDC,
    WB_N_KIT_CHOICES
} WbKitChoice;

/* In how many choices they differ; *first, unless NULL: the first of them, WB_N_KIT_CHOICES: none.
 */
int wb_kits_differ(const WbKit *a, const WbKit *b, WbKitChoice *first);

/* Where a kit of a list stands. */
typedef struct {
    uint32_t leader;     /* its leader's index in the list; its own: it leads */
    uint32_t n_like;     /* of a leader: how many stand with it */
    WbKitChoice differs; /* of a member: in what from its leader; WB_N_KIT_CHOICES: in the wiring of
                         the panels alone. Of a leader: WB_N_KIT_CHOICES */
} WbSimilarRow;

#define WB_SIMILAR_MOST ((size_t)100000000)

/* From the first kit to the last: it stands with the first leader it is like, differing in at most
 * one choice, else it leads. Fills rows[n]; *n_groups, unless NULL: how many lead. In proportion to
 * n. WB_BAD_INPUT: more than WB_SIMILAR_MOST. */
WbStatus wb_similar_group(const WbKit *const *kits, size_t n, WbSimilarRow *rows, size_t *n_groups);

#endif
