#include "fit_list.h"

#include "figures_text.h"
#include "format.h"
#include "roof_words.h"
#include <glib/gi18n-lib.h>
#include <string.h>

enum { PANEL, SIZE, WATTS, MOST, ALL_WATTS, ANSWER, N_COLUMNS };

struct _WbFitList {
    GtkBox parent_instance;
    GtkListBox *list;
    GtkLabel *none;
    GtkSizeGroup *width[N_COLUMNS];
    WbResult *result;
    char *chosen; /* id of the chosen panel, NULL none; outlives a new result */
    int hovered;  /* -1 none */
    gboolean filling, holds;
};

G_DEFINE_FINAL_TYPE(WbFitList, wb_fit_list, GTK_TYPE_BOX)

static guint shown_signal;

/* ---- rows ---- */

static void add_cell(WbFitList *self, GtkWidget *line, int column, const char *text, gboolean head)
{
    gboolean words = column == PANEL || column == ANSWER;
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), words ? 0 : 1);
    gtk_label_set_wrap(GTK_LABEL(label), words);
    if (words) {
        gtk_label_set_width_chars(GTK_LABEL(label), column == PANEL ? 16 : 14);
        gtk_label_set_max_width_chars(GTK_LABEL(label), column == PANEL ? 30 : 36);
    }
    gtk_widget_set_hexpand(label, column == ANSWER);
    gtk_widget_add_css_class(label, head ? "small" : "numeric");
    if (head)
        gtk_widget_add_css_class(label, "quiet");
    gtk_size_group_add_widget(self->width[column], label);
    gtk_box_append(GTK_BOX(line), label);
}

static GtkWidget *line_new(WbFitList *self, const char *const *cells, gboolean head)
{
    GtkWidget *line = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 12);
    gtk_widget_set_margin_start(line, 6);
    gtk_widget_set_margin_end(line, 6);
    for (int column = 0; column < N_COLUMNS; column++)
        add_cell(self, line, column, cells[column], head);
    return line;
}

