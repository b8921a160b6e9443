/* A person's own weather, hour by hour, from a file: EPW (the open EnergyPlus weather format) or a
 * plain CSV; both described in data/FORMATS.md. Nothing is guessed: a file with a gap, in the wrong
 * order, cut short or in another unit is refused with a sentence that names file, line, column,
 * value and what is accepted. */
#ifndef WB_HOURS_FILE_H
#define WB_HOURS_FILE_H

#include "weather.h"
#include <glib.h>

typedef struct WbHoursFile WbHoursFile; /* immutable, reference counted */

/* (transfer full), NULL and error. EPW where the first line begins with "LOCATION,". */
WbHoursFile *wb_hours_file_read(const char *path, GError **error);
/* `name` stands for the file in messages. length -1: NUL-terminated. */
WbHoursFile *wb_hours_file_parse(const char *text, gssize length, const char *name, GError **error);
WbHoursFile *wb_hours_file_ref(WbHoursFile *file);
void wb_hours_file_unref(WbHoursFile *file);
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbHoursFile, wb_hours_file_unref)

/* Borrowed, lives as long as the file: what WbSite.hours points at. utc_offset_h is WB_MISSING
 * where a CSV does not tell it. */
const WbHours *wb_hours_file_hours(const WbHoursFile *file);

/* Plain sentences (char *) about what was made of the file: days left out, figures it does not
 * give. Empty where it gave everything. Borrowed. */
const GPtrArray *wb_hours_file_notes(const WbHoursFile *file);

/* Does the file suit the place of the brief? FALSE and an error where an EPW was recorded more than
 * 3 degrees of arc away from it, or where the light of the file does not lie about the place's noon
 * within 45 minutes (another UTC offset, summer time, hours moved), or where more than 2 % of it
 * falls into hours when the place's sun is down (the other hemisphere, a place far away). */
gboolean wb_hours_file_check_place(const WbHoursFile *file, const WbPlace *place, GError **error);

#endif
