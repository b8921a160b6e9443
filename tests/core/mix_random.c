/* Mixes against exhaustive placement on whole millimetres, and by their symmetries. */
#include "mix.h"
#include "small_roof.h"
#include <glib.h>
#include <string.h>

enum { OBSTACLES = 2, ITEMS = 3, PANELS = 6, BRUTE_CASES = 4000, PROPERTY_CASES = 300 };

typedef struct {
    WbRoof roof;
    WbObstacle obstacle[OBSTACLES];
    WbMixItem item[ITEMS];
    size_t n_items;
} Case;

static void draw_case(Case *drawn, WbRandom *random, int64_t size)
{
    *drawn = (Case){.roof = {.length_mm = between(random, size / 2, size),
                             .width_mm = between(random, size / 2, size),
                             .margin_mm = between(random, 0, size / 12),
                             .gap_mm = between(random, 0, size / 6)},
                    .n_items = (size_t)between(random, 1, ITEMS)};
    small_roof_draw_obstacles(&drawn->roof, drawn->obstacle, (size_t)between(random, 0, OBSTACLES),
                              size, random);
    for (size_t i = 0; i < drawn->n_items; i++)
        drawn->item[i] = (WbMixItem){
            between(random, size / 9 + 1, size / 2), between(random, size / 9 + 1, size / 2),
            (int)between(random, 0, PANELS / ITEMS), between(random, 0, 1) == 1};
}

/* The scene is rebuilt with pointers into itself. */
static Case copy_of(const Case *drawn, Case *copy)
{
    *copy = *drawn;
    copy->roof.obstacles = copy->obstacle;
    return *copy;
}

static WbFitAnswer answer_of(const Case *drawn)
{
    WbMixFit fit = {0};
    g_assert_cmpint(
        wb_mix_fit(&drawn->roof, drawn->item, drawn->n_items, WB_ROOF_NODES, NULL, &fit), ==,
        WB_OK);
    if (fit.answer == WB_FITS)
        g_assert_true(
            wb_mix_layout_ok(&drawn->roof, drawn->item, drawn->n_items, fit.layout, fit.n_layout));
    else
        g_assert_true(wb_mix_proof_ok(&drawn->roof, drawn->item, drawn->n_items, &fit));
    WbFitAnswer answer = fit.answer;
    wb_mix_fit_free(&fit);
    return answer;
}

/* Panels one after another, each at every place in turn. */
typedef struct {
    const Case *drawn;
    WbMixPlace laid[PANELS];
    int n;
} Brute;

static bool blocked(const Brute *brute, WbRect rect)
{
    const WbRoof *roof = &brute->drawn->roof;
    if (small_roof_blocks(roof, rect))
        return true;
    for (int i = 0; i < brute->n; i++)
        if (small_roof_meet(rect, brute->laid[i].rect, roof->gap_mm))
            return true;
    return false;
}

static bool lay_rest(Brute *brute, size_t item, int copy);

/* Copies of an item in the order of their places. */
static bool lay_turned(Brute *brute, size_t item, int copy, int64_t length, int64_t width)
{
    const WbRoof *roof = &brute->drawn->roof;
    int64_t margin = roof->margin_mm;
    for (int64_t x = margin; x + length <= roof->length_mm - margin; x++)
        for (int64_t y = margin; y + width <= roof->width_mm - margin; y++) {
            WbRect rect = {x, y, length, width};
            if (copy > 0 && x < brute->laid[brute->n - 1].rect.x_mm)
                continue;
            if (blocked(brute, rect))
                continue;
            brute->laid[brute->n++] = (WbMixPlace){rect, (int)item};
            bool done = lay_rest(brute, item, copy + 1);
            brute->n--;
            if (done)
                return true;
        }
    return false;
}

