/* Which kits on one bank carry the load: the last question of the search, and its dearest, for it
 * takes an hourly balance over years of weather.
 *
 * Few kits need one. For the same bank a kit that gets at least as much in every hour and needs no
 * more never has more dark hours (wb_year_is_monotone), so a kit found good lifts those above it
 * and one found bad sinks those below it. Kits are put in the order of their energy and balanced at
 * even steps of what is still open, again and again; the rest follows by comparison. Where
 * monotony is not proved, every kit is balanced. */
#ifndef WB_CARRY_H
#define WB_CARRY_H

#include "dark_memo.h"
#include "feed.h"
#include "halves.h"
#include "year.h"

/* A kit by its halves. */
typedef struct {
    uint32_t array, bank, dcdc;
    double dark_h; /* the answer: just some number on the right side of the limit */
} WbWaiting;

typedef struct {
    const WbProblem *problem;
    WbControl *control;
    bool asked;       /* are dark hours limited? */
    WbDarkMemo *memo; /* keeps the figures that are worked out; NULL: they are not kept */
    double limit;
    WbNeeds needs;
    WbWaiting *waiting;
    size_t n, room;
} WbCarry;

/* The kits on one bank and what is still open about them. */
typedef struct {
    WbCarry *carry;
    const WbHalves *arrays, *banks, *dcdc;
    uint32_t *open; /* indices into waiting, least energy first */
    size_t n_open;
    bool monotone;
} WbCarryBank;

/* False: out of memory; wb_carry_free is in order all the same. */
bool wb_carry_init(WbCarry *carry, const WbProblem *problem, WbControl *control);
bool wb_carry_add(WbCarry *carry, size_t array, size_t bank, size_t dcdc);
/* Answers for all that wait; their banks differ in the inverter only. WB_STOPPED, WB_NO_MEMORY. */
WbStatus wb_carry_answer(WbCarry *carry, const WbHalves *arrays, const WbHalves *banks,
                         const WbHalves *dcdc);
void wb_carry_free(WbCarry *carry);

/* Exact dark hours of any kits, in their order. */
WbStatus wb_carry_figures(const WbProblem *problem, const WbKit *const *kits, size_t n,
                          WbControl *control, double *dark_h);
/* The same, but a figure beyond `enough` may be just some number beyond it. */
WbStatus wb_carry_within(const WbProblem *problem, const WbKit *const *kits, size_t n,
                         double enough, WbControl *control, double *dark_h);

/* ---- of one bank, for least_dark.c too ---- */

/* Dark hours of kits of one chemistry; `enough` as wb_year_dark. */
WbStatus wb_carry_balance(const WbProblem *problem, const WbKit *kits, size_t n, double enough,
                          WbControl *control, double *dark_h);
WbKit wb_carry_kit(const WbCarryBank *bank, const WbWaiting *waiting);
/* wb_feed_never_less of two that wait. */
bool wb_carry_never_darker(const WbCarryBank *bank, const WbWaiting *a, const WbWaiting *b);
/* Does that mean that a never has more dark hours? Something waits. */
bool wb_carry_is_monotone(const WbCarryBank *bank);
/* All that wait become open, least energy first; the caller frees `open`. WB_NO_MEMORY. */
WbStatus wb_carry_in_order(WbCarryBank *bank);

#endif
