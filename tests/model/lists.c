/* The list models announce exactly what changed, and rows outlive it. */
#include "kit_list.h"
#include "load_list.h"
#include "part_list.h"
#include "rig.h"
#include <math.h>

/* ---- loads ---- */

static void on_row_changed(WbLoadRow *row, guint *n)
{
    (*n)++;
}

static void test_load_list(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_assert_true(wb_document_begin_demo(document, NULL));
    g_autoptr(WbLoadList) list = wb_load_list_new(document);
    RigMirror mirror;
    rig_mirror_begin(&mirror, G_LIST_MODEL(list));
    guint n = g_list_model_get_n_items(G_LIST_MODEL(list));
    g_assert_cmpuint(n, >=, 9);
    WbLoadRow *third = mirror.items->pdata[2];
    guint told = 0;
    g_signal_connect(third, "changed", G_CALLBACK(on_row_changed), &told);
    wb_document_set_number(document, "Change watts", "/loads/2/watts", 77, NULL);
    g_assert_cmpuint(told, ==, 1);
    g_assert_cmpuint(mirror.changes, ==, 0); /* the cell being edited stays where it is */
    g_assert_cmpfloat(wb_load_row_get_load(third)->power_w, ==, 77);
    wb_document_set_text(document, "Rename", "/name", "Other", NULL);
    g_assert_cmpuint(told, ==, 1);
    g_assert_true(wb_load_add(document, 1, NULL));
    g_assert_cmpuint(mirror.changes, ==, 1);
    g_assert_cmpuint(wb_load_row_get_index(third), ==, 3);
    g_assert_cmpfloat(wb_load_row_get_load(third)->power_w, ==, 77);
    g_assert_true(wb_load_remove(document, 0, NULL));
    g_assert_cmpuint(wb_load_row_get_index(third), ==, 2);
    while (wb_document_undo(document))
        rig_mirror_check(&mirror);
    g_assert_cmpuint(g_list_model_get_n_items(G_LIST_MODEL(list)), ==, n);
    for (guint i = 0; i < n; i++)
        g_assert_cmpuint(wb_load_row_get_index(mirror.items->pdata[i]), ==, i);
    wb_document_begin_new(document, NULL);
    rig_mirror_check(&mirror);
    rig_mirror_end(&mirror);
}

/* Every row shows what the brief holds, after a random walk of edits with a logged seed. */
static void test_load_list_walk(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_assert_true(wb_document_begin_demo(document, NULL));
    g_autoptr(WbLoadList) list = wb_load_list_new(document);
    RigMirror mirror;
    rig_mirror_begin(&mirror, G_LIST_MODEL(list));
    for (int i = 0; i < 200; i++) {
        guint n = g_list_model_get_n_items(G_LIST_MODEL(list));
        guint at = n ? (guint)g_test_rand_int_range(0, (int)n) : 0;
        switch (g_test_rand_int_range(0, 6)) {
        case 0:
            wb_load_add(document, at, NULL);
            break;
        case 1:
            if (n > 1)
                wb_load_remove(document, at, NULL);
            break;
        case 2:
            if (n)
                wb_load_duplicate(document, at, NULL);
            break;
        case 3:
            if (n)
                wb_load_move(document, at, (guint)g_test_rand_int_range(0, (int)n), NULL);
            break;
        case 4:
            wb_document_undo(document);
            break;
        default:
            wb_document_redo(document);
        }
        rig_mirror_check(&mirror);
        const WbBrief *brief = wb_document_get_brief(document);
        g_assert_cmpuint(brief->n_loads, ==, mirror.items->len);
        for (guint j = 0; j < mirror.items->len; j++) {
            g_assert_cmpuint(wb_load_row_get_index(mirror.items->pdata[j]), ==, j);
            g_assert_cmpstr(wb_load_row_get_load(mirror.items->pdata[j])->name, ==,
                            brief->loads[j].name);
        }
    }
    rig_mirror_end(&mirror);
}

/* ---- parts ---- */

static double price_of(WbPartRow *row)
{
    gint64 minor;
    return wb_part_row_get_price(row, &minor) ? (double)minor : NAN;
}

