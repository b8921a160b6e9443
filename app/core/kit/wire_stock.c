/* Conductors, fuses and fittings that can be bought, with what the conductors carry where they lie.
 * What has no usable offer is no choice here: the program picks these parts by itself. */
#include "wire_stock.h"
#include "source.h"
#include <stdlib.h>
#include <string.h>

/* The thinnest single conductor: boats 16 AWG (33 CFR 183.425), buildings 14 AWG (NEC 310.3, from
 * memory), vehicles 1 mm2 (as ISO 10133); on a roof 14 AWG for its strength (common practice). */
static const double least_mm2[] = {
    [WB_RULES_ROAD_VEHICLE] = 0.99, [WB_RULES_BOAT] = 1.3, [WB_RULES_BUILDING] = 2.08};
#define LEAST_ROOF_MM2 2.08

static bool is_wanted(const WbBrief *brief, const WbConductor *conductor)
{
    if (conductor->area_mm2 < least_mm2[brief->rule_set])
        return false;
    switch ((WbSizes)brief->wiring.sizes) {
    case WB_SIZES_AWG:
        return conductor->system == WB_SIZE_AWG;
    case WB_SIZES_METRIC:
        return conductor->system == WB_SIZE_METRIC;
    case WB_SIZES_ANY:
        break;
    }
    return true;
}

static WbLaying laying_of(const WbBrief *brief, bool on_roof)
{
    return (WbLaying){
        .rule_set = brief->rule_set,
        .ambient_c = wb_wiring_air_c(brief, on_roof),
        .bundled = brief->wiring.bundled,
        .terminal_c = brief->wiring.terminal_c,
    };
}

static int by_area(const void *a, const void *b)
{
    const WbConductor *left = ((const WbConductorChoice *)a)->conductor;
    const WbConductor *right = ((const WbConductorChoice *)b)->conductor;
    if (left->area_mm2 != right->area_mm2)
        return left->area_mm2 < right->area_mm2 ? -1 : 1;
    return strcmp(left->part.id, right->part.id);
}

static int by_rating(const void *a, const void *b)
{
    const WbFuse *left = ((const WbFuseChoice *)a)->fuse;
    const WbFuse *right = ((const WbFuseChoice *)b)->fuse;
    if (left->rating_a != right->rating_a)
        return left->rating_a < right->rating_a ? -1 : 1;
    return strcmp(left->part.id, right->part.id);
}

static int by_id(const void *a, const void *b)
{
    return strcmp(((const WbFittingChoice *)a)->fitting->part.id,
                  ((const WbFittingChoice *)b)->fitting->part.id);
}

/* What is owned is counted over all circuits; beyond the most that are counted it is bought. */
static void note_owned(WbProblem *problem, WbSourced *sourced)
{
    if (sourced->owned <= 0 || problem->n_owned_wires == WB_MOST_OWNED_WIRES)
        return;
    problem->owned_wires[problem->n_owned_wires++] =
        (WbOwnedWire){1000 * (int64_t)sourced->owned, sourced->price_minor, sourced->shop};
    sourced->owned_wire = problem->n_owned_wires;
}

static bool fill_fittings(WbProblem *problem)
{
    const WbCatalogue *catalogue = problem->catalogue;
    WbWireStock *stock = &problem->wires;
    stock->fittings = calloc(catalogue->n_fittings + 1, sizeof *stock->fittings);
    if (!stock->fittings)
        return false;
    for (size_t i = 0; i < catalogue->n_fittings; i++) {
        WbFittingChoice choice = {.fitting = &catalogue->fittings[i]};
        if (!wb_source_part(problem, &choice.fitting->part, 0.0, &choice.sourced))
            return false;
        if (choice.sourced.priced)
            stock->fittings[stock->n_fittings++] = choice;
    }
    qsort(stock->fittings, stock->n_fittings, sizeof *stock->fittings, by_id);
    for (size_t i = 0; i < stock->n_fittings; i++)
        note_owned(problem, &stock->fittings[i].sourced);
    return true;
}

static bool fill_fuses(WbProblem *problem)
{
    const WbCatalogue *catalogue = problem->catalogue;
    WbWireStock *stock = &problem->wires;
    stock->fuses = calloc(catalogue->n_fuses + 1, sizeof *stock->fuses);
    if (!stock->fuses)
        return false;
    for (size_t i = 0; i < catalogue->n_fuses; i++) {
        WbFuseChoice choice = {.fuse = &catalogue->fuses[i]};
        if (!wb_source_part(problem, &choice.fuse->part, 0.0, &choice.sourced))
            return false;
        if (choice.sourced.priced)
            stock->fuses[stock->n_fuses++] = choice;
    }
    qsort(stock->fuses, stock->n_fuses, sizeof *stock->fuses, by_rating);
    for (size_t i = 0; i < stock->n_fuses; i++)
        note_owned(problem, &stock->fuses[i].sourced);
    return true;
}

/* Cheapest, ties by id. */
static void fill_lug(const WbWireStock *stock, WbConductorChoice *choice)
{
    double area_mm2 = choice->conductor->area_mm2;
    for (size_t i = 0; i < stock->n_fittings; i++) {
        const WbFittingChoice *lug = &stock->fittings[i];
        bool takes = lug->fitting->role == WB_FITTING_LUG &&
                     lug->fitting->min_area_mm2 <= area_mm2 &&
                     lug->fitting->max_area_mm2 >= area_mm2;
        if (takes && (!choice->lug || lug->sourced.price_minor < choice->lug_sourced.price_minor)) {
            choice->lug = lug->fitting;
            choice->lug_sourced = lug->sourced;
        }
    }
}

static bool fill_conductors(WbProblem *problem)
{
    const WbCatalogue *catalogue = problem->catalogue;
    WbWireStock *stock = &problem->wires;
    stock->conductors = calloc(catalogue->n_conductors + 1, sizeof *stock->conductors);
    if (!stock->conductors)
        return false;
    for (size_t i = 0; i < catalogue->n_conductors; i++) {
        const WbConductor *conductor = &catalogue->conductors[i];
        WbConductorChoice choice = {.conductor = conductor};
        if (!is_wanted(problem->brief, conductor))
            continue;
        if (!wb_source_part(problem, &conductor->part, 0.0, &choice.sourced))
            return false;
        if (!choice.sourced.priced)
            continue;
        choice.inside = wb_ampacity(conductor->area_mm2, conductor->insulation_c, &stock->inside);
        if (conductor->area_mm2 >= LEAST_ROOF_MM2)
            choice.on_roof =
                wb_ampacity(conductor->area_mm2, conductor->insulation_c, &stock->on_roof);
        fill_lug(stock, &choice);
        stock->conductors[stock->n_conductors++] = choice;
    }
    qsort(stock->conductors, stock->n_conductors, sizeof *stock->conductors, by_area);
    for (size_t i = 0; i < stock->n_conductors; i++)
        note_owned(problem, &stock->conductors[i].sourced);
    return true;
}

WbStatus wb_wire_stock_fill(WbProblem *problem)
{
    if (!problem->brief->wiring.on)
        return WB_OK;
    problem->wires.inside = laying_of(problem->brief, false);
    problem->wires.on_roof = laying_of(problem->brief, true);
    bool ok = fill_fittings(problem) && fill_fuses(problem) && fill_conductors(problem);
    return ok ? WB_OK : WB_NO_MEMORY;
}

void wb_wire_stock_free(WbWireStock *stock)
{
    free(stock->conductors);
    free(stock->fuses);
    free(stock->fittings);
    *stock = (WbWireStock){0};
}
