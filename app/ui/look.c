/* Scheme: what the person chose, else what the desktop wishes (settings portal), else what GTK was
 * told. GTK 4.8 does not follow the desktop by itself. */
#include "look.h"

#include "page.h"
#include "settings.h"

#include <string.h>

#define PORTAL "org.freedesktop.portal.Desktop"
#define PORTAL_PATH "/org/freedesktop/portal/desktop"
#define PORTAL_SETTINGS "org.freedesktop.portal.Settings"
#define APPEARANCE "org.freedesktop.appearance"
#define COLOR_SCHEME "color-scheme"
#define SCHEME_KEY "scheme"

typedef enum { FOLLOW, LIGHT, DARK } Scheme;

typedef struct {
    GtkApplication *application;
    GtkSettings *settings;
    GtkCssProvider *style, *colors;
    GSimpleAction *action;
    GCancellable *cancellable;
    GDBusConnection *bus;
    guint subscription;
    Scheme chosen, desktop;
    gboolean first_wish; /* what GTK was told before we touched it */
    char *base;          /* resource path, "" before start */
} Look;

static Look look;

static const char *const scheme_names[] = {"system", "light", "dark"};

static void report_css(GtkCssProvider *provider, GtkCssSection *section, GError *error)
{
    g_autofree char *place = gtk_css_section_to_string(section);
    g_warning("%s: %s", place, error->message);
}

static GtkCssProvider *add_provider(guint priority)
{
    GtkCssProvider *provider = gtk_css_provider_new();
    g_signal_connect(provider, "parsing-error", G_CALLBACK(report_css), NULL);
    gtk_style_context_add_provider_for_display(gdk_display_get_default(),
                                               GTK_STYLE_PROVIDER(provider), priority);
    return provider;
}

static void load(GtkCssProvider *provider, const char *name)
{
    g_autofree char *path = g_strdup_printf("%s/style/%s.css", look.base, name);
    gtk_css_provider_load_from_resource(provider, path);
}

/* GTK_THEME beats both settings, as it does in GTK. */
static void load_colors(void)
{
    g_autofree char *theme = NULL;
    gboolean dark = FALSE;
    const char *forced = g_getenv("GTK_THEME");
    if (forced != NULL && forced[0] != '\0')
        theme = g_strdup(forced);
    else
        g_object_get(look.settings, "gtk-theme-name", &theme, "gtk-application-prefer-dark-theme",
                     &dark, NULL);
    theme = theme != NULL ? theme : g_strdup("");
    dark = dark || g_str_has_suffix(theme, ":dark") || g_str_has_suffix(theme, "-dark") ||
           g_str_has_suffix(theme, "Inverse");
    gboolean contrast = g_str_has_prefix(theme, "HighContrast") || strstr(theme, "-hc") != NULL;
    load(look.colors, contrast ? (dark ? "colors-contrast-dark" : "colors-contrast-light")
                               : (dark ? "colors-dark" : "colors-light"));
}

static void apply(void)
{
    Scheme scheme = look.chosen != FOLLOW ? look.chosen : look.desktop;
    gboolean dark = scheme == FOLLOW ? look.first_wish : scheme == DARK;
    g_object_set(look.settings, "gtk-application-prefer-dark-theme", dark, NULL);
}

/* FALSE: no such scheme. */
static gboolean scheme_of(const char *name, Scheme *scheme)
{
    for (Scheme s = FOLLOW; s <= DARK; s++)
        if (g_strcmp0(name, scheme_names[s]) == 0) {
            *scheme = s;
            return TRUE;
        }
    return FALSE;
}

static void keep_choice(void)
{
    g_autoptr(GError) error = NULL;
    if (wb_settings_set(NULL, SCHEME_KEY, scheme_names[look.chosen], &error))
        return;
    GtkWindow *window = gtk_application_get_active_window(look.application);
    if (window != NULL)
        wb_show_message(GTK_WIDGET(window), error->message);
}

static void on_scheme(GSimpleAction *action, GVariant *state, gpointer data)
{
    if (!scheme_of(g_variant_get_string(state, NULL), &look.chosen))
        return;
    g_simple_action_set_state(action, state);
    apply();
    keep_choice();
}

