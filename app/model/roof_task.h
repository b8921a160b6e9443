/* One piece of work on the roof for the worker's thread: a snapshot to work on, and the answer. */
#ifndef WB_ROOF_TASK_H
#define WB_ROOF_TASK_H

#include "brief_file.h"
#include "database.h"
#include "fit_cache.h"
#include "roof_arrange.h"
#include "roof_change.h"
#include <glib.h>

typedef enum {
    WB_ROOF_TASK_FIT,
    WB_ROOF_TASK_ARRANGE,
    WB_ROOF_TASK_CHANGES,
    WB_ROOF_TASK_SHADE
} WbRoofTaskKind;

typedef struct {
    WbRoofTaskKind kind;
    WbBriefFile *file;
    WbCatalogueView *view;
    const WbPanel *panel; /* of the view */
    WbFitCache *fits;     /* counted, may be NULL: where the asker keeps fit answers */
    guint index;          /* the asker's own */
    uint64_t nodes;       /* budget */
    WbRect *layout;       /* all but FIT; ARRANGE: answered in place */
    int n, n_pinned;
    WbStatus status;
    WbRoofFit fit;
    WbRoofChange change[WB_ROOF_CHANGES];
    int n_changes;
    double shade[12], *shade_by_panel;
} WbRoofTask;

/* Copies the layout of n rectangles. */
WbRoofTask *wb_roof_task_new(WbRoofTaskKind kind, WbBriefFile *file, WbCatalogueView *view,
                             const WbPanel *panel, const WbRect *layout, int n);
void wb_roof_task_run(gpointer task, WbControl *control);
void wb_roof_task_free(gpointer task);

#endif
