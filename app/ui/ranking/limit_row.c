#include "limit_row.h"

#include "figures_text.h"
#include "format.h"
#include "resources.h"
#include <glib/gi18n-lib.h>
#include <math.h>

struct _WbLimitRow {
    GtkBox parent_instance;
    GtkCheckButton *on;
    GtkEntry *entry;
    GtkLabel *title, *unit, *problem; /* title: of a limit that cannot be switched off */
    WbDocument *document;
    WbLimitKind kind;
    gboolean updating;
};

G_DEFINE_FINAL_TYPE(WbLimitRow, wb_limit_row, GTK_TYPE_BOX)

typedef struct {
    const char *title, *unit;
    const char *on, *value; /* JSON Pointers, NULL: has none */
} LimitInfo;

static const LimitInfo infos[WB_N_LIMITS] = {
    [WB_LIMIT_MONEY] = {N_("Money, at most"), NULL, "/limits/money_minor/on",
                        "/limits/money_minor/value"},
    [WB_LIMIT_WEIGHT] = {N_("Weight, at most"), "kg", "/limits/weight_kg/on",
                         "/limits/weight_kg/value"},
    [WB_LIMIT_AUTONOMY] = {N_("Autonomy, at least"), N_("days"), NULL, "/targets/autonomy_days"},
    [WB_LIMIT_DARK] = {N_("Dark hours, at most"), N_("h a year"), "/limits/dark_hours/on",
                       "/limits/dark_hours/value"},
    [WB_LIMIT_ROOF] = {N_("Panels must fit the roof"), NULL, "/limits/roof/on", NULL},
    [WB_LIMIT_BAY] = {N_("Storage must fit its bay"), NULL, "/limits/bay/on", NULL},
};

static double minor_scale(WbLimitRow *self, const WbBrief *brief)
{
    return self->kind == WB_LIMIT_MONEY
               ? wb_format_criterion_scale(WB_CRITERION_COST, brief->currency)
               : 1;
}

static double shown_value(WbLimitRow *self, const WbBrief *brief)
{
    const double values[WB_N_LIMITS] = {brief->money_minor.value,
                                        brief->weight_kg.value,
                                        brief->autonomy_target_days,
                                        brief->dark_hours.value,
                                        NAN,
                                        NAN};
    return values[self->kind] * minor_scale(self, brief);
}

static void tell(WbLimitRow *self, const char *problem)
{
    gtk_label_set_text(self->problem, problem != NULL ? problem : "");
    gtk_widget_set_visible(GTK_WIDGET(self->problem), problem != NULL);
    if (problem != NULL)
        gtk_widget_add_css_class(GTK_WIDGET(self->entry), "refused");
    else
        gtk_widget_remove_css_class(GTK_WIDGET(self->entry), "refused");
    gtk_accessible_update_state(
        GTK_ACCESSIBLE(self->entry), GTK_ACCESSIBLE_STATE_INVALID,
        problem != NULL ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE, -1);
}

static char *shown_text(WbLimitRow *self)
{
    double value = shown_value(self, wb_document_get_brief(self->document));
    return isnan(value) ? g_strdup("") : wb_text_plain(value);
}

/* A bay without a size holds anything: there is nothing to switch on. */
static void show_bay(WbLimitRow *self, const WbBrief *brief)
{
    gboolean given =
        brief->bay.length_mm > 0 && brief->bay.width_mm > 0 && brief->bay.height_mm > 0;
    gtk_widget_set_sensitive(GTK_WIDGET(self->on), given);
    gtk_label_set_text(self->problem, _("Give the bay its size on the roof page first."));
    gtk_widget_set_visible(GTK_WIDGET(self->problem), !given);
}

void wb_limit_row_refresh(WbLimitRow *self)
{
    g_return_if_fail(WB_IS_LIMIT_ROW(self));
    const WbBrief *brief = wb_document_get_brief(self->document);
    const gboolean on[WB_N_LIMITS] = {brief->money_minor.on, brief->weight_kg.on, TRUE,
                                      brief->dark_hours.on,  brief->roof_on,      brief->bay_on};
    g_autofree char *text = shown_text(self);
    self->updating = TRUE;
    gtk_check_button_set_active(self->on, on[self->kind]);
    if (!gtk_widget_has_focus(GTK_WIDGET(gtk_editable_get_delegate(GTK_EDITABLE(self->entry)))))
        gtk_editable_set_text(GTK_EDITABLE(self->entry), text);
    if (self->kind == WB_LIMIT_MONEY)
        gtk_label_set_text(self->unit, brief->currency);
    if (self->kind == WB_LIMIT_BAY)
        show_bay(self, brief);
    self->updating = FALSE;
}

