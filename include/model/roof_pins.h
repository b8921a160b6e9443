/* Panels pinned on the roof by hand. */
#ifndef WB_ROOF_PINS_H
#define WB_ROOF_PINS_H

#include "brief.h"
#include "part.h"
#include "roof.h"

/* Those of one model as true outlines, in the brief's order; *n of them. (transfer full, g_free),
 * NULL where there are none */
WbRect *wb_roof_pinned(const WbRoof *roof, const WbPanel *panel, int *n);

#endif
