#include "fit_list.h"

#include "figures_text.h"
#include "fit_row.h"
#include <glib/gi18n-lib.h>

struct _WbFitList {
    GtkBox parent_instance;
    WbRoofStudy *study;
    WbDocument *document;
    GtkListBox *list;
    GtkLabel *none;
    GtkWidget *head[WB_FIT_COLUMNS];
    GtkSizeGroup *width[WB_FIT_COLUMNS];
    char *chosen; /* id of the chosen panel, NULL none; outlives its row */
    char *hovered;
    int sorted_by;
    gboolean filling;
};

G_DEFINE_FINAL_TYPE(WbFitList, wb_fit_list, GTK_TYPE_BOX)

static guint shown_signal;

static const char *id_of(GtkListBoxRow *row)
{
    return row != NULL ? wb_fit_row_get_id(WB_FIT_ROW(row)) : NULL;
}

/* ---- order ---- */

static double key(WbFitList *self, const char *id)
{
    int index = wb_roof_study_find(self->study, id);
    const WbStudyPanel *panel = index >= 0 ? wb_roof_study_get(self->study, (gsize)index) : NULL;
    return panel != NULL ? wb_fit_row_key(panel, self->sorted_by) : -1;
}

/* Names ascend, figures begin with the largest; ties in the order of the ids. */
static int compare(GtkListBoxRow *a, GtkListBoxRow *b, gpointer data)
{
    WbFitList *self = data;
    double left = key(self, id_of(a)), right = key(self, id_of(b));
    if (self->sorted_by != WB_FIT_PANEL && left != right)
        return left > right ? -1 : 1;
    return g_strcmp0(id_of(a), id_of(b));
}

static void mark_heads(WbFitList *self)
{
    for (int column = 0; column < WB_FIT_COLUMNS; column++) {
        if (column == self->sorted_by)
            gtk_widget_add_css_class(self->head[column], "accent-text");
        else
            gtk_widget_remove_css_class(self->head[column], "accent-text");
    }
}

static void on_head(GtkButton *head, WbFitList *self)
{
    for (int column = 0; column < WB_FIT_COLUMNS; column++)
        if (self->head[column] == GTK_WIDGET(head))
            self->sorted_by = column;
    mark_heads(self);
    gtk_list_box_invalidate_sort(self->list);
}

/* ---- rows ---- */

static gboolean has_these_rows(WbFitList *self)
{
    gsize n = wb_roof_study_get_n(self->study), rows = 0;
    GtkListBoxRow *row;
    for (int i = 0; (row = gtk_list_box_get_row_at_index(self->list, i)) != NULL; i++) {
        if (wb_roof_study_find(self->study, id_of(row)) < 0)
            return FALSE;
        rows++;
    }
    return rows == n;
}

static void choose_row(WbFitList *self, GtkListBoxRow *row)
{
    self->filling = TRUE;
    gtk_list_box_select_row(self->list, row);
    self->filling = FALSE;
}

/* A change that is pressed down or has the keyboard is of the chosen panel: its row is chosen and
 * every other row lets go. */
static void on_change(WbFitRow *row, WbFitList *self)
{
    gboolean hovered = g_strcmp0(wb_fit_row_get_id(row), self->hovered) == 0;
    if (!hovered && wb_fit_row_get_change(row) >= 0 &&
        !gtk_list_box_row_is_selected(GTK_LIST_BOX_ROW(row)))
        gtk_list_box_select_row(self->list, GTK_LIST_BOX_ROW(row));
    g_signal_emit(self, shown_signal, 0);
}

