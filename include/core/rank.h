/* The ranking: every combination of the candidates within the largest counts, exact. */
#ifndef WB_RANK_H
#define WB_RANK_H

#include "pool.h"

typedef struct {
    WbKit kit;
    WbFigures figures;
    double u[WB_N_CRITERIA];
    double score;
    bool on_front;
} WbRanked;

#define WB_MOST_WORKERS 16
/* Where more kits than this beat each other nowhere, no front is told. */
#define WB_RANK_FRONT_MOST (1 << 17)

/* One choice of a kind that a kit has: panel, controller, storage, inverter or DC-DC charger. */
typedef struct {
    WbPartKind kind;
    int index; /* of the problem's choices of that kind */
} WbPartChoice;

typedef struct {
    size_t top;        /* how many rows to keep, best first; 1..1,000,000 */
    size_t front_most; /* keep at most this many members of the front; all are counted */
    int workers;       /* threads, 1..WB_MOST_WORKERS; the answer is the same with any number */
    const WbPartChoice *holding; /* only kits that hold it are searched and counted; NULL: all */
    bool pool; /* keep every kit that works and those just beyond money or weight */
    /* An answer in a hurry: neither limit nor worth of dark hours is asked, and only the first
     * so many rows are told theirs, and the pool has only kits that work; else all are. */
    bool hurried;
    size_t hurried_dark_rows;
    bool least_dark; /* work out the nearest of the dark hours too: more hourly years */
} WbRankOptions;

WbRankOptions wb_rank_options_default(void); /* 1,000, 100,000, one worker, no pool */

typedef struct {
    uint64_t first; /* kits whose first broken rule this is */
    uint64_t alone; /* kits that break only this rule */
    /* Of these the one that misses the limit by least, filled where alone > 0: what the finding of
     * this rule compares, both in its unit. Equal misses by wb_kit_compare. Dark hours are not
     * worked out beyond the limit unless asked (least_dark): value is NaN then, the kit the first
     * of all. */
    WbKit nearest;
    double value, limit;
} WbRuledOut;

/* The kits of one chemistry: how many work, and the best of them. */
typedef struct {
    const WbChemistry *chemistry;
    uint64_t feasible;
    WbRanked best; /* filled where feasible > 0 */
} WbChemistryRank;

typedef struct {
    WbRanked *top; /* best first, by rank_by.h */
    size_t n_top;
    WbRanked *front; /* same order */
    size_t n_front;
    uint64_t front_count; /* n_front, or more when front_most cut it */
    bool front_too_many;  /* kits that beat each other nowhere: no front is told, it is empty */
    WbChemistryRank *chemistries; /* every one of the catalogue, in its order */
    size_t n_chemistries;
    uint64_t raw, feasible;
    uint64_t undecided; /* would work if their roof answer were yes; counted among the firsts too */
    WbRuledOut ruled_out[WB_N_RULES]; /* firsts + feasible = raw */
    bool proved;  /* false: made in a hurry while dark hours matter to what works or its order */
    WbPool *pool; /* NULL: not asked for */
} WbRanking;

/* WB_STOPPED: nothing is written. WB_BAD_INPUT: top or workers outside what is said above. */
WbStatus wb_rank(const WbProblem *problem, const WbRankOptions *options, WbControl *control,
                 WbRanking *ranking);
void wb_ranking_free(WbRanking *ranking);

/* The ranking anew where nothing but weights, anchors, the way of ranking or the criteria of the
 * front are other than in `base`, which was made of the same kits and has its pool, with base_front
 * as the criteria of the front: nothing is searched. Rows of base keep their dark hours; of the
 * rest only the first `hurried_dark_rows` are told theirs if hurried, else all. Where dark hours
 * order the kits, those are balanced whose place hangs on them. WB_STOPPED, WB_NO_MEMORY;
 * WB_BAD_INPUT: base has no whole pool, or dark hours order the kits and this is hurried or base is
 * not proved. */
WbStatus wb_rerank(const WbProblem *problem, const WbRankOptions *options, const WbRanking *base,
                   uint32_t base_front, WbControl *control, WbRanking *ranking);

#endif
