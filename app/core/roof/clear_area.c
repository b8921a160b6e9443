#include "plain_roof.h"

int64_t wb_roof_clear_mm2(const WbRoof *roof)
{
    if (!wb_roof_valid(roof))
        return 0;
    WbPlainRoof plain;
    if (wb_plain_roof(roof, NULL, 0, WB_PLAIN_INNER, 1, &plain) != WB_OK)
        return 0;
    int64_t clear_mm2 = wb_roof_area_left_mm2(&plain.roof, wb_roof_usable(roof), 0);
    wb_plain_roof_free(&plain);
    return clear_mm2 < 0 ? 0 : clear_mm2;
}
