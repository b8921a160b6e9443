#include "kit_cells.h"

#include <math.h>

typedef struct {
    WbKitCells *cells;
    GtkListItem *item;
    int column;
    guint at; /* index into `bound`, while bound */
    gboolean fresh;
} Cell;

struct WbKitCells {
    GtkColumnView *view; /* borrowed: it owns us */
    GtkAdjustment *down;
    WbKitCellFill fill;
    GPtrArray *bound; /* Cell */
    guint tick;
    gboolean renewed; /* since the last frame */
    guint next;       /* of those out of sight */
};

/* Cells out of sight read in one frame. */
#define A_FRAME 48
/* Rows read beyond either edge of what is seen. */
#define MARGIN_ROWS 2
/* Before the view knows how high its rows are. */
#define AT_FIRST 40

/* Rows from *first up to *last are in sight. */
static void seen_rows(WbKitCells *self, double *first, double *last)
{
    double upper = gtk_adjustment_get_upper(self->down);
    double page = gtk_adjustment_get_page_size(self->down);
    guint n = g_list_model_get_n_items(G_LIST_MODEL(gtk_column_view_get_model(self->view)));
    *first = 0;
    *last = AT_FIRST;
    if (n == 0 || page <= 1 || upper < page)
        return;
    double height = upper / n, value = gtk_adjustment_get_value(self->down);
    *first = floor(value / height) - MARGIN_ROWS;
    *last = ceil((value + page) / height) + MARGIN_ROWS;
}

static void read_again(WbKitCells *self, Cell *cell)
{
    if (cell->fresh)
        return;
    cell->fresh = TRUE;
    self->fill(cell->item, cell->column);
}

static void read_seen(WbKitCells *self)
{
    double first, last;
    if (self->bound->len == 0)
        return;
    seen_rows(self, &first, &last);
    for (guint i = 0; i < self->bound->len; i++) {
        Cell *cell = self->bound->pdata[i];
        guint position = gtk_list_item_get_position(cell->item);
        if (!cell->fresh && position >= first && position <= last)
            read_again(self, cell);
    }
}

/* TRUE: all are read. */
static gboolean read_some(WbKitCells *self)
{
    guint left = A_FRAME;
    for (; self->next < self->bound->len && left > 0; self->next++) {
        Cell *cell = self->bound->pdata[self->next];
        left -= !cell->fresh;
        read_again(self, cell);
    }
    return self->next >= self->bound->len;
}

static gboolean on_tick(GtkWidget *view, GdkFrameClock *clock, gpointer data)
{
    WbKitCells *self = data;
    if (gtk_widget_get_mapped(view)) {
        read_seen(self);
        if (self->renewed || !read_some(self)) {
            self->renewed = FALSE;
            return G_SOURCE_CONTINUE;
        }
    }
    self->tick = 0;
    return G_SOURCE_REMOVE;
}

static void wake(WbKitCells *self)
{
    self->next = 0;
    if (self->tick == 0 && gtk_widget_get_mapped(GTK_WIDGET(self->view)))
        self->tick = gtk_widget_add_tick_callback(GTK_WIDGET(self->view), on_tick, self, NULL);
}

void wb_kit_cells_renew(WbKitCells *self)
{
    for (guint i = 0; i < self->bound->len; i++)
        ((Cell *)self->bound->pdata[i])->fresh = FALSE;
    self->renewed = TRUE;
    wake(self);
}

/* Tells which cells a factory's items get. */
typedef struct {
    WbKitCells *cells;
    int column;
    GtkWidget *(*make)(int column);
} Maker;

static const char cell_key[] = "wb-kit-cell", cells_key[] = "wb-kit-cells";

static void on_setup(GtkSignalListItemFactory *factory, GtkListItem *item, Maker *maker)
{
    Cell *cell = g_new0(Cell, 1);
    cell->cells = maker->cells;
    cell->item = item;
    cell->column = maker->column;
    g_object_set_data_full(G_OBJECT(item), cell_key, cell, g_free);
    gtk_list_item_set_child(item, maker->make(maker->column));
}

