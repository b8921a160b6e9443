/* Similar kits: worked by hand, and against every kit compared with every leader. */
#include "similar.h"
#include "random.h"
#include <glib.h>

#define MOST 3000

static WbKit kits[MOST];
static const WbKit *pointers[MOST];
static WbSimilarRow rows[MOST];

static const WbKit plain = {
    .n_series = 2, .n_parallel = 1, .n_controllers = 1, .bank_series = 1, .bank_parallel = 1};

/* ---- by hand ---- */

static void check_differ(WbKit b, int n, WbKitChoice first)
{
    WbKitChoice told;
    g_assert_cmpint(wb_kits_differ(&plain, &b, &told), ==, n);
    g_assert_cmpint(told, ==, first);
    g_assert_cmpint(wb_kits_differ(&b, &plain, &told), ==, n);
    g_assert_cmpint(told, ==, first);
    g_assert_cmpint(wb_kits_differ(&b, &plain, NULL), ==, n);
}

static void test_differ(void)
{
    WbKit b = plain;
    check_differ(b, 0, WB_N_KIT_CHOICES);
    b.n_series = 1;
    b.n_parallel = 2; /* the same two panels */
    check_differ(b, 0, WB_N_KIT_CHOICES);
    b.n_parallel = 3;
    check_differ(b, 1, WB_KIT_PANELS);
    b = plain;
    b.panel = 1;
    check_differ(b, 1, WB_KIT_PANELS);
    b = plain;
    b.n_controllers = 2;
    check_differ(b, 1, WB_KIT_CONTROLLERS);
    b.controller = 4;
    check_differ(b, 1, WB_KIT_CONTROLLERS);
    b = plain;
    b.bank_series = 2;
    check_differ(b, 1, WB_KIT_BANK);
    b.inverter = 3;
    check_differ(b, 2, WB_KIT_BANK);
    b = plain;
    b.dcdc = 1;
    check_differ(b, 1, WB_KIT_DCDC);
    b.inverter = 1;
    check_differ(b, 2, WB_KIT_INVERTER);
    /* 4 in series and 4 side by side are two banks. */
    WbKit series = plain, side = plain;
    series.bank_series = 4;
    side.bank_parallel = 4;
    g_assert_cmpint(wb_kits_differ(&series, &side, NULL), ==, 1);
}

static void test_by_hand(void)
{
    for (size_t i = 0; i < 7; i++) {
        kits[i] = plain;
        pointers[i] = &kits[i];
    }
    kits[1].inverter = 1;                      /* like 0 */
    kits[2].inverter = 1, kits[2].storage = 1; /* like 1, which leads none: leads */
    kits[3].storage = 1;                       /* like 0 and 2: stands with 0 */
    kits[4].inverter = 1, kits[4].storage = 2; /* like 2 */
    kits[5].n_series = 1, kits[5].n_parallel = 2;
    kits[6].inverter = 2, kits[6].storage = 3, kits[6].dcdc = 1;
    static const WbSimilarRow wanted[7] = {
        {0, 3, WB_N_KIT_CHOICES}, {0, 0, WB_KIT_INVERTER}, {2, 1, WB_N_KIT_CHOICES},
        {0, 0, WB_KIT_BANK},      {2, 0, WB_KIT_BANK},     {0, 0, WB_N_KIT_CHOICES},
        {6, 0, WB_N_KIT_CHOICES},
    };
    size_t n_groups;
    g_assert_cmpint(wb_similar_group(pointers, 7, rows, &n_groups), ==, WB_OK);
    g_assert_cmpuint(n_groups, ==, 3);
    for (size_t i = 0; i < 7; i++) {
        g_assert_cmpuint(rows[i].leader, ==, wanted[i].leader);
        g_assert_cmpuint(rows[i].n_like, ==, wanted[i].n_like);
        g_assert_cmpint(rows[i].differs, ==, wanted[i].differs);
    }
}

/* ---- against brute force ---- */

static int draw(WbRandom *random, int n)
{
    return (int)(wb_random_unit(random) * n);
}

