/* The frame: side, pages, foot and message bar over one document. */
#include "outline.h"
#include "resources.h"
#include "window_private.h"
#include <glib/gi18n-lib.h>

G_DEFINE_FINAL_TYPE(WbWindow, wb_window, GTK_TYPE_APPLICATION_WINDOW)

/* ---- message bar ---- */

void wb_window_say(WbWindow *self, const char *sentence)
{
    gtk_label_set_text(self->message, sentence);
    gtk_widget_set_visible(self->save_first, self->leaving != WB_LEAVE_NOTHING);
    gtk_widget_set_visible(self->go_on, self->leaving != WB_LEAVE_NOTHING);
    gtk_widget_set_visible(self->undo_catalogue, FALSE);
    gtk_widget_set_visible(self->message_bar, TRUE);
}

void wb_window_say_undo(WbWindow *self, const char *sentence)
{
    wb_window_say(self, sentence);
    gtk_widget_set_visible(self->undo_catalogue, TRUE);
}

void wb_window_hush(WbWindow *self)
{
    self->leaving = WB_LEAVE_NOTHING;
    g_clear_pointer(&self->leaving_path, g_free);
    gtk_widget_set_visible(self->message_bar, FALSE);
}

const char *wb_window_get_message(WbWindow *self)
{
    g_return_val_if_fail(WB_IS_WINDOW(self), NULL);
    return gtk_widget_get_visible(self->message_bar) ? gtk_label_get_text(self->message) : NULL;
}

void wb_show_message(GtkWidget *from, const char *sentence)
{
    GtkRoot *root = gtk_widget_get_root(from);
    if (WB_IS_WINDOW(root))
        wb_window_say(WB_WINDOW(root), sentence);
}

void wb_show_undo_message(GtkWidget *from, const char *sentence)
{
    GtkRoot *root = gtk_widget_get_root(from);
    if (WB_IS_WINDOW(root))
        wb_window_say_undo(WB_WINDOW(root), sentence);
}

/* ---- following the document ---- */

static char *subtitle_text(WbDocument *document)
{
    const char *path = wb_document_get_path(document);
    gboolean unsaved = wb_document_get_modified(document);
    g_autofree char *file = path ? g_path_get_basename(path) : NULL;
    if (!file)
        return g_strdup(unsaved ? _("changed, not saved in a file yet")
                                : _("not saved in a file yet"));
    /* Translators: a file's name. */
    return unsaved ? g_strdup_printf(_("%s: changes not saved"), file)
                   : g_strdup_printf(_("saved as you go in %s"), file);
}

/* The mark that undo asks for, as the cells of the pages have it. */
static gboolean is_typing_title(WbWindow *self)
{
    return g_object_get_data(G_OBJECT(self->title), "wb-typing") != NULL;
}

static void set_typing_title(WbWindow *self, gboolean typing)
{
    g_object_set_data(G_OBJECT(self->title), "wb-typing", GINT_TO_POINTER(typing));
}

static void fill_title(WbWindow *self)
{
    self->naming = TRUE;
    const char *title = wb_document_get_title(self->context.document);
    if (!g_str_equal(gtk_editable_get_text(GTK_EDITABLE(self->title)), title))
        gtk_editable_set_text(GTK_EDITABLE(self->title), title);
    self->naming = FALSE;
    set_typing_title(self, FALSE);
}

static void on_title_changed(WbWindow *self)
{
    if (!self->naming)
        set_typing_title(self, TRUE);
}

static void show_title(WbWindow *self)
{
    WbDocument *document = self->context.document;
    const char *name = wb_document_get_title(document);
    gboolean unsaved = wb_document_get_modified(document);
    g_autofree char *subtitle = subtitle_text(document);
    g_autofree char *window_title =
        g_strdup_printf("%s%s \342\200\223 Wattberth", name, unsaved ? " *" : "");
    if (!is_typing_title(self))
        fill_title(self);
    const char *path = wb_document_get_path(document);
    gtk_label_set_text(self->subtitle, subtitle);
    if (g_strcmp0(gtk_widget_get_tooltip_text(GTK_WIDGET(self->subtitle)), path) != 0)
        gtk_widget_set_tooltip_text(GTK_WIDGET(self->subtitle), path);
    if (g_strcmp0(gtk_window_get_title(GTK_WINDOW(self)), window_title) != 0)
        gtk_window_set_title(GTK_WINDOW(self), window_title);
}

