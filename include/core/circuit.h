/* One circuit: what is asked of it, and the conductor, fuse and fittings that answer it.
 *
 * The fuse comes first: the smallest rating at or above the design current among the fuses whose
 * voltage and interrupting rating suffice, of these the cheapest. Then the cheapest conductor that
 * carries the design current where it lies, that this fuse protects, and that keeps the drop. So a
 * gap between ratings makes the conductor grow, never the fuse exceed it. */
#ifndef WB_CIRCUIT_H
#define WB_CIRCUIT_H

#include "brief.h"
#include "conductor.h"
#include "sourced.h"

/* Conductors and fuses of the catalogue that can be bought, with what they carry here. */
typedef struct {
    const WbConductor *conductor;
    WbSourced sourced;
    WbAmpacity inside, on_roof;
    const WbFitting *lug; /* the cheapest that takes it; NULL: none */
    WbSourced lug_sourced;
} WbConductorChoice;

typedef struct {
    const WbFuse *fuse;
    WbSourced sourced;
} WbFuseChoice;

typedef struct {
    const WbFitting *fitting;
    WbSourced sourced;
} WbFittingChoice;

typedef struct {
    WbConductorChoice *conductors; /* by area, then id */
    size_t n_conductors;
    WbFuseChoice *fuses; /* by rating, then id */
    size_t n_fuses;
    WbFittingChoice *fittings; /* by id */
    size_t n_fittings;
    WbLaying inside, on_roof;
} WbWireStock;

/* What is asked. */
typedef struct {
    WbCircuitKind kind;
    int load;  /* index into the brief's loads; -1 */
    int count; /* so many alike */
    double one_way_m;
    double wire_m;      /* of conductor in one, out and back and links between batteries */
    double run_a;       /* what runs at most: the drop is reckoned at it */
    double design_a;    /* conductor and fuse are for this */
    double volts;       /* the drop is a share of these */
    double most_v;      /* the highest that can stand on it: for fuse, holder, switch */
    double allowed_pct; /* drop from the source to its end */
    double before_pct;  /* of it, reached by the circuits before this one */
    double fault_a;     /* what a short behind its fuse draws */
    double most_fuse_a; /* no larger fuse, whatever the conductor: a panel's; infinite */
    double block_a;     /* a load's fuse sits in a block of at least so many A, if one is sold for
                           its form; 0: in a holder */
    bool fused, switched;
    int lugs;         /* in one */
    uint32_t assumed; /* bits of WbAssumption */
} WbCircuitAsk;

typedef enum {
    WB_CIRCUIT_SOUND,
    WB_CIRCUIT_OVER_AMPS,        /* no conductor: design A over the most any carries, A */
    WB_CIRCUIT_OVER_DROP,        /* least drop to its end of any that carries it, over allowed, % */
    WB_CIRCUIT_OVER_FUSE_V,      /* its volts over the most of any fuse, V */
    WB_CIRCUIT_OVER_INTERRUPT,   /* fault current over the most of any fuse of its volts, A */
    WB_CIRCUIT_OVER_FUSE_A,      /* design A over the largest fuse that suffices otherwise, A */
    WB_CIRCUIT_OVER_SERIES_FUSE, /* smallest fuse over the largest the panel's maker allows, A */
    WB_CIRCUIT_UNPROTECTED,      /* smallest fuse over the most any conductor may be fused at, A */
    WB_N_CIRCUIT_FAULTS,
} WbCircuitFault;

typedef struct {
    WbCircuitAsk ask;
    WbCircuitFault fault;
    double value, limit; /* of the fault; else NaN */
    /* The rest is NULL and 0 where the fault leaves it open. */
    const WbConductor *conductor;
    const WbFuse *fuse;
    const WbFitting *holder, *lug, *disconnect;
    bool in_block; /* the fuse sits in a fuse block, which is bought for all loads together */
    int missing_fittings; /* holder, lugs, switch that the catalogue does not sell, all `count` */
    WbAmpacity ampacity;
    double conductor_c; /* at run_a */
    double r_ohm_km;    /* at conductor_c */
    double drop_v, drop_pct;
    double total_pct;             /* from the source: with the circuits before it */
    bool by_drop;                 /* the drop asks for a larger conductor than the current does */
    int64_t cost_minor, weight_g; /* of all `count` */
} WbCircuit;

/* Hears of every part of all `count`, n pieces or metres: what it costs and weighs. */
typedef void (*WbCircuitBuys)(void *bill, const WbSourced *sourced, double n, int64_t minor,
                              int64_t weight_g);

void wb_circuit_size(const WbWireStock *stock, const WbCircuitAsk *ask, WbCircuit *circuit,
                     WbCircuitBuys buys, void *bill);

/* Cheapest switch or pair of bus bars, ties by id; NULL: the catalogue sells none that suffices.
 * Volts do not matter to bus bars. */
const WbFittingChoice *wb_fitting_for(const WbWireStock *stock, WbFittingRole role, double amps,
                                      double most_v);

/* Fuse blocks of one form: the model whose number for so many ways costs least (ties: id), each for
 * all of `amps`. choice NULL: none is sold. */
typedef struct {
    const WbFittingChoice *choice;
    int count;
} WbBlocks;

WbBlocks wb_blocks_for(const WbWireStock *stock, int64_t form, int ways, double amps,
                       double most_v);

/* a >= b, or below it by no more than sums of doubles in another order may differ: 1 part in 10^12.
 */
bool wb_at_least(double a, double b);

/* Where the fuse of a circuit stands at most from its source, mm along the conductor: a boat 178 (7
 * inches; 33 CFR 183.455), else 0, at the source (NEC 240.21). */
double wb_fuse_within_mm(int rule_set);

/* Current of a short behind it, A: charged volts / (bank + conductor), the conductor at 20 C. */
double wb_fault_a(double charged_v, double bank_mohm, double conductor_mohm);
/* Internal resistance of one battery, mohm: the data sheet's, else cells x the chemistry's for a
 * cell of 100 Ah x 100 / Ah, else 0.4 for that figure (low, so that the fault current is rather
 * too large). *assumed gets WB_ASSUMED_INTERNAL_R where the data sheet is silent. */
double wb_battery_mohm(const WbStorage *storage, const WbChemistry *chemistry, uint32_t *assumed);

#endif
