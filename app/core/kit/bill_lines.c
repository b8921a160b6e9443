#include "bill.h"
#include "round.h"
#include <stdlib.h>
#include <string.h>

typedef struct {
    WbBill *bill;
    size_t room;
    bool no_memory;
} Pad;

static WbBillLine *new_line(Pad *pad)
{
    WbBill *bill = pad->bill;
    if (bill->n == pad->room) {
        size_t room = pad->room ? 2 * pad->room : 32;
        WbBillLine *grown = realloc(bill->line, room * sizeof *grown);
        if (!grown) {
            pad->no_memory = true;
            return NULL;
        }
        bill->line = grown;
        pad->room = room;
    }
    return &bill->line[bill->n++];
}

static void add_part(Pad *pad, const void *part, WbPartKind kind, const WbSourced *sourced,
                     int count)
{
    WbBillLine *line = part ? new_line(pad) : NULL;
    if (!line)
        return;
    int owned = sourced->owned < count ? sourced->owned : count;
    int64_t minor = sourced->priced ? (count - owned) * sourced->price_minor : 0;
    *line = (WbBillLine){part, kind, sourced, count, owned, minor};
}

static void add_parts(Pad *pad, const WbProblem *problem, const WbKit *kit)
{
    const WbPanelChoice *panel = &problem->panels[kit->panel];
    const WbControllerChoice *controller = &problem->controllers[kit->controller];
    const WbStorageChoice *storage = &problem->storage[kit->storage];
    const WbInverterChoice *inverter = &problem->inverters[kit->inverter];
    const WbDcdcChoice *dcdc = &problem->dcdc[kit->dcdc];
    add_part(pad, panel->panel, WB_KIND_PANEL, &panel->sourced, kit->n_series * kit->n_parallel);
    add_part(pad, controller->controller, WB_KIND_CONTROLLER, &controller->sourced,
             kit->n_controllers);
    add_part(pad, storage->storage, WB_KIND_STORAGE, &storage->sourced,
             kit->bank_series * kit->bank_parallel);
    add_part(pad, inverter->inverter, WB_KIND_INVERTER, &inverter->sourced, 1);
    add_part(pad, dcdc->dcdc, WB_KIND_DCDC, &dcdc->sourced, 1);
}

/* ---- what circuits are made of ---- */

static const WbSourced *source_of(const WbWireStock *stock, const void *part, WbPartKind kind)
{
    if (kind == WB_KIND_CONDUCTOR)
        for (size_t i = 0; i < stock->n_conductors; i++)
            if (stock->conductors[i].conductor == part)
                return &stock->conductors[i].sourced;
    if (kind == WB_KIND_FUSE)
        for (size_t i = 0; i < stock->n_fuses; i++)
            if (stock->fuses[i].fuse == part)
                return &stock->fuses[i].sourced;
    if (kind == WB_KIND_FITTING)
        for (size_t i = 0; i < stock->n_fittings; i++)
            if (stock->fittings[i].fitting == part)
                return &stock->fittings[i].sourced;
    return NULL;
}

static WbBillLine *line_of(Pad *pad, const void *part)
{
    for (size_t i = 0; i < pad->bill->n; i++)
        if (pad->bill->line[i].part == part)
            return &pad->bill->line[i];
    return NULL;
}

/* `times` alike, each of n pieces or metres and rounded to whole minor units by itself. */
static void add_wire(Pad *pad, const WbWireStock *stock, const void *part, WbPartKind kind,
                     int times, double n)
{
    if (!part || times == 0 || n <= 0)
        return;
    WbBillLine *line = line_of(pad, part);
    if (!line && (line = new_line(pad)) != NULL)
        *line = (WbBillLine){.part = part, .kind = kind, .sourced = source_of(stock, part, kind)};
    if (!line)
        return;
    line->count += times * n;
    line->minor += times * wb_round_half_up(n * (double)line->sourced->price_minor);
}

static void add_circuit(Pad *pad, const WbWireStock *stock, const WbCircuit *circuit)
{
    int count = circuit->ask.count;
    if (circuit->fault != WB_CIRCUIT_SOUND)
        return;
    add_wire(pad, stock, circuit->conductor, WB_KIND_CONDUCTOR, count, circuit->ask.wire_m);
    add_wire(pad, stock, circuit->lug, WB_KIND_FITTING, count, circuit->ask.lugs);
    add_wire(pad, stock, circuit->fuse, WB_KIND_FUSE, count, 1);
    add_wire(pad, stock, circuit->holder, WB_KIND_FITTING, count, 1);
    add_wire(pad, stock, circuit->disconnect, WB_KIND_FITTING, count, 1);
}

/* As wb_bill_settle reckons it. */
static void settle_owned(WbBillLine *line)
{
    if (!line->sourced->owned_wire)
        return;
    int64_t used_milli = llround(1000 * line->count);
    int64_t bought_milli = used_milli - 1000 * (int64_t)line->sourced->owned;
    line->owned = fmin(line->count, line->sourced->owned);
    line->minor = bought_milli > 0 ? (bought_milli * line->sourced->price_minor + 500) / 1000 : 0;
}

static int by_kind_and_id(const void *a, const void *b)
{
    const WbBillLine *left = a, *right = b;
    if (left->kind != right->kind)
        return (int)left->kind - (int)right->kind;
    return strcmp(left->part->id, right->part->id);
}

WbStatus wb_bill(const WbProblem *problem, const WbKit *kit, const WbWiring *wiring, WbBill *bill)
{
    const WbWireStock *stock = &problem->wires;
    *bill = (WbBill){0};
    Pad pad = {.bill = bill};
    add_parts(&pad, problem, kit);
    size_t first = bill->n;
    for (size_t i = 0; i < wiring->n; i++)
        add_circuit(&pad, stock, &wiring->circuit[i]);
    add_wire(&pad, stock, wiring->bus, WB_KIND_FITTING, 1, 1);
    for (int form = 0; form < WB_N_FUSE_FORMS; form++)
        add_wire(&pad, stock, wiring->blocks[form].block, WB_KIND_FITTING,
                 wiring->blocks[form].count, 1);
    if (pad.no_memory) {
        wb_bill_free(bill);
        return WB_NO_MEMORY;
    }
    for (size_t i = first; i < bill->n; i++)
        settle_owned(&bill->line[i]);
    if (bill->n > first)
        qsort(bill->line + first, bill->n - first, sizeof *bill->line, by_kind_and_id);
    return WB_OK;
}

void wb_bill_free(WbBill *bill)
{
    free(bill->line);
    *bill = (WbBill){0};
}
