/* The program: resources, look, shortcuts, and a window per run. */
#include "application.h"
#include "catalogue_store.h"
#include "look.h"
#include "resources.h"
#include "wb-resources.h"
#include "window.h"
#include <glib/gi18n-lib.h>

#define WB_TYPE_APPLICATION (wb_application_get_type())
G_DECLARE_FINAL_TYPE(WbApplication, wb_application, WB, APPLICATION, GtkApplication)

struct _WbApplication {
    GtkApplication parent_instance;
    WbCatalogueStore *catalogue;
    GError *failure; /* why it is not the person's own */
};

G_DEFINE_FINAL_TYPE(WbApplication, wb_application, GTK_TYPE_APPLICATION)

/* Shortcuts run before the focused widget sees the key, so each needs a modifier or an F key. */
static const struct {
    const char *action, *accels[3];
} shortcuts[] = {
    {"win.new", {"<Control>n"}},
    {"win.open", {"<Control>o"}},
    {"win.save", {"<Control>s"}},
    {"win.save-as", {"<Control><Shift>s"}},
    {"win.undo", {"<Control>z"}},
    {"win.redo", {"<Control><Shift>z", "<Control>y"}},
    {"win.undo-catalogue", {"<Control><Alt>z"}},
    {"win.next-page", {"<Control>Page_Down"}},
    {"win.previous-page", {"<Control>Page_Up"}},
    {"win.page::loads", {"<Alt>1"}},
    {"win.page::place", {"<Alt>2"}},
    {"win.page::roof", {"<Alt>3"}},
    {"win.page::parts", {"<Alt>4"}},
    {"win.page::ranking", {"<Alt>5"}},
    {"win.page::storage", {"<Alt>6"}},
    {"win.page::kit", {"<Alt>7"}},
    {"win.page::shopping", {"<Alt>8"}},
    {"win.stop-ranking", {"<Control>period"}},
    {"win.restart-ranking", {"<Control>r"}},
    {"win.keep-kit", {"<Control>k"}},
    {"win.pin-kit", {"<Control>d"}},
    {"win.show-help-overlay", {"<Control>question", "F1"}},
    {"window.close", {"<Control>w"}},
    {"app.quit", {"<Control>q"}},
};

/* The person's own catalogue; where it cannot be had, the starting one, so that the brief can be
 * worked on, and a word about it. */
static void open_catalogue(WbApplication *self)
{
    g_autoptr(GError) error = NULL;
    self->catalogue = wb_catalogue_store_open(NULL, &self->failure);
    if (!self->catalogue)
        self->catalogue = wb_catalogue_store_open(":memory:", &error);
    if (!self->catalogue)
        g_error("%s", error->message); /* not even memory: nothing can be done */
}

static GtkWidget *new_window(WbApplication *self)
{
    GtkWidget *window = wb_window_new(GTK_APPLICATION(self), self->catalogue);
    if (self->failure) {
        g_autofree char *sentence = g_strdup_printf(
            _("%s The starting catalogue stands in; changes of parts are not kept."),
            self->failure->message);
        wb_show_message(window, sentence);
    }
    return window;
}

static GtkWidget *present(WbApplication *self)
{
    GtkWindow *active = gtk_application_get_active_window(GTK_APPLICATION(self));
    GtkWidget *window = active ? GTK_WIDGET(active) : new_window(self);
    gtk_window_present(GTK_WINDOW(window));
    return window;
}

static void wb_application_activate(GApplication *application)
{
    present(WB_APPLICATION(application));
}

static void wb_application_open(GApplication *application, GFile **files, int n_files,
                                const char *hint)
{
    GtkWidget *window = present(WB_APPLICATION(application));
    g_autofree char *path = g_file_get_path(files[0]);
    if (path)
        wb_window_open_path(WB_WINDOW(window), path);
    else
        wb_show_message(window, _("A brief can only be opened from a file of this computer."));
}

/* Windows close one by one, each may keep its unsaved brief. */
static void act_quit(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    g_autoptr(GList) windows = g_list_copy(gtk_application_get_windows(GTK_APPLICATION(data)));
    for (GList *l = windows; l; l = l->next)
        gtk_window_close(GTK_WINDOW(l->data));
}

static void wb_application_startup(GApplication *application)
{
    static const GActionEntry entries[] = {{.name = "quit", .activate = act_quit}};
    WbApplication *self = WB_APPLICATION(application);
    g_resources_register(wb_get_resource());
    G_APPLICATION_CLASS(wb_application_parent_class)->startup(application);
    wb_look_start(application);
    g_action_map_add_action_entries(G_ACTION_MAP(self), entries, G_N_ELEMENTS(entries), self);
    for (gsize i = 0; i < G_N_ELEMENTS(shortcuts); i++)
        gtk_application_set_accels_for_action(GTK_APPLICATION(self), shortcuts[i].action,
                                              shortcuts[i].accels);
    open_catalogue(self);
}

static void wb_application_shutdown(GApplication *application)
{
    wb_look_end();
    G_APPLICATION_CLASS(wb_application_parent_class)->shutdown(application);
}

static void wb_application_finalize(GObject *object)
{
    WbApplication *self = WB_APPLICATION(object);
    g_clear_object(&self->catalogue);
    g_clear_error(&self->failure);
    G_OBJECT_CLASS(wb_application_parent_class)->finalize(object);
}

static void wb_application_class_init(WbApplicationClass *klass)
{
    GApplicationClass *application_class = G_APPLICATION_CLASS(klass);
    G_OBJECT_CLASS(klass)->finalize = wb_application_finalize;
    application_class->startup = wb_application_startup;
    application_class->activate = wb_application_activate;
    application_class->open = wb_application_open;
    application_class->shutdown = wb_application_shutdown;
}

static void wb_application_init(WbApplication *self)
{
}

GApplication *wb_application_new(GApplicationFlags flags)
{
    return g_object_new(WB_TYPE_APPLICATION, "application-id", WB_APPLICATION_ID, "flags", flags,
                        "resource-base-path", WB_RESOURCE_PREFIX, NULL);
}

int wb_application_run(int argc, char **argv)
{
    g_autoptr(GApplication) application = wb_application_new(G_APPLICATION_HANDLES_OPEN);
    return g_application_run(application, argc, argv);
}
