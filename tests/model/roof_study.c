/* The study of the roof: answers hold for the roof as it is, old ones are dropped at once, and
 * waiting is never asked of the main thread. Mixes likewise. */
#include "roof_study.h"
#include "figures_text.h"
#include "fit_cache.h"
#include "rig.h"
#include "roof_edit.h"
#include "roof_mix.h"
#include "roof_pins.h"
#include "roof_words.h"
#include <string.h>

static WbDocument *demo(void)
{
    WbDocument *document = rig_document();
    g_assert_true(wb_document_begin_demo(document, NULL));
    return document;
}

static const WbRoof *roof_of(WbDocument *document)
{
    return &wb_document_get_brief(document)->roof;
}

static guint count_known(WbRoofStudy *study)
{
    guint n = 0;
    for (gsize i = 0; i < wb_roof_study_get_n(study); i++)
        n += wb_roof_study_get(study, i)->known;
    return n;
}

static void turn_until(gboolean (*done)(WbRoofStudy *), WbRoofStudy *study)
{
    gint64 end = g_get_monotonic_time() + 90 * G_USEC_PER_SEC;
    while (!done(study)) {
        g_assert_cmpint(g_get_monotonic_time(), <, end);
        g_main_context_iteration(NULL, TRUE);
    }
}

static gboolean fits_are_known(WbRoofStudy *study)
{
    return count_known(study) == wb_roof_study_get_n(study);
}

static gboolean are_arranged(WbRoofStudy *study)
{
    for (gsize i = 0; i < wb_roof_study_get_n(study); i++)
        if (!wb_roof_study_get(study, i)->arranged && wb_roof_study_get(study, i)->fit.most > 0)
            return FALSE;
    return TRUE;
}

/* The fits; changes are still worked out. */
static void wait_for_study(WbRoofStudy *study)
{
    turn_until(fits_are_known, study);
}

/* Every layout is one of the roof as it is, by the independent checker. */
static void check_layouts(WbRoofStudy *study, const WbRoof *roof)
{
    for (gsize i = 0; i < wb_roof_study_get_n(study); i++) {
        const WbStudyPanel *panel = wb_roof_study_get(study, i);
        int bad;
        if (!panel->known)
            continue;
        g_assert_cmpint(panel->fit.most, <=, panel->fit.bound);
        g_assert_true(wb_roof_layout_ok(roof, panel->panel->length_mm, panel->panel->width_mm,
                                        panel->fit.layout, panel->fit.most, &bad));
    }
}

static void test_answers(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autoptr(WbRoofStudy) study = wb_roof_study_new(document);
    g_assert_cmpuint(wb_roof_study_get_n(study), >, 10);
    rig_settle(50);
    g_assert_cmpuint(count_known(study), ==, 0); /* it sleeps */
    wb_roof_study_set_awake(study, TRUE);
    wait_for_study(study);
    g_assert_cmpuint(count_known(study), ==, wb_roof_study_get_n(study));
    check_layouts(study, roof_of(document));
    turn_until(are_arranged, study);
    check_layouts(study, roof_of(document));
}

/* The panel looked at is first; its changes are of the roof as it is and hold. */
static void test_changes(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autoptr(WbRoofStudy) study = wb_roof_study_new(document);
    wb_roof_study_look_at(study, wb_roof_study_get(study, 0)->panel->part.id);
    wb_roof_study_set_awake(study, TRUE);
    wait_for_study(study);
    const WbStudyPanel *panel = wb_roof_study_get(study, 0);
    gint64 end = g_get_monotonic_time() + 90 * G_USEC_PER_SEC;
    while (!panel->changes_known) {
        g_assert_cmpint(g_get_monotonic_time(), <, end);
        g_main_context_iteration(NULL, TRUE);
        panel = wb_roof_study_get(study, 0);
    }
    for (int i = 0; i < panel->n_changes; i++) {
        const WbRoofChange *change = &panel->change[i];
        WbRoof roof = *roof_of(document);
        g_autofree WbObstacle *moved = g_memdup2(roof.obstacles, roof.n_obstacles * sizeof *moved);
        if (change->kind != WB_CHANGE_MOVE_X && change->kind != WB_CHANGE_MOVE_Y)
            continue;
        moved[change->obstacle].x_mm += change->kind == WB_CHANGE_MOVE_X ? change->by_mm : 0;
        moved[change->obstacle].y_mm += change->kind == WB_CHANGE_MOVE_Y ? change->by_mm : 0;
        roof.obstacles = moved;
        g_assert_cmpint(change->n, ==, panel->fit.most + 1);
        g_assert_true(wb_roof_layout_ok(&roof, panel->panel->length_mm, panel->panel->width_mm,
                                        change->layout, change->n, NULL));
    }
}