static void make_rows(WbFitList *self)
{
    gboolean at_hand = gtk_widget_get_focus_child(GTK_WIDGET(self->list)) != NULL;
    GtkListBoxRow *old;
    self->filling = TRUE;
    while ((old = gtk_list_box_get_row_at_index(self->list, 0)) != NULL)
        gtk_list_box_remove(self->list, GTK_WIDGET(old));
    self->filling = FALSE;
    g_clear_pointer(&self->hovered, g_free);
    for (gsize i = 0; i < wb_roof_study_get_n(self->study); i++) {
        const char *id = wb_roof_study_get(self->study, i)->panel->part.id;
        GtkWidget *row = wb_fit_row_new(self->study, id, self->width);
        g_signal_connect_object(row, "change", G_CALLBACK(on_change), self, 0);
        gtk_list_box_append(self->list, row);
        if (g_strcmp0(id, self->chosen) == 0)
            choose_row(self, GTK_LIST_BOX_ROW(row));
    }
    GtkListBoxRow *chosen = gtk_list_box_get_selected_row(self->list);
    if (at_hand && chosen != NULL)
        gtk_widget_grab_focus(GTK_WIDGET(chosen));
}

/* Rows stay where they are while answers come in. */
static gboolean all_known(WbFitList *self)
{
    for (gsize i = 0; i < wb_roof_study_get_n(self->study); i++)
        if (!wb_roof_study_get(self->study, i)->known)
            return FALSE;
    return TRUE;
}

void wb_fit_list_refresh(WbFitList *self)
{
    g_return_if_fail(WB_IS_FIT_LIST(self));
    const WbBrief *brief = wb_document_get_brief(self->document);
    GtkListBoxRow *row;
    if (!has_these_rows(self))
        make_rows(self);
    for (int i = 0; (row = gtk_list_box_get_row_at_index(self->list, i)) != NULL; i++)
        wb_fit_row_show(WB_FIT_ROW(row), brief, gtk_list_box_row_is_selected(row));
    if (all_known(self))
        gtk_list_box_invalidate_sort(self->list);
    gsize n = wb_roof_study_get_n(self->study);
    gtk_widget_set_visible(GTK_WIDGET(self->list), n > 0);
    gtk_widget_set_visible(GTK_WIDGET(self->none), n == 0);
}

const char *wb_fit_list_get_shown(WbFitList *self)
{
    g_return_val_if_fail(WB_IS_FIT_LIST(self), NULL);
    return self->hovered != NULL ? self->hovered : self->chosen;
}

int wb_fit_list_get_change(WbFitList *self)
{
    g_return_val_if_fail(WB_IS_FIT_LIST(self), -1);
    const char *shown = wb_fit_list_get_shown(self);
    GtkListBoxRow *row;
    for (int i = 0; (row = gtk_list_box_get_row_at_index(self->list, i)) != NULL; i++)
        if (shown != NULL && g_strcmp0(id_of(row), shown) == 0)
            return wb_fit_row_get_change(WB_FIT_ROW(row));
    return -1;
}

/* ---- choosing ---- */

static void let_go_but(WbFitList *self, GtkListBoxRow *kept)
{
    GtkListBoxRow *row;
    for (int i = 0; (row = gtk_list_box_get_row_at_index(self->list, i)) != NULL; i++)
        if (row != kept)
            wb_fit_row_let_go(WB_FIT_ROW(row));
}

static void on_selected(WbFitList *self, GtkListBoxRow *row)
{
    if (self->filling)
        return;
    g_free(self->chosen);
    self->chosen = g_strdup(id_of(row));
    let_go_but(self, row);
    wb_roof_study_look_at(self->study, self->chosen);
    wb_fit_list_refresh(self);
    g_signal_emit(self, shown_signal, 0);
}

static void hover(WbFitList *self, const char *id)
{
    if (g_strcmp0(id, self->hovered) == 0)
        return;
    g_free(self->hovered);
    self->hovered = g_strdup(id);
    g_signal_emit(self, shown_signal, 0);
}

static void on_motion(GtkEventControllerMotion *motion, double x, double y, WbFitList *self)
{
    hover(self, id_of(gtk_list_box_get_row_at_y(self->list, (int)y)));
}

static void on_leave(GtkEventControllerMotion *motion, WbFitList *self)
{
    hover(self, NULL);
}

/* Escape goes back to the kit in hand. */
static gboolean on_key(WbFitList *self, guint pressed)
{
    if (pressed != GDK_KEY_Escape || gtk_list_box_get_selected_row(self->list) == NULL)
        return FALSE;
    gtk_list_box_unselect_all(self->list);
    return TRUE;
}

