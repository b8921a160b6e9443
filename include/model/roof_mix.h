/* The best mixes of two or three panel models on the document's roof as it is now, worked out on a
 * thread of its own once asked. A change of the roof, of the models or of their prices drops the
 * answer and asks anew. Main thread only. Signal "changed". */
#ifndef WB_ROOF_MIX_H
#define WB_ROOF_MIX_H

#include "document.h"
#include "mix.h"

#define WB_MIX_MOST 60 /* panels of a mix */

typedef enum {
    WB_ROOF_MIX_NONE, /* fewer than two ticked models are chosen */
    WB_ROOF_MIX_RUNNING,
    WB_ROOF_MIX_DONE,
    WB_ROOF_MIX_STOPPED,
    WB_ROOF_MIX_FAILED,
} WbRoofMixState;

#define WB_TYPE_ROOF_MIX (wb_roof_mix_get_type())
G_DECLARE_FINAL_TYPE(WbRoofMix, wb_roof_mix, WB, ROOF_MIX, GObject)

/* Asleep at first. Keeps a reference to the document. */
WbRoofMix *wb_roof_mix_new(WbDocument *document);
void wb_roof_mix_set_awake(WbRoofMix *self, gboolean awake);
/* Chooses a model or lets go of it. FALSE: three are chosen already. */
gboolean wb_roof_mix_choose(WbRoofMix *self, const char *part_id, gboolean chosen);
gboolean wb_roof_mix_is_chosen(WbRoofMix *self, const char *part_id);
/* The chosen models that are ticked, in the order of their ids; borrowed until "changed". */
gsize wb_roof_mix_get_n_models(WbRoofMix *self);
const WbPanel *wb_roof_mix_get_model(WbRoofMix *self, gsize index);

WbRoofMixState wb_roof_mix_get_state(WbRoofMix *self);
const char *wb_roof_mix_get_message(WbRoofMix *self); /* FAILED: a sentence */
void wb_roof_mix_stop(WbRoofMix *self);
/* After a stop; or with a budget eight times larger where something was not decided. */
void wb_roof_mix_go_on(WbRoofMix *self);
/* Most watts first; borrowed until "changed". */
const WbMixBest *wb_roof_mix_get_best(WbRoofMix *self, gsize *n, int *undecided);

#endif
