#include "circuit_table.h"

#include "circuit_cells.h"
#include "columns.h"
#include <glib/gi18n-lib.h>

#define MOST_ROWS 20 /* beyond, they scroll */
#define ROW_HEIGHT 22
#define HEAD_HEIGHT 34

struct _WbCircuitTable {
    GtkBox parent_instance;
    GtkColumnView *view;
    GtkScrolledWindow *scroller;
    GtkSingleSelection *rows; /* a row's item is a string of its own */
    GtkStringList *items;
    const WbKitWiring *wiring; /* NULL: empty */
    gboolean telling;          /* we choose ourselves */
};

G_DEFINE_FINAL_TYPE(WbCircuitTable, wb_circuit_table, GTK_TYPE_BOX)

enum { CHOSEN, N_SIGNALS };
static guint signals[N_SIGNALS];

static void set_up(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer column)
{
    static const guint chars[WB_CIRCUIT_COLUMNS] = {
        [WB_CIRCUIT_NO] = 2,     [WB_CIRCUIT_NAME] = 16, [WB_CIRCUIT_CONDUCTOR] = 14,
        [WB_CIRCUIT_LENGTH] = 4, [WB_CIRCUIT_FUSE] = 11, [WB_CIRCUIT_AMPS] = 5,
        [WB_CIRCUIT_DROP] = 4,   [WB_CIRCUIT_TOTAL] = 4, [WB_CIRCUIT_DECIDED] = 8,
    };
    int index = GPOINTER_TO_INT(column);
    gboolean figure = wb_circuit_column_is_figure((WbCircuitColumn)index);
    GtkWidget *text = gtk_inscription_new(NULL);
    gtk_inscription_set_xalign(GTK_INSCRIPTION(text), figure ? 1 : 0);
    gtk_inscription_set_text_overflow(GTK_INSCRIPTION(text),
                                      GTK_INSCRIPTION_OVERFLOW_ELLIPSIZE_END);
    gtk_inscription_set_min_chars(GTK_INSCRIPTION(text), chars[index]);
    gtk_widget_add_css_class(text, "numeric");
    gtk_list_item_set_child(item, text);
}

static void bind(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer column)
{
    GtkWidget *text = gtk_list_item_get_child(item);
    WbCircuitTable *self = WB_CIRCUIT_TABLE(gtk_widget_get_ancestor(text, WB_TYPE_CIRCUIT_TABLE));
    guint row = gtk_list_item_get_position(item);
    if (self == NULL || self->wiring == NULL || row >= self->wiring->wiring.n)
        return;
    g_autofree char *words =
        wb_circuit_cell(wb_result_get_problem(self->wiring->result), &self->wiring->wiring, row,
                        (WbCircuitColumn)GPOINTER_TO_INT(column));
    gtk_inscription_set_text(GTK_INSCRIPTION(text), words);
    gtk_widget_set_tooltip_text(text, words);
    if (self->wiring->wiring.circuit[row].fault != WB_CIRCUIT_SOUND)
        gtk_widget_add_css_class(text, "stop");
    else
        gtk_widget_remove_css_class(text, "stop");
}

static void on_selected(WbCircuitTable *self)
{
    guint row = gtk_single_selection_get_selected(self->rows);
    if (!self->telling)
        g_signal_emit(self, signals[CHOSEN], 0, row == GTK_INVALID_LIST_POSITION ? -1 : (int)row);
}

static void add_column(WbCircuitTable *self, WbCircuitColumn column)
{
    GtkListItemFactory *factory = gtk_signal_list_item_factory_new();
    g_signal_connect(factory, "setup", G_CALLBACK(set_up), GINT_TO_POINTER(column));
    g_signal_connect(factory, "bind", G_CALLBACK(bind), GINT_TO_POINTER(column));
    g_autoptr(GtkColumnViewColumn) added =
        gtk_column_view_column_new(wb_circuit_head(column), factory);
    gtk_column_view_column_set_expand(added, column == WB_CIRCUIT_NAME);
    gtk_column_view_append_column(self->view, added);
}

static void wb_circuit_table_class_init(WbCircuitTableClass *class)
{
    signals[CHOSEN] = g_signal_new("chosen", WB_TYPE_CIRCUIT_TABLE, G_SIGNAL_RUN_LAST, 0, NULL,
                                   NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT);
}

static void wb_circuit_table_init(WbCircuitTable *self)
{
    guint64 figures = 0;
    GtkWidget *scroller = gtk_scrolled_window_new();
    self->scroller = GTK_SCROLLED_WINDOW(scroller);
    self->items = gtk_string_list_new(NULL);
    self->rows = gtk_single_selection_new(G_LIST_MODEL(self->items));
    gtk_single_selection_set_autoselect(self->rows, FALSE);
    gtk_single_selection_set_can_unselect(self->rows, TRUE);
    GtkWidget *view = gtk_column_view_new(GTK_SELECTION_MODEL(self->rows));
    self->view = GTK_COLUMN_VIEW(view);
    gtk_widget_add_css_class(view, "data-table");
    gtk_accessible_update_property(GTK_ACCESSIBLE(view), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   _("Circuits"), -1);
    for (WbCircuitColumn column = 0; column < WB_CIRCUIT_COLUMNS; column++) {
        add_column(self, column);
        if (wb_circuit_column_is_figure(column))
            figures |= G_GUINT64_CONSTANT(1) << column;
    }
    wb_columns_align_heads(self->view, figures);
    g_signal_connect_object(self->rows, "notify::selected", G_CALLBACK(on_selected), self,
                            G_CONNECT_SWAPPED);
    gtk_scrolled_window_set_child(GTK_SCROLLED_WINDOW(scroller), view);
    gtk_widget_set_hexpand(scroller, TRUE);
    gtk_box_append(GTK_BOX(self), scroller);
}

GtkWidget *wb_circuit_table_new(void)
{
    return g_object_new(WB_TYPE_CIRCUIT_TABLE, NULL);
}

/* The rows are made anew, so that each is bound to what it shows now. */
void wb_circuit_table_set(WbCircuitTable *self, const WbKitWiring *wiring)
{
    g_return_if_fail(WB_IS_CIRCUIT_TABLE(self));
    guint n = wiring != NULL ? (guint)wiring->wiring.n : 0;
    self->telling = TRUE;
    self->wiring = wiring;
    gtk_string_list_splice(self->items, 0, g_list_model_get_n_items(G_LIST_MODEL(self->items)),
                           NULL);
    for (guint i = 0; i < n; i++)
        gtk_string_list_append(self->items, "");
    self->telling = FALSE;
    gtk_scrolled_window_set_min_content_height(
        self->scroller, HEAD_HEIGHT + ROW_HEIGHT * (int)MIN(n + 1, MOST_ROWS));
}

void wb_circuit_table_choose(WbCircuitTable *self, int circuit)
{
    g_return_if_fail(WB_IS_CIRCUIT_TABLE(self));
    self->telling = TRUE;
    gtk_single_selection_set_selected(self->rows,
                                      circuit < 0 ? GTK_INVALID_LIST_POSITION : (guint)circuit);
    self->telling = FALSE;
}
