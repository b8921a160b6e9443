#include "wires.h"
#include "loom.h"
#include <stdlib.h>
#include <string.h>

bool wb_wires_init(WbWires *wires, const WbProblem *problem, const WbBankKind *kind,
                   const WbHalves *banks)
{
    *wires = (WbWires){.problem = problem, .kind = kind, .banks = banks};
    size_t rows = problem->wires.n_fuses + 1;
    wires->row =
        problem->n_controllers * (size_t)problem->brief->largest.controllers + problem->n_dcdc;
    wires->link = calloc(rows * wires->row, sizeof *wires->link);
    wires->bank = calloc(banks->n + 1, sizeof *wires->bank);
    for (size_t i = 0; i < problem->n_shops; i++)
        wires->all_shipping_minor += problem->shops[i].shipping_minor;
    wires->step = calloc(WB_CHARGED_STEPS, sizeof *wires->step);
    return wires->link && wires->bank && wires->step;
}

void wb_wires_free(WbWires *wires)
{
    for (size_t i = 0; wires->bank && i < wires->banks->n; i++)
        for (WbBankWires *one = wires->bank[i], *next; one; one = next) {
            next = one->next;
            free(one);
        }
    free(wires->bank);
    free(wires->link);
    free(wires->step);
    *wires = (WbWires){0};
}

static WbBankWires *size_bank(const WbWires *wires, const WbHalf *bank, double charged_a,
                              size_t step)
{
    WbBankWires *made = malloc(sizeof *made);
    if (!made)
        return NULL;
    WbLoom loom = wb_loom_empty(NULL);
    wb_loom_bank(wires->problem, &bank->kit, wires->kind, charged_a, &loom);
    *made = (WbBankWires){
        .step = step,
        .bill = loom.bill,
        .broken = loom.faults > 0,
        .faults = loom.faults,
        .bus_fault_a = loom.bus_fault_a,
        .fuses_that_break = wb_fuses_that_break(&wires->problem->wires, wires->kind->volts.charge_v,
                                                loom.bus_fault_a),
    };
    return made;
}

/* The few currents there are come again for every bank. */
static size_t charged_step(WbWires *wires, int strings, double charged_a)
{
    uint64_t bits;
    memcpy(&bits, &charged_a, sizeof bits);
    uint64_t hash = (bits ^ (uint64_t)strings) * UINT64_C(0x9e3779b97f4a7c15);
    WbChargedStep *known = &wires->step[(hash >> 32) % WB_CHARGED_STEPS];
    if (known->strings != strings || known->charged_a != charged_a)
        *known = (WbChargedStep){charged_a, strings,
                                 wb_charged_step(&wires->problem->wires, strings, charged_a)};
    return known->step;
}

/* Step 0: what is drawn decides. */
static size_t step_of(WbWires *wires, const WbHalf *bank, double charged_a)
{
    if (charged_a <= bank->drawn_a)
        return 0;
    return 1 + charged_step(wires, bank->kit.bank_parallel, charged_a);
}

const WbBankWires *wb_wires_bank(WbWires *wires, const WbHalf *bank, const WbHalf *array,
                                 const WbHalf *dcdc)
{
    static const WbBankWires nothing = {.broken = true};
    WbBankWires **first = &wires->bank[bank - wires->banks->half];
    WbKit chargers = array->kit;
    chargers.dcdc = dcdc->kit.dcdc;
    double charged_a = wb_charged_a(wires->problem, &chargers);
    size_t step = step_of(wires, bank, charged_a);
    for (const WbBankWires *one = *first; one; one = one->next)
        if (one->step == step)
            return one;
    WbBankWires *made = size_bank(wires, bank, charged_a, step);
    if (!made) {
        wires->no_memory = true;
        return &nothing;
    }
    made->next = *first;
    return *first = made;
}

static const WbLink *settle(WbLink *link, const WbLoom *loom)
{
    link->bill = loom->bill;
    link->broken = loom->faults > 0;
    link->faults = loom->faults;
    link->known = true;
    return link;
}

const WbLink *wb_wires_charge(WbWires *wires, const WbBankWires *bank, const WbHalf *array)
{
    size_t most = (size_t)wires->problem->brief->largest.controllers;
    size_t column = (size_t)array->kit.controller * most + (size_t)array->kit.n_controllers - 1;
    WbLink *link = &wires->link[bank->fuses_that_break * wires->row + column];
    if (link->known)
        return link;
    WbLoom loom = wb_loom_empty(NULL);
    wb_loom_charge(wires->problem, &array->kit, wires->kind, bank->bus_fault_a, &loom);
    return settle(link, &loom);
}

const WbLink *wb_wires_dcdc(WbWires *wires, const WbBankWires *bank, const WbHalf *dcdc)
{
    size_t first = wires->row - wires->problem->n_dcdc;
    WbLink *link =
        &wires->link[bank->fuses_that_break * wires->row + first + (size_t)dcdc->kit.dcdc];
    if (link->known)
        return link;
    WbLoom loom = wb_loom_empty(NULL);
    wb_loom_dcdc_out(wires->problem, &dcdc->kit, wires->kind, bank->bus_fault_a, &loom);
    return settle(link, &loom);
}