static void check_order(RigMirror *mirror, double (*figure)(WbPartRow *), gboolean descending)
{
    for (guint i = 1; i < mirror->items->len; i++) {
        double a = figure(mirror->items->pdata[i - 1]), b = figure(mirror->items->pdata[i]);
        if (isnan(a))
            g_assert_true(isnan(b)); /* missing figures stand last */
        else if (!isnan(b))
            g_assert_true(descending ? a >= b : a <= b);
    }
}

static void test_part_order(void)
{
    static const struct {
        WbPartKind kind;
        const char *key;
        double (*figure)(WbPartRow *);
    } cases[] = {
        {WB_KIND_PANEL, "price", price_of},
        {WB_KIND_PANEL, "per_watt", wb_part_row_get_per_watt},
        {WB_KIND_STORAGE, "per_usable_wh", wb_part_row_get_per_usable_wh},
        {WB_KIND_STORAGE, "per_kg", wb_part_row_get_per_kg},
        {WB_KIND_INVERTER, "per_watt", wb_part_row_get_per_watt},
    };
    g_autoptr(WbDocument) document = rig_document();
    for (gsize i = 0; i < G_N_ELEMENTS(cases); i++) {
        g_autoptr(WbPartList) list = wb_part_list_new(document, cases[i].kind);
        RigMirror mirror;
        rig_mirror_begin(&mirror, G_LIST_MODEL(list));
        g_assert_cmpuint(mirror.items->len, >, 10);
        for (int descending = 0; descending < 2; descending++) {
            g_assert_true(wb_part_list_set_sort(list, cases[i].key, descending));
            rig_mirror_check(&mirror);
            check_order(&mirror, cases[i].figure, descending);
        }
        rig_mirror_end(&mirror);
    }
}

static void test_part_sort_keys(void)
{
    g_autoptr(WbDocument) document = rig_document();
    for (int kind = 0; kind < WB_N_KINDS; kind++) {
        g_autoptr(WbPartList) list = wb_part_list_new(document, kind);
        gsize n;
        const WbField *fields = wb_part_fields(kind, &n);
        for (gsize i = 0; i < n; i++)
            g_assert_true(wb_part_list_set_sort(list, fields[i].key, i % 2));
        g_assert_false(wb_part_list_set_sort(list, "no such key", FALSE));
        g_assert_cmpuint(g_list_model_get_n_items(G_LIST_MODEL(list)), ==,
                         wb_part_list_get_total(list));
    }
}

static void test_part_filter(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_autoptr(WbPartList) list = wb_part_list_new(document, WB_KIND_STORAGE);
    RigMirror mirror;
    rig_mirror_begin(&mirror, G_LIST_MODEL(list));
    guint all = mirror.items->len;
    wb_part_list_set_filter(list, "LFP");
    g_assert_cmpuint(mirror.items->len, >, 0);
    g_assert_cmpuint(mirror.items->len, <, all);
    for (guint i = 0; i < mirror.items->len; i++)
        g_assert_cmpstr(
            ((const WbStorage *)wb_part_row_get_part(mirror.items->pdata[i]))->chemistry, ==,
            "lfp");
    g_assert_cmpuint(wb_part_list_get_total(list), ==, all);
    wb_part_list_set_filter(list, "lfp zzzzzz");
    g_assert_cmpuint(mirror.items->len, ==, 0);
    wb_part_list_set_filter(list, NULL);
    g_assert_cmpuint(mirror.items->len, ==, all);
    rig_mirror_end(&mirror);
}

static void on_part_changed(WbPartRow *row, guint *n)
{
    (*n)++;
}

static void test_part_ticks(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_autoptr(WbPartList) list = wb_part_list_new(document, WB_KIND_PANEL);
    RigMirror mirror;
    rig_mirror_begin(&mirror, G_LIST_MODEL(list));
    WbPartRow *row = mirror.items->pdata[1];
    guint told = 0, told_other = 0;
    g_signal_connect(row, "changed", G_CALLBACK(on_part_changed), &told);
    g_signal_connect(mirror.items->pdata[2], "changed", G_CALLBACK(on_part_changed), &told_other);
    guint before = wb_part_list_get_ticked(list);
    g_assert_true(wb_document_tick(document, wb_part_row_get_id(row), FALSE, NULL));
    g_assert_false(wb_part_row_get_ticked(row));
    g_assert_cmpuint(told, ==, 1);
    g_assert_cmpuint(told_other, ==, 0);
    g_assert_cmpuint(mirror.changes, ==, 0);
    g_assert_cmpuint(wb_part_list_get_ticked(list), ==, before - 1);
    wb_part_list_set_sort(list, "ticked", FALSE);
    g_assert_true(mirror.items->pdata[0] == row); /* unticked stand first */
    wb_document_undo(document);
    rig_mirror_check(&mirror);
    g_assert_true(wb_part_row_get_ticked(row));
    rig_mirror_end(&mirror);
}

