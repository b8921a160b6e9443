/* A bay floor is a roof without margin or obstacles. */
#include "bay.h"
#include "roof_outline.h"

static bool no_bay(const WbBay *bay)
{
    return bay->length_mm == 0 && bay->width_mm == 0 && bay->height_mm == 0;
}

/* Boxes that all lie the same way. Mark the floor at every multiple of length and width, gap
 * included: each box holds one mark of its own, so a plain grid of them is the most. */
static int most_one_way(const WbRoof *floor, const WbBox *box, int at_most)
{
    int64_t along = (floor->length_mm + floor->gap_mm) / (box->length_mm + floor->gap_mm),
            across = (floor->width_mm + floor->gap_mm) / (box->width_mm + floor->gap_mm);
    return along * across < at_most ? (int)(along * across) : at_most;
}

WbStatus wb_bay_most(const WbBay *bay, const WbBox *box, int at_most, uint64_t node_budget,
                     WbFitCache *cache, WbControl *control, int *stand, int *bound)
{
    WbRoof floor = {.length_mm = bay->length_mm, .width_mm = bay->width_mm, .gap_mm = bay->gap_mm};
    if (at_most < 0)
        return WB_BAD_INPUT;
    if (no_bay(bay)) {
        *stand = *bound = at_most;
        return WB_OK;
    }
    if (!wb_roof_valid(&floor) || !wb_roof_length_valid(bay->height_mm) ||
        !wb_roof_length_valid(box->length_mm) || !wb_roof_length_valid(box->width_mm) ||
        !wb_roof_length_valid(box->height_mm))
        return WB_BAD_INPUT;
    if (wb_control_stopped(control))
        return WB_STOPPED;
    if (box->height_mm > bay->height_mm || box->must_not_turn) {
        *stand = *bound = box->height_mm > bay->height_mm ? 0 : most_one_way(&floor, box, at_most);
        return WB_OK;
    }
    WbRoofFit fit = {0};
    WbStatus status = wb_fit_cache_most(cache, &floor, box->length_mm, box->width_mm, NULL, 0,
                                        at_most, node_budget, control, &fit);
    if (status != WB_OK)
        return status;
    *stand = fit.most;
    *bound = fit.bound;
    wb_roof_fit_free(&fit);
    return WB_OK;
}

WbFitAnswer wb_bay_answer(const WbBay *bay, const WbBox *box, int n, uint64_t node_budget,
                          WbControl *control)
{
    if (n <= 0)
        return WB_FITS;
    int stand, bound;
    if (wb_bay_most(bay, box, n, node_budget, NULL, control, &stand, &bound) != WB_OK)
        return WB_FIT_UNDECIDED;
    if (n <= stand)
        return WB_FITS;
    return n > bound ? WB_FITS_NOT : WB_FIT_UNDECIDED;
}
