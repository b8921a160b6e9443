/* JSON text, written member by member: two spaces of indentation, numbers in the C locale with as
 * many digits as it takes to read the same double back, NaN and infinities as null. A long
 * document goes to standard output while it grows; a failed write stays with the stream. */
#ifndef WB_CLI_JSON_H
#define WB_CLI_JSON_H

#include <glib.h>
#include <stdbool.h>
#include <stdint.h>

typedef struct {
    GString *text;
    int depth;
    bool first; /* nothing stands yet in the innermost object or array */
} WbJsonOut;

void wb_out_start(WbJsonOut *json);
/* What is not printed yet; ends with a newline. (transfer full) */
char *wb_out_finish(WbJsonOut *json);

/* The first two members of every document: "format" and "version". */
void wb_out_format(WbJsonOut *json, const char *format);

/* `key` is NULL for an item of an array and for the outermost value. */
void wb_out_object(WbJsonOut *json, const char *key);
void wb_out_end_object(WbJsonOut *json);
void wb_out_array(WbJsonOut *json, const char *key);
void wb_out_end_array(WbJsonOut *json);
void wb_out_text(WbJsonOut *json, const char *key, const char *value); /* NULL: null */
void wb_out_number(WbJsonOut *json, const char *key, double value);
void wb_out_integer(WbJsonOut *json, const char *key, int64_t value);
void wb_out_count(WbJsonOut *json, const char *key, uint64_t value);
void wb_out_flag(WbJsonOut *json, const char *key, bool value);
/* All of them on one line. */
void wb_out_integers(WbJsonOut *json, const char *key, const int64_t *values, size_t n);
void wb_out_null(WbJsonOut *json, const char *key);

#endif
