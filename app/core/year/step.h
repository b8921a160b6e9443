/* The step of one kit. Private to core/year. */
#ifndef WB_STEP_H
#define WB_STEP_H

#include "vector_code.h"
#include "year.h"

#define WB_NUM double
#define WB_OF(name) name
#define WB_LESS wb_less
#define WB_MORE wb_more
#define WB_OR_0 wb_or_0
#define WB_CODE
#include "step_of.h"
#undef WB_NUM
#undef WB_OF
#undef WB_LESS
#undef WB_MORE
#undef WB_OR_0
#undef WB_CODE

/* The charge at which a day's cold locks the rest. */
#define WB_FLOOR_WH(capacity_wh, depth, capacity_factor)                                           \
    ((capacity_wh) * (1.0 - (depth) * (capacity_factor)))

#endif
