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

static bool alike(const WbMixItem *a, const WbMixItem *b)
{
    bool same = a->length_mm == b->length_mm && a->width_mm == b->width_mm;
    bool crossed = a->length_mm == b->width_mm && a->width_mm == b->length_mm;
    return a->turns == b->turns && (same || (crossed && a->turns));
}

/* The merged item this one belongs to is the first that is alike. */
static size_t first_alike(const WbMixItem *items, size_t n_items, const WbMixItem *item)
{
    size_t i = 0;
    while (i < n_items && !alike(&items[i], item))
        i++;
    return i;
}

size_t wb_mix_items_merge(const WbMixItem *items, size_t n_items, WbMixItem *merged)
{
    size_t n = 0;
    for (size_t i = 0; i < n_items; i++) {
        size_t at = first_alike(merged, n, &items[i]);
        if (at < n)
            merged[at].count += items[i].count;
        else
            merged[n++] = items[i];
    }
    return n;
}

void wb_mix_items_part(const WbMixItem *items, size_t n_items, WbMixPlace *layout, int n)
{
    WbMixItem merged[WB_MIX_SIZES];
    int left[WB_MIX_SIZES];
    size_t n_merged = wb_mix_items_merge(items, n_items, merged);
    for (size_t i = 0; i < n_items; i++)
        left[i] = items[i].count;
    for (int k = 0; k < n; k++) {
        size_t at = (size_t)layout[k].item, i = 0;
        while (i < n_items && (left[i] == 0 || first_alike(merged, n_merged, &items[i]) != at))
            i++;
        layout[k].item = (int)i;
        left[i]--;
    }
}
