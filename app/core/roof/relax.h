/* A layout that nearly lies on a roof, let go until it does. */
#ifndef WB_RELAX_H
#define WB_RELAX_H

#include "roof_outline.h"

/* layout: n true outlines on whole millimetres that keep the gap; in place. Every panel gives way
 * to every other, to slants and to circles, a little at a time; which stands beside which is kept.
 * The fixed ones stay. True: all lie on the roof, whole millimetres, gaps kept. False: it came to
 * nothing, or there is no memory; the layout is as it was. */
bool wb_relax(const WbRoof *roof, const WbRect *fixed, int n_fixed, WbRect *layout, int n);

#endif
