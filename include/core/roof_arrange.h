/* Among layouts of equally many panels, a good one; and how good a layout is. */
#ifndef WB_ROOF_ARRANGE_H
#define WB_ROOF_ARRANGE_H

#include "place.h"
#include "roof.h"

typedef struct {
    int64_t shaded_mm2; /* of panels in shade areas; where areas overlap, of each */
    int lines;          /* different left, right, front and back edges: fewer is more in line */
    int turned;         /* panels that lie the other way than most */
    int64_t cable_mm;   /* sum over panels of along + across from their centre to the gland; 0: no
                           gland, or no panels */
    int64_t off_centre_mm; /* free margin left against right, and front against back, added */
} WbArrangement;

/* Mirrored roof, mirrored layout: the same figures. A round shade area is taken as 32 strips. */
void wb_roof_arrangement(const WbRoof *roof, const WbRect *layout, int n, WbArrangement *out);

/* Less than 0 where a is the better one: less shade, then fewer lines and turned ones together,
 * then less cable, then nearer to the centre; 0: equally good. */
int wb_roof_arrangement_order(const WbArrangement *a, const WbArrangement *b);

/* In place: a layout of the same n panels at least as good as the one given, valid as it was. The
 * first n_pinned stay. Not always the best there is: regular blocks, layouts searched from the
 * corners, and slides and new places of panels and of rows of them, until none helps or a count of
 * tries is spent. Deterministic; mirrored roofs give mirrored layouts or equally good ones.
 * WB_BAD_INPUT: a layout that wb_roof_layout_ok refuses, n_pinned outside 0..n. On failure the
 * layout is as it was. */
WbStatus wb_roof_arrange(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm,
                         WbRect *layout, int n, int n_pinned, WbControl *control);

/* Share of the direct light of the month's mean day that what stands on the roof takes from these
 * panels, 0..1, mean over them; 0 in a month without direct light. With front_azimuth_deg NaN the
 * mean over 16 headings. Panels lie flat at the standoff, whatever the site's tilt; obstacles that
 * stand are upright boxes and cylinders of height_mm (0: no shade known). Walkways and shade areas
 * cast nothing. by_panel may be NULL, else [n]: the share of each over the year, by light.
 *
 * An estimate. It is the shaded area times the direct light: diffuse light that an obstacle hides
 * is left out, and so is what a panel's wiring makes of it: a panel partly in shade gives less than
 * the sunlit share of its area, often a third or two thirds of a panel go at once. Trees, hills and
 * the panels' own edges cast nothing here.
 *
 * Method: direct light of each hour of the mean day as in sky.h, the sun at two moments of an hour;
 * a shadow reaches height over the panels / tan(sun's altitude) away from the sun, and is the hull
 * of the obstacle's base and its shifted top; the exact length in any shadow on 20 lines along each
 * panel and 20 across it (a straight edge is good to 1/80 of the panel).
 *
 * WB_BAD_INPUT: n < 0, a latitude outside -90..90, an irradiation that is negative or not finite, a
 * roof that wb_roof_most refuses. On failure the outputs are untouched. */
WbStatus wb_roof_shade(const WbRoof *roof, const WbSite *site, const WbRect *layout, int n,
                       WbControl *control, double month[12], double *by_panel);

#endif
