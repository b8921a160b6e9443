/* Which rows of a list stand together as similar kits, and which of them are seen: those that lead,
 * and under each that is opened the ones like it. Rows are indices
 * into the kits of a list. */
#ifndef WB_KIT_GROUPS_H
#define WB_KIT_GROUPS_H

#include "kit_list.h"
#include "similar.h"

typedef struct WbKitGroups WbKitGroups;

WbKitGroups *wb_kit_groups_new(void);
void wb_kit_groups_free(WbKitGroups *self);

/* The rows that pass the filters, in the order of the list: the first of those alike leads. Groups
 * that were opened stay open, in another result as well, as long as their kit leads. Not grouped:
 * every row is seen. `ranked`, by row and of the result, is borrowed until the next call. */
void wb_kit_groups_arrange(WbKitGroups *self, WbResult *result, const WbRanked *const *ranked,
                           gboolean grouped, const guint *rows, guint n);
/* How many rows were given, and how many of them lead (all, while not grouped). */
guint wb_kit_groups_get_n_kits(const WbKitGroups *self);
guint wb_kit_groups_get_n_groups(const WbKitGroups *self);
/* The row given as the i-th, seen or not. */
guint wb_kit_groups_get_kit(const WbKitGroups *self, guint i);

guint wb_kit_groups_get_n_seen(const WbKitGroups *self);
guint wb_kit_groups_get_row(const WbKitGroups *self, guint position);
WbKitPlace wb_kit_groups_get_place(const WbKitGroups *self, guint position);
/* Position of a row, WB_KIT_NOWHERE where it is not seen. */
guint wb_kit_groups_find(const WbKitGroups *self, guint row);
/* Where its group has to be opened to see it; the same value where it is seen or not there. */
guint wb_kit_groups_find_closed(const WbKitGroups *self, guint row);
/* How many rows came in (or went, below 0) just behind it; 0: nothing to open, or it is so. */
int wb_kit_groups_set_open(WbKitGroups *self, guint position, gboolean open);

#define WB_KIT_NOWHERE G_MAXUINT

#endif
