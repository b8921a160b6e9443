/* The loads: a table edited in place over the day and the months they make. */
#include "page.h"
#include "children.h"
#include "day_chart.h"
#include "figures_text.h"
#include "load_cell.h"
#include "load_day.h"
#include "month_chart.h"
#include "resources.h"
#include <glib/gi18n-lib.h>

#define WB_TYPE_LOADS_PAGE (wb_loads_page_get_type())
G_DECLARE_FINAL_TYPE(WbLoadsPage, wb_loads_page, WB, LOADS_PAGE, GtkWidget)

struct _WbLoadsPage {
    GtkWidget parent_instance;
    WbContext context;
    WbLoadList *list;
    GtkSingleSelection *selection;
    GtkLabel *peak, *total, *empty, *message;
    GtkMenuButton *appliances;
    GtkColumnView *view;
    GtkBox *pictures;
    GtkWidget *day, *months;
    WbLoadCell *refused; /* whose sentence is shown; only compared */
    gboolean dirty;
};

G_DEFINE_FINAL_TYPE(WbLoadsPage, wb_loads_page, GTK_TYPE_WIDGET)

/* ---- figures and pictures ---- */

static void show_message(WbLoadsPage *self, const char *sentence)
{
    gtk_label_set_text(self->message, sentence ? sentence : "");
    gtk_widget_set_visible(GTK_WIDGET(self->message), sentence != NULL);
}

static void show_day_chart(WbLoadsPage *self, const WbBrief *brief, const WbLoadDay *day)
{
    g_autofree WbDayBand *bands = g_new0(WbDayBand, MAX(day->n, 1));
    for (gsize i = 0; i < day->n; i++) {
        bands[i].name = brief->loads[i].name;
        for (int h = 0; h < WB_HOURS; h++)
            bands[i].wh[h] = day->wh[i][h];
    }
    /* Translators: a month. */
    g_autofree char *title =
        g_strdup_printf(_("A day in %s, hour by hour"), wb_text_month(MAX(day->month, 0)));
    wb_day_chart_set(WB_DAY_CHART(self->day), title, bands, (guint)day->n);
}

static char *peak_text(const WbLoadBudget *budget)
{
    g_autofree char *dc = wb_text_number(budget->peak_dc_w, 0);
    g_autofree char *ac = wb_text_number(budget->peak_ac_w, 0);
    g_autofree char *surge = wb_text_number(budget->surge_ac_w, 0);
    if (budget->any_ac)
        return g_strdup_printf(_("At once at most %s W DC and %s W AC (%s W AC when the hardest "
                                 "one starts)"),
                               dc, ac, surge);
    return g_strdup_printf(_("At once at most %s W DC"), dc);
}

static void refresh(WbLoadsPage *self)
{
    const WbBrief *brief = wb_document_get_brief(self->context.document);
    g_autoptr(WbLoadDay) day = wb_load_day_new(brief);
    self->dirty = FALSE;
    gtk_widget_set_visible(GTK_WIDGET(self->empty), brief->n_loads == 0);
    if (!day)
        return;
    double most = day->month >= 0 ? day->total_wh[day->month] : 0;
    g_autofree char *number = wb_text_number(most, 0);
    g_autofree char *total = g_strdup_printf(_("%s Wh/day at the loads"), number);
    g_autofree char *peak = peak_text(&day->budget);
    gtk_label_set_text(self->total, total);
    gtk_label_set_text(self->peak, brief->n_loads > 0 ? peak : "");
    gtk_widget_set_tooltip_text(GTK_WIDGET(self->peak), peak);
    show_day_chart(self, brief, day);
    wb_month_chart_set(WB_MONTH_CHART(self->months), _("What the loads take, by month"), NULL, NULL,
                       _("Loads"), day->total_wh, brief->site.months, day->month);
}

static void on_changed(WbLoadsPage *self)
{
    if (gtk_widget_get_mapped(GTK_WIDGET(self)))
        refresh(self);
    else
        self->dirty = TRUE;
}

/* ---- actions ---- */

static void update_actions(WbLoadsPage *self)
{
    static const char *const need_row[] = {"loads.duplicate", "loads.remove"};
    GtkWidget *widget = GTK_WIDGET(self);
    guint n = g_list_model_get_n_items(G_LIST_MODEL(self->list));
    guint at = gtk_single_selection_get_selected(self->selection);
    gboolean any = at < n;
    for (gsize i = 0; i < G_N_ELEMENTS(need_row); i++)
        gtk_widget_action_set_enabled(widget, need_row[i], any);
    gtk_widget_action_set_enabled(widget, "loads.up", any && at > 0);
    gtk_widget_action_set_enabled(widget, "loads.down", any && at + 1 < n);
}

