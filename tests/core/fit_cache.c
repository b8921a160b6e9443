/* Kept fit answers: the same by every bit as searched ones, over random edits and in every part of
 * a question; bounded; shared by threads; reused from one ranking to the next. */
#include "bay.h"
#include "gen.h"
#include "problem.h"
#include "rank.h"
#include "small_roof.h"
#include <glib.h>
#include <string.h>

enum { OBSTACLES = 4, CORNERS = 6, EDITS = 1500, STATES = 24 };

typedef struct {
    WbRoof roof;
    WbObstacle obstacle[OBSTACLES];
    WbCorner corner[CORNERS];
    WbRect pinned;
    int n_pinned, at_most;
    int64_t a_mm, b_mm;
    uint64_t nodes;
} Scene;

/* A copy whose pointers lead into itself. */
static void copy_scene(Scene *copy, const Scene *scene)
{
    *copy = *scene;
    copy->roof.obstacles = copy->obstacle;
    copy->roof.corners = copy->corner;
}

static void base_scene(Scene *scene)
{
    static const WbCorner tapered[CORNERS] = {{0, 300},     {200, 0},    {2400, 0},
                                              {2400, 1500}, {200, 1500}, {0, 1200}};
    *scene = (Scene){.roof = {.length_mm = 2400,
                              .width_mm = 1500,
                              .margin_mm = 20,
                              .gap_mm = 10,
                              .n_obstacles = OBSTACLES,
                              .standoff_mm = 50,
                              .over_obstacles = true},
                     .obstacle = {{"vent", 900, 500, 300, 300, 20, 100, WB_OBSTACLE_STANDS, true},
                                  {"hatch", 1700, 200, 400, 300, 10, 90, WB_OBSTACLE_STANDS},
                                  {"low", 100, 900, 200, 100, 10, 30, WB_OBSTACLE_STANDS},
                                  {"tree", 300, 100, 500, 400, 0, 0, WB_OBSTACLE_SHADE}},
                     .at_most = 12,
                     .a_mm = 520,
                     .b_mm = 350,
                     .nodes = 2000};
    memcpy(scene->corner, tapered, sizeof tapered);
    scene->roof.obstacles = scene->obstacle;
    scene->roof.corners = scene->corner;
}

static WbStatus ask(WbFitCache *cache, const Scene *scene, WbRoofFit *fit)
{
    return wb_fit_cache_most(cache, &scene->roof, scene->a_mm, scene->b_mm, &scene->pinned,
                             scene->n_pinned, scene->at_most, scene->nodes, NULL, fit);
}

static bool same_fit(const WbRoofFit *a, const WbRoofFit *b)
{
    return a->most == b->most && a->bound == b->bound && a->mm_bound == b->mm_bound &&
           a->at_most == b->at_most && a->nodes == b->nodes &&
           (a->most == 0 || memcmp(a->layout, b->layout, a->most * sizeof *a->layout) == 0);
}

/* Asked with and without the cache. */
static WbStatus check_same(WbFitCache *cache, const Scene *scene)
{
    WbRoofFit kept = {.most = -7}, searched = {.most = -7};
    WbStatus status = ask(cache, scene, &kept);
    g_assert_cmpint(ask(NULL, scene, &searched), ==, status);
    if (status != WB_OK) {
        g_assert_true(kept.most == -7 && searched.most == -7);
        return status;
    }
    g_assert_true(same_fit(&kept, &searched));
    wb_roof_fit_free(&kept);
    wb_roof_fit_free(&searched);
    return status;
}

static uint64_t reused(WbFitCache *cache)
{
    return wb_fit_cache_count(cache).reused;
}

/* ---- random edits ---- */

