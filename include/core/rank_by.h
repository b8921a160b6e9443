/* The order of kits, by the way the brief asks for. Every way looks at one kit's own figures and at
 * what the brief fixes, never at other kits: adding or taking away one changes no other two's
 * order (ranks that do reverse: Belton & Gear 1983). */
#ifndef WB_RANK_BY_H
#define WB_RANK_BY_H

#include "kit.h"

/* What of the weighted shortfalls' sum is added to the largest (Wierzbicki 1980; Steuer & Choo
 * 1983): enough that of two equal in the worst the better in the rest stands first. */
#define WB_DISTANCE_SUM 0.001

/* A criterion a key, then the score. */
#define WB_RANK_KEYS (WB_N_CRITERIA + 1)

/* How many keys tell the order. */
int wb_rank_keys(const WbProblem *problem);
/* They: compared one after the other, the larger first. Equal in all: wb_kit_compare. By score: the
 * score. By goals: the distance, negative; the score. By importance: the step of each criterion,
 * negative where less is better; the score. */
void wb_rank_key(const WbProblem *problem, const WbFigures *figures, double key[WB_RANK_KEYS]);
/* The same of figures as wb_figure tells them. */
void wb_rank_key_of(const WbProblem *problem, const double figure[WB_N_CRITERIA],
                    double key[WB_RANK_KEYS]);
/* Is a kit of key a listed before one of key b? */
bool wb_rank_key_before(int n_keys, const double *a, const WbKit *kit_a, const double *b,
                        const WbKit *kit_b);

/* Does the order depend on this criterion's figure? */
bool wb_rank_asks(const WbProblem *problem, WbCriterion criterion);
/* Ranks without this criterion: no weight, no place in the order of importance. */
void wb_rank_leave_out(WbProblem *problem, WbCriterion criterion);

/* (goal - x) / (full - none): 0 at the goal, 1 where a whole distance between the anchors is
 * missing. Below 0 beyond the goal, but for the criteria where enough is enough. */
double wb_shortfall(const WbProblem *problem, WbCriterion criterion, double x);
/* The largest weight x shortfall + WB_DISTANCE_SUM x the sum of them, over what weighs. */
double wb_distance(const WbProblem *problem, const double figure[WB_N_CRITERIA]);
/* Whole steps from 0 to x, where enough is enough at most to the anchor "full"; step 0: x. */
double wb_step_of(const WbProblem *problem, const WbImportant *important, double x);

#endif
