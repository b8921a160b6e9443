/* What the list does with its rows. */
#ifndef WB_PART_ROW_H
#define WB_PART_ROW_H

#include "brief_file.h"
#include "part_list.h"

WbPartRow *wb_part_row_new(WbCatalogueView *view, WbPartKind kind, gsize index);
/* Tick and price by this brief; emits "changed" when they are others now. */
void wb_part_row_follow(WbPartRow *self, WbBriefFile *file);
gboolean wb_part_row_matches(WbPartRow *self, const char *folded_word);

#endif
