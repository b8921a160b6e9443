/* Which members a reader asked each object for, so that the others can be named. What is known is
 * thereby what is read, with no second list to keep. Private to the store. */
#ifndef WB_JSON_ASKED_H
#define WB_JSON_ASKED_H

#include "json.h"
#include "not_read.h"

typedef GHashTable WbJsonAsked;

WbJsonAsked *wb_json_asked_new(void);
/* The key is borrowed: of static storage, or of the tree. */
void wb_json_asked_add(WbJsonAsked *asked, const cJSON *object, const char *key);
/* Of WbNotRead, in the order of the file. (transfer full) */
GPtrArray *wb_json_asked_rest(WbJsonAsked *asked, const cJSON *tree);
/* A member of the object nobody asked for whose name is near `key`; NULL: none. */
const char *wb_json_asked_similar(WbJsonAsked *asked, const cJSON *object, const char *key);

#endif