/* ---- GObject ---- */

static void wb_fit_list_finalize(GObject *object)
{
    WbFitList *self = WB_FIT_LIST(object);
    g_free(self->chosen);
    g_free(self->hovered);
    for (int column = 0; column < WB_FIT_COLUMNS; column++)
        g_object_unref(self->width[column]);
    G_OBJECT_CLASS(wb_fit_list_parent_class)->finalize(object);
}

static void wb_fit_list_class_init(WbFitListClass *klass)
{
    G_OBJECT_CLASS(klass)->finalize = wb_fit_list_finalize;
    shown_signal = g_signal_new("shown", WB_TYPE_FIT_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 0);
}

static void add_heads(WbFitList *self)
{
    static const struct {
        const char *text, *spoken;
    } heads[WB_FIT_COLUMNS] = {
        [WB_FIT_PANEL] = {N_("Panel"), N_("Sort by name")},
        [WB_FIT_SIZE] = {N_("Size, mm"), N_("Sort by size")},
        [WB_FIT_WATTS] = {N_("W"), N_("Sort by the watts of one")},
        [WB_FIT_MOST] = {N_("Most"), N_("Sort by how many fit")},
        [WB_FIT_ALL_WATTS] = {N_("W on the roof"), N_("Sort by watts on the roof")},
        [WB_FIT_LOAD] = {N_("kg"), N_("Sort by weight on the roof")},
        [WB_FIT_ANSWER] = {N_("Answer"), NULL},
    };
    GtkWidget *line = wb_fit_line_new();
    for (int column = 0; column < WB_FIT_COLUMNS; column++) {
        gboolean sorts = heads[column].spoken != NULL;
        GtkWidget *label = gtk_label_new(_(heads[column].text));
        gtk_label_set_xalign(GTK_LABEL(label), wb_fit_column_is_words(column) ? 0 : 1);
        GtkWidget *head = sorts ? gtk_button_new() : label;
        if (sorts) {
            gtk_button_set_child(GTK_BUTTON(head), label);
            gtk_widget_add_css_class(head, "flat");
            gtk_widget_set_tooltip_text(head, _(heads[column].spoken));
            gtk_accessible_update_property(GTK_ACCESSIBLE(head), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                           _(heads[column].spoken), -1);
            g_signal_connect_object(head, "clicked", G_CALLBACK(on_head), self, 0);
        }
        gtk_widget_add_css_class(head, "fit-head");
        gtk_widget_add_css_class(head, "small");
        self->head[column] = head;
        gtk_size_group_add_widget(self->width[column], head);
        gtk_box_append(GTK_BOX(line), head);
    }
    gtk_box_append(GTK_BOX(self), line);
    mark_heads(self);
}

static void add_list(WbFitList *self)
{
    GtkEventController *motion = gtk_event_controller_motion_new();
    GtkEventController *keys = gtk_event_controller_key_new();
    self->list = GTK_LIST_BOX(gtk_list_box_new());
    gtk_list_box_set_sort_func(self->list, compare, self, NULL);
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
    self->sorted_by = WB_FIT_ALL_WATTS;
    for (int column = 0; column < WB_FIT_COLUMNS; column++)
        self->width[column] = gtk_size_group_new(GTK_SIZE_GROUP_HORIZONTAL);
    add_heads(self);
    add_list(self);
    self->none = GTK_LABEL(gtk_label_new(_("No panel is ticked; tick some under Parts.")));
    gtk_label_set_xalign(self->none, 0);
    gtk_widget_set_visible(GTK_WIDGET(self->none), FALSE);
    gtk_box_append(GTK_BOX(self), GTK_WIDGET(self->none));
}

GtkWidget *wb_fit_list_new(WbRoofStudy *study, WbDocument *document)
{
    WbFitList *self =
        g_object_new(WB_TYPE_FIT_LIST, "orientation", GTK_ORIENTATION_VERTICAL, "spacing", 3, NULL);
    self->study = study;
    self->document = document;
    wb_fit_list_refresh(self);
    return GTK_WIDGET(self);
}
