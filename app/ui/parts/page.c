/* The parts page: the catalogue by kind, candidates ticked; beside it every figure of one part. */
#include "page.h"

#include "part_columns.h"
#include "part_form.h"
#include "part_new.h"
#include "resources.h"
#include <glib/gi18n-lib.h>

#define WB_TYPE_PARTS_PAGE (wb_parts_page_get_type())
G_DECLARE_FINAL_TYPE(WbPartsPage, wb_parts_page, WB, PARTS_PAGE, GtkBox)

struct _WbPartsPage {
    GtkBox parent_instance;
    GtkDropDown *kind;
    GtkSearchEntry *search;
    GtkButton *tick_all, *tick_none;
    GtkLabel *count;
    GtkStack *main;
    GtkColumnView *view;
    WbPartForm *form;
    WbDocument *document;
    WbSession *session;
    WbCatalogueStore *catalogue;
    WbPartList *list;
    GtkSingleSelection *selection;
    char *chosen; /* part id */
    guint line;   /* where it stood */
    gboolean updating;
};

G_DEFINE_FINAL_TYPE(WbPartsPage, wb_parts_page, GTK_TYPE_BOX)

static const char *const kind_titles[WB_N_KINDS + 1] = {
    N_("Panels"),    N_("Charge controllers"), N_("Storage"),
    N_("Inverters"), N_("DC-DC chargers"),     N_("Conductors"),
    N_("Fuses"),     N_("Fittings"),           NULL};

static WbPartKind current_kind(WbPartsPage *self)
{
    return (WbPartKind)wb_session_get_part_kind(self->session);
}

/* Conductors, fuses and fittings are chosen by the program, not ticked by the person. */
static gboolean ticks_matter(WbPartKind kind)
{
    return kind < WB_KIND_CONDUCTOR;
}

static void show_count(WbPartsPage *self)
{
    guint shown = g_list_model_get_n_items(G_LIST_MODEL(self->list));
    guint total = wb_part_list_get_total(self->list), ticked = wb_part_list_get_ticked(self->list);
    g_autofree char *text =
        ticks_matter(current_kind(self))
            ? g_strdup_printf(_("%u of %u ticked: these take part in the ranking. %u shown."),
                              ticked, total, shown)
            : g_strdup_printf(_("%u of %u shown. The program picks from these by itself."), shown,
                              total);
    gtk_label_set_text(self->count, text);
    gtk_stack_set_visible_child_name(self->main, shown > 0 ? "parts" : "none");
}

static void show_chosen(WbPartsPage *self)
{
    WbPartRow *row = gtk_single_selection_get_selected_item(self->selection);
    if (self->updating)
        return;
    if (row != NULL) {
        g_free(self->chosen);
        self->chosen = g_strdup(wb_part_row_get_id(row));
        self->line = gtk_single_selection_get_selected(self->selection);
    }
    gtk_widget_action_set_enabled(GTK_WIDGET(self), "parts.delete", row != NULL);
    gtk_widget_action_set_enabled(GTK_WIDGET(self), "parts.why", row != NULL);
    wb_part_form_show(self->form, row);
}

/* After a new catalogue, order or filter: the same part stays chosen, else the one that took its
 * place. */
static void on_items_changed(WbPartsPage *self)
{
    guint position = 0, n = g_list_model_get_n_items(G_LIST_MODEL(self->list));
    show_count(self);
    if (self->chosen != NULL && !wb_part_list_find(self->list, self->chosen, &position))
        position = n > 0 ? MIN(self->line, n - 1) : 0;
    self->updating = TRUE;
    gtk_single_selection_set_selected(self->selection, position);
    self->updating = FALSE;
    show_chosen(self);
}

static void show_kind(WbPartsPage *self)
{
    WbPartKind kind = current_kind(self);
    self->updating = TRUE;
    gtk_drop_down_set_selected(self->kind, kind);
    g_clear_object(&self->list);
    g_clear_pointer(&self->chosen, g_free);
    self->list = wb_part_list_new(self->document, kind);
    wb_part_list_set_filter(self->list, gtk_editable_get_text(GTK_EDITABLE(self->search)));
    gtk_single_selection_set_model(self->selection, G_LIST_MODEL(self->list));
    wb_part_columns_set(self->view, self->document, kind);
    self->updating = FALSE;
    gtk_widget_set_sensitive(GTK_WIDGET(self->tick_all), ticks_matter(kind));
    gtk_widget_set_sensitive(GTK_WIDGET(self->tick_none), ticks_matter(kind));
    g_signal_connect_object(self->list, "items-changed", G_CALLBACK(on_items_changed), self,
                            G_CONNECT_SWAPPED | G_CONNECT_AFTER);
    on_items_changed(self);
}

