/* The list of kits with similar ones together: who leads, what opens, what is announced. */
#include "kit_list.h"
#include "rig.h"

#define TOP 400

static WbResult *demo_result(void)
{
    g_autoptr(WbDocument) document = rig_document();
    wb_document_begin_demo(document, NULL);
    WbRankOptions options = wb_rank_options_default();
    options.top = TOP;
    return wb_result_make(wb_document_get_file(document), wb_document_get_view(document), &options,
                          NULL, NULL);
}

typedef struct {
    WbResult *result;
    WbKitList *list;
    RigMirror mirror;
    guint opened, arranged;
} Rig;

static WbResult *demo; /* made once for all tests */

static void count(WbKitList *list, guint *n)
{
    (*n)++;
}

static void begin(Rig *rig, gconstpointer data)
{
    rig->result = wb_result_ref(demo);
    rig->list = wb_kit_list_new();
    rig_mirror_begin(&rig->mirror, G_LIST_MODEL(rig->list));
    g_signal_connect(rig->list, "opened", G_CALLBACK(count), &rig->opened);
    g_signal_connect(rig->list, "arranged", G_CALLBACK(count), &rig->arranged);
    wb_kit_list_set_grouped(rig->list, TRUE);
    wb_kit_list_set_result(rig->list, rig->result);
}

static void end(Rig *rig, gconstpointer data)
{
    rig_mirror_check(&rig->mirror);
    rig_mirror_end(&rig->mirror);
    g_assert_finalize_object(rig->list);
    wb_result_unref(rig->result);
}

static const WbKit *kit_at(Rig *rig, guint position)
{
    return &wb_kit_row_get_ranked(rig->mirror.items->pdata[position])->kit;
}

/* No two that lead are alike, each member is like its leader in what it says, and nothing is lost.
 */
static void check_groups(Rig *rig)
{
    guint n = rig->mirror.items->len, leader = 0, under = 0, members = 0, leaders = 0;
    rig_mirror_check(&rig->mirror);
    for (guint i = 0; i < n; i++) {
        WbKitPlace place = wb_kit_list_get_place(rig->list, i);
        WbKitChoice differs;
        if (place.under) {
            g_assert_cmpint(wb_kits_differ(kit_at(rig, i), kit_at(rig, leader), &differs), <=, 1);
            g_assert_cmpint(differs, ==, place.differs);
            g_assert_cmpuint(place.n_like, ==, 0);
            g_assert_cmpuint(++under, <=, wb_kit_list_get_place(rig->list, leader).n_like);
            continue;
        }
        for (guint j = 0; j < i; j++)
            if (!wb_kit_list_get_place(rig->list, j).under)
                g_assert_cmpint(wb_kits_differ(kit_at(rig, i), kit_at(rig, j), NULL), >, 1);
        leader = i;
        under = 0;
        leaders++;
        members += place.n_like;
    }
    g_assert_cmpuint(leaders, ==, wb_kit_list_get_n_groups(rig->list));
    g_assert_cmpuint(leaders + members, ==, wb_kit_list_get_n_kits(rig->list));
}

/* First position of a closed group. */
static guint find_closed(Rig *rig, guint from)
{
    for (guint i = from; i < rig->mirror.items->len; i++) {
        WbKitPlace place = wb_kit_list_get_place(rig->list, i);
        if (place.n_like > 0 && !place.open)
            return i;
    }
    g_assert_not_reached();
}

/* The first of the ranking, and the front beyond them. */
static guint all_kits(Rig *rig)
{
    const WbRanking *ranking = wb_result_get_ranking(rig->result);
    guint n = TOP + (guint)ranking->n_front;
    for (guint i = 0; i < TOP; i++)
        n -= ranking->top[i].on_front;
    return n;
}

/* 0 stands for a place beyond the last. */
static guint rank_at(Rig *rig, guint position)
{
    guint rank = wb_kit_row_get_rank(rig->mirror.items->pdata[position]);
    return rank > 0 ? rank : G_MAXUINT;
}

static void test_closed(Rig *rig, gconstpointer data)
{
    g_assert_cmpuint(rig->mirror.changes, ==, 1); /* the empty list stayed so when grouped */
    g_assert_cmpuint(rig->arranged, ==, 2);
    g_assert_cmpuint(wb_kit_list_get_n_kits(rig->list), ==, all_kits(rig));
    g_assert_cmpuint(rig->mirror.items->len, ==, wb_kit_list_get_n_groups(rig->list));
    g_assert_cmpuint(rig->mirror.items->len, <, TOP / 4);
    check_groups(rig);
    for (guint i = 1; i < rig->mirror.items->len; i++)
        g_assert_true(rank_at(rig, i - 1) < rank_at(rig, i) || rank_at(rig, i) == G_MAXUINT);
    for (guint i = 0; i < TOP; i++)
        g_assert_true(wb_kit_list_get_kit(rig->list, i) ==
                      &wb_result_get_ranking(rig->result)->top[i]);
}

