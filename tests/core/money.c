/* Prices: decimals of currencies, conversion and rounding, and which offer counts. */
#include "money.h"
#include <glib.h>

/* ISO 4217 list one, from memory, and texts that are no currency code. */
static void test_decimals(void)
{
    static const struct {
        const char *currency;
        int decimals;
    } rows[] = {
        {"EUR", 2}, {"USD", 2}, {"GBP", 2},   {"JPY", 0},  {"KRW", 0},  {"ISK", 0}, {"CLP", 0},
        {"KWD", 3}, {"BHD", 3}, {"TND", 3},   {"CLF", 4},  {"HUF", 2},  {"MGA", 2}, {"eur", -1},
        {"EU", -1}, {"", -1},   {"EURO", -1}, {"E1R", -1}, {"EU ", -1},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(rows); i++)
        g_assert_cmpint(wb_currency_decimals(rows[i].currency), ==, rows[i].decimals);
}

static const WbRate rates[] = {
    {"GBP", 1.17}, {"JPY", 0.0062}, {"KWD", 3.05}, {"EUR", 0.85}, {"CHF", 1.005}};

/* Worked by hand on decimals; halves go up. */
static void test_convert(void)
{
    static const struct {
        const char *into, *from;
        int64_t minor;
        bool has_rate;
        int64_t converted_minor;
    } rows[] = {
        {"EUR", "EUR", 12345, true, 12345},
        {"EUR", "GBP", 10000, true, 11700},
        {"EUR", "GBP", 50, true, 59},      /* 58.5 */
        {"EUR", "GBP", 150, true, 176},    /* 175.5 */
        {"EUR", "GBP", 350, true, 410},    /* 409.5 */
        {"EUR", "GBP", 49, true, 57},      /* 57.33 */
        {"EUR", "CHF", 100, true, 101},    /* 100.5, which binary makes 100.49999999999999 */
        {"EUR", "JPY", 10000, true, 6200}, /* 62.00 */
        {"EUR", "KWD", 1500, true, 458},   /* 1.5 x 3.05 = 4.575 */
        {"EUR", "KWD", 1499, true, 457},   /* 4.57195 */
        {"JPY", "GBP", 10000, true, 117},
        {"JPY", "GBP", 150, true, 2}, /* 1.755 */
        {"KWD", "GBP", 1, true, 12},  /* 0.0117 = 11.7 mills */
        {"EUR", "USD", 100, false, 0},
        {"EUR", "GBP", INT64_C(1) << 60, false, 0},
        {"EUR", "EUR", 0, true, 0},
        {"EUR", "EUR", (INT64_C(1) << 50) + 1, true, (INT64_C(1) << 50) + 1},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(rows); i++) {
        const WbBrief brief = {
            .currency = rows[i].into, .rates = rates, .n_rates = G_N_ELEMENTS(rates)};
        int64_t converted = -7;
        g_test_message("%s to %s", rows[i].from, rows[i].into);
        g_assert_cmpint(wb_money_convert(&brief, rows[i].minor, rows[i].from, &converted), ==,
                        rows[i].has_rate);
        g_assert_cmpint(converted, ==, rows[i].has_rate ? rows[i].converted_minor : -7);
    }
}

static void test_allowance(void)
{
    g_assert_cmpint(wb_allowance_minor(100000, 7), ==, 7000);
    g_assert_cmpint(wb_allowance_minor(150, 7), ==, 11); /* 10.5 */
    g_assert_cmpint(wb_allowance_minor(350, 7), ==, 25); /* 24.5 */
    g_assert_cmpint(wb_allowance_minor(149, 7), ==, 10); /* 10.43 */
    g_assert_cmpint(wb_allowance_minor(5, 10), ==, 1);   /* 0.5 */
    g_assert_cmpint(wb_allowance_minor(0, 7), ==, 0);
    g_assert_cmpint(wb_allowance_minor(12345, 0), ==, 0);
}

static const WbOffer offers[] = {
    /* lamp: the cheapest is old, its shop asks more by now */
    {"lamp", "harbour", 900, "EUR", "2026-01-10"},
    {"lamp", "harbour", 1200, "EUR", "2026-06-01"},
    {"lamp", "quay", 1100, "EUR", "2026-02-01"},
    {"lamp", "abroad", 100, "USD", "2026-06-01"},
    /* wire: equal after conversion, shop id decides */
    {"wire", "quay", 1170, "EUR", "2026-01-01"},
    {"wire", "island", 1000, "GBP", "2026-01-01"},
    /* rope: only in a currency without a rate */
    {"rope", "abroad", 500, "USD", "2026-01-01"},
    /* sail: the newest of a shop has no rate, so its old price is gone too */
    {"sail", "island", 300, "EUR", "2025-01-01"},
    {"sail", "island", 400, "USD", "2026-01-01"},
    {"sail", "quay", 800, "EUR", "2026-01-01"},
    /* keel: cheapest where the shipping is in a currency without a rate */
    {"keel", "yonder", 100, "EUR", "2026-01-01"},
    {"keel", "quay", 700, "EUR", "2026-01-01"},
};

