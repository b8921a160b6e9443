#include "hour_table.h"

#include "columns.h"
#include "figures_text.h"
#include <glib/gi18n-lib.h>

enum { HOUR, CHARGE, FLOOR, SUN, OTHER, NEED, MISSED, N_COLUMNS };

struct _WbHourTable {
    GtkBox parent_instance;
    GtkColumnView *view;
    WbKitEnergy *energy; /* NULL: empty */
};

G_DEFINE_FINAL_TYPE(WbHourTable, wb_hour_table, GTK_TYPE_BOX)

/* A row's item is a string of its own; what it shows follows from its place. */
static char *cell_text(const WbKitEnergy *energy, int hour, int column)
{
    const WbEnergyHour *of = &energy->hour[hour];
    const double figures[N_COLUMNS] = {
        [CHARGE] = of->charge * 100, [FLOOR] = of->floor * 100, [SUN] = of->sun_wh,
        [OTHER] = of->other_wh,      [NEED] = of->need_wh,      [MISSED] = of->unmet_wh};
    if (column != HOUR)
        return wb_text_number(figures[column], 1);
    g_autofree char *date = wb_energy_date(&energy->year, energy->first_hour + hour);
    int clock = hour % WB_HOURS;
    /* Translators: a date and an hour of it: "14 December, 6 to 7 h". */
    return g_strdup_printf(_("%s, %d to %d h"), date, clock, clock + 1);
}

static void set_up(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer column)
{
    GtkWidget *text = gtk_inscription_new(NULL);
    gboolean words = GPOINTER_TO_INT(column) == HOUR;
    gtk_inscription_set_xalign(GTK_INSCRIPTION(text), words ? 0 : 1);
    gtk_inscription_set_text_overflow(GTK_INSCRIPTION(text),
                                      GTK_INSCRIPTION_OVERFLOW_ELLIPSIZE_END);
    gtk_inscription_set_min_chars(GTK_INSCRIPTION(text), words ? 20 : 5);
    gtk_widget_add_css_class(text, "numeric");
    gtk_list_item_set_child(item, text);
}

static void bind(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer column)
{
    GtkWidget *text = gtk_list_item_get_child(item);
    WbHourTable *self = WB_HOUR_TABLE(gtk_widget_get_ancestor(text, WB_TYPE_HOUR_TABLE));
    guint hour = gtk_list_item_get_position(item);
    if (self == NULL || self->energy == NULL || hour >= WB_FORTNIGHT_HOURS)
        return;
    g_autofree char *words = cell_text(self->energy, (int)hour, GPOINTER_TO_INT(column));
    gtk_inscription_set_text(GTK_INSCRIPTION(text), words);
}

static void add_column(WbHourTable *self, int column, const char *title)
{
    GtkListItemFactory *factory = gtk_signal_list_item_factory_new();
    g_signal_connect(factory, "setup", G_CALLBACK(set_up), GINT_TO_POINTER(column));
    g_signal_connect(factory, "bind", G_CALLBACK(bind), GINT_TO_POINTER(column));
    g_autoptr(GtkColumnViewColumn) added = gtk_column_view_column_new(title, factory);
    gtk_column_view_column_set_expand(added, column == HOUR);
    gtk_column_view_append_column(self->view, added);
}

static void wb_hour_table_finalize(GObject *object)
{
    g_clear_pointer(&WB_HOUR_TABLE(object)->energy, wb_kit_energy_free);
    G_OBJECT_CLASS(wb_hour_table_parent_class)->finalize(object);
}

static void wb_hour_table_class_init(WbHourTableClass *class)
{
    G_OBJECT_CLASS(class)->finalize = wb_hour_table_finalize;
}

static void wb_hour_table_init(WbHourTable *self)
{
    const char *const titles[N_COLUMNS] = {
        [HOUR] = _("Hour"),
        [CHARGE] = C_("column head, short", "Charge, %"),
        [FLOOR] = C_("column head, short", "Drawn to, %"),
        [SUN] = C_("column head, short", "Sun, Wh"),
        [OTHER] = C_("column head, short", "Other, Wh"),
        [NEED] = C_("column head, short", "Need, Wh"),
        [MISSED] = C_("column head, short", "Not carried, Wh"),
    };
    GtkWidget *view = gtk_column_view_new(NULL), *scroller = gtk_scrolled_window_new();
    self->view = GTK_COLUMN_VIEW(view);
    gtk_widget_add_css_class(view, "data-table");
    gtk_accessible_update_property(GTK_ACCESSIBLE(view), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   _("Hours of the worst fortnight"), -1);
    for (int column = 0; column < N_COLUMNS; column++)
        add_column(self, column, titles[column]);
    wb_columns_align_heads(self->view, ~(G_GUINT64_CONSTANT(1) << HOUR));
    gtk_scrolled_window_set_child(GTK_SCROLLED_WINDOW(scroller), view);
    gtk_scrolled_window_set_min_content_height(GTK_SCROLLED_WINDOW(scroller), 240);
    gtk_widget_set_hexpand(scroller, TRUE);
    gtk_box_append(GTK_BOX(self), scroller);
}

GtkWidget *wb_hour_table_new(void)
{
    return g_object_new(WB_TYPE_HOUR_TABLE, NULL);
}

void wb_hour_table_set(WbHourTable *self, const WbKitEnergy *energy)
{
    g_return_if_fail(WB_IS_HOUR_TABLE(self));
    g_autoptr(GtkStringList) hours = gtk_string_list_new(NULL);
    g_clear_pointer(&self->energy, wb_kit_energy_free);
    gtk_column_view_set_model(self->view, NULL);
    if (energy == NULL)
        return;
    self->energy = g_memdup2(energy, sizeof *energy);
    for (int h = 0; h < WB_FORTNIGHT_HOURS; h++)
        gtk_string_list_append(hours, "");
    g_autoptr(GtkNoSelection) model = gtk_no_selection_new(G_LIST_MODEL(g_object_ref(hours)));
    gtk_column_view_set_model(self->view, GTK_SELECTION_MODEL(model));
}
