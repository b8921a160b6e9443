/* The front of a stream of vectors: against a comparison of all pairs; and streams so large that no
 * front is told: bounded in memory, stopped by a flag, and over soon. */
#include "front.h"
#include "random.h"
#include <glib.h>
#include <string.h>

static uint32_t all_of(int n_criteria)
{
    return (1u << n_criteria) - 1;
}

static bool beats(const WbFrontKit *a, const WbFrontKit *b, int n)
{
    bool better = false;
    for (int c = 0; c < n; c++) {
        if (a->worse[c] > b->worse[c])
            return false;
        better |= a->worse[c] < b->worse[c];
    }
    return better;
}

/* Few steps, so that ties and equal vectors are frequent. */
static WbFrontKit random_kit(WbRandom *random, int i, int n, uint64_t steps)
{
    WbFrontKit kit = {.kit.panel = i};
    for (int c = 0; c < n; c++)
        kit.worse[c] = (double)wb_random_below(random, steps) - 3;
    return kit;
}

static size_t check_stream(WbRandom *random, int n_kits, int n, uint64_t steps)
{
    WbFront front;
    WbFrontKit *kits = g_new(WbFrontKit, n_kits);
    gboolean *kept = g_new0(gboolean, n_kits);
    size_t expected = 0;
    wb_front_init(&front, all_of(n), NULL);
    for (int i = 0; i < n_kits; i++) {
        kits[i] = random_kit(random, i, n, steps);
        g_assert_cmpint(wb_front_put(&front, &kits[i]), ==, WB_OK);
        /* It may be finished at any time, and goes on from there. */
        if (wb_random_below(random, 50) == 0)
            g_assert_cmpint(wb_front_finish(&front), ==, WB_OK);
    }
    g_assert_cmpint(wb_front_finish(&front), ==, WB_OK);
    for (size_t i = 0; i < front.n_front; i++)
        kept[front.kits[i].kit.panel] = TRUE;
    for (int i = 0; i < n_kits; i++) {
        bool beaten = false;
        for (int j = 0; j < n_kits && !beaten; j++)
            beaten = beats(&kits[j], &kits[i], n);
        g_assert_true(kept[i] == !beaten);
        expected += !beaten;
    }
    g_assert_cmpuint(front.n_front, ==, expected);
    wb_front_free(&front);
    g_free(kits);
    g_free(kept);
    return expected;
}

static void test_all_pairs(void)
{
    WbRandom random;
    wb_random_seed(&random, 20261201);
    size_t on_fronts = 0;
    for (int i = 0; i < 400; i++) {
        int n = 1 + i % WB_N_CRITERIA, n_kits = 1 + (int)wb_random_below(&random, 400);
        on_fronts += check_stream(&random, n_kits, n, i % 3 == 0 ? 4 : i % 3 == 1 ? 30 : 1000000);
    }
    g_assert_cmpuint(on_fronts, >, 10000);
}

/* All of one sum: a vector that is less in one number is more in another. */
static WbFrontKit level_kit(WbRandom *random, int n)
{
    WbFrontKit kit = {0};
    double left = 1 << 24;
    for (int c = 0; c < n - 1; c++) {
        kit.worse[c] = (double)wb_random_below(random, 1 << 21);
        left -= kit.worse[c];
    }
    kit.worse[n - 1] = left;
    return kit;
}

#define MILLION 1000000

static void test_million(void)
{
    WbRandom random;
    WbFront front;
    wb_random_seed(&random, 8);
    wb_front_init(&front, all_of(WB_N_CRITERIA), NULL);
    size_t most_room = 0;
    int given_up = 0;
    for (int i = 0; i < MILLION; i++) {
        WbFrontKit kit = level_kit(&random, WB_N_CRITERIA);
        g_assert_cmpint(wb_front_put(&front, &kit), ==, WB_OK);
        most_room = MAX(most_room, front.room);
        given_up += front.too_many;
    }
    g_assert_cmpint(wb_front_finish(&front), ==, WB_OK);
    g_assert_true(front.too_many);
    g_assert_cmpuint(front.n_front, ==, 0);
    g_assert_cmpint(given_up, >, MILLION / 2); /* early: the rest is not looked at */
    g_assert_cmpuint(most_room, <=, 2 * WB_RANK_FRONT_MOST);
    wb_front_free(&front);
}

/* One more than the most is too many; the most is not. */
static void test_bound(void)
{
    for (int more = 0; more < 2; more++) {
        WbFront front;
        wb_front_init(&front, all_of(2), NULL);
        for (int i = 0; i < WB_RANK_FRONT_MOST + more; i++) {
            WbFrontKit kit = {.worse = {i, -i}};
            g_assert_cmpint(wb_front_put(&front, &kit), ==, WB_OK);
        }
        g_assert_cmpint(wb_front_finish(&front), ==, WB_OK);
        g_assert_true(front.too_many == more);
        g_assert_cmpuint(front.n_front, ==, more ? 0 : WB_RANK_FRONT_MOST);
        wb_front_free(&front);
    }
}

/* A flag ends it within one pass of the filter. */
static void test_stopped(void)
{
    WbRandom random;
    WbFront front;
    WbControl control;
    wb_random_seed(&random, 9);
    wb_control_init(&control);
    wb_front_init(&front, all_of(WB_N_CRITERIA), &control);
    WbStatus status = WB_OK;
    int put = 0;
    for (; put < MILLION && status == WB_OK; put++) {
        WbFrontKit kit = level_kit(&random, WB_N_CRITERIA);
        if (put == 1000)
            wb_control_stop(&control);
        status = wb_front_put(&front, &kit);
    }
    g_assert_cmpint(status, ==, WB_STOPPED);
    g_assert_cmpint(put, <, 100000);
    wb_front_free(&front);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/front/all-pairs", test_all_pairs);
    g_test_add_func("/front/million", test_million);
    g_test_add_func("/front/bound", test_bound);
    g_test_add_func("/front/stopped", test_stopped);
    return g_test_run();
}
