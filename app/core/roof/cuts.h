/* A plain roof that learns of slants and circles only what it must: rectangles that a layout found
 * on it runs into.
 *
 * WHOLE cuts lie wholly in what is forbidden: the plain roof stays an outer one. MM cuts consist of
 * whole square millimetres none of which is wholly free: no layout on whole millimetres enters
 * them, others may. */
#ifndef WB_CUTS_H
#define WB_CUTS_H

#include "plain_roof.h"

typedef enum { WB_CUT_WHOLE, WB_CUT_MM } WbCutKind;

/* The roof without what only slants and circles forbid, but for a few strips. Free as any other. */
WbStatus wb_cuts_start(const WbRoof *roof, const WbRect *fixed, int n_fixed, WbPlainRoof *plain);

/* Cuts that this panel's outline enters, where the true roof forbids it to stand there. *added is
 * raised by their number; none: it enters nothing that such a cut can tell. */
WbStatus wb_cuts_against(const WbRoof *roof, const WbRect *rect, WbCutKind kind, WbPlainRoof *plain,
                         int *added);

/* Every strip as far as MM cuts may reach. */
void wb_cuts_widen(const WbRoof *roof, WbPlainRoof *plain);

#endif
