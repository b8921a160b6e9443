/* One packing instance: searched, laid out, proved, and all of it checked. */
#include "cli_roof.h"
#include "cli_roof_instances.h"
#include <glib/gi18n-lib.h>
#include <string.h>

/* Of one size that may not turn. */
static bool is_fixed(const WbRoofInstance *instance)
{
    const WbMixItem *item = &instance->items[0];
    return instance->n_items == 1 && !item->turns && item->length_mm != item->width_mm;
}

static int count_of(const WbRoofInstance *instance)
{
    int count = 0;
    for (size_t i = 0; i < instance->n_items; i++)
        count += instance->items[i].count;
    return count;
}

int wb_cli_instance_takes(const WbRoofInstance *instance, const char *file)
{
    const WbMixItem *item = &instance->items[0];
    WbStretch stretch;
    if (!is_fixed(instance) || !instance->most)
        return WB_EXIT_DONE;
    WbStatus status = wb_roof_stretch(&instance->roof, item->length_mm, item->width_mm, &stretch);
    if (status == WB_OK)
        wb_roof_stretch_free(&stretch);
    if (status != WB_BAD_INPUT)
        return status == WB_OK ? WB_EXIT_DONE : wb_cli_fail_status(status);
    return wb_cli_fail(WB_EXIT_WRONG_INPUT,
                       _("%s, line %d: rectangles of %" G_GINT64_FORMAT " x %" G_GINT64_FORMAT
                         " mm that may not turn are too small for a roof of %" G_GINT64_FORMAT
                         " x %" G_GINT64_FORMAT " mm; with most 1 and turns 0, W x H / a or W x H "
                         "/ b up to about 100000 mm is searched."),
                       file, instance->line, item->length_mm, item->width_mm,
                       instance->roof.length_mm, instance->roof.width_mm);
}

static double ms_since(gint64 begun_us)
{
    return (double)(g_get_monotonic_time() - begun_us) / 1e3;
}

/* ---- one size ---- */

/* The roof and the rectangle as they are searched. */
static const WbRoof *roof_of(const WbInstanceAnswer *answer)
{
    return answer->stretched ? &answer->stretch.roof : &answer->instance->roof;
}

static int64_t length_of(const WbInstanceAnswer *answer)
{
    return answer->stretched ? answer->stretch.length_mm : answer->instance->items[0].length_mm;
}

static int64_t width_of(const WbInstanceAnswer *answer)
{
    return answer->stretched ? answer->stretch.width_mm : answer->instance->items[0].width_mm;
}

static void take_layout(WbInstanceAnswer *answer)
{
    answer->n_layout = answer->fit.most;
    answer->layout = g_new0(WbMixPlace, answer->n_layout);
    for (int i = 0; i < answer->n_layout; i++)
        answer->layout[i].rect = answer->stretched
                                     ? wb_roof_unstretch(&answer->stretch, answer->fit.layout[i])
                                     : answer->fit.layout[i];
}

int wb_cli_instance_refuses(const WbInstanceAnswer *answer)
{
    if (!answer->instance->most)
        return answer->answer == WB_FITS_NOT ? answer->asked : 0;
    return answer->fit.bound < answer->fit.at_most ? answer->fit.bound + 1 : 0;
}

static WbStatus prove_one_size(WbInstanceAnswer *answer, uint64_t nodes)
{
    int refused = wb_cli_instance_refuses(answer);
    if (refused == 0)
        return WB_OK;
    gint64 begun_us = g_get_monotonic_time();
    WbStatus status = wb_roof_prove(roof_of(answer), length_of(answer), width_of(answer), refused,
                                    nodes, NULL, &answer->proof);
    answer->proof_ms = ms_since(begun_us);
    return status == WB_BUDGET ? WB_OK : status;
}

static void check_one_size(WbInstanceAnswer *answer)
{
    gint64 begun_us = g_get_monotonic_time();
    answer->proof_ok = answer->proof.kind != WB_PROOF_NONE &&
                       wb_roof_proof_ok(roof_of(answer), length_of(answer), width_of(answer),
                                        &answer->proof, NULL);
    answer->check_ms += ms_since(begun_us);
}

static WbStatus answer_one_size(WbInstanceAnswer *answer, uint64_t nodes)
{
    int at_most = MIN(answer->asked, WB_INSTANCE_PANELS_MOST);
    gint64 begun_us = g_get_monotonic_time();
    WbStatus status = wb_roof_most(roof_of(answer), length_of(answer), width_of(answer), at_most,
                                   nodes, NULL, &answer->fit);
    answer->time_ms = ms_since(begun_us);
    if (status != WB_OK)
        return status;
    answer->nodes = answer->fit.nodes;
    answer->answer = wb_roof_answer(&answer->fit, answer->asked);
    take_layout(answer);
    status = prove_one_size(answer, nodes);
    check_one_size(answer);
    return status;
}

/* ---- a mix ---- */

