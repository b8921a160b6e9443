/* The hourly file a brief names: found, read once, and checked against the brief's place. What is
 * wrong with it is kept as a sentence, so that the brief can still be shown and mended. Private to
 * the store. */
#ifndef WB_BRIEF_HOURS_H
#define WB_BRIEF_HOURS_H

#include "hours_file.h"
#include "json.h"

typedef struct {
    char *path; /* absolute; NULL: the brief names no file */
    gint64 changed_ns, size;
    WbHoursFile *file;           /* NULL: none, or it cannot be used; else it suits the place */
    WbHoursFile *read;           /* NULL: none, or it cannot be read */
    GError *problem;             /* why it cannot be used */
    double place[3 + WB_MONTHS]; /* what was checked: position and mean air of the months */
} WbBriefHours;

/* For the brief of this tree; a relative path starts in `folder`, NULL: the current one. What
 * `before` holds is taken over where neither file nor place has changed; NULL: nothing. */
void wb_brief_hours_open(WbBriefHours *hours, const cJSON *tree, const char *folder,
                         const WbPlace *place, const WbBriefHours *before);
void wb_brief_hours_clear(WbBriefHours *hours);

#endif
