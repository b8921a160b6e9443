/* Each ticked panel alone, then pairs of twelve (where three or fewer are left, all of them at
 * once), are asked for their best mixes; of all answers the front by watts and money is kept. Pairs
 * of all would take minutes on a slanted roof. The twelve: those that give most watts alone, since
 * what is weak alone is seldom part of the strongest mix; and of the others that fit at all those
 * of most watts each, which are weak alone only because so few of them go on the roof, and which
 * small ones fill up. */
#include "cli_roof_mix.h"
#include "money.h"
#include <math.h>
#include <string.h>

typedef struct {
    const WbPanel *panel;
    WbMixModel model;
    double most_w; /* alone */
} Choice;

typedef struct {
    const Choice *choice[WB_MIX_MODELS];
    size_t n;
    double most_w; /* of its best mix; 0: it has none */
    int undecided;
    bool proved; /* it has no mix of more watts */
} Set;

WbMixModel wb_cli_mix_model(const WbRoofReport *report, const WbPanel *panel)
{
    int64_t price_minor;
    bool priced =
        wb_best_offer(report->brief, report->catalogue, panel->part.id, &price_minor) != NULL;
    return (WbMixModel){panel->length_mm, panel->width_mm, panel->power_w,
                        priced ? price_minor : -1, panel->part.weight_kg + panel->mount_kg};
}

/* ---- which models ---- */

static int64_t price_of(const WbMixModel *model)
{
    return model->price_minor < 0 ? INT64_MAX : model->price_minor;
}

/* In any mix this one may stand where the other stands, and nothing gets worse. */
static bool as_good(const WbMixModel *a, const WbMixModel *b)
{
    return MAX(a->length_mm, a->width_mm) <= MAX(b->length_mm, b->width_mm) &&
           MIN(a->length_mm, a->width_mm) <= MIN(b->length_mm, b->width_mm) &&
           a->power_w >= b->power_w && price_of(a) <= price_of(b) && a->load_kg <= b->load_kg;
}

/* Of two that are as good as each other the first stays. */
static bool not_needed(const GArray *all, guint at)
{
    const Choice *choice = &g_array_index(all, Choice, at);
    for (guint i = 0; i < all->len; i++) {
        const Choice *other = &g_array_index(all, Choice, i);
        if (i != at && as_good(&other->model, &choice->model) &&
            (i < at || !as_good(&choice->model, &other->model)))
            return true;
    }
    return false;
}

static bool may_stand(const WbBrief *brief, const WbPanel *panel)
{
    return brief->roof.max_height_mm == 0 ||
           wb_cli_roof_top_mm(brief, panel) <= brief->roof.max_height_mm;
}

/* The panel asked for stands first and stays, whatever the others are. */
static GArray *find_choices(const WbRoofReport *report, WbRoofMixes *mixes)
{
    g_autoptr(GArray) all = g_array_new(FALSE, FALSE, sizeof(Choice));
    GArray *kept = g_array_new(FALSE, FALSE, sizeof(Choice));
    for (size_t i = 0; i < report->catalogue->n_panels; i++) {
        const WbPanel *panel = &report->catalogue->panels[i];
        const Choice choice = {panel, wb_cli_mix_model(report, panel), 0};
        if (g_strcmp0(panel->part.id, report->panel) == 0)
            g_array_append_val(kept, choice);
        else if (!wb_brief_ticks(report->brief, panel->part.id))
            continue;
        else if (may_stand(report->brief, panel))
            g_array_append_val(all, choice);
        else
            mixes->n_too_high++;
    }
    mixes->n_panels = all->len + kept->len;
    for (guint i = 0; i < all->len; i++)
        if (!not_needed(all, i))
            g_array_append_val(kept, g_array_index(all, Choice, i));
    mixes->n_left_out = mixes->n_panels - kept->len;
    return kept;
}

/* ---- asking ---- */

static void clear_row(gpointer item)
{
    WbMixRow *row = item;
    free(row->best.layout);
}

