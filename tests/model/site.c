/* Place, season, roof and obstacles edited as a person does; each edit one step, refusals change
 * nothing. */
#include "hours_csv.h"
#include "place_list.h"
#include "rig.h"
#include "roof_edit.h"
#include "site_edit.h"
#include <glib/gstdio.h>
#include <string.h>

static WbDocument *demo(void)
{
    WbDocument *document = rig_document();
    g_assert_true(wb_document_begin_demo(document, NULL));
    return document;
}

static const WbSite *site_of(WbDocument *document)
{
    return &wb_document_get_brief(document)->site;
}

/* ---- places ---- */

static guint matches(GListModel *list, const char *text)
{
    guint n = 0;
    for (guint i = 0; i < g_list_model_get_n_items(list); i++) {
        g_autoptr(WbPlaceRow) row = g_list_model_get_item(list, i);
        n += wb_place_row_matches(row, text) ? 1 : 0;
    }
    return n;
}

static void test_finding(void)
{
    g_autoptr(GListModel) list = wb_place_list_new();
    guint all = g_list_model_get_n_items(list);
    g_assert_cmpuint(all, ==, 300); /* data/README.md */
    g_assert_cmpuint(matches(list, "barilo"), ==, 1);
    g_assert_cmpuint(matches(list, "ARGENT baril"), ==, 1);
    g_assert_cmpuint(matches(list, "france"), >, 1);
    g_assert_cmpuint(matches(list, "no such place"), ==, 0);
    for (guint i = 0; i < all; i++) {
        g_autoptr(WbPlaceRow) row = g_list_model_get_item(list, i);
        const char *words = wb_place_uncertainty(wb_place_row_get_place(row)->kind);
        g_assert_nonnull(strchr(words, '%')); /* every built-in kind has its figure */
    }
}

static void test_choosing(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autoptr(GError) error = NULL;
    g_autofree char *before = rig_text(document);
    g_assert_true(wb_site_choose_place(document, "bariloche-argentina", &error));
    g_assert_no_error(error);
    g_assert_cmpfloat(site_of(document)->place.latitude_deg, <, -40);
    g_assert_true(wb_document_undo(document));
    g_autofree char *after = rig_text(document);
    g_assert_cmpstr(before, ==, after);
    g_assert_false(wb_site_choose_place(document, "atlantis", &error));
    g_assert_nonnull(strstr(error->message, "atlantis"));
    g_autofree char *still = rig_text(document);
    g_assert_cmpstr(before, ==, still);
}

static void test_own_figures(void)
{
    g_autoptr(WbDocument) document = demo();
    const WbPlace old = site_of(document)->place;
    g_autofree char *name = g_strdup(old.name);
    g_assert_false(wb_site_is_own(document));
    g_assert_true(wb_site_begin_own(document, NULL));
    g_assert_true(wb_site_is_own(document));
    const WbPlace *own = &site_of(document)->place;
    g_assert_cmpstr(own->name, ==, name);
    g_assert_cmpstr(own->kind, ==, "own figures");
    for (int month = 0; month < WB_MONTHS; month++)
        for (int f = 0; f < WB_N_MONTH_FIGURES; f++)
            g_assert_cmpfloat(wb_month_figure(own, f, month), ==, wb_month_figure(&old, f, month));
    g_assert_true(wb_document_undo(document));
    g_assert_false(wb_site_is_own(document));
}

/* ---- paste ---- */

#define COLUMN(a) a "1\n" a "2\n" a "3\n" a "4\n" a "5\n" a "6\n" a "7\n" a "8\n" a "9\n"

