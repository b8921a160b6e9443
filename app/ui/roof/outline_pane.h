/* The roof itself in figures: size, corners, what is kept free, heights, where its front looks, and
 * the cable gland. */
#ifndef WB_OUTLINE_PANE_H
#define WB_OUTLINE_PANE_H

#include "document.h"
#include <gtk/gtk.h>

#define WB_TYPE_OUTLINE_PANE (wb_outline_pane_get_type())
G_DECLARE_FINAL_TYPE(WbOutlinePane, wb_outline_pane, WB, OUTLINE_PANE, GtkBox)

GtkWidget *wb_outline_pane_new(WbDocument *document);

#endif
