/* Saving, saving as you go, opening, and what may go wrong with a file. */
#include "rig.h"
#include <glib/gstdio.h>

static char *read_file(const char *path)
{
    char *text = NULL;
    g_autoptr(GError) error = NULL;
    g_file_get_contents(path, &text, NULL, &error);
    g_assert_no_error(error);
    return text;
}

static void expect_file(const char *path, WbDocument *document)
{
    g_autofree char *on_disk = read_file(path);
    g_autofree char *text = rig_text(document);
    g_assert_cmpstr(on_disk, ==, text);
}

static void test_save_as(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_autofree char *path = rig_scratch("save-as.json");
    g_autoptr(GError) error = NULL;
    g_assert_null(wb_document_get_path(document));
    wb_document_set_text(document, "Rename", "/name", "Hut", NULL);
    g_assert_true(wb_document_get_modified(document));
    g_assert_true(wb_document_save_as(document, path, &error));
    g_assert_no_error(error);
    g_assert_cmpstr(wb_document_get_path(document), ==, path);
    g_assert_false(wb_document_get_modified(document));
    expect_file(path, document);
    wb_document_undo(document);
    g_assert_true(wb_document_get_modified(document));
    wb_document_redo(document);
    g_assert_false(wb_document_get_modified(document)); /* back at what is on disk */
}

static void test_autosave(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_autofree char *path = rig_scratch("autosave.json");
    wb_document_set_autosave_ms(document, 30);
    wb_document_save_as(document, path, NULL);
    g_autofree char *before = read_file(path);
    for (int i = 0; i < 5; i++)
        wb_document_set_number(document, "Change watts", "/loads/0/watts", 10 + i, NULL);
    g_autofree char *still = read_file(path);
    g_assert_cmpstr(before, ==, still); /* not at once */
    rig_settle(200);
    g_assert_false(wb_document_get_modified(document));
    expect_file(path, document);
    wb_document_undo(document);
    rig_settle(200);
    expect_file(path, document);
    g_autofree char *after = read_file(path);
    g_assert_cmpstr(before, ==, after);
}

/* Without a path nothing is written, and nothing is said. */
static void test_no_path(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_autofree char *said = NULL;
    wb_document_set_autosave_ms(document, 10);
    wb_document_set_text(document, "Rename", "/name", "Hut", NULL);
    rig_settle(60);
    g_assert_true(wb_document_get_modified(document));
    g_object_get(document, "save-error", &said, NULL);
    g_assert_null(said);
}

static void test_open(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_autofree char *path = rig_scratch("open.json");
    g_autoptr(GError) error = NULL;
    wb_document_set_text(document, "Rename", "/name", "Hut", NULL);
    wb_document_save_as(document, path, NULL);
    g_autofree char *text = rig_text(document);
    g_assert_true(wb_document_begin_demo(document, NULL));
    g_assert_null(wb_document_get_path(document));
    g_assert_true(wb_document_open(document, path, &error));
    g_assert_no_error(error);
    g_assert_cmpstr(wb_document_get_title(document), ==, "Hut");
    g_autofree char *again = rig_text(document);
    g_assert_cmpstr(text, ==, again);
    g_assert_false(wb_document_can_undo(document));
}

/* What was edited and has a file is on disk before another brief takes its place. */
static void test_leaving_saves(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_autofree char *path = rig_scratch("leaving.json");
    wb_document_save_as(document, path, NULL);
    wb_document_set_text(document, "Rename", "/name", "Left in a hurry", NULL);
    g_assert_true(wb_document_begin_new(document, NULL));
    g_autofree char *text = read_file(path);
    g_assert_nonnull(strstr(text, "Left in a hurry"));
}

static void test_bad_files(void)
{
    static const struct {
        const char *text, *names;
    } cases[] = {
        {"", NULL},
        {"{\"format\": \"wattberth-brief\", \"version\": 1", NULL},
        {"not JSON at all", NULL},
        {"{\"format\": \"wattberth-brief\", \"version\": 999}", "999"},
        {"{\"format\": \"something-else\", \"version\": 1}", "something-else"},
    };
    g_autoptr(WbDocument) document = rig_document();
    g_autofree char *before = rig_text(document);
    g_autofree char *path = rig_scratch("bad.json");
    for (gsize i = 0; i < G_N_ELEMENTS(cases); i++) {
        g_autoptr(GError) error = NULL;
        g_file_set_contents(path, cases[i].text, -1, NULL);
        g_assert_false(wb_document_open(document, path, &error));
        g_assert_nonnull(strstr(error->message, "bad.json"));
        if (cases[i].names)
            g_assert_nonnull(strstr(error->message, cases[i].names));
        g_autofree char *after = rig_text(document);
        g_assert_cmpstr(before, ==, after);
        g_assert_null(wb_document_get_path(document));
    }
    g_autoptr(GError) error = NULL;
    g_assert_false(wb_document_open(document, "/nowhere/at-all.json", &error));
    g_assert_nonnull(strstr(error->message, "/nowhere/at-all.json"));
}

static void test_cannot_save(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_autoptr(GError) error = NULL;
    wb_document_set_text(document, "Rename", "/name", "Hut", NULL);
    g_assert_false(wb_document_save_as(document, "/nowhere/at/all.json", &error));
    g_assert_nonnull(error);
    g_assert_null(wb_document_get_path(document));
    g_assert_true(wb_document_get_modified(document));
}

/* Another program wrote the file: neither autosave nor save may overwrite it. */
static void test_changed_outside(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_autofree char *path = rig_scratch("outside.json");
    g_autofree char *other = rig_scratch("outside-copy.json");
    g_autoptr(GError) error = NULL;
    g_autofree char *said = NULL;
    wb_document_set_autosave_ms(document, 10);
    wb_document_save_as(document, path, NULL);
    g_file_set_contents(path, "{\"theirs\": true}", -1, NULL);
    wb_document_set_text(document, "Rename", "/name", "Mine", NULL);
    rig_settle(80);
    g_object_get(document, "save-error", &said, NULL);
    g_assert_nonnull(strstr(said, "outside.json"));
    g_assert_false(wb_document_save(document, &error));
    g_assert_nonnull(error);
    g_autofree char *theirs = read_file(path);
    g_assert_cmpstr(theirs, ==, "{\"theirs\": true}");
    g_assert_true(wb_document_save_as(document, other, NULL));
    g_autofree char *quiet = NULL;
    g_object_get(document, "save-error", &quiet, NULL);
    g_assert_null(quiet);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/files/save-as", test_save_as);
    g_test_add_func("/files/autosave", test_autosave);
    g_test_add_func("/files/no-path", test_no_path);
    g_test_add_func("/files/open", test_open);
    g_test_add_func("/files/leaving-saves", test_leaving_saves);
    g_test_add_func("/files/bad-files", test_bad_files);
    g_test_add_func("/files/cannot-save", test_cannot_save);
    g_test_add_func("/files/changed-outside", test_changed_outside);
    int code = g_test_run();
    rig_scratch_end();
    return code;
}
