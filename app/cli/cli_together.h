/* Panels of more than one kind, worked out together: what `together` prints. */
#ifndef WB_CLI_TOGETHER_H
#define WB_CLI_TOGETHER_H

#include "mismatch.h"
#include <glib.h>

/* One argument: `run.n` alike panels in series. */
typedef struct {
    WbPanelRun run;
    WbPeak own; /* of one panel alone */
} WbTogetherRun;

typedef struct {
    GArray *runs; /* of WbTogetherRun */
    double apart_w;
    gboolean tell_series, tell_parallel;
    WbPeak series, parallel; /* both known, whichever is told */
} WbTogether;

/* Share of the watts lost at a common point, 0..1. */
double wb_together_lost(const WbTogether *together, const WbPeak *peak);

/* What the common current, or voltage, means, in one sentence. (transfer full) */
char *wb_together_series_sentence(const WbTogether *together);
char *wb_together_parallel_sentence(const WbTogether *together);

/* Sentences (char *) on what the makers allow and what the figures rest on. (transfer full) */
GPtrArray *wb_together_cautions(const WbTogether *together);

/* Highest open-circuit voltage at a temperature: of the string of all runs, or of the runs side by
 * side. *assumed as in wb_cold_voc_v. */
double wb_together_series_voc_v(const WbTogether *together, double cold_c, guint32 *assumed);
double wb_together_parallel_voc_v(const WbTogether *together, double cold_c, guint32 *assumed);
/* The temperatures they are told for, C, falling. */
#define WB_TOGETHER_COLDS 4
extern const double wb_together_cold_c[WB_TOGETHER_COLDS];

/* 1.25 x the short-circuit current of all other strings: what they can drive into a faulty run;
 * of all strings where there is no such run. */
double wb_together_back_a(const WbTogether *together, guint run);

/* The whole answer. (transfer full) */
char *wb_together_text(const WbTogether *together);
char *wb_together_json(const WbTogether *together);

#endif
