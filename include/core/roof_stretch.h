/* Equal rectangles none of which may turn, by the search for those that may: one axis of the roof,
 * of what stands on it and of the rectangle is stretched by a whole factor until a turned one is
 * longer than the roof. What fits, and what is proved not to, is the same on both roofs. */
#ifndef WB_ROOF_STRETCH_H
#define WB_ROOF_STRETCH_H

#include "roof.h"

typedef struct {
    WbRoof roof;                 /* owns its obstacles */
    int64_t length_mm, width_mm; /* of the rectangle */
    int64_t along, across; /* factors of the roof's length and of its width; one of them is 1 */
} WbStretch;

/* A rectangle as roof without margin and gap; obstacles without clearance, not round. WB_BAD_INPUT:
 * another roof, or one that would grow beyond what wb_roof_most takes either way (a roof of many
 * hundreds of rectangles). WB_NO_MEMORY. Both leave stretch untouched. Free it after WB_OK. */
WbStatus wb_roof_stretch(const WbRoof *roof, int64_t length_mm, int64_t width_mm,
                         WbStretch *stretch);
void wb_roof_stretch_free(WbStretch *stretch);

/* The place of a rectangle on the true roof, for one of a layout on the stretched one. */
WbRect wb_roof_unstretch(const WbStretch *stretch, WbRect rect);

#endif