static size_t items_of(const WbMixRow *row, WbMixItem *items)
{
    for (size_t k = 0; k < row->n_models; k++)
        items[k] = (WbMixItem){row->panel[k]->length_mm, row->panel[k]->width_mm,
                               row->best.count[k], true};
    return row->n_models;
}

/* The rows take the layouts. */
static void take_rows(const WbRoofReport *report, WbRoofMixes *mixes, const Set *set,
                      const WbMixBest *best, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        WbMixItem items[WB_MIX_MODELS];
        WbMixRow row = {.n_models = set->n, .best = best[i]};
        for (size_t k = 0; k < set->n; k++)
            row.panel[k] = set->choice[k]->panel;
        size_t n_items = items_of(&row, items);
        row.layout_ok = wb_mix_layout_ok(&report->brief->roof, items, n_items, row.best.layout,
                                         row.best.n_layout);
        g_array_append_val(mixes->rows, row);
    }
}

static WbStatus ask_set(const WbRoofReport *report, WbRoofMixes *mixes, Set *set)
{
    WbMixModel models[WB_MIX_MODELS];
    WbMixBest *best;
    size_t n;
    for (size_t k = 0; k < set->n; k++)
        models[k] = set->choice[k]->model;
    WbStatus status = wb_mix_best(&report->brief->roof, models, set->n, WB_MIX_PANELS_MOST,
                                  report->nodes, NULL, &best, &n, &set->undecided);
    if (status != WB_OK)
        return status;
    take_rows(report, mixes, set, best, n);
    set->most_w = n > 0 ? best[0].power_w : 0;
    set->proved = n > 0 ? best[0].proved : set->undecided == 0;
    free(best);
    return WB_OK;
}

/* Asks one more set. */
static WbStatus add_set(const WbRoofReport *report, WbRoofMixes *mixes, Set *set)
{
    WbStatus status = ask_set(report, mixes, set);
    mixes->undecided += set->undecided;
    mixes->most_proved = mixes->most_proved && set->proved;
    mixes->n_sets++;
    return status;
}

static int by_most_watts(gconstpointer a, gconstpointer b)
{
    const Choice *x = a, *y = b;
    return x->most_w == y->most_w ? 0 : x->most_w > y->most_w ? -1 : 1;
}

static WbStatus ask_singles(const WbRoofReport *report, WbRoofMixes *mixes, GArray *choices)
{
    WbStatus status = WB_OK;
    for (guint i = 0; i < choices->len && status == WB_OK; i++) {
        Choice *choice = &g_array_index(choices, Choice, i);
        Set alone = {.choice = {choice}, .n = 1};
        status = add_set(report, mixes, &alone);
        choice->most_w = alone.most_w;
        /* The one asked for stays first, whatever it gives. */
        if (report->panel != NULL && i == 0)
            choice->most_w = INFINITY;
    }
    g_array_sort(choices, by_most_watts); /* stable: equal ones stay in the order of the ids */
    while (choices->len > 0 && g_array_index(choices, Choice, choices->len - 1).most_w <= 0)
        g_array_set_size(choices, choices->len - 1);
    return status;
}

/* Brings the largest of those from `at` on there. They stand by watts alone, then by their ids:
 * of equal ones the first is taken. */
static void bring_largest(GArray *choices, guint at)
{
    guint largest = at;
    for (guint i = at + 1; i < choices->len; i++)
        if (g_array_index(choices, Choice, i).model.power_w >
            g_array_index(choices, Choice, largest).model.power_w)
            largest = i;
    const Choice choice = g_array_index(choices, Choice, largest);
    g_array_remove_index(choices, largest);
    g_array_insert_val(choices, at, choice);
}

static void choose_mixed(WbRoofMixes *mixes, GArray *choices)
{
    mixes->n_mixed = MIN(choices->len, WB_MIX_STRONGEST + WB_MIX_LARGEST);
    mixes->n_strongest = MIN(choices->len, WB_MIX_STRONGEST);
    for (guint i = WB_MIX_STRONGEST; i < mixes->n_mixed; i++)
        bring_largest(choices, i);
    for (guint i = 0; i < mixes->n_mixed; i++)
        mixes->mixed[i] = g_array_index(choices, Choice, i).panel;
}

