#include "brief_entry.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define PAUSE_MS 700

struct _WbBriefEntry {
    GtkWidget parent_instance;
    GtkWidget *entry;
    WbDocument *document;
    const WbBriefField *field;
    int index;
    guint pause; /* source that edits the brief once the person stops typing */
    gboolean filling;
};

G_DEFINE_FINAL_TYPE(WbBriefEntry, wb_brief_entry, GTK_TYPE_WIDGET)

enum { MESSAGE, ENTERED, PASTED, N_SIGNALS };
static guint signals[N_SIGNALS];

static GtkWidget *text_of(WbBriefEntry *self)
{
    return GTK_WIDGET(gtk_editable_get_delegate(GTK_EDITABLE(self->entry)));
}

/* What the window's undo asks for: is a text being typed here? */
static void set_typing(WbBriefEntry *self, gboolean typing)
{
    g_object_set_data(G_OBJECT(text_of(self)), "wb-typing", GINT_TO_POINTER(typing));
}

static gboolean is_typing(WbBriefEntry *self)
{
    return g_object_get_data(G_OBJECT(text_of(self)), "wb-typing") != NULL;
}

static void tell(WbBriefEntry *self, const char *sentence)
{
    gboolean refused = gtk_widget_has_css_class(self->entry, "refused");
    if (sentence == NULL && !refused)
        return;
    if (sentence != NULL)
        gtk_widget_add_css_class(self->entry, "refused");
    else
        gtk_widget_remove_css_class(self->entry, "refused");
    gtk_widget_set_tooltip_text(self->entry, sentence);
    gtk_accessible_update_state(
        GTK_ACCESSIBLE(self->entry), GTK_ACCESSIBLE_STATE_INVALID,
        sentence != NULL ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE, -1);
    g_signal_emit(self, signals[MESSAGE], 0, sentence);
}

/* The same value in other words ("12,50") is left as the person wrote it. */
static gboolean says_the_same(WbBriefEntry *self, const char *shown)
{
    const char *typed = gtk_editable_get_text(GTK_EDITABLE(self->entry));
    g_autofree char *sentence = NULL, *other = NULL;
    g_autofree char *a = wb_brief_field_json(self->field, typed, &sentence);
    g_autofree char *b = wb_brief_field_json(self->field, shown, &other);
    return g_strcmp0(a, b) == 0 && a != NULL;
}

static void fill(WbBriefEntry *self)
{
    g_autofree char *shown = wb_brief_field_text(self->field, self->document, self->index);
    g_clear_handle_id(&self->pause, g_source_remove);
    if (!gtk_widget_has_focus(text_of(self)) || !says_the_same(self, shown)) {
        self->filling = TRUE;
        gtk_editable_set_text(GTK_EDITABLE(self->entry), shown);
        self->filling = FALSE;
    }
    set_typing(self, FALSE);
    tell(self, NULL);
}

void wb_brief_entry_refresh(WbBriefEntry *self)
{
    g_return_if_fail(WB_IS_BRIEF_ENTRY(self));
    if (!is_typing(self))
        fill(self);
}

static void commit(WbBriefEntry *self)
{
    g_autoptr(WbBriefEntry) alive = g_object_ref(self); /* the edit may end its row */
    g_autoptr(GError) error = NULL;
    g_autofree char *sentence = NULL;
    g_clear_handle_id(&self->pause, g_source_remove);
    if (!is_typing(self) || self->document == NULL)
        return;
    g_autofree char *text = g_strstrip(g_strdup(gtk_editable_get_text(GTK_EDITABLE(self->entry))));
    g_autofree char *json = wb_brief_field_json(self->field, text, &sentence);
    g_autofree char *pointer = wb_brief_field_pointer(self->field, self->index);
    if (json != NULL && self->field->refuses != NULL)
        sentence =
            self->field->refuses(wb_document_get_brief(self->document), g_ascii_strtod(json, NULL));
    set_typing(self, FALSE); /* the document's "changed" may write here now */
    gboolean taken = sentence == NULL && json != NULL &&
                     wb_document_set_json(self->document, self->field->step, pointer, json, &error);
    if (taken) {
        tell(self, NULL);
        return;
    }
    set_typing(self, TRUE);
    tell(self, error != NULL ? error->message : sentence);
}

