/* Among layouts of equally many panels, a good one; and how good a layout is. */
#ifndef WB_ROOF_ARRANGE_H
#define WB_ROOF_ARRANGE_H

#include "place.h"
#include "roof.h"

typedef struct {
    int lines;             /* different left edges + different front edges: fewer is more in line */
    int turned;            /* panels that lie the other way than most */
    int64_t off_centre_mm; /* left against right free margin, and front against back, added */
    int64_t
        cable_mm; /* sum over panels of along + across from their centre to the gland; 0: none */
    int64_t shaded_mm2; /* of panels in shade areas */
} WbArrangement;

void wb_roof_arrangement(const WbRoof *roof, const WbRect *layout, int n, WbArrangement *out);

/* In place: a layout of the same n panels at least as good as the one given, valid as it was. The
 * first n_pinned stay. Less shade first, then fewer lines and turns, then cable, then centring.
 * Deterministic; WB_STOPPED and WB_NO_MEMORY leave the layout as it was. */
WbStatus wb_roof_arrange(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm,
                         WbRect *layout, int n, int n_pinned, WbControl *control);

/* Share of the direct light of the month's mean day that what stands on the roof takes from these
 * panels, 0..1, mean over them; with front_azimuth_deg NaN the mean over 16 headings. Panels lie
 * flat at the standoff; rectangles and circles as upright boxes and cylinders of height_mm (0: no
 * shade known). by_panel may be NULL, else [n]: the mean over the year of each. */
void wb_roof_shade(const WbRoof *roof, const WbSite *site, const WbRect *layout, int n,
                   double month[12], double *by_panel);

#endif
