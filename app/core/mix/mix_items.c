#include "mix_items.h"
#include "roof_outline.h"

bool wb_mix_items_valid(const WbMixItem *items, size_t n_items)
{
    int panels = 0;
    if (n_items > WB_MIX_SIZES)
        return false;
    for (size_t i = 0; i < n_items; i++) {
        if (!wb_roof_length_valid(items[i].length_mm) || !wb_roof_length_valid(items[i].width_mm) ||
            items[i].count < 0 || items[i].count > WB_MIX_PANELS - panels)
            return false;
        panels += items[i].count;
    }
    return true;
}
