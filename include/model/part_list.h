/* The catalogue's parts of one kind as a GListModel of WbPartRow, filtered by text and sorted by a
 * key through a permutation of its own. Follows the document. Row objects stay while the catalogue
 * stays; a row emits "changed" when only its tick or price changed. */
#ifndef WB_PART_LIST_H
#define WB_PART_LIST_H

#include "document.h"
#include "part_fields.h"
#include <gio/gio.h>

/* Parts of one kind in a catalogue, by kind instead of by member. */
gsize wb_catalogue_count(const WbCatalogue *catalogue, WbPartKind kind);
const WbPart *wb_catalogue_part(const WbCatalogue *catalogue, WbPartKind kind, gsize index);
/* NULL: no such part. `kind` may be NULL. */
const WbPart *wb_catalogue_find_part(const WbCatalogue *catalogue, const char *id,
                                     WbPartKind *kind);

#define WB_TYPE_PART_ROW (wb_part_row_get_type())
G_DECLARE_FINAL_TYPE(WbPartRow, wb_part_row, WB, PART_ROW, GObject)

WbPartKind wb_part_row_get_kind(WbPartRow *self);
const char *wb_part_row_get_id(WbPartRow *self);
/* The record of its kind, borrowed from the row. */
const WbPart *wb_part_row_get_part(WbPartRow *self);
gboolean wb_part_row_get_ticked(WbPartRow *self);
/* FALSE: no usable offer. In the brief's currency. */
gboolean wb_part_row_get_price(WbPartRow *self, gint64 *minor);
/* Minor units per W (panels, inverters: continuous), per nominal Wh x depth limit (storage), per
 * kg; NaN where it has no meaning, no price or no figure. */
double wb_part_row_get_per_watt(WbPartRow *self);
double wb_part_row_get_per_usable_wh(WbPartRow *self);
double wb_part_row_get_per_kg(WbPartRow *self);
/* "Maker Model", its price with currency or "no price", a field for people or "not given".
 * (transfer full) */
char *wb_part_row_dup_title(WbPartRow *self);
char *wb_part_row_dup_price(WbPartRow *self);
char *wb_part_row_dup_field(WbPartRow *self, const WbField *field);

#define WB_TYPE_PART_LIST (wb_part_list_get_type())
G_DECLARE_FINAL_TYPE(WbPartList, wb_part_list, WB, PART_LIST, GObject)

WbPartList *wb_part_list_new(WbDocument *document, WbPartKind kind);
WbPartKind wb_part_list_get_kind(WbPartList *self);
/* Every word of it must occur in id, maker, model, chemistry or notes, in any case; NULL or "":
 * all. */
void wb_part_list_set_filter(WbPartList *self, const char *text);
/* "title", "price", "per_watt", "per_usable_wh", "per_kg", "ticked" or any field key of the kind.
 * Missing figures stand last either way. FALSE: no such key. */
gboolean wb_part_list_set_sort(WbPartList *self, const char *key, gboolean descending);
gboolean wb_part_list_find(WbPartList *self, const char *part_id, guint *position);
guint wb_part_list_get_total(WbPartList *self);  /* before the filter */
guint wb_part_list_get_ticked(WbPartList *self); /* before the filter */

#endif
