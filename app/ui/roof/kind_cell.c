#include "kind_cell.h"

#include "roof_shape_edit.h"
#include <glib/gi18n-lib.h>

struct _WbKindCell {
    GtkWidget parent_instance;
    GtkWidget *choice;
    WbDocument *document;
    int index;
    gboolean filling; /* we write, not the person */
};

G_DEFINE_FINAL_TYPE(WbKindCell, wb_kind_cell, GTK_TYPE_WIDGET)

enum { MESSAGE, ENTERED, N_SIGNALS };
static guint signals[N_SIGNALS];

/* Line of the choice: 2 x kind + round. */
static const char *const words[] = {N_("Stands"),         N_("Stands, round"), N_("Walkway"),
                                    N_("Walkway, round"), N_("Shaded"),        N_("Shaded, round")};

static const WbObstacle *obstacle_of(WbKindCell *self)
{
    const WbRoof *roof = &wb_document_get_brief(self->document)->roof;
    return self->index < (int)roof->n_obstacles ? &roof->obstacles[self->index] : NULL;
}

void wb_kind_cell_refresh(WbKindCell *self)
{
    g_return_if_fail(WB_IS_KIND_CELL(self));
    const WbObstacle *obstacle = obstacle_of(self);
    if (obstacle == NULL)
        return;
    self->filling = TRUE;
    gtk_drop_down_set_selected(GTK_DROP_DOWN(self->choice),
                               2 * (guint)obstacle->kind + (obstacle->round ? 1 : 0));
    self->filling = FALSE;
}

static void on_selected(WbKindCell *self)
{
    g_autoptr(GError) error = NULL;
    guint line = gtk_drop_down_get_selected(GTK_DROP_DOWN(self->choice));
    const WbObstacle *obstacle = self->document != NULL ? obstacle_of(self) : NULL;
    if (self->filling || obstacle == NULL || line >= G_N_ELEMENTS(words))
        return;
    gboolean done = wb_obstacle_set_form(self->document, (guint)self->index,
                                         (WbObstacleKind)(line / 2), line % 2 == 1, &error);
    g_signal_emit(self, signals[MESSAGE], 0, done ? NULL : error->message);
    wb_kind_cell_refresh(self);
}

static void on_enter(WbKindCell *self)
{
    g_signal_emit(self, signals[ENTERED], 0);
}

GtkWidget *wb_kind_cell_new(WbDocument *document, int index)
{
    WbKindCell *self = g_object_new(WB_TYPE_KIND_CELL, NULL);
    self->document = g_object_ref(document);
    self->index = index;
    wb_kind_cell_refresh(self);
    return GTK_WIDGET(self);
}

int wb_kind_cell_get_index(WbKindCell *self)
{
    g_return_val_if_fail(WB_IS_KIND_CELL(self), -1);
    return self->index;
}

void wb_kind_cell_set_name(WbKindCell *self, const char *name)
{
    g_return_if_fail(WB_IS_KIND_CELL(self));
    gtk_accessible_update_property(GTK_ACCESSIBLE(self->choice), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   name, -1);
}

static void wb_kind_cell_dispose(GObject *object)
{
    WbKindCell *self = WB_KIND_CELL(object);
    g_clear_object(&self->document);
    g_clear_pointer(&self->choice, gtk_widget_unparent);
    G_OBJECT_CLASS(wb_kind_cell_parent_class)->dispose(object);
}

static void wb_kind_cell_class_init(WbKindCellClass *klass)
{
    G_OBJECT_CLASS(klass)->dispose = wb_kind_cell_dispose;
    gtk_widget_class_set_layout_manager_type(GTK_WIDGET_CLASS(klass), GTK_TYPE_BIN_LAYOUT);
    gtk_widget_class_set_css_name(GTK_WIDGET_CLASS(klass), "kindcell");
    signals[MESSAGE] = g_signal_new("message", WB_TYPE_KIND_CELL, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                    NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
    signals[ENTERED] = g_signal_new("entered", WB_TYPE_KIND_CELL, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                    NULL, G_TYPE_NONE, 0);
}

static void wb_kind_cell_init(WbKindCell *self)
{
    GtkStringList *lines = gtk_string_list_new(NULL);
    GtkEventController *focus = gtk_event_controller_focus_new();
    for (guint i = 0; i < G_N_ELEMENTS(words); i++)
        gtk_string_list_append(lines, _(words[i]));
    self->choice = gtk_drop_down_new(G_LIST_MODEL(lines), NULL);
    gtk_widget_set_parent(self->choice, GTK_WIDGET(self));
    g_signal_connect_swapped(self->choice, "notify::selected", G_CALLBACK(on_selected), self);
    g_signal_connect_swapped(focus, "enter", G_CALLBACK(on_enter), self);
    gtk_widget_add_controller(self->choice, focus);
}
