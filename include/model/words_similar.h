/* Similar kits in words. */
#ifndef WB_WORDS_SIMILAR_H
#define WB_WORDS_SIMILAR_H

#include "similar.h"
#include "words.h"

/* A kit that stands under the first of its group. */
typedef struct {
    gint64 cost_minor, weight_g;
    guint64 rank;        /* from 1; 0: not known */
    WbKitChoice differs; /* from the first */
} WbLike;

/* "the controllers"; WB_N_KIT_CHOICES: "the wiring of the panels". */
const char *wb_words_choice(WbKitChoice choice);
/* "14 like it, differing in the controllers (9) or the inverter (5); the cheapest ..., the lightest
 * ...". At least one. (transfer full) */
char *wb_words_like_it(const WbProblem *problem, const WbLike *like, gsize n);

#endif
