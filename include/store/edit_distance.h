/* How far apart two words are, for "did you mean". */
#ifndef WB_EDIT_DISTANCE_H
#define WB_EDIT_DISTANCE_H

#include <glib.h>

/* Bytes inserted, removed or replaced to make one text of the other (Levenshtein); more than
 * `most`: most + 1. */
guint wb_edit_distance(const char *a, const char *b, guint most);

#endif