static void edit_obstacle(WbObstacle *obstacle, WbRandom *random)
{
    switch (between(random, 0, 6)) {
    case 0:
        obstacle->x_mm = between(random, -200, 2400);
        break;
    case 1:
        obstacle->length_mm = obstacle->width_mm = between(random, 100, 500);
        break;
    case 2:
        obstacle->round = !obstacle->round && obstacle->length_mm == obstacle->width_mm;
        break;
    case 3:
        obstacle->kind = (int)between(random, WB_OBSTACLE_STANDS, WB_OBSTACLE_SHADE);
        break;
    case 4:
        obstacle->height_mm = between(random, 0, 2) * 40;
        break;
    case 5:
        obstacle->clearance_mm = between(random, -1, 2) * 15; /* refused, too */
        break;
    default:
        obstacle->name = between(random, 0, 1) ? "rack" : "aerial";
    }
}

static void edit_roof(WbRoof *roof, WbRandom *random)
{
    switch (between(random, 0, 6)) {
    case 0:
        roof->margin_mm = between(random, 0, 3) * 10;
        break;
    case 1:
        roof->gap_mm = between(random, 0, 3) * 10;
        break;
    case 2:
        roof->standoff_mm = between(random, 0, 3) * 35;
        break;
    case 3:
        roof->over_obstacles = !roof->over_obstacles;
        break;
    case 4:
        roof->n_corners = roof->n_corners ? 0 : CORNERS;
        break;
    case 5:
        roof->n_obstacles = (size_t)between(random, 0, OBSTACLES);
        break;
    default:
        roof->max_load_kg = (double)between(random, 20, 90);
        roof->max_height_mm = between(random, 0, 200);
        roof->has_gland = !roof->has_gland;
    }
}

static void edit_scene(Scene *scene, WbRandom *random)
{
    static const int64_t sizes[][2] = {{520, 350}, {700, 480}, {1000, 500}, {350, 520}};
    int64_t size = between(random, 0, G_N_ELEMENTS(sizes) - 1);
    switch (between(random, 0, 9)) {
    case 0:
        scene->a_mm = sizes[size][0];
        scene->b_mm = sizes[size][1];
        break;
    case 1:
        scene->at_most = (int)between(random, 0, 4) * 3;
        break;
    case 2:
        scene->nodes = between(random, 0, 1) ? 30 : 2000;
        break;
    case 3:
        scene->n_pinned = !scene->n_pinned;
        scene->pinned = (WbRect){between(random, 0, 3) * 400, between(random, 0, 2) * 350,
                                 scene->a_mm, scene->b_mm};
        break;
    case 4:
    case 5:
    case 6:
        edit_obstacle(&scene->obstacle[between(random, 0, OBSTACLES - 1)], random);
        break;
    default:
        edit_roof(&scene->roof, random);
    }
}

/* Every third step goes back to a state seen before, as undo does. */
static void test_random_edits(void)
{
    WbRandom random;
    wb_random_seed(&random, 20261128);
    g_autofree Scene *states = g_new0(Scene, STATES);
    base_scene(&states[0]);
    for (int i = 1; i < STATES; i++)
        copy_scene(&states[i], &states[0]);
    WbFitCache *cache = wb_fit_cache_new(60000);
    int refused = 0;
    for (int step = 0; step < EDITS; step++) {
        Scene now;
        copy_scene(&now, &states[between(&random, 0, STATES - 1)]);
        if (step % 3)
            edit_scene(&now, &random);
        bool bad = check_same(cache, &now) != WB_OK;
        refused += bad;
        if (!bad)
            copy_scene(&states[between(&random, 0, STATES - 1)], &now);
        g_assert_cmpuint(wb_fit_cache_count(cache).bytes, <=, 60000);
    }
    WbFitCacheCount count = wb_fit_cache_count(cache);
    g_test_message("%d edits: %" G_GUINT64_FORMAT " asked, %" G_GUINT64_FORMAT
                   " reused, %d refused; %zu kept in %zu bytes",
                   EDITS, count.asked, count.reused, refused, count.kept, count.bytes);
    g_assert_cmpint(refused, >, 20);
    g_assert_cmpuint(count.reused, >, EDITS / 4);
    g_assert_cmpuint(count.asked - count.reused, >, EDITS / 4);
    wb_fit_cache_unref(cache);
}

