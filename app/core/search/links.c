#include "links.h"
#include "loom.h"
#include <stdlib.h>

bool wb_links_init(WbLinks *links, const WbProblem *problem, const WbBankKind *kind)
{
    *links = (WbLinks){.problem = problem, .kind = kind};
    links->n_rows = problem->wires.n_fuses + 1;
    links->row =
        problem->n_controllers * (size_t)problem->brief->largest.controllers + problem->n_dcdc;
    links->link = calloc(links->n_rows * links->row, sizeof *links->link);
    return links->link != NULL;
}

void wb_links_free(WbLinks *links)
{
    free(links->link);
    *links = (WbLinks){0};
}

static const WbLink *settle(WbLink *link, const WbLoom *loom)
{
    link->bill = loom->bill;
    link->broken = loom->faults > 0;
    link->known = true;
    return link;
}

const WbLink *wb_links_charge(WbLinks *links, const WbHalf *array, const WbHalf *bank)
{
    size_t most = (size_t)links->problem->brief->largest.controllers;
    size_t column = (size_t)array->kit.controller * most + (size_t)array->kit.n_controllers - 1;
    WbLink *link = &links->link[bank->fuses_that_break * links->row + column];
    if (link->known)
        return link;
    WbLoom loom = wb_loom_empty(NULL);
    wb_loom_charge(links->problem, &array->kit, links->kind, bank->bus_fault_a, &loom);
    return settle(link, &loom);
}

const WbLink *wb_links_dcdc(WbLinks *links, const WbHalf *dcdc, const WbHalf *bank)
{
    size_t first = links->row - links->problem->n_dcdc;
    WbLink *link =
        &links->link[bank->fuses_that_break * links->row + first + (size_t)dcdc->kit.dcdc];
    if (link->known)
        return link;
    WbLoom loom = wb_loom_empty(NULL);
    wb_loom_dcdc_out(links->problem, &dcdc->kit, links->kind, bank->bus_fault_a, &loom);
    return settle(link, &loom);
}
