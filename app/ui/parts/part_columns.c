#include "part_columns.h"

#include "columns.h"
#include "figures_text.h"
#include "format.h"
#include "page.h"
#include <glib/gi18n-lib.h>
#include <math.h>

#define MOST 10

typedef struct {
    const char *key;   /* as wb_part_list_set_sort */
    const char *title; /* head; money columns get the currency */
    int width;
    gboolean words; /* left-aligned */
} Column;

static const Column tick_column = {"ticked", N_("Use"), 48, TRUE};
static const Column title_column = {"title", N_("Part"), 0, TRUE};
static const Column price_column = {"price", N_("Price"), 92, FALSE};
static const Column per_watt = {"per_watt", N_("per W"), 76, FALSE};
static const Column per_wh = {"per_usable_wh", N_("per usable Wh"), 102, FALSE};
static const Column per_kg = {"per_kg", N_("per kg"), 76, FALSE};

static const Column kind_columns[WB_N_KINDS][3] = {
    [WB_KIND_PANEL] = {{"power_w", N_("Power, W"), 78, FALSE},
                       {"length_mm", N_("Length, mm"), 84, FALSE},
                       {"width_mm", N_("Width, mm"), 82, FALSE}},
    [WB_KIND_CONTROLLER] = {{"technology", N_("Type"), 64, TRUE},
                            {"max_pv_v", N_("Input, V"), 74, FALSE},
                            {"rated_output_a", N_("Output, A"), 80, FALSE}},
    [WB_KIND_STORAGE] = {{"chemistry", N_("Chemistry"), 84, TRUE},
                         {"nominal_v", N_("Nominal, V"), 84, FALSE},
                         {"capacity_ah", N_("Capacity, Ah"), 94, FALSE}},
    [WB_KIND_INVERTER] = {{"bus_v", N_("Input, V"), 74, FALSE},
                          {"waveform", N_("Waveform"), 108, TRUE},
                          {"continuous_w", N_("Power, W"), 78, FALSE}},
    [WB_KIND_DCDC] = {{"input_v", N_("Input, V"), 74, FALSE},
                      {"output_v", N_("Output, V"), 80, FALSE},
                      {"output_a", N_("Output, A"), 80, FALSE}},
    [WB_KIND_CONDUCTOR] = {{"size", N_("Size"), 60, TRUE},
                           {"area_mm2", N_("Area, mm²"), 84, FALSE},
                           {"insulation_c", N_("Insulation, °C"), 104, FALSE}},
    [WB_KIND_FUSE] = {{"form", N_("Form"), 84, TRUE},
                      {"rating_a", N_("Rating, A"), 80, FALSE},
                      {"max_v", N_("Highest, V"), 84, FALSE}},
    [WB_KIND_FITTING] = {{"role", N_("Role"), 72, TRUE},
                         {"form", N_("For fuses"), 84, TRUE},
                         {"max_a", N_("Highest, A"), 84, FALSE}},
};

static guint list_columns(WbPartKind kind, const Column *columns[MOST])
{
    guint n = 0;
    columns[n++] = &tick_column;
    columns[n++] = &title_column;
    columns[n++] = &price_column;
    for (guint i = 0; i < G_N_ELEMENTS(kind_columns[kind]); i++)
        columns[n++] = &kind_columns[kind][i];
    if (kind == WB_KIND_PANEL || kind == WB_KIND_INVERTER)
        columns[n++] = &per_watt;
    if (kind == WB_KIND_STORAGE)
        columns[n++] = &per_wh;
    if (kind == WB_KIND_PANEL || kind == WB_KIND_STORAGE)
        columns[n++] = &per_kg;
    return n;
}

const char *wb_part_columns_get_order(GtkColumnView *view, WbPartKind kind, gboolean *descending)
{
    const Column *columns[MOST];
    guint n = list_columns(kind, columns);
    int primary = wb_columns_get_primary(view, descending);
    return primary >= 0 && primary < (int)n ? columns[primary]->key : NULL;
}

/* ---- text cells ---- */

static char *money_text(double minor, const char *currency)
{
    double scale = wb_format_criterion_scale(WB_CRITERION_COST, currency);
    return isnan(minor) ? g_strdup("\xe2\x80\x93") : wb_text_number(minor * scale, 2);
}

static char *cell_text(WbPartRow *row, const Column *column, const char *currency)
{
    if (column == &title_column)
        return wb_part_row_dup_title(row);
    if (column == &price_column) {
        gint64 minor;
        return wb_part_row_get_price(row, &minor) ? money_text((double)minor, currency)
                                                  : g_strdup(_("no price"));
    }
    if (column == &per_watt)
        return money_text(wb_part_row_get_per_watt(row), currency);
    if (column == &per_wh)
        return money_text(wb_part_row_get_per_usable_wh(row), currency);
    if (column == &per_kg)
        return money_text(wb_part_row_get_per_kg(row), currency);
    size_t n;
    const WbField *fields = wb_part_fields(wb_part_row_get_kind(row), &n);
    return wb_part_row_dup_field(row, wb_field_find(fields, n, column->key));
}

static void show_text(WbPartRow *row, GtkWidget *cell)
{
    const Column *column = g_object_get_data(G_OBJECT(cell), "column");
    WbDocument *document = g_object_get_data(G_OBJECT(cell), "document");
    g_autofree char *text = cell_text(row, column, wb_document_get_brief(document)->currency);
    gtk_inscription_set_text(GTK_INSCRIPTION(cell), text);
    gtk_widget_set_tooltip_text(cell, column == &title_column ? text : NULL);
}

