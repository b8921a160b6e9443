/* What change of the roof would let the panels of a kit lie on it. */
#ifndef WB_ROOF_WAY_IN_H
#define WB_ROOF_WAY_IN_H

#include "kit.h"
#include <glib.h>

/* One sentence for each change found, the least of its kind, at most so many; NULL where the kit's
 * panels fit or no single change within reach does. (transfer full) */
char *wb_roof_way_in(const WbProblem *problem, const WbKit *kit, int most);

#endif
