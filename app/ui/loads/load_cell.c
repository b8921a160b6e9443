#include "load_cell.h"
#include <glib/gi18n-lib.h>
#include <string.h>

struct _WbLoadCell {
    GtkWidget parent_instance;
    WbDocument *document;
    WbLoadField field;
    WbLoadRow *row;
    GtkWidget
        *child; /* GtkEntry (GtkText alone is not accessible), GtkDropDown or GtkCheckButton */
    gboolean filling; /* we write, not the person */
};

G_DEFINE_FINAL_TYPE(WbLoadCell, wb_load_cell, GTK_TYPE_WIDGET)

static guint message_signal, entered_signal;

/* What the window's undo asks for: is a text being typed here? */
static void set_typing(WbLoadCell *self, gboolean typing)
{
    g_object_set_data(G_OBJECT(self->child), "wb-typing", GINT_TO_POINTER(typing));
}

static gboolean is_typing(WbLoadCell *self)
{
    return g_object_get_data(G_OBJECT(self->child), "wb-typing") != NULL;
}

static void set_refused(WbLoadCell *self, const char *sentence)
{
    if (sentence)
        gtk_widget_add_css_class(self->child, "refused");
    else
        gtk_widget_remove_css_class(self->child, "refused");
    gtk_widget_set_tooltip_text(self->child, sentence);
    gtk_accessible_update_state(
        GTK_ACCESSIBLE(self->child), GTK_ACCESSIBLE_STATE_INVALID,
        sentence ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE, -1);
    g_signal_emit(self, message_signal, 0, sentence);
}

static void show_choice(WbLoadCell *self, const char *text)
{
    const char *const *choices = wb_load_column(self->field)->choices;
    for (guint i = 0; choices[i]; i++)
        if (g_str_equal(choices[i], text))
            gtk_drop_down_set_selected(GTK_DROP_DOWN(self->child), i);
}

static void name_child(WbLoadCell *self, const WbLoad *load)
{
    /* Translators: column and load, for a screen reader: "Power of Fridge". */
    g_autofree char *name =
        g_strdup_printf(_("%s of %s"), _(wb_load_column(self->field)->title), load->name);
    gtk_accessible_update_property(GTK_ACCESSIBLE(self->child), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                   -1);
}

static void fill(WbLoadCell *self)
{
    const WbLoad *load = wb_load_row_get_load(self->row);
    g_autofree char *text = wb_load_text(load, self->field);
    self->filling = TRUE;
    switch (wb_load_column(self->field)->kind) {
    case WB_CELL_TEXT:
    case WB_CELL_NUMBER:
        gtk_editable_set_text(GTK_EDITABLE(self->child), text);
        set_typing(self, FALSE);
        break;
    case WB_CELL_CHOICE:
        show_choice(self, text);
        break;
    case WB_CELL_FLAG:
        gtk_check_button_set_active(GTK_CHECK_BUTTON(self->child), g_str_equal(text, "yes"));
        break;
    }
    name_child(self, load);
    self->filling = FALSE;
}

/* What is being typed stays; what was refused and left behind gives way. */
static void on_row_changed(WbLoadCell *self)
{
    if (is_typing(self) && gtk_widget_get_focus_child(GTK_WIDGET(self)))
        return;
    fill(self);
    if (gtk_widget_has_css_class(self->child, "refused"))
        set_refused(self, NULL);
}

/* Which load and column, and what is accepted there. (transfer full) */
static char *refusal(WbLoadCell *self, const char *text, const char *why)
{
    const WbLoad *load = wb_load_row_get_load(self->row);
    const WbLoadColumn *column = wb_load_column(self->field);
    if (text[strspn(text, " \t")] == '\0')
        /* Translators: load, column, what it accepts. */
        return g_strdup_printf(_("%s: %s cannot be empty, so the old value comes back; it takes "
                                 "%s."),
                               load->name, _(column->title), _(column->hint));
    if (column->kind == WB_CELL_NUMBER && strchr(text, '-') != NULL)
        /* Translators: load, column, what it accepts, what was typed. */
        return g_strdup_printf(_("%s: %s takes %s; “%.60s” is not that."), load->name,
                               _(column->title), _(column->hint), text);
    return g_strdup_printf("%s: %s", load->name, why);
}

static void commit(WbLoadCell *self, const char *text)
{
    g_autoptr(GError) error = NULL;
    if (!self->row)
        return;
    gboolean taken = wb_load_set_text(self->document, wb_load_row_get_index(self->row), self->field,
                                      text, &error);
    g_autofree char *sentence = taken ? NULL : refusal(self, text, error->message);
    set_refused(self, sentence);
    if (taken && self->row)
        fill(self);
}

static void commit_text(WbLoadCell *self)
{
    if (!is_typing(self))
        return;
    g_autofree char *text = g_strdup(gtk_editable_get_text(GTK_EDITABLE(self->child)));
    set_typing(self, FALSE); /* the row's "changed" may write here now */
    commit(self, text);
    if (gtk_widget_has_css_class(self->child, "refused"))
        set_typing(self, TRUE);
}

static void on_typed(WbLoadCell *self)
{
    if (!self->filling)
        set_typing(self, TRUE);
}

static void on_selected(WbLoadCell *self)
{
    guint i = gtk_drop_down_get_selected(GTK_DROP_DOWN(self->child));
    if (!self->filling && i != GTK_INVALID_LIST_POSITION)
        commit(self, wb_load_column(self->field)->choices[i]);
}

static void on_toggled(WbLoadCell *self)
{
    if (!self->filling)
        commit(self, gtk_check_button_get_active(GTK_CHECK_BUTTON(self->child)) ? "yes" : "no");
}