static WbStatus ask_pairs(const WbRoofReport *report, WbRoofMixes *mixes, const GArray *choices)
{
    WbStatus status = WB_OK;
    guint n = (guint)mixes->n_mixed, n_first = report->panel == NULL ? n : 1;
    for (guint i = 0; i < n_first && status == WB_OK; i++)
        for (guint j = i + 1; j < n && status == WB_OK; j++) {
            Set pair = {
                .choice = {&g_array_index(choices, Choice, i), &g_array_index(choices, Choice, j)},
                .n = 2};
            status = add_set(report, mixes, &pair);
        }
    return status;
}

static WbStatus ask_sets(const WbRoofReport *report, WbRoofMixes *mixes, GArray *choices)
{
    mixes->most_proved = true;
    WbStatus status = ask_singles(report, mixes, choices);
    if (status != WB_OK)
        return status;
    choose_mixed(mixes, choices);
    if (choices->len > WB_MIX_MODELS)
        return ask_pairs(report, mixes, choices);
    Set all = {.n = choices->len};
    for (guint i = 0; i < choices->len; i++)
        all.choice[i] = &g_array_index(choices, Choice, i);
    return all.n > 1 ? add_set(report, mixes, &all) : WB_OK;
}

/* ---- the front of all ---- */

static int64_t row_price(const WbMixRow *row)
{
    return row->best.price_minor < 0 ? INT64_MAX : row->best.price_minor;
}

static int by_watts(gconstpointer a, gconstpointer b)
{
    const WbMixRow *x = a, *y = b;
    if (x->best.power_w != y->best.power_w)
        return x->best.power_w > y->best.power_w ? -1 : 1;
    if (row_price(x) != row_price(y))
        return row_price(x) < row_price(y) ? -1 : 1;
    if (x->best.n_layout != y->best.n_layout)
        return x->best.n_layout - y->best.n_layout;
    /* The same mix of a larger set says more: of each of its models one more can be asked. */
    return (int)y->n_models - (int)x->n_models;
}

static void keep_front(WbRoofMixes *mixes)
{
    int64_t cheapest_minor = INT64_MAX;
    g_array_sort(mixes->rows, by_watts); /* stable: equal ones stay in the order of the ids */
    for (guint i = 0; i < mixes->rows->len;) {
        const WbMixRow *row = &g_array_index(mixes->rows, WbMixRow, i);
        if (i > 0 && row_price(row) >= cheapest_minor) {
            g_array_remove_index(mixes->rows, i);
            continue;
        }
        cheapest_minor = row_price(row);
        i++;
    }
}

static void mark_per_money(WbRoofMixes *mixes)
{
    WbMixRow *least = NULL;
    for (guint i = 0; i < mixes->rows->len; i++) {
        WbMixRow *row = &g_array_index(mixes->rows, WbMixRow, i);
        if (row->best.price_minor > 0 && row->best.power_w > 0 &&
            (least == NULL || (double)row->best.price_minor / row->best.power_w <
                                  (double)least->best.price_minor / least->best.power_w))
            least = row;
    }
    if (least != NULL)
        least->per_money = true;
}

/* ---- one more than the mix of most watts ---- */

static void clear_one_more(WbRoofMixes *mixes)
{
    for (size_t k = 0; k < mixes->n_one_more; k++) {
        if (mixes->one_more[k].told)
            wb_mix_why_free(&mixes->one_more[k].why);
        wb_mix_fit_free(&mixes->one_more[k].fit);
    }
    memset(mixes->one_more, 0, sizeof mixes->one_more);
    mixes->n_one_more = 0;
}

