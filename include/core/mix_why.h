/* Why a mix does not fit, told in full for someone who checks it elsewhere: wb_mix_fit leaves out
 * what its own checker makes anew. */
#ifndef WB_MIX_WHY_H
#define WB_MIX_WHY_H

#include "mix.h"
#include "roof_proof.h"

typedef enum {
    WB_MIX_WHY_SIZE,    /* item[which] enters the usable edge neither way it may stand */
    WB_MIX_WHY_AREA,    /* the grown panels have more area than is left */
    WB_MIX_WHY_ONE,     /* item[which] alone is too many: `one` */
    WB_MIX_WHY_CLAUSES, /* `proof` */
} WbMixWhyKind;

typedef struct {
    int kind;                     /* WbMixWhyKind */
    WbMixItem item[WB_MIX_SIZES]; /* items of one size are one, with the sum of their counts */
    size_t n_items;
    int which;       /* -1: of none */
    int64_t step_mm; /* of the staircase that stands for slants and circles; 0: there are none */
    WbProofStrip *strips; /* all that is taken as forbidden within the edge */
    size_t n_strips;
    WbRoofProof one;  /* that item[which].count do not fit */
    WbMixProof proof; /* borrowed from the fit */
} WbMixWhy;

/* WB_OK: the checker has followed it; free it before the fit. WB_BAD_INPUT: roof or items as
 * wb_mix_fit, or a fit that is not WB_FITS_NOT. WB_BUDGET: the checker does not follow it.
 * WB_NO_MEMORY. */
WbStatus wb_mix_why(const WbRoof *roof, const WbMixItem *items, size_t n_items, const WbMixFit *fit,
                    WbMixWhy *why);
void wb_mix_why_free(WbMixWhy *why);

#endif
