#include "problem.h"
#include "anchors.h"
#include "bay.h"
#include "source.h"
#include "wire_stock.h"
#include <stdlib.h>
#include <string.h>

bool wb_brief_ticks(const WbBrief *brief, const char *part_id)
{
    if (!brief->candidates)
        return true;
    for (size_t i = 0; i < brief->n_candidates; i++)
        if (strcmp(brief->candidates[i], part_id) == 0)
            return true;
    return false;
}

static int by_id(const void *a, const void *b)
{
    const WbPart *const *left = a, *const *right = b;
    return strcmp((*left)->id, (*right)->id);
}

/* Ticked parts of one kind in the order of their ids. NULL: out of memory. */
static const WbPart **ticked_parts(const WbBrief *brief, const void *records, size_t n,
                                   WbPartKind kind, size_t *n_ticked)
{
    const WbPart **parts = malloc((n + 1) * sizeof *parts);
    *n_ticked = 0;
    if (!parts)
        return NULL;
    for (size_t i = 0; i < n; i++) {
        const WbPart *part = (const WbPart *)((const char *)records + i * wb_kind_size(kind));
        if (wb_brief_ticks(brief, part->id))
            parts[(*n_ticked)++] = part;
    }
    qsort(parts, *n_ticked, sizeof *parts, by_id);
    return parts;
}

/* The law of one panel at its maximum power point, and its hottest cell. */
static void fill_sun(const WbProblem *problem, WbPanelChoice *choice)
{
    static const WbController tracking = {.technology = WB_CONTROLLER_MPPT, .efficiency = 1};
    static const WbBankVolts no_bank = {0};
    int mounting = problem->brief->site.mounting;
    WbArrayLaw law = wb_array_law(choice->panel, 1, 1, &tracking, 1, mounting, &no_bank);
    wb_array_sums_unit(problem->sun->sums, &law, &choice->unit);
    choice->hottest_cell_c =
        wb_cell_c(1000, problem->plane.hottest_air_c, choice->panel->noct_c, mounting);
}

/* Outlines of this panel's pins; *n of them. NULL: out of memory. */
static WbRect *pinned_outlines(const WbRoof *roof, const WbPanel *panel, int *n)
{
    WbRect *outline = malloc((roof->n_pins + 1) * sizeof *outline);
    *n = 0;
    for (size_t i = 0; outline && i < roof->n_pins; i++) {
        const WbPin *pin = &roof->pins[i];
        if (strcmp(pin->part_id, panel->part.id) == 0)
            outline[(*n)++] =
                (WbRect){pin->x_mm, pin->y_mm, pin->turned ? panel->width_mm : panel->length_mm,
                         pin->turned ? panel->length_mm : panel->width_mm};
    }
    return outline;
}

/* Around the panel's pins where all of them stand free, else without them; the command and the page
 * say which of them does not. */
static WbStatus fill_fit(const WbBrief *brief, WbPanelChoice *choice, WbFitCache *cache,
                         WbControl *control)
{
    const WbPanel *panel = choice->panel;
    int at_most = brief->largest.series * brief->largest.parallel, n;
    WbRect *pinned = pinned_outlines(&brief->roof, panel, &n);
    if (!pinned)
        return WB_NO_MEMORY;
    WbStatus status = wb_fit_cache_most(cache, &brief->roof, panel->length_mm, panel->width_mm,
                                        pinned, n, at_most, WB_ROOF_NODES, control, &choice->fit);
    if (status == WB_BAD_INPUT && n > 0)
        status = wb_fit_cache_most(cache, &brief->roof, panel->length_mm, panel->width_mm, NULL, 0,
                                   at_most, WB_ROOF_NODES, control, &choice->fit);
    free(pinned);
    return status;
}

static WbStatus fill_panels(WbProblem *problem, WbFitCache *cache, WbControl *control)
{
    size_t n;
    const WbPart **parts = ticked_parts(problem->brief, problem->catalogue->panels,
                                        problem->catalogue->n_panels, WB_KIND_PANEL, &n);
    WbStatus status = parts ? WB_OK : WB_NO_MEMORY;
    problem->panels = calloc(n + 1, sizeof *problem->panels);
    if (!problem->panels)
        status = WB_NO_MEMORY;
    for (size_t i = 0; status == WB_OK && i < n; i++) {
        WbPanelChoice *choice = &problem->panels[i];
        choice->panel = (const WbPanel *)parts[i];
        problem->n_panels++;
        if (!wb_source_part(problem, parts[i], choice->panel->mount_kg, &choice->sourced))
            status = WB_NO_MEMORY;
        fill_sun(problem, choice);
        if (status == WB_OK)
            status = fill_fit(problem->brief, choice, cache, control);
        if (wb_control_stopped(control))
            status = WB_STOPPED;
    }
    free(parts);
    return status;
}

