/* The built-in places for a person who looks for one: a GListModel of WbPlaceRow ordered by name,
 * and how far each kind of figures can be trusted. */
#ifndef WB_PLACE_LIST_H
#define WB_PLACE_LIST_H

#include "place.h"
#include <gio/gio.h>

#define WB_TYPE_PLACE_ROW (wb_place_row_get_type())
G_DECLARE_FINAL_TYPE(WbPlaceRow, wb_place_row, WB, PLACE_ROW, GObject)

const WbPlace *wb_place_row_get_place(WbPlaceRow *self);
/* "Nantes, France" */
const char *wb_place_row_get_title(WbPlaceRow *self);
/* Every word of it begins a word of name or country, in any case and without accents. */
gboolean wb_place_row_matches(WbPlaceRow *self, const char *text);

/* (transfer full) */
GListModel *wb_place_list_new(void);

/* How far figures of this kind can be off, one phrase. data/README.md tells where it comes from. */
const char *wb_place_uncertainty(const char *kind);
/* "47.22° north, 1.55° west, 8 m" (transfer full) */
char *wb_place_position(const WbPlace *place);

#endif
