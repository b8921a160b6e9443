/* The tables of the catalogue as data: which list of JSON, which table of SQL, which array of
 * WbCatalogue, with the fields of one row. Everything that reads or writes rows follows it, so
 * column names come from here alone. Private to the store. */
#ifndef WB_CATALOGUE_TABLE_H
#define WB_CATALOGUE_TABLE_H

#include "part_fields.h"
#include <glib.h>

/* In an order in which references point to earlier tables only. */
typedef enum {
    WB_TABLE_CHEMISTRY,
    WB_TABLE_SHOP,
    WB_TABLE_PART, /* + WbPartKind: one table per kind */
    WB_TABLE_OFFER = WB_TABLE_PART + WB_N_KINDS,
    WB_N_TABLES,
} WbTableId;

#define WB_MOST_KEYS 3

typedef struct {
    const char *name; /* in SQL, and in messages */
    const char *list; /* in JSON */
    const WbField *fields;
    size_t n_fields;
    size_t n_keys; /* the columns of the primary key */
    const char *keys[WB_MOST_KEYS];
    size_t size;                       /* of a record */
    size_t array_offset, count_offset; /* in WbCatalogue */
} WbTable;

WbTable wb_table(WbTableId id);
static inline bool wb_table_is_part(WbTableId id)
{
    return id >= WB_TABLE_PART && id < WB_TABLE_OFFER;
}

/* Rows of one table in a catalogue. */
const void *wb_table_rows(const WbTable *table, const WbCatalogue *catalogue, size_t *n);
void wb_table_set_rows(const WbTable *table, WbCatalogue *catalogue, const void *rows, size_t n);

/* Value `n` of a record's primary key. */
const char *wb_table_key(const WbTable *table, const void *record, size_t n);
/* By primary key, text by text (strcmp). */
int wb_table_compare(const WbTable *table, const void *a, const void *b);
/* In sorted rows; NULL when absent. */
const void *wb_table_find(const WbTable *table, const void *rows, size_t n, const void *record);
bool wb_table_rows_equal(const WbTable *table, const void *a, const void *b);

/* What a field accepts, as a message says it: "a number from 0.1 to 2000". (transfer full) */
char *wb_field_accepted(const WbField *field);
/* Does a text obey what its key asks (ids, currency, date, length)? */
bool wb_field_text_ok(const WbField *field, const char *text);
/* Is the value in the record accepted? */
bool wb_field_ok(const WbField *field, const void *record);
/* The first field whose value does not go with another of the same row: a panel's working point
 * lies within its curve; the three figures of a chemistry's charge acceptance go together; a
 * fitting has the figures of its role. NULL: all go. *accepted: "below voc_v, which is 22"
 * (transfer full). */
const WbField *wb_row_conflict(const WbTable *table, const void *record, char **accepted);
/* A value as a message shows it. (transfer full) */
char *wb_field_value_text(const WbField *field, const void *record);

#endif