static void test_new_roof(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autoptr(WbRoofStudy) study = wb_roof_study_new(document);
    wb_roof_study_set_awake(study, TRUE);
    wait_for_study(study);
    g_assert_true(
        wb_document_set_json(document, "Edit", "/roof/obstacles/0/name", "\"Fan\"", NULL));
    g_assert_cmpuint(count_known(study), ==, wb_roof_study_get_n(study)); /* all still holds */
    g_assert_true(wb_obstacle_nudge(document, 0, 137, 0, NULL));
    g_assert_cmpuint(count_known(study), ==, 0); /* nothing old is left, before any turn */
    wait_for_study(study);
    g_assert_cmpuint(count_known(study), ==, wb_roof_study_get_n(study));
    check_layouts(study, roof_of(document));
    for (int i = 0; i < 40; i++) { /* as fast as keys come; the loop never waits */
        gint64 begun_us = g_get_monotonic_time();
        g_assert_true(wb_obstacle_nudge(document, 0, i % 2 ? 3 : -3, 0, NULL));
        g_assert_cmpint(g_get_monotonic_time() - begun_us, <, 500000);
        g_main_context_iteration(NULL, FALSE);
    }
    wait_for_study(study);
    check_layouts(study, roof_of(document));
}

static void test_swallowed(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autoptr(WbRoofStudy) study = wb_roof_study_new(document);
    wb_roof_study_set_awake(study, TRUE);
    g_assert_true(wb_document_set_json(document, "Edit", "/roof/margin_mm", "900", NULL));
    wait_for_study(study);
    for (gsize i = 0; i < wb_roof_study_get_n(study); i++) {
        const WbStudyPanel *panel = wb_roof_study_get(study, i);
        g_autofree char *words = wb_roof_fit_words(&panel->fit);
        g_assert_true(panel->known);
        g_assert_cmpint(panel->fit.bound, ==, 0);
        g_assert_cmpstr(words, ==, "does not fit: proved");
    }
}

/* A pin stays where it is; one that stands wrong is named, and nothing is laid. */
static void test_pins(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autoptr(WbRoofStudy) study = wb_roof_study_new(document);
    g_autofree char *id = g_strdup(wb_roof_study_get(study, 0)->panel->part.id);
    g_autofree char *good = g_strdup_printf(
        "[{\"panel\": \"%s\", \"x_mm\": 100, \"y_mm\": 60, \"turned\": false}]", id);
    g_autofree char *wrong = g_strdup_printf(
        "[{\"panel\": \"%s\", \"x_mm\": 1200, \"y_mm\": 600, \"turned\": false}]", id);
    wb_roof_study_set_awake(study, TRUE);
    g_assert_true(wb_document_set_json(document, "Pin", "/roof/pins", good, NULL));
    wait_for_study(study);
    const WbStudyPanel *panel = wb_roof_study_get(study, (gsize)wb_roof_study_find(study, id));
    g_assert_cmpint(panel->n_pinned, ==, 1);
    g_assert_cmpint(panel->fit.layout[0].x_mm, ==, 100);
    g_assert_cmpint(panel->fit.layout[0].y_mm, ==, 60);
    wb_document_seal(document);
    g_assert_true(wb_document_set_json(document, "Pin", "/roof/pins", wrong, NULL));
    wait_for_study(study);
    panel = wb_roof_study_get(study, (gsize)wb_roof_study_find(study, id));
    g_assert_nonnull(panel->refused);
    g_assert_nonnull(strstr(panel->refused, "1,200 mm from the left and 600 mm from the front"));
    g_assert_cmpint(panel->fit.most, ==, 0);
}

