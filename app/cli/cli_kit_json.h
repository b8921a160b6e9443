/* The JSON objects rank, explain and energy share; their keys are documented in the man page. */
#ifndef WB_CLI_KIT_JSON_H
#define WB_CLI_KIT_JSON_H

#include "brief_file.h"
#include "cli_json.h"
#include "kit.h"

typedef struct {
    uint64_t rank;                      /* from 1; 0: not among the ranked ones kept */
    int on_front;                       /* 1, 0; -1: not ranked */
    const struct WbCliSimilar *similar; /* NULL: nothing is said of kits like it */
    size_t at;                          /* its place there */
} WbStanding;

/* One kit in full, under `key` (NULL: an item of an array). */
void wb_cli_kit_json(WbJsonOut *json, const char *key, const WbProblem *problem,
                     const WbVerdict *verdict, WbStanding standing);
/* "reference": what is worked out once for all kits. */
void wb_cli_reference_json(WbJsonOut *json, const WbProblem *problem);
/* "safety": the notes that apply to the kit and the cautions beside its findings. */
void wb_cli_safety_json(WbJsonOut *json, const WbProblem *problem, const WbVerdict *verdict);
/* "no_price" and "no_rate": what was left out, by name. */
void wb_cli_left_out_json(WbJsonOut *json, const WbProblem *problem);
/* Format, version, the brief's name and currency, and what of it was not read. */
void wb_cli_head_json(WbJsonOut *json, const char *format, const WbBriefFile *file);

#endif
