/* Of the kits on one bank that their dark hours alone stop, the one with the fewest.
 *
 * Most energy first, a few at a time; an hourly year is left as soon as it is sure to be darker
 * than the fewest so far. A kit that gets no more in any hour and needs no less than a balanced one
 * is never less dark (wb_carry_never_darker), and is not balanced at all. Exact: what is left out
 * cannot have fewer, nor as many and stand before by wb_kit_compare. */
#ifndef WB_LEAST_DARK_H
#define WB_LEAST_DARK_H

#include "carry.h"

/* After wb_carry_answer, of what waits there; `out` counts them already and keeps the nearest of
 * all banks so far. WB_STOPPED, WB_NO_MEMORY. */
WbStatus wb_least_dark(WbCarry *carry, const WbHalves *arrays, const WbHalves *banks,
                       const WbHalves *dcdc, WbRuledOut *out);

#endif