static void test_thousand_obstacles(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autoptr(WbRoofStudy) study = wb_roof_study_new(document);
    g_autoptr(GString) list = g_string_new("[");
    for (int i = 0; i < 1000; i++)
        g_string_append_printf(
            list,
            "%s{\"name\": \"Stud %d\", \"x_mm\": %d, \"y_mm\": %d, \"length_mm\": "
            "8, \"width_mm\": 8, \"clearance_mm\": 5}",
            i ? "," : "", i, 20 + 67 * (i % 50), 20 + 83 * (i / 50));
    g_string_append_c(list, ']');
    wb_roof_study_set_awake(study, TRUE);
    gint64 begun_us = g_get_monotonic_time();
    g_assert_true(wb_document_set_json(document, "Edit", "/roof/obstacles", list->str, NULL));
    g_test_message("edit took %" G_GINT64_FORMAT " us", g_get_monotonic_time() - begun_us);
    wait_for_study(study);
    g_test_message("study took %" G_GINT64_FORMAT " us", g_get_monotonic_time() - begun_us);
    check_layouts(study, roof_of(document));
}

/* The study may go while its thread works. */
static void test_ends(void)
{
    for (int i = 0; i < 20; i++) {
        g_autoptr(WbDocument) document = demo();
        g_autoptr(WbRoofStudy) study = wb_roof_study_new(document);
        wb_roof_study_set_awake(study, TRUE);
        rig_settle((guint)i);
    }
    rig_settle(100);
}

/* ---- words ---- */

static void test_change_words(void)
{
    static const WbObstacle obstacles[] = {
        {"Vent 2", 0, 0, 100, 100, 50, 0, WB_OBSTACLE_STANDS, false},
        {"Hatch", 0, 0, 100, 100, 40, 0, WB_OBSTACLE_STANDS, false},
        {"Hatch", 500, 0, 100, 100, 40, 0, WB_OBSTACLE_STANDS, false},
        {"", 900, 0, 100, 100, 0, 0, WB_OBSTACLE_STANDS, false},
    };
    static const struct {
        WbRoofChange change;
        const char *words;
    } rows[] = {
        {{WB_CHANGE_MOVE_X, 0, 85, true, NULL, 3},
         "Move Vent 2 by 85 mm to the right and a third fits."},
        {{WB_CHANGE_MOVE_X, 1, -1200, true, NULL, 1},
         "Move Hatch (obstacle 2) by 1,200 mm to the left and one fits."},
        {{WB_CHANGE_MOVE_Y, 3, 5, true, NULL, 2},
         "Move obstacle 4 by 5 mm to the back and a second fits."},
        {{WB_CHANGE_MOVE_Y, 0, -5, false, NULL, 13},
         "Move Vent 2 by 5 mm to the front and 13 fit. Whether less would do is not decided."},
        {{WB_CHANGE_MARGIN, -1, 15, true, NULL, 3},
         "With a margin of 35 mm instead of 50, a third fits."},
        {{WB_CHANGE_GAP, -1, 20, true, NULL, 8},
         "With a gap of 0 mm instead of 20, an eighth fits."},
        {{WB_CHANGE_CLEARANCE, 0, 12, true, NULL, 3},
         "With a clearance round Vent 2 of 38 mm instead of 50, a third fits."},
        {{WB_CHANGE_PANEL_LENGTH, -1, 12, true, NULL, 3},
         "The panels are 12 mm too long: that much shorter, a third fits."},
        {{WB_CHANGE_PANEL_WIDTH, -1, 1, true, NULL, 3},
         "The panels are 1 mm too wide: that much narrower, a third fits."},
    };
    const WbRoof roof = {.length_mm = 3000,
                         .width_mm = 1500,
                         .margin_mm = 50,
                         .gap_mm = 20,
                         .obstacles = obstacles,
                         .n_obstacles = G_N_ELEMENTS(obstacles)};
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        g_autofree char *words = wb_roof_change_words(&roof, &rows[i].change, 1);
        g_assert_cmpstr(words, ==, rows[i].words);
    }
    g_assert_null(wb_roof_change_words(&roof, &rows[0].change, 0));
}

