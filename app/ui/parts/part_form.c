#include "part_form.h"

#include "field_row.h"
#include "offer_list.h"
#include "resources.h"
#include <glib/gi18n-lib.h>

struct _WbPartForm {
    GtkBox parent_instance;
    GtkLabel *title, *problem;
    GtkBox *fields;
    WbOfferList *offers;
    WbCatalogueStore *store;
    WbPartRow *row;
    int kind; /* whose fields stand in the box; -1: none */
};

G_DEFINE_FINAL_TYPE(WbPartForm, wb_part_form, GTK_TYPE_BOX)

static void tell(WbPartForm *self, const char *problem)
{
    gtk_label_set_text(self->problem, problem != NULL ? problem : "");
    gtk_widget_set_visible(GTK_WIDGET(self->problem), problem != NULL);
}

static void on_edited(WbFieldRow *field_row, const char *text, WbPartForm *self)
{
    if (self->row == NULL)
        return;
    g_autoptr(GError) error = NULL;
    g_autofree char *sentence = NULL;
    /* Saving brings a new catalogue, and with it another row: keep what the record points at. */
    g_autoptr(WbPartRow) row = g_object_ref(self->row);
    WbPartKind kind = wb_part_row_get_kind(row);
    g_autofree void *record = g_memdup2(wb_part_row_get_part(row), wb_kind_size(kind));
    WbTyped typed = wb_part_edit_read(wb_field_row_get_field(field_row), text, record, &sentence);
    wb_field_row_tell(field_row, typed, sentence);
    if (typed == WB_TYPED_REFUSED)
        return;
    gboolean saved = wb_catalogue_store_put_part(self->store, kind, record, &error);
    tell(self, saved ? NULL : error->message);
    if (!saved)
        wb_field_row_tell(field_row, WB_TYPED_REFUSED, error->message);
}

static void build_fields(WbPartForm *self, WbPartKind kind)
{
    GtkWidget *child;
    size_t n;
    const WbField *fields = wb_part_fields(kind, &n);
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(self->fields))) != NULL)
        gtk_box_remove(self->fields, child);
    for (size_t i = 0; i < n; i++) {
        GtkWidget *row = wb_field_row_new(&fields[i]);
        g_signal_connect_object(row, "edited", G_CALLBACK(on_edited), self, 0);
        gtk_box_append(self->fields, row);
    }
    self->kind = (int)kind;
}

void wb_part_form_show(WbPartForm *self, WbPartRow *row)
{
    g_return_if_fail(WB_IS_PART_FORM(self));
    gboolean same = row != NULL && self->row != NULL &&
                    g_str_equal(wb_part_row_get_id(row), wb_part_row_get_id(self->row));
    if (!same)
        tell(self, NULL);
    /* Another part takes the figures being typed only after they are committed or dropped. */
    if (!same && gtk_widget_get_focus_child(GTK_WIDGET(self->fields)) != NULL)
        gtk_widget_child_focus(GTK_WIDGET(self), GTK_DIR_TAB_FORWARD);
    g_set_object(&self->row, row);
    gtk_widget_set_visible(GTK_WIDGET(self->fields), row != NULL);
    wb_offer_list_show(self->offers, row != NULL ? wb_part_row_get_id(row) : NULL);
    if (row == NULL) {
        gtk_label_set_text(self->title, _("Choose a part to see its figures."));
        return;
    }
    g_autofree char *title = wb_part_row_dup_title(row);
    gtk_label_set_text(self->title, title);
    if (self->kind != (int)wb_part_row_get_kind(row))
        build_fields(self, wb_part_row_get_kind(row));
    GtkWidget *child = gtk_widget_get_first_child(GTK_WIDGET(self->fields));
    for (; child != NULL; child = gtk_widget_get_next_sibling(child))
        wb_field_row_show(WB_FIELD_ROW(child), wb_part_row_get_part(row));
}

static void wb_part_form_dispose(GObject *object)
{
    WbPartForm *self = WB_PART_FORM(object);
    g_clear_object(&self->row);
    g_clear_object(&self->store);
    G_OBJECT_CLASS(wb_part_form_parent_class)->dispose(object);
}

static void wb_part_form_class_init(WbPartFormClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = wb_part_form_dispose;
    g_type_ensure(WB_TYPE_OFFER_LIST);
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/parts/form.ui");
    gtk_widget_class_bind_template_child(widget, WbPartForm, title);
    gtk_widget_class_bind_template_child(widget, WbPartForm, problem);
    gtk_widget_class_bind_template_child(widget, WbPartForm, fields);
    gtk_widget_class_bind_template_child(widget, WbPartForm, offers);
}

static void wb_part_form_init(WbPartForm *self)
{
    self->kind = -1;
    gtk_widget_init_template(GTK_WIDGET(self));
}

void wb_part_form_set_context(WbPartForm *self, const WbContext *context)
{
    g_return_if_fail(WB_IS_PART_FORM(self) && self->store == NULL);
    self->store = g_object_ref(context->catalogue);
    wb_offer_list_set_context(self->offers, context);
}

void wb_part_form_begin(WbPartForm *self)
{
    g_return_if_fail(WB_IS_PART_FORM(self));
    GtkWidget *child = gtk_widget_get_first_child(GTK_WIDGET(self->fields));
    for (; child != NULL; child = gtk_widget_get_next_sibling(child))
        if (g_str_equal(wb_field_row_get_field(WB_FIELD_ROW(child))->key, "maker")) {
            gtk_widget_child_focus(child, GTK_DIR_TAB_FORWARD);
            return;
        }
}
