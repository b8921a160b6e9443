#include "roof.h"

/* A bay floor is a roof without margin or obstacles. */
WbFitAnswer wb_bay_answer(const WbBay *bay, int64_t length_mm, int64_t width_mm, int64_t height_mm,
                          int n, uint64_t node_budget, WbControl *control)
{
    if (bay->length_mm == 0 && bay->width_mm == 0 && bay->height_mm == 0)
        return WB_FITS;
    if (n <= 0)
        return WB_FITS;
    if (height_mm <= 0)
        return WB_FIT_UNDECIDED;
    if (height_mm > bay->height_mm)
        return WB_FITS_NOT;
    WbRoof floor = {.length_mm = bay->length_mm, .width_mm = bay->width_mm, .gap_mm = bay->gap_mm};
    WbRoofFit fit = {0};
    if (wb_roof_most(&floor, length_mm, width_mm, n, node_budget, control, &fit) != WB_OK)
        return WB_FIT_UNDECIDED;
    WbFitAnswer answer = wb_roof_answer(&fit, n);
    wb_roof_fit_free(&fit);
    return answer;
}