static gboolean on_pause(gpointer data)
{
    WbBriefEntry *self = data;
    self->pause = 0;
    commit(self);
    return G_SOURCE_REMOVE;
}

static void on_typed(WbBriefEntry *self)
{
    if (self->filling)
        return;
    set_typing(self, TRUE);
    g_clear_handle_id(&self->pause, g_source_remove);
    self->pause = g_timeout_add(PAUSE_MS, on_pause, self);
}

static void on_activate(WbBriefEntry *self)
{
    commit(self);
    if (!is_typing(self))
        fill(self);
}

static gboolean on_key(GtkEventControllerKey *controller, guint key, guint code,
                       GdkModifierType state, WbBriefEntry *self)
{
    if (key != GDK_KEY_Escape || !is_typing(self))
        return FALSE;
    set_typing(self, FALSE);
    fill(self);
    return TRUE;
}

static void on_enter(WbBriefEntry *self)
{
    if (self->document != NULL)
        wb_document_seal(self->document);
    g_signal_emit(self, signals[ENTERED], 0);
}

static void on_leave(WbBriefEntry *self)
{
    if (self->document == NULL)
        return;
    commit(self);
    if (!is_typing(self))
        fill(self);
}

static void on_replaced(WbBriefEntry *self)
{
    set_typing(self, FALSE);
    tell(self, NULL);
}

static void on_changed(WbBriefEntry *self)
{
    if (gtk_widget_get_mapped(GTK_WIDGET(self)))
        wb_brief_entry_refresh(self);
}

/* ---- paste of several cells ---- */

static void on_clipboard(GObject *source, GAsyncResult *result, gpointer data)
{
    g_autoptr(WbBriefEntry) self = data;
    gboolean handled = FALSE;
    g_autofree char *text = gdk_clipboard_read_text_finish(GDK_CLIPBOARD(source), result, NULL);
    if (text == NULL || self->document == NULL)
        return;
    if (strpbrk(g_strchomp(text), "\t\n") != NULL)
        g_signal_emit(self, signals[PASTED], 0, text, &handled);
    if (handled)
        return;
    int at = gtk_editable_get_position(GTK_EDITABLE(self->entry));
    gtk_editable_delete_selection(GTK_EDITABLE(self->entry));
    at = gtk_editable_get_position(GTK_EDITABLE(self->entry));
    gtk_editable_insert_text(GTK_EDITABLE(self->entry), text, -1, &at);
    gtk_editable_set_position(GTK_EDITABLE(self->entry), at);
}

static void on_paste(GtkWidget *text, WbBriefEntry *self)
{
    if (g_signal_has_handler_pending(self, signals[PASTED], 0, TRUE)) {
        g_signal_stop_emission_by_name(text, "paste-clipboard");
        gdk_clipboard_read_text_async(gtk_widget_get_clipboard(text), NULL, on_clipboard,
                                      g_object_ref(self));
    }
}

/* ---- GObject ---- */

static void add_controllers(WbBriefEntry *self)
{
    GtkEventController *focus = gtk_event_controller_focus_new();
    GtkEventController *key = gtk_event_controller_key_new();
    gtk_event_controller_set_propagation_phase(key, GTK_PHASE_CAPTURE);
    g_signal_connect_swapped(focus, "enter", G_CALLBACK(on_enter), self);
    g_signal_connect_swapped(focus, "leave", G_CALLBACK(on_leave), self);
    g_signal_connect(key, "key-pressed", G_CALLBACK(on_key), self);
    gtk_widget_add_controller(self->entry, focus);
    gtk_widget_add_controller(self->entry, key);
}

GtkWidget *wb_brief_entry_new(WbDocument *document, const WbBriefField *field, int index, int chars)
{
    WbBriefEntry *self = g_object_new(WB_TYPE_BRIEF_ENTRY, NULL);
    self->document = g_object_ref(document);
    self->field = field;
    self->index = index;
    gtk_editable_set_width_chars(GTK_EDITABLE(self->entry), chars);
    gtk_editable_set_max_width_chars(GTK_EDITABLE(self->entry), chars);
    gtk_editable_set_alignment(GTK_EDITABLE(self->entry), field->kind == WB_BRIEF_NUMBER ? 1 : 0);
    wb_brief_entry_set_name(self, _(field->title));
    if (field->empty != NULL)
        wb_brief_entry_set_placeholder(self, _(field->empty));
    g_signal_connect_object(document, "changed", G_CALLBACK(on_changed), self, G_CONNECT_SWAPPED);
    g_signal_connect_object(document, "replaced", G_CALLBACK(on_replaced), self, G_CONNECT_SWAPPED);
    fill(self);
    return GTK_WIDGET(self);
}

