#include "pieces.h"

WbPieces wb_pieces_bare(const WbProblem *problem, const WbHalf *bank, const WbHalf *dcdc)
{
    WbPieces pieces = {.problem = problem, .bank = bank, .dcdc = dcdc, .rest = bank->bill};
    wb_bill_join(problem, &pieces.rest, &dcdc->bill);
    return pieces;
}

void wb_pieces_wire(WbPieces *pieces, WbWires *wires, const WbHalf *array)
{
    const WbProblem *problem = pieces->problem;
    pieces->array = array;
    pieces->wires = wb_wires_bank(wires, pieces->bank, array, pieces->dcdc);
    pieces->charge = wb_wires_charge(wires, pieces->wires, array);
    pieces->dcdc_out = wb_wires_dcdc(wires, pieces->wires, pieces->dcdc);
    wb_bill_join(problem, &pieces->rest, &pieces->wires->bill);
    wb_bill_join(problem, &pieces->rest, &pieces->charge->bill);
    wb_bill_join(problem, &pieces->rest, &pieces->dcdc_out->bill);
    pieces->all_shipping_minor = wires->all_shipping_minor;
    pieces->bus_broken =
        pieces->wires->broken || pieces->charge->broken || pieces->dcdc_out->broken;
}

WbPieces wb_pieces_of(WbWires *wires, const WbHalf *array, const WbHalf *bank, const WbHalf *dcdc)
{
    WbPieces pieces = wb_pieces_bare(wires->problem, bank, dcdc);
    wb_pieces_wire(&pieces, wires, array);
    return pieces;
}

WbKit wb_pieces_kit(const WbPieces *pieces)
{
    return wb_halves_kit(pieces->array, pieces->bank, pieces->dcdc);
}

void wb_pieces_figures(const WbPieces *pieces, WbFigures *figures)
{
    const WbProblem *problem = pieces->problem;
    const WbHalf *array = pieces->array;
    const WbBankSide *bank = &pieces->bank->bank;
    const WbPanel *panel = problem->panels[array->kit.panel].panel;
    figures->priced = array->bill.unpriced == 0 && pieces->rest.unpriced == 0;
    wb_figures_money_of(problem, &array->bill, &pieces->rest, figures);
    figures->weight_g = array->bill.weight_g + pieces->rest.weight_g;
    figures->roof_area_mm2 =
        (int64_t)array->kit.n_series * array->kit.n_parallel * panel->length_mm * panel->width_mm;
    figures->usable_wh = bank->lowest_usable_wh;
    figures->autonomy_days = bank->lowest_autonomy_days;
    figures->spare_w = bank->spare_w;
    double supply_wh = 0;
    int worst =
        wb_worst_supply_month(problem, array->array_wh, pieces->dcdc->other_wh, bank, &supply_wh);
    figures->supply_margin_wh = worst < 0 ? 0.0 : supply_wh - bank->need_wh[worst];
}

/* Wiring that is owned is in neither bound until the whole bill is settled: then only the lower one
 * tells. */
WbDear wb_dear_at_a_glance(const WbPieces *pieces, const WbHalf *array, int64_t *least_minor)
{
    const WbProblem *problem = pieces->problem;
    const WbBrief *brief = problem->brief;
    int64_t parts_minor = array->bill.parts_minor + pieces->rest.parts_minor;
    *least_minor = parts_minor + array->bill.wiring_minor + pieces->rest.wiring_minor;
    if (!brief->money_minor.on)
        return WB_DEAR_NOT;
    if (wb_too_dear(pieces, *least_minor))
        return WB_DEAR_SURELY;
    /* A minor unit more than the allowance, for its rounding. */
    double most_minor = (double)(*least_minor + pieces->all_shipping_minor) + 1 +
                        (double)parts_minor * brief->sundries_pct / 100;
    bool owned = problem->n_owned_wires > 0;
    return !owned && most_minor < brief->money_minor.value ? WB_DEAR_NOT : WB_DEAR_OPEN;
}