/* ---- what a question is ---- */

/* One after another: what makes another question, then what does not. */
enum { OTHER_QUESTIONS = 19, SAME_QUESTIONS = 10 };

static void change_question(Scene *scene, int which)
{
    WbRoof *roof = &scene->roof;
    WbObstacle *vent = &scene->obstacle[0], *hatch = &scene->obstacle[1];
    WbObstacle *tree = &scene->obstacle[3];
    int64_t *const one_more[] = {&roof->length_mm,
                                 &roof->width_mm,
                                 &roof->margin_mm,
                                 &roof->gap_mm,
                                 &scene->corner[1].x_mm,
                                 &scene->corner[0].y_mm,
                                 &vent->x_mm,
                                 &vent->y_mm,
                                 &vent->clearance_mm,
                                 &hatch->length_mm,
                                 &hatch->width_mm,
                                 &scene->a_mm,
                                 &scene->b_mm};
    if (which < (int)G_N_ELEMENTS(one_more)) {
        ++*one_more[which];
        return;
    }
    switch (which - (int)G_N_ELEMENTS(one_more)) {
    case 0: /* as many circles as before */
        vent->round = false;
        tree->width_mm = tree->length_mm;
        tree->round = true;
        break;
    case 1:
        roof->n_corners = 0;
        break;
    case 2:
        scene->at_most--;
        break;
    case 3:
        scene->nodes++;
        break;
    case 4:
        scene->n_pinned = 1;
        scene->pinned = (WbRect){1200, 1000, scene->a_mm, scene->b_mm};
        break;
    default:
        roof->standoff_mm = 95; /* over the hatch */
    }
}

static void change_other_things(Scene *scene, int which)
{
    WbRoof *roof = &scene->roof;
    WbObstacle *hatch = &scene->obstacle[1], *low = &scene->obstacle[2],
               *tree = &scene->obstacle[3];
    int64_t *const one_more[] = {&hatch->height_mm,   &low->x_mm,       &low->clearance_mm,
                                 &tree->x_mm,         &tree->length_mm, &roof->standoff_mm,
                                 &roof->max_height_mm};
    if (which < (int)G_N_ELEMENTS(one_more)) {
        ++*one_more[which];
        return;
    }
    switch (which - (int)G_N_ELEMENTS(one_more)) {
    case 0:
        hatch->name = "window";
        break;
    case 1:
        roof->has_gland = true;
        roof->gland = (WbCorner){700, 700};
        break;
    default:
        roof->max_load_kg = 33;
    }
}

static void test_every_part_of_a_question(void)
{
    WbFitCache *cache = wb_fit_cache_new(WB_FIT_CACHE_BYTES);
    Scene base, other;
    base_scene(&base);
    base.roof.n_corners = CORNERS;
    g_assert_cmpint(check_same(cache, &base), ==, WB_OK);
    for (int i = 0; i < OTHER_QUESTIONS; i++) {
        copy_scene(&other, &base);
        change_question(&other, i);
        g_assert_cmpint(check_same(cache, &other), ==, WB_OK);
        if (reused(cache) != 0)
            g_error("question %d is taken for another", i);
    }
    for (int i = 0; i < SAME_QUESTIONS; i++) {
        copy_scene(&other, &base);
        change_other_things(&other, i);
        g_assert_cmpint(check_same(cache, &other), ==, WB_OK);
        if (reused(cache) != (uint64_t)i + 1)
            g_error("question %d is asked anew", i);
    }
    g_assert_cmpuint(wb_fit_cache_count(cache).kept, ==, 1 + OTHER_QUESTIONS);
    wb_fit_cache_unref(cache);
}