static void on_bind(GtkSignalListItemFactory *factory, GtkListItem *item, Maker *maker)
{
    Cell *cell = g_object_get_data(G_OBJECT(item), cell_key);
    double first, last;
    cell->fresh = FALSE;
    cell->at = maker->cells->bound->len;
    g_ptr_array_add(maker->cells->bound, cell);
    seen_rows(maker->cells, &first, &last);
    guint position = gtk_list_item_get_position(item);
    if (position >= first && position <= last)
        read_again(maker->cells, cell);
    else
        wake(maker->cells);
}

static void on_unbind(GtkSignalListItemFactory *factory, GtkListItem *item, Maker *maker)
{
    Cell *cell = g_object_get_data(G_OBJECT(item), cell_key);
    GPtrArray *bound = maker->cells->bound;
    Cell *last = bound->pdata[bound->len - 1];
    bound->pdata[cell->at] = last;
    last->at = cell->at;
    g_ptr_array_set_size(bound, (int)bound->len - 1);
}

static void drop_maker(gpointer data, GClosure *closure)
{
    g_free(data);
}

GtkListItemFactory *wb_kit_cells_factory(WbKitCells *self, int column,
                                         GtkWidget *(*make)(int column))
{
    GtkListItemFactory *factory = gtk_signal_list_item_factory_new();
    Maker *maker = g_new(Maker, 1);
    *maker = (Maker){self, column, make};
    g_signal_connect(factory, "setup", G_CALLBACK(on_setup), maker);
    g_signal_connect(factory, "bind", G_CALLBACK(on_bind), maker);
    g_signal_connect_data(factory, "unbind", G_CALLBACK(on_unbind), maker, drop_maker, 0);
    return factory;
}

/* These live as long as the view; the cells hang on it. */
static void on_scrolled(GtkAdjustment *down, GObject *view)
{
    read_seen(g_object_get_data(view, cells_key));
}

/* More or other rows are in sight in a higher window. */
static void on_resized(GtkAdjustment *down, GObject *view)
{
    wake(g_object_get_data(view, cells_key));
}

static void on_arranged(WbKitList *list, GObject *view)
{
    wb_kit_cells_renew(g_object_get_data(view, cells_key));
}

static void on_map(GtkWidget *view, WbKitCells *self)
{
    wake(self);
}

static void on_unmap(GtkWidget *view, WbKitCells *self)
{
    if (self->tick != 0)
        gtk_widget_remove_tick_callback(view, self->tick);
    self->tick = 0;
}

static void cells_free(gpointer data)
{
    WbKitCells *self = data;
    g_object_unref(self->down);
    g_ptr_array_unref(self->bound);
    g_free(self);
}

WbKitCells *wb_kit_cells_attach(GtkColumnView *view, WbKitCellFill fill)
{
    WbKitCells *self = g_new0(WbKitCells, 1);
    self->view = view;
    self->fill = fill;
    self->bound = g_ptr_array_new();
    self->down = g_object_ref(gtk_scrollable_get_vadjustment(GTK_SCROLLABLE(view)));
    g_signal_connect_object(self->down, "value-changed", G_CALLBACK(on_scrolled), view, 0);
    g_signal_connect_object(self->down, "changed", G_CALLBACK(on_resized), view, 0);
    g_object_set_data_full(G_OBJECT(view), cells_key, self, cells_free);
    g_signal_connect(view, "map", G_CALLBACK(on_map), self);
    g_signal_connect(view, "unmap", G_CALLBACK(on_unmap), self);
    return self;
}

void wb_kit_cells_set_list(WbKitCells *self, WbKitList *list)
{
    GObject *view = G_OBJECT(self->view);
    g_signal_connect_object(list, "arranged", G_CALLBACK(on_arranged), view, 0);
    g_signal_connect_object(list, "opened", G_CALLBACK(on_arranged), view, 0);
}
