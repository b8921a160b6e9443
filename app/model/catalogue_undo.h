/* What one edit of the catalogue replaced, kept as the view of before. */
#ifndef WB_CATALOGUE_UNDO_H
#define WB_CATALOGUE_UNDO_H

#include "database.h"

typedef struct {
    WbCatalogueView *before;
    char *label;
    char *part_id;
    char *shop_id, *date; /* of an offer; NULL: the part itself */
} WbCatalogueUndo;

/* Takes its own reference to the view of before. Label is one of "Change", "Add", "Delete" with the
 * part's name; `after` names a part that is new. (transfer full) */
WbCatalogueUndo *wb_catalogue_undo_part(WbCatalogueView *before, const WbPart *after,
                                        const char *part_id);
WbCatalogueUndo *wb_catalogue_undo_offer(WbCatalogueView *before, const WbOffer *offer);
gboolean wb_catalogue_undo_run(const WbCatalogueUndo *undo, WbDatabase *database, GError **error);
void wb_catalogue_undo_free(WbCatalogueUndo *undo);
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbCatalogueUndo, wb_catalogue_undo_free)

#endif