/* Of the panel's sides only what is small is told; what is freed leaves no hole. */
static void test_useful_changes(void)
{
    WbRoofChange change[] = {
        {WB_CHANGE_PANEL_LENGTH, -1, 765, true, g_malloc0(sizeof(WbRect)), 1},
        {WB_CHANGE_MOVE_X, 0, 900, false, g_malloc0(sizeof(WbRect)), 1},
        {WB_CHANGE_PANEL_LENGTH, -1, 151, true, g_malloc0(sizeof(WbRect)), 1},
        {WB_CHANGE_PANEL_WIDTH, -1, 150, true, g_malloc0(sizeof(WbRect)), 1},
    };
    g_assert_cmpint(wb_roof_changes_keep_useful(change, G_N_ELEMENTS(change)), ==, 2);
    g_assert_cmpint(change[0].by_mm, ==, 900);
    g_assert_cmpint(change[1].by_mm, ==, 150);
    for (gsize i = 0; i < G_N_ELEMENTS(change); i++)
        g_assert_true((change[i].layout != NULL) == (i < 2));
    wb_roof_changes_free(change, 2);
    g_assert_cmpint(wb_roof_changes_keep_useful(NULL, 0), ==, 0);
}

/* One reason for each pin, the one that applies. */
static void test_refused_pins(void)
{
    static const WbObstacle obstacles[] = {
        {"Vent", 1500, 600, 300, 300, 50, 0, WB_OBSTACLE_STANDS, false},
        {"Mast", 2500, 1000, 200, 200, 0, 0, WB_OBSTACLE_STANDS, true},
    };
    static const WbCorner tapered[] = {{400, 0}, {3000, 0}, {3000, 1500}, {0, 1500}};
    static const struct {
        WbPin pins[2];
        size_t n_pins;
        gboolean is_tapered;
        const char *words; /* NULL: they hold */
    } rows[] = {
        {{{"p-a", 50, 50, false}}, 1, FALSE, NULL},
        {{{"p-a", 49, 50, false}}, 1, FALSE, "it does not keep the margin of 50 mm to the edge"},
        {{{"p-a", 2501, 100, false}}, 1, FALSE, "it reaches over the edge of the roof"},
        {{{"p-a", 50, 50, false}}, 1, TRUE, "it reaches over the edge of the roof"},
        {{{"p-a", 1200, 500, false}}, 1, FALSE, "it lies over Vent"},
        {{{"p-a", 951, 500, false}}, 1, FALSE, "it is nearer to Vent than the clearance of 50 mm"},
        {{{"p-a", 950, 500, false}}, 1, FALSE, NULL},
        {{{"p-a", 2300, 800, true}}, 1, FALSE, "it lies over Mast"},
        {{{"p-a", 50, 50, false}, {"p-a", 560, 50, true}},
         2,
         FALSE,
         "it is nearer than the gap of 20 mm to the one pinned 50 mm from the left and 50 mm from "
         "the front"},
        {{{"p-a", 50, 50, false}, {"p-a", 300, 60, true}},
         2,
         FALSE,
         "it lies over the one pinned 50 mm from the left and 50 mm from the front"},
        {{{"p-a", 50, 50, false}, {"p-a", 570, 50, true}}, 2, FALSE, NULL},
    };
    const WbPanel panel = {.part = {.id = "p-a"}, .length_mm = 500, .width_mm = 300};
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        const WbRoof roof = {.length_mm = 3000,
                             .width_mm = 1500,
                             .margin_mm = 50,
                             .gap_mm = 20,
                             .obstacles = obstacles,
                             .n_obstacles = G_N_ELEMENTS(obstacles),
                             .corners = rows[i].is_tapered ? tapered : NULL,
                             .n_corners = rows[i].is_tapered ? G_N_ELEMENTS(tapered) : 0,
                             .pins = rows[i].pins,
                             .n_pins = rows[i].n_pins};
        int n, bad = 0;
        g_autofree WbRect *pinned = wb_roof_pinned(&roof, &panel, &n);
        g_assert_true(wb_roof_layout_ok(&roof, 500, 300, pinned, n, &bad) ==
                      (rows[i].words == NULL));
        if (rows[i].words == NULL)
            continue;
        const WbPin *pin = &rows[i].pins[bad];
        g_autofree char *x = wb_text_number((double)pin->x_mm, 0);
        g_autofree char *y = wb_text_number((double)pin->y_mm, 0);
        g_autofree char *wanted =
            g_strdup_printf("The panel pinned %s mm from the left and %s mm from the front does "
                            "not hold there: %s. Move it or unpin it.",
                            x, y, rows[i].words);
        g_autofree char *words = wb_roof_refused_words(&roof, &panel);
        g_assert_cmpstr(words, ==, wanted);
    }
    const WbPin far = {"p-a", 0, 0, false};
    const WbRoof beyond = {.length_mm = 200000, .width_mm = 1500, .pins = &far, .n_pins = 1};
    g_autofree char *words = wb_roof_refused_words(&beyond, &panel);
    g_assert_nonnull(strstr(words, "cannot be reckoned with"));
}

