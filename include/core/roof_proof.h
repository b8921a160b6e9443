/* Why N equal panels do not fit, as an object that a small checker of its own follows. */
#ifndef WB_ROOF_PROOF_H
#define WB_ROOF_PROOF_H

#include "roof.h"

typedef enum {
    WB_PROOF_NONE,
    WB_PROOF_SIZE,    /* the panel does not enter the usable edge either way */
    WB_PROOF_AREA,    /* the area left is less than N grown panels */
    WB_PROOF_WEIGHTS, /* weights on points, and a tree of cases where one set does not do */
    WB_PROOF_SEARCH,  /* an unobstructed rectangle was filled in every way: the checker has nothing
                       * to follow, it does the same once more by code of its own */
} WbProofKind;

/* A weight on the square millimetre whose left front corner this is, in 1 / WB_PROOF_ONE. */
typedef struct {
    int64_t x_mm, y_mm, weight;
} WbProofPoint;

#define WB_PROOF_ONE ((int64_t)1 << 30)

/* In the order in which the checker meets them. */
typedef enum {
    WB_STEP_CLOSE,  /* by these weights, places that no layout of so many panels uses are closed */
    WB_STEP_REFUTE, /* by these weights this case holds too few panels; the case is done */
    WB_STEP_SPLIT,  /* at a point: one of the places over it is taken, each in turn, or none */
    WB_STEP_EMPTY,  /* no place is open; the case is done */
    WB_STEP_KEEP, /* of the open places these are enough, for each other one there is one open that
                   * can stand for it: it is in the way of no more places, and of the other one */
} WbProofStepKind;

typedef struct {
    int kind;                     /* WbProofStepKind */
    size_t first, n;              /* CLOSE, REFUTE: points[first .. first + n) */
    int64_t x_mm, y_mm;           /* SPLIT: the point; its places in the order below */
    size_t first_place, n_places; /* SPLIT, KEEP: places[first_place .. ) */
} WbProofStep;

/* Taken as forbidden with its clearance all round. */
typedef struct {
    WbRect rect;
    int64_t clearance_mm;
} WbProofStrip;

typedef struct {
    WbProofKind kind;
    int n_panels;    /* this many do not fit */
    int64_t step_mm; /* of the staircase that stands for slants and circles; 0: there are none */
    WbProofStrip *strips; /* all that is taken as forbidden within the edge */
    size_t n_strips;
    WbProofPoint *points;
    size_t n_points;
    WbRect *places; /* true outlines */
    size_t n_places;
    WbProofStep *steps;
    size_t n_steps;
} WbRoofProof;

/* Proves that n_panels >= 1 do not fit. WB_OK: proof is filled, free it. WB_BUDGET: no proof within
 * the budget (or they fit). Pins are not looked at. Others as wb_roof_most. */
WbStatus wb_roof_prove(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm,
                       int n_panels, uint64_t node_budget, WbControl *control, WbRoofProof *proof);
void wb_roof_proof_free(WbRoofProof *proof);

/* The independent checker; how it goes: roof_proof_check.c. False: *why (may be NULL) is one
 * sentence, a constant. */
bool wb_roof_proof_ok(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm,
                      const WbRoofProof *proof, const char **why);

#endif
