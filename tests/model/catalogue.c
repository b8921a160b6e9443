/* Edits of the catalogue and the way back; parts to begin with. */
#include "catalogue_store.h"
#include "exchange.h"
#include "part_list.h"
#include "part_new.h"
#include "rig.h"
#include <string.h>

static WbCatalogueStore *open_store(void)
{
    g_autoptr(GError) error = NULL;
    WbCatalogueStore *store = wb_catalogue_store_open(":memory:", &error);
    g_assert_no_error(error);
    return store;
}

static char *whole(WbCatalogueStore *store)
{
    return wb_exchange_export(wb_catalogue_store_get_catalogue(store));
}

/* The undo brings back every byte, is offered once, and says what it takes back. */
static void check_undo(WbCatalogueStore *store, const char *before, const char *label)
{
    g_autoptr(GError) error = NULL;
    g_autofree char *changed = whole(store);
    g_assert_cmpstr(changed, !=, before);
    g_assert_cmpstr(wb_catalogue_store_get_undo_label(store), ==, label);
    g_assert_true(wb_catalogue_store_undo(store, &error));
    g_assert_no_error(error);
    g_autofree char *after = whole(store);
    g_assert_cmpstr(after, ==, before);
    g_assert_null(wb_catalogue_store_get_undo_label(store));
    g_assert_false(wb_catalogue_store_undo(store, &error));
    g_assert_no_error(error);
}

static char *label_for(const char *verb, const WbPart *part)
{
    return g_strdup_printf("%s %s %s", verb, part->maker, part->model);
}

static void test_undo_delete(void)
{
    g_autoptr(WbCatalogueStore) store = open_store();
    g_autofree char *before = whole(store);
    for (int kind = 0; kind < WB_N_KINDS; kind++) {
        const WbPart *part = wb_catalogue_part(wb_catalogue_store_get_catalogue(store), kind, 0);
        g_autofree char *label = label_for("Delete", part);
        g_autofree char *id = g_strdup(part->id);
        g_assert_true(wb_catalogue_store_delete_part(store, id, NULL));
        g_assert_null(wb_catalogue_find_part(wb_catalogue_store_get_catalogue(store), id, NULL));
        check_undo(store, before, label);
    }
}

static void test_undo_change(void)
{
    g_autoptr(WbCatalogueStore) store = open_store();
    g_autofree char *before = whole(store);
    WbPanel panel = wb_catalogue_store_get_catalogue(store)->panels[3];
    g_autofree char *label = label_for("Change", &panel.part);
    g_autoptr(WbCatalogueView) kept = wb_catalogue_view_ref(wb_catalogue_store_get_view(store));
    panel.power_w += 1;
    g_assert_true(wb_catalogue_store_put_part(store, WB_KIND_PANEL, &panel, NULL));
    check_undo(store, before, label);
}

static void test_undo_offers(void)
{
    g_autoptr(WbCatalogueStore) store = open_store();
    g_autofree char *before = whole(store);
    g_autoptr(WbCatalogueView) kept = wb_catalogue_view_ref(wb_catalogue_store_get_view(store));
    WbOffer offer = wb_catalogue_view_get(kept)->offers[5];
    const WbPart *part = wb_catalogue_find_part(wb_catalogue_view_get(kept), offer.part_id, NULL);
    g_autofree char *label = label_for("Change the prices of", part);
    g_assert_true(wb_catalogue_store_delete_offer(store, &offer, NULL));
    check_undo(store, before, label);
    offer.price_minor += 100; /* another price of the same day */
    g_assert_true(wb_catalogue_store_put_offer(store, &offer, NULL));
    check_undo(store, before, label);
    offer.date = "2026-11-24"; /* one more */
    g_assert_true(wb_catalogue_store_put_offer(store, &offer, NULL));
    check_undo(store, before, label);
}