static void draw_kits(WbRandom *random, size_t n, int parts, int counts)
{
    for (size_t i = 0; i < n; i++) {
        kits[i] = (WbKit){.panel = draw(random, parts),
                          .n_series = 1 + draw(random, counts),
                          .n_parallel = 1 + draw(random, counts),
                          .controller = draw(random, parts),
                          .n_controllers = 1 + draw(random, counts),
                          .storage = draw(random, parts),
                          .bank_series = 1 + draw(random, counts),
                          .bank_parallel = 1 + draw(random, counts),
                          .inverter = draw(random, parts),
                          .dcdc = draw(random, 2)};
        pointers[i] = &kits[i];
    }
}

/* The five choices compared one by one, another way than the program's. */
static int count_differences(const WbKit *a, const WbKit *b)
{
    return (a->panel != b->panel || a->n_series * a->n_parallel != b->n_series * b->n_parallel) +
           (a->controller != b->controller || a->n_controllers != b->n_controllers) +
           (a->storage != b->storage || a->bank_series != b->bank_series ||
            a->bank_parallel != b->bank_parallel) +
           (a->inverter != b->inverter) + (a->dcdc != b->dcdc);
}

static size_t find_first_leader(size_t i)
{
    for (size_t j = 0; j < i; j++)
        if (rows[j].leader == j && count_differences(&kits[i], &kits[j]) <= 1)
            return j;
    return i;
}

static void check_against_brute_force(size_t n)
{
    size_t n_groups, leaders = 0, members = 0;
    g_assert_cmpint(wb_similar_group(pointers, n, rows, &n_groups), ==, WB_OK);
    for (size_t i = 0; i < n; i++) {
        g_assert_cmpuint(rows[i].leader, ==, find_first_leader(i));
        leaders += rows[i].leader == i;
        members += rows[i].n_like;
        WbKitChoice differs = WB_N_KIT_CHOICES;
        int apart = wb_kits_differ(&kits[rows[i].leader], &kits[i], &differs);
        g_assert_cmpint(rows[i].differs, ==, differs);
        g_assert_cmpint(apart, <=, 1);
        if (rows[i].leader != i)
            g_assert_cmpuint(rows[i].n_like, ==, 0);
    }
    g_assert_cmpuint(n_groups, ==, leaders);
    g_assert_cmpuint(leaders + members, ==, n);
}

static void test_brute_force(void)
{
    WbRandom random;
    wb_random_seed(&random, 6);
    for (int i = 0; i < 400; i++) {
        size_t n = (size_t)draw(&random, 200);
        int parts = 1 + draw(&random, 5);
        draw_kits(&random, n, parts, 1 + draw(&random, 3));
        check_against_brute_force(n);
    }
    /* Few alike, so that the table of leaders grows. */
    draw_kits(&random, MOST, 12, 3);
    check_against_brute_force(MOST);
}

/* No two leaders are alike; a member differs from its leader, which stands above it, in one choice
 * or the wiring alone. */
static void test_properties(void)
{
    WbRandom random;
    wb_random_seed(&random, 7);
    draw_kits(&random, MOST, 4, 2);
    g_assert_cmpint(wb_similar_group(pointers, MOST, rows, NULL), ==, WB_OK);
    for (size_t i = 0; i < MOST; i++) {
        if (rows[i].leader != i) {
            g_assert_cmpuint(rows[i].leader, <, i);
            g_assert_cmpuint(rows[rows[i].leader].leader, ==, rows[i].leader);
            g_assert_cmpint(count_differences(&kits[i], &kits[rows[i].leader]), <=, 1);
            continue;
        }
        for (size_t j = 0; j < i; j++)
            if (rows[j].leader == j)
                g_assert_cmpint(count_differences(&kits[i], &kits[j]), >, 1);
    }
}

static void test_ends(void)
{
    size_t n_groups = 9;
    g_assert_cmpint(wb_similar_group(pointers, 0, rows, &n_groups), ==, WB_OK);
    g_assert_cmpuint(n_groups, ==, 0);
    n_groups = 9;
    g_assert_cmpint(wb_similar_group(pointers, WB_SIMILAR_MOST + 1, rows, &n_groups), ==,
                    WB_BAD_INPUT);
    g_assert_cmpuint(n_groups, ==, 9);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/similar/differ", test_differ);
    g_test_add_func("/similar/by-hand", test_by_hand);
    g_test_add_func("/similar/brute-force", test_brute_force);
    g_test_add_func("/similar/properties", test_properties);
    g_test_add_func("/similar/ends", test_ends);
    return g_test_run();
}
