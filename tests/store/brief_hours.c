/* The hourly file a brief names: is it found, read once, held, and told when it cannot be used? */
#include "brief_file.h"
#include "hours_csv.h"
#include "scratch.h"
#include <sys/stat.h>

static const char member[] = "/site/weather/hourly_file";

/* The example stands at longitude 10.5, so its clock is an hour ahead of UTC. */
static WbBriefFile *read_example(void)
{
    g_autoptr(GError) error = NULL;
    WbBriefFile *file = wb_brief_file_read(WB_DATA_DIR "/brief.example.json", &error);
    g_assert_no_error(error);
    return file;
}

static void write_hours(const char *path, double most, int years)
{
    g_autofree char *text = hours_csv(1, most, years);
    scratch_write(path, text, -1);
}

/* Takes the brief; gives it with the member set to a text. */
static WbBriefFile *naming(WbBriefFile *file, const char *path)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbBriefFile) before = file;
    g_autofree char *json = g_strdup_printf("\"%s\"", path);
    WbBriefFile *next = wb_brief_file_set(before, member, json, &error);
    g_assert_no_error(error);
    return next;
}

static const WbHours *hours_of(const WbBriefFile *file)
{
    return wb_brief_file_brief(file)->site.hours;
}

static void expect_problem(const WbBriefFile *file, const char *words)
{
    g_autoptr(GError) error = NULL;
    g_assert_null(hours_of(file));
    g_assert_null(wb_brief_file_hours(file));
    g_assert_nonnull(wb_brief_file_hours_problem(file));
    g_assert_false(wb_brief_file_check_hours(file, &error));
    assert_sentence(error, words);
    assert_sentence(error, member);
    g_assert_true(g_str_has_suffix(error->message, wb_brief_file_hours_problem(file)));
}

static void expect_sound(const WbBriefFile *file, int years)
{
    g_autoptr(GError) error = NULL;
    wb_brief_file_check_hours(file, &error);
    g_assert_no_error(error);
    g_assert_null(wb_brief_file_hours_problem(file));
    g_assert_nonnull(hours_of(file));
    g_assert_cmpint(hours_of(file)->n_years, ==, years);
}

static void test_none(void)
{
    g_autoptr(WbBriefFile) file = read_example();
    g_assert_null(hours_of(file));
    g_assert_null(wb_brief_file_hours_path(file));
    g_assert_null(wb_brief_file_hours_problem(file));
    g_assert_true(wb_brief_file_check_hours(file, NULL));
}

static void test_absolute(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "own.csv");
    write_hours(path, 800, 2);
    g_autoptr(WbBriefFile) file = naming(read_example(), path);
    expect_sound(file, 2);
    g_assert_cmpstr(wb_brief_file_hours_path(file), ==, path);
    g_assert_cmpfloat(hours_of(file)->global_w_m2[11], ==, round(800 * cos(G_PI / 24)));
}

/* A relative path starts in the brief's folder, wherever the program runs. */
static void test_beside_brief(Scratch *scratch, gconstpointer data)
{
    g_autoptr(GError) error = NULL;
    g_autofree char *path = scratch_file(scratch, "van.json");
    g_autofree char *hours = scratch_file(scratch, "own.csv");
    write_hours(hours, 800, 1);
    g_autoptr(WbBriefFile) unsaved = naming(read_example(), "own.csv");
    expect_problem(unsaved, "own.csv cannot be opened");
    g_assert_true(wb_brief_file_write(unsaved, path, &error));
    g_autoptr(WbBriefFile) file = wb_brief_file_read(path, &error);
    g_assert_no_error(error);
    expect_sound(file, 1);
    g_assert_cmpstr(wb_brief_file_hours_path(file), ==, hours);
    g_autoptr(WbBriefFile) edited = wb_brief_file_set(file, "/name", "\"Other\"", &error);
    expect_sound(edited, 1);
    g_autoptr(WbBriefFile) moved = wb_brief_file_at(unsaved, path);
    expect_sound(moved, 1);
}

/* The brief itself given by a path from the current folder, as people type it. */
static void test_relative_brief(Scratch *scratch, gconstpointer data)
{
    g_autoptr(GError) error = NULL;
    g_autofree char *path = scratch_file(scratch, "van.json");
    g_autofree char *hours = scratch_file(scratch, "own.csv");
    g_autofree char *back = g_get_current_dir();
    write_hours(hours, 800, 1);
    g_autoptr(WbBriefFile) unsaved = naming(read_example(), "own.csv");
    g_assert_true(wb_brief_file_write(unsaved, path, &error));
    g_assert_cmpint(g_chdir(scratch->path), ==, 0);
    g_autoptr(WbBriefFile) file = wb_brief_file_read("van.json", &error);
    g_assert_cmpint(g_chdir(back), ==, 0);
    g_assert_no_error(error);
    expect_sound(file, 1);
    g_assert_cmpstr(wb_brief_file_hours_path(file), ==, hours);
}

