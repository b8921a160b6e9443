/* The best mixes of the ticked panels on the roof: what `roof --mix` prints. */
#ifndef WB_CLI_ROOF_MIX_H
#define WB_CLI_ROOF_MIX_H

#include "cli_roof.h"
#include "mix_why.h"

#define WB_MIX_PANELS_MOST 60 /* of a mix */
/* Of more models than are mixed at once, so many are mixed in pairs. */
#define WB_MIX_STRONGEST 8 /* of most watts alone */
#define WB_MIX_LARGEST 4   /* of the others that fit: of most watts each */

typedef struct {
    const WbPanel *panel[WB_MIX_MODELS];
    size_t n_models;
    WbMixBest best; /* counts in the order of panel[] */
    bool layout_ok; /* by the independent checker */
    bool per_money; /* of all rows, the most watts for the money */
} WbMixRow;

/* One panel more beside the mix of most watts. */
typedef struct {
    const WbPanel *panel;
    WbMixFit fit;
    bool told; /* it does not fit, and `why` says why */
    WbMixWhy why;
    bool over_load; /* the load limit forbids it; then it was not asked whether it fits */
} WbMixOneMore;

struct WbRoofMixes {
    size_t n_panels;   /* ticked ones that were tried */
    size_t n_too_high; /* ticked ones that the limit of height forbids; not tried */
    size_t n_left_out; /* of them: another is no larger, no weaker, no dearer and no heavier */
    size_t n_mixed;    /* those mixed with each other */
    const WbPanel *mixed[WB_MIX_STRONGEST + WB_MIX_LARGEST]; /* the n_strongest go first */
    size_t n_strongest;
    size_t n_sets;    /* of one, two or three models, each asked for its best mixes */
    GArray *rows;     /* of WbMixRow, most watts first, each cheaper than all before it */
    bool most_proved; /* no set has a mix of more watts than the first row */
    int undecided;    /* mixes that were not decided */
    WbMixOneMore one_more[WB_MIX_MODELS]; /* of the first row's models */
    size_t n_one_more;
};

/* One model's figures for the search of mixes. */
WbMixModel wb_cli_mix_model(const WbRoofReport *report, const WbPanel *panel);

void wb_cli_roof_mixes_text(GString *out, const WbRoofReport *report);
void wb_cli_roof_mixes_json(WbJsonOut *json, const WbRoofReport *report);

#endif