static WbStatus ask_one_more(const WbRoofReport *report, const WbMixRow *row, size_t which,
                             WbMixOneMore *more)
{
    const WbRoof *roof = &report->brief->roof;
    const WbPanel *panel = row->panel[which];
    WbMixItem items[WB_MIX_MODELS];
    size_t n = items_of(row, items);
    items[which].count++;
    more->panel = panel;
    more->over_load =
        row->best.load_kg + panel->part.weight_kg + panel->mount_kg > roof->max_load_kg;
    if (more->over_load)
        return WB_OK;
    WbStatus status = wb_mix_fit(roof, items, n, report->nodes, NULL, &more->fit);
    if (status != WB_OK || more->fit.answer != WB_FITS_NOT)
        return status;
    status = wb_mix_why(roof, items, n, &more->fit, &more->why);
    more->told = status == WB_OK;
    return status == WB_BUDGET ? WB_OK : status;
}

/* The first row with one panel more, whose layout it takes: more watts than all others. */
static void put_first(const WbRoofReport *report, WbRoofMixes *mixes, size_t which)
{
    WbMixRow row = g_array_index(mixes->rows, WbMixRow, 0);
    WbMixFit *fit = &mixes->one_more[which].fit;
    const WbMixModel model = wb_cli_mix_model(report, row.panel[which]);
    WbMixItem items[WB_MIX_MODELS];
    row.best.count[which]++;
    row.best.power_w += model.power_w;
    row.best.load_kg += model.load_kg;
    row.best.price_minor = row.best.price_minor < 0 || model.price_minor < 0
                               ? -1
                               : row.best.price_minor + model.price_minor;
    row.best.layout = g_steal_pointer(&fit->layout);
    row.best.n_layout = fit->n_layout;
    row.best.proved = false;
    size_t n_items = items_of(&row, items);
    row.layout_ok =
        wb_mix_layout_ok(&report->brief->roof, items, n_items, row.best.layout, row.best.n_layout);
    g_array_prepend_val(mixes->rows, row);
}

/* The search of a whole set spreads its budget thin; one question alone may still find one more.
 * *grown: it did, the first row is another. */
static WbStatus ask_beside_first(const WbRoofReport *report, WbRoofMixes *mixes, bool *grown)
{
    const WbMixRow first = g_array_index(mixes->rows, WbMixRow, 0);
    *grown = false;
    clear_one_more(mixes);
    for (size_t k = 0; k < first.n_models; k++) {
        WbMixOneMore *more = &mixes->one_more[mixes->n_one_more++];
        WbStatus status = ask_one_more(report, &first, k, more);
        if (status != WB_OK)
            return status;
        if (more->fit.answer == WB_FITS && more->fit.n_layout > 0 &&
            first.best.n_layout < WB_MIX_PANELS_MOST && first.panel[k]->power_w > 0) {
            put_first(report, mixes, k);
            *grown = true;
            return WB_OK;
        }
    }
    return WB_OK;
}

static WbStatus find_mixes(const WbRoofReport *report, WbRoofMixes *mixes)
{
    mixes->rows = g_array_new(FALSE, FALSE, sizeof(WbMixRow));
    g_array_set_clear_func(mixes->rows, clear_row);
    g_autoptr(GArray) choices = find_choices(report, mixes);
    WbStatus status = ask_sets(report, mixes, choices);
    if (status != WB_OK)
        return status;
    keep_front(mixes);
    bool grown = mixes->rows->len > 0;
    while (grown && status == WB_OK)
        status = ask_beside_first(report, mixes, &grown);
    mark_per_money(mixes);
    return status;
}

int wb_cli_roof_mixes(WbRoofReport *report)
{
    report->mixes = g_new0(WbRoofMixes, 1);
    WbStatus status = find_mixes(report, report->mixes);
    return status == WB_OK ? WB_EXIT_DONE : wb_cli_fail_status(status);
}

void wb_cli_roof_mixes_free(WbRoofMixes *mixes)
{
    if (mixes == NULL)
        return;
    clear_one_more(mixes);
    g_array_unref(mixes->rows);
    g_free(mixes);
}
