#include "columns.h"

/* Reaches for the label inside each head; a head whose inside looks otherwise is left as it is. */
void wb_columns_align_heads(GtkColumnView *view, guint64 figures)
{
    int column = 0;
    GtkWidget *head = gtk_widget_get_first_child(gtk_widget_get_first_child(GTK_WIDGET(view)));
    for (; head != NULL; head = gtk_widget_get_next_sibling(head), column++) {
        GtkWidget *box = gtk_widget_get_first_child(head);
        GtkWidget *label = box != NULL ? gtk_widget_get_first_child(box) : NULL;
        while (label != NULL && !GTK_IS_LABEL(label))
            label = gtk_widget_get_next_sibling(label);
        if (label == NULL || !GTK_IS_BOX(box))
            continue;
        gboolean right = column < 64 && (figures >> column & 1) != 0;
        if (right)
            gtk_box_reorder_child_after(GTK_BOX(box), label, gtk_widget_get_last_child(box));
        gtk_widget_set_hexpand(label, right);
        gtk_label_set_xalign(GTK_LABEL(label), right ? 1 : 0);
    }
}

/* Which column's sorter was asked first: that is the primary one. Main thread only. */
static int asked = -1;

static int ask(gconstpointer a, gconstpointer b, gpointer column)
{
    if (asked < 0)
        asked = GPOINTER_TO_INT(column);
    return -1;
}

GtkSorter *wb_columns_sorter_new(int column)
{
    return GTK_SORTER(gtk_custom_sorter_new(ask, GINT_TO_POINTER(column), NULL));
}

int wb_columns_get_primary(GtkColumnView *view, gboolean *descending)
{
    g_autoptr(GObject) a = g_object_new(G_TYPE_OBJECT, NULL);
    g_autoptr(GObject) b = g_object_new(G_TYPE_OBJECT, NULL);
    asked = -1;
    *descending = gtk_sorter_compare(gtk_column_view_get_sorter(view), a, b) == GTK_ORDERING_LARGER;
    return asked;
}