static const struct {
    const char *about, *text;
    WbMonthFigure first;
    int month;
    int at_month; /* which figure is looked at afterwards */
    WbMonthFigure figure;
    double value;
} taken[] = {
    {"points in one column", COLUMN("1.") "2.0\n2.1\n2.2\n", 0, 0, 2, WB_MONTH_SUN, 1.3},
    {"commas in one column", COLUMN("1,") "2,0\n2,1\n2,2\n", 0, 0, 11, WB_MONTH_SUN, 2.2},
    {"line ends of another system", "1.5\r\n2.5\r\n", 0, 0, 1, WB_MONTH_SUN, 2.5},
    {"tabs, decimal commas", "3,5\t12,5\t20\t-5,5\n", 0, 4, 4, WB_MONTH_AIR_MIN, -5.5},
    {"commas between cells", "3.5,12.5,20,5\n", 0, 4, 4, WB_MONTH_AIR_MAX, 20},
    {"semicolons, decimal commas", "3,5;12,5\n", 0, 0, 0, WB_MONTH_AIR_MEAN, 12.5},
    {"heads and names", "Month\tSun\nJanuary\t1.25\nFebruary\t2.25\n", 0, 0, 1, WB_MONTH_SUN, 2.25},
    {"a line laid flat", "1\t2\t3\t4\t5\t6\t7\t8\t9\t10\t11\t12\n", 0, 0, 9, WB_MONTH_SUN, 10},
    {"from a cell on", "8.5\n9.5\n", WB_MONTH_AIR_MEAN, 10, 11, WB_MONTH_AIR_MEAN, 9.5},
    {"colder than the lowest was", "-30\t-35\n", WB_MONTH_AIR_MAX, 0, 0, WB_MONTH_AIR_MAX, -30},
};

static void test_paste_taken(void)
{
    for (gsize i = 0; i < G_N_ELEMENTS(taken); i++) {
        g_autoptr(WbDocument) document = demo();
        g_autoptr(GError) error = NULL;
        g_assert_true(wb_site_begin_own(document, NULL));
        g_autofree char *before = rig_text(document);
        g_test_message("%s", taken[i].about);
        g_assert_true(
            wb_site_paste(document, taken[i].first, taken[i].month, taken[i].text, &error));
        g_assert_no_error(error);
        g_assert_cmpfloat(
            wb_month_figure(&site_of(document)->place, taken[i].figure, taken[i].at_month), ==,
            taken[i].value);
        g_assert_true(wb_document_undo(document));
        g_autofree char *after = rig_text(document);
        g_assert_cmpstr(before, ==, after);
    }
}

static const struct {
    const char *text, *says;
    WbMonthFigure first;
    int month;
} refused[] = {
    {"1.5\nwarm\n", "Line 2", 0, 0},
    {"1.5\nwarm\n", "warm", 0, 0},
    {"1\t2\t3\t4\t5\n", "more columns", 0, 0},
    {"1\n2\n", "December", 0, 11},
    {"", "no figures", 0, 0},
    {" \n\t\n", "no figures", 0, 0},
    {"99\n", "15", 0, 0},                   /* the store's range of irradiation */
    {"60\n", "air_m", WB_MONTH_AIR_MIN, 0}, /* lowest above the highest */
    {"1.5\t\t3\n", "Mean air", 0, 0},       /* an empty cell between */
    {"nan\n", "nan", 0, 0},
    {"1e400\n", "1e400", 0, 0},
    {"\xff\xfe", "no figures", 0, 0},
};

static void test_paste_refused(void)
{
    for (gsize i = 0; i < G_N_ELEMENTS(refused); i++) {
        g_autoptr(WbDocument) document = demo();
        g_autoptr(GError) error = NULL;
        g_assert_true(wb_site_begin_own(document, NULL));
        g_autofree char *before = rig_text(document);
        g_assert_false(
            wb_site_paste(document, refused[i].first, refused[i].month, refused[i].text, &error));
        g_test_message("%s", error->message);
        g_assert_nonnull(strstr(error->message, refused[i].says));
        g_autofree char *after = rig_text(document);
        g_assert_cmpstr(before, ==, after);
    }
}

static void test_paste_needs_own_figures(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autoptr(GError) error = NULL;
    g_assert_false(wb_site_paste(document, 0, 0, "1.5\n", &error));
    g_assert_nonnull(strstr(error->message, "own"));
    g_assert_false(wb_document_can_undo(document));
}

/* ---- season, shade, driving ---- */

static void test_months(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autoptr(GError) error = NULL;
    wb_document_set_merge_ms(document, 0);
    g_assert_true(wb_site_use_month(document, 0, TRUE, &error));
    g_assert_true(site_of(document)->months & 1);
    for (int month = 1; month < WB_MONTHS; month++)
        g_assert_true(wb_site_use_month(document, month, FALSE, &error));
    g_assert_cmpuint(site_of(document)->months, ==, 1);
    g_assert_false(wb_site_use_month(document, 0, FALSE, &error));
    g_assert_nonnull(strstr(error->message, "one month"));
    g_assert_cmpuint(site_of(document)->months, ==, 1);
}

