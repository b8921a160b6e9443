/* A kit, and how it is judged: all its figures and findings. */
#ifndef WB_KIT_H
#define WB_KIT_H

#include "finding.h"
#include "problem.h"
#include "year.h"

/* Which parts, as indices into the problem's choices, and how many. */
typedef struct {
    int panel, n_series, n_parallel;
    int controller, n_controllers;
    int storage, bank_series, bank_parallel;
    int inverter; /* 0: none */
    int dcdc;     /* 0: none */
} WbKit;

/* Order of kits with equal score: part ids (choices stand in their order) and counts. The problem
 * is not looked at and may be NULL. */
int wb_kit_compare(const WbProblem *problem, const WbKit *a, const WbKit *b);

/* Stable text id, e.g. "mara-175:2s1p/tide-30:1/kalt-100:1s2p/inv-600/none"; parse is its
 * inverse: false if it names no kit of this problem. Text: at most WB_KIT_ID bytes. */
#define WB_KIT_ID 512
void wb_kit_id(const WbProblem *problem, const WbKit *kit, char text[WB_KIT_ID]);
bool wb_kit_parse(const WbProblem *problem, const char *text, WbKit *kit);

typedef struct {
    double array_wh;      /* controller output, own draw taken off */
    double alternator_wh; /* through the DC-DC charger, in months in use */
    double shore_wh;      /* offered by the shore charger, in months in use */
    double
        storing_loss_wh; /* what goes through the bank / (charge x discharge efficiency) less it */
    double supply_wh;    /* array + alternator + shore - storing loss: what reaches the loads'
                            terminals */
    double need_wh;
    double clipped_wh;
    double usable_wh; /* of the bank in that month */
    double autonomy_days;
    double bank_c, temperature_factor, rate_factor, dark_current_a; /* per string */
} WbMonth;

typedef struct {
    int64_t parts_minor, wiring_minor, shipping_minor, allowance_minor, cost_minor;
    int64_t weight_g;
    int64_t roof_area_mm2;
    double usable_wh; /* lowest over the months in use */
    double autonomy_days;
    double spare_w;
    double dark_h;           /* a year, mean; NaN where the year was not worked out */
    double supply_margin_wh; /* a day, supply less need in worst_supply_month; 0 without a month */
    int worst_supply_month, worst_autonomy_month, worst_usable_month;
    bool priced;
} WbFigures;

typedef struct {
    WbKit kit;
    WbFigures figures;
    WbMonth month[WB_MONTHS];
    double u[WB_N_CRITERIA];
    double score;
    bool feasible;
    bool undecided; /* would be feasible if its roof answer were yes */
    /* Bit r: rule r stops this kit; the dark hours only where nothing else does. */
    uint64_t broken;
    WbFinding finding[WB_N_RULES]; /* one for each rule, in order */
    WbBankVolts bank;
    WbYear year;
} WbVerdict;

/* All but the hourly year: dark_h is NaN, the rule on dark hours idle, year empty. */
void wb_judge_without_year(const WbProblem *problem, const WbKit *kit, WbVerdict *verdict);
/* The year joins: dark_h becomes a figure, its rule is judged and score and worth told anew. */
void wb_judge_dark_hours(const WbProblem *problem, double dark_h, WbVerdict *verdict);
/* Everything; WB_NO_MEMORY leaves the year out. */
WbStatus wb_judge(const WbProblem *problem, const WbKit *kit, WbVerdict *verdict);

/* Criterion's figure in its own unit (minor, kg, Wh, m2, days, W, h, Wh a day). */
double wb_figure(const WbFigures *figures, WbCriterion criterion);
bool wb_criterion_less_is_better(WbCriterion criterion);
bool wb_criterion_capped(WbCriterion criterion);

/* u = (x - none) / (full - none), capped at 1 for the criteria where enough is enough. */
double wb_worth(const WbAnchor *anchor, WbCriterion criterion, double x);
/* Sum of w u in the order of the criteria, weights normalised to sum 1; a criterion without weight
 * is left out, so dark hours need to be known only where they count. */
double wb_score(const WbProblem *problem, const WbFigures *figures, double u[WB_N_CRITERIA]);
/* The same of figures as wb_figure tells them. */
double wb_score_of(const WbProblem *problem, const double figure[WB_N_CRITERIA],
                   double u[WB_N_CRITERIA]);

#endif
