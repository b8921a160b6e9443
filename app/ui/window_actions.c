/* The window's named actions. Undo first asks a text being typed, so that it keeps its own. */
#include "outline.h"
#include "window_private.h"
#include <glib/gi18n-lib.h>

/* The focused text, if typing in it can be undone there: a cell marks its entry while it differs
 * from what the brief holds. */
static gboolean text_takes(WbWindow *self, const char *action)
{
    GtkWidget *focus = gtk_window_get_focus(GTK_WINDOW(self));
    GtkWidget *entry = focus ? gtk_widget_get_ancestor(focus, GTK_TYPE_ENTRY) : NULL;
    if (!entry || !g_object_get_data(G_OBJECT(entry), "wb-typing"))
        return FALSE;
    return gtk_widget_activate_action(focus, action, NULL);
}

static void act_undo(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    WbWindow *self = data;
    if (!text_takes(self, "text.undo"))
        wb_document_undo(self->context.document);
}

static void act_redo(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    WbWindow *self = data;
    if (!text_takes(self, "text.redo"))
        wb_document_redo(self->context.document);
}

static void act_undo_catalogue(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    WbWindow *self = data;
    g_autoptr(GError) error = NULL;
    if (!wb_catalogue_store_undo(self->context.catalogue, &error) && error)
        wb_window_say(self, error->message);
}

static void act_new(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    wb_window_leave(data, WB_LEAVE_NEW, NULL);
}

static void act_demo(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    wb_window_leave(data, WB_LEAVE_DEMO, NULL);
}

static void act_open(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    wb_window_choose_open(data);
}

static void act_open_path(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    wb_window_leave(data, WB_LEAVE_OPEN, g_variant_get_string(parameter, NULL));
}

static void act_save(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    wb_window_save(data);
}

static void act_save_as(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    wb_window_choose_save(data);
}

static void act_save_as_path(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    wb_window_save_to(data, g_variant_get_string(parameter, NULL));
}

static void act_go_on(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    wb_window_go_on(data);
}

static void act_close_message(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    wb_window_hush(data);
}

static void act_stop(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    wb_ranking_job_stop(((WbWindow *)data)->context.job);
}

static void act_restart(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    wb_ranking_job_restart(((WbWindow *)data)->context.job);
}

static void act_page(GSimpleAction *action, GVariant *state, gpointer data)
{
    WbWindow *self = data;
    const char *name = g_variant_get_string(state, NULL);
    for (int i = 0; i < WB_N_STEPS; i++)
        if (g_str_equal(name, wb_step_name(i)))
            wb_session_set_page(self->context.session, name);
}

static void turn_page(WbWindow *self, int by)
{
    const char *name = wb_session_get_page(self->context.session);
    for (int i = 0; i < WB_N_STEPS; i++)
        if (g_str_equal(name, wb_step_name(i))) {
            wb_session_set_page(self->context.session,
                                wb_step_name((i + by + WB_N_STEPS) % WB_N_STEPS));
            return;
        }
}

static void act_next_page(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    turn_page(data, 1);
}

static void act_previous_page(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    turn_page(data, -1);
}

static void act_take_best(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    wb_session_set_kit(((WbWindow *)data)->context.session, "");
}

/* FALSE: there is no kit. */
static gboolean kit_in_hand(WbWindow *self, char id[WB_KIT_ID])
{
    WbResult *result = wb_ranking_job_get_result(self->context.job);
    return result && wb_result_kit_id(result, wb_session_get_kit(self->context.session), id);
}

static void act_keep_kit(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    WbWindow *self = data;
    char id[WB_KIT_ID];
    g_autoptr(GError) error = NULL;
    if (!kit_in_hand(self, id))
        return;
    wb_session_set_kit(self->context.session, id);
    if (!wb_document_set_text(self->context.document, _("Keep kit"), "/kit_in_hand", id, &error))
        wb_window_say(self, error->message);
}

static void act_pin_kit(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    WbWindow *self = data;
    char id[WB_KIT_ID];
    if (!kit_in_hand(self, id))
        return;
    if (wb_session_is_pinned(self->context.session, id))
        wb_session_unpin(self->context.session, id);
    else if (!wb_session_pin(self->context.session, id))
        wb_window_say(self, _("Six kits are pinned already; unpin one first."));
}

static void follow_page(WbWindow *self)
{
    GAction *action = g_action_map_lookup_action(G_ACTION_MAP(self), "page");
    g_simple_action_set_state(G_SIMPLE_ACTION(action),
                              g_variant_new_string(wb_session_get_page(self->context.session)));
}

static void bind_enabled(WbWindow *self, const char *property, const char *name)
{
    g_object_bind_property(self->context.document, property,
                           g_action_map_lookup_action(G_ACTION_MAP(self), name), "enabled",
                           G_BINDING_SYNC_CREATE);
}

void wb_window_add_actions(WbWindow *self)
{
    static const GActionEntry entries[] = {
        {.name = "undo", .activate = act_undo},
        {.name = "redo", .activate = act_redo},
        {.name = "undo-catalogue", .activate = act_undo_catalogue},
        {.name = "new", .activate = act_new},
        {.name = "demo", .activate = act_demo},
        {.name = "open", .activate = act_open},
        {.name = "open-path", .activate = act_open_path, .parameter_type = "s"},
        {.name = "save", .activate = act_save},
        {.name = "save-as", .activate = act_save_as},
        {.name = "save-as-path", .activate = act_save_as_path, .parameter_type = "s"},
        {.name = "go-on", .activate = act_go_on},
        {.name = "close-message", .activate = act_close_message},
        {.name = "stop-ranking", .activate = act_stop},
        {.name = "restart-ranking", .activate = act_restart},
        {.name = "page", .parameter_type = "s", .state = "'loads'", .change_state = act_page},
        {.name = "next-page", .activate = act_next_page},
        {.name = "previous-page", .activate = act_previous_page},
        {.name = "take-best", .activate = act_take_best},
        {.name = "keep-kit", .activate = act_keep_kit},
        {.name = "pin-kit", .activate = act_pin_kit},
    };
    g_action_map_add_action_entries(G_ACTION_MAP(self), entries, G_N_ELEMENTS(entries), self);
    bind_enabled(self, "can-undo", "undo");
    bind_enabled(self, "can-redo", "redo");
    g_signal_connect_object(self->context.session, "notify::page", G_CALLBACK(follow_page), self,
                            G_CONNECT_SWAPPED);
}
