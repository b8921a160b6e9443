/* The look of the window: our few style rules, the colours of the scheme in force (light, dark,
 * high contrast) and the person's choice of scheme. */
#ifndef WB_LOOK_H
#define WB_LOOK_H

#include <gtk/gtk.h>

/* Call once at startup, after the resources are registered and a display is open: installs the
 * style, follows the desktop's light or dark wish through the settings portal, and adds the
 * stateful action "app.scheme" ("system", "light", "dark") to the application, which begins as it
 * was left in the last run (settings.h). */
void wb_look_start(GApplication *application);
/* Ends following the desktop; for shutdown. */
void wb_look_end(void);

#endif
