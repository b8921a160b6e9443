#include "pencil_table.h"

#include <glib/gi18n-lib.h>

enum { NUMBER, WHAT, SUM, VALUE, UNIT, N_COLUMNS };

struct _WbPencilTable {
    GtkBox parent_instance;
    GtkGrid *grid;
    GString *text;
};

G_DEFINE_FINAL_TYPE(WbPencilTable, wb_pencil_table, GTK_TYPE_BOX)

static void on_copy(WbPencilTable *self)
{
    gdk_clipboard_set_text(gtk_widget_get_clipboard(GTK_WIDGET(self)), self->text->str);
}

static GtkWidget *cell_new(const char *text, gboolean figure, const char *css_class)
{
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), figure ? 1 : 0);
    gtk_label_set_selectable(GTK_LABEL(label), TRUE);
    gtk_widget_set_valign(label, GTK_ALIGN_START);
    gtk_widget_add_css_class(label, "numeric");
    if (css_class != NULL)
        gtk_widget_add_css_class(label, css_class);
    if (figure)
        return label;
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    gtk_label_set_wrap_mode(GTK_LABEL(label), PANGO_WRAP_WORD_CHAR);
    gtk_label_set_natural_wrap_mode(GTK_LABEL(label), GTK_NATURAL_WRAP_NONE);
    return label;
}

/* Two texts under each other: what is done large, why small. */
static GtkWidget *pair_new(const char *upper, const char *lower)
{
    GtkWidget *box = gtk_box_new(GTK_ORIENTATION_VERTICAL, 0);
    gtk_box_append(GTK_BOX(box), cell_new(upper, FALSE, NULL));
    if (lower[0] == '\0')
        return box;
    GtkWidget *under = cell_new(lower, FALSE, "quiet");
    gtk_widget_add_css_class(under, "small");
    gtk_box_append(GTK_BOX(box), under);
    return box;
}

static void add_line(WbPencilTable *self, const WbPencilLine *line, int row)
{
    g_autofree char *number = g_strdup_printf("%d", row);
    GtkWidget *what = pair_new(line->label, line->source), *sum = NULL;
    sum = line->numbers[0] != '\0' ? pair_new(line->numbers, line->formula)
                                   : pair_new(line->formula, "");
    gtk_widget_set_size_request(what, 216, -1);
    gtk_widget_set_size_request(sum, 216, -1);
    gtk_grid_attach(self->grid, cell_new(number, TRUE, "quiet"), NUMBER, row, 1, 1);
    gtk_grid_attach(self->grid, what, WHAT, row, 1, 1);
    gtk_grid_attach(self->grid, sum, SUM, row, 1, 1);
    gtk_grid_attach(self->grid, cell_new(line->value, TRUE, NULL), VALUE, row, 1, 1);
    gtk_grid_attach(self->grid, cell_new(line->unit, FALSE, "quiet"), UNIT, row, 1, 1);
    g_string_append_printf(self->text, "%d\t%s\t%s\t%s\t%s\t%s\t%s\n", row, line->label,
                           line->formula, line->numbers, line->value, line->unit, line->source);
}

void wb_pencil_table_set(WbPencilTable *self, const WbPencilLine *lines, gsize n)
{
    GtkWidget *child;
    g_return_if_fail(WB_IS_PENCIL_TABLE(self));
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(self->grid))) != NULL)
        gtk_grid_remove(self->grid, child);
    g_string_truncate(self->text, 0);
    for (gsize i = 0; i < n; i++)
        add_line(self, &lines[i], (int)i + 1);
}

char *wb_pencil_table_dup_text(WbPencilTable *self)
{
    g_return_val_if_fail(WB_IS_PENCIL_TABLE(self), NULL);
    return g_strdup(self->text->str);
}

static void wb_pencil_table_finalize(GObject *object)
{
    g_string_free(WB_PENCIL_TABLE(object)->text, TRUE);
    G_OBJECT_CLASS(wb_pencil_table_parent_class)->finalize(object);
}

static void wb_pencil_table_class_init(WbPencilTableClass *class)
{
    G_OBJECT_CLASS(class)->finalize = wb_pencil_table_finalize;
}

static void wb_pencil_table_init(WbPencilTable *self)
{
    GtkWidget *grid = gtk_grid_new(), *copy = gtk_button_new_with_label(_("Copy as text"));
    self->text = g_string_new(NULL);
    self->grid = GTK_GRID(grid);
    gtk_orientable_set_orientation(GTK_ORIENTABLE(self), GTK_ORIENTATION_VERTICAL);
    gtk_box_set_spacing(GTK_BOX(self), 6);
    gtk_grid_set_column_spacing(self->grid, 12);
    gtk_grid_set_row_spacing(self->grid, 6);
    gtk_widget_set_halign(grid, GTK_ALIGN_START);
    gtk_widget_set_tooltip_text(copy, _("All lines, cells set apart by tabs"));
    gtk_widget_set_halign(copy, GTK_ALIGN_START);
    g_signal_connect_swapped(copy, "clicked", G_CALLBACK(on_copy), self);
    gtk_box_append(GTK_BOX(self), grid);
    gtk_box_append(GTK_BOX(self), copy);
}

GtkWidget *wb_pencil_table_new(void)
{
    return g_object_new(WB_TYPE_PENCIL_TABLE, NULL);
}
