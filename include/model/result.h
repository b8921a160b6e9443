/* What one run of the ranking found: immutable, reference counted, may be read by any thread. It
 * keeps the brief and the catalogue it was made of alive. */
#ifndef WB_RESULT_H
#define WB_RESULT_H

#include "kit.h"
#include "rank.h"
#include <glib.h>

typedef struct WbResult WbResult;
typedef struct WbBriefFile WbBriefFile;
typedef struct WbCatalogueView WbCatalogueView;

/* The whole run: problem, then ranking. NULL: stopped (no error set) or failed (error set).
 * Takes its own references. Called on the worker thread; tests may call it directly. */
WbResult *wb_result_make(WbBriefFile *file, WbCatalogueView *view, const WbRankOptions *options,
                         WbControl *control, GError **error);
/* An answer soon: ranked without the dark hours, but for the rows in sight; from the pool of the
 * last result (NULL: none) where only weights, anchors or the front are others. rows: of the list;
 * 0: as many as usual. */
WbResult *wb_result_make_soon(WbBriefFile *file, WbCatalogueView *view, gsize rows, WbResult *last,
                              const WbCaches *caches, WbControl *control, GError **error);
/* All of what another result began, or its list with more rows. */
WbResult *wb_result_make_whole(WbResult *soon, gsize rows, WbControl *control, GError **error);
WbResult *wb_result_ref(WbResult *result);
void wb_result_unref(WbResult *result);
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbResult, wb_result_unref)

/* Borrowed, live as long as the result. */
const WbProblem *wb_result_get_problem(const WbResult *result);
const WbRanking *wb_result_get_ranking(const WbResult *result);
const WbBrief *wb_result_get_brief(const WbResult *result);
const WbCatalogue *wb_result_get_catalogue(const WbResult *result);
/* FALSE: dark hours are still to come: the limit on them may yet rule kits out. */
gboolean wb_result_is_whole(const WbResult *result);
double wb_result_get_seconds(const WbResult *result);
/* Why nothing works where no rule alone is to blame, and the rule of the first limit to think of
 * (NULL: not asked for). NULL: something works, or one rule tells it. */
const char *wb_result_get_clash(const WbResult *result, WbRule *rule);
/* Its first sentence. */
const char *wb_result_get_clash_head(const WbResult *result);
/* wb_words_firm of the ranking; NULL: not known. */
const char *wb_result_get_firm(const WbResult *result);
/* The same for the first kit, wb_words_firm_share for those first at other weights; else NULL. */
const char *wb_result_get_firm_of(const WbResult *result, const WbKit *kit);
/* wb_words_nearest of a rule; NULL: none. */
const char *wb_result_get_nearest(const WbResult *result, WbRule rule);

/* Judges the kit of this id, or the best kit where the id is NULL, "" or names none of this
 * problem. FALSE: there is no kit at all. */
gboolean wb_result_judge(const WbResult *result, const char *kit_id, WbVerdict *verdict);
/* Text id of the kit that wb_result_judge would take. FALSE: there is none. */
gboolean wb_result_kit_id(const WbResult *result, const char *kit_id, char text[WB_KIT_ID]);

#endif
