#include "kit_table.h"

#include "figures_text.h"
#include "kit_chips.h"
#include "kit_columns.h"
#include "kit_filter_menu.h"
#include "resources.h"
#include "settings.h"
#include <glib/gi18n-lib.h>

struct _WbKitTable {
    GtkBox parent_instance;
    GtkLabel *count, *nothing, *choices;
    GtkStack *stack;
    GtkButton *more;
    GtkCheckButton *grouped;
    GtkMenuButton *columns;
    WbKitFilterMenu *filter;
    WbKitChips *chips;
    GtkColumnView *view;
    GtkSingleSelection *selection;
    WbSession *session;
    WbRankingJob *job;
    WbKitList *list;
    char *chosen; /* id of the kit in hand, NULL: none */
    guint64 feasible;
    gsize ranked; /* rows of the ranking that the list has, filtered or not */
    gboolean updating;
};

G_DEFINE_FINAL_TYPE(WbKitTable, wb_kit_table, GTK_TYPE_BOX)

/* As many rows as a list may have; what the job takes 0 for. */
#define MOST_ROWS 1000000
#define AS_USUAL 0

static void show_count(WbKitTable *self)
{
    guint n = wb_kit_list_get_n_kits(self->list);
    g_autofree char *shown = wb_text_number(n, 0);
    g_autofree char *all = wb_text_number((double)self->feasible, 0);
    g_autofree char *text = n == self->feasible
                                ? g_strdup_printf(_("All %s that work"), all)
                                : g_strdup_printf(_("%s of %s kits shown"), shown, all);
    gtk_label_set_text(self->count, text);
    guint groups = wb_kit_list_get_n_groups(self->list);
    g_autofree char *number = wb_text_number(groups, 0);
    g_autofree char *choices = g_strdup_printf(_("%s real choices"), number);
    gtk_label_set_text(self->choices, groups < n ? choices : "");
}

/* Offers the rest while there is one, and the way back from it. */
static void show_more(WbKitTable *self)
{
    gsize usual = wb_rank_options_default().top;
    gsize most = MIN(self->feasible, MOST_ROWS);
    g_autofree char *all = wb_text_number((double)most, 0);
    g_autofree char *few = wb_text_number((double)usual, 0);
    g_autofree char *text = self->ranked < most ? g_strdup_printf(_("Show all %s kits"), all)
                                                : g_strdup_printf(_("Show the first %s only"), few);
    gtk_button_set_label(self->more, text);
    gtk_widget_set_visible(GTK_WIDGET(self->more), self->feasible > usual);
}

static void on_more(WbKitTable *self)
{
    gsize most = MIN(self->feasible, MOST_ROWS);
    wb_ranking_job_set_rows(self->job, self->ranked < most ? MOST_ROWS : AS_USUAL);
}

/* A filter that lets nothing pass says so, and what of. */
static void show_nothing(WbKitTable *self)
{
    gboolean none = wb_kit_list_get_n_kits(self->list) == 0 && self->ranked > 0;
    gtk_stack_set_visible_child_name(self->stack, none ? "none" : "rows");
    if (!none)
        return;
    g_autofree char *ranked = wb_text_number((double)self->ranked, 0);
    g_autofree char *text =
        self->ranked < self->feasible
            ? g_strdup_printf(_("None of the first %s kits of the ranking passes these filters."),
                              ranked)
            : g_strdup_printf(_("None of the %s kits that work passes these filters."), ranked);
    gtk_label_set_text(self->nothing, text);
}

static const char grouped_key[] = "ranking-grouped";

/* A choice that cannot be kept still holds. */
static void on_grouped(WbKitTable *self)
{
    gboolean grouped = gtk_check_button_get_active(self->grouped);
    if (self->list == NULL)
        return;
    wb_kit_list_set_grouped(self->list, grouped);
    wb_settings_set(NULL, grouped_key, grouped ? "yes" : "no", NULL);
}

static void on_clear(WbKitTable *self)
{
    wb_kit_chips_clear_all(self->chips);
}

/* Rows are places: the mark follows the kit to where it stands now. */
static void mark_chosen(WbKitTable *self, gboolean bring_into_view)
{
    guint position;
    if (self->chosen == NULL || !wb_kit_list_find(self->list, self->chosen, &position))
        position = GTK_INVALID_LIST_POSITION;
    if (position == gtk_single_selection_get_selected(self->selection))
        return;
    self->updating = TRUE;
    gtk_single_selection_set_selected(self->selection, position);
    self->updating = FALSE;
    if (bring_into_view && position != GTK_INVALID_LIST_POSITION)
        gtk_widget_activate_action(gtk_widget_get_last_child(GTK_WIDGET(self->view)),
                                   "list.scroll-to-item", "u", position);
}

static void on_arranged(WbKitTable *self)
{
    show_count(self);
    show_nothing(self);
    mark_chosen(self, FALSE);
}