static void test_shading(void)
{
    g_autoptr(WbDocument) document = demo();
    double loss = site_of(document)->shading_loss[5];
    g_assert_cmpfloat(loss, >, 0);
    g_assert_true(wb_site_shade_by_month(document, TRUE, NULL));
    g_assert_true(wb_site_is_shaded_by_month(document));
    g_assert_cmpfloat(site_of(document)->shading_loss[11], ==, loss);
    g_assert_true(wb_document_set_number(document, "Shade", "/site/shading_loss/11", 0.5, NULL));
    g_assert_cmpfloat(site_of(document)->shading_loss[11], ==, 0.5);
    g_assert_cmpfloat(site_of(document)->shading_loss[5], ==, loss);
    /* December is not in use: its shade does not enter the mean. */
    g_assert_false(site_of(document)->months >> 11 & 1);
    g_assert_true(wb_site_shade_by_month(document, FALSE, NULL));
    g_assert_false(wb_site_is_shaded_by_month(document));
    g_assert_cmpfloat_with_epsilon(site_of(document)->shading_loss[11], loss, 1e-9);
}

static void test_driving(void)
{
    g_autoptr(WbDocument) document = demo();
    const WbBrief *brief = wb_document_get_brief(document);
    g_assert_cmpfloat(brief->driving.alternator_a, >, 0);
    g_assert_true(wb_site_set_driving(document, FALSE, NULL));
    g_assert_cmpfloat(wb_document_get_brief(document)->driving.alternator_a, ==, 0);
    g_assert_true(wb_site_set_driving(document, TRUE, NULL));
    brief = wb_document_get_brief(document);
    g_assert_cmpfloat(brief->driving.alternator_a, >, 0);
    g_assert_cmpfloat(brief->driving.drive_hours_day, >, 0);
}

/* ---- roof ---- */

static const WbRoof *roof_of(WbDocument *document)
{
    return &wb_document_get_brief(document)->roof;
}

static void test_obstacles(void)
{
    g_autoptr(WbDocument) document = demo();
    gsize n = roof_of(document)->n_obstacles;
    g_assert_cmpuint(n, >=, 2);
    g_assert_true(wb_obstacle_add(document, NULL));
    g_assert_cmpuint(roof_of(document)->n_obstacles, ==, n + 1);
    const WbObstacle *added = &roof_of(document)->obstacles[n];
    g_assert_cmpint(added->x_mm, >=, 0);
    g_assert_cmpint(added->x_mm + added->length_mm, <=, roof_of(document)->length_mm);
    g_assert_true(wb_obstacle_duplicate(document, 0, NULL));
    g_assert_cmpint(roof_of(document)->obstacles[1].x_mm, ==, roof_of(document)->obstacles[0].x_mm);
    g_assert_cmpuint(roof_of(document)->n_obstacles, ==, n + 2);
    while (roof_of(document)->n_obstacles > 0)
        g_assert_true(wb_obstacle_remove(document, 0, NULL));
    g_assert_true(wb_obstacle_add(document, NULL));
    g_assert_cmpuint(roof_of(document)->n_obstacles, ==, 1);
}

static void test_moving(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autoptr(GError) error = NULL;
    const WbObstacle was = roof_of(document)->obstacles[0];
    g_assert_true(wb_obstacle_move(document, 0, 700, 310, &error));
    g_assert_cmpint(roof_of(document)->obstacles[0].x_mm, ==, 700);
    g_assert_cmpint(roof_of(document)->obstacles[0].y_mm, ==, 310);
    for (int i = 0; i < 5; i++)
        g_assert_true(wb_obstacle_nudge(document, 0, -1, 0, &error));
    g_assert_cmpint(roof_of(document)->obstacles[0].x_mm, ==, 695);
    g_assert_true(wb_document_undo(document)); /* the nudges are one step, the drag another */
    g_assert_cmpint(roof_of(document)->obstacles[0].x_mm, ==, 700);
    g_assert_true(wb_document_undo(document));
    g_assert_cmpint(roof_of(document)->obstacles[0].x_mm, ==, was.x_mm);
    g_assert_cmpint(roof_of(document)->obstacles[0].y_mm, ==, was.y_mm);
    g_assert_false(wb_document_can_undo(document));
    g_assert_false(wb_obstacle_move(document, 0, 1000000, 0, &error));
    g_assert_nonnull(strstr(error->message, "x_mm"));
    g_assert_cmpint(roof_of(document)->obstacles[0].x_mm, ==, was.x_mm);
}