/* What is refused stays refused although the words of the question are kept. */
static void test_refused(void)
{
    WbFitCache *cache = wb_fit_cache_new(WB_FIT_CACHE_BYTES);
    Scene base, bad;
    base_scene(&base);
    g_assert_cmpint(check_same(cache, &base), ==, WB_OK);
    copy_scene(&bad, &base);
    bad.obstacle[3].clearance_mm = -1; /* of the shade area */
    g_assert_cmpint(check_same(cache, &bad), ==, WB_BAD_INPUT);
    copy_scene(&bad, &base);
    bad.n_pinned = -1;
    g_assert_cmpint(check_same(cache, &bad), ==, WB_BAD_INPUT);
    WbControl control;
    wb_control_init(&control);
    wb_control_stop(&control);
    WbRoofFit fit = {.most = 77};
    g_assert_cmpint(wb_fit_cache_most(cache, &base.roof, base.a_mm, base.b_mm, NULL, 0,
                                      base.at_most, base.nodes, &control, &fit),
                    ==, WB_STOPPED);
    g_assert_cmpint(fit.most, ==, 77);
    wb_fit_cache_unref(cache);
}

/* ---- bounds ---- */

static void test_oldest_goes(void)
{
    const size_t most_bytes = 6000;
    WbFitCache *cache = wb_fit_cache_new(most_bytes);
    Scene favourite, other;
    base_scene(&favourite);
    check_same(cache, &favourite);
    for (int i = 1; i <= 60; i++) {
        copy_scene(&other, &favourite);
        other.a_mm += i;
        check_same(cache, &other);
        check_same(cache, &favourite);
        g_assert_cmpuint(reused(cache), ==, i);
        g_assert_cmpuint(wb_fit_cache_count(cache).bytes, <=, most_bytes);
    }
    size_t kept = wb_fit_cache_count(cache).kept;
    g_assert_cmpuint(kept, >, 2);
    g_assert_cmpuint(kept, <, 30);
    copy_scene(&other, &favourite);
    other.a_mm += 1;
    check_same(cache, &other); /* gone long ago */
    g_assert_cmpuint(reused(cache), ==, 60);
    wb_fit_cache_unref(cache);

    cache = wb_fit_cache_new(100); /* too small for any */
    check_same(cache, &favourite);
    check_same(cache, &favourite);
    WbFitCacheCount count = wb_fit_cache_count(cache);
    g_assert_true(count.asked == 2 && count.reused == 0 && count.kept == 0 && count.bytes == 0);
    wb_fit_cache_unref(cache);
    wb_fit_cache_unref(NULL);
}

/* ---- threads ---- */

enum { THREADS = 4, QUESTIONS = 40 };

static GMutex gate; /* so that all begin together */

static gpointer ask_all(gpointer data)
{
    WbFitCache *cache = data;
    g_mutex_lock(&gate);
    g_mutex_unlock(&gate);
    for (int i = 0; i < QUESTIONS; i++) {
        Scene scene;
        base_scene(&scene);
        scene.a_mm += i;
        check_same(cache, &scene);
    }
    wb_fit_cache_unref(cache);
    return NULL;
}

static void test_threads(void)
{
    GThread *thread[THREADS];
    WbFitCache *cache = wb_fit_cache_new(WB_FIT_CACHE_BYTES);
    g_mutex_lock(&gate);
    for (int i = 0; i < THREADS; i++)
        thread[i] = g_thread_new("asker", ask_all, wb_fit_cache_ref(cache));
    g_mutex_unlock(&gate);
    for (int i = 0; i < THREADS; i++)
        g_thread_join(thread[i]);
    WbFitCacheCount count = wb_fit_cache_count(cache);
    g_assert_cmpuint(count.asked, ==, THREADS * QUESTIONS);
    g_assert_cmpuint(count.kept, ==, QUESTIONS);
    g_assert_cmpuint(count.reused, <=, (THREADS - 1) * QUESTIONS);
    wb_fit_cache_unref(cache);
}