static void on_order(GtkSorter *sorter, GtkSorterChange change, WbKitTable *self)
{
    int criterion;
    gboolean descending;
    /* Also fires while the view is taken apart. */
    if (self->list == NULL || gtk_widget_in_destruction(GTK_WIDGET(self)))
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

void wb_kit_table_show(WbKitTable *self, WbResult *result)
{
    g_return_if_fail(WB_IS_KIT_TABLE(self));
    self->feasible = result != NULL ? wb_result_get_ranking(result)->feasible : 0;
    self->ranked = result != NULL ? wb_result_get_ranking(result)->n_top : 0;
    self->updating = TRUE;
    wb_kit_list_set_result(self->list, result);
    self->updating = FALSE;
    if (result != NULL)
        wb_kit_columns_set_brief(self->view, wb_result_get_brief(result));
    wb_kit_chips_show(self->chips, result);
    wb_kit_filter_menu_show(self->filter, result);
    show_more(self);
}

void wb_kit_table_choose(WbKitTable *self, const char *kit_id)
{
    g_return_if_fail(WB_IS_KIT_TABLE(self));
    gboolean another = g_strcmp0(self->chosen, kit_id) != 0;
    guint position;
    char *kept = g_strdup(kit_id);
    g_free(self->chosen);
    self->chosen = kept;
    if (another && kit_id != NULL)
        wb_kit_list_reveal(self->list, kit_id, &position);
    mark_chosen(self, another);
}

static void wb_kit_table_dispose(GObject *object)
{
    WbKitTable *self = WB_KIT_TABLE(object);
    g_clear_object(&self->selection);
    g_clear_object(&self->list);
    g_clear_object(&self->session);
    g_clear_object(&self->job);
    g_clear_pointer(&self->chosen, g_free);
    G_OBJECT_CLASS(wb_kit_table_parent_class)->dispose(object);
}

static void wb_kit_table_class_init(WbKitTableClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = wb_kit_table_dispose;
    g_type_ensure(WB_TYPE_KIT_CHIPS);
    g_type_ensure(WB_TYPE_KIT_FILTER_MENU);
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/ranking/table.ui");
    gtk_widget_class_bind_template_child(widget, WbKitTable, count);
    gtk_widget_class_bind_template_child(widget, WbKitTable, nothing);
    gtk_widget_class_bind_template_child(widget, WbKitTable, stack);
    gtk_widget_class_bind_template_child(widget, WbKitTable, more);
    gtk_widget_class_bind_template_child(widget, WbKitTable, grouped);
    gtk_widget_class_bind_template_child(widget, WbKitTable, choices);
    gtk_widget_class_bind_template_child(widget, WbKitTable, columns);
    gtk_widget_class_bind_template_child(widget, WbKitTable, filter);
    gtk_widget_class_bind_template_child(widget, WbKitTable, chips);
    gtk_widget_class_bind_template_child(widget, WbKitTable, view);
    gtk_widget_class_bind_template_callback(widget, on_activate);
    gtk_widget_class_bind_template_callback(widget, on_clear);
    gtk_widget_class_bind_template_callback(widget, on_more);
    gtk_widget_class_bind_template_callback(widget, on_grouped);
}

static void wb_kit_table_init(WbKitTable *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
    wb_kit_columns_add(self->view, GTK_WIDGET(self));
    g_autoptr(GMenuModel) menu = wb_kit_columns_menu();
    gtk_menu_button_set_menu_model(self->columns, menu);
}

void wb_kit_table_set_context(WbKitTable *self, const WbContext *context, WbKitList *list)
{
    g_return_if_fail(WB_IS_KIT_TABLE(self) && self->session == NULL);
    self->session = g_object_ref(context->session);
    self->job = g_object_ref(context->job);
    self->list = g_object_ref(list);
    g_autofree char *kept = wb_settings_get(NULL, grouped_key);
    gtk_check_button_set_active(self->grouped, g_strcmp0(kept, "no") != 0);
    wb_kit_list_set_grouped(list, gtk_check_button_get_active(self->grouped));
    wb_kit_columns_set_list(self->view, list);
    wb_kit_chips_set_list(self->chips, list);
    wb_kit_filter_menu_set_list(self->filter, list);
    self->selection = gtk_single_selection_new(G_LIST_MODEL(g_object_ref(list)));
    gtk_single_selection_set_autoselect(self->selection, FALSE);
    gtk_single_selection_set_can_unselect(self->selection, TRUE);
    gtk_column_view_set_model(self->view, GTK_SELECTION_MODEL(self->selection));
    g_signal_connect_object(self->selection, "notify::selected-item", G_CALLBACK(on_selected), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(list, "arranged", G_CALLBACK(on_arranged), self, G_CONNECT_SWAPPED);
    g_signal_connect_object(list, "opened", G_CALLBACK(on_arranged), self, G_CONNECT_SWAPPED);
    g_signal_connect_object(gtk_column_view_get_sorter(self->view), "changed", G_CALLBACK(on_order),
                            self, 0);
}