/* Escape takes back what is typed, and with it why it was refused. */
static gboolean on_key(GtkEventControllerKey *controller, guint key, guint code,
                       GdkModifierType state, WbLimitRow *self)
{
    if (key != GDK_KEY_Escape || self->document == NULL)
        return FALSE;
    g_autofree char *text = shown_text(self);
    gboolean refused = gtk_widget_has_css_class(GTK_WIDGET(self->entry), "refused");
    if (!refused && g_str_equal(text, gtk_editable_get_text(GTK_EDITABLE(self->entry))))
        return FALSE;
    gtk_editable_set_text(GTK_EDITABLE(self->entry), text);
    tell(self, NULL);
    return TRUE;
}

static void on_toggled(WbLimitRow *self)
{
    g_autoptr(GError) error = NULL;
    if (self->updating || self->document == NULL)
        return;
    if (!wb_document_set_flag(self->document, _("Switch a limit"), infos[self->kind].on,
                              gtk_check_button_get_active(self->on), &error)) {
        tell(self, error->message);
        wb_limit_row_refresh(self);
    }
}

static void on_commit(WbLimitRow *self)
{
    double value;
    g_autoptr(GError) error = NULL;
    const char *text = gtk_editable_get_text(GTK_EDITABLE(self->entry));
    if (self->document == NULL || infos[self->kind].value == NULL)
        return;
    const WbBrief *brief = wb_document_get_brief(self->document);
    if (!wb_format_parse(text, &value) || isnan(value) || value < 0) {
        tell(self, _("A number, 0 or more, is expected here."));
        return;
    }
    double own = value / minor_scale(self, brief);
    if (self->kind == WB_LIMIT_MONEY)
        own = round(own);
    tell(self, NULL);
    if (fabs(value - shown_value(self, brief)) < 1e-9)
        return;
    if (!wb_document_set_number(self->document, _("Change a limit"), infos[self->kind].value, own,
                                &error))
        tell(self, error->message);
}

static void wb_limit_row_dispose(GObject *object)
{
    g_clear_object(&WB_LIMIT_ROW(object)->document);
    G_OBJECT_CLASS(wb_limit_row_parent_class)->dispose(object);
}

static void wb_limit_row_class_init(WbLimitRowClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = wb_limit_row_dispose;
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/ranking/limit_row.ui");
    gtk_widget_class_bind_template_child(widget, WbLimitRow, on);
    gtk_widget_class_bind_template_child(widget, WbLimitRow, title);
    gtk_widget_class_bind_template_child(widget, WbLimitRow, entry);
    gtk_widget_class_bind_template_child(widget, WbLimitRow, unit);
    gtk_widget_class_bind_template_child(widget, WbLimitRow, problem);
    gtk_widget_class_bind_template_callback(widget, on_toggled);
    gtk_widget_class_bind_template_callback(widget, on_commit);
}

static void wb_limit_row_init(WbLimitRow *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
    GtkEventController *focus = gtk_event_controller_focus_new();
    g_signal_connect_swapped(focus, "leave", G_CALLBACK(on_commit), self);
    gtk_widget_add_controller(GTK_WIDGET(self->entry), focus);
    GtkEventController *key = gtk_event_controller_key_new();
    gtk_event_controller_set_propagation_phase(key, GTK_PHASE_CAPTURE);
    g_signal_connect(key, "key-pressed", G_CALLBACK(on_key), self);
    gtk_widget_add_controller(GTK_WIDGET(self->entry), key);
}

GtkWidget *wb_limit_row_new(WbDocument *document, WbLimitKind kind)
{
    const LimitInfo *info = &infos[kind];
    WbLimitRow *self = g_object_new(WB_TYPE_LIMIT_ROW, NULL);
    self->kind = kind;
    gtk_check_button_set_label(self->on, _(info->title));
    gtk_label_set_text(self->title, _(info->title));
    gtk_widget_set_visible(GTK_WIDGET(self->on), info->on != NULL);
    gtk_widget_set_visible(GTK_WIDGET(self->title), info->on == NULL);
    gtk_widget_set_visible(GTK_WIDGET(self->entry), info->value != NULL);
    gtk_widget_set_visible(GTK_WIDGET(self->unit), info->value != NULL);
    gtk_label_set_text(self->unit, info->unit != NULL ? _(info->unit) : "");
    gtk_accessible_update_property(GTK_ACCESSIBLE(self->entry), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   _(info->title), -1);
    self->document = g_object_ref(document);
    wb_limit_row_refresh(self);
    return GTK_WIDGET(self);
}