/* 0 no wish, 1 dark, 2 light; the portal wraps the number once or twice. */
static void take_wish(GVariant *value)
{
    GVariant *inner = g_variant_ref(value);
    while (g_variant_is_of_type(inner, G_VARIANT_TYPE_VARIANT)) {
        GVariant *next = g_variant_get_variant(inner);
        g_variant_unref(inner);
        inner = next;
    }
    if (g_variant_is_of_type(inner, G_VARIANT_TYPE_UINT32)) {
        guint32 wish = g_variant_get_uint32(inner);
        look.desktop = wish == 1 ? DARK : wish == 2 ? LIGHT : FOLLOW;
        apply();
    }
    g_variant_unref(inner);
}

static void on_read(GObject *bus, GAsyncResult *result, gpointer data)
{
    g_autoptr(GVariant) answer =
        g_dbus_connection_call_finish(G_DBUS_CONNECTION(bus), result, NULL);
    if (answer == NULL || look.settings == NULL)
        return;
    g_autoptr(GVariant) value = g_variant_get_child_value(answer, 0);
    take_wish(value);
}

static void on_changed(GDBusConnection *bus, const char *sender, const char *path,
                       const char *interface, const char *signal, GVariant *parameters,
                       gpointer data)
{
    const char *group, *key;
    g_autoptr(GVariant) value = NULL;
    g_variant_get(parameters, "(&s&sv)", &group, &key, &value);
    if (g_str_equal(group, APPEARANCE) && g_str_equal(key, COLOR_SCHEME))
        take_wish(value);
}

static void on_bus(GObject *source, GAsyncResult *result, gpointer data)
{
    g_autoptr(GDBusConnection) bus = g_bus_get_finish(result, NULL);
    if (bus == NULL || look.settings == NULL)
        return;
    look.bus = g_object_ref(bus);
    look.subscription = g_dbus_connection_signal_subscribe(
        bus, PORTAL, PORTAL_SETTINGS, "SettingChanged", PORTAL_PATH, APPEARANCE,
        G_DBUS_SIGNAL_FLAGS_NONE, on_changed, NULL, NULL);
    g_dbus_connection_call(bus, PORTAL, PORTAL_PATH, PORTAL_SETTINGS, "Read",
                           g_variant_new("(ss)", APPEARANCE, COLOR_SCHEME), G_VARIANT_TYPE("(v)"),
                           G_DBUS_CALL_FLAGS_NONE, 2000, look.cancellable, on_read, NULL);
}

void wb_look_start(GApplication *application)
{
    g_return_if_fail(look.settings == NULL);
    look.base = g_strdup(g_application_get_resource_base_path(application));
    look.application = GTK_APPLICATION(application);
    look.settings = g_object_ref(gtk_settings_get_default());
    g_object_get(look.settings, "gtk-application-prefer-dark-theme", &look.first_wish, NULL);
    look.colors = add_provider(GTK_STYLE_PROVIDER_PRIORITY_APPLICATION - 1);
    look.style = add_provider(GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
    load_colors();
    load(look.style, "style");
    g_signal_connect(look.settings, "notify::gtk-theme-name", load_colors, NULL);
    g_signal_connect(look.settings, "notify::gtk-application-prefer-dark-theme", load_colors, NULL);
    g_autofree char *kept = wb_settings_get(NULL, SCHEME_KEY);
    if (scheme_of(kept, &look.chosen))
        apply();
    look.action = g_simple_action_new_stateful("scheme", G_VARIANT_TYPE_STRING,
                                               g_variant_new_string(scheme_names[look.chosen]));
    g_signal_connect(look.action, "change-state", G_CALLBACK(on_scheme), NULL);
    g_action_map_add_action(G_ACTION_MAP(application), G_ACTION(look.action));
    look.cancellable = g_cancellable_new();
    g_bus_get(G_BUS_TYPE_SESSION, look.cancellable, on_bus, NULL);
}

void wb_look_end(void)
{
    if (look.settings == NULL)
        return;
    g_cancellable_cancel(look.cancellable);
    if (look.subscription != 0)
        g_dbus_connection_signal_unsubscribe(look.bus, look.subscription);
    g_signal_handlers_disconnect_by_func(look.settings, load_colors, NULL);
    g_clear_object(&look.bus);
    g_clear_object(&look.cancellable);
    g_clear_object(&look.action);
    GdkDisplay *display = gdk_display_get_default();
    if (display != NULL) {
        gtk_style_context_remove_provider_for_display(display, GTK_STYLE_PROVIDER(look.style));
        gtk_style_context_remove_provider_for_display(display, GTK_STYLE_PROVIDER(look.colors));
    }
    g_clear_object(&look.style);
    g_clear_object(&look.colors);
    g_clear_object(&look.settings);
    g_clear_pointer(&look.base, g_free);
    look = (Look){0};
}