static void set_up_text(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
    const Column *column = data;
    GtkWidget *cell = gtk_inscription_new(NULL);
    g_object_set_data(G_OBJECT(cell), "column", (gpointer)column);
    g_object_set_data(G_OBJECT(cell), "document", g_object_get_data(G_OBJECT(factory), "document"));
    gtk_inscription_set_xalign(GTK_INSCRIPTION(cell), column->words ? 0 : 1);
    gtk_inscription_set_text_overflow(GTK_INSCRIPTION(cell),
                                      GTK_INSCRIPTION_OVERFLOW_ELLIPSIZE_END);
    gtk_inscription_set_min_chars(GTK_INSCRIPTION(cell), column == &title_column ? 20 : 4);
    gtk_widget_add_css_class(cell, "numeric");
    gtk_list_item_set_child(item, cell);
}

static void bind_text(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
    GtkWidget *cell = gtk_list_item_get_child(item);
    WbPartRow *row = gtk_list_item_get_item(item);
    g_signal_connect(row, "changed", G_CALLBACK(show_text), cell);
    show_text(row, cell);
}

static void unbind_text(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
    g_signal_handlers_disconnect_by_func(gtk_list_item_get_item(item), show_text,
                                         gtk_list_item_get_child(item));
}

/* ---- tick cells ---- */

static void on_tick(GtkCheckButton *cell, GtkListItem *item)
{
    g_autoptr(GError) error = NULL;
    WbPartRow *row = gtk_list_item_get_item(item);
    WbDocument *document = g_object_get_data(G_OBJECT(cell), "document");
    gboolean ticked = gtk_check_button_get_active(cell);
    if (row == NULL || ticked == wb_part_row_get_ticked(row))
        return;
    g_autofree char *id = g_strdup(wb_part_row_get_id(row));
    if (!wb_document_tick(document, id, ticked, &error))
        wb_show_message(GTK_WIDGET(cell), error->message);
}

static void show_tick(WbPartRow *row, GtkWidget *cell)
{
    gtk_check_button_set_active(GTK_CHECK_BUTTON(cell), wb_part_row_get_ticked(row));
}

static void set_up_tick(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
    GtkWidget *cell = gtk_check_button_new();
    gtk_widget_set_halign(cell, GTK_ALIGN_CENTER);
    g_object_set_data(G_OBJECT(cell), "document", g_object_get_data(G_OBJECT(factory), "document"));
    gtk_list_item_set_child(item, cell);
    g_signal_connect(cell, "toggled", G_CALLBACK(on_tick), item);
}

static void bind_tick(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
    GtkWidget *cell = gtk_list_item_get_child(item);
    WbPartRow *row = gtk_list_item_get_item(item);
    g_autofree char *title = wb_part_row_dup_title(row);
    g_autofree char *name = g_strdup_printf(_("Use %s"), title);
    gtk_accessible_update_property(GTK_ACCESSIBLE(cell), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
    g_signal_connect(row, "changed", G_CALLBACK(show_tick), cell);
    show_tick(row, cell);
}

static void unbind_tick(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
    g_signal_handlers_disconnect_by_func(gtk_list_item_get_item(item), show_tick,
                                         gtk_list_item_get_child(item));
}

/* ---- columns ---- */

static char *head_text(const Column *column, const char *currency)
{
    gboolean money =
        column == &price_column || column == &per_watt || column == &per_wh || column == &per_kg;
    return money && column == &price_column ? g_strdup_printf("%s, %s", _(column->title), currency)
                                            : g_strdup(_(column->title));
}

static void add_column(GtkColumnView *view, WbDocument *document, const Column *column, int index)
{
    gboolean tick = column == &tick_column;
    GtkListItemFactory *factory = gtk_signal_list_item_factory_new();
    g_object_set_data(G_OBJECT(factory), "document", document);
    g_signal_connect(factory, "setup", tick ? G_CALLBACK(set_up_tick) : G_CALLBACK(set_up_text),
                     (gpointer)column);
    g_signal_connect(factory, "bind", tick ? G_CALLBACK(bind_tick) : G_CALLBACK(bind_text), NULL);
    g_signal_connect(factory, "unbind", tick ? G_CALLBACK(unbind_tick) : G_CALLBACK(unbind_text),
                     NULL);
    g_autofree char *head = head_text(column, wb_document_get_brief(document)->currency);
    g_autoptr(GtkColumnViewColumn) added = gtk_column_view_column_new(head, factory);
    g_autoptr(GtkSorter) sorter = wb_columns_sorter_new(index);
    gtk_column_view_column_set_sorter(added, sorter);
    gtk_column_view_column_set_resizable(added, TRUE);
    if (column->width == 0)
        gtk_column_view_column_set_expand(added, TRUE);
    else
        gtk_column_view_column_set_fixed_width(added, column->width);
    gtk_column_view_append_column(view, added);
}

void wb_part_columns_set(GtkColumnView *view, WbDocument *document, WbPartKind kind)
{
    const Column *columns[MOST];
    guint n = list_columns(kind, columns);
    guint64 figures = 0;
    GListModel *old = gtk_column_view_get_columns(view);
    while (g_list_model_get_n_items(old) > 0) {
        g_autoptr(GtkColumnViewColumn) column = g_list_model_get_item(old, 0);
        gtk_column_view_remove_column(view, column);
    }
    for (guint i = 0; i < n; i++) {
        add_column(view, document, columns[i], (int)i);
        if (!columns[i]->words)
            figures |= (guint64)1 << i;
    }
    wb_columns_align_heads(view, figures);
}