/* Shows why, or that all is well. */
static void report(WbLoadsPage *self, gboolean done, GError *error)
{
    show_message(self, done ? NULL : error->message);
    g_clear_error(&error);
    update_actions(self);
}

static void act_add(GtkWidget *widget, const char *name, GVariant *parameter)
{
    WbLoadsPage *self = (WbLoadsPage *)widget;
    GError *error = NULL;
    guint n = g_list_model_get_n_items(G_LIST_MODEL(self->list));
    guint at = gtk_single_selection_get_selected(self->selection);
    at = at < n ? at + 1 : n;
    gboolean done = wb_load_add(self->context.document, at, &error);
    if (done)
        gtk_single_selection_set_selected(self->selection, at);
    report(self, done, error);
}

static void act_appliance(GtkWidget *widget, const char *name, GVariant *parameter)
{
    WbLoadsPage *self = (WbLoadsPage *)widget;
    GError *error = NULL;
    gsize n;
    const WbAppliance *appliances = wb_appliances(&n);
    guint which = g_variant_get_uint32(parameter);
    if (which >= n)
        return;
    report(self, wb_load_add_appliance(self->context.document, &appliances[which], &error), error);
}

static void act_duplicate(GtkWidget *widget, const char *name, GVariant *parameter)
{
    WbLoadsPage *self = (WbLoadsPage *)widget;
    GError *error = NULL;
    guint at = gtk_single_selection_get_selected(self->selection);
    report(self, wb_load_duplicate(self->context.document, at, &error), error);
}

static void act_remove(GtkWidget *widget, const char *name, GVariant *parameter)
{
    WbLoadsPage *self = (WbLoadsPage *)widget;
    GError *error = NULL;
    guint at = gtk_single_selection_get_selected(self->selection);
    report(self, wb_load_remove(self->context.document, at, &error), error);
}

static void act_move(GtkWidget *widget, const char *name, GVariant *parameter)
{
    WbLoadsPage *self = (WbLoadsPage *)widget;
    GError *error = NULL;
    guint at = gtk_single_selection_get_selected(self->selection);
    guint to = g_str_equal(name, "loads.up") ? at - 1 : at + 1;
    gboolean done = wb_load_move(self->context.document, at, to, &error);
    if (done)
        gtk_single_selection_set_selected(self->selection, to);
    report(self, done, error);
}

static void on_clipboard(GObject *source, GAsyncResult *result, gpointer data)
{
    g_autoptr(WbLoadsPage) self = data;
    GError *error = NULL;
    g_autofree char *text = gdk_clipboard_read_text_finish(GDK_CLIPBOARD(source), result, NULL);
    if (!self->context.document)
        return; /* the page closed meanwhile */
    if (!text)
        show_message(self, _("There is no text to paste; copy rows in a spreadsheet first."));
    else
        report(self, wb_load_paste(self->context.document, text, NULL, &error), error);
}

static void act_paste(GtkWidget *widget, const char *name, GVariant *parameter)
{
    gdk_clipboard_read_text_async(gtk_widget_get_clipboard(widget), NULL, on_clipboard,
                                  g_object_ref(widget));
}

/* ---- the table ---- */

/* A cell that is well again takes back its own sentence only. */
static void on_cell_message(WbLoadCell *cell, const char *sentence, WbLoadsPage *self)
{
    if (sentence == NULL && self->refused != cell)
        return;
    self->refused = sentence != NULL ? cell : NULL;
    show_message(self, sentence);
}

static void on_cell_entered(WbLoadCell *cell, WbLoadsPage *self)
{
    WbLoadRow *row = wb_load_cell_get_row(cell);
    if (row)
        gtk_single_selection_set_selected(self->selection, wb_load_row_get_index(row));
}

static void setup_cell(GtkSignalListItemFactory *factory, GtkListItem *item, WbLoadsPage *self)
{
    int field = GPOINTER_TO_INT(g_object_get_data(G_OBJECT(factory), "field"));
    GtkWidget *cell = wb_load_cell_new(self->context.document, field);
    g_signal_connect_object(cell, "message", G_CALLBACK(on_cell_message), self, 0);
    g_signal_connect_object(cell, "entered", G_CALLBACK(on_cell_entered), self, 0);
    gtk_list_item_set_child(item, cell);
    gtk_list_item_set_activatable(item, FALSE);
}

