/* The question put to the search: brief, catalogue, and everything worked out once for all kits
 * (sky, loads, prices, roof fit of each panel). Immutable once made; any number of threads may read
 * it. Candidates of each kind are ordered by id, so no answer depends on the catalogue's order. */
#ifndef WB_PROBLEM_H
#define WB_PROBLEM_H

#include "array.h"
#include "bank_days.h"
#include "brief.h"
#include "circuit.h"
#include "control.h"
#include "demand.h"
#include "energy.h"
#include "fit_cache.h"
#include "load.h"
#include "part.h"
#include "roof.h"
#include "sourced.h"
#include "status.h"
#include "sun_cache.h"
#include "weather.h"

typedef struct {
    const WbPanel *panel;
    WbSourced sourced;
    WbArrayUnit unit; /* of its power at the maximum power point */
    WbRoofFit fit;
    double hottest_cell_c;
} WbPanelChoice;

typedef struct {
    const WbController *controller;
    WbSourced sourced;
} WbControllerChoice;

typedef struct {
    const WbStorage *storage;
    const WbChemistry *chemistry;
    WbSourced sourced;
    int bay_fits;  /* so many are proved to stand in the bay, counted up to the largest bank */
    int bay_bound; /* more than this many are proved not to */
} WbStorageChoice;

typedef struct {
    const WbInverter *inverter; /* NULL for the choice "none" */
    WbSourced sourced;
    WbNeed need;
    WbDemand demand;
} WbInverterChoice;

typedef struct {
    const WbDcdc *dcdc; /* NULL for the choice "none" */
    WbSourced sourced;
} WbDcdcChoice;

#define WB_SHOP_WORDS 16
#define WB_MOST_SHOPS (64 * WB_SHOP_WORDS)

typedef struct {
    const WbShop *shop;
    int64_t shipping_minor; /* in the brief's currency */
} WbShopChoice;

/* A conductor, fuse or fitting of which the person has some. What circuits use of it is counted in
 * thousandths (mm of conductor), for any side may use it. */
typedef struct {
    int64_t owned_milli, price_minor;
    int shop;
} WbOwnedWire;

#define WB_MOST_OWNED_WIRES 32

typedef struct {
    const WbBrief *brief;
    const WbCatalogue *catalogue;
    double design_cold_c;
    WbSky sky;
    const WbSiteSun *sun;
    WbPlaneHours plane;    /* the sun's: weather on the panels, hour by hour */
    WbArrayUnit sun_unit;  /* of the sun alone, for PWM */
    WbBankDays *bank_days; /* one for each chemistry of the catalogue, in its order */
    WbLoadBudget loads;
    double reference_need_wh;
    double clear_m2;
    WbAnchor anchor[WB_N_CRITERIA]; /* the brief's, defaults filled in */
    double weight[WB_N_CRITERIA];   /* sum 1 */
    WbRankBy rank_by;               /* the brief's, goals and steps filled in */
    WbPanelChoice *panels;
    size_t n_panels;
    WbControllerChoice *controllers;
    size_t n_controllers;
    WbStorageChoice *storage;
    size_t n_storage;
    WbInverterChoice *inverters; /* [0] is "none" */
    size_t n_inverters;
    WbDcdcChoice *dcdc; /* [0] is "none" */
    size_t n_dcdc;
    WbShopChoice *shops; /* that sell a chosen offer, at most WB_MOST_SHOPS */
    size_t n_shops;
    WbWireStock wires; /* empty while the brief has the wiring off */
    WbOwnedWire
        owned_wires[WB_MOST_OWNED_WIRES]; /* of the stock, the first so many by kind and id */
    int n_owned_wires;
    bool borrowed; /* all but the struct itself is another problem's */
} WbProblem;

/* Keeps pointers to brief and catalogue, which must outlive the problem. */
WbStatus wb_problem_new(const WbBrief *brief, const WbCatalogue *catalogue, WbControl *control,
                        WbProblem **problem);
/* What outlives one problem; either may be NULL: all of it is worked out anew. */
typedef struct {
    WbFitCache *fits;
    WbSunCache *suns;
} WbCaches;
/* The same problem, with what earlier ones left in the caches. The problem does not hold them. */
WbStatus wb_problem_new_kept(const WbBrief *brief, const WbCatalogue *catalogue,
                             const WbCaches *caches, WbControl *control, WbProblem **problem);
/* The same problem, its fit answers taken from a cache that outlives one ranking (NULL: each is
 * searched). The problem does not hold the cache. */
WbStatus wb_problem_new_cached(const WbBrief *brief, const WbCatalogue *catalogue,
                               WbFitCache *cache, WbControl *control, WbProblem **problem);
/* The same kits under another brief that differs in nothing but weights, anchors, the way of
 * ranking and the criteria of the front. Borrows from `base`, which must outlive it. */
WbStatus wb_problem_reweigh(const WbProblem *base, const WbBrief *brief, WbProblem **problem);
void wb_problem_free(WbProblem *problem);

/* Full and none of a criterion where the brief leaves them open. */
WbAnchor wb_default_anchor(const WbProblem *problem, WbCriterion criterion);

/* Is this part ticked? */
bool wb_brief_ticks(const WbBrief *brief, const char *part_id);

#endif
