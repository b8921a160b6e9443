#include "cli_roof_mix.h"
#include "cli_roof_proof_json.h"

static void place_json(WbJsonOut *json, const WbMixRow *row, const WbMixPlace *place)
{
    wb_out_object(json, NULL);
    wb_out_text(json, "panel", row->panel[place->item]->part.id);
    wb_out_integer(json, "x_mm", place->rect.x_mm);
    wb_out_integer(json, "y_mm", place->rect.y_mm);
    wb_out_integer(json, "length_mm", place->rect.length_mm);
    wb_out_integer(json, "width_mm", place->rect.width_mm);
    wb_out_end_object(json);
}

static void row_json(WbJsonOut *json, const WbMixRow *row)
{
    const WbMixBest *best = &row->best;
    wb_out_object(json, NULL);
    wb_out_array(json, "counts");
    for (size_t k = 0; k < row->n_models; k++) {
        wb_out_object(json, NULL);
        wb_out_text(json, "panel", row->panel[k]->part.id);
        wb_out_integer(json, "count", best->count[k]);
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
    wb_out_number(json, "power_w", best->power_w);
    if (best->price_minor < 0)
        wb_out_null(json, "price_minor");
    else
        wb_out_integer(json, "price_minor", best->price_minor);
    wb_out_number(json, "load_kg", best->load_kg);
    wb_out_flag(json, "proved", best->proved);
    wb_out_flag(json, "most_for_the_money", row->per_money);
    wb_out_array(json, "layout");
    for (int i = 0; i < best->n_layout; i++)
        place_json(json, row, &best->layout[i]);
    wb_out_end_array(json);
    wb_out_flag(json, "layout_checked", row->layout_ok);
    wb_out_end_object(json);
}

static const char *answer_code(const WbMixOneMore *more)
{
    static const char *const codes[] = {[WB_FITS] = "fits",
                                        [WB_FITS_NOT] = "does-not-fit",
                                        [WB_FIT_UNDECIDED] = "not-decided",
                                        [WB_FIT_WITHIN_1_MM] = "within-1-mm"};
    return more->over_load ? "over-load" : codes[more->fit.answer];
}

static void one_more_json(WbJsonOut *json, const WbMixOneMore *more)
{
    wb_out_object(json, NULL);
    wb_out_text(json, "panel", more->panel->part.id);
    wb_out_text(json, "answer", answer_code(more));
    wb_cli_mix_proof_json(json, "proof", more->told ? &more->why : NULL);
    wb_out_end_object(json);
}

static void mixed_json(WbJsonOut *json, const WbRoofMixes *mixes)
{
    wb_out_array(json, "mixed");
    for (size_t i = 0; i < mixes->n_mixed; i++) {
        wb_out_object(json, NULL);
        wb_out_text(json, "panel", mixes->mixed[i]->part.id);
        wb_out_text(json, "chosen_for", i < mixes->n_strongest ? "watts-alone" : "watts-of-one");
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
}

void wb_cli_roof_mixes_json(WbJsonOut *json, const WbRoofReport *report)
{
    const WbRoofMixes *mixes = report->mixes;
    wb_out_object(json, "mixes");
    wb_out_count(json, "panels_tried", mixes->n_panels);
    wb_out_count(json, "panels_left_out", mixes->n_left_out);
    wb_out_count(json, "panels_mixed", mixes->n_mixed);
    mixed_json(json, mixes);
    wb_out_count(json, "sets", mixes->n_sets);
    wb_out_integer(json, "undecided", mixes->undecided);
    wb_out_flag(json, "most_watts_proved", mixes->most_proved);
    wb_out_array(json, "front");
    for (guint i = 0; i < mixes->rows->len; i++)
        row_json(json, &g_array_index(mixes->rows, WbMixRow, i));
    wb_out_end_array(json);
    wb_out_array(json, "one_more");
    for (size_t k = 0; k < mixes->n_one_more; k++)
        one_more_json(json, &mixes->one_more[k]);
    wb_out_end_array(json);
    wb_out_end_object(json);
}