static void bind_cell(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
    wb_load_cell_set_row(WB_LOAD_CELL(gtk_list_item_get_child(item)), gtk_list_item_get_item(item));
}

static void unbind_cell(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
    wb_load_cell_set_row(WB_LOAD_CELL(gtk_list_item_get_child(item)), NULL);
}

static char *head_text(const WbLoadColumn *column)
{
    return *column->unit ? g_strdup_printf("%s, %s", _(column->title), _(column->unit))
                         : g_strdup(_(column->title));
}

static void add_column(WbLoadsPage *self, WbLoadField field)
{
    GtkListItemFactory *factory = gtk_signal_list_item_factory_new();
    g_autofree char *head = head_text(wb_load_column(field));
    g_object_set_data(G_OBJECT(factory), "field", GINT_TO_POINTER((int)field));
    g_signal_connect_object(factory, "setup", G_CALLBACK(setup_cell), self, 0);
    g_signal_connect(factory, "bind", G_CALLBACK(bind_cell), NULL);
    g_signal_connect(factory, "unbind", G_CALLBACK(unbind_cell), NULL);
    g_autoptr(GtkColumnViewColumn) column = gtk_column_view_column_new(head, factory);
    gtk_column_view_column_set_resizable(column, TRUE);
    gtk_column_view_column_set_expand(column, field == WB_LOAD_NAME);
    gtk_column_view_append_column(self->view, column);
}

static void setup_energy(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
    GtkWidget *cell = gtk_inscription_new(NULL);
    gtk_inscription_set_xalign(GTK_INSCRIPTION(cell), 1);
    gtk_inscription_set_nat_chars(GTK_INSCRIPTION(cell), 7);
    gtk_inscription_set_min_chars(GTK_INSCRIPTION(cell), 5);
    gtk_widget_add_css_class(cell, "numeric");
    gtk_list_item_set_child(item, cell);
}

static void show_energy(WbLoadRow *row, GtkInscription *cell)
{
    g_autofree char *text = wb_text_number(wb_load_row_get_day_wh(row), 0);
    gtk_inscription_set_text(cell, text);
}

static void bind_energy(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
    WbLoadRow *row = gtk_list_item_get_item(item);
    GtkInscription *cell = GTK_INSCRIPTION(gtk_list_item_get_child(item));
    show_energy(row, cell);
    g_signal_connect_object(row, "changed", G_CALLBACK(show_energy), cell, 0);
}

static void unbind_energy(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
    g_signal_handlers_disconnect_by_func(gtk_list_item_get_item(item), show_energy,
                                         gtk_list_item_get_child(item));
}

static void add_energy_column(WbLoadsPage *self)
{
    GtkListItemFactory *factory = gtk_signal_list_item_factory_new();
    g_signal_connect(factory, "setup", G_CALLBACK(setup_energy), NULL);
    g_signal_connect(factory, "bind", G_CALLBACK(bind_energy), NULL);
    g_signal_connect(factory, "unbind", G_CALLBACK(unbind_energy), NULL);
    g_autoptr(GtkColumnViewColumn) column =
        gtk_column_view_column_new(_("A day of use, Wh"), factory);
    gtk_column_view_append_column(self->view, column);
}

static void fill_appliances(WbLoadsPage *self)
{
    g_autoptr(GMenu) menu = g_menu_new();
    gsize n;
    const WbAppliance *appliances = wb_appliances(&n);
    for (guint i = 0; i < n; i++) {
        g_autofree char *watts = wb_text_number(appliances[i].watts, 0);
        g_autofree char *label = g_strdup_printf("%s, %s W %s", _(appliances[i].name), watts,
                                                 appliances[i].ac ? "AC" : "DC");
        g_autoptr(GMenuItem) item = g_menu_item_new(label, NULL);
        g_menu_item_set_action_and_target(item, "loads.add-appliance", "u", i);
        g_menu_append_item(menu, item);
    }
    gtk_menu_button_set_menu_model(self->appliances, G_MENU_MODEL(menu));
}

