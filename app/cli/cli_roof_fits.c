/* The searches behind `roof`. */
#include "bay.h"
#include "cli_roof.h"
#include "roof_pins.h"
#include "roof_words.h"
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

double wb_cli_roof_load_kg(const WbRoofModel *model)
{
    return model->fit.most * (model->panel->part.weight_kg + model->panel->mount_kg);
}

int wb_cli_roof_load_most(const WbBrief *brief, const WbPanel *panel)
{
    /* Whole grams, as the rule on the roof's load counts them. */
    double one_g = round((panel->part.weight_kg + panel->mount_kg) * 1000);
    if (isnan(brief->roof.max_load_kg))
        return -1;
    double most = one_g > 0 ? floor(brief->roof.max_load_kg * 1000 / one_g) : WB_ROOF_PANELS_MOST;
    return (int)MIN(most, WB_ROOF_PANELS_MOST);
}

int64_t wb_cli_roof_top_mm(const WbBrief *brief, const WbPanel *panel)
{
    return brief->roof.standoff_mm + panel->thickness_mm;
}

/* A pin that does not stand on the free roof holds nothing, and is told. */
static WbStatus fit_around_pins(const WbRoofReport *report, WbRoofModel *model)
{
    const WbRoof *roof = &report->brief->roof;
    const WbPanel *panel = model->panel;
    int at_most = report->count > 0 ? report->count : WB_ROOF_PANELS_MOST;
    model->pinned = wb_roof_pinned(roof, panel, &model->n_pinned);
    if (model->n_pinned > 0) {
        WbStatus status = wb_roof_most_around(
            roof, panel->length_mm, panel->width_mm, model->pinned, model->n_pinned,
            MAX(at_most, model->n_pinned), report->nodes, NULL, &model->fit);
        if (status != WB_BAD_INPUT)
            return status;
        model->refused = wb_roof_refused_words(roof, panel);
        model->n_pinned = 0;
    }
    return wb_roof_most(roof, panel->length_mm, panel->width_mm, at_most, report->nodes, NULL,
                        &model->fit);
}

static int add_model(WbRoofReport *report, const WbPanel *panel)
{
    WbRoofModel model = {.panel = panel};
    gint64 begun_us = g_get_monotonic_time();
    WbStatus status = fit_around_pins(report, &model);
    model.time_ms = (double)(g_get_monotonic_time() - begun_us) / 1e3;
    if (status == WB_OK)
        status = wb_cli_roof_more(report, &model);
    model.layout_ok = wb_roof_layout_ok(&report->brief->roof, panel->length_mm, panel->width_mm,
                                        model.fit.layout, model.fit.most, NULL);
    g_array_append_val(report->models, model);
    return status == WB_OK ? WB_EXIT_DONE : wb_cli_fail_status(status);
}

int wb_cli_roof_models(WbRoofReport *report)
{
    int code = WB_EXIT_DONE;
    for (size_t i = 0; code == WB_EXIT_DONE && i < report->catalogue->n_panels; i++) {
        const WbPanel *panel = &report->catalogue->panels[i];
        if (report->panel != NULL ? strcmp(panel->part.id, report->panel) == 0
                                  : wb_brief_ticks(report->brief, panel->part.id))
            code = add_model(report, panel);
    }
    return code;
}

static int add_bay(WbRoofReport *report, const WbStorage *storage)
{
    WbBayModel model = {.storage = storage, .bound = WB_ROOF_PANELS_MOST};
    WbBox box = {storage->length_mm, storage->width_mm, storage->height_mm, storage->must_not_turn};
    WbStatus status = wb_bay_most(&report->brief->bay, &box, WB_ROOF_PANELS_MOST, report->nodes,
                                  NULL, NULL, &model.stand, &model.bound);
    g_array_append_val(report->bays, model);
    return status == WB_OK ? WB_EXIT_DONE : wb_cli_fail_status(status);
}

int wb_cli_roof_bays(WbRoofReport *report)
{
    const WbBay *bay = &report->brief->bay;
    if (bay->length_mm == 0 && bay->width_mm == 0 && bay->height_mm == 0)
        return WB_EXIT_DONE;
    int code = WB_EXIT_DONE;
    for (size_t i = 0; code == WB_EXIT_DONE && i < report->catalogue->n_storage; i++)
        if (wb_brief_ticks(report->brief, report->catalogue->storage[i].part.id))
            code = add_bay(report, &report->catalogue->storage[i]);
    return code;
}
