/* The checker of layouts: written without the search, comparisons of every panel with the roof and
 * with every other. */
#include "mix_items.h"
#include "plain_roof.h"

static bool right_size(const WbMixItem *item, const WbRect *rect)
{
    bool straight = rect->length_mm == item->length_mm && rect->width_mm == item->width_mm;
    bool turned = rect->length_mm == item->width_mm && rect->width_mm == item->length_mm;
    return straight || (turned && item->turns);
}

static bool stand_apart(const WbRect *a, const WbRect *b, int64_t apart_mm)
{
    return a->x_mm + a->length_mm + apart_mm <= b->x_mm ||
           b->x_mm + b->length_mm + apart_mm <= a->x_mm ||
           a->y_mm + a->width_mm + apart_mm <= b->y_mm ||
           b->y_mm + b->width_mm + apart_mm <= a->y_mm;
}

static bool clear_of_earlier(const WbRoof *roof, const WbMixPlace *layout, int at)
{
    for (int i = 0; i < at; i++)
        if (!stand_apart(&layout[i].rect, &layout[at].rect, roof->gap_mm))
            return false;
    return true;
}

static bool right_counts(const WbMixItem *items, size_t n_items, const WbMixPlace *layout, int n)
{
    int placed[WB_MIX_SIZES] = {0};
    for (int i = 0; i < n; i++) {
        if (layout[i].item < 0 || (size_t)layout[i].item >= n_items)
            return false;
        placed[layout[i].item]++;
    }
    for (size_t i = 0; i < n_items; i++)
        if (placed[i] != items[i].count)
            return false;
    return true;
}

bool wb_mix_layout_ok(const WbRoof *roof, const WbMixItem *items, size_t n_items,
                      const WbMixPlace *layout, int n)
{
    if (!wb_roof_valid(roof) || !wb_mix_items_valid(items, n_items) ||
        !right_counts(items, n_items, layout, n))
        return false;
    for (int i = 0; i < n; i++)
        if (!right_size(&items[layout[i].item], &layout[i].rect) ||
            !wb_roof_place_ok(roof, &layout[i].rect) || !clear_of_earlier(roof, layout, i))
            return false;
    return true;
}