static const WbShop shops[] = {
    {"abroad", "Abroad", 0, "EUR"},   {"harbour", "Harbour", 500, "EUR"},
    {"island", "Island", 0, "GBP"},   {"quay", "Quay", 500, "EUR"},
    {"yonder", "Yonder", 900, "USD"},
};

static void test_best_offer(void)
{
    static const struct {
        const char *part_id;
        int offer; /* -1: none */
        int64_t price_minor;
    } rows[] = {{"lamp", 2, 1100}, {"wire", 5, 1170}, {"rope", -1, 0},
                {"sail", 9, 800},  {"mast", -1, 0},   {"keel", 11, 700}};
    const WbBrief brief = {.currency = "EUR", .rates = rates, .n_rates = 3};
    const WbCatalogue catalogue = {.offers = offers,
                                   .n_offers = G_N_ELEMENTS(offers),
                                   .shops = shops,
                                   .n_shops = G_N_ELEMENTS(shops)};
    for (size_t i = 0; i < G_N_ELEMENTS(rows); i++) {
        int64_t price = -7;
        const WbOffer *best = wb_best_offer(&brief, &catalogue, rows[i].part_id, &price);
        g_test_message("%s", rows[i].part_id);
        g_assert_true(best == (rows[i].offer < 0 ? NULL : &offers[rows[i].offer]));
        g_assert_cmpint(price, ==, rows[i].offer < 0 ? -7 : rows[i].price_minor);
    }
}

/* The order of the catalogue changes nothing. */
static void test_order(void)
{
    WbOffer reversed[G_N_ELEMENTS(offers)];
    for (size_t i = 0; i < G_N_ELEMENTS(offers); i++)
        reversed[i] = offers[G_N_ELEMENTS(offers) - 1 - i];
    const WbBrief brief = {.currency = "EUR", .rates = rates, .n_rates = 3};
    const WbCatalogue forth = {.offers = offers,
                               .n_offers = G_N_ELEMENTS(offers),
                               .shops = shops,
                               .n_shops = G_N_ELEMENTS(shops)};
    const WbCatalogue back = {.offers = reversed,
                              .n_offers = G_N_ELEMENTS(offers),
                              .shops = shops,
                              .n_shops = G_N_ELEMENTS(shops)};
    for (size_t i = 0; i < G_N_ELEMENTS(offers); i++) {
        int64_t a = -1, b = -1;
        const WbOffer *first = wb_best_offer(&brief, &forth, offers[i].part_id, &a);
        const WbOffer *second = wb_best_offer(&brief, &back, offers[i].part_id, &b);
        g_assert_cmpint(a, ==, b);
        g_assert_cmpstr(first ? first->shop_id : "", ==, second ? second->shop_id : "");
    }
}

static void test_fixed_offer(void)
{
    static const struct {
        const char *part_id, *shop_id;
        int offer;
        int64_t price_minor;
    } rows[] = {
        {"lamp", "harbour", 1, 1200}, /* the shop's newest, though another is cheaper */
        {"wire", "quay", 4, 1170},    /* not the one the shop id would choose */
        {"lamp", "abroad", 2, 1100},  /* no rate: the cheapest usable one */
        {"lamp", "nowhere", 2, 1100}, /* sells no lamp */
    };
    const WbCatalogue catalogue = {.offers = offers,
                                   .n_offers = G_N_ELEMENTS(offers),
                                   .shops = shops,
                                   .n_shops = G_N_ELEMENTS(shops)};
    for (size_t i = 0; i < G_N_ELEMENTS(rows); i++) {
        const WbFixedOffer fixed[] = {{"mast", "quay"}, {rows[i].part_id, rows[i].shop_id}};
        const WbBrief brief = {.currency = "EUR",
                               .rates = rates,
                               .n_rates = 3,
                               .fixed_offers = fixed,
                               .n_fixed_offers = 2};
        int64_t price = -7;
        g_assert_true(wb_best_offer(&brief, &catalogue, rows[i].part_id, &price) ==
                      &offers[rows[i].offer]);
        g_assert_cmpint(price, ==, rows[i].price_minor);
    }
}

static void test_criterion_names(void)
{
    g_assert_cmpstr(wb_criterion_name(WB_CRITERION_COST), ==, "cost");
    g_assert_cmpstr(wb_criterion_name(WB_CRITERION_USABLE), ==, "usable_capacity");
    g_assert_cmpstr(wb_criterion_name(WB_CRITERION_ROOF), ==, "roof_area");
    g_assert_cmpstr(wb_criterion_name(WB_CRITERION_SPARE), ==, "spare_power");
    g_assert_cmpstr(wb_criterion_name(WB_CRITERION_MARGIN), ==, "supply_margin");
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/money/decimals", test_decimals);
    g_test_add_func("/money/convert", test_convert);
    g_test_add_func("/money/allowance", test_allowance);
    g_test_add_func("/money/best-offer", test_best_offer);
    g_test_add_func("/money/order", test_order);
    g_test_add_func("/money/fixed-offer", test_fixed_offer);
    g_test_add_func("/money/criterion-names", test_criterion_names);
    return g_test_run();
}