GtkWidget *wb_loads_page_new(const WbContext *context)
{
    WbLoadsPage *self = g_object_new(WB_TYPE_LOADS_PAGE, NULL);
    self->context = *context;
    self->list = wb_load_list_new(context->document);
    self->selection = gtk_single_selection_new(G_LIST_MODEL(g_object_ref(self->list)));
    gtk_single_selection_set_autoselect(self->selection, FALSE);
    gtk_single_selection_set_can_unselect(self->selection, TRUE);
    gtk_single_selection_set_selected(self->selection, GTK_INVALID_LIST_POSITION);
    gtk_column_view_set_model(self->view, GTK_SELECTION_MODEL(self->selection));
    for (int field = 0; field < WB_N_LOAD_COLUMNS; field++)
        add_column(self, field);
    add_energy_column(self);
    g_signal_connect_object(self->selection, "notify::selected", G_CALLBACK(update_actions), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(self->list, "items-changed", G_CALLBACK(update_actions), self,
                            G_CONNECT_SWAPPED | G_CONNECT_AFTER);
    g_signal_connect_object(context->document, "changed", G_CALLBACK(on_changed), self,
                            G_CONNECT_SWAPPED);
    refresh(self);
    update_actions(self);
    return GTK_WIDGET(self);
}

/* ---- GObject ---- */

static void wb_loads_page_map(GtkWidget *widget)
{
    if (((WbLoadsPage *)widget)->dirty)
        refresh((WbLoadsPage *)widget);
    GTK_WIDGET_CLASS(wb_loads_page_parent_class)->map(widget);
}

static void wb_loads_page_dispose(GObject *object)
{
    WbLoadsPage *self = (WbLoadsPage *)object;
    self->context.document = NULL;
    wb_drop_children(GTK_WIDGET(self), WB_TYPE_LOADS_PAGE);
    g_clear_object(&self->selection);
    g_clear_object(&self->list);
    G_OBJECT_CLASS(wb_loads_page_parent_class)->dispose(object);
}

static void install_actions(GtkWidgetClass *widget_class)
{
    gtk_widget_class_install_action(widget_class, "loads.add", NULL, act_add);
    gtk_widget_class_install_action(widget_class, "loads.add-appliance", "u", act_appliance);
    gtk_widget_class_install_action(widget_class, "loads.duplicate", NULL, act_duplicate);
    gtk_widget_class_install_action(widget_class, "loads.remove", NULL, act_remove);
    gtk_widget_class_install_action(widget_class, "loads.up", NULL, act_move);
    gtk_widget_class_install_action(widget_class, "loads.down", NULL, act_move);
    gtk_widget_class_install_action(widget_class, "loads.paste", NULL, act_paste);
    gtk_widget_class_add_binding_action(widget_class, GDK_KEY_Up, GDK_ALT_MASK, "loads.up", NULL);
    gtk_widget_class_add_binding_action(widget_class, GDK_KEY_Down, GDK_ALT_MASK, "loads.down",
                                        NULL);
    gtk_widget_class_add_binding_action(widget_class, GDK_KEY_Delete, GDK_CONTROL_MASK,
                                        "loads.remove", NULL);
}

static void wb_loads_page_class_init(WbLoadsPageClass *klass)
{
    GtkWidgetClass *widget_class = GTK_WIDGET_CLASS(klass);
    G_OBJECT_CLASS(klass)->dispose = wb_loads_page_dispose;
    widget_class->map = wb_loads_page_map;
    gtk_widget_class_set_template_from_resource(widget_class, WB_RESOURCE_PREFIX "/loads/page.ui");
    gtk_widget_class_bind_template_child(widget_class, WbLoadsPage, peak);
    gtk_widget_class_bind_template_child(widget_class, WbLoadsPage, total);
    gtk_widget_class_bind_template_child(widget_class, WbLoadsPage, empty);
    gtk_widget_class_bind_template_child(widget_class, WbLoadsPage, message);
    gtk_widget_class_bind_template_child(widget_class, WbLoadsPage, appliances);
    gtk_widget_class_bind_template_child(widget_class, WbLoadsPage, view);
    gtk_widget_class_bind_template_child(widget_class, WbLoadsPage, pictures);
    install_actions(widget_class);
}

static void wb_loads_page_init(WbLoadsPage *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
    self->day = wb_day_chart_new();
    self->months = wb_month_chart_new();
    gtk_widget_set_size_request(self->day, 240, 96);
    gtk_widget_set_size_request(self->months, 240, 96);
    gtk_box_append(self->pictures, self->day);
    gtk_box_append(self->pictures, self->months);
    fill_appliances(self);
}
