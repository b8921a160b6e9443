/* What the program remembers of the person's choices from run to run, in
 * $XDG_CONFIG_HOME/wattberth/settings.ini. */
#ifndef WB_SETTINGS_H
#define WB_SETTINGS_H

#include <glib.h>

/* path NULL: the file named above. NULL when it is not there, not readable or lacks the key: the
 * program then does as on its first run. (transfer full) */
char *wb_settings_get(const char *path, const char *key);
/* Keeps the other keys; a damaged file is begun anew. */
gboolean wb_settings_set(const char *path, const char *key, const char *text, GError **error);

#endif