/* Escape takes back what is being typed. */
static gboolean on_key(GtkEventControllerKey *controller, guint key, guint code,
                       GdkModifierType state, WbLoadCell *self)
{
    if (key != GDK_KEY_Escape || !self->row || !is_typing(self))
        return FALSE;
    fill(self);
    set_refused(self, NULL);
    return TRUE;
}

static void on_enter(WbLoadCell *self)
{
    g_signal_emit(self, entered_signal, 0);
}

static void on_leave(WbLoadCell *self)
{
    if (GTK_IS_ENTRY(self->child))
        commit_text(self);
}

/* ---- building ---- */

static GtkWidget *text_new(WbLoadCell *self)
{
    static const int widths[WB_N_LOAD_COLUMNS] = {
        [WB_LOAD_NAME] = 22, [WB_LOAD_WHEN] = 10, [WB_LOAD_MONTHS] = 6};
    GtkWidget *text = gtk_entry_new();
    gboolean number = wb_load_column(self->field)->kind == WB_CELL_NUMBER;
    int width = widths[self->field] ? widths[self->field] : 5;
    gtk_entry_set_has_frame(GTK_ENTRY(text), FALSE);
    gtk_editable_set_width_chars(GTK_EDITABLE(text), width);
    gtk_editable_set_max_width_chars(GTK_EDITABLE(text), width);
    gtk_editable_set_alignment(GTK_EDITABLE(text), number ? 1 : 0);
    if (self->field == WB_LOAD_LENGTH) /* the only one that may stand empty */
        gtk_entry_set_placeholder_text(GTK_ENTRY(text), _("usual"));
    gtk_widget_add_css_class(text, "numeric");
    g_signal_connect_swapped(text, "changed", G_CALLBACK(on_typed), self);
    g_signal_connect_swapped(text, "activate", G_CALLBACK(commit_text), self);
    return text;
}

static GtkWidget *choice_new(WbLoadCell *self)
{
    GtkWidget *drop_down = gtk_drop_down_new_from_strings(wb_load_column(self->field)->choices);
    gtk_widget_add_css_class(drop_down, "flat");
    g_signal_connect_swapped(drop_down, "notify::selected", G_CALLBACK(on_selected), self);
    return drop_down;
}

static GtkWidget *flag_new(WbLoadCell *self)
{
    GtkWidget *check = gtk_check_button_new();
    gtk_widget_set_halign(check, GTK_ALIGN_CENTER);
    g_signal_connect_swapped(check, "toggled", G_CALLBACK(on_toggled), self);
    return check;
}

static GtkWidget *child_new(WbLoadCell *self)
{
    switch (wb_load_column(self->field)->kind) {
    case WB_CELL_TEXT:
    case WB_CELL_NUMBER:
        return text_new(self);
    case WB_CELL_CHOICE:
        return choice_new(self);
    case WB_CELL_FLAG:
        return flag_new(self);
    }
    g_return_val_if_reached(NULL);
}

GtkWidget *wb_load_cell_new(WbDocument *document, WbLoadField field)
{
    WbLoadCell *self = g_object_new(WB_TYPE_LOAD_CELL, NULL);
    self->document = g_object_ref(document);
    self->field = field;
    self->child = child_new(self);
    gtk_widget_set_parent(self->child, GTK_WIDGET(self));
    GtkEventController *focus = gtk_event_controller_focus_new();
    GtkEventController *key = gtk_event_controller_key_new();
    g_signal_connect_swapped(focus, "enter", G_CALLBACK(on_enter), self);
    g_signal_connect_swapped(focus, "leave", G_CALLBACK(on_leave), self);
    g_signal_connect(key, "key-pressed", G_CALLBACK(on_key), self);
    gtk_widget_add_controller(self->child, focus);
    gtk_widget_add_controller(self->child, key);
    return GTK_WIDGET(self);
}

void wb_load_cell_set_row(WbLoadCell *self, WbLoadRow *row)
{
    g_return_if_fail(WB_IS_LOAD_CELL(self));
    if (self->row)
        g_signal_handlers_disconnect_by_func(self->row, on_row_changed, self);
    g_set_object(&self->row, row);
    set_typing(self, FALSE);
    gtk_widget_remove_css_class(self->child, "refused");
    gtk_widget_set_tooltip_text(self->child, NULL);
    if (!row)
        return;
    g_signal_connect_swapped(row, "changed", G_CALLBACK(on_row_changed), self);
    fill(self);
}

WbLoadRow *wb_load_cell_get_row(WbLoadCell *self)
{
    g_return_val_if_fail(WB_IS_LOAD_CELL(self), NULL);
    return self->row;
}

static void wb_load_cell_dispose(GObject *object)
{
    WbLoadCell *self = WB_LOAD_CELL(object);
    if (self->row)
        g_signal_handlers_disconnect_by_func(self->row, on_row_changed, self);
    g_clear_object(&self->row);
    g_clear_pointer(&self->child, gtk_widget_unparent);
    g_clear_object(&self->document);
    G_OBJECT_CLASS(wb_load_cell_parent_class)->dispose(object);
}

static void wb_load_cell_class_init(WbLoadCellClass *klass)
{
    G_OBJECT_CLASS(klass)->dispose = wb_load_cell_dispose;
    gtk_widget_class_set_layout_manager_type(GTK_WIDGET_CLASS(klass), GTK_TYPE_BIN_LAYOUT);
    gtk_widget_class_set_css_name(GTK_WIDGET_CLASS(klass), "loadcell");
    message_signal = g_signal_new("message", WB_TYPE_LOAD_CELL, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
    entered_signal = g_signal_new("entered", WB_TYPE_LOAD_CELL, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 0);
}

static void wb_load_cell_init(WbLoadCell *self)
{
}