static void test_same_roof(void)
{
    static const struct {
        const char *pointer, *json;
        gboolean same;
    } edits[] = {
        {"/roof/obstacles/0/name", "\"Fan\"", TRUE},
        {"/loads/0/watts", "61", TRUE},
        {"/roof/max_load_kg", "60", TRUE},
        {"/roof/length_mm", "3421", FALSE},
        {"/roof/margin_mm", "41", FALSE},
        {"/roof/gap_mm", "21", FALSE},
        {"/roof/obstacles/0/x_mm", "1211", FALSE},
        {"/roof/obstacles/1/width_mm", "701", FALSE},
        {"/roof/obstacles/0/clearance_mm", "51", FALSE},
        {"/roof/obstacles", "[]", FALSE},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(edits); i++) {
        g_autoptr(WbDocument) document = demo();
        g_autoptr(WbBriefFile) before = wb_brief_file_ref(wb_document_get_file(document));
        g_assert_true(
            wb_document_set_json(document, "Edit", edits[i].pointer, edits[i].json, NULL));
        g_assert_true(wb_document_can_undo(document));
        g_assert_cmpint(wb_roof_same(&wb_brief_file_brief(before)->roof, roof_of(document)), ==,
                        edits[i].same);
    }
}

static void test_bay(void)
{
    g_autoptr(WbDocument) document = demo();
    gboolean given = wb_document_get_brief(document)->bay.length_mm > 0;
    g_assert_true(wb_bay_set_given(document, !given, NULL));
    g_assert_cmpint(wb_document_get_brief(document)->bay.length_mm > 0, ==, !given);
    g_assert_true(wb_bay_set_given(document, given, NULL));
    g_assert_cmpint(wb_document_get_brief(document)->bay.length_mm > 0, ==, given);
}

/* ---- weather and shore ---- */

/* A year under the sun of the demo's place. (transfer full) its path */
static char *write_hours(const char *name, int years)
{
    g_autoptr(GError) error = NULL;
    char *path = rig_scratch(name);
    g_autofree char *text = hours_csv(0, 800, years);
    g_file_set_contents(path, text, -1, &error);
    g_assert_no_error(error);
    return path;
}

static void test_hourly_file(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autofree char *path = write_hours("own.csv", 2);
    g_autofree char *before = rig_text(document);
    g_assert_null(wb_site_hourly_file(document));
    g_assert_true(wb_site_set_hourly_file(document, NULL, NULL)); /* none: nothing to do */
    g_assert_false(wb_document_can_undo(document));
    g_assert_true(wb_site_set_hourly_file(document, path, NULL));
    g_assert_cmpstr(wb_site_hourly_file(document), ==, path);
    g_assert_null(wb_site_hourly_problem(document));
    g_assert_cmpint(site_of(document)->hours->n_years, ==, 2);
    g_autofree char *note = wb_site_hourly_note(document);
    g_assert_nonnull(strstr(note, "2 years"));
    g_autofree char *json = wb_document_get_json(document, "/site/weather/hourly_file");
    g_autofree char *quoted = g_strdup_printf("\"%s\"", path);
    g_assert_cmpstr(json, ==, quoted); /* never saved: the whole path */
    g_assert_true(wb_site_set_hourly_file(document, NULL, NULL));
    g_assert_null(site_of(document)->hours);
    g_assert_true(wb_document_undo(document));
    g_assert_nonnull(site_of(document)->hours);
    g_assert_true(wb_document_undo(document));
    g_autofree char *after = rig_text(document);
    g_assert_cmpstr(before, ==, after);
}

