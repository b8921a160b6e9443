/* The built-in places, from data/places.csv (compiled in). */
#ifndef WB_PLACES_H
#define WB_PLACES_H

#include "place.h"
#include <glib.h>

/* All of them, ordered by id; static storage, parsed once. Ids: name and country in lower case with
 * hyphens, e.g. "bariloche-argentina". */
const WbPlace *wb_places(size_t *n);
const WbPlace *wb_place_find(const char *id);

/* A text in lower-case ASCII without accents, one hyphen for whatever else stands between: what ids
 * are made of. Empty for a text without Latin letters or digits. (transfer full) */
char *wb_places_fold(const char *text);
/* Up to `most` places whose id or name is nearest to a text, best first; those far off are left
 * out. The number found. */
size_t wb_places_near(const char *text, const WbPlace **near, size_t most);

#endif
