#include "change_ask.h"
#include "plain_roof.h"

/* Making the grid of n obstacles costs about n^2 / this many nodes. */
enum { OBSTACLES_2_OF_A_NODE = 4096 };
/* Beside slants and circles the staircases cost about so many times the nodes. */
enum { STEPS_COST = 3 };

static void pay(WbAsker *asker, const WbRoof *roof, uint64_t nodes)
{
    nodes *= wb_roof_needs_steps(roof) ? STEPS_COST : 1;
    nodes += 1 + roof->n_obstacles * roof->n_obstacles / OBSTACLES_2_OF_A_NODE;
    asker->left -= nodes < asker->left ? nodes : asker->left;
}

WbAsked wb_ask(WbAsker *asker, const WbRoof *roof, WbRect **layout)
{
    *layout = NULL;
    if (asker->status != WB_OK || asker->left == 0)
        return WB_ASKED_OPEN;
    WbRoofFit fit;
    uint64_t nodes = asker->share < asker->left ? asker->share : asker->left;
    asker->status = wb_roof_most(roof, asker->panel_length_mm, asker->panel_width_mm,
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
