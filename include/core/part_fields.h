/* Every figure of every part kind, described once: JSON key = SQL column = member name, with its
 * unit and what is accepted. Reading, writing, editing and the messages all follow this table. */
#ifndef WB_PART_FIELDS_H
#define WB_PART_FIELDS_H

#include "part.h"

typedef enum {
    WB_FIELD_NUMBER,  /* double */
    WB_FIELD_INTEGER, /* int64_t */
    WB_FIELD_TEXT,    /* const char * */
    WB_FIELD_WORDS,   /* const char *, ids with a space between; JSON: array of strings */
    WB_FIELD_FLAG,    /* bool */
    WB_FIELD_CHOICE,  /* int64_t index into choices; JSON and SQL: the word */
    WB_FIELD_CURVE,   /* WbCurve; JSON: array of [x, y]; SQL: rows of a table of points */
} WbFieldType;

typedef struct {
    const char *key;
    const char *label; /* for people, translatable */
    const char *unit;  /* "W", "V", "mm", "%/K", "" */
    WbFieldType type;
    size_t offset;
    double least, most;           /* accepted range of a number; curves: of y */
    double usual_low, usual_high; /* outside: questioned at the field, not refused */
    /* Absent or null in JSON: a number is then WB_MISSING (SQL: NULL), an integer 0, a flag false,
     * a text or word list "", a curve without points. */
    bool may_be_missing;
    /* NULL-terminated: the words of a CHOICE; of an INTEGER the only values accepted ("12", "24"),
     * NULL where the range alone decides. */
    const char *const *choices;
} WbField;

/* All fields of a kind, the common ones (id, maker, model, notes, weight_kg) first. */
const WbField *wb_part_fields(WbPartKind kind, size_t *n);
const WbField *wb_chemistry_fields(size_t *n);
const WbField *wb_field_find(const WbField *fields, size_t n, const char *key);

static inline void *wb_field_at(const WbField *field, void *record)
{
    return (char *)record + field->offset;
}
static inline const void *wb_field_in(const WbField *field, const void *record)
{
    return (const char *)record + field->offset;
}

#endif