static void on_kind(WbPartsPage *self)
{
    guint kind = gtk_drop_down_get_selected(self->kind);
    if (!self->updating && self->session != NULL && kind < WB_N_KINDS)
        wb_session_set_part_kind(self->session, (int)kind);
}

static void on_search(WbPartsPage *self)
{
    wb_part_list_set_filter(self->list, gtk_editable_get_text(GTK_EDITABLE(self->search)));
}

static void on_order(GtkSorter *sorter, GtkSorterChange change, WbPartsPage *self)
{
    gboolean descending;
    /* Also fires while the view is taken apart and while columns are exchanged. */
    if (self->updating || self->list == NULL || gtk_widget_in_destruction(GTK_WIDGET(self)))
        return;
    const char *key = wb_part_columns_get_order(self->view, current_kind(self), &descending);
    wb_part_list_set_sort(self->list, key != NULL ? key : "title", descending);
}

static void tick_kind(WbPartsPage *self, gboolean ticked)
{
    g_autoptr(GError) error = NULL;
    if (!wb_document_tick_kind(self->document, current_kind(self), ticked, &error))
        wb_show_message(GTK_WIDGET(self), error->message);
}

static void on_tick_all(WbPartsPage *self)
{
    tick_kind(self, TRUE);
}

static void on_tick_none(WbPartsPage *self)
{
    tick_kind(self, FALSE);
}

/* ---- adding and deleting ---- */

/* The new part is chosen and its figures stand ready to be typed, whatever was searched for. */
static void act_add(GtkWidget *widget, const char *name, GVariant *parameter)
{
    WbPartsPage *self = WB_PARTS_PAGE(widget);
    g_autoptr(GError) error = NULL;
    WbPartRow *row = gtk_single_selection_get_selected_item(self->selection);
    g_autoptr(WbPartRow) original = row != NULL ? g_object_ref(row) : NULL;
    g_autoptr(WbNewPart) part =
        wb_new_part(wb_catalogue_store_get_catalogue(self->catalogue), current_kind(self),
                    original != NULL ? wb_part_row_get_part(original) : NULL);
    if (!wb_catalogue_store_put_part(self->catalogue, current_kind(self), wb_new_part_get(part),
                                     &error)) {
        wb_show_message(widget, error->message);
        return;
    }
    g_free(self->chosen);
    self->chosen = g_strdup(wb_new_part_get(part)->id);
    if (!wb_part_list_find(self->list, self->chosen, &(guint){0})) {
        gtk_editable_set_text(GTK_EDITABLE(self->search), "");
        wb_part_list_set_filter(self->list, "");
    }
    on_items_changed(self);
    gtk_widget_activate_action(gtk_widget_get_last_child(GTK_WIDGET(self->view)),
                               "list.scroll-to-item", "u", self->line);
    wb_part_form_begin(self->form);
}

/* What a deletion took along, and what the brief still expects. (transfer full) */
static char *deleted_sentence(WbPartsPage *self, const char *title, guint offers)
{
    g_autoptr(GError) missing = NULL;
    g_autofree char *sentence =
        offers == 0 ? g_strdup_printf(_("%s was deleted from the catalogue."), title)
                    : g_strdup_printf(
                          g_dngettext(NULL, "%s was deleted from the catalogue with %u price.",
                                      "%s was deleted from the catalogue with %u prices.", offers),
                          title, offers);
    if (wb_document_check_parts(self->document, &missing))
        return g_steal_pointer(&sentence);
    return g_strdup_printf(
        _("%s The brief names what the catalogue now lacks, and the ranking leaves it out: %s"),
        sentence, missing->message);
}

static void act_delete(GtkWidget *widget, const char *name, GVariant *parameter)
{
    WbPartsPage *self = WB_PARTS_PAGE(widget);
    g_autoptr(GError) error = NULL;
    WbPartRow *row = gtk_single_selection_get_selected_item(self->selection);
    const WbCatalogue *catalogue = wb_catalogue_store_get_catalogue(self->catalogue);
    guint offers = 0;
    if (row == NULL)
        return;
    g_autofree char *id = g_strdup(wb_part_row_get_id(row));
    g_autofree char *title = wb_part_row_dup_title(row);
    for (size_t i = 0; i < catalogue->n_offers; i++)
        offers += g_str_equal(catalogue->offers[i].part_id, id);
    if (!wb_catalogue_store_delete_part(self->catalogue, id, &error)) {
        wb_show_message(widget, error->message);
        return;
    }
    g_autofree char *sentence = deleted_sentence(self, title, offers);
    wb_show_undo_message(widget, sentence);
}

