#include "field_row.h"

#include "resources.h"
#include <glib/gi18n-lib.h>
#include <string.h>

struct _WbFieldRow {
    GtkBox parent_instance;
    GtkLabel *label, *unit, *note;
    GtkEntry *entry;
    GtkDropDown *choice;
    GtkCheckButton *flag;
    const WbField *field;
    char *shown; /* text of the figure as it stands */
    gboolean updating;
};

enum { EDITED, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE(WbFieldRow, wb_field_row, GTK_TYPE_BOX)

static void edited(WbFieldRow *self, const char *text)
{
    if (self->updating || self->shown == NULL || g_str_equal(text, self->shown))
        return;
    g_signal_emit(self, signals[EDITED], 0, text);
}

static void on_entry(WbFieldRow *self)
{
    g_autofree char *text = g_strstrip(g_strdup(gtk_editable_get_text(GTK_EDITABLE(self->entry))));
    edited(self, text);
}

static void on_choice(WbFieldRow *self)
{
    guint line = gtk_drop_down_get_selected(self->choice);
    if (!self->updating && self->field != NULL && line != GTK_INVALID_LIST_POSITION)
        edited(self, self->field->choices[line]);
}

static void on_flag(WbFieldRow *self)
{
    edited(self, gtk_check_button_get_active(self->flag) ? "1" : "0");
}

static GtkWidget *control(WbFieldRow *self)
{
    return self->field->choices != NULL         ? GTK_WIDGET(self->choice)
           : self->field->type == WB_FIELD_FLAG ? GTK_WIDGET(self->flag)
                                                : GTK_WIDGET(self->entry);
}

void wb_field_row_tell(WbFieldRow *self, WbTyped typed, const char *sentence)
{
    static const char *const styles[] = {
        [WB_TYPED_GOOD] = NULL, [WB_TYPED_UNUSUAL] = "questioned", [WB_TYPED_REFUSED] = "refused"};
    GtkWidget *widget = control(self);
    /* What was taken is the figure as it stands, even while the person stays in the entry. */
    if (typed != WB_TYPED_REFUSED && widget == GTK_WIDGET(self->entry)) {
        g_free(self->shown);
        self->shown = g_strdup(gtk_editable_get_text(GTK_EDITABLE(self->entry)));
    }
    gtk_widget_remove_css_class(widget, "questioned");
    gtk_widget_remove_css_class(widget, "refused");
    if (styles[typed] != NULL)
        gtk_widget_add_css_class(widget, styles[typed]);
    gtk_widget_remove_css_class(GTK_WIDGET(self->note), "stop");
    gtk_widget_remove_css_class(GTK_WIDGET(self->note), "caution");
    gtk_widget_add_css_class(GTK_WIDGET(self->note),
                             typed == WB_TYPED_REFUSED ? "stop" : "caution");
    gtk_label_set_text(self->note, sentence != NULL ? sentence : "");
    gtk_widget_set_visible(GTK_WIDGET(self->note), sentence != NULL);
    gtk_accessible_update_state(
        GTK_ACCESSIBLE(widget), GTK_ACCESSIBLE_STATE_INVALID,
        typed == WB_TYPED_REFUSED ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE, -1);
}

static gboolean being_typed(WbFieldRow *self)
{
    GtkEditable *inner = gtk_editable_get_delegate(GTK_EDITABLE(self->entry));
    return control(self) == GTK_WIDGET(self->entry) && self->shown != NULL &&
           gtk_widget_has_focus(GTK_WIDGET(inner)) &&
           !g_str_equal(self->shown, gtk_editable_get_text(inner));
}

static guint choice_line(const WbField *field, const char *text)
{
    guint line = 0;
    while (field->choices[line] != NULL && !g_str_equal(field->choices[line], text))
        line++;
    return field->choices[line] != NULL ? line : GTK_INVALID_LIST_POSITION;
}

void wb_field_row_show(WbFieldRow *self, const void *record)
{
    g_return_if_fail(WB_IS_FIELD_ROW(self));
    if (being_typed(self))
        return;
    g_free(self->shown);
    self->shown = wb_part_edit_text(self->field, record);
    self->updating = TRUE;
    if (self->field->choices != NULL)
        gtk_drop_down_set_selected(self->choice, choice_line(self->field, self->shown));
    else if (self->field->type == WB_FIELD_FLAG)
        gtk_check_button_set_active(self->flag, g_str_equal(self->shown, "1"));
    else
        gtk_editable_set_text(GTK_EDITABLE(self->entry), self->shown);
    self->updating = FALSE;
    g_autofree char *question = wb_part_edit_question(self->field, record);
    wb_field_row_tell(self, question != NULL ? WB_TYPED_UNUSUAL : WB_TYPED_GOOD, question);
}

static void wb_field_row_finalize(GObject *object)
{
    g_free(WB_FIELD_ROW(object)->shown);
    G_OBJECT_CLASS(wb_field_row_parent_class)->finalize(object);
}

static void wb_field_row_class_init(WbFieldRowClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->finalize = wb_field_row_finalize;
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/parts/field_row.ui");
    gtk_widget_class_bind_template_child(widget, WbFieldRow, label);
    gtk_widget_class_bind_template_child(widget, WbFieldRow, unit);
    gtk_widget_class_bind_template_child(widget, WbFieldRow, note);
    gtk_widget_class_bind_template_child(widget, WbFieldRow, entry);
    gtk_widget_class_bind_template_child(widget, WbFieldRow, choice);
    gtk_widget_class_bind_template_child(widget, WbFieldRow, flag);
    gtk_widget_class_bind_template_callback(widget, on_entry);
    gtk_widget_class_bind_template_callback(widget, on_choice);
    gtk_widget_class_bind_template_callback(widget, on_flag);
    signals[EDITED] = g_signal_new("edited", WB_TYPE_FIELD_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void wb_field_row_init(WbFieldRow *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
    GtkEventController *focus = gtk_event_controller_focus_new();
    g_signal_connect_swapped(focus, "leave", G_CALLBACK(on_entry), self);
    gtk_widget_add_controller(GTK_WIDGET(self->entry), focus);
}

static void set_up_entry(WbFieldRow *self)
{
    gboolean figure = self->field->type == WB_FIELD_NUMBER || self->field->type == WB_FIELD_INTEGER;
    gtk_editable_set_alignment(GTK_EDITABLE(self->entry), figure ? 1 : 0);
    gtk_editable_set_width_chars(GTK_EDITABLE(self->entry), figure ? 8 : 15);
    gtk_editable_set_max_width_chars(GTK_EDITABLE(self->entry), figure ? 8 : 15);
    gtk_entry_set_placeholder_text(self->entry, self->field->may_be_missing ? _("not given") : "");
    /* Offers and briefs refer to a part by its id. */
    if (g_str_equal(self->field->key, "id")) {
        gtk_editable_set_editable(GTK_EDITABLE(self->entry), FALSE);
        gtk_widget_set_can_focus(GTK_WIDGET(self->entry), FALSE);
    }
}

GtkWidget *wb_field_row_new(const WbField *field)
{
    WbFieldRow *self = g_object_new(WB_TYPE_FIELD_ROW, NULL);
    self->field = field;
    gtk_label_set_text(self->label, _(field->label));
    gtk_label_set_text(self->unit, field->unit);
    set_up_entry(self);
    if (field->choices != NULL) {
        g_autoptr(GtkStringList) words = gtk_string_list_new(field->choices);
        self->updating = TRUE;
        gtk_drop_down_set_model(self->choice, G_LIST_MODEL(words));
        self->updating = FALSE;
    }
    GtkWidget *shown = control(self);
    gtk_widget_set_visible(shown, TRUE);
    gtk_label_set_mnemonic_widget(self->label, shown);
    gtk_accessible_update_property(GTK_ACCESSIBLE(shown), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   _(field->label), -1);
    return GTK_WIDGET(self);
}

const WbField *wb_field_row_get_field(WbFieldRow *self)
{
    g_return_val_if_fail(WB_IS_FIELD_ROW(self), NULL);
    return self->field;
}