static WbStatus answer_mix(WbInstanceAnswer *answer, uint64_t nodes)
{
    const WbRoofInstance *instance = answer->instance;
    gint64 begun_us = g_get_monotonic_time();
    WbStatus status =
        wb_mix_fit(&instance->roof, instance->items, instance->n_items, nodes, NULL, &answer->mix);
    answer->time_ms = ms_since(begun_us);
    if (status != WB_OK)
        return status;
    answer->nodes = answer->mix.nodes;
    answer->answer = answer->mix.answer;
    answer->n_layout = answer->mix.n_layout;
    answer->layout = g_memdup2(answer->mix.layout, answer->n_layout * sizeof *answer->layout);
    if (answer->answer != WB_FITS_NOT)
        return WB_OK;
    begun_us = g_get_monotonic_time();
    status =
        wb_mix_why(&instance->roof, instance->items, instance->n_items, &answer->mix, &answer->why);
    answer->check_ms = ms_since(begun_us);
    answer->has_why = answer->proof_ok = status == WB_OK;
    return status == WB_BUDGET ? WB_OK : status;
}

/* ---- both ---- */

/* As many of each size as were laid out. */
static void count_laid(const WbInstanceAnswer *answer, WbMixItem *items)
{
    for (size_t i = 0; i < answer->instance->n_items; i++)
        items[i].count = 0;
    for (int k = 0; k < answer->n_layout; k++)
        items[answer->layout[k].item].count++;
}

static bool layout_of_mix_ok(const WbInstanceAnswer *answer)
{
    const WbRoofInstance *instance = answer->instance;
    WbMixItem items[WB_MIX_SIZES];
    memcpy(items, instance->items, instance->n_items * sizeof *items);
    if (instance->most || answer->answer != WB_FITS)
        count_laid(answer, items);
    return wb_mix_layout_ok(&instance->roof, items, instance->n_items, answer->layout,
                            answer->n_layout);
}

static bool layout_of_equals_ok(const WbInstanceAnswer *answer)
{
    g_autofree WbRect *rects = g_new(WbRect, answer->n_layout + 1);
    for (int i = 0; i < answer->n_layout; i++)
        rects[i] = answer->layout[i].rect;
    return wb_roof_layout_ok(roof_of(answer), length_of(answer), width_of(answer), rects,
                             answer->n_layout, NULL);
}

/* The checker of mixes looks at turns; it is for those too that may not turn, on the true roof. */
static void check_layout(WbInstanceAnswer *answer)
{
    gint64 begun_us = g_get_monotonic_time();
    if (answer->one_size && !answer->stretched)
        answer->layout_ok = layout_of_equals_ok(answer);
    else if (answer->one_size || answer->n_layout > 0)
        answer->layout_ok = layout_of_mix_ok(answer);
    answer->check_ms += ms_since(begun_us);
}

WbStatus wb_cli_instance_answer(const WbRoofInstance *instance, uint64_t nodes,
                                WbInstanceAnswer *answer)
{
    const WbMixItem *item = &instance->items[0];
    *answer = (WbInstanceAnswer){.instance = instance, .asked = count_of(instance)};
    WbStatus status = WB_OK;
    if (is_fixed(instance)) {
        status =
            wb_roof_stretch(&instance->roof, item->length_mm, item->width_mm, &answer->stretch);
        answer->stretched = answer->one_size = status == WB_OK;
        if (status == WB_BAD_INPUT && !instance->most)
            status = WB_OK; /* as a mix */
    } else {
        answer->one_size = instance->n_items == 1;
    }
    if (status != WB_OK)
        return status;
    status = answer->one_size ? answer_one_size(answer, nodes) : answer_mix(answer, nodes);
    if (status == WB_OK)
        check_layout(answer);
    return status;
}

void wb_cli_instance_clear(WbInstanceAnswer *answer)
{
    if (answer->stretched)
        wb_roof_stretch_free(&answer->stretch);
    if (answer->has_why)
        wb_mix_why_free(&answer->why);
    wb_roof_fit_free(&answer->fit);
    wb_mix_fit_free(&answer->mix);
    wb_roof_proof_free(&answer->proof);
    g_free(answer->layout);
    *answer = (WbInstanceAnswer){0};
}

const char *wb_cli_instance_proof_kind(const WbInstanceAnswer *answer)
{
    static const char *const kinds[] = {[WB_PROOF_SIZE] = "size",
                                        [WB_PROOF_AREA] = "area",
                                        [WB_PROOF_WEIGHTS] = "weights",
                                        [WB_PROOF_SEARCH] = "search"};
    static const char *const mix_kinds[] = {[WB_MIX_WHY_SIZE] = "size",
                                            [WB_MIX_WHY_AREA] = "area",
                                            [WB_MIX_WHY_ONE] = "one-size",
                                            [WB_MIX_WHY_CLAUSES] = "clauses"};
    if (answer->has_why)
        return mix_kinds[answer->why.kind];
    return answer->proof.kind != WB_PROOF_NONE ? kinds[answer->proof.kind] : NULL;
}

const char *wb_cli_instance_answer_code(const WbInstanceAnswer *answer)
{
    static const char *const codes[] = {[WB_FITS] = "fits",
                                        [WB_FITS_NOT] = "does-not-fit",
                                        [WB_FIT_UNDECIDED] = "not-decided",
                                        [WB_FIT_WITHIN_1_MM] = "within-1-mm"};
    return answer->instance->most ? wb_cli_roof_answer_code(&answer->fit, answer->proof_ok)
                                  : codes[answer->answer];
}