static bool lay_rest(Brute *brute, size_t item, int copy)
{
    while (item < brute->drawn->n_items && copy == brute->drawn->item[item].count) {
        item++;
        copy = 0;
    }
    if (item == brute->drawn->n_items)
        return true;
    const WbMixItem *asked = &brute->drawn->item[item];
    return lay_turned(brute, item, copy, asked->length_mm, asked->width_mm) ||
           (asked->turns && lay_turned(brute, item, copy, asked->width_mm, asked->length_mm));
}

static void test_brute(void)
{
    WbRandom random;
    wb_random_seed(&random, 20260401);
    int fits = 0, hard = 0;
    for (int i = 0; i < BRUTE_CASES; i++) {
        Case drawn;
        draw_case(&drawn, &random, 14);
        Brute brute = {.drawn = &drawn};
        bool expected = lay_rest(&brute, 0, 0);
        WbMixFit fit = {0};
        g_assert_cmpint(
            wb_mix_fit(&drawn.roof, drawn.item, drawn.n_items, WB_ROOF_NODES, NULL, &fit), ==,
            WB_OK);
        g_assert_cmpint(fit.answer, ==, expected ? WB_FITS : WB_FITS_NOT);
        fits += expected;
        hard += fit.proof.n_literals > 0;
        wb_mix_fit_free(&fit);
        answer_of(&drawn);
    }
    g_test_message("%d of %d fit, %d refuted by clauses", fits, BRUTE_CASES, hard);
    g_assert_cmpint(fits, >, BRUTE_CASES / 10);
    g_assert_cmpint(hard, >, BRUTE_CASES / 50);
}

/* Mirrored, laid across, three times as large: the same answer. */
static void test_symmetries(void)
{
    WbRandom random;
    wb_random_seed(&random, 20260402);
    for (int i = 0; i < PROPERTY_CASES; i++) {
        Case drawn, other;
        draw_case(&drawn, &random, 60);
        WbFitAnswer answer = answer_of(&drawn);
        copy_of(&drawn, &other);
        small_roof_mirror(&other.roof, other.obstacle);
        g_assert_cmpint(answer_of(&other), ==, answer);
        copy_of(&drawn, &other);
        small_roof_transpose(&other.roof, other.obstacle);
        for (size_t k = 0; k < other.n_items; k++) {
            other.item[k].length_mm = drawn.item[k].width_mm;
            other.item[k].width_mm = drawn.item[k].length_mm;
        }
        g_assert_cmpint(answer_of(&other), ==, answer);
    }
}

static void test_scaled(void)
{
    WbRandom random;
    wb_random_seed(&random, 20260403);
    for (int i = 0; i < PROPERTY_CASES; i++) {
        Case drawn, large;
        draw_case(&drawn, &random, 40);
        copy_of(&drawn, &large);
        small_roof_scale(&large.roof, large.obstacle, 3);
        for (size_t k = 0; k < large.n_items; k++) {
            large.item[k].length_mm *= 3;
            large.item[k].width_mm *= 3;
        }
        g_assert_cmpint(answer_of(&large), ==, answer_of(&drawn));
    }
}

/* What fits less does not fit more: a larger margin, one panel more. */
static void test_monotone(void)
{
    WbRandom random;
    wb_random_seed(&random, 20260404);
    for (int i = 0; i < PROPERTY_CASES; i++) {
        Case drawn;
        draw_case(&drawn, &random, 60);
        WbFitAnswer answer = answer_of(&drawn);
        drawn.roof.margin_mm++;
        if (answer == WB_FITS_NOT)
            g_assert_cmpint(answer_of(&drawn), ==, WB_FITS_NOT);
        drawn.roof.margin_mm--;
        drawn.item[0].count++;
        if (answer == WB_FITS_NOT)
            g_assert_cmpint(answer_of(&drawn), ==, WB_FITS_NOT);
    }
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/mix-random/brute", test_brute);
    g_test_add_func("/mix-random/symmetries", test_symmetries);
    g_test_add_func("/mix-random/scaled", test_scaled);
    g_test_add_func("/mix-random/monotone", test_monotone);
    return g_test_run();
}