/* From a text of no file it starts in the current folder. */
static void test_current_folder(Scratch *scratch, gconstpointer data)
{
    g_autoptr(GError) error = NULL;
    g_autofree char *hours = scratch_file(scratch, "own.csv");
    g_autofree char *back = g_get_current_dir();
    write_hours(hours, 800, 1);
    g_autoptr(WbBriefFile) example = naming(read_example(), "own.csv");
    g_autofree char *text = wb_brief_file_text(example);
    g_assert_cmpint(g_chdir(scratch->path), ==, 0);
    g_autoptr(WbBriefFile) file = wb_brief_file_parse(text, -1, "standard input", &error);
    g_assert_cmpint(g_chdir(back), ==, 0);
    g_assert_no_error(error);
    expect_sound(file, 1);
}

/* An edit of something else takes over what was read, and the old brief may go. */
static void test_read_once(Scratch *scratch, gconstpointer data)
{
    g_autoptr(GError) error = NULL;
    g_autofree char *path = scratch_file(scratch, "own.csv");
    write_hours(path, 800, 1);
    WbBriefFile *file = naming(read_example(), path);
    g_autoptr(WbBriefFile) edited = wb_brief_file_set(file, "/name", "\"Other\"", &error);
    g_assert_true(wb_brief_file_hours(edited) == wb_brief_file_hours(file));
    wb_brief_file_unref(file);
    expect_sound(edited, 1);
}

/* A file that changed is read again; the brief from before keeps what it was worked out with. */
static void test_read_again(Scratch *scratch, gconstpointer data)
{
    g_autoptr(GError) error = NULL;
    g_autofree char *path = scratch_file(scratch, "own.csv");
    write_hours(path, 800, 1);
    g_autoptr(WbBriefFile) file = naming(read_example(), path);
    write_hours(path, 900, 3);
    g_autoptr(WbBriefFile) edited = wb_brief_file_set(file, "/name", "\"Other\"", &error);
    expect_sound(edited, 3);
    expect_sound(file, 1);
    g_assert_cmpint(g_unlink(path), ==, 0);
    g_autoptr(WbBriefFile) without = wb_brief_file_set(edited, "/name", "\"Third\"", &error);
    expect_problem(without, "own.csv cannot be opened");
    write_hours(path, 900, 1);
    g_autoptr(WbBriefFile) mended = wb_brief_file_set(without, "/name", "\"Fourth\"", &error);
    expect_sound(mended, 1);
}

static void test_unusable(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "own.csv");
    g_autofree char *pipe = scratch_file(scratch, "pipe");
    g_autofree char *whole = hours_csv(1, 800, 1);
    g_assert_cmpint(mkfifo(pipe, 0600), ==, 0);
    static const struct {
        gsize cut; /* characters left out at the end; 0: all of them, an empty file */
        const char *words;
    } cuts[] = {{0, "own.csv"}, {10, "own.csv"}, {100, "own.csv"}};
    for (gsize i = 0; i < G_N_ELEMENTS(cuts); i++) {
        scratch_write(path, whole, cuts[i].cut ? (gssize)(strlen(whole) - cuts[i].cut) : 0);
        g_autoptr(WbBriefFile) file = naming(read_example(), path);
        expect_problem(file, cuts[i].words);
        g_autoptr(WbBriefFile) edited = wb_brief_file_set(file, "/name", "\"Other\"", NULL);
        expect_problem(edited, cuts[i].words);
    }
    g_autoptr(WbBriefFile) of_folder = naming(read_example(), scratch->path);
    expect_problem(of_folder, "is no plain file");
    g_autoptr(WbBriefFile) of_pipe = naming(read_example(), pipe);
    expect_problem(of_pipe, "is no plain file");
    g_autoptr(WbBriefFile) endless = naming(read_example(), "/dev/zero");
    expect_problem(endless, "is no plain file");
}

/* A sound file under another sun: the place decides, at every change of it. */
static void test_another_place(Scratch *scratch, gconstpointer data)
{
    static const char longitude[] = "/site/place/longitude_deg";
    g_autoptr(GError) error = NULL;
    g_autofree char *path = scratch_file(scratch, "own.csv");
    write_hours(path, 800, 1);
    g_autoptr(WbBriefFile) here = naming(read_example(), path);
    g_autoptr(WbBriefFile) away = wb_brief_file_set(here, longitude, "-120", &error);
    g_assert_no_error(error);
    expect_problem(away, "the noon of Upper meadow");
    g_autoptr(WbBriefFile) still = wb_brief_file_set(away, "/name", "\"Other\"", &error);
    expect_problem(still, "the noon of Upper meadow");
    g_autoptr(WbBriefFile) back = wb_brief_file_set(still, longitude, "10.5", &error);
    expect_sound(back, 1);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/brief-hours/none", test_none);
#define ADD(name, function)                                                                        \
    g_test_add("/brief-hours/" name, Scratch, NULL, scratch_set_up, function, scratch_tear_down)
    ADD("absolute", test_absolute);
    ADD("beside-brief", test_beside_brief);
    ADD("relative-brief", test_relative_brief);
    ADD("current-folder", test_current_folder);
    ADD("read-once", test_read_once);
    ADD("read-again", test_read_again);
    ADD("unusable", test_unusable);
    ADD("another-place", test_another_place);
    return g_test_run();
}
