/* Writes down, case after case, what the branch and bound concludes; see roof_proof.h. */
#ifndef WB_PROOF_LOG_H
#define WB_PROOF_LOG_H

#include "bound.h"
#include "cliques.h"
#include "roof_proof.h"

typedef struct {
    const WbRoofGrid *grid;
    WbRoofProof *proof; /* grows */
    size_t points_room, places_room, steps_room;
    uint8_t *open_before;               /* [place]: at the start of the case */
    uint64_t *kept_before;              /* [word]: likewise, of a graph */
    size_t steps_before, points_before; /* of the proof, then */
    bool full;                          /* no memory, or longer than a proof may be: of no use */
} WbProofLog;

WbStatus wb_proof_log_init(WbProofLog *log, const WbRoofGrid *grid, WbRoofProof *proof);
void wb_proof_log_free(WbProofLog *log); /* not the proof */

/* Each does nothing where log is NULL. Weights are those of the last evaluation. */
void wb_proof_log_case(WbProofLog *log, const uint8_t *open);
void wb_proof_log_close(WbProofLog *log, const WbWeights *weights);
/* Steps of the case that turn out not to be needed are taken out again. */
void wb_proof_log_refute(WbProofLog *log, const WbWeights *weights, int need);
void wb_proof_log_split(WbProofLog *log, int point, const int *over, int n);
/* The whole proof where there are fewer points than panels: a weight of one on each. */
void wb_proof_log_few_points(WbProofLog *log);
void wb_proof_log_empty(WbProofLog *log);

/* The same for the search of a graph made on the log's grid; weights by point of the graph. A case
 * begins with what others cannot stand for. */
void wb_proof_log_graph_case(WbProofLog *log, const WbCliques *cliques, const uint64_t *open);
void wb_proof_log_graph_close(WbProofLog *log, const WbCliques *cliques, const int64_t *weight);
void wb_proof_log_graph_refute(WbProofLog *log, const WbCliques *cliques, const int64_t *weight,
                               int need);
void wb_proof_log_graph_split(WbProofLog *log, const WbCliques *cliques, int c, const int *over,
                              int n);

/* For proof_log_graph.c. */
void wb_proof_log_step(WbProofLog *log, WbProofStep step);
void wb_proof_log_point(WbProofLog *log, int point, int64_t weight);
void wb_proof_log_place(WbProofLog *log, int place);

#endif
