/* Reading values out of a JSON tree with one clear sentence for the first that is wrong. The error
 * sticks in the reader: once it is set, later reads give harmless values and change nothing, so a
 * caller reads a whole record and looks at `error` once. Private to the store. */
#ifndef WB_JSON_READ_H
#define WB_JSON_READ_H

#include "json.h"
#include "json_asked.h"
#include "store_error.h"
#include <stdbool.h>
#include <stdint.h>

typedef struct {
    const char *file; /* as it stands in messages */
    GError *error;
    WbJsonAsked *asked;          /* by wb_json_begin */
    const cJSON *missing_parent; /* the first error is that this object */
    const char *missing_key;     /* has no such member */
} WbJsonReader;

/* A value and where it stands; `item` NULL: absent. Parents outlive their children. */
typedef struct WbJson {
    WbJsonReader *reader;
    const struct WbJson *parent;
    const cJSON *item;
    const char *key; /* NULL: item `index` of a list */
    int index;
} WbJson;

/* A reader; wb_json_end gives its error, or the members it was not asked for. */
WbJsonReader wb_json_begin(const char *file);
/* FALSE and the error; TRUE and *rest, of WbNotRead (transfer full). `rest` may be NULL. */
gboolean wb_json_end(WbJsonReader *reader, const cJSON *tree, GPtrArray **rest, GError **error);

WbJson wb_json_root(WbJsonReader *reader, const cJSON *tree);
WbJson wb_json_member(const WbJson *object, const char *key);
/* for (WbJson x = wb_json_first(&list); x.item; x = wb_json_next(&x)) */
WbJson wb_json_first(const WbJson *list);
WbJson wb_json_next(const WbJson *item);

static inline bool wb_json_given(const WbJson *at)
{
    return at->item != NULL;
}

/* "FILE: PLACE is VALUE, but must be ACCEPTED." or "FILE: PLACE is missing; it must be ACCEPTED."
 * In a list item with a name or id, FILE is followed by it: "van.json, "Fridge": /loads/0/watts".
 */
void wb_json_refuse(const WbJson *at, const char *accepted, ...) G_GNUC_PRINTF(2, 3);
/* "FILE: PLACE PROBLEM." */
void wb_json_complain(const WbJson *at, WbStoreError code, const char *problem, ...)
    G_GNUC_PRINTF(3, 4);
/* "a number from 0 to 24"; "a number, 0 or more" where there is no limit above but what a double
 * holds exactly. (transfer full) */
char *wb_json_range_text(const char *what, double least, double most);

/* All refuse what is absent, of another type or out of range. */
double wb_json_number(const WbJson *at, double least, double most);
int64_t wb_json_integer(const WbJson *at, int64_t least, int64_t most);
bool wb_json_flag(const WbJson *at);
const char *wb_json_text(const WbJson *at, glong most_characters); /* borrowed, never NULL */
int wb_json_word(const WbJson *at, const char *const *words);      /* index into words */
int wb_json_list(const WbJson *at, int least, int most);           /* its length */
bool wb_json_object(const WbJson *at);

/* The same, with what counts where the member is absent. */
double wb_json_number_or(const WbJson *at, double least, double most, double fallback);
/* ... or null */
double wb_json_number_or_null(const WbJson *at, double least, double most, double fallback);
int64_t wb_json_integer_or(const WbJson *at, int64_t least, int64_t most, int64_t fallback);
bool wb_json_flag_or(const WbJson *at, bool fallback);
const char *wb_json_text_or(const WbJson *at, glong most_characters, const char *fallback);
int wb_json_word_or(const WbJson *at, const char *const *words, int fallback);

/* "format" and "version": a file of this kind, and not newer than this program. */
void wb_json_check_format(const WbJson *root, const char *format, int version);

#endif
