/* Branch and bound on the graph of cliques.h. */
#ifndef WB_CLIQUE_SEARCH_H
#define WB_CLIQUE_SEARCH_H

#include "cliques.h"
#include "proof_log.h"
#include "search_run.h"

typedef struct {
    int64_t *weight; /* [m], of a point */
    uint64_t *open;  /* [words] */
} WbCliqueLevel;

typedef struct {
    WbSearchRun run; /* best: to set first, the panels known; places of the graph where it rose */
    const WbCliques *cliques;
    WbProofLog *log;   /* NULL, or where each case is told */
    int root_aim;      /* to set first: the root's weights aim so many panels below what is asked */
    int *queue;        /* [n] */
    int *start;        /* [n], while the queue is sorted */
    int64_t *under;    /* [n], by the last evaluation */
    float *share;      /* [n], see bound.h */
    double *course;    /* [m] */
    int32_t *cover;    /* [m] */
    uint64_t *scratch; /* [words] */
    WbCliqueLevel *level; /* [at_most + 1] */
    int64_t total, least; /* bound of the last evaluation, least of this case */
    double step;
    int stalled;
} WbCliqueSearch;

/* Set cliques and the run first (see search_run.h); free it even after a failure. */
WbStatus wb_clique_search_init(WbCliqueSearch *search);
void wb_clique_search_free(WbCliqueSearch *search);
/* Until `best` is proved (status WB_OK), or status says why not. */
void wb_clique_search_prove(WbCliqueSearch *search);

#endif
