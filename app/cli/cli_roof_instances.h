/* Packing instances from outside through the same searches and checkers as a brief's roof: what
 * `roof --instances` prints. */
#ifndef WB_CLI_ROOF_INSTANCES_H
#define WB_CLI_ROOF_INSTANCES_H

#include "cli_job.h"
#include "mix_why.h"
#include "roof_instances.h"
#include "roof_proof.h"
#include "roof_stretch.h"

/* So many of one size are searched for at most; an answer that reaches it says "at least". */
#define WB_INSTANCE_PANELS_MOST 10000

typedef struct {
    const WbRoofInstance *instance;
    int asked;          /* so many at most, or all together */
    bool one_size;      /* searched as equal panels; else as a mix */
    bool stretched;     /* they may not turn: searched on `stretch` */
    WbStretch stretch;  /* where stretched */
    WbRoofFit fit;      /* where one_size; its layout is taken over below */
    WbMixFit mix;       /* where not */
    WbMixPlace *layout; /* the best one found; of a mix perhaps a part, or none */
    int n_layout;
    bool layout_ok;     /* by the independent checker */
    WbFitAnswer answer; /* do all that were asked for fit */
    WbRoofProof proof;  /* of one size; kind WB_PROOF_NONE: there is none */
    WbMixWhy why;       /* of a mix, where has_why */
    bool has_why;
    bool proof_ok; /* by the separate checker */
    uint64_t nodes;
    double time_ms, proof_ms, check_ms; /* by the clock: the answer, making the proof, checking */
} WbInstanceAnswer;

/* Can the search take it? Else a sentence told and an exit code. */
int wb_cli_instance_takes(const WbRoofInstance *instance, const char *file);

/* WB_OK with every member set; WB_NO_MEMORY. Clear it in any case. */
WbStatus wb_cli_instance_answer(const WbRoofInstance *instance, uint64_t nodes,
                                WbInstanceAnswer *answer);
void wb_cli_instance_clear(WbInstanceAnswer *answer);

/* So many are said not to fit: one more than the bound, or those that were asked for. 0: nothing of
 * the kind is said. */
int wb_cli_instance_refuses(const WbInstanceAnswer *answer);
/* Of the proof, "size", "area", "weights", "search", "one-size", "clauses"; NULL:
 * there is none. */
const char *wb_cli_instance_proof_kind(const WbInstanceAnswer *answer);
/* "proved", "searched" (see wb_cli_roof_answer_code), "at-least", "fits", "does-not-fit",
 * "within-1-mm" or "not-decided". */
const char *wb_cli_instance_answer_code(const WbInstanceAnswer *answer);

/* Answers each and prints. Return a WbExit; a failure has been told. */
int wb_cli_instances_text(const WbRoofInstances *instances, const char *file, uint64_t nodes);
int wb_cli_instances_json(const WbRoofInstances *instances, const char *file, uint64_t nodes);

/* The command. */
int wb_cli_run_roof_instances(const WbArguments *arguments, uint64_t nodes);

#endif
