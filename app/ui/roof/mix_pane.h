/* Two or three panel models together: which are mixed, the best mixes by watts and by watts for the
 * money, and what is not decided. Signal "shown" (): the mix hovered or chosen has changed. */
#ifndef WB_MIX_PANE_H
#define WB_MIX_PANE_H

#include "roof_mix.h"
#include <gtk/gtk.h>

#define WB_TYPE_MIX_PANE (wb_mix_pane_get_type())
G_DECLARE_FINAL_TYPE(WbMixPane, wb_mix_pane, WB, MIX_PANE, GtkBox)

/* Both borrowed; they live as long as the pane. */
GtkWidget *wb_mix_pane_new(WbRoofMix *mix, WbDocument *document);
void wb_mix_pane_refresh(WbMixPane *self);
/* The mix hovered, else the chosen one; NULL none. Borrowed until the next "changed" of the mix. */
const WbMixBest *wb_mix_pane_get_shown(WbMixPane *self);
/* "2 x Maker A + 1 x Maker B" (transfer full) */
char *wb_mix_pane_words(WbMixPane *self, const WbMixBest *best);

#endif
