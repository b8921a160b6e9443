/* The ranked kits as a GListModel of WbKitRow: the first of a result and its front beyond them, in
 * an order and through filters of choice, similar ones under the first of them if wished.
 *
 * A row stands for a place: made on demand, it lives as long as someone holds it, and shows the kit
 * that stands there now. After each change "arranged" is emitted: whoever shows rows reads them
 * again. items-changed comes before it, and only if there are more or fewer places: at the end, or
 * behind a group that is opened or closed. A row whose place is gone keeps its last kit. */
#ifndef WB_KIT_LIST_H
#define WB_KIT_LIST_H

#include "kit_filter.h"
#include "result.h"
#include "similar.h"
#include <gio/gio.h>

#define WB_TYPE_KIT_ROW (wb_kit_row_get_type())
G_DECLARE_FINAL_TYPE(WbKitRow, wb_kit_row, WB, KIT_ROW, GObject)

const char *wb_kit_row_get_id(WbKitRow *self);
guint wb_kit_row_get_rank(WbKitRow *self); /* 1: the best; 0: beyond those asked for */
guint wb_kit_row_get_position(WbKitRow *self);
const WbRanked *wb_kit_row_get_ranked(WbKitRow *self);
/* Figure in the criterion's own unit (minor units, kg, Wh, m2, days, W). */
double wb_kit_row_get_figure(WbKitRow *self, WbCriterion criterion);
/* The same for people, without the unit except money's currency. (transfer full) */
char *wb_kit_row_dup_figure(WbKitRow *self, WbCriterion criterion);
/* The kit in words. (transfer full) */
char *wb_kit_row_dup_words(WbKitRow *self);
/* Chemistry of its bank, borrowed. */
const WbChemistry *wb_kit_row_get_chemistry(WbKitRow *self);
WbResult *wb_kit_row_get_result(WbKitRow *self);

#define WB_TYPE_KIT_LIST (wb_kit_list_get_type())
G_DECLARE_FINAL_TYPE(WbKitList, wb_kit_list, WB, KIT_LIST, GObject)

WbKitList *wb_kit_list_new(void);
/* NULL empties it. */
void wb_kit_list_set_result(WbKitList *self, WbResult *result);
/* criterion -1: by score, the ranking itself. */
void wb_kit_list_set_order(WbKitList *self, int criterion, gboolean descending);
void wb_kit_list_set_front_only(WbKitList *self, gboolean front_only);
/* Only kits of this chemistry; NULL: all. */
void wb_kit_list_set_chemistry(WbKitList *self, const char *chemistry_id);
/* The whole filter; the two above set a part of it. */
void wb_kit_list_set_filter(WbKitList *self, const WbKitFilter *filter);
const WbKitFilter *wb_kit_list_get_filter(WbKitList *self); /* borrowed until the next change */
/* FALSE: no such kit in the list as shown. */
gboolean wb_kit_list_find(WbKitList *self, const char *kit_id, guint *position);

/* Where a row of a grouped list stands; all 0 while it is not grouped. */
typedef struct {
    guint n_like;        /* so many stand under it */
    gboolean open;       /* and are shown */
    gboolean under;      /* it stands under another */
    WbKitChoice differs; /* in this from that one; WB_N_KIT_CHOICES: in the wiring of the panels */
} WbKitPlace;

/* Similar kits stand under the first of them in the list's order, and are shown once it is opened
 * (signal "opened"). Off unless set. Whatever else changes, "arranged" follows items-changed. */
void wb_kit_list_set_grouped(WbKitList *self, gboolean grouped);
gboolean wb_kit_list_get_grouped(WbKitList *self);
WbKitPlace wb_kit_list_get_place(WbKitList *self, guint position);
/* FALSE: there is nothing to open or close. */
gboolean wb_kit_list_set_open(WbKitList *self, guint position, gboolean open);
/* Opens the group the kit stands in. FALSE: no such kit passes the filters. */
gboolean wb_kit_list_reveal(WbKitList *self, const char *kit_id, guint *position);
/* All that pass the filters, shown or not, in the order of the list; how many lead. */
guint wb_kit_list_get_n_kits(WbKitList *self);
guint wb_kit_list_get_n_groups(WbKitList *self);
const WbRanked *wb_kit_list_get_kit(WbKitList *self, guint i);
/* All of the result, whether they pass or not, in the order of the ranking. */
guint wb_kit_list_get_n_ranked(WbKitList *self);
const WbRanked *wb_kit_list_get_ranked(WbKitList *self, guint i);

/* Unit text of a criterion's figure: "kg", "Wh", ...; cost: the brief's currency, here "". */
const char *wb_criterion_unit(WbCriterion criterion);
/* Title of a criterion for people: "Cost", "Weight", ... */
const char *wb_criterion_title(WbCriterion criterion);

#endif
