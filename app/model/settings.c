#include "settings.h"
#include "store_error.h"
#include <errno.h>
#include <glib/gi18n-lib.h>

#define GROUP "window"

static char *file_of(const char *path)
{
    return path != NULL
               ? g_strdup(path)
               : g_build_filename(g_get_user_config_dir(), "wattberth", "settings.ini", NULL);
}

char *wb_settings_get(const char *path, const char *key)
{
    g_autofree char *file = file_of(path);
    g_autoptr(GKeyFile) keys = g_key_file_new();
    if (!g_key_file_load_from_file(keys, file, G_KEY_FILE_NONE, NULL))
        return NULL;
    return g_key_file_get_string(keys, GROUP, key, NULL);
}

gboolean wb_settings_set(const char *path, const char *key, const char *text, GError **error)
{
    g_autofree char *file = file_of(path);
    g_autofree char *folder = g_path_get_dirname(file);
    g_autoptr(GKeyFile) keys = g_key_file_new();
    g_autoptr(GError) failure = NULL;
    if (!g_key_file_load_from_file(keys, file, G_KEY_FILE_KEEP_COMMENTS, NULL))
        g_key_file_remove_group(keys, GROUP, NULL); /* what was read before the damage */
    g_key_file_set_string(keys, GROUP, key, text);
    if (g_mkdir_with_parents(folder, 0700) != 0)
        g_set_error_literal(&failure, G_FILE_ERROR, g_file_error_from_errno(errno),
                            g_strerror(errno));
    else if (g_key_file_save_to_file(keys, file, &failure))
        return TRUE;
    g_set_error(error, WB_STORE_ERROR, WB_STORE_ERROR_FILE,
                /* Translators: a file, the system's reason. */
                _("The choice holds until the program ends; it could not be kept in %s: %s."), file,
                failure->message);
    return FALSE;
}