/* What is refused is no edit: the one before can still be undone. */
static void test_refused(void)
{
    g_autoptr(WbCatalogueStore) store = open_store();
    g_autoptr(GError) error = NULL;
    g_autoptr(WbCatalogueView) kept = wb_catalogue_view_ref(wb_catalogue_store_get_view(store));
    g_autofree char *before = whole(store);
    WbPanel panel = wb_catalogue_view_get(kept)->panels[0];
    g_autofree char *label = label_for("Delete", &panel.part);
    g_assert_true(wb_catalogue_store_delete_part(store, panel.part.id, NULL));
    g_assert_false(wb_catalogue_store_delete_part(store, "no-such-part", &error));
    g_assert_nonnull(strstr(error->message, "no-such-part"));
    g_clear_error(&error);
    panel.power_w = -5;
    g_assert_false(wb_catalogue_store_put_part(store, WB_KIND_PANEL, &panel, &error));
    g_assert_nonnull(strstr(error->message, "power_w"));
    check_undo(store, before, label);
}

static void count(WbCatalogueStore *store, guint *n)
{
    ++*n;
}

/* A new part of any kind, copied or plain, is taken and can be undone. */
static void test_new_part(void)
{
    g_autoptr(WbCatalogueStore) store = open_store();
    g_autofree char *before = whole(store);
    guint changes = 0;
    g_signal_connect(store, "changed", G_CALLBACK(count), &changes);
    for (int kind = 0; kind < WB_N_KINDS; kind++)
        for (int copy = 0; copy < 2; copy++) {
            g_autoptr(GError) error = NULL;
            g_autoptr(WbCatalogueView) view =
                wb_catalogue_view_ref(wb_catalogue_store_get_view(store));
            const WbCatalogue *catalogue = wb_catalogue_view_get(view);
            const WbPart *original = copy ? wb_catalogue_part(catalogue, kind, 0) : NULL;
            g_autoptr(WbNewPart) made = wb_new_part(catalogue, kind, original);
            const WbPart *part = wb_new_part_get(made);
            g_autofree char *label = label_for("Add", part);
            g_assert_null(wb_catalogue_find_part(catalogue, part->id, NULL));
            g_assert_cmpstr(part->model, !=, original ? original->model : "");
            g_assert_true(wb_catalogue_store_put_part(store, kind, part, &error));
            g_assert_no_error(error);
            check_undo(store, before, label);
        }
    g_assert_cmpuint(changes, ==, 4 * WB_N_KINDS);
}

/* Ids count on and stay within 64 characters. */
static void test_new_ids(void)
{
    g_autoptr(WbCatalogueStore) store = open_store();
    WbPanel panel = wb_catalogue_store_get_catalogue(store)->panels[0];
    static const struct {
        const char *id, *next, *after;
    } cases[] = {
        {"mine", "mine-2", "mine-3"},
        {"mine-7", "mine-4", "mine-5"}, /* 2 and 3 are taken by the row above */
        {"p-100w", "p-100w-2", "p-100w-3"},
        {"a234567890123456789012345678901234567890123456789012345678901234",
         "a2345678901234567890123456789012345678901234567890123456789012-2",
         "a2345678901234567890123456789012345678901234567890123456789012-3"},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(cases); i++) {
        g_autoptr(WbCatalogueView) view = wb_catalogue_view_ref(wb_catalogue_store_get_view(store));
        panel = wb_catalogue_view_get(view)->panels[0];
        panel.part.id = cases[i].id;
        const char *const expected[] = {cases[i].next, cases[i].after};
        for (int turn = 0; turn < 2; turn++) {
            g_autoptr(GError) error = NULL;
            g_autoptr(WbNewPart) made =
                wb_new_part(wb_catalogue_store_get_catalogue(store), WB_KIND_PANEL, &panel);
            g_assert_cmpstr(wb_new_part_get(made)->id, ==, expected[turn]);
            wb_catalogue_store_put_part(store, WB_KIND_PANEL, wb_new_part_get(made), &error);
            g_assert_no_error(error);
        }
    }
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/catalogue/undo-delete", test_undo_delete);
    g_test_add_func("/catalogue/undo-change", test_undo_change);
    g_test_add_func("/catalogue/undo-offers", test_undo_offers);
    g_test_add_func("/catalogue/refused", test_refused);
    g_test_add_func("/catalogue/new-part", test_new_part);
    g_test_add_func("/catalogue/new-ids", test_new_ids);
    return g_test_run();
}
