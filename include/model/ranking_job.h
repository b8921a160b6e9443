/* Keeps the ranking of a document up to date on a worker thread of its own. Every change of the
 * document that a ranking depends on (not the notes, not the kit kept) stops the running work and
 * starts anew with a snapshot; an answer to an older snapshot is dropped. A first answer comes
 * soon, without the dark hours (wb_result_is_whole), the whole one behind it. While work runs, and
 * after it was stopped or failed, the last result stays, marked stale.
 *
 * Properties, read-only: "state" (WbJobState as int), "stale" (boolean), "progress" (double 0..1,
 * negative while unknown), "message" (why it failed, NULL). Signal: "result" (a new result is
 * there). Main thread only. */
#ifndef WB_RANKING_JOB_H
#define WB_RANKING_JOB_H

#include "document.h"
#include "result.h"

typedef enum { WB_JOB_IDLE, WB_JOB_RUNNING, WB_JOB_STOPPED, WB_JOB_FAILED } WbJobState;

#define WB_TYPE_RANKING_JOB (wb_ranking_job_get_type())
G_DECLARE_FINAL_TYPE(WbRankingJob, wb_ranking_job, WB, RANKING_JOB, GObject)

/* Starts at once. Keeps a reference to the document. */
WbRankingJob *wb_ranking_job_new(WbDocument *document);
/* Borrowed; NULL until the first answer. */
WbResult *wb_ranking_job_get_result(WbRankingJob *self);
WbJobState wb_ranking_job_get_state(WbRankingJob *self);
gboolean wb_ranking_job_get_stale(WbRankingJob *self);
double wb_ranking_job_get_progress(WbRankingJob *self);
const char *wb_ranking_job_get_message(WbRankingJob *self);
/* Ends the running work; the next change of the document, or a restart, begins anew. */
/* How many rows the list of a result has at most; 0: as usual. */
void wb_ranking_job_set_rows(WbRankingJob *self, gsize rows);
void wb_ranking_job_stop(WbRankingJob *self);
void wb_ranking_job_restart(WbRankingJob *self);

#endif
