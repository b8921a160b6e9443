/* The open brief as one source of truth: an immutable brief file and catalogue view, edited only by
 * named commands that can be undone. Main thread only.
 *
 * An edit the store refuses changes nothing, returns FALSE and sets a sentence for an inline
 * message. Consecutive sets of one pointer within the merge time are one undo step (a slider drag);
 * wb_document_seal ends such a run.
 *
 * Signals: "changed" (after any change of brief or catalogue), "replaced" (another brief was
 * opened or begun; before its "changed"). Properties, all read-only: "title", "path",
 * "modified", "can-undo", "can-redo", "undo-label", "redo-label", "save-error" (the sentence of
 * the last failed autosave, NULL when saved). */
#ifndef WB_DOCUMENT_H
#define WB_DOCUMENT_H

#include "brief.h"
#include "part.h"
#include <glib-object.h>

typedef struct WbBriefFile WbBriefFile;
typedef struct WbCatalogueView WbCatalogueView;
typedef struct WbFitCache WbFitCache;
typedef struct WbSunCache WbSunCache;

#define WB_TYPE_DOCUMENT (wb_document_get_type())
G_DECLARE_FINAL_TYPE(WbDocument, wb_document, WB, DOCUMENT, GObject)

/* Begins with a new brief. Takes its own reference to the view. */
WbDocument *wb_document_new(WbCatalogueView *view);

/* All borrowed, valid until the next "changed"; keep longer by reference. */
WbBriefFile *wb_document_get_file(WbDocument *self);
const WbBrief *wb_document_get_brief(WbDocument *self);
WbCatalogueView *wb_document_get_view(WbDocument *self);
const WbCatalogue *wb_document_get_catalogue(WbDocument *self);
/* Fit answers kept over all edits and undo steps, for everyone who asks about this document's roof
 * and bay; tasks of other threads hold a reference. NULL: no memory, nothing is kept. */
WbFitCache *wb_document_get_fits(WbDocument *self);
/* The same for the weather on the panels. */
WbSunCache *wb_document_get_suns(WbDocument *self);
/* Grows with every change of brief or catalogue. */
guint64 wb_document_get_revision(WbDocument *self);
/* The catalogue was edited: takes over the new view, emits "changed". Not an undo step. */
void wb_document_set_view(WbDocument *self, WbCatalogueView *view);

/* Edits. `label` names the step for undo ("Change watts"); pointers are JSON Pointers. */
gboolean wb_document_set_json(WbDocument *self, const char *label, const char *pointer,
                              const char *json, GError **error);
gboolean wb_document_set_number(WbDocument *self, const char *label, const char *pointer,
                                double value, GError **error);
gboolean wb_document_set_text(WbDocument *self, const char *label, const char *pointer,
                              const char *text, GError **error);
gboolean wb_document_set_flag(WbDocument *self, const char *label, const char *pointer, gboolean on,
                              GError **error);
/* Before the array item named; a last step "-" appends. */
gboolean wb_document_insert(WbDocument *self, const char *label, const char *pointer,
                            const char *json, GError **error);
gboolean wb_document_remove(WbDocument *self, const char *label, const char *pointer,
                            GError **error);
gboolean wb_document_move(WbDocument *self, const char *label, const char *array_pointer, int from,
                          int to, GError **error);

typedef enum { WB_EDIT_SET, WB_EDIT_INSERT, WB_EDIT_REMOVE } WbEditKind;
typedef struct {
    WbEditKind kind;
    const char *pointer;
    const char *json; /* NULL for a removal */
} WbEdit;
/* Several edits in order as one undo step; all or nothing. */
gboolean wb_document_apply(WbDocument *self, const char *label, const WbEdit *edits, gsize n,
                           GError **error);
/* The same; steps in a row with the same `run` merge, as edits of one pointer do. NULL: no run. */
gboolean wb_document_apply_run(WbDocument *self, const char *label, const char *run,
                               const WbEdit *edits, gsize n, GError **error);

/* JSON text at a pointer, NULL when absent. (transfer full) */
char *wb_document_get_json(WbDocument *self, const char *pointer);

void wb_document_seal(WbDocument *self);
void wb_document_set_merge_ms(WbDocument *self, guint ms);    /* 1,000; 0: never merge by itself */
void wb_document_set_autosave_ms(WbDocument *self, guint ms); /* 800; 0: no autosave */

gboolean wb_document_undo(WbDocument *self); /* FALSE: nothing to undo */
gboolean wb_document_redo(WbDocument *self);
gboolean wb_document_can_undo(WbDocument *self);
gboolean wb_document_can_redo(WbDocument *self);
const char *wb_document_get_undo_label(WbDocument *self); /* NULL: nothing to undo */
const char *wb_document_get_redo_label(WbDocument *self);

/* Files. On failure the document is as it was. Opening waits for no autosave: what is unsaved and
 * has a path is saved first, and a failure to do so is the failure of the opening. */
gboolean wb_document_begin_new(WbDocument *self, GError **error);
gboolean wb_document_begin_demo(WbDocument *self, GError **error);
gboolean wb_document_open(WbDocument *self, const char *path, GError **error);
gboolean wb_document_save(WbDocument *self, GError **error); /* needs a path */
/* Into another folder: an hourly file the brief names stays the same, by its whole path. */
gboolean wb_document_save_as(WbDocument *self, const char *path, GError **error);
const char *wb_document_get_path(WbDocument *self); /* NULL: never saved */
/* Where the brief's relative paths start: its folder, or the current one while it was never saved.
 * Absolute. (transfer full) */
char *wb_document_get_folder(WbDocument *self);
const char *wb_document_get_title(WbDocument *self); /* the brief's name */
gboolean wb_document_get_modified(WbDocument *self);
/* One sentence on the members of the brief that are kept but not read, such as misspelt ones; NULL:
 * none. (transfer full) */
char *wb_document_not_read(WbDocument *self);

/* Candidates: unticking one of "all" makes the list explicit; ticking the last missing one makes it
 * "all" again. */
gboolean wb_document_tick(WbDocument *self, const char *part_id, gboolean ticked, GError **error);
/* Every part of a kind at once. */
gboolean wb_document_tick_kind(WbDocument *self, WbPartKind kind, gboolean ticked, GError **error);
/* Does the catalogue hold every part and shop the brief names? The sentence names the first that is
 * missing; the ranking goes on without it. */
gboolean wb_document_check_parts(WbDocument *self, GError **error);

#endif