static void test_part_texts(void)
{
    g_autoptr(WbDocument) document = rig_document();
    for (int kind = 0; kind < WB_N_KINDS; kind++) {
        g_autoptr(WbPartList) list = wb_part_list_new(document, kind);
        gsize n;
        const WbField *fields = wb_part_fields(kind, &n);
        for (guint i = 0; i < g_list_model_get_n_items(G_LIST_MODEL(list)); i++) {
            g_autoptr(WbPartRow) row = g_list_model_get_item(G_LIST_MODEL(list), i);
            g_autofree char *title = wb_part_row_dup_title(row);
            g_assert_cmpuint(strlen(title), >, 0);
            for (gsize f = 0; f < n; f++) {
                g_autofree char *text = wb_part_row_dup_field(row, &fields[f]);
                g_assert_true(g_utf8_validate(text, -1, NULL));
                g_assert_null(strstr(text, "nan"));
            }
        }
    }
}

/* A new catalogue: the rows are others, and the list says so. */
static void test_part_new_view(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_autoptr(WbCatalogueView) view = rig_view();
    g_autoptr(WbPartList) list = wb_part_list_new(document, WB_KIND_PANEL);
    RigMirror mirror;
    rig_mirror_begin(&mirror, G_LIST_MODEL(list));
    gpointer before = mirror.items->pdata[0];
    wb_document_set_view(document, view);
    g_assert_cmpuint(mirror.changes, ==, 1);
    g_assert_true(mirror.items->pdata[0] != before);
    rig_mirror_check(&mirror);
    rig_mirror_end(&mirror);
}

/* ---- kits ---- */

static WbResult *demo_result(void)
{
    g_autoptr(WbDocument) document = rig_document();
    wb_document_begin_demo(document, NULL);
    WbRankOptions options = wb_rank_options_default();
    options.top = 300;
    return wb_result_make(wb_document_get_file(document), wb_document_get_view(document), &options,
                          NULL, NULL);
}

static guint all_kits(const WbRanking *ranking)
{
    guint n = (guint)(ranking->n_top + ranking->n_front);
    for (guint i = 0; i < ranking->n_top; i++)
        n -= ranking->top[i].on_front;
    return n;
}

static void test_kit_list(void)
{
    g_autoptr(WbResult) result = demo_result();
    g_autoptr(WbKitList) list = wb_kit_list_new();
    RigMirror mirror;
    guint at;
    rig_mirror_begin(&mirror, G_LIST_MODEL(list));
    wb_kit_list_set_result(list, result);
    g_assert_cmpuint(mirror.changes, ==, 1);
    gsize n_top = wb_result_get_ranking(result)->n_top;
    g_assert_cmpuint(mirror.items->len, ==, all_kits(wb_result_get_ranking(result)));
    for (guint i = 0; i < mirror.items->len; i++) {
        g_assert_cmpuint(wb_kit_row_get_rank(mirror.items->pdata[i]), ==, i < n_top ? i + 1 : 0);
        g_assert_true(wb_kit_list_find(list, wb_kit_row_get_id(mirror.items->pdata[i]), &at));
        g_assert_cmpuint(at, ==, i);
    }
    for (int criterion = 0; criterion < WB_N_CRITERIA; criterion++)
        for (int descending = 0; descending < 2; descending++) {
            wb_kit_list_set_order(list, criterion, descending);
            for (guint i = 1; i < mirror.items->len; i++) {
                double a = wb_kit_row_get_figure(mirror.items->pdata[i - 1], criterion);
                double b = wb_kit_row_get_figure(mirror.items->pdata[i], criterion);
                g_assert_true(descending ? a >= b : a <= b);
            }
        }
    wb_kit_list_set_front_only(list, TRUE);
    for (guint i = 0; i < mirror.items->len; i++)
        g_assert_true(wb_kit_row_get_ranked(mirror.items->pdata[i])->on_front);
    wb_kit_list_set_front_only(list, FALSE);
    wb_kit_list_set_chemistry(list, "no such chemistry");
    g_assert_cmpuint(mirror.items->len, ==, 0);
    wb_kit_list_set_chemistry(list, NULL);
    wb_kit_list_set_result(list, NULL);
    g_assert_cmpuint(mirror.items->len, ==, 0);
    g_assert_false(wb_kit_list_find(list, "anything", &at));
    rig_mirror_end(&mirror);
}