/* ---- from one ranking to the next ---- */

static void check_same_ranking(WbProblem *one, WbProblem *other)
{
    WbRankOptions options = wb_rank_options_default();
    WbRanking a, b;
    g_assert_cmpint(wb_rank(one, &options, NULL, &a), ==, WB_OK);
    g_assert_cmpint(wb_rank(other, &options, NULL, &b), ==, WB_OK);
    g_assert_cmpuint(a.raw, ==, b.raw);
    g_assert_cmpuint(a.feasible, ==, b.feasible);
    g_assert_cmpuint(a.n_top, ==, b.n_top);
    for (size_t i = 0; i < a.n_top; i++) {
        g_assert_cmpint(memcmp(&a.top[i].kit, &b.top[i].kit, sizeof a.top[i].kit), ==, 0);
        g_assert_cmpfloat(a.top[i].score, ==, b.top[i].score);
    }
    wb_ranking_free(&a);
    wb_ranking_free(&b);
    for (size_t i = 0; i < one->n_panels; i++)
        g_assert_true(same_fit(&one->panels[i].fit, &other->panels[i].fit));
    for (size_t i = 0; i < one->n_storage; i++) {
        g_assert_cmpint(one->storage[i].bay_fits, ==, other->storage[i].bay_fits);
        g_assert_cmpint(one->storage[i].bay_bound, ==, other->storage[i].bay_bound);
    }
}

/* How many answers the problem took from the cache. */
static uint64_t rank_with(WbFitCache *cache, const Gen *gen)
{
    WbProblem *kept, *searched;
    uint64_t before = reused(cache);
    g_assert_cmpint(wb_problem_new_cached(&gen->brief, &gen->catalogue, cache, NULL, &kept), ==,
                    WB_OK);
    uint64_t taken = reused(cache) - before;
    g_assert_cmpint(wb_problem_new_cached(&gen->brief, &gen->catalogue, NULL, NULL, &searched), ==,
                    WB_OK);
    check_same_ranking(kept, searched);
    wb_problem_free(kept);
    wb_problem_free(searched);
    return taken;
}

static void test_rankings(void)
{
    WbRandom random;
    wb_random_seed(&random, 77);
    g_autofree Gen *gen = g_new(Gen, 1);
    GenSize size = {5, 3, 4, 1, 1, 3, 2, 1, 2, 2};
    gen_fill(gen, &random, &size);
    gen->brief.bay = (WbBay){900, 420, 320, 5};
    WbFitCache *cache = wb_fit_cache_new(WB_FIT_CACHE_BYTES);
    g_assert_cmpuint(rank_with(cache, gen), ==, 0);
    gen->brief.weight[WB_CRITERION_COST] += 3;
    g_assert_cmpuint(rank_with(cache, gen), ==, 5 + 4);
    gen->brief.money_minor.value *= 2;
    g_assert_cmpuint(rank_with(cache, gen), ==, 5 + 4);
    gen->brief.roof.margin_mm += 7;
    g_assert_cmpuint(rank_with(cache, gen), ==, 4);
    gen->brief.bay.width_mm += 7;
    g_assert_cmpuint(rank_with(cache, gen), ==, 5);
    gen->brief.roof.margin_mm -= 7;
    gen->brief.bay.width_mm -= 7;
    g_assert_cmpuint(rank_with(cache, gen), ==, 5 + 4);
    wb_fit_cache_unref(cache);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/fit-cache/random-edits", test_random_edits);
    g_test_add_func("/fit-cache/every-part-of-a-question", test_every_part_of_a_question);
    g_test_add_func("/fit-cache/refused", test_refused);
    g_test_add_func("/fit-cache/oldest-goes", test_oldest_goes);
    g_test_add_func("/fit-cache/threads", test_threads);
    g_test_add_func("/fit-cache/rankings", test_rankings);
    return g_test_run();
}
