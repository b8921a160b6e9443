/* What a figure of the brief is: its name and unit, where it stands in the brief, and how it is
 * read and typed. Static tables of these make the forms of the pages. */
#ifndef WB_BRIEF_FIELD_H
#define WB_BRIEF_FIELD_H

#include "document.h"

typedef enum { WB_BRIEF_NUMBER, WB_BRIEF_TEXT, WB_BRIEF_CHOICE, WB_BRIEF_FLAG } WbBriefKind;

typedef struct {
    const char *title; /* "Tilt" */
    const char *unit;  /* as shown, "" none */
    const char *note;  /* a sentence under it, NULL none */
    const char *step;  /* name of the undo step: "Change the tilt" */
    /* JSON Pointer; '#' stands for the index of the item. */
    const char *pointer;
    WbBriefKind kind;
    double scale;           /* shown = stored x scale; 0 as 1 */
    int decimals;           /* shown at least, so that a column lines up */
    const char *empty;      /* what an empty field means ("any"), NULL: it must not be empty */
    const char *empty_json; /* how the brief says so */
    const char *const *words, *const *json; /* of a choice, NULL-terminated, and in the brief */
    /* The value in force (choice: its number; flag: 0 or 1), NaN where there is none. An index
     * past the end gives NaN or NULL. */
    double (*number)(const WbBrief *brief, int index);
    const char *(*text)(const WbBrief *brief, int index);
    /* Why the brief cannot have this value, in one sentence, where the brief's own answer would not
     * say what to do; NULL: it may be tried. May be NULL itself. (transfer full) */
    char *(*refuses)(const WbBrief *brief, double value);
} WbBriefField;

/* All (transfer full). */
char *wb_brief_field_pointer(const WbBriefField *field, int index);
/* As a person would type it; "" where it is empty. */
char *wb_brief_field_text(const WbBriefField *field, WbDocument *document, int index);
/* JSON of what was typed, NULL and a sentence when it is not that kind of value. */
char *wb_brief_field_json(const WbBriefField *field, const char *text, char **sentence);

#endif