/* Enter, or the keyboard going elsewhere. A name that is refused gives way to the brief's. */
static void on_title_typed(WbWindow *self)
{
    g_autoptr(GError) error = NULL;
    if (!self->context.document || !is_typing_title(self))
        return;
    g_autofree char *name = g_strdup(gtk_editable_get_text(GTK_EDITABLE(self->title)));
    set_typing_title(self, FALSE);
    if (!wb_document_set_text(self->context.document, _("Rename the brief"), "/name", name, &error))
        wb_window_say(self, error->message);
    fill_title(self);
}

static void set_step_tooltip(GtkWidget *button, const char *verb, const char *label)
{
    g_autofree char *text = label ? g_strdup_printf("%s: %s", verb, label) : g_strdup(verb);
    /* Setting one asks the display where the pointer is, and waits for the answer. */
    if (g_strcmp0(gtk_widget_get_tooltip_text(button), text) != 0)
        gtk_widget_set_tooltip_text(button, text);
}

static void show_undo(WbWindow *self)
{
    set_step_tooltip(self->undo, _("Undo"), wb_document_get_undo_label(self->context.document));
    set_step_tooltip(self->redo, _("Redo"), wb_document_get_redo_label(self->context.document));
}

static void on_document_notify(WbWindow *self)
{
    show_title(self);
    show_undo(self);
}

static void on_save_error(WbWindow *self)
{
    g_autofree char *sentence = NULL;
    g_object_get(self->context.document, "save-error", &sentence, NULL);
    if (sentence)
        wb_window_say(self, sentence);
}

/* Another brief: the kit it keeps is in hand, nothing is hovered. */
static void on_replaced(WbWindow *self)
{
    const WbBrief *brief = wb_document_get_brief(self->context.document);
    wb_session_set_kit(self->context.session, brief->picked_kit);
    wb_session_set_hovered(self->context.session, "");
}

static void follow_undo_catalogue(WbWindow *self)
{
    GAction *action = g_action_map_lookup_action(G_ACTION_MAP(self), "undo-catalogue");
    g_simple_action_set_enabled(G_SIMPLE_ACTION(action),
                                wb_catalogue_store_get_undo_label(self->context.catalogue) != NULL);
}

static void on_catalogue_changed(WbWindow *self)
{
    /* The button would now take back another edit than the sentence beside it names. */
    if (gtk_widget_get_visible(self->undo_catalogue))
        wb_window_hush(self);
    follow_undo_catalogue(self);
    wb_document_set_view(self->context.document,
                         wb_catalogue_store_get_view(self->context.catalogue));
}

/* A page is made when it is first turned to: most runs look at few of them. */
static GtkWidget *page_of(WbWindow *self, const char *name)
{
    static GtkWidget *(*const make[WB_N_STEPS])(const WbContext *) = {
        wb_loads_page_new,   wb_place_page_new,   wb_roof_page_new, wb_parts_page_new,
        wb_ranking_page_new, wb_storage_page_new, wb_kit_page_new,  wb_shopping_page_new};
    GtkWidget *page = gtk_stack_get_child_by_name(self->stack, name);
    for (int i = 0; i < WB_N_STEPS && !page; i++)
        if (g_str_equal(name, wb_step_name(i))) {
            page = make[i](&self->context);
            gtk_stack_add_named(self->stack, page, name);
        }
    return page;
}

static void show_page(WbWindow *self)
{
    GtkWidget *page = page_of(self, wb_session_get_page(self->context.session));
    if (page)
        gtk_stack_set_visible_child(self->stack, page);
}

/* ---- building ---- */

