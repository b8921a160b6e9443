/* Can so many panels of these sizes lie on the roof together? The same honest answers as roof.h,
 * for up to WB_MIX_SIZES sizes, each turned by 90 degrees where it may. */
#ifndef WB_MIX_H
#define WB_MIX_H

#include "roof.h"

enum { WB_MIX_SIZES = 64, WB_MIX_PANELS = 400 };

typedef struct {
    int64_t length_mm, width_mm;
    int count;  /* >= 0 */
    bool turns; /* may be turned by 90 degrees */
} WbMixItem;

typedef struct {
    WbRect rect; /* true outline */
    int item;    /* which of the items asked for */
} WbMixPlace;

/* Clauses in the order they were learnt; each follows from the question's own clauses and the
 * earlier ones by unit propagation alone, the last is empty. The clauses: data/METHOD.md, "Mixes".
 */
typedef struct {
    int32_t *literals; /* clauses one after another, each closed by 0 */
    size_t n_literals;
} WbMixProof;

typedef struct {
    WbFitAnswer answer;
    WbMixPlace *layout; /* where it fits; not decided: a part of it that was laid, or NULL */
    int n_layout;
    WbMixProof proof; /* where it does not; n_literals 0: by size, area or one size alone */
    uint64_t nodes;   /* spent; see WB_ROOF_NODES */
} WbMixFit;

/* WB_OK with one of the four answers. WB_BAD_INPUT: a roof or a size wb_roof_most would refuse,
 * more sizes or panels than above. WB_STOPPED, WB_NO_MEMORY: fit is untouched. The roof's pins are
 * not looked at. Free the fit after WB_OK. */
WbStatus wb_mix_fit(const WbRoof *roof, const WbMixItem *items, size_t n_items,
                    uint64_t node_budget, WbControl *control, WbMixFit *fit);
void wb_mix_fit_free(WbMixFit *fit);

/* Independent checker of a layout: every item so often, sizes, turns, edge, obstacles, gaps. */
bool wb_mix_layout_ok(const WbRoof *roof, const WbMixItem *items, size_t n_items,
                      const WbMixPlace *layout, int n);
/* Independent checker of "does not fit": makes the question's clauses anew and follows the proof.
 */
bool wb_mix_proof_ok(const WbRoof *roof, const WbMixItem *items, size_t n_items,
                     const WbMixFit *fit);

/* ---- the best of mixes ---- */

typedef struct {
    int64_t length_mm, width_mm;
    double power_w;
    int64_t price_minor; /* of one; < 0: not known */
    double load_kg;      /* of one with its mount */
} WbMixModel;

enum { WB_MIX_MODELS = 3 };

typedef struct {
    int count[WB_MIX_MODELS];
    double power_w;
    int64_t price_minor; /* < 0: a part without a price */
    double load_kg;
    WbMixPlace *layout;
    int n_layout;
    bool proved; /* no mix of more watts fits */
} WbMixBest;

/* The front of mixes of 2 or 3 models by watts (more) and price (less), most watts first, within
 * the roof and its load limit, at most `at_most` panels. *n of them in *best (malloc); free with
 * wb_mix_best_free. *undecided: mixes that would belong there if they fit and were not decided. */
WbStatus wb_mix_best(const WbRoof *roof, const WbMixModel *models, size_t n_models, int at_most,
                     uint64_t node_budget, WbControl *control, WbMixBest **best, size_t *n,
                     int *undecided);
void wb_mix_best_free(WbMixBest *best, size_t n);

#endif