/* A place keeps its row and shows another kit; a row nobody holds is made anew; one whose place
 * went keeps the kit it had. */
static void test_kit_places(void)
{
    g_autoptr(WbResult) result = demo_result();
    g_autoptr(WbKitList) list = wb_kit_list_new();
    GListModel *model = G_LIST_MODEL(list);
    wb_kit_list_set_result(list, result);
    g_autoptr(WbKitRow) row = g_list_model_get_item(model, 5);
    g_autofree char *sixth = g_strdup(wb_kit_row_get_id(row));
    wb_kit_list_set_order(list, -1, TRUE);
    g_autoptr(WbKitRow) same = g_list_model_get_item(model, 5);
    g_assert_true(same == row);
    g_assert_cmpuint(wb_kit_row_get_rank(row), !=, 6);
    g_assert_cmpuint(wb_kit_row_get_position(row), ==, 5);
    g_assert_cmpstr(wb_kit_row_get_id(row), !=, sixth);
    WbKitRow *passing = g_list_model_get_item(model, 7);
    g_assert_finalize_object(passing);
    g_autoptr(WbKitRow) again = g_list_model_get_item(model, 7);
    g_assert_cmpuint(wb_kit_row_get_position(again), ==, 7);
    wb_kit_list_set_order(list, -1, FALSE);
    g_assert_cmpstr(wb_kit_row_get_id(row), ==, sixth);
    wb_kit_list_set_result(list, NULL);
    g_assert_cmpstr(wb_kit_row_get_id(row), ==, sixth);
    g_assert_cmpuint(wb_kit_row_get_rank(row), ==, 6);
}

/* ---- filters ---- */

/* What passes is what a look at every kit says, and none is lost. */
static void check_filter(WbKitList *list, const WbKitFilter *filter, WbResult *result)
{
    const WbRanking *ranking = wb_result_get_ranking(result);
    guint n = 0;
    wb_kit_list_set_filter(list, filter);
    g_assert_true(wb_kit_filter_equal(wb_kit_list_get_filter(list), filter));
    for (gsize i = 0; i < ranking->n_top; i++)
        n += wb_kit_filter_passes(filter, wb_result_get_problem(result), &ranking->top[i]);
    guint seen = 0;
    for (guint i = 0; i < g_list_model_get_n_items(G_LIST_MODEL(list)); i++) {
        g_autoptr(WbKitRow) row = g_list_model_get_item(G_LIST_MODEL(list), i);
        g_assert_true(wb_kit_filter_passes(filter, wb_result_get_problem(result),
                                           wb_kit_row_get_ranked(row)));
        seen += wb_kit_row_get_rank(row) > 0;
    }
    g_assert_cmpuint(seen, ==, n);
}

