/* A part to begin with when the person adds one to the catalogue. */
#ifndef WB_PART_NEW_H
#define WB_PART_NEW_H

#include "part.h"
#include <glib.h>

/* A record of the kind's type with texts of its own. */
typedef struct WbNewPart WbNewPart;

/* A copy of `original` under an id and model name of its own; NULL: plain figures in the middle of
 * what such parts usually have, marked so in the notes, everything that may be missing missing. The
 * catalogue's ids are avoided and its texts borrowed while the new part lives. (transfer full) */
WbNewPart *wb_new_part(const WbCatalogue *catalogue, WbPartKind kind, const void *original);
const WbPart *wb_new_part_get(const WbNewPart *self);
void wb_new_part_free(WbNewPart *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbNewPart, wb_new_part_free)

#endif
