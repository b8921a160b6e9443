/* Similar kits of a ranking: which lead and what stands under them, for the terminal. */
#ifndef WB_CLI_SIMILAR_H
#define WB_CLI_SIMILAR_H

#include "cli_kit_json.h"
#include "rank.h"
#include "similar.h"

#define WB_CLI_SIMILAR_ROWS 100000 /* the best so many are grouped, where there are more */

typedef struct {
    WbKit kit;
    int64_t cost_minor, weight_g;
    const WbRanked *row; /* of the ranking, NULL: it keeps none of this kit */
} WbCliKit;

typedef struct WbCliSimilar {
    WbCliKit *kits; /* best first: of everything that works, or of the front */
    size_t n;
    bool whole;         /* nothing that works (is on the front) is missing */
    WbSimilarRow *rows; /* one for each */
    size_t n_groups;
} WbCliSimilar;

/* A ranking whose pool was kept is grouped as a whole. Returns a WbExit; a failure has been told.
 */
int wb_cli_similar(const WbProblem *problem, const WbRanking *ranking, bool front,
                   WbCliSimilar *similar);
void wb_cli_similar_clear(WbCliSimilar *similar);
/* The first of the kits that lead. */
typedef struct {
    WbRanked *kits;
    WbStanding *standings;
    char **like; /* how many are like it, in what, and the cheapest and lightest; NULL: none */
    size_t n;
} WbCliLeaders;

/* At most `top`, their dark hours worked out. (transfer full) */
WbCliLeaders wb_cli_leaders(const WbProblem *problem, const WbRanking *ranking,
                            const WbCliSimilar *similar, bool front, size_t top);
void wb_cli_leaders_clear(WbCliLeaders *leaders);
/* "similar": what leads the kit at `i` and in what they differ, or how many it leads. */
void wb_cli_similar_json(WbJsonOut *json, const WbProblem *problem, const WbCliSimilar *similar,
                         size_t i);

#endif
