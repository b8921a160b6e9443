/* A kit as its halves and the circuits that look at more than one of them, and the joint questions
 * asked of it. All but the array is shared by every array behind the same controllers, so it is
 * gathered once for thousands of kits. */
#ifndef WB_PIECES_H
#define WB_PIECES_H

#include "halves.h"
#include "wires.h"

typedef struct {
    const WbProblem *problem;
    const WbHalf *array, *bank, *dcdc;
    const WbBankWires *wires;
    const WbLink *charge, *dcdc_out;
    WbSideBill rest;            /* of all but the array */
    int64_t all_shipping_minor; /* of every shop */
    bool bus_broken; /* something that hangs on the bus bars; wb_rule_circuits says the same */
} WbPieces;

/* Without the circuits that look at more than one half: `wires` is NULL, and costs and weights are
 * the least there can be. */
WbPieces wb_pieces_bare(const WbProblem *problem, const WbHalf *bank, const WbHalf *dcdc);
/* The array tells by which controllers the bank is charged; any other behind the same ones may take
 * its place. */
void wb_pieces_wire(WbPieces *pieces, WbWires *wires, const WbHalf *array);
WbPieces wb_pieces_of(WbWires *wires, const WbHalf *array, const WbHalf *bank, const WbHalf *dcdc);
WbKit wb_pieces_kit(const WbPieces *pieces);
/* All but the dark hours. The array's months must have been summed. */
void wb_pieces_figures(const WbPieces *pieces, WbFigures *figures);

/* Here the joint rules are plain comparisons, for they are asked of millions of pairs;
 * wb_rule_charge_maximum, wb_rule_supply, wb_rule_money and wb_rule_weight say the same in
 * findings. The least that the parts cost is enough where it is too much. */
static inline bool wb_charge_too_high(const WbPieces *pieces, double solar_a)
{
    return solar_a + pieces->dcdc->dcdc_a > pieces->bank->max_charge_a;
}

static inline bool wb_too_heavy(const WbPieces *pieces, int64_t array_g)
{
    const WbLimit *limit = &pieces->problem->brief->weight_kg;
    return limit->on && (double)(array_g + pieces->rest.weight_g) / 1000 > limit->value;
}

static inline bool wb_too_dear(const WbPieces *pieces, int64_t minor)
{
    const WbLimit *limit = &pieces->problem->brief->money_minor;
    return limit->on && (double)minor > limit->value;
}

typedef enum { WB_DEAR_OPEN, WB_DEAR_NOT, WB_DEAR_SURELY } WbDear;

/* Whether a kit whose parts have prices is too dear, where bounds tell: parts and circuits alone,
 * or with every shop's shipping. *least_minor: it costs no less. */
WbDear wb_dear_at_a_glance(const WbPieces *pieces, const WbHalf *array, int64_t *least_minor);

/* How far supply falls short of the need in a month, Wh a day. */

static inline double wb_month_short_wh(const WbPieces *pieces, const double array_wh[WB_MONTHS],
                                       int month)
{
    const WbBankSide *bank = &pieces->bank->bank;
    return bank->need_wh[month] -
           ((array_wh[month] + pieces->dcdc->other_wh) - bank->storing_loss_wh[month]);
}

/* In a month in use; what the array gives in it may be infinite. */
static inline bool wb_month_short(const WbPieces *pieces, int month, double array_wh)
{
    const WbBankSide *bank = &pieces->bank->bank;
    return (pieces->problem->brief->site.months >> month & 1) &&
           (array_wh + pieces->dcdc->other_wh) - bank->storing_loss_wh[month] <
               bank->need_wh[month];
}

/* *probed: a month to ask first, the one that failed last; any will do. */
static inline bool wb_supply_too_low(const WbPieces *pieces, const double array_wh[WB_MONTHS],
                                     int *probed)
{
    for (int i = 0, m = *probed; i < WB_MONTHS; i++, m = m + 1 < WB_MONTHS ? m + 1 : 0)
        if (wb_month_short(pieces, m, array_wh[m])) {
            *probed = m;
            return true;
        }
    return false;
}

#endif