static void test_fit_words(void)
{
    static const struct {
        WbRoofFit fit;
        const char *words;
    } rows[] = {
        {{3, 3, 3, NULL, 400, 0}, "3 fit, 4 do not: proved"},
        {{0, 0, 0, NULL, 400, 0}, "does not fit: proved"},
        {{3, 4, 4, NULL, 400, 0}, "3 fit; whether 4 do is not decided"},
        {{3, 6, 6, NULL, 400, 0}, "3 fit; 4 to 6 are not decided"},
        {{3, 4, 3, NULL, 400, 0}, "3 fit; whether 4 do hangs on less than 1 mm"},
        {{0, 1, 0, NULL, 400, 0}, "whether one fits hangs on less than 1 mm"},
        {{400, 400, 400, NULL, 400, 0}, "400 fit; more were not asked for"},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        g_autofree char *words = wb_roof_fit_words(&rows[i].fit);
        g_assert_cmpstr(words, ==, rows[i].words);
    }
}

/* ---- mixes ---- */

static void wait_for_mix(WbRoofMix *mix)
{
    gint64 end = g_get_monotonic_time() + 120 * G_USEC_PER_SEC;
    while (wb_roof_mix_get_state(mix) == WB_ROOF_MIX_RUNNING) {
        g_assert_cmpint(g_get_monotonic_time(), <, end);
        g_main_context_iteration(NULL, TRUE);
    }
}

static void check_mixes(WbRoofMix *mix, const WbRoof *roof)
{
    gsize n;
    int undecided;
    const WbMixBest *best = wb_roof_mix_get_best(mix, &n, &undecided);
    g_assert_cmpuint(n, >, 0);
    for (gsize i = 0; i < n; i++) {
        WbMixItem item[WB_MIX_MODELS] = {0};
        double power_w = 0;
        gsize n_models = wb_roof_mix_get_n_models(mix);
        for (gsize k = 0; k < n_models; k++) {
            const WbPanel *panel = wb_roof_mix_get_model(mix, k);
            item[k] = (WbMixItem){panel->length_mm, panel->width_mm, best[i].count[k], true};
            power_w += best[i].count[k] * panel->power_w;
        }
        g_assert_cmpfloat_with_epsilon(best[i].power_w, power_w, 1e-9);
        g_assert_true(wb_mix_layout_ok(roof, item, n_models, best[i].layout, best[i].n_layout));
        g_assert_true(i == 0 || best[i].power_w <= best[i - 1].power_w);
    }
}

