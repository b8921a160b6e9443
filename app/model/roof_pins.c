#include "roof_pins.h"
#include <glib.h>

WbRect *wb_roof_pinned(const WbRoof *roof, const WbPanel *panel, int *n)
{
    WbRect *rects = roof->n_pins > 0 ? g_new(WbRect, roof->n_pins) : NULL;
    *n = 0;
    for (gsize i = 0; i < roof->n_pins; i++) {
        const WbPin *pin = &roof->pins[i];
        if (g_strcmp0(pin->part_id, panel->part.id) != 0)
            continue;
        rects[(*n)++] =
            (WbRect){pin->x_mm, pin->y_mm, pin->turned ? panel->width_mm : panel->length_mm,
                     pin->turned ? panel->length_mm : panel->width_mm};
    }
    if (*n == 0)
        g_clear_pointer(&rects, g_free);
    return rects;
}
