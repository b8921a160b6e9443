#include "cli_roof_proof_json.h"

/* With the clearance: nothing of a panel comes into it. */
static void strips_json(WbJsonOut *json, const WbProofStrip *strips, size_t n)
{
    wb_out_array(json, "strips");
    for (size_t i = 0; i < n; i++) {
        const WbRect *rect = &strips[i].rect;
        int64_t clearance_mm = strips[i].clearance_mm;
        int64_t zone[] = {rect->x_mm - clearance_mm, rect->y_mm - clearance_mm,
                          rect->length_mm + 2 * clearance_mm, rect->width_mm + 2 * clearance_mm};
        wb_out_integers(json, NULL, zone, G_N_ELEMENTS(zone));
    }
    wb_out_end_array(json);
}

static void points_json(WbJsonOut *json, const WbRoofProof *proof)
{
    wb_out_array(json, "points");
    for (size_t i = 0; i < proof->n_points; i++) {
        const WbProofPoint *point = &proof->points[i];
        int64_t told[] = {point->x_mm, point->y_mm, point->weight};
        wb_out_integers(json, NULL, told, G_N_ELEMENTS(told));
    }
    wb_out_end_array(json);
}

static void places_json(WbJsonOut *json, const WbRoofProof *proof)
{
    wb_out_array(json, "places");
    for (size_t i = 0; i < proof->n_places; i++) {
        const WbRect *place = &proof->places[i];
        int64_t told[] = {place->x_mm, place->y_mm, place->length_mm, place->width_mm};
        wb_out_integers(json, NULL, told, G_N_ELEMENTS(told));
    }
    wb_out_end_array(json);
}

static void step_json(WbJsonOut *json, const WbProofStep *step)
{
    static const char *const kinds[] = {[WB_STEP_CLOSE] = "close",
                                        [WB_STEP_REFUTE] = "refute",
                                        [WB_STEP_SPLIT] = "split",
                                        [WB_STEP_EMPTY] = "empty",
                                        [WB_STEP_KEEP] = "keep"};
    wb_out_object(json, NULL);
    wb_out_text(json, "kind", kinds[step->kind]);
    if (step->kind == WB_STEP_CLOSE || step->kind == WB_STEP_REFUTE) {
        wb_out_count(json, "first", step->first);
        wb_out_count(json, "n", step->n);
    }
    if (step->kind == WB_STEP_SPLIT) {
        wb_out_integer(json, "x_mm", step->x_mm);
        wb_out_integer(json, "y_mm", step->y_mm);
    }
    if (step->kind == WB_STEP_SPLIT || step->kind == WB_STEP_KEEP) {
        wb_out_count(json, "first_place", step->first_place);
        wb_out_count(json, "n_places", step->n_places);
    }
    wb_out_end_object(json);
}

void wb_cli_roof_proof_json(WbJsonOut *json, const char *key, int64_t panel_length_mm,
                            int64_t panel_width_mm, const WbRoofProof *proof, bool checked)
{
    static const char *const kinds[] = {[WB_PROOF_NONE] = "none",
                                        [WB_PROOF_SIZE] = "size",
                                        [WB_PROOF_AREA] = "area",
                                        [WB_PROOF_WEIGHTS] = "weights",
                                        [WB_PROOF_SEARCH] = "search"};
    if (proof == NULL) {
        wb_out_null(json, key);
        return;
    }
    wb_out_object(json, key);
    wb_out_text(json, "kind", kinds[proof->kind]);
    wb_out_integer(json, "panels", proof->n_panels);
    wb_out_integer(json, "length_mm", panel_length_mm);
    wb_out_integer(json, "width_mm", panel_width_mm);
    wb_out_flag(json, "checked", checked);
    wb_out_integer(json, "step_mm", proof->step_mm);
    strips_json(json, proof->strips, proof->n_strips);
    wb_out_integer(json, "weight_of_one", WB_PROOF_ONE);
    points_json(json, proof);
    places_json(json, proof);
    wb_out_array(json, "steps");
    for (size_t i = 0; i < proof->n_steps; i++)
        step_json(json, &proof->steps[i]);
    wb_out_end_array(json);
    wb_out_end_object(json);
}

/* ---- several sizes ---- */

static void items_json(WbJsonOut *json, const WbMixWhy *why)
{
    wb_out_array(json, "items");
    for (size_t i = 0; i < why->n_items; i++) {
        wb_out_object(json, NULL);
        wb_out_integer(json, "length_mm", why->item[i].length_mm);
        wb_out_integer(json, "width_mm", why->item[i].width_mm);
        wb_out_integer(json, "count", why->item[i].count);
        wb_out_flag(json, "turns", why->item[i].turns);
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
}

/* The closing 0 of each is left out. */
static void clauses_json(WbJsonOut *json, const WbMixProof *proof)
{
    g_autoptr(GArray) clause = g_array_new(FALSE, FALSE, sizeof(int64_t));
    wb_out_array(json, "clauses");
    for (size_t i = 0; i < proof->n_literals; i++) {
        int64_t literal = proof->literals[i];
        if (literal != 0) {
            g_array_append_val(clause, literal);
            continue;
        }
        wb_out_integers(json, NULL, (const int64_t *)(void *)clause->data, clause->len);
        g_array_set_size(clause, 0);
    }
    wb_out_end_array(json);
}

void wb_cli_mix_proof_json(WbJsonOut *json, const char *key, const WbMixWhy *why)
{
    static const char *const kinds[] = {[WB_MIX_WHY_SIZE] = "size",
                                        [WB_MIX_WHY_AREA] = "area",
                                        [WB_MIX_WHY_ONE] = "one-size",
                                        [WB_MIX_WHY_CLAUSES] = "clauses"};
    if (why == NULL) {
        wb_out_null(json, key);
        return;
    }
    wb_out_object(json, key);
    wb_out_text(json, "kind", kinds[why->kind]);
    items_json(json, why);
    wb_out_flag(json, "checked", true);
    wb_out_integer(json, "step_mm", why->step_mm);
    strips_json(json, why->strips, why->n_strips);
    if (why->which < 0)
        wb_out_null(json, "which");
    else
        wb_out_integer(json, "which", why->which);
    const WbMixItem *one = &why->item[MAX(why->which, 0)];
    wb_cli_roof_proof_json(json, "proof", one->length_mm, one->width_mm,
                           why->kind == WB_MIX_WHY_ONE ? &why->one : NULL, true);
    clauses_json(json, &why->proof);
    wb_out_end_object(json);
}
