/* A brief as a file: the JSON document, immutable and reference counted, with the core WbBrief read
 * from it. Every edit gives a new brief file or an error; unknown members are kept;
 * write-read-write is byte-equal. */
#ifndef WB_BRIEF_FILE_H
#define WB_BRIEF_FILE_H

#include "brief.h"
#include "hours_file.h"
#include "not_read.h"
#include "part.h"
#include <glib.h>

typedef struct WbBriefFile WbBriefFile;

/* A valid new brief, as `wattberth brief --new` prints it. (transfer full) */
WbBriefFile *wb_brief_file_new(void);
/* The demo brief, built in. (transfer full) */
WbBriefFile *wb_brief_file_demo(void);
/* (transfer full), NULL and error */
WbBriefFile *wb_brief_file_read(const char *path, GError **error);
/* `name` stands for the file in messages. length -1: NUL-terminated. */
WbBriefFile *wb_brief_file_parse(const char *text, gssize length, const char *name, GError **error);
/* The same brief as the file at another path: messages name it, and the relative path of its hourly
 * file starts in its folder. (transfer full) */
WbBriefFile *wb_brief_file_at(const WbBriefFile *file, const char *path);
WbBriefFile *wb_brief_file_ref(WbBriefFile *file);
void wb_brief_file_unref(WbBriefFile *file);
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbBriefFile, wb_brief_file_unref)

/* (transfer full) the whole document, ends in a newline */
char *wb_brief_file_text(const WbBriefFile *file);
/* The text without these members, a NULL at the end: to tell whether two briefs differ elsewhere.
 * (transfer full) */
char *wb_brief_file_text_without(const WbBriefFile *file, const char *const *members);
/* Temporary beside the target, then rename: the old file survives any failure. */
gboolean wb_brief_file_write(const WbBriefFile *file, const char *path, GError **error);
/* The same document with one edit; NULL and error if the result is not a valid brief. Pointers are
 * JSON Pointers (RFC 6901). All (transfer full). */
/* Sets or adds a member, or replaces an array item, by a JSON text; missing parents are made. */
WbBriefFile *wb_brief_file_set(const WbBriefFile *file, const char *pointer, const char *json,
                               GError **error);
/* Inserts before the array item named; a last step "-" appends. */
WbBriefFile *wb_brief_file_insert(const WbBriefFile *file, const char *pointer, const char *json,
                                  GError **error);
WbBriefFile *wb_brief_file_remove(const WbBriefFile *file, const char *pointer, GError **error);
/* Array item `from` to index `to` of the same array. */
WbBriefFile *wb_brief_file_move(const WbBriefFile *file, const char *array_pointer, int from,
                                int to, GError **error);
/* JSON text at a JSON Pointer, NULL when absent. (transfer full) */
char *wb_brief_file_get(const WbBriefFile *file, const char *pointer);

/* Borrowed, lives as long as the file. Where the hourly file it names cannot be used, its site has
 * no hours: whoever reckons with the weather asks wb_brief_file_check_hours first. */
const WbBrief *wb_brief_file_brief(const WbBriefFile *file);

/* The hourly file the brief names: read when the brief is, and again by an edit once its path, time
 * or size has changed. All borrowed; NULL where it names none. */
const WbHoursFile *wb_brief_file_hours(const WbBriefFile *file); /* NULL too: cannot be used */
const char *wb_brief_file_hours_path(const WbBriefFile *file);   /* absolute */
/* Why it cannot be used: one sentence; NULL: it can, or there is none. */
const char *wb_brief_file_hours_problem(const WbBriefFile *file);
/* FALSE and that sentence with the brief and the member before it. */
gboolean wb_brief_file_check_hours(const WbBriefFile *file, GError **error);

/* Of WbNotRead, in the order of the file: members that are kept but mean nothing to this program,
 * such as misspelt ones. Borrowed. */
const GPtrArray *wb_brief_file_not_read(const WbBriefFile *file);

/* Part ids the brief names (candidates, owned, fixed offers) that the catalogue does not hold:
 * FALSE and an error that names the first with its JSON Pointer. */
gboolean wb_brief_file_check_parts(const WbBriefFile *file, const WbCatalogue *catalogue,
                                   GError **error);

#endif
