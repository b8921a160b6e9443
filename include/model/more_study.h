/* What more money, weight or roof would buy of the last ranking: the curves, worked out one at a
 * time on a thread of their own and kept until another ranking comes. While the new one is worked
 * out the old stays, marked stale. It works only while awake. Main thread only.
 *
 * Signal "changed": a curve came, or what is said of it is another. */
#ifndef WB_MORE_STUDY_H
#define WB_MORE_STUDY_H

#include "curve.h"
#include "result.h"
#include <glib-object.h>

typedef enum {
    WB_MORE_NOTHING, /* no ranking yet, or asleep */
    WB_MORE_RUNNING,
    WB_MORE_THERE,
    WB_MORE_STOPPED,  /* on request */
    WB_MORE_TOO_MANY, /* more kits work than are kept */
    WB_MORE_FAILED,   /* no memory */
} WbMoreState;

#define WB_TYPE_MORE_STUDY (wb_more_study_get_type())
G_DECLARE_FINAL_TYPE(WbMoreStudy, wb_more_study, WB, MORE_STUDY, GObject)

/* Asleep at first; asks for the most usable capacity for money. */
WbMoreStudy *wb_more_study_new(void);
void wb_more_study_set_awake(WbMoreStudy *self, gboolean awake);
/* NULL: there is none. Dark hours are asked only of a whole one. */
void wb_more_study_set_result(WbMoreStudy *self, WbResult *result);
/* Indices into wb_curve_resource and wb_curve_gain. */
void wb_more_study_ask(WbMoreStudy *self, guint resource, guint gain);
void wb_more_study_stop(WbMoreStudy *self);
void wb_more_study_go_on(WbMoreStudy *self); /* after a stop */

WbMoreState wb_more_study_get_state(WbMoreStudy *self);
double wb_more_study_get_progress(WbMoreStudy *self); /* 0..1, negative while unknown */
/* The curve asked for and the result it is of; borrowed until "changed". NULL: none came yet. */
const WbMoreCurve *wb_more_study_get(WbMoreStudy *self, WbResult **of);
/* Is it of an older ranking? */
gboolean wb_more_study_is_stale(WbMoreStudy *self);

#endif
