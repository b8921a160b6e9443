#include "hourly_row.h"

#include "site_edit.h"
#include <glib/gi18n-lib.h>

struct _WbHourlyRow {
    GtkBox parent_instance;
    GtkLabel *name, *note, *problem;
    GtkWidget *choose, *clear;
    GtkNativeDialog *dialog; /* open while a file is chosen */
    WbDocument *document;
};

G_DEFINE_FINAL_TYPE(WbHourlyRow, wb_hourly_row, GTK_TYPE_BOX)

static void show_sentence(GtkLabel *label, const char *sentence)
{
    gtk_label_set_text(label, sentence != NULL ? sentence : "");
    gtk_widget_set_visible(GTK_WIDGET(label), sentence != NULL);
}

static void refresh(WbHourlyRow *self)
{
    const char *path = wb_site_hourly_file(self->document);
    g_autofree char *base = path != NULL ? g_path_get_basename(path) : NULL;
    g_autofree char *shown = base != NULL ? g_filename_display_name(base) : NULL;
    g_autofree char *note = wb_site_hourly_note(self->document);
    gtk_label_set_text(self->name, shown != NULL ? shown : _("none: weather is made"));
    gtk_widget_set_tooltip_text(GTK_WIDGET(self->name), path);
    gtk_widget_set_visible(self->clear, path != NULL);
    show_sentence(self->note, note);
    show_sentence(self->problem, wb_site_hourly_problem(self->document));
}

void wb_hourly_row_choose(WbHourlyRow *self, const char *path)
{
    g_autoptr(GError) error = NULL;
    g_return_if_fail(WB_IS_HOURLY_ROW(self));
    if (!wb_site_set_hourly_file(self->document, path, &error))
        show_sentence(self->problem, error->message);
}

static void on_clear(WbHourlyRow *self)
{
    wb_hourly_row_choose(self, NULL);
    gtk_widget_grab_focus(self->choose); /* the button that had it is gone */
}

static void on_response(GtkNativeDialog *dialog, int response, WbHourlyRow *self)
{
    g_autoptr(GtkNativeDialog) ended = g_steal_pointer(&self->dialog);
    if (response != GTK_RESPONSE_ACCEPT || self->document == NULL)
        return;
    g_autoptr(GFile) file = gtk_file_chooser_get_file(GTK_FILE_CHOOSER(dialog));
    g_autofree char *path = file != NULL ? g_file_get_path(file) : NULL;
    if (path != NULL)
        wb_hourly_row_choose(self, path);
    else
        show_sentence(self->problem, _("The file must lie in a folder of this computer."));
}

static void add_filter(GtkFileChooser *chooser, const char *name, const char *const *patterns)
{
    g_autoptr(GtkFileFilter) filter = gtk_file_filter_new();
    gtk_file_filter_set_name(filter, name);
    for (; *patterns != NULL; patterns++)
        gtk_file_filter_add_pattern(filter, *patterns);
    gtk_file_chooser_add_filter(chooser, filter);
}

static void on_choose(WbHourlyRow *self)
{
    static const char *const hourly[] = {"*.csv", "*.CSV", "*.epw", "*.EPW", NULL};
    static const char *const any[] = {"*", NULL};
    if (self->dialog == NULL) {
        GtkRoot *root = gtk_widget_get_root(GTK_WIDGET(self));
        self->dialog = GTK_NATIVE_DIALOG(gtk_file_chooser_native_new(
            _("Choose hourly weather"), GTK_IS_WINDOW(root) ? GTK_WINDOW(root) : NULL,
            GTK_FILE_CHOOSER_ACTION_OPEN, NULL, NULL));
        gtk_native_dialog_set_modal(self->dialog, TRUE);
        add_filter(GTK_FILE_CHOOSER(self->dialog), _("Hourly weather (*.csv, *.epw)"), hourly);
        add_filter(GTK_FILE_CHOOSER(self->dialog), _("All files"), any);
        g_signal_connect_object(self->dialog, "response", G_CALLBACK(on_response), self, 0);
    }
    gtk_native_dialog_show(self->dialog);
}

/* ---- building ---- */

static GtkLabel *add_label(GtkBox *box, gboolean wraps, const char *css)
{
    GtkWidget *label = gtk_label_new(NULL);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_wrap(GTK_LABEL(label), wraps);
    gtk_label_set_wrap_mode(GTK_LABEL(label), PANGO_WRAP_WORD_CHAR);
    if (css != NULL)
        gtk_widget_add_css_class(label, css);
    if (wraps)
        gtk_widget_add_css_class(label, "small");
    gtk_box_append(box, label);
    return GTK_LABEL(label);
}

static GtkWidget *add_button(WbHourlyRow *self, GtkBox *line, const char *words, const char *name,
                             GCallback clicked)
{
    GtkWidget *button = gtk_button_new_with_label(words);
    gtk_accessible_update_property(GTK_ACCESSIBLE(button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
    gtk_widget_set_tooltip_text(button, name);
    gtk_widget_set_valign(button, GTK_ALIGN_CENTER);
    g_signal_connect_swapped(button, "clicked", clicked, self);
    gtk_box_append(line, button);
    return button;
}

static void wb_hourly_row_init(WbHourlyRow *self)
{
    GtkBox *box = GTK_BOX(self), *line = GTK_BOX(gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 6));
    gtk_orientable_set_orientation(GTK_ORIENTABLE(self), GTK_ORIENTATION_VERTICAL);
    gtk_label_set_text(add_label(box, FALSE, NULL), _("Hours of my own"));
    gtk_box_append(box, GTK_WIDGET(line));
    self->name = add_label(line, FALSE, "quiet");
    gtk_label_set_ellipsize(self->name, PANGO_ELLIPSIZE_MIDDLE);
    gtk_widget_set_hexpand(GTK_WIDGET(self->name), TRUE);
    self->choose = add_button(self, line, _("Choose…"), _("Choose a file of hourly weather"),
                              G_CALLBACK(on_choose));
    self->clear =
        add_button(self, line, _("None"), _("Go back to made weather"), G_CALLBACK(on_clear));
    self->note = add_label(box, TRUE, "quiet");
    self->problem = add_label(box, TRUE, "stop");
    gtk_label_set_selectable(self->problem, TRUE);
}

GtkWidget *wb_hourly_row_new(WbDocument *document)
{
    WbHourlyRow *self = g_object_new(WB_TYPE_HOURLY_ROW, NULL);
    self->document = g_object_ref(document);
    g_signal_connect_object(document, "changed", G_CALLBACK(refresh), self, G_CONNECT_SWAPPED);
    refresh(self);
    return GTK_WIDGET(self);
}

static void wb_hourly_row_dispose(GObject *object)
{
    WbHourlyRow *self = WB_HOURLY_ROW(object);
    if (self->dialog != NULL)
        gtk_native_dialog_destroy(self->dialog);
    g_clear_object(&self->dialog);
    g_clear_object(&self->document);
    G_OBJECT_CLASS(wb_hourly_row_parent_class)->dispose(object);
}

static void wb_hourly_row_class_init(WbHourlyRowClass *klass)
{
    G_OBJECT_CLASS(klass)->dispose = wb_hourly_row_dispose;
}
