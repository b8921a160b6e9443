/* "Does not fit" as JSON, complete enough to be checked elsewhere: data/FORMATS.md, "Proofs". */
#ifndef WB_CLI_ROOF_PROOF_JSON_H
#define WB_CLI_ROOF_PROOF_JSON_H

#include "cli_json.h"
#include "mix_why.h"
#include "roof_proof.h"

/* Of equal panels of these sizes; proof NULL: there is none, null is written. `checked`: what
 * wb_roof_proof_ok says of it. */
void wb_cli_roof_proof_json(WbJsonOut *json, const char *key, int64_t panel_length_mm,
                            int64_t panel_width_mm, const WbRoofProof *proof, bool checked);
/* Of several sizes; NULL as above. What wb_mix_why gives has been followed by the checker. */
void wb_cli_mix_proof_json(WbJsonOut *json, const char *key, const WbMixWhy *why);

#endif
