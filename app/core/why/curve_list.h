/* The kits of a pool in the order in which a curve looks at them. Private to core. */
#ifndef WB_CURVE_LIST_H
#define WB_CURVE_LIST_H

#include "bright.h"
#include "curve.h"

#define WB_CURVE_KEYS 4

typedef struct {
    double key[WB_CURVE_KEYS]; /* less first: resource, then what settles ties; then the kit */
    const WbPooled *kit;
} WbCurveEntry;

typedef struct {
    const WbProblem *problem;
    const WbPool *pool;
    WbControl *control;
    WbMoreCurve curve;
    size_t room; /* of the curve's steps */
    bool settled;
    double dark_limit; /* INFINITY: none is on */
    WbCurveEntry *entry;
    size_t n;
    WbBright bright;
} WbCurveList;

/* Of every kit that may stand on this curve. by_gain: among equal in the resource the better gain
 * first, which must be known. */
WbStatus wb_curve_list_fill(WbCurveList *list, bool by_gain);

/* Was the limit of dark hours asked of this kit, or is there none? */
bool wb_curve_is_known(const WbCurveList *list, const WbCurveEntry *entry);

/* Puts a kit behind the last step, or in its place where it needs no more. False: no memory. */
bool wb_curve_push(WbCurveList *list, const WbCurveEntry *entry, double gain);

/* Dark hours of some entries; beyond `enough` just some number beyond it. */
WbStatus wb_curve_dark(WbCurveList *list, const WbCurveEntry *const *entries, size_t n,
                       double enough, double *dark_h);

/* The two curves. */
WbStatus wb_curve_usable(WbCurveList *list);
WbStatus wb_curve_dark_hours(WbCurveList *list);

#endif
