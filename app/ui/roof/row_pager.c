#include "row_pager.h"

#include <glib/gi18n-lib.h>

struct _WbRowPager {
    GtkBox parent_instance;
    GtkWidget *before, *after, *label;
    int n, page;
    int built_page; /* whose rows the grid has */
};

G_DEFINE_FINAL_TYPE(WbRowPager, wb_row_pager, GTK_TYPE_BOX)

static guint turned_signal;

static int last_page(WbRowPager *self)
{
    return MAX(self->n - 1, 0) / WB_ROWS_A_PAGE;
}

static void show(WbRowPager *self)
{
    int first = wb_row_pager_get_first(self), count = wb_row_pager_get_count(self);
    /* Translators: rows in sight of all: "41 to 80 of 1000". */
    g_autofree char *text = g_strdup_printf(_("%d to %d of %d"), first + 1, first + count, self->n);
    gtk_label_set_text(GTK_LABEL(self->label), text);
    gtk_widget_set_sensitive(self->before, self->page > 0);
    gtk_widget_set_sensitive(self->after, self->page < last_page(self));
    gtk_widget_set_visible(GTK_WIDGET(self), self->n > WB_ROWS_A_PAGE);
}

int wb_row_pager_trim(WbRowPager *self, int n, GtkGrid *grid, int built)
{
    g_return_val_if_fail(WB_IS_ROW_PAGER(self), built);
    self->n = n;
    self->page = MIN(self->page, last_page(self));
    show(self);
    int left = self->page == self->built_page ? wb_row_pager_get_count(self) : 0;
    self->built_page = self->page;
    for (; built > left; built--)
        gtk_grid_remove_row(grid, built);
    return built;
}

int wb_row_pager_get_first(WbRowPager *self)
{
    g_return_val_if_fail(WB_IS_ROW_PAGER(self), 0);
    return self->page * WB_ROWS_A_PAGE;
}

int wb_row_pager_get_count(WbRowPager *self)
{
    g_return_val_if_fail(WB_IS_ROW_PAGER(self), 0);
    return MIN(self->n - self->page * WB_ROWS_A_PAGE, WB_ROWS_A_PAGE);
}

gboolean wb_row_pager_turn_to(WbRowPager *self, int row)
{
    g_return_val_if_fail(WB_IS_ROW_PAGER(self), FALSE);
    int page = CLAMP(row / WB_ROWS_A_PAGE, 0, last_page(self));
    gboolean other = page != self->page;
    self->page = page;
    show(self);
    return other;
}

static void turn(WbRowPager *self, int by)
{
    if (wb_row_pager_turn_to(self, (self->page + by) * WB_ROWS_A_PAGE))
        g_signal_emit(self, turned_signal, 0);
}

static void on_before(WbRowPager *self)
{
    turn(self, -1);
}

static void on_after(WbRowPager *self)
{
    turn(self, 1);
}

GtkWidget *wb_row_pager_new(void)
{
    return g_object_new(WB_TYPE_ROW_PAGER, NULL);
}

static void wb_row_pager_class_init(WbRowPagerClass *klass)
{
    turned_signal = g_signal_new("turned", WB_TYPE_ROW_PAGER, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 0);
}

static void wb_row_pager_init(WbRowPager *self)
{
    gtk_box_set_spacing(GTK_BOX(self), 12);
    self->before = gtk_button_new_with_label(_("Earlier rows"));
    self->after = gtk_button_new_with_label(_("Later rows"));
    self->label = gtk_label_new(NULL);
    gtk_widget_add_css_class(self->label, "numeric");
    g_signal_connect_swapped(self->before, "clicked", G_CALLBACK(on_before), self);
    g_signal_connect_swapped(self->after, "clicked", G_CALLBACK(on_after), self);
    gtk_box_append(GTK_BOX(self), self->before);
    gtk_box_append(GTK_BOX(self), self->label);
    gtk_box_append(GTK_BOX(self), self->after);
    show(self);
}
