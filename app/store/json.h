/* JSON text to a cJSON tree and back, stricter than cJSON: RFC 8259 to the letter, nothing after
 * the end, no duplicate member at any depth, numbers a double holds exactly. Private to the store.
 */
#ifndef WB_JSON_H
#define WB_JSON_H

#include <cjson/cJSON.h>
#include <glib.h>

#define WB_JSON_DEPTH 64
/* 2^53: beyond it a double, and so this program, cannot hold every whole number. */
#define WB_JSON_NUMBER_MOST 9007199254740992.0

typedef cJSON WbJsonTree;
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbJsonTree, cJSON_Delete)

/* Is it JSON? FALSE and an error with line and column. `name` stands for the file in messages. */
gboolean wb_json_scan(const char *text, gsize length, const char *name, GError **error);

/* (transfer full); length -1: NUL-terminated. */
cJSON *wb_json_parse(const char *text, gssize length, const char *name, GError **error);
/* (transfer full) every number as the shortest text that reads back the same; no newline at end */
char *wb_json_print(const cJSON *tree);
/* A number as JSON and messages write it, whatever the locale. (transfer full) */
char *wb_json_number_text(double value);
/* A text short enough for a sentence: valid UTF-8, one line. (transfer full) */
char *wb_json_shorten(const char *text);
/* A value short enough for a sentence. (transfer full) */
char *wb_json_excerpt(const cJSON *item);

/* RFC 6901. NULL when there is no such value. */
cJSON *wb_json_at(cJSON *tree, const char *pointer);
/* Edits, for a copy: one that fails may leave parents it made. `value` is taken either way.
 * Set makes missing parent objects; insert takes "-" for the end of a list. */
gboolean wb_json_set(cJSON *tree, const char *pointer, cJSON *value, GError **error);
gboolean wb_json_insert(cJSON *tree, const char *pointer, cJSON *value, GError **error);
gboolean wb_json_remove(cJSON *tree, const char *pointer, GError **error);
gboolean wb_json_move(cJSON *tree, const char *array_pointer, int from, int to, GError **error);
/* One step of a pointer with ~ and / escaped, appended. */
void wb_json_append_step(GString *pointer, const char *step);

#endif
