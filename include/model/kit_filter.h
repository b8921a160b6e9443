/* Which kits of a ranking are wanted in sight. A plain value: copy with wb_kit_filter_copy, end
 * with wb_kit_filter_clear. Figures are in the criteria's own units (kit_list.h). */
#ifndef WB_KIT_FILTER_H
#define WB_KIT_FILTER_H

#include "rank.h"
#include <glib.h>

typedef struct {
    WbCriterion criterion;
    double low, high; /* both included */
} WbKitRange;

typedef struct {
    char *chemistry; /* id; NULL: any */
    char *part;      /* id of a part of any kind that the kit holds; NULL: any */
    gboolean front_only;
    int system_v; /* of the bank: 12, 24 or 48; 0: any */
    gboolean brushed;
    WbKitRange brush[2]; /* both hold, where brushed */
    /* At most this, or at least where more is better; NaN: any. */
    double bound[WB_N_CRITERIA];
} WbKitFilter;

/* Lets everything pass. */
WbKitFilter wb_kit_filter_none(void);
void wb_kit_filter_copy(WbKitFilter *to, const WbKitFilter *from);
void wb_kit_filter_clear(WbKitFilter *filter);
gboolean wb_kit_filter_equal(const WbKitFilter *a, const WbKitFilter *b);
/* A figure that is not known passes neither a brush nor a bound. */
gboolean wb_kit_filter_passes(const WbKitFilter *filter, const WbProblem *problem,
                              const WbRanked *ranked);
/* The part of this id among the choices of a problem; NULL: none has it. */
const WbPart *wb_kit_part(const WbProblem *problem, const char *id);
/* Of the kit's bank: 12, 24, 48; 0: none of these. */
int wb_kit_system_v(const WbProblem *problem, const WbKit *kit);

#endif