void wb_brief_entry_set_name(WbBriefEntry *self, const char *name)
{
    g_return_if_fail(WB_IS_BRIEF_ENTRY(self));
    gtk_accessible_update_property(GTK_ACCESSIBLE(self->entry), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                   -1);
}

void wb_brief_entry_set_placeholder(WbBriefEntry *self, const char *text)
{
    g_return_if_fail(WB_IS_BRIEF_ENTRY(self));
    gtk_entry_set_placeholder_text(GTK_ENTRY(self->entry), text);
}

void wb_brief_entry_set_editable(WbBriefEntry *self, gboolean editable)
{
    g_return_if_fail(WB_IS_BRIEF_ENTRY(self));
    gtk_editable_set_editable(GTK_EDITABLE(self->entry), editable);
    gtk_entry_set_has_frame(GTK_ENTRY(self->entry), editable);
    gtk_widget_set_can_focus(self->entry, editable);
}

GtkEditable *wb_brief_entry_get_editable(WbBriefEntry *self)
{
    g_return_val_if_fail(WB_IS_BRIEF_ENTRY(self), NULL);
    return GTK_EDITABLE(self->entry);
}

int wb_brief_entry_get_index(WbBriefEntry *self)
{
    g_return_val_if_fail(WB_IS_BRIEF_ENTRY(self), -1);
    return self->index;
}

static gboolean wb_brief_entry_grab_focus(GtkWidget *widget)
{
    return gtk_widget_grab_focus(WB_BRIEF_ENTRY(widget)->entry);
}

static void wb_brief_entry_map(GtkWidget *widget)
{
    wb_brief_entry_refresh(WB_BRIEF_ENTRY(widget));
    GTK_WIDGET_CLASS(wb_brief_entry_parent_class)->map(widget);
}

static void wb_brief_entry_dispose(GObject *object)
{
    WbBriefEntry *self = WB_BRIEF_ENTRY(object);
    g_clear_handle_id(&self->pause, g_source_remove);
    g_clear_object(&self->document);
    g_clear_pointer(&self->entry, gtk_widget_unparent);
    G_OBJECT_CLASS(wb_brief_entry_parent_class)->dispose(object);
}

static void wb_brief_entry_class_init(WbBriefEntryClass *klass)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(klass);
    G_OBJECT_CLASS(klass)->dispose = wb_brief_entry_dispose;
    widget->map = wb_brief_entry_map;
    widget->grab_focus = wb_brief_entry_grab_focus;
    gtk_widget_class_set_layout_manager_type(widget, GTK_TYPE_BIN_LAYOUT);
    gtk_widget_class_set_css_name(widget, "briefentry");
    signals[MESSAGE] = g_signal_new("message", WB_TYPE_BRIEF_ENTRY, G_SIGNAL_RUN_LAST, 0, NULL,
                                    NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
    signals[ENTERED] = g_signal_new("entered", WB_TYPE_BRIEF_ENTRY, G_SIGNAL_RUN_LAST, 0, NULL,
                                    NULL, NULL, G_TYPE_NONE, 0);
    signals[PASTED] = g_signal_new("pasted", WB_TYPE_BRIEF_ENTRY, G_SIGNAL_RUN_LAST, 0,
                                   g_signal_accumulator_true_handled, NULL, NULL, G_TYPE_BOOLEAN, 1,
                                   G_TYPE_STRING);
}

static void wb_brief_entry_init(WbBriefEntry *self)
{
    self->entry = gtk_entry_new();
    gtk_widget_add_css_class(self->entry, "numeric");
    gtk_widget_set_parent(self->entry, GTK_WIDGET(self));
    add_controllers(self);
    g_signal_connect_swapped(self->entry, "changed", G_CALLBACK(on_typed), self);
    g_signal_connect_swapped(self->entry, "activate", G_CALLBACK(on_activate), self);
    g_signal_connect(text_of(self), "paste-clipboard", G_CALLBACK(on_paste), self);
}
