#include "brief_row.h"

#include "brief_entry.h"
#include "resources.h"
#include <glib/gi18n-lib.h>
#include <math.h>

struct _WbBriefRow {
    GtkBox parent_instance;
    GtkBox *line;
    GtkLabel *label, *unit, *note, *problem;
    GtkWidget *control; /* WbBriefEntry, GtkDropDown or GtkCheckButton */
    WbDocument *document;
    const WbBriefField *field;
    gboolean filling; /* we write, not the person */
};

G_DEFINE_FINAL_TYPE(WbBriefRow, wb_brief_row, GTK_TYPE_BOX)

void wb_brief_row_set_note(WbBriefRow *self, const char *note)
{
    g_return_if_fail(WB_IS_BRIEF_ROW(self));
    gtk_label_set_text(self->note, note != NULL ? note : "");
    gtk_widget_set_visible(GTK_WIDGET(self->note), note != NULL);
}

void wb_brief_row_set_placeholder(WbBriefRow *self, const char *text)
{
    g_return_if_fail(WB_IS_BRIEF_ROW(self));
    wb_brief_entry_set_placeholder(WB_BRIEF_ENTRY(self->control), text);
}

void wb_brief_row_tell(WbBriefRow *self, const char *sentence)
{
    g_return_if_fail(WB_IS_BRIEF_ROW(self));
    gtk_label_set_text(self->problem, sentence != NULL ? sentence : "");
    gtk_widget_set_visible(GTK_WIDGET(self->problem), sentence != NULL);
}

static void on_message(WbBriefEntry *entry, const char *sentence, WbBriefRow *self)
{
    wb_brief_row_tell(self, sentence);
}

static void refresh(WbBriefRow *self)
{
    double value = self->field->number(wb_document_get_brief(self->document), 0);
    self->filling = TRUE;
    if (GTK_IS_DROP_DOWN(self->control))
        gtk_drop_down_set_selected(GTK_DROP_DOWN(self->control), (guint)value);
    else
        gtk_check_button_set_active(GTK_CHECK_BUTTON(self->control), value > 0);
    self->filling = FALSE;
}

static void edit(WbBriefRow *self, const char *json)
{
    g_autoptr(GError) error = NULL;
    wb_document_seal(self->document);
    gboolean taken =
        wb_document_set_json(self->document, self->field->step, self->field->pointer, json, &error);
    wb_brief_row_tell(self, taken ? NULL : error->message);
    if (!taken)
        refresh(self);
}

static void on_selected(WbBriefRow *self)
{
    guint line = gtk_drop_down_get_selected(GTK_DROP_DOWN(self->control));
    if (!self->filling && line != GTK_INVALID_LIST_POSITION)
        edit(self, self->field->json[line]);
}

static void on_toggled(WbBriefRow *self)
{
    if (!self->filling)
        edit(self, gtk_check_button_get_active(GTK_CHECK_BUTTON(self->control)) ? "true" : "false");
}

/* ---- building ---- */

static GtkWidget *choice_new(WbBriefRow *self)
{
    g_autoptr(GtkStringList) words = gtk_string_list_new(NULL);
    for (guint i = 0; self->field->words[i] != NULL; i++)
        gtk_string_list_append(words, _(self->field->words[i]));
    GtkWidget *drop_down = gtk_drop_down_new(G_LIST_MODEL(g_steal_pointer(&words)), NULL);
    gtk_accessible_update_property(GTK_ACCESSIBLE(drop_down), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   _(self->field->title), -1);
    return drop_down;
}

static GtkWidget *control_new(WbBriefRow *self)
{
    switch (self->field->kind) {
    case WB_BRIEF_NUMBER:
    case WB_BRIEF_TEXT:
        return wb_brief_entry_new(self->document, self->field, 0,
                                  self->field->kind == WB_BRIEF_TEXT ? 16 : 7);
    case WB_BRIEF_CHOICE:
        return choice_new(self);
    case WB_BRIEF_FLAG:
        return gtk_check_button_new_with_label(_(self->field->title));
    }
    g_return_val_if_reached(NULL);
}

/* A tick carries its own name and begins the line; entry and choice stand before the unit. */
static void place_control(WbBriefRow *self)
{
    GtkWidget *label = GTK_WIDGET(self->label), *unit = GTK_WIDGET(self->unit);
    gboolean flag = self->field->kind == WB_BRIEF_FLAG;
    gtk_widget_set_valign(self->control, GTK_ALIGN_CENTER);
    gtk_box_insert_child_after(self->line, self->control, flag ? NULL : label);
    gtk_widget_set_visible(label, !flag);
    gtk_widget_set_visible(unit, self->field->kind == WB_BRIEF_NUMBER);
    gtk_label_set_mnemonic_widget(self->label, flag ? NULL : self->control);
}

GtkWidget *wb_brief_row_new(WbDocument *document, const WbBriefField *field)
{
    WbBriefRow *self = g_object_new(WB_TYPE_BRIEF_ROW, NULL);
    self->document = g_object_ref(document);
    self->field = field;
    gtk_label_set_text(self->label, _(field->title));
    gtk_label_set_text(self->unit, field->unit != NULL ? _(field->unit) : "");
    wb_brief_row_set_note(self, field->note != NULL ? _(field->note) : NULL);
    self->control = control_new(self);
    place_control(self);
    if (WB_IS_BRIEF_ENTRY(self->control)) {
        g_signal_connect_object(self->control, "message", G_CALLBACK(on_message), self, 0);
        return GTK_WIDGET(self);
    }
    refresh(self);
    g_signal_connect_object(
        self->control, field->kind == WB_BRIEF_CHOICE ? "notify::selected" : "toggled",
        field->kind == WB_BRIEF_CHOICE ? G_CALLBACK(on_selected) : G_CALLBACK(on_toggled), self,
        G_CONNECT_SWAPPED);
    g_signal_connect_object(document, "changed", G_CALLBACK(refresh), self, G_CONNECT_SWAPPED);
    return GTK_WIDGET(self);
}

static void wb_brief_row_dispose(GObject *object)
{
    g_clear_object(&WB_BRIEF_ROW(object)->document);
    G_OBJECT_CLASS(wb_brief_row_parent_class)->dispose(object);
}

static void wb_brief_row_class_init(WbBriefRowClass *klass)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(klass);
    G_OBJECT_CLASS(klass)->dispose = wb_brief_row_dispose;
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/fields/brief_row.ui");
    gtk_widget_class_bind_template_child(widget, WbBriefRow, line);
    gtk_widget_class_bind_template_child(widget, WbBriefRow, label);
    gtk_widget_class_bind_template_child(widget, WbBriefRow, unit);
    gtk_widget_class_bind_template_child(widget, WbBriefRow, note);
    gtk_widget_class_bind_template_child(widget, WbBriefRow, problem);
}

static void wb_brief_row_init(WbBriefRow *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
}