/* Taken all the same, told, and read again by choosing it again. */
static void test_bad_hourly_file(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autofree char *path = rig_scratch("bad.csv");
    g_file_set_contents(path, "global_w_m2\n1\n", -1, NULL);
    g_assert_true(wb_site_set_hourly_file(document, path, NULL));
    g_assert_nonnull(strstr(wb_site_hourly_problem(document), "bad.csv"));
    g_assert_null(site_of(document)->hours);
    g_assert_null(wb_site_hourly_note(document));
    g_assert_true(wb_document_set_text(document, "Rename", "/name", "Still editable", NULL));
    guint64 revision = wb_document_get_revision(document);
    g_free(write_hours("bad.csv", 1));
    g_assert_true(wb_site_set_hourly_file(document, path, NULL));
    g_assert_cmpuint(wb_document_get_revision(document), >, revision);
    g_assert_null(wb_site_hourly_problem(document));
    g_assert_nonnull(site_of(document)->hours);
    g_assert_cmpstr(wb_document_get_undo_label(document), ==, "Rename"); /* no step of its own */
}

/* Beside the brief it is named from there; saved elsewhere, the brief keeps to the same file. */
static void test_hourly_file_moves(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDocument) document = demo();
    g_autofree char *hours = write_hours("beside.csv", 1);
    g_autofree char *path = rig_scratch("van.json");
    g_autofree char *folder = g_dir_make_tmp("wattberth-other-XXXXXX", NULL);
    g_autofree char *other = g_build_filename(folder, "van.json", NULL);
    g_assert_true(wb_document_save_as(document, path, &error));
    g_assert_true(wb_site_set_hourly_file(document, hours, &error));
    g_autofree char *json = wb_document_get_json(document, "/site/weather/hourly_file");
    g_assert_cmpstr(json, ==, "\"beside.csv\"");
    g_assert_nonnull(site_of(document)->hours);
    g_assert_true(wb_document_save(document, &error));
    g_assert_false(wb_document_save_as(document, "/nowhere/at/all.json", NULL));
    g_autofree char *still = wb_document_get_json(document, "/site/weather/hourly_file");
    g_assert_cmpstr(still, ==, json);
    g_assert_false(wb_document_can_redo(document));
    g_assert_true(wb_document_save_as(document, other, &error));
    g_assert_no_error(error);
    g_assert_false(wb_document_get_modified(document));
    g_assert_cmpstr(wb_site_hourly_file(document), ==, hours);
    g_assert_nonnull(site_of(document)->hours);
    g_assert_true(wb_document_open(document, other, &error));
    g_assert_nonnull(site_of(document)->hours);
    g_assert_true(wb_document_open(document, path, &error));
    g_assert_nonnull(site_of(document)->hours);
    g_assert_cmpint(g_remove(other), ==, 0);
    g_assert_cmpint(g_rmdir(folder), ==, 0);
}

static void test_shore(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autofree char *before = rig_text(document);
    gboolean had = wb_site_has_shore(document);
    g_assert_true(wb_site_set_shore(document, !had, NULL));
    g_assert_cmpint(wb_site_has_shore(document), ==, !had);
    g_assert_cmpint(wb_document_get_brief(document)->shore.charger_a > 0, ==, !had);
    g_assert_true(wb_document_undo(document));
    g_autofree char *after = rig_text(document);
    g_assert_cmpstr(before, ==, after);
    g_assert_true(wb_site_set_shore(document, had, NULL));
    g_assert_false(wb_document_can_undo(document));
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/site/finding", test_finding);
    g_test_add_func("/site/choosing", test_choosing);
    g_test_add_func("/site/own-figures", test_own_figures);
    g_test_add_func("/site/paste-taken", test_paste_taken);
    g_test_add_func("/site/paste-refused", test_paste_refused);
    g_test_add_func("/site/paste-needs-own-figures", test_paste_needs_own_figures);
    g_test_add_func("/site/months", test_months);
    g_test_add_func("/site/shading", test_shading);
    g_test_add_func("/site/driving", test_driving);
    g_test_add_func("/site/hourly-file", test_hourly_file);
    g_test_add_func("/site/bad-hourly-file", test_bad_hourly_file);
    g_test_add_func("/site/hourly-file-moves", test_hourly_file_moves);
    g_test_add_func("/site/shore", test_shore);
    g_test_add_func("/roof/obstacles", test_obstacles);
    g_test_add_func("/roof/moving", test_moving);
    g_test_add_func("/roof/same", test_same_roof);
    g_test_add_func("/roof/bay", test_bay);
    int code = g_test_run();
    rig_scratch_end();
    return code;
}
