#include "mix_why.h"
#include "mix_items.h"
#include "plain_roof.h"
#include "proof.h"
#include <stdlib.h>

static int enters_neither_way(const WbRoof *plain, const WbMixWhy *why)
{
    WbZone usable = wb_roof_usable(plain);
    int64_t x_mm = usable.right_mm - usable.left_mm, y_mm = usable.back_mm - usable.front_mm;
    for (size_t i = 0; i < why->n_items; i++) {
        const WbMixItem *item = &why->item[i];
        bool straight = item->length_mm <= x_mm && item->width_mm <= y_mm;
        bool turned = item->turns && item->width_mm <= x_mm && item->length_mm <= y_mm;
        if (item->count > 0 && !straight && !turned)
            return (int)i;
    }
    return -1;
}

static bool too_many_alone(const WbRoof *plain, WbMixWhy *why, size_t i)
{
    const WbMixItem *item = &why->item[i];
    /* The proof of equal panels lets them turn; that more is impossible says it of those that may
     * not turn too. */
    if (item->count < 1 || wb_roof_prove(plain, item->length_mm, item->width_mm, item->count,
                                         WB_ROOF_NODES, NULL, &why->one) != WB_OK)
        return false;
    if (wb_roof_proof_ok(plain, item->length_mm, item->width_mm, &why->one, NULL))
        return true;
    wb_roof_proof_free(&why->one);
    return false;
}

static bool find_one(const WbRoof *plain, WbMixWhy *why)
{
    for (size_t i = 0; i < why->n_items; i++)
        if (too_many_alone(plain, why, i)) {
            why->kind = WB_MIX_WHY_ONE;
            why->which = (int)i;
            return true;
        }
    return false;
}

static bool follow_clauses(const WbRoof *plain, WbMixWhy *why)
{
    WbFacts facts;
    if (wb_facts(plain, why->item, why->n_items, &facts) != WB_OK)
        return false;
    bool good = wb_proof_follows(&facts, why->proof.literals, why->proof.n_literals);
    wb_facts_free(&facts);
    why->kind = WB_MIX_WHY_CLAUSES;
    return good;
}

/* Fills kind, which and one; false: it does not hold on this plain roof. */
static bool tell(const WbRoof *plain, WbMixWhy *why)
{
    why->which = -1;
    if (wb_facts_too_large(plain, why->item, why->n_items)) {
        why->which = enters_neither_way(plain, why);
        why->kind = why->which >= 0 ? WB_MIX_WHY_SIZE : WB_MIX_WHY_AREA;
        return true;
    }
    return why->proof.n_literals > 0 ? follow_clauses(plain, why) : find_one(plain, why);
}

static WbStatus keep_strips(WbMixWhy *why, const WbRoof *roof, const WbRoof *plain)
{
    why->strips = malloc((plain->n_obstacles + 1) * sizeof *why->strips);
    if (!why->strips)
        return WB_NO_MEMORY;
    for (size_t i = 0; i < plain->n_obstacles; i++) {
        const WbObstacle *o = &plain->obstacles[i];
        if (!wb_roof_forbids(roof, o))
            return WB_BUDGET;
        why->strips[why->n_strips++] =
            (WbProofStrip){{o->x_mm, o->y_mm, o->length_mm, o->width_mm}, o->clearance_mm};
    }
    return WB_OK;
}

static WbStatus tell_at_step(const WbRoof *roof, int64_t step_mm, WbMixWhy *why)
{
    WbPlainRoof plain;
    WbStatus status = wb_plain_roof(roof, NULL, 0, WB_PLAIN_OUTER, step_mm, &plain);
    if (status != WB_OK)
        return status;
    why->step_mm = wb_roof_needs_steps(roof) ? step_mm : 0;
    status = tell(&plain.roof, why) ? keep_strips(why, roof, &plain.roof) : WB_BUDGET;
    wb_plain_roof_free(&plain);
    return status;
}

WbStatus wb_mix_why(const WbRoof *roof, const WbMixItem *items, size_t n_items, const WbMixFit *fit,
                    WbMixWhy *why)
{
    static const int64_t STEPS_MM[] = {16, 4, 1}; /* as wb_mix_fit takes them */
    if (!wb_roof_valid(roof) || !wb_mix_items_valid(items, n_items) || fit->answer != WB_FITS_NOT)
        return WB_BAD_INPUT;
    WbMixWhy told = {.proof = fit->proof};
    told.n_items = wb_mix_items_merge(items, n_items, told.item);
    size_t n_steps = sizeof STEPS_MM / sizeof *STEPS_MM;
    WbStatus status = WB_BUDGET;
    for (size_t k = wb_roof_needs_steps(roof) ? 0 : n_steps - 1; k < n_steps && status == WB_BUDGET;
         k++)
        status = tell_at_step(roof, STEPS_MM[k], &told);
    if (status == WB_OK)
        *why = told;
    else
        wb_mix_why_free(&told);
    return status;
}

void wb_mix_why_free(WbMixWhy *why)
{
    wb_roof_proof_free(&why->one);
    free(why->strips);
    *why = (WbMixWhy){0};
}
