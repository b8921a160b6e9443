/* The program's window. Everything a person can do in it is a named action:
 *
 *   win.undo redo new open save save-as demo      win.open-path, win.save-as-path (s: path)
 *   win.page (s: name of a step, stateful)        win.next-page previous-page
 *   win.stop-ranking restart-ranking              win.take-best keep-kit pin-kit
 *   win.undo-catalogue (the last edit of the catalogue)
 *   win.go-on (leave a brief unsaved)             win.close-message
 *   parts.add parts.delete
 *   loads.add duplicate remove up down paste, loads.add-appliance (u: which)
 *
 * Dialogs only supply the path: win.open and win.save-as end in their -path fellows. */
#ifndef WB_WINDOW_H
#define WB_WINDOW_H

#include "page.h"

#define WB_TYPE_WINDOW (wb_window_get_type())
G_DECLARE_FINAL_TYPE(WbWindow, wb_window, WB, WINDOW, GtkApplicationWindow)

/* With the demo brief, unsaved. Keeps a reference to the catalogue. */
GtkWidget *wb_window_new(GtkApplication *application, WbCatalogueStore *catalogue);
/* FALSE: the message bar says why. */
gboolean wb_window_open_path(WbWindow *self, const char *path);
/* The window's shared objects, for pages and tests. */
const WbContext *wb_window_get_context(WbWindow *self);
/* What the message bar says, NULL when closed. */
const char *wb_window_get_message(WbWindow *self);

#endif