static GtkWidget *row_new(WbFitList *self, const WbPanelChoice *choice, gboolean holds)
{
    const WbPanel *panel = choice->panel;
    const WbRoofFit *fit = &choice->fit;
    g_autofree char *name =
        g_strstrip(g_strdup_printf("%s %s", panel->part.maker, panel->part.model));
    g_autofree char *length = wb_text_number((double)panel->length_mm, 0);
    g_autofree char *width = wb_text_number((double)panel->width_mm, 0);
    g_autofree char *size = g_strdup_printf("%s \303\227 %s", length, width);
    g_autofree char *watts = wb_text_number(panel->power_w, 0);
    g_autofree char *most = wb_text_number(fit->most, 0);
    g_autofree char *all = wb_text_number(fit->most * panel->power_w, 0);
    g_autofree char *answer = wb_roof_fit_words(fit);
    const char *cells[N_COLUMNS] = {name,
                                    size,
                                    watts,
                                    holds ? most : "\342\200\223",
                                    holds ? all : "\342\200\223",
                                    holds ? answer : _("not worked out yet")};
    GtkWidget *row = gtk_list_box_row_new();
    gtk_list_box_row_set_child(GTK_LIST_BOX_ROW(row), line_new(self, cells, FALSE));
    g_autofree char *spoken = g_strdup_printf("%s: %s, %s", name, cells[MOST], cells[ANSWER]);
    gtk_accessible_update_property(GTK_ACCESSIBLE(row), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
    return row;
}

static void add_heads(WbFitList *self)
{
    const char *const heads[N_COLUMNS] = {_("Panel"), _("Size, mm"),      _("W"),
                                          _("Most"),  _("W on the roof"), _("Answer")};
    GtkWidget *line = line_new(self, heads, TRUE);
    gtk_box_insert_child_after(GTK_BOX(self), line, NULL);
}

static void choose_row(WbFitList *self, GtkListBoxRow *row)
{
    self->filling = TRUE;
    gtk_list_box_select_row(self->list, row);
    self->filling = FALSE;
}

void wb_fit_list_show(WbFitList *self, WbResult *result, gboolean holds)
{
    g_return_if_fail(WB_IS_FIT_LIST(self));
    const WbProblem *problem = result != NULL ? wb_result_get_problem(result) : NULL;
    GtkListBoxRow *old;
    if (result != NULL && result == self->result && holds == self->holds)
        return;
    gboolean at_hand = gtk_widget_get_focus_child(GTK_WIDGET(self->list)) != NULL;
    self->holds = holds;
    self->filling = TRUE;
    while ((old = gtk_list_box_get_row_at_index(self->list, 0)) != NULL)
        gtk_list_box_remove(self->list, GTK_WIDGET(old));
    self->filling = FALSE;
    g_clear_pointer(&self->result, wb_result_unref);
    self->result = result != NULL ? wb_result_ref(result) : NULL;
    self->hovered = -1;
    gsize n = problem != NULL ? problem->n_panels : 0;
    for (gsize i = 0; i < n; i++) {
        GtkWidget *row = row_new(self, &problem->panels[i], holds);
        gtk_list_box_append(self->list, row);
        if (g_strcmp0(problem->panels[i].panel->part.id, self->chosen) == 0)
            choose_row(self, GTK_LIST_BOX_ROW(row));
    }
    GtkListBoxRow *chosen = gtk_list_box_get_selected_row(self->list);
    if (at_hand && chosen != NULL)
        gtk_widget_grab_focus(GTK_WIDGET(chosen));
    gtk_widget_set_visible(GTK_WIDGET(self->list), n > 0);
    gtk_widget_set_visible(GTK_WIDGET(self->none), problem != NULL && n == 0);
}

int wb_fit_list_get_shown(WbFitList *self)
{
    g_return_val_if_fail(WB_IS_FIT_LIST(self), -1);
    GtkListBoxRow *row = gtk_list_box_get_selected_row(self->list);
    if (self->hovered >= 0)
        return self->hovered;
    return row != NULL ? gtk_list_box_row_get_index(row) : -1;
}

/* ---- choosing ---- */

static void on_selected(WbFitList *self, GtkListBoxRow *row)
{
    if (self->filling || self->result == NULL)
        return;
    const WbProblem *problem = wb_result_get_problem(self->result);
    int index = row != NULL ? gtk_list_box_row_get_index(row) : -1;
    g_free(self->chosen);
    self->chosen = index >= 0 ? g_strdup(problem->panels[index].panel->part.id) : NULL;
    g_signal_emit(self, shown_signal, 0);
}

static void hover(WbFitList *self, int index)
{
    if (index == self->hovered)
        return;
    self->hovered = index;
    g_signal_emit(self, shown_signal, 0);
}

static void on_motion(GtkEventControllerMotion *motion, double x, double y, WbFitList *self)
{
    GtkListBoxRow *row = gtk_list_box_get_row_at_y(self->list, (int)y);
    hover(self, row != NULL ? gtk_list_box_row_get_index(row) : -1);
}

static void on_leave(GtkEventControllerMotion *motion, WbFitList *self)
{
    hover(self, -1);
}

/* Escape goes back to the kit in hand. */
static gboolean on_key(WbFitList *self, guint key)
{
    if (key != GDK_KEY_Escape || gtk_list_box_get_selected_row(self->list) == NULL)
        return FALSE;
    gtk_list_box_unselect_all(self->list);
    return TRUE;
}

/* ---- GObject ---- */

GtkWidget *wb_fit_list_new(void)
{
    return g_object_new(WB_TYPE_FIT_LIST, "orientation", GTK_ORIENTATION_VERTICAL, "spacing", 3,
                        NULL);
}

static void wb_fit_list_finalize(GObject *object)
{
    WbFitList *self = WB_FIT_LIST(object);
    g_clear_pointer(&self->result, wb_result_unref);
    g_free(self->chosen);
    for (int column = 0; column < N_COLUMNS; column++)
        g_object_unref(self->width[column]);
    G_OBJECT_CLASS(wb_fit_list_parent_class)->finalize(object);
}

static void wb_fit_list_class_init(WbFitListClass *klass)
{
    G_OBJECT_CLASS(klass)->finalize = wb_fit_list_finalize;
    shown_signal = g_signal_new("shown", WB_TYPE_FIT_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 0);
}

static void add_list(WbFitList *self)
{
    GtkEventController *motion = gtk_event_controller_motion_new();
    GtkEventController *keys = gtk_event_controller_key_new();
    self->list = GTK_LIST_BOX(gtk_list_box_new());
    gtk_widget_add_css_class(GTK_WIDGET(self->list), "fits");
    gtk_accessible_update_property(GTK_ACCESSIBLE(self->list), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   _("What fits of each ticked panel"), -1);
    g_signal_connect_object(self->list, "row-selected", G_CALLBACK(on_selected), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(motion, "motion", G_CALLBACK(on_motion), self, 0);
    g_signal_connect_object(motion, "leave", G_CALLBACK(on_leave), self, 0);
    g_signal_connect_object(keys, "key-pressed", G_CALLBACK(on_key), self, G_CONNECT_SWAPPED);
    gtk_widget_add_controller(GTK_WIDGET(self->list), motion);
    gtk_widget_add_controller(GTK_WIDGET(self->list), keys);
    gtk_box_append(GTK_BOX(self), GTK_WIDGET(self->list));
}

static void wb_fit_list_init(WbFitList *self)
{
    self->hovered = -1;
    for (int column = 0; column < N_COLUMNS; column++)
        self->width[column] = gtk_size_group_new(GTK_SIZE_GROUP_HORIZONTAL);
    add_list(self);
    self->none = GTK_LABEL(gtk_label_new(_("No panel is ticked; tick some under Parts.")));
    gtk_label_set_xalign(self->none, 0);
    gtk_widget_set_visible(GTK_WIDGET(self->none), FALSE);
    gtk_box_append(GTK_BOX(self), GTK_WIDGET(self->none));
    add_heads(self);
}
