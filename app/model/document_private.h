/* The inside of WbDocument, shared by document.c (state, edits) and document_files.c. */
#ifndef WB_DOCUMENT_PRIVATE_H
#define WB_DOCUMENT_PRIVATE_H

#include "database.h"
#include "document.h"
#include "fit_cache.h"
#include "history.h"
#include "sun_cache.h"

/* How a file on disk looked when it was last read or written, to notice others' changes. */
typedef struct {
    gint64 modified_ns, size;
    gboolean known;
} WbFileStamp;

struct _WbDocument {
    GObject parent_instance;
    WbBriefFile *file;
    WbBriefFile *saved; /* the state on disk, or as begun */
    WbCatalogueView *view;
    WbFitCache *fits;
    WbSunCache *suns;
    WbHistory history;
    guint64 revision;
    char *path;
    WbFileStamp stamp;
    char *save_error;
    guint merge_ms, autosave_ms;
    guint autosave_source;
};

/* Takes over a state (adds a reference) and tells everyone. */
void wb_document_adopt(WbDocument *self, WbBriefFile *file);
/* Another brief altogether: no history, no autosave pending. path NULL: never saved. */
void wb_document_replace(WbDocument *self, WbBriefFile *file, const char *path);
void wb_document_notify_state(WbDocument *self);
void wb_document_schedule_autosave(WbDocument *self);

#endif
