/* The built-in places, from data/places.csv (compiled in). */
#ifndef WB_PLACES_H
#define WB_PLACES_H

#include "place.h"
#include <glib.h>

/* All of them, ordered by id; static storage, parsed once. Ids: name and country in lower case with
 * hyphens, e.g. "bariloche-argentina". */
const WbPlace *wb_places(size_t *n);
const WbPlace *wb_place_find(const char *id);

#endif
