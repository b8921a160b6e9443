/* Which panels lie on the brief's roof and which batteries stand in its bay: what `roof` prints. */
#ifndef WB_CLI_ROOF_H
#define WB_CLI_ROOF_H

#include "cli_job.h"
#include "cli_json.h"
#include "cli_roof_more.h"
#include "roof.h"
#include <glib.h>

/* Far beyond the roofs the tool is for; an answer that reaches it says "at least". */
#define WB_ROOF_PANELS_MOST 400

typedef struct {
    const WbPanel *panel;
    WbRect *pinned; /* of this panel, by the brief */
    int n_pinned;   /* first in the layout */
    char *refused;  /* why its pins hold nothing; NULL: they do, or there are none */
    WbRoofFit fit;
    double time_ms;
    bool layout_ok; /* by the independent checker */
    WbRoofMore more;
} WbRoofModel;

typedef struct {
    const WbStorage *storage;
    int stand, bound; /* so many stand; more than bound do not */
} WbBayModel;

typedef struct WbRoofMixes WbRoofMixes; /* cli_roof_mix.h */

typedef struct {
    const WbBriefFile *file;
    const WbBrief *brief;
    const WbCatalogue *catalogue;
    uint64_t nodes;     /* budget of one search */
    const char *panel;  /* --panel ID: this one in full; NULL: all ticked ones */
    int count;          /* --count N: do so many of it fit? 0: not asked, as many as fit */
    bool full;          /* arrangement, proof and shade are wanted too */
    GArray *models;     /* of WbRoofModel, in the order of their ids */
    GArray *bays;       /* of WbBayModel, in the order of their ids; none where there is no bay */
    WbRoofMixes *mixes; /* --mix; else NULL */
} WbRoofReport;

/* Fills the models, or the bays; a failure has been told. Return a WbExit. */
int wb_cli_roof_models(WbRoofReport *report);
int wb_cli_roof_bays(WbRoofReport *report);

/* Fills report->mixes, to be freed whatever the answer. Returns a WbExit; a failure was told. */
int wb_cli_roof_mixes(WbRoofReport *report);
void wb_cli_roof_mixes_free(WbRoofMixes *mixes);
/* The rest of one model, asked of a fit that is known. */
WbStatus wb_cli_roof_more(const WbRoofReport *report, WbRoofModel *model);
/* Budget of one model's changes. */
uint64_t wb_cli_roof_change_nodes(const WbRoofReport *report);

/* Of all panels with their mounts, kg. */
double wb_cli_roof_load_kg(const WbRoofModel *model);
/* How many of them the brief's load limit carries; -1: there is no limit. */
int wb_cli_roof_load_most(const WbBrief *brief, const WbPanel *panel);

/* Of a panel's top over the roof. */
int64_t wb_cli_roof_top_mm(const WbBrief *brief, const WbPanel *panel);

/* Why no panel can lie on the roof, whatever its size, in one sentence; NULL: it has room.
 * (transfer full) */
char *wb_cli_roof_nothing_left(const WbRoof *roof);
/* What belongs beside the figures: sentences (char *). (transfer full) */
GPtrArray *wb_cli_roof_cautions(const WbBrief *brief);

/* "fits", "does-not-fit", "within-1-mm" or "not-decided", of so many as were asked for. */
const char *wb_cli_roof_count_code(const WbRoofReport *report, const WbRoofModel *model);
/* The same as a sentence. (transfer full) */
char *wb_cli_roof_count_words(const WbRoofReport *report, const WbRoofModel *model);

/* One panel in full. */
void wb_cli_roof_one_text(GString *out, const WbRoofReport *report, const WbRoofModel *model);

/* "proved" where its checker has passed a proof of the bound, "searched" where it was searched
 * through without one that can be shown; else "within-1-mm", "not-decided" or "at-least". */
const char *wb_cli_roof_answer_code(const WbRoofFit *fit, bool proof_ok);
/* What is known of a model beside its count and layout. */
void wb_cli_roof_more_json(WbJsonOut *json, const WbRoofReport *report, const WbRoofModel *model);
/* Rectangles as an array under `key`. */
void wb_cli_rects_json(WbJsonOut *json, const char *key, const WbRect *rects, int n);

/* The whole answer. (transfer full) */
char *wb_cli_roof_text(const WbRoofReport *report);
char *wb_cli_roof_json(const WbRoofReport *report);

#endif
