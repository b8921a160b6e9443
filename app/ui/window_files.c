/* Opening, saving and leaving a brief. A dialog is only one way to supply a path. */
#include "window_private.h"
#include <glib/gi18n-lib.h>

/* A brief that was edited and has no file would be lost; one with a file saves itself. */
static gboolean would_lose(WbWindow *self)
{
    return !wb_document_get_path(self->context.document) &&
           wb_document_get_modified(self->context.document);
}

static gboolean save_pending(WbWindow *self, GError **error)
{
    WbDocument *document = self->context.document;
    if (!wb_document_get_path(document) || !wb_document_get_modified(document))
        return TRUE;
    return wb_document_save(document, error);
}

static gboolean perform(WbWindow *self, WbLeave leave, const char *path, GError **error)
{
    switch (leave) {
    case WB_LEAVE_NEW:
        return wb_document_begin_new(self->context.document, error);
    case WB_LEAVE_DEMO:
        return wb_document_begin_demo(self->context.document, error);
    case WB_LEAVE_OPEN:
        return wb_document_open(self->context.document, path, error);
    case WB_LEAVE_CLOSE:
        return save_pending(self, error);
    case WB_LEAVE_NOTHING:
        break;
    }
    return TRUE;
}

static void say_not_read(WbWindow *self, WbLeave leave)
{
    g_autofree char *sentence =
        leave == WB_LEAVE_OPEN ? wb_document_not_read(self->context.document) : NULL;
    if (sentence)
        wb_window_say(self, sentence);
}

gboolean wb_window_leave(WbWindow *self, WbLeave leave, const char *path)
{
    g_autoptr(GError) error = NULL;
    if (would_lose(self)) {
        char *kept = g_strdup(path);
        g_free(self->leaving_path);
        self->leaving_path = kept;
        self->leaving = leave;
        g_autofree char *sentence =
            g_strdup_printf(_("\342\200\234%s\342\200\235 was changed and never saved in a file."),
                            wb_document_get_title(self->context.document));
        wb_window_say(self, sentence);
        return FALSE;
    }
    wb_window_hush(self);
    if (perform(self, leave, path, &error)) {
        say_not_read(self, leave);
        return TRUE;
    }
    if (leave == WB_LEAVE_CLOSE)
        self->leaving = leave; /* it could not be saved: the person may go on all the same */
    wb_window_say(self, error->message);
    return leave != WB_LEAVE_CLOSE;
}

void wb_window_go_on(WbWindow *self)
{
    WbLeave leave = self->leaving;
    g_autofree char *path = g_strdup(self->leaving_path);
    g_autoptr(GError) error = NULL;
    wb_window_hush(self);
    if (leave == WB_LEAVE_CLOSE)
        gtk_window_destroy(GTK_WINDOW(self));
    else if (!perform(self, leave, path, &error))
        wb_window_say(self, error->message);
    else
        say_not_read(self, leave);
}

void wb_window_save_to(WbWindow *self, const char *path)
{
    g_autoptr(GError) error = NULL;
    if (wb_document_save_as(self->context.document, path, &error))
        wb_window_go_on(self); /* with what waited for it */
    else
        wb_window_say(self, error->message);
}

void wb_window_save(WbWindow *self)
{
    g_autoptr(GError) error = NULL;
    if (!wb_document_get_path(self->context.document))
        wb_window_choose_save(self);
    else if (wb_document_save(self->context.document, &error))
        wb_window_hush(self);
    else
        wb_window_say(self, error->message);
}

/* ---- dialogs ---- */

static void on_response(GtkNativeDialog *dialog, int response, WbWindow *self)
{
    g_autoptr(GtkNativeDialog) ended = g_steal_pointer(&self->dialog);
    if (response != GTK_RESPONSE_ACCEPT)
        return;
    g_autoptr(GFile) file = gtk_file_chooser_get_file(GTK_FILE_CHOOSER(dialog));
    g_autofree char *path = file ? g_file_get_path(file) : NULL;
    gboolean saves =
        gtk_file_chooser_get_action(GTK_FILE_CHOOSER(dialog)) == GTK_FILE_CHOOSER_ACTION_SAVE;
    if (!path)
        wb_window_say(self, _("A brief can only be kept in a file of this computer."));
    else
        gtk_widget_activate_action(GTK_WIDGET(self), saves ? "win.save-as-path" : "win.open-path",
                                   "s", path);
}

static void add_filter(GtkFileChooser *chooser)
{
    g_autoptr(GtkFileFilter) briefs = gtk_file_filter_new();
    g_autoptr(GtkFileFilter) all = gtk_file_filter_new();
    gtk_file_filter_set_name(briefs, _("Briefs (*.json)"));
    gtk_file_filter_add_pattern(briefs, "*.json");
    gtk_file_filter_set_name(all, _("All files"));
    gtk_file_filter_add_pattern(all, "*");
    gtk_file_chooser_add_filter(chooser, briefs);
    gtk_file_chooser_add_filter(chooser, all);
}

static void choose(WbWindow *self, const char *title, GtkFileChooserAction action, const char *name)
{
    if (self->dialog) {
        gtk_native_dialog_show(self->dialog);
        return;
    }
    GtkFileChooserNative *dialog =
        gtk_file_chooser_native_new(title, GTK_WINDOW(self), action, NULL, NULL);
    gtk_native_dialog_set_modal(GTK_NATIVE_DIALOG(dialog), TRUE);
    add_filter(GTK_FILE_CHOOSER(dialog));
    if (name)
        gtk_file_chooser_set_current_name(GTK_FILE_CHOOSER(dialog), name);
    self->dialog = GTK_NATIVE_DIALOG(dialog);
    g_signal_connect_object(dialog, "response", G_CALLBACK(on_response), self, 0);
    gtk_native_dialog_show(self->dialog);
}

void wb_window_choose_open(WbWindow *self)
{
    choose(self, _("Open a brief"), GTK_FILE_CHOOSER_ACTION_OPEN, NULL);
}

/* "The Plover: a library" makes no good file name; letters and digits do. */
static char *suggested_name(const char *title)
{
    GString *name = g_string_new(NULL);
    for (const char *c = title; *c && name->len < 40; c = g_utf8_next_char(c)) {
        gunichar letter = g_unichar_tolower(g_utf8_get_char(c));
        if (g_unichar_isalnum(letter))
            g_string_append_unichar(name, letter);
        else if (name->len > 0 && name->str[name->len - 1] != '-')
            g_string_append_c(name, '-');
    }
    while (name->len > 0 && name->str[name->len - 1] == '-')
        g_string_truncate(name, name->len - 1);
    g_string_append(name, name->len > 0 ? ".json" : "brief.json");
    return g_string_free(name, FALSE);
}

void wb_window_choose_save(WbWindow *self)
{
    g_autofree char *name = suggested_name(wb_document_get_title(self->context.document));
    choose(self, _("Save the brief"), GTK_FILE_CHOOSER_ACTION_SAVE, name);
}
