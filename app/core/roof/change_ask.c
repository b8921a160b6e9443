#include "change_ask.h"
#include "one_more.h"
#include "plain_roof.h"
#include <stdlib.h>

/* Making the grid of n obstacles costs about n^2 / this many nodes. */
enum { OBSTACLES_2_OF_A_NODE = 4096 };
/* Beside slants and circles the staircases cost about so many times the nodes. */
enum { STEPS_COST = 3 };
enum { KNOWN_MAX = 1 << 16, LOOK_NODES = 8, LOOK_NODES_BARE = 256 };

static void pay(WbAsker *asker, const WbRoof *roof, uint64_t nodes)
{
    nodes *= wb_roof_needs_steps(roof) ? STEPS_COST : 1;
    nodes += 1 + roof->n_obstacles * roof->n_obstacles / OBSTACLES_2_OF_A_NODE;
    asker->left -= nodes < asker->left ? nodes : asker->left;
}

/* Corners and areas. One panel less counts as known to lie, so that nothing is spent on a layout of
 * so many; its rectangles are never looked at. */
static WbStatus look(const WbAsker *asker, const WbRoof *plain, uint64_t nodes, WbRoofFit *fit)
{
    int n_known = asker->n_panels <= KNOWN_MAX ? asker->n_panels - 1 : 0;
    WbRect *known = calloc((size_t)n_known + 1, sizeof *known);
    if (!known)
        return WB_NO_MEMORY;
    WbStatus status = wb_plain_most(plain, asker->panel_length_mm, asker->panel_width_mm, known,
                                    n_known, asker->n_panels, nodes, asker->control, fit);
    free(known);
    return status;
}

static WbStatus ask_graph(const WbAsker *asker, const WbRoof *plain, uint64_t nodes, WbRoofFit *fit)
{
    WbOneMore more;
    WbOneMoreQuestion question = {.plain = plain,
                                  .panel_length_mm = asker->panel_length_mm,
                                  .panel_width_mm = asker->panel_width_mm,
                                  .n = asker->n_panels,
                                  .node_budget = nodes,
                                  .control = asker->control};
    WbStatus status = wb_one_more(&question, &more);
    if (status != WB_OK)
        return status;
    *fit = (WbRoofFit){.most = more.layout ? asker->n_panels : 0,
                       .mm_bound = more.refuted ? asker->n_panels - 1 : asker->n_panels,
                       .layout = more.layout,
                       .nodes = more.nodes};
    return WB_OK;
}

/* Most questions are answered by a look; the others by the graph of the places that matter. */
static WbStatus ask_plain(const WbAsker *asker, const WbRoof *roof, uint64_t nodes, WbRoofFit *fit)
{
    WbPlainRoof plain;
    WbStatus status = wb_plain_roof(roof, NULL, 0, WB_PLAIN_INNER, 1, &plain);
    if (status != WB_OK)
        return status;
    /* A bare rectangle has layouts of blocks, found early. */
    uint64_t first = plain.roof.n_obstacles > 0 ? LOOK_NODES : LOOK_NODES_BARE;
    status = look(asker, &plain.roof, nodes < first ? nodes : first, fit);
    if (status == WB_OK && fit->most < asker->n_panels && fit->mm_bound >= asker->n_panels &&
        fit->nodes < nodes) {
        uint64_t spent = fit->nodes;
        wb_roof_fit_free(fit);
        status = ask_graph(asker, &plain.roof, nodes - spent, fit);
        if (status == WB_OK)
            fit->nodes += spent;
    }
    wb_plain_roof_free(&plain);
    return status;
}

static WbAsked ask_once(WbAsker *asker, const WbRoof *roof, uint64_t nodes, bool known,
                        WbRect **layout)
{
    WbRoofFit fit;
    if (asker->left == 0)
        return WB_ASKED_OPEN;
    nodes = nodes < asker->left ? nodes : asker->left;
    asker->status = known ? ask_plain(asker, roof, nodes, &fit)
                          : wb_roof_most(roof, asker->panel_length_mm, asker->panel_width_mm,
                                         asker->n_panels, nodes, asker->control, &fit);
    if (asker->status != WB_OK)
        return WB_ASKED_OPEN;
    pay(asker, roof, fit.nodes);
    if (fit.most == asker->n_panels) {
        *layout = fit.layout;
        return WB_ASKED_YES;
    }
    WbAsked asked = fit.mm_bound < asker->n_panels ? WB_ASKED_NO : WB_ASKED_OPEN;
    wb_roof_fit_free(&fit);
    return asked;
}

static WbAsked ask(WbAsker *asker, uint64_t nodes, const WbRoof *roof, bool known, WbRect **layout)
{
    *layout = NULL;
    if (asker->status != WB_OK || asker->left == 0)
        return WB_ASKED_OPEN;
    nodes = nodes < asker->share ? nodes : asker->share;
    nodes = nodes < asker->left ? nodes : asker->left;
    return ask_once(asker, roof, nodes, known && !wb_roof_needs_steps(roof), layout);
}

WbAsked wb_ask_within(WbAsker *asker, uint64_t nodes_max, const WbRoof *roof, WbRect **layout)
{
    return ask(asker, nodes_max, roof, true, layout);
}

WbAsked wb_ask_afresh(WbAsker *asker, uint64_t nodes_max, const WbRoof *roof, WbRect **layout)
{
    return ask(asker, nodes_max, roof, false, layout);
}

WbAsked wb_ask(WbAsker *asker, const WbRoof *roof, WbRect **layout)
{
    return wb_ask_within(asker, UINT64_MAX, roof, layout);
}