static void test_open_and_close(Rig *rig, gconstpointer data)
{
    guint at = find_closed(rig, 1), before = rig->mirror.items->len;
    guint n_like = wb_kit_list_get_place(rig->list, at).n_like;
    WbKitRow *leader = rig->mirror.items->pdata[at];
    g_assert_true(wb_kit_list_set_open(rig->list, at, TRUE));
    g_assert_false(wb_kit_list_set_open(rig->list, at, TRUE));
    g_assert_cmpuint(rig->opened, ==, 1);
    g_assert_cmpuint(rig->mirror.items->len, ==, before + n_like);
    g_assert_true(rig->mirror.items->pdata[at] == leader);
    g_assert_true(wb_kit_list_get_place(rig->list, at).open);
    for (guint i = at + 1; i <= at + n_like; i++) {
        g_assert_true(wb_kit_list_get_place(rig->list, i).under);
        g_assert_false(wb_kit_list_set_open(rig->list, i, TRUE));
    }
    check_groups(rig);
    g_assert_true(wb_kit_list_set_open(rig->list, find_closed(rig, at + n_like), TRUE));
    check_groups(rig);
    g_assert_true(wb_kit_list_set_open(rig->list, at, FALSE));
    g_assert_false(wb_kit_list_set_open(rig->list, at, FALSE));
    check_groups(rig);
    g_assert_false(wb_kit_list_set_open(rig->list, 100000, TRUE));
    g_assert_cmpuint(rig->arranged, ==, 2); /* the kits are the same */
}

/* Under filters and in other orders the groups are made anew of what the list holds. */
static void test_orders_and_filters(Rig *rig, gconstpointer data)
{
    for (int criterion = -1; criterion < WB_N_CRITERIA; criterion++)
        for (int descending = 0; descending < 2; descending++) {
            wb_kit_list_set_order(rig->list, criterion, descending);
            wb_kit_list_set_front_only(rig->list, criterion % 2 == 0);
            check_groups(rig);
            wb_kit_list_set_open(rig->list, find_closed(rig, 0), TRUE);
            check_groups(rig);
        }
    wb_kit_list_set_chemistry(rig->list, "no such chemistry");
    g_assert_cmpuint(rig->mirror.items->len, ==, 0);
    g_assert_cmpuint(wb_kit_list_get_n_groups(rig->list), ==, 0);
    wb_kit_list_set_chemistry(rig->list, NULL);
    check_groups(rig);
    wb_kit_list_set_result(rig->list, NULL);
    g_assert_cmpuint(rig->mirror.items->len, ==, 0);
    g_assert_false(wb_kit_list_set_open(rig->list, 0, TRUE));
    guint at;
    g_assert_false(wb_kit_list_reveal(rig->list, "anything", &at));
}

/* The exact list stays available. */
static void test_not_grouped(Rig *rig, gconstpointer data)
{
    wb_kit_list_set_open(rig->list, find_closed(rig, 0), TRUE);
    wb_kit_list_set_grouped(rig->list, FALSE);
    g_assert_false(wb_kit_list_get_grouped(rig->list));
    g_assert_cmpuint(rig->mirror.items->len, ==, all_kits(rig));
    for (guint i = 0; i < rig->mirror.items->len; i++) {
        WbKitPlace place = wb_kit_list_get_place(rig->list, i);
        g_assert_cmpuint(wb_kit_row_get_rank(rig->mirror.items->pdata[i]), ==, i < TOP ? i + 1 : 0);
        g_assert_true(place.n_like == 0 && !place.open && !place.under);
    }
}

/* What was opened stays so, in the next result and after the list was shown whole. */
static void test_stays_open(Rig *rig, gconstpointer data)
{
    guint at = find_closed(rig, 1), before = rig->mirror.items->len;
    guint n_like = wb_kit_list_get_place(rig->list, at).n_like;
    g_assert_true(wb_kit_list_set_open(rig->list, at, TRUE));
    g_autoptr(WbResult) next = demo_result();
    wb_kit_list_set_result(rig->list, next);
    g_assert_true(wb_kit_list_get_place(rig->list, at).open);
    g_assert_cmpuint(rig->mirror.items->len, ==, before + n_like);
    wb_kit_list_set_grouped(rig->list, FALSE);
    wb_kit_list_set_grouped(rig->list, TRUE);
    g_assert_true(wb_kit_list_get_place(rig->list, at).open);
    check_groups(rig);
    g_assert_true(wb_kit_list_set_open(rig->list, at, FALSE));
    wb_kit_list_set_result(rig->list, rig->result);
    g_assert_cmpuint(rig->mirror.items->len, ==, before);
}

/* A kit chosen elsewhere is shown, its group opened if need be. */
static void test_reveal(Rig *rig, gconstpointer data)
{
    const WbRanking *ranking = wb_result_get_ranking(rig->result);
    char id[WB_KIT_ID];
    guint at, opened = 0;
    for (guint i = 0; i < TOP; i += 7) {
        wb_kit_id(wb_result_get_problem(rig->result), &ranking->top[i].kit, id);
        gboolean seen = wb_kit_list_find(rig->list, id, &at);
        opened += !seen;
        g_assert_true(wb_kit_list_reveal(rig->list, id, &at));
        g_assert_cmpuint(rig->opened, ==, opened);
        g_assert_cmpstr(wb_kit_row_get_id(rig->mirror.items->pdata[at]), ==, id);
    }
    g_assert_cmpuint(opened, >, 3);
    check_groups(rig);
    g_assert_false(wb_kit_list_reveal(rig->list, "no such kit", &at));
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
#define ADD(path, test) g_test_add(path, Rig, NULL, begin, test, end)
    ADD("/kit-groups/closed", test_closed);
    ADD("/kit-groups/open-and-close", test_open_and_close);
    ADD("/kit-groups/orders-and-filters", test_orders_and_filters);
    ADD("/kit-groups/not-grouped", test_not_grouped);
    ADD("/kit-groups/stays-open", test_stays_open);
    ADD("/kit-groups/reveal", test_reveal);
    demo = demo_result();
    int code = g_test_run();
    wb_result_unref(demo);
    return code;
}