static void connect_document(WbWindow *self)
{
    WbDocument *document = self->context.document;
    static const char *const shown[] = {"notify::title", "notify::path", "notify::modified",
                                        "notify::undo-label", "notify::redo-label"};
    for (gsize i = 0; i < G_N_ELEMENTS(shown); i++)
        g_signal_connect_object(document, shown[i], G_CALLBACK(on_document_notify), self,
                                G_CONNECT_SWAPPED);
    g_signal_connect_object(document, "notify::save-error", G_CALLBACK(on_save_error), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(document, "replaced", G_CALLBACK(on_replaced), self, G_CONNECT_SWAPPED);
    g_signal_connect_object(self->context.catalogue, "changed", G_CALLBACK(on_catalogue_changed),
                            self, G_CONNECT_SWAPPED);
    g_signal_connect_object(self->context.session, "notify::page", G_CALLBACK(show_page), self,
                            G_CONNECT_SWAPPED);
}

GtkWidget *wb_window_new(GtkApplication *application, WbCatalogueStore *catalogue)
{
    WbWindow *self = g_object_new(WB_TYPE_WINDOW, "application", application, NULL);
    self->context.catalogue = g_object_ref(catalogue);
    self->context.document = wb_document_new(wb_catalogue_store_get_view(catalogue));
    self->context.session = wb_session_new();
    connect_document(self);
    wb_document_begin_demo(self->context.document, NULL); /* a new document has nothing to lose */
    self->context.job = wb_ranking_job_new(self->context.document);
    wb_steps_set_context(self->steps, &self->context);
    wb_foot_set_context(self->foot, &self->context);
    wb_window_add_actions(self);
    follow_undo_catalogue(self);
    on_document_notify(self);
    show_page(self);
    return GTK_WIDGET(self);
}

gboolean wb_window_open_path(WbWindow *self, const char *path)
{
    g_return_val_if_fail(WB_IS_WINDOW(self) && path != NULL, FALSE);
    return wb_window_leave(self, WB_LEAVE_OPEN, path) && !wb_window_get_message(self);
}

const WbContext *wb_window_get_context(WbWindow *self)
{
    g_return_val_if_fail(WB_IS_WINDOW(self), NULL);
    return &self->context;
}

/* ---- GObject ---- */

static gboolean wb_window_close_request(GtkWindow *window)
{
    WbWindow *self = WB_WINDOW(window);
    if (wb_document_get_modified(self->context.document) &&
        !wb_window_leave(self, WB_LEAVE_CLOSE, NULL))
        return TRUE;
    return GTK_WINDOW_CLASS(wb_window_parent_class)->close_request(window);
}

static void wb_window_dispose(GObject *object)
{
    WbWindow *self = WB_WINDOW(object);
    g_clear_object(&self->dialog);
    if (self->context.job)
        wb_ranking_job_stop(self->context.job);
    G_OBJECT_CLASS(wb_window_parent_class)->dispose(object);
    g_clear_object(&self->context.job); /* after the pages, which only borrow them */
    g_clear_object(&self->context.session);
    g_clear_object(&self->context.document);
    g_clear_object(&self->context.catalogue);
}

static void wb_window_finalize(GObject *object)
{
    g_free(WB_WINDOW(object)->leaving_path);
    G_OBJECT_CLASS(wb_window_parent_class)->finalize(object);
}

static void wb_window_class_init(WbWindowClass *klass)
{
    GtkWidgetClass *widget_class = GTK_WIDGET_CLASS(klass);
    g_type_ensure(WB_TYPE_STEPS);
    g_type_ensure(WB_TYPE_FOOT);
    G_OBJECT_CLASS(klass)->dispose = wb_window_dispose;
    G_OBJECT_CLASS(klass)->finalize = wb_window_finalize;
    GTK_WINDOW_CLASS(klass)->close_request = wb_window_close_request;
    gtk_widget_class_set_template_from_resource(widget_class, WB_RESOURCE_PREFIX "/window.ui");
    gtk_widget_class_bind_template_child(widget_class, WbWindow, title);
    gtk_widget_class_bind_template_callback(widget_class, on_title_typed);
    gtk_widget_class_bind_template_callback(widget_class, on_title_changed);
    gtk_widget_class_bind_template_child(widget_class, WbWindow, subtitle);
    gtk_widget_class_bind_template_child(widget_class, WbWindow, message);
    gtk_widget_class_bind_template_child(widget_class, WbWindow, undo);
    gtk_widget_class_bind_template_child(widget_class, WbWindow, redo);
    gtk_widget_class_bind_template_child(widget_class, WbWindow, save_first);
    gtk_widget_class_bind_template_child(widget_class, WbWindow, go_on);
    gtk_widget_class_bind_template_child(widget_class, WbWindow, undo_catalogue);
    gtk_widget_class_bind_template_child(widget_class, WbWindow, message_bar);
    gtk_widget_class_bind_template_child(widget_class, WbWindow, steps);
    gtk_widget_class_bind_template_child(widget_class, WbWindow, stack);
    gtk_widget_class_bind_template_child(widget_class, WbWindow, foot);
}

static void wb_window_init(WbWindow *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
}
