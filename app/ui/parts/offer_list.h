/* The offers of one part: shop, price, date; add one, remove one. */
#ifndef WB_OFFER_LIST_H
#define WB_OFFER_LIST_H

#include "page.h"

#define WB_TYPE_OFFER_LIST (wb_offer_list_get_type())
G_DECLARE_FINAL_TYPE(WbOfferList, wb_offer_list, WB, OFFER_LIST, GtkBox)

void wb_offer_list_set_context(WbOfferList *self, const WbContext *context);
/* NULL: none. */
void wb_offer_list_show(WbOfferList *self, const char *part_id);

#endif
