/* What the model's tests share: a catalogue, a document, bounded waiting, and a mirror of a list
 * that is fed by items-changed alone. */
#ifndef WB_TEST_RIG_H
#define WB_TEST_RIG_H

#include "brief_file.h"
#include "database.h"
#include "document.h"
#include <gio/gio.h>

/* The starting catalogue, in memory. (transfer full) */
WbCatalogueView *rig_view(void);
/* On the starting catalogue. (transfer full) */
WbDocument *rig_document(void);
/* (transfer full) the whole brief as text */
char *rig_text(WbDocument *document);
/* Turns the main loop until *flag is set; fails after a minute. */
void rig_wait(const gboolean *flag);
/* Turns the main loop for at most this long, until nothing is pending. */
void rig_settle(guint ms);
/* A path in a fresh folder, which rig_scratch_end removes with all in it. */
char *rig_scratch(const char *name);
void rig_scratch_end(void);

typedef struct {
    GListModel *model;
    GPtrArray *items;
    guint changes;
    gulong handler;
} RigMirror;

void rig_mirror_begin(RigMirror *mirror, GListModel *model);
/* The mirror holds what the model holds. */
void rig_mirror_check(RigMirror *mirror);
void rig_mirror_end(RigMirror *mirror);

#endif
