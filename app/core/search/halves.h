/* The sides of all kits on one kind of bank, judged once each. A side that breaks two or more rules
 * of its own can neither work nor fail by one rule alone: of it only the count by broken rules is
 * kept. */
#ifndef WB_HALVES_H
#define WB_HALVES_H

#include "control.h"
#include "rank.h"
#include "sides.h"

typedef struct {
    WbKit kit; /* only this side's members are set */
    uint64_t broken;
    double value, limit; /* of the one rule it breaks */
    WbSideBill bill;
    double solar_a;             /* array side */
    WbArrayLaw law;             /* array side */
    double array_wh[WB_MONTHS]; /* array side; told once wb_run_months was asked */
    double other_wh;            /* DC-DC side: alternator and shore, Wh a day */
    double dcdc_a;              /* DC-DC side */
    double max_charge_a;        /* bank side, strings x maker's limit */
    WbBankSide bank;            /* bank side */
    double drawn_a;             /* bank side: design current, wb_drawn_a */
} WbHalf;

typedef struct {
    uint64_t broken;
    uint64_t count;
} WbHalfCount;

typedef struct {
    WbHalf *half; /* at most one rule broken */
    size_t n, room;
    WbHalfCount *counts; /* every half, by its broken rules */
    size_t n_counts, counts_room;
} WbHalves;

/* Every array of the problem by the rules that do not look at the bank, judged once for all kinds.
 */
typedef struct {
    WbKit kit;
    uint64_t broken;
    double value, limit; /* of the one rule it breaks */
    WbSideBill bill;     /* with its circuits */
} WbArray;

typedef struct {
    WbArray *array; /* at most one rule broken */
    size_t n, room;
    WbHalves rest; /* only its counts are used: the arrays that break two or more */
} WbArrays;

/* May a kit that holds this choice hold the one at this index of a kind? NULL: any. */
bool wb_may_hold(const WbPartChoice *holding, WbPartKind kind, int index);

/* By controllers and their count, then by what the parts cost. */
WbStatus wb_arrays_list(const WbProblem *problem, const WbPartChoice *holding, WbControl *control,
                        WbArrays *arrays);
void wb_arrays_free(WbArrays *arrays);

WbStatus wb_halves_array(const WbProblem *problem, const WbBankKind *bank, const WbArrays *arrays,
                         WbControl *control, WbHalves *halves);
WbStatus wb_halves_dcdc(const WbProblem *problem, const WbPartChoice *holding,
                        const WbBankKind *bank, WbHalves *halves);
/* One bank (storage, series) in all its parallel counts with every inverter. */
WbStatus wb_halves_bank(const WbProblem *problem, const WbPartChoice *holding,
                        const WbBankKind *bank, int storage, int bank_series, WbHalves *halves);
void wb_halves_clear(WbHalves *halves); /* empties, keeps the memory */
void wb_halves_free(WbHalves *halves);
WbKit wb_halves_kit(const WbHalf *array, const WbHalf *bank, const WbHalf *dcdc);

#endif
