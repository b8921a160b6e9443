/* Why is one part in no kit on the list? The answer in sentences, with the kits they speak of. */
#ifndef WB_PART_ANSWER_H
#define WB_PART_ANSWER_H

#include "part_why.h"
#include "result.h"
#include "wire_why.h"
#include <gio/gio.h>

typedef enum {
    WB_ANSWER_NOT_TICKED,
    WB_ANSWER_KITS,      /* a candidate: what became of the kits that hold it */
    WB_ANSWER_CIRCUITS,  /* a conductor, fuse or fitting: in which circuits of a kit it is */
    WB_ANSWER_LEFT_OUT,  /* one of these that cannot be bought, or is of a size the brief leaves out
                          */
    WB_ANSWER_NO_WIRING, /* one of these, and the brief has the wiring off or no kit works */
} WbAnswerState;

typedef struct {
    char *text;
    char *kit_id, *kit_words; /* the kit it speaks of; NULL: none */
} WbAnswerLine;

typedef struct {
    WbAnswerState state;
    WbPartKind kind;
    char *part_id, *title; /* maker and model */
    char *headline;        /* the answer in a sentence or two */
    WbAnswerLine *line;
    gsize n;
    WbPartWhy why; /* WB_ANSWER_KITS */
    /* WB_ANSWER_CIRCUITS */
    WbKit kit;
    WbWiring wiring;
    WbWirePlace *place;
    gsize n_places;
} WbPartAnswer;

/* The id a person may have meant, NULL: none is near. (borrowed) */
const char *wb_part_near(const WbCatalogue *catalogue, const char *text);

/* kit: whose circuits are asked about, NULL: the best. `ranking` is of this problem and proved.
 * NULL with an error: no such part, or no memory; without: stopped. Takes as long as a ranking of
 * the kits that hold the part. */
WbPartAnswer *wb_part_answer_new(const WbProblem *problem, const WbRanking *ranking,
                                 const char *part_id, const WbKit *kit, WbControl *control,
                                 GError **error);
void wb_part_answer_free(WbPartAnswer *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbPartAnswer, wb_part_answer_free)

/* The same on a thread of the pool; keeps a reference to the result meanwhile. Cancelling stops the
 * work. kit_id as wb_result_judge takes it. */
void wb_part_answer_ask(WbResult *result, const char *part_id, const char *kit_id,
                        GCancellable *cancellable, GAsyncReadyCallback done, gpointer data);
WbPartAnswer *wb_part_answer_ask_finish(GAsyncResult *answer, GError **error);

#endif
