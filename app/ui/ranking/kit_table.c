#include "kit_table.h"

#include "figures_text.h"
#include "kit_columns.h"
#include "resources.h"
#include <glib/gi18n-lib.h>

struct _WbKitTable {
    GtkBox parent_instance;
    GtkLabel *count;
    GtkDropDown *chemistry;
    GtkCheckButton *front_only;
    GtkColumnView *view;
    GtkSingleSelection *selection;
    WbSession *session;
    WbKitList *list;
    GPtrArray *chemistry_ids; /* of the drop-down's lines after "all" */
    guint64 feasible;
    gboolean updating;
};

G_DEFINE_FINAL_TYPE(WbKitTable, wb_kit_table, GTK_TYPE_BOX)

static void show_count(WbKitTable *self)
{
    guint n = g_list_model_get_n_items(G_LIST_MODEL(self->list));
    g_autofree char *shown = wb_text_number(n, 0);
    g_autofree char *all = wb_text_number((double)self->feasible, 0);
    g_autofree char *text = n == self->feasible
                                ? g_strdup_printf(_("All %s that work"), all)
                                : g_strdup_printf(_("%s of %s that work"), shown, all);
    gtk_label_set_text(self->count, text);
}

static void on_front_only(WbKitTable *self)
{
    wb_kit_list_set_front_only(self->list, gtk_check_button_get_active(self->front_only));
}

static void on_chemistry(WbKitTable *self)
{
    guint line = gtk_drop_down_get_selected(self->chemistry);
    if (self->updating || line == GTK_INVALID_LIST_POSITION)
        return;
    wb_kit_list_set_chemistry(self->list, line == 0 ? NULL : self->chemistry_ids->pdata[line - 1]);
}

static void on_order(GtkSorter *sorter, GtkSorterChange change, WbKitTable *self)
{
    int criterion;
    gboolean descending;
    /* Also fires while the view is taken apart. */
    if (gtk_widget_in_destruction(GTK_WIDGET(self)))
        return;
    wb_kit_columns_get_order(self->view, &criterion, &descending);
    wb_kit_list_set_order(self->list, criterion, descending);
}

static void on_selected(WbKitTable *self)
{
    WbKitRow *row = gtk_single_selection_get_selected_item(self->selection);
    if (!self->updating && row != NULL)
        wb_session_set_kit(self->session, wb_kit_row_get_id(row));
}

static void on_activate(WbKitTable *self, guint position)
{
    wb_session_set_page(self->session, "kit");
}

/* The drop-down keeps its line as long as the chemistry is still there. */
static void list_chemistries(WbKitTable *self, const WbCatalogue *catalogue)
{
    const char *kept = wb_kit_list_get_chemistry(self->list);
    g_autoptr(GtkStringList) names = gtk_string_list_new(NULL);
    guint line = 0;
    gtk_string_list_append(names, _("All chemistries"));
    g_ptr_array_set_size(self->chemistry_ids, 0);
    for (gsize i = 0; i < catalogue->n_chemistries; i++) {
        gtk_string_list_append(names, catalogue->chemistries[i].name);
        g_ptr_array_add(self->chemistry_ids, g_strdup(catalogue->chemistries[i].id));
        if (g_strcmp0(kept, catalogue->chemistries[i].id) == 0)
            line = (guint)i + 1;
    }
    self->updating = TRUE;
    gtk_drop_down_set_model(self->chemistry, G_LIST_MODEL(names));
    gtk_drop_down_set_selected(self->chemistry, line);
    self->updating = FALSE;
    if (line == 0)
        wb_kit_list_set_chemistry(self->list, NULL);
}

void wb_kit_table_show(WbKitTable *self, WbResult *result)
{
    g_return_if_fail(WB_IS_KIT_TABLE(self));
    self->feasible = result != NULL ? wb_result_get_ranking(result)->feasible : 0;
    self->updating = TRUE;
    wb_kit_list_set_result(self->list, result);
    self->updating = FALSE;
    if (result != NULL) {
        list_chemistries(self, wb_result_get_catalogue(result));
        wb_kit_columns_set_currency(self->view, wb_result_get_brief(result)->currency);
    }
    show_count(self);
}

void wb_kit_table_choose(WbKitTable *self, const char *kit_id)
{
    g_return_if_fail(WB_IS_KIT_TABLE(self));
    guint position = GTK_INVALID_LIST_POSITION;
    if (kit_id == NULL || !wb_kit_list_find(self->list, kit_id, &position))
        position = GTK_INVALID_LIST_POSITION;
    if (position == gtk_single_selection_get_selected(self->selection))
        return;
    self->updating = TRUE;
    gtk_single_selection_set_selected(self->selection, position);
    self->updating = FALSE;
    if (position != GTK_INVALID_LIST_POSITION)
        gtk_widget_activate_action(gtk_widget_get_last_child(GTK_WIDGET(self->view)),
                                   "list.scroll-to-item", "u", position);
}

static void wb_kit_table_dispose(GObject *object)
{
    WbKitTable *self = WB_KIT_TABLE(object);
    g_clear_object(&self->selection);
    g_clear_object(&self->list);
    g_clear_object(&self->session);
    g_clear_pointer(&self->chemistry_ids, g_ptr_array_unref);
    G_OBJECT_CLASS(wb_kit_table_parent_class)->dispose(object);
}

static void wb_kit_table_class_init(WbKitTableClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = wb_kit_table_dispose;
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/ranking/table.ui");
    gtk_widget_class_bind_template_child(widget, WbKitTable, count);
    gtk_widget_class_bind_template_child(widget, WbKitTable, chemistry);
    gtk_widget_class_bind_template_child(widget, WbKitTable, front_only);
    gtk_widget_class_bind_template_child(widget, WbKitTable, view);
    gtk_widget_class_bind_template_callback(widget, on_activate);
    gtk_widget_class_bind_template_callback(widget, on_chemistry);
    gtk_widget_class_bind_template_callback(widget, on_front_only);
}

static void wb_kit_table_init(WbKitTable *self)
{
    self->updating = TRUE;
    gtk_widget_init_template(GTK_WIDGET(self));
    self->chemistry_ids = g_ptr_array_new_with_free_func(g_free);
    wb_kit_columns_add(self->view);
    self->updating = FALSE;
}

void wb_kit_table_set_context(WbKitTable *self, const WbContext *context, WbKitList *list)
{
    g_return_if_fail(WB_IS_KIT_TABLE(self) && self->session == NULL);
    self->session = g_object_ref(context->session);
    self->list = g_object_ref(list);
    self->selection = gtk_single_selection_new(G_LIST_MODEL(g_object_ref(list)));
    gtk_single_selection_set_autoselect(self->selection, FALSE);
    gtk_single_selection_set_can_unselect(self->selection, TRUE);
    gtk_column_view_set_model(self->view, GTK_SELECTION_MODEL(self->selection));
    g_signal_connect_object(self->selection, "notify::selected-item", G_CALLBACK(on_selected), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(list, "items-changed", G_CALLBACK(show_count), self, G_CONNECT_SWAPPED);
    g_signal_connect_object(gtk_column_view_get_sorter(self->view), "changed", G_CALLBACK(on_order),
                            self, 0);
}
