/* Branch and bound on the graph of cliques.h. */
#ifndef WB_CLIQUE_SEARCH_H
#define WB_CLIQUE_SEARCH_H

#include "cliques.h"
#include "control.h"
#include "proof_log.h"

typedef struct {
    int64_t *weight; /* [m], of a point */
    uint64_t *open;  /* [words] */
} WbCliqueLevel;

typedef struct {
    const WbCliques *cliques;
    WbControl *control;
    WbProofLog *log;             /* NULL, or where each case is told */
    uint64_t steps, step_budget; /* see WB_ROOF_NODE_STEPS */
    WbStatus status;             /* other than WB_OK: unwind */
    int at_most;
    int best;        /* to set first: the panels known; then those in best_place */
    int *best_place; /* [at_most], of the graph, where best rose */
    int root_bound;
    int root_aim; /* to set first: the root's weights aim so many panels below what is asked */
    int *picked, *queue;  /* [at_most], [n] */
    int *start;           /* [n], while the queue is sorted */
    int64_t *under;       /* [n], by the last evaluation */
    float *share;         /* [n], see bound.h */
    double *course;       /* [m] */
    int32_t *cover;       /* [m] */
    uint64_t *scratch;    /* [words] */
    WbCliqueLevel *level; /* [at_most + 1] */
    int64_t total, least; /* bound of the last evaluation, least of this case */
    double step;
    int stalled;
} WbCliqueSearch;

/* Set cliques, control, steps, step_budget, at_most and best first; free it even after a failure.
 */
WbStatus wb_clique_search_init(WbCliqueSearch *search);
void wb_clique_search_free(WbCliqueSearch *search);
/* Until `best` is proved (status WB_OK), or status says why not. */
void wb_clique_search_prove(WbCliqueSearch *search);

#endif