static WbStatus fill_controllers(WbProblem *problem)
{
    size_t n;
    const WbPart **parts = ticked_parts(problem->brief, problem->catalogue->controllers,
                                        problem->catalogue->n_controllers, WB_KIND_CONTROLLER, &n);
    problem->controllers = calloc(n + 1, sizeof *problem->controllers);
    bool ok = parts && problem->controllers;
    for (size_t i = 0; ok && i < n; i++) {
        WbControllerChoice *choice = &problem->controllers[problem->n_controllers++];
        choice->controller = (const WbController *)parts[i];
        ok = wb_source_part(problem, parts[i], 0.0, &choice->sourced);
    }
    free(parts);
    return ok ? WB_OK : WB_NO_MEMORY;
}

/* A size that cannot be asked of the bay is told as not decided. */
static WbStatus fill_bay(const WbBrief *brief, WbStorageChoice *choice, WbFitCache *cache,
                         WbControl *control)
{
    const WbStorage *storage = choice->storage;
    WbBox box = {storage->length_mm, storage->width_mm, storage->height_mm, storage->must_not_turn};
    choice->bay_fits = 0;
    choice->bay_bound = brief->largest.bank_series * brief->largest.bank_parallel;
    WbStatus status = wb_bay_most(&brief->bay, &box, choice->bay_bound, WB_ROOF_NODES, cache,
                                  control, &choice->bay_fits, &choice->bay_bound);
    return status == WB_BAD_INPUT ? WB_OK : status;
}

static WbStatus fill_storage(WbProblem *problem, WbFitCache *cache, WbControl *control)
{
    size_t n;
    const WbPart **parts = ticked_parts(problem->brief, problem->catalogue->storage,
                                        problem->catalogue->n_storage, WB_KIND_STORAGE, &n);
    problem->storage = calloc(n + 1, sizeof *problem->storage);
    WbStatus status = parts && problem->storage ? WB_OK : WB_NO_MEMORY;
    for (size_t i = 0; status == WB_OK && i < n; i++) {
        WbStorageChoice *choice = &problem->storage[problem->n_storage++];
        choice->storage = (const WbStorage *)parts[i];
        choice->chemistry = wb_catalogue_chemistry(problem->catalogue, choice->storage->chemistry);
        if (!choice->chemistry)
            status = WB_BAD_INPUT;
        else if (!wb_source_part(problem, parts[i], 0.0, &choice->sourced))
            status = WB_NO_MEMORY;
        else
            status = fill_bay(problem->brief, choice, cache, control);
    }
    free(parts);
    return status;
}

/* A part that is not there costs and weighs nothing. */
static WbSourced no_part(void)
{
    return (WbSourced){.priced = true, .shop = -1};
}

static WbStatus fill_inverters(WbProblem *problem)
{
    size_t n;
    const WbPart **parts = ticked_parts(problem->brief, problem->catalogue->inverters,
                                        problem->catalogue->n_inverters, WB_KIND_INVERTER, &n);
    problem->inverters = calloc(n + 1, sizeof *problem->inverters);
    bool ok = parts && problem->inverters;
    for (size_t i = 0; ok && i <= n; i++) {
        WbInverterChoice *choice = &problem->inverters[problem->n_inverters++];
        choice->inverter = i ? (const WbInverter *)parts[i - 1] : NULL;
        choice->sourced = no_part();
        if (i)
            ok = wb_source_part(problem, parts[i - 1], 0.0, &choice->sourced);
        wb_need(problem->brief, &problem->sky, choice->inverter, &choice->need);
        ok = ok &&
             wb_demand(problem->brief, &problem->sky, choice->inverter, &choice->demand) == WB_OK;
    }
    free(parts);
    return ok ? WB_OK : WB_NO_MEMORY;
}

static WbStatus fill_dcdc(WbProblem *problem)
{
    size_t n;
    const WbPart **parts = ticked_parts(problem->brief, problem->catalogue->dcdc,
                                        problem->catalogue->n_dcdc, WB_KIND_DCDC, &n);
    problem->dcdc = calloc(n + 1, sizeof *problem->dcdc);
    bool ok = parts && problem->dcdc;
    for (size_t i = 0; ok && i <= n; i++) {
        WbDcdcChoice *choice = &problem->dcdc[problem->n_dcdc++];
        choice->dcdc = i ? (const WbDcdc *)parts[i - 1] : NULL;
        choice->sourced = no_part();
        if (i)
            ok = wb_source_part(problem, parts[i - 1], 0.0, &choice->sourced);
    }
    free(parts);
    return ok ? WB_OK : WB_NO_MEMORY;
}