static void test_kit_filter(void)
{
    g_autoptr(WbResult) result = demo_result();
    g_autoptr(WbKitList) list = wb_kit_list_new();
    const WbRanking *ranking = wb_result_get_ranking(result);
    const WbProblem *problem = wb_result_get_problem(result);
    const WbRanked *first = &ranking->top[0];
    const WbPart *panel = &problem->panels[first->kit.panel].panel->part;
    wb_kit_list_set_result(list, result);
    WbKitFilter filter = wb_kit_filter_none();
    g_assert_true(wb_kit_filter_passes(&filter, problem, first));
    double cost = wb_figure(&first->figures, WB_CRITERION_COST);
    double usable = wb_figure(&first->figures, WB_CRITERION_USABLE);
    filter.part = g_strdup(panel->id);
    check_filter(list, &filter, result);
    g_assert_true(wb_kit_filter_passes(&filter, problem, first));
    filter.system_v = wb_kit_system_v(problem, &first->kit);
    g_assert_cmpint(filter.system_v, >, 0);
    check_filter(list, &filter, result);
    filter.bound[WB_CRITERION_COST] = cost; /* the figure itself passes */
    filter.bound[WB_CRITERION_USABLE] = usable;
    g_assert_true(wb_kit_filter_passes(&filter, problem, first));
    check_filter(list, &filter, result);
    filter.bound[WB_CRITERION_COST] = cost - 1;
    g_assert_false(wb_kit_filter_passes(&filter, problem, first));
    filter.bound[WB_CRITERION_COST] = NAN;
    filter.bound[WB_CRITERION_USABLE] = usable + 1; /* more is better: at least */
    g_assert_false(wb_kit_filter_passes(&filter, problem, first));
    filter.bound[WB_CRITERION_USABLE] = NAN;
    filter.brushed = TRUE;
    filter.brush[0] = (WbKitRange){WB_CRITERION_COST, cost, cost};
    filter.brush[1] = (WbKitRange){WB_CRITERION_USABLE, usable - 1, usable + 1};
    g_assert_true(wb_kit_filter_passes(&filter, problem, first));
    check_filter(list, &filter, result);
    filter.brush[1].low = usable + 0.5;
    g_assert_false(wb_kit_filter_passes(&filter, problem, first));
    wb_kit_filter_clear(&filter);
    check_filter(list, &filter, result);
    g_assert_cmpuint(g_list_model_get_n_items(G_LIST_MODEL(list)), ==, all_kits(ranking));
}

/* A figure nobody knows is not within anything. */
static void test_kit_filter_unknown(void)
{
    WbRanked ranked = {.figures.dark_h = NAN};
    WbProblem problem = {0};
    WbKitFilter filter = wb_kit_filter_none();
    g_assert_true(wb_kit_filter_passes(&filter, &problem, &ranked));
    filter.bound[WB_CRITERION_DARK] = 1000;
    g_assert_false(wb_kit_filter_passes(&filter, &problem, &ranked));
    ranked.figures.dark_h = 1000;
    g_assert_true(wb_kit_filter_passes(&filter, &problem, &ranked));
}

/* The same kit is found again in the next result. */
static void test_kit_survives(void)
{
    g_autoptr(WbResult) first = demo_result();
    g_autoptr(WbResult) second = demo_result();
    g_autoptr(WbKitList) list = wb_kit_list_new();
    guint at;
    wb_kit_list_set_result(list, first);
    g_autoptr(WbKitRow) row = g_list_model_get_item(G_LIST_MODEL(list), 5);
    wb_kit_list_set_result(list, second);
    g_assert_true(wb_kit_list_find(list, wb_kit_row_get_id(row), &at));
    g_assert_cmpuint(at, ==, 5);
}

/* ---- ends ---- */

static void test_finalization(void)
{
    WbDocument *document = rig_document();
    WbLoadList *loads = wb_load_list_new(document);
    WbPartList *parts = wb_part_list_new(document, WB_KIND_FUSE);
    WbKitList *kits = wb_kit_list_new();
    g_assert_finalize_object(loads);
    g_assert_finalize_object(parts);
    g_assert_finalize_object(kits);
    wb_document_set_text(document, "Rename", "/name", "After them", NULL);
    g_assert_finalize_object(document);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/lists/loads", test_load_list);
    g_test_add_func("/lists/loads-walk", test_load_list_walk);
    g_test_add_func("/lists/part-order", test_part_order);
    g_test_add_func("/lists/part-sort-keys", test_part_sort_keys);
    g_test_add_func("/lists/part-filter", test_part_filter);
    g_test_add_func("/lists/part-ticks", test_part_ticks);
    g_test_add_func("/lists/part-texts", test_part_texts);
    g_test_add_func("/lists/part-new-view", test_part_new_view);
    g_test_add_func("/lists/kits", test_kit_list);
    g_test_add_func("/lists/kit-places", test_kit_places);
    g_test_add_func("/lists/kit-filter", test_kit_filter);
    g_test_add_func("/lists/kit-filter-unknown", test_kit_filter_unknown);
    g_test_add_func("/lists/kit-survives", test_kit_survives);
    g_test_add_func("/lists/finalization", test_finalization);
    return g_test_run();
}
