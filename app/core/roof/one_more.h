/* Whether n panels lie on a plain roof, by the graph of the places that matter. */
#ifndef WB_ONE_MORE_H
#define WB_ONE_MORE_H

#include "roof_outline.h"

typedef struct {
    const WbRoof *plain;
    int64_t panel_length_mm, panel_width_mm;
    int n; /* >= 1 */
    uint64_t node_budget;
    WbControl *control;
    /* NULL: the plain roof alone is asked. Else only places are used for which it answers true,
     * and that they do not do is no proof: other places may. */
    bool (*place_ok)(const void *data, const WbRect *rect);
    const void *data;
} WbOneMoreQuestion;

typedef struct {
    WbRect *layout; /* n panels, or NULL: none found. The caller frees it */
    bool refuted;   /* they do not lie; neither a layout nor refuted: not decided */
    uint64_t nodes;
} WbOneMore;

/* WB_OK also where it is not decided; *answer is set then only. */
WbStatus wb_one_more(const WbOneMoreQuestion *question, WbOneMore *answer);

#endif
