/* Ends a template widget that is a direct subclass of GtkWidget: gtk_widget_dispose_template of GTK
 * 4.8 drops only the children bound by name. */
#ifndef WB_CHILDREN_H
#define WB_CHILDREN_H

#include <gtk/gtk.h>

/* To be called first in dispose, which may run twice. */
static inline void wb_drop_children(GtkWidget *widget, GType type)
{
    GtkWidget *child;
    gtk_widget_dispose_template(widget, type);
    while ((child = gtk_widget_get_first_child(widget)))
        gtk_widget_unparent(child);
}

#endif