static void test_mixes(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autoptr(WbRoofStudy) study = wb_roof_study_new(document); /* for the ticked ids */
    g_autoptr(WbRoofMix) mix = wb_roof_mix_new(document);
    gsize n;
    int undecided;
    char *id[4];
    for (int i = 0; i < 4; i++)
        id[i] = g_strdup(wb_roof_study_get(study, (gsize)i)->panel->part.id);
    wb_roof_mix_set_awake(mix, TRUE);
    g_assert_true(wb_roof_mix_choose(mix, id[0], TRUE));
    g_assert_cmpint(wb_roof_mix_get_state(mix), ==, WB_ROOF_MIX_NONE);
    g_assert_true(wb_roof_mix_choose(mix, id[1], TRUE));
    g_assert_cmpint(wb_roof_mix_get_state(mix), ==, WB_ROOF_MIX_RUNNING);
    wait_for_mix(mix);
    g_assert_cmpint(wb_roof_mix_get_state(mix), ==, WB_ROOF_MIX_DONE);
    check_mixes(mix, roof_of(document));
    g_assert_true(wb_obstacle_nudge(document, 0, 137, 0, NULL));
    wb_roof_mix_get_best(mix, &n, &undecided);
    g_assert_cmpuint(n, ==, 0); /* nothing old is left */
    wait_for_mix(mix);
    check_mixes(mix, roof_of(document));
    g_assert_true(wb_roof_mix_choose(mix, id[2], TRUE));
    g_assert_false(wb_roof_mix_choose(mix, id[3], TRUE));
    wb_roof_mix_stop(mix);
    g_assert_cmpint(wb_roof_mix_get_state(mix), ==, WB_ROOF_MIX_STOPPED);
    g_assert_true(wb_document_tick(document, id[0], FALSE, NULL));
    g_assert_cmpuint(wb_roof_mix_get_n_models(mix), ==, 2);
    wait_for_mix(mix);
    check_mixes(mix, roof_of(document));
    for (int i = 0; i < 4; i++)
        g_free(id[i]);
}

static gboolean first_is_shaded(WbRoofStudy *study)
{
    return wb_roof_study_get(study, 0)->shade_known;
}

/* Shade is asked of the panel looked at only, and is that of its layout. */
static void test_shade(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autoptr(WbRoofStudy) study = wb_roof_study_new(document);
    double month[12], most = 0;
    g_assert_true(
        wb_document_set_number(document, "Height", "/roof/obstacles/0/height_mm", 400, NULL));
    wb_roof_study_set_awake(study, TRUE);
    turn_until(are_arranged, study);
    g_assert_false(first_is_shaded(study));
    wb_roof_study_look_at(study, wb_roof_study_get(study, 0)->panel->part.id);
    turn_until(first_is_shaded, study);
    const WbStudyPanel *panel = wb_roof_study_get(study, 0);
    g_assert_cmpint(wb_roof_shade(roof_of(document), &wb_document_get_brief(document)->site,
                                  panel->fit.layout, panel->fit.most, NULL, month, NULL),
                    ==, WB_OK);
    g_assert_cmpmem(panel->shade, sizeof panel->shade, month, sizeof month);
    g_assert_nonnull(panel->shade_by_panel);
    for (int m = 0; m < 12; m++)
        most = MAX(most, panel->shade[m]);
    g_assert_cmpfloat(most, >, 0);
    g_assert_false(wb_roof_study_get(study, 1)->shade_known);
}

/* Back on the roof of before, no fit is searched again. */
static void test_undo(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autoptr(WbRoofStudy) study = wb_roof_study_new(document);
    WbFitCache *fits = wb_document_get_fits(document);
    wb_roof_study_set_awake(study, TRUE);
    wait_for_study(study);
    g_assert_true(wb_document_set_number(document, "Margin", "/roof/margin_mm", 91, NULL));
    wait_for_study(study);
    WbFitCacheCount before = wb_fit_cache_count(fits);
    wb_document_undo(document);
    wait_for_study(study);
    WbFitCacheCount after = wb_fit_cache_count(fits);
    g_assert_cmpuint(after.reused - before.reused, ==, wb_roof_study_get_n(study));
    check_layouts(study, roof_of(document));
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/roof-study/answers", test_answers);
    g_test_add_func("/roof-study/changes", test_changes);
    g_test_add_func("/roof-study/new-roof", test_new_roof);
    g_test_add_func("/roof-study/swallowed", test_swallowed);
    g_test_add_func("/roof-study/pins", test_pins);
    g_test_add_func("/roof-study/thousand-obstacles", test_thousand_obstacles);
    g_test_add_func("/roof-study/ends", test_ends);
    g_test_add_func("/roof-study/change-words", test_change_words);
    g_test_add_func("/roof-study/useful-changes", test_useful_changes);
    g_test_add_func("/roof-study/refused-pins", test_refused_pins);
    g_test_add_func("/roof-study/fit-words", test_fit_words);
    g_test_add_func("/roof-study/mixes", test_mixes);
    g_test_add_func("/roof-study/shade", test_shade);
    g_test_add_func("/roof-study/undo", test_undo);
    return g_test_run();
}
