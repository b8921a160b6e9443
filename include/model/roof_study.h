/* What fits the document's roof as it is now, of every ticked panel model, worked out on a thread
 * of its own: the most that fit, then the layout put in order, the change that would let one more
 * in, and the sun the roof's own things take. A change of the roof stops the work, drops every
 * answer and begins anew, so that no answer is shown for another roof; other edits keep what still
 * holds. It works only while awake. Main thread only.
 *
 * Signal "changed": an answer came, or answers were dropped; several within a moment are one. */
#ifndef WB_ROOF_STUDY_H
#define WB_ROOF_STUDY_H

#include "document.h"
#include "roof_arrange.h"
#include "roof_change.h"

#define WB_STUDY_MOST 400      /* panels looked for */
#define WB_STUDY_REACH_MM 1000 /* how far an obstacle is moved on trial */

typedef struct {
    const WbPanel *panel;
    gboolean known; /* fit holds for the roof as it is now */
    char *refused;  /* why there is no fit: one sentence, e.g. of pins that stand wrong */
    WbRoofFit fit;  /* pinned ones first; put in order once `arranged` */
    int n_pinned;
    gboolean arranged, changes_known, shade_known;
    WbRoofChange change[WB_ROOF_CHANGES]; /* of the roof as it is */
    int n_changes;
    double shade[12];       /* share of direct light lost, 0..1, by month */
    double *shade_by_panel; /* over the year, one for each of the layout; NULL: no answer came */
    uint64_t nodes;         /* spent on the fit so far */
} WbStudyPanel;

#define WB_TYPE_ROOF_STUDY (wb_roof_study_get_type())
G_DECLARE_FINAL_TYPE(WbRoofStudy, wb_roof_study, WB, ROOF_STUDY, GObject)

/* Asleep at first. Keeps a reference to the document. */
WbRoofStudy *wb_roof_study_new(WbDocument *document);
void wb_roof_study_set_awake(WbRoofStudy *self, gboolean awake);
/* TRUE: everything asked for is answered. */
gboolean wb_roof_study_is_done(WbRoofStudy *self);

/* Ticked panel models in the order of their ids; borrowed, valid until the next "changed". */
gsize wb_roof_study_get_n(WbRoofStudy *self);
const WbStudyPanel *wb_roof_study_get(WbRoofStudy *self, gsize index);
/* -1: it is not ticked. */
int wb_roof_study_find(WbRoofStudy *self, const char *part_id);
/* Changes and shade of this one are worked out before those of the others; NULL: of none first. */
void wb_roof_study_look_at(WbRoofStudy *self, const char *part_id);

/* Goes on with a question that is not decided, in rounds of growing budgets, until it is decided or
 * stopped. What was found on the way is kept. */
void wb_roof_study_search_on(WbRoofStudy *self, const char *part_id);
void wb_roof_study_stop_search(WbRoofStudy *self);
/* Id of the panel searched on; NULL: none. */
const char *wb_roof_study_get_searched(WbRoofStudy *self);

#endif
