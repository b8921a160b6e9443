/* JSON text, written member by member: two spaces of indentation, numbers in the C locale with as
 * many digits as it takes to read the same double back, NaN and infinities as null. */
#ifndef WB_CLI_JSON_H
#define WB_CLI_JSON_H

#include <glib.h>
#include <stdbool.h>
#include <stdint.h>

typedef struct {
    GString *text;
    int depth;
    bool first; /* nothing stands yet in the innermost object or array */
} WbJson;

void wb_json_start(WbJson *json);
/* Ends with a newline. (transfer full) */
char *wb_json_finish(WbJson *json);

/* The first two members of every document: "format" and "version". */
void wb_json_format(WbJson *json, const char *format);

/* `key` is NULL for an item of an array and for the outermost value. */
void wb_json_object(WbJson *json, const char *key);
void wb_json_end_object(WbJson *json);
void wb_json_array(WbJson *json, const char *key);
void wb_json_end_array(WbJson *json);
void wb_json_text(WbJson *json, const char *key, const char *value); /* NULL: null */
void wb_json_number(WbJson *json, const char *key, double value);
void wb_json_integer(WbJson *json, const char *key, int64_t value);
void wb_json_count(WbJson *json, const char *key, uint64_t value);
void wb_json_flag(WbJson *json, const char *key, bool value);
void wb_json_null(WbJson *json, const char *key);

#endif