static WbStatus fill_weather(WbProblem *problem, WbSunCache *suns)
{
    const WbCatalogue *catalogue = problem->catalogue;
    WbStatus status = wb_sun_cache_get(suns, &problem->brief->site, &problem->sun);
    if (status != WB_OK)
        return status;
    const WbArrayLaw sun = {.peak_w = 1};
    problem->plane = problem->sun->plane;
    wb_array_sums_unit(problem->sun->sums, &sun, &problem->sun_unit);
    problem->bank_days = calloc(catalogue->n_chemistries + 1, sizeof *problem->bank_days);
    if (!problem->bank_days)
        return WB_NO_MEMORY;
    for (size_t i = 0; i < catalogue->n_chemistries && status == WB_OK; i++)
        status = wb_bank_days(&problem->brief->site, &problem->plane, &catalogue->chemistries[i],
                              &problem->bank_days[i]);
    return status;
}

static WbStatus fill(WbProblem *problem, const WbCaches *caches, WbControl *control)
{
    const WbBrief *brief = problem->brief;
    WbStatus status = wb_sky(&brief->site, &problem->sky);
    if (status == WB_OK)
        status = fill_weather(problem, caches->suns);
    if (status != WB_OK)
        return status;
    problem->design_cold_c = isnan(brief->site.design_cold_c) ? wb_design_cold_c(&brief->site.place)
                                                              : brief->site.design_cold_c;
    wb_load_budget(brief, &problem->sky, &problem->loads);
    problem->reference_need_wh = wb_reference_need_wh(brief, &problem->sky);
    problem->clear_m2 = (double)wb_roof_clear_mm2(&brief->roof) / 1e6;
    wb_fill_anchors(problem);
    wb_fill_weights(problem);
    wb_fill_rank_by(problem);
    if ((status = fill_controllers(problem)) != WB_OK ||
        (status = fill_storage(problem, caches->fits, control)) != WB_OK ||
        (status = fill_inverters(problem)) != WB_OK || (status = fill_dcdc(problem)) != WB_OK ||
        (status = wb_wire_stock_fill(problem)) != WB_OK ||
        (status = fill_panels(problem, caches->fits, control)) != WB_OK)
        return status;
    return problem->n_shops > WB_MOST_SHOPS ? WB_BAD_INPUT : WB_OK;
}

WbStatus wb_problem_new_kept(const WbBrief *brief, const WbCatalogue *catalogue,
                             const WbCaches *caches, WbControl *control, WbProblem **problem)
{
    WbProblem *made = calloc(1, sizeof *made);
    if (!made)
        return WB_NO_MEMORY;
    made->brief = brief;
    made->catalogue = catalogue;
    WbStatus status = fill(made, caches, control);
    if (status != WB_OK) {
        wb_problem_free(made);
        return status;
    }
    *problem = made;
    return WB_OK;
}

WbStatus wb_problem_new_cached(const WbBrief *brief, const WbCatalogue *catalogue,
                               WbFitCache *cache, WbControl *control, WbProblem **problem)
{
    return wb_problem_new_kept(brief, catalogue, &(WbCaches){.fits = cache}, control, problem);
}

WbStatus wb_problem_new(const WbBrief *brief, const WbCatalogue *catalogue, WbControl *control,
                        WbProblem **problem)
{
    WbFitCache *cache = wb_fit_cache_new(WB_FIT_CACHE_BYTES);
    WbStatus status = wb_problem_new_cached(brief, catalogue, cache, control, problem);
    wb_fit_cache_unref(cache);
    return status;
}

WbStatus wb_problem_reweigh(const WbProblem *base, const WbBrief *brief, WbProblem **problem)
{
    WbProblem *made = malloc(sizeof *made);
    if (!made)
        return WB_NO_MEMORY;
    *made = *base;
    made->borrowed = true;
    made->brief = brief;
    wb_fill_anchors(made);
    wb_fill_weights(made);
    wb_fill_rank_by(made);
    *problem = made;
    return WB_OK;
}

void wb_problem_free(WbProblem *problem)
{
    if (!problem)
        return;
    if (problem->borrowed) {
        free(problem);
        return;
    }
    for (size_t i = 0; i < problem->n_panels; i++)
        wb_roof_fit_free(&problem->panels[i].fit);
    for (size_t i = 0; i < problem->n_inverters; i++)
        wb_demand_free(&problem->inverters[i].demand);
    for (size_t i = 0; problem->bank_days && i < problem->catalogue->n_chemistries; i++)
        wb_bank_days_free(&problem->bank_days[i]);
    free(problem->bank_days);
    wb_site_sun_unref(problem->sun);
    free(problem->panels);
    free(problem->controllers);
    free(problem->storage);
    free(problem->inverters);
    free(problem->dcdc);
    free(problem->shops);
    wb_wire_stock_free(&problem->wires);
    free(problem);
}
