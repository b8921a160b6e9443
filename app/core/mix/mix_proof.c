#include "mix_items.h"
#include "plain_roof.h"
#include "proof.h"
#include "roof_proof.h"

/* One size alone is too many: proved anew by the search of equal panels, and that proof goes
 * through its own checker. */
static bool too_many_of_one(const WbRoof *plain, const WbMixItem *items, size_t n_items)
{
    bool good = false;
    for (size_t i = 0; i < n_items && !good; i++) {
        WbRoofProof proof;
        int64_t length_mm = items[i].length_mm, width_mm = items[i].width_mm;
        if (items[i].count < 2 || !(items[i].turns || length_mm == width_mm) ||
            wb_roof_prove(plain, length_mm, width_mm, items[i].count, WB_ROOF_NODES, NULL,
                          &proof) != WB_OK)
            continue;
        good = proof.n_panels <= items[i].count &&
               wb_roof_proof_ok(plain, length_mm, width_mm, &proof, NULL);
        wb_roof_proof_free(&proof);
    }
    return good;
}

static bool refuted_on(const WbRoof *plain, const WbMixItem *items, size_t n_items,
                       const WbMixProof *proof)
{
    WbFacts facts;
    bool too_large = wb_facts_too_large(plain, items, n_items);
    if (proof->n_literals == 0 || too_large)
        return too_large || too_many_of_one(plain, items, n_items);
    if (wb_facts(plain, items, n_items, &facts) != WB_OK)
        return false;
    bool good = wb_proof_follows(&facts, proof->literals, proof->n_literals);
    wb_facts_free(&facts);
    return good;
}

/* Every obstacle of the plain roof is truly forbidden: then whatever lies on the true roof lies on
 * the plain one. */
static bool plain_holds(const WbRoof *roof, const WbRoof *plain)
{
    if (plain->length_mm < roof->length_mm || plain->width_mm < roof->width_mm ||
        plain->margin_mm > roof->margin_mm || plain->gap_mm != roof->gap_mm)
        return false;
    for (size_t i = 0; i < plain->n_obstacles; i++)
        if (!wb_roof_forbids(roof, &plain->obstacles[i]))
            return false;
    return true;
}

/* A proof does not tell the steps of its staircases: any outer roof on which it holds will do. */
bool wb_mix_proof_ok(const WbRoof *roof, const WbMixItem *items, size_t n_items,
                     const WbMixFit *fit)
{
    static const int64_t STEPS_MM[] = {16, 4, 1};
    if (!wb_roof_valid(roof) || !wb_mix_items_valid(items, n_items) || fit->answer != WB_FITS_NOT)
        return false;
    WbMixItem merged[WB_MIX_SIZES];
    size_t n_merged = wb_mix_items_merge(items, n_items, merged);
    for (size_t k = 0; k < sizeof STEPS_MM / sizeof *STEPS_MM; k++) {
        WbPlainRoof plain;
        if (wb_plain_roof(roof, NULL, 0, WB_PLAIN_OUTER, STEPS_MM[k], &plain) != WB_OK)
            return false;
        bool good = plain_holds(roof, &plain.roof) &&
                    refuted_on(&plain.roof, merged, n_merged, &fit->proof);
        wb_plain_roof_free(&plain);
        if (good)
            return true;
        if (!wb_roof_needs_steps(roof))
            return false;
    }
    return false;
}
