/* One offer in the list. Signal "remove". */
#ifndef WB_OFFER_ROW_H
#define WB_OFFER_ROW_H

#include "part.h"
#include <gtk/gtk.h>

#define WB_TYPE_OFFER_ROW (wb_offer_row_get_type())
G_DECLARE_FINAL_TYPE(WbOfferRow, wb_offer_row, WB, OFFER_ROW, GtkBox)

GtkWidget *wb_offer_row_new(const WbCatalogue *catalogue, const WbOffer *offer);
/* The offer by value; its texts live as long as the row. */
WbOffer wb_offer_row_get_offer(WbOfferRow *self);

#endif
