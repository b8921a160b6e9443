#include "cli_roof_more.h"
#include "cli_roof.h"
#include "roof_study.h"
#include <string.h>

/* What one model of a whole catalogue may spend on its changes: a part of what it may when it is
 * asked for alone, so that the table comes at once on slanted roofs too. */
#define CHANGES_SHARE 32

void wb_cli_roof_more_free(WbRoofMore *more)
{
    if (more->has_proof)
        wb_roof_proof_free(&more->proof);
    wb_roof_changes_free(more->change, more->n_changes);
    g_free(more->shade_by_panel);
    *more = (WbRoofMore){0};
}

uint64_t wb_cli_roof_change_nodes(const WbRoofReport *report)
{
    return report->panel != NULL ? report->nodes : MAX(report->nodes / CHANGES_SHARE, 1);
}

/* Only of what is decided and not pinned: else a layout of one more may need no change. */
static WbStatus find_changes(const WbRoofReport *report, WbRoofModel *model)
{
    WbRoofMore *more = &model->more;
    int wanted = report->count > 0 ? report->count : model->fit.most + 1;
    if (model->n_pinned > 0 || model->fit.most >= model->fit.at_most ||
        wb_roof_answer(&model->fit, wanted) == WB_FIT_UNDECIDED)
        return WB_OK;
    WbStatus status = wb_roof_changes(
        &report->brief->roof, model->panel->length_mm, model->panel->width_mm, wanted,
        WB_STUDY_REACH_MM, wb_cli_roof_change_nodes(report), NULL, more->change, &more->n_changes);
    more->has_changes = status == WB_OK;
    return status;
}

static WbStatus put_in_order(const WbRoofReport *report, WbRoofModel *model)
{
    const WbRoof *roof = &report->brief->roof;
    const WbPanel *panel = model->panel;
    WbStatus status = wb_roof_arrange(roof, panel->length_mm, panel->width_mm, model->fit.layout,
                                      model->fit.most, model->n_pinned, NULL);
    model->more.arranged = status == WB_OK;
    wb_roof_arrangement(roof, model->fit.layout, model->fit.most, &model->more.order);
    return status;
}

/* The roof with the pinned panels as things that stand on it; a panel keeps the gap to them. */
static WbObstacle *with_pinned(const WbRoofModel *model, WbRoof *roof)
{
    gsize n = roof->n_obstacles;
    WbObstacle *all = g_new0(WbObstacle, n + (gsize)model->n_pinned + 1);
    if (n > 0)
        memcpy(all, roof->obstacles, n * sizeof *all);
    for (int i = 0; i < model->n_pinned; i++) {
        const WbRect *pinned = &model->pinned[i];
        all[n++] = (WbObstacle){.name = "",
                                .x_mm = pinned->x_mm,
                                .y_mm = pinned->y_mm,
                                .length_mm = pinned->length_mm,
                                .width_mm = pinned->width_mm,
                                .clearance_mm = roof->gap_mm};
    }
    roof->obstacles = all;
    roof->n_obstacles = n;
    return all;
}

static WbStatus find_proof(const WbRoofReport *report, WbRoofModel *model)
{
    WbRoof roof = report->brief->roof;
    WbRoofMore *more = &model->more;
    const WbPanel *panel = model->panel;
    if (model->fit.bound >= model->fit.at_most)
        return WB_OK;
    g_autofree WbObstacle *all = with_pinned(model, &roof);
    WbStatus status =
        wb_roof_prove(&roof, panel->length_mm, panel->width_mm,
                      model->fit.bound + 1 - model->n_pinned, report->nodes, NULL, &more->proof);
    more->has_proof = status == WB_OK;
    if (more->has_proof)
        more->proof_ok = wb_roof_proof_ok(&roof, panel->length_mm, panel->width_mm, &more->proof,
                                          &more->proof_why);
    return status == WB_BUDGET ? WB_OK : status;
}

static bool stands_tall(const WbRoof *roof)
{
    for (size_t i = 0; i < roof->n_obstacles; i++)
        if (roof->obstacles[i].kind == WB_OBSTACLE_STANDS &&
            roof->obstacles[i].height_mm > roof->standoff_mm)
            return true;
    return false;
}

static WbStatus find_shade(const WbRoofReport *report, WbRoofModel *model)
{
    const WbBrief *brief = report->brief;
    WbRoofMore *more = &model->more;
    if (!stands_tall(&brief->roof) || model->fit.most == 0)
        return WB_OK;
    g_autofree double *by_panel = g_new0(double, model->fit.most);
    WbStatus status = wb_roof_shade(&brief->roof, &brief->site, model->fit.layout, model->fit.most,
                                    NULL, more->shade, by_panel);
    more->has_shade = status == WB_OK;
    if (more->has_shade)
        more->shade_by_panel = g_steal_pointer(&by_panel);
    return status;
}

WbStatus wb_cli_roof_more(const WbRoofReport *report, WbRoofModel *model)
{
    WbStatus status = find_changes(report, model);
    if (!report->full)
        return status;
    if (status == WB_OK)
        status = put_in_order(report, model);
    if (status == WB_OK)
        status = find_proof(report, model);
    return status == WB_OK ? find_shade(report, model) : status;
}