/* The answer stands beside the ranking, with what each rule ruled out. */
static void act_why(GtkWidget *widget, const char *name, GVariant *parameter)
{
    WbPartsPage *self = WB_PARTS_PAGE(widget);
    WbPartRow *row = gtk_single_selection_get_selected_item(self->selection);
    if (row == NULL)
        return;
    g_autofree char *id = g_strdup(wb_part_row_get_id(row));
    wb_session_set_page(self->session, "ranking");
    if (g_strcmp0(wb_session_get_part_asked(self->session), id) == 0)
        g_object_notify(G_OBJECT(self->session), "part-asked");
    else
        wb_session_set_part_asked(self->session, id);
}

static void wb_parts_page_dispose(GObject *object)
{
    WbPartsPage *self = WB_PARTS_PAGE(object);
    g_clear_object(&self->selection);
    g_clear_object(&self->list);
    g_clear_object(&self->catalogue);
    g_clear_object(&self->session);
    g_clear_object(&self->document);
    g_clear_pointer(&self->chosen, g_free);
    G_OBJECT_CLASS(wb_parts_page_parent_class)->dispose(object);
}

static void bind_children(GtkWidgetClass *widget)
{
    gtk_widget_class_bind_template_child(widget, WbPartsPage, kind);
    gtk_widget_class_bind_template_child(widget, WbPartsPage, search);
    gtk_widget_class_bind_template_child(widget, WbPartsPage, tick_all);
    gtk_widget_class_bind_template_child(widget, WbPartsPage, tick_none);
    gtk_widget_class_bind_template_child(widget, WbPartsPage, count);
    gtk_widget_class_bind_template_child(widget, WbPartsPage, main);
    gtk_widget_class_bind_template_child(widget, WbPartsPage, view);
    gtk_widget_class_bind_template_child(widget, WbPartsPage, form);
}

static void wb_parts_page_class_init(WbPartsPageClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = wb_parts_page_dispose;
    g_type_ensure(WB_TYPE_PART_FORM);
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/parts/page.ui");
    bind_children(widget);
    gtk_widget_class_install_action(widget, "parts.add", NULL, act_add);
    gtk_widget_class_install_action(widget, "parts.delete", NULL, act_delete);
    gtk_widget_class_install_action(widget, "parts.why", NULL, act_why);
    gtk_widget_class_bind_template_callback(widget, on_kind);
    gtk_widget_class_bind_template_callback(widget, on_search);
    gtk_widget_class_bind_template_callback(widget, on_tick_all);
    gtk_widget_class_bind_template_callback(widget, on_tick_none);
}

/* Only in the table: in an entry the key deletes text. */
static void add_delete_key(WbPartsPage *self)
{
    GtkEventController *keys = gtk_shortcut_controller_new();
    gtk_shortcut_controller_add_shortcut(GTK_SHORTCUT_CONTROLLER(keys),
                                         gtk_shortcut_new(gtk_keyval_trigger_new(GDK_KEY_Delete, 0),
                                                          gtk_named_action_new("parts.delete")));
    gtk_widget_add_controller(GTK_WIDGET(self->view), keys);
}

static void wb_parts_page_init(WbPartsPage *self)
{
    self->updating = TRUE;
    gtk_widget_init_template(GTK_WIDGET(self));
    g_autoptr(GtkStringList) titles = gtk_string_list_new(NULL);
    for (guint i = 0; kind_titles[i] != NULL; i++)
        gtk_string_list_append(titles, _(kind_titles[i]));
    gtk_drop_down_set_model(self->kind, G_LIST_MODEL(titles));
    gtk_search_entry_set_key_capture_widget(self->search, GTK_WIDGET(self->view));
    add_delete_key(self);
    self->updating = FALSE;
}

GtkWidget *wb_parts_page_new(const WbContext *context)
{
    WbPartsPage *self = g_object_new(WB_TYPE_PARTS_PAGE, NULL);
    self->document = g_object_ref(context->document);
    self->session = g_object_ref(context->session);
    self->catalogue = g_object_ref(context->catalogue);
    self->selection = gtk_single_selection_new(NULL);
    gtk_column_view_set_model(self->view, GTK_SELECTION_MODEL(self->selection));
    wb_part_form_set_context(self->form, context);
    g_signal_connect_object(self->selection, "notify::selected-item", G_CALLBACK(show_chosen), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(gtk_column_view_get_sorter(self->view), "changed", G_CALLBACK(on_order),
                            self, 0);
    g_signal_connect_object(self->session, "notify::part-kind", G_CALLBACK(show_kind), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(self->document, "changed", G_CALLBACK(show_count), self,
                            G_CONNECT_SWAPPED | G_CONNECT_AFTER);
    show_kind(self);
    return GTK_WIDGET(self);
}
