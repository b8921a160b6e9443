/* Choices kept from run to run, and files that stand in the way. */
#include "settings.h"
#include "rig.h"
#include <glib/gstdio.h>
#include <string.h>

static void check_key(const char *path, const char *key, const char *text)
{
    g_autofree char *read = wb_settings_get(path, key);
    g_assert_cmpstr(read, ==, text);
}

static void set(const char *path, const char *key, const char *text)
{
    g_autoptr(GError) error = NULL;
    g_assert_true(wb_settings_set(path, key, text, &error));
    g_assert_no_error(error);
}

static void test_kept(void)
{
    g_autofree char *folder = rig_scratch("not-there-yet");
    g_autofree char *path = g_build_filename(folder, "settings.ini", NULL);
    check_key(path, "scheme", NULL);
    set(path, "scheme", "dark");
    set(path, "other", "a; b\nc");
    set(path, "scheme", "light");
    check_key(path, "scheme", "light");
    check_key(path, "other", "a; b\nc");
    check_key(path, "third", NULL);
    g_assert_cmpint(g_remove(path), ==, 0);
    g_assert_cmpint(g_rmdir(folder), ==, 0);
    rig_scratch_end();
}

/* A damaged file counts as none, and is mended by the next choice. */
static void test_damaged(void)
{
    static const char *const texts[] = {"", "scheme=dark", "[window", "\377\376",
                                        "[window]\nscheme"};
    g_autofree char *path = rig_scratch("settings.ini");
    for (gsize i = 0; i < G_N_ELEMENTS(texts); i++) {
        g_assert_true(g_file_set_contents(path, texts[i], -1, NULL));
        check_key(path, "scheme", NULL);
        set(path, "scheme", "dark");
        check_key(path, "scheme", "dark");
    }
    rig_scratch_end();
}

static void test_not_kept(void)
{
    g_autoptr(GError) error = NULL;
    g_autofree char *file = rig_scratch("file");
    g_autofree char *path = g_build_filename(file, "settings.ini", NULL);
    g_assert_true(g_file_set_contents(file, "x", -1, NULL));
    g_assert_false(wb_settings_set(path, "scheme", "dark", &error));
    g_assert_nonnull(error);
    g_assert_nonnull(strstr(error->message, path));
    rig_scratch_end();
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/settings/kept", test_kept);
    g_test_add_func("/settings/damaged", test_damaged);
    g_test_add_func("/settings/not-kept", test_not_kept);
    return g_test_run();
}
