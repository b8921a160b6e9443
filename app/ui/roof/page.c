/* The roof: drawn to scale and edited on the drawing or by figures, and what fits of each panel. */
#include "page.h"
#include "brief_row.h"
#include "children.h"
#include "figures_text.h"
#include "fit_list.h"
#include "format.h"
#include "obstacle_table.h"
#include "resources.h"
#include "roof_edit.h"
#include "roof_fields.h"
#include "roof_plan.h"
#include "roof_words.h"
#include <glib/gi18n-lib.h>

#define WB_TYPE_ROOF_PAGE (wb_roof_page_get_type())
G_DECLARE_FINAL_TYPE(WbRoofPage, wb_roof_page, WB, ROOF_PAGE, GtkWidget)

struct _WbRoofPage {
    GtkWidget parent_instance;
    WbContext context;
    GtkLabel *status, *clear;
    GtkPaned *split;
    GtkBox *obstacles, *outline, *bay, *fits;
    GtkWidget *plan, *table, *list, *has_bay, *bay_problem;
    GtkWidget *row[WB_N_ROOF_FIELDS];
    gboolean dirty, filling;
};

G_DEFINE_FINAL_TYPE(WbRoofPage, wb_roof_page, GTK_TYPE_WIDGET)

/* ---- refreshing ---- */

/* The last result if its layouts are layouts of the roof as it is now, else NULL. */
static WbResult *result_for_this_roof(WbRoofPage *self)
{
    WbResult *result = wb_ranking_job_get_result(self->context.job);
    const WbRoof *roof = &wb_document_get_brief(self->context.document)->roof;
    return result != NULL && wb_roof_same(&wb_result_get_brief(result)->roof, roof) ? result : NULL;
}

/* The panel model looked at, else the kit in hand, else the bare roof. */
static void show_plan(WbRoofPage *self)
{
    const WbRoof *roof = &wb_document_get_brief(self->context.document)->roof;
    WbResult *result = result_for_this_roof(self);
    g_autofree WbVerdict *verdict = g_new(WbVerdict, 1);
    int shown = wb_fit_list_get_shown(WB_FIT_LIST(self->list));
    const WbRoofFit *fit = NULL;
    int n = 0;
    if (result != NULL && shown >= 0) {
        fit = &wb_result_get_problem(result)->panels[shown].fit;
        n = fit->most;
    } else if (result != NULL &&
               wb_result_judge(result, wb_session_get_kit(self->context.session), verdict)) {
        fit = &wb_result_get_problem(result)->panels[verdict->kit.panel].fit;
        n = MIN(verdict->kit.n_series * verdict->kit.n_parallel, fit->most);
    }
    wb_roof_plan_set(WB_ROOF_PLAN(self->plan), roof, fit != NULL ? fit->layout : NULL, (guint)n);
}

/* The model looked at with its answer. (transfer full) */
static char *panel_text(const WbPanelChoice *choice)
{
    const WbPart *part = &choice->panel->part;
    g_autofree char *name = g_strstrip(g_strdup_printf("%s %s", part->maker, part->model));
    g_autofree char *answer = wb_roof_fit_words(&choice->fit);
    return g_strdup_printf("%s: %s", name, answer);
}

static const char *waiting_text(WbRoofPage *self)
{
    switch (wb_ranking_job_get_state(self->context.job)) {
    case WB_JOB_STOPPED:
        return _("The ranking was stopped; what fits this roof is not known.");
    case WB_JOB_FAILED:
        return wb_ranking_job_get_message(self->context.job);
    case WB_JOB_IDLE:
    case WB_JOB_RUNNING:
        break;
    }
    return _("Working out what fits this roof");
}

static void show_status(WbRoofPage *self)
{
    WbResult *result = result_for_this_roof(self);
    int shown = wb_fit_list_get_shown(WB_FIT_LIST(self->list));
    g_autofree char *text = result == NULL ? g_strdup(waiting_text(self))
                            : shown >= 0 ? panel_text(&wb_result_get_problem(result)->panels[shown])
                                         : g_strdup(_("The panels of the kit in hand"));
    gtk_label_set_text(self->status, text);
}

static void show_figures(WbRoofPage *self)
{
    const WbBrief *brief = wb_document_get_brief(self->context.document);
    g_autofree char *area =
        wb_format_quantity((double)wb_roof_clear_mm2(&brief->roof) / 1e6, 2, "m\302\262");
    g_autofree char *text = g_strdup_printf(_("%s clear"), area);
    gboolean given = brief->bay.length_mm > 0;
    gtk_label_set_text(self->clear, text);
    for (int id = WB_BAY_LENGTH; id <= WB_BAY_HEIGHT; id++)
        gtk_widget_set_visible(self->row[id], given);
    self->filling = TRUE;
    gtk_check_button_set_active(GTK_CHECK_BUTTON(self->has_bay), given);
    self->filling = FALSE;
}

static void refresh(WbRoofPage *self)
{
    WbResult *result = wb_ranking_job_get_result(self->context.job);
    self->dirty = FALSE;
    show_figures(self);
    wb_fit_list_show(WB_FIT_LIST(self->list), result, result_for_this_roof(self) != NULL);
    show_plan(self);
    show_status(self);
}

static void on_changed(WbRoofPage *self)
{
    if (gtk_widget_get_mapped(GTK_WIDGET(self)))
        refresh(self);
    else
        self->dirty = TRUE;
}

static void on_shown(WbRoofPage *self)
{
    if (self->context.document == NULL)
        return; /* the page closes */
    show_plan(self);
    show_status(self);
}

static void on_state(WbRoofPage *self)
{
    if (self->context.document != NULL)
        show_status(self);
}

/* ---- edits ---- */

static void report(WbRoofPage *self, gboolean done, GError *error)
{
    wb_obstacle_table_tell(WB_OBSTACLE_TABLE(self->table), done ? NULL : error->message);
    g_clear_error(&error);
}

static void on_plan_chosen(WbRoofPlan *plan, int index, WbRoofPage *self)
{
    wb_document_seal(self->context.document);
    wb_obstacle_table_choose(WB_OBSTACLE_TABLE(self->table), index);
}

static void on_moved(WbRoofPlan *plan, int index, gint64 x_mm, gint64 y_mm, WbRoofPage *self)
{
    GError *error = NULL;
    gboolean done = wb_obstacle_move(self->context.document, (guint)index, x_mm, y_mm, &error);
    report(self, done, error);
}

static void on_nudged(WbRoofPlan *plan, int index, gint64 dx_mm, gint64 dy_mm, WbRoofPage *self)
{
    GError *error = NULL;
    gboolean done = wb_obstacle_nudge(self->context.document, (guint)index, dx_mm, dy_mm, &error);
    report(self, done, error);
}

static void on_removed(WbRoofPlan *plan, int index, WbRoofPage *self)
{
    wb_obstacle_table_remove(WB_OBSTACLE_TABLE(self->table), index);
}

static void on_table_chosen(WbObstacleTable *table, int index, WbRoofPage *self)
{
    wb_roof_plan_choose(WB_ROOF_PLAN(self->plan), index);
}

static void on_has_bay(WbRoofPage *self)
{
    g_autoptr(GError) error = NULL;
    gboolean on = gtk_check_button_get_active(GTK_CHECK_BUTTON(self->has_bay));
    if (self->filling)
        return;
    gboolean done = wb_bay_set_given(self->context.document, on, &error);
    gtk_label_set_text(GTK_LABEL(self->bay_problem), done ? "" : error->message);
    gtk_widget_set_visible(self->bay_problem, !done);
}

/* ---- building ---- */

static void add_label(GtkBox *box, const char *text, const char *css_class)
{
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    gtk_widget_add_css_class(label, css_class);
    gtk_box_append(box, label);
}

static void add_rows(WbRoofPage *self, GtkBox *box, WbRoofFieldId first, WbRoofFieldId last)
{
    for (int id = (int)first; id <= (int)last; id++) {
        self->row[id] = wb_brief_row_new(self->context.document, wb_roof_field(id));
        gtk_box_append(box, self->row[id]);
    }
}

static void add_plan(WbRoofPage *self)
{
    self->plan = wb_roof_plan_new();
    gtk_widget_set_size_request(self->plan, 300, 156);
    wb_roof_plan_make_editable(WB_ROOF_PLAN(self->plan));
    gtk_paned_set_start_child(self->split, self->plan);
    g_signal_connect_object(self->plan, "chosen", G_CALLBACK(on_plan_chosen), self, 0);
    g_signal_connect_object(self->plan, "moved", G_CALLBACK(on_moved), self, 0);
    g_signal_connect_object(self->plan, "nudged", G_CALLBACK(on_nudged), self, 0);
    g_signal_connect_object(self->plan, "removed", G_CALLBACK(on_removed), self, 0);
}

static void add_bay(WbRoofPage *self)
{
    add_label(self->bay, _("Storage bay"), "section");
    self->has_bay = gtk_check_button_new_with_label(_("The bank must stand in a bay"));
    g_signal_connect_object(self->has_bay, "toggled", G_CALLBACK(on_has_bay), self,
                            G_CONNECT_SWAPPED);
    gtk_box_append(self->bay, self->has_bay);
    add_label(self->bay, "", "stop");
    self->bay_problem = gtk_widget_get_last_child(GTK_WIDGET(self->bay));
    gtk_widget_set_visible(self->bay_problem, FALSE);
    add_rows(self, self->bay, WB_BAY_LENGTH, WB_BAY_HEIGHT);
}

static void add_parts(WbRoofPage *self)
{
    add_plan(self);
    self->table = wb_obstacle_table_new(self->context.document);
    g_signal_connect_object(self->table, "chosen", G_CALLBACK(on_table_chosen), self, 0);
    gtk_box_append(self->obstacles, self->table);
    add_label(self->outline, _("Outline"), "section");
    add_rows(self, self->outline, WB_ROOF_LENGTH, WB_ROOF_LOAD);
    add_bay(self);
    self->list = wb_fit_list_new();
    g_signal_connect_object(self->list, "shown", G_CALLBACK(on_shown), self, G_CONNECT_SWAPPED);
    gtk_box_append(self->fits, self->list);
}

GtkWidget *wb_roof_page_new(const WbContext *context)
{
    WbRoofPage *self = g_object_new(WB_TYPE_ROOF_PAGE, NULL);
    self->context = *context;
    add_parts(self);
    refresh(self);
    g_signal_connect_object(context->document, "changed", G_CALLBACK(on_changed), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(context->job, "result", G_CALLBACK(on_changed), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(context->session, "notify::kit", G_CALLBACK(on_shown), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(context->job, "notify::state", G_CALLBACK(on_state), self,
                            G_CONNECT_SWAPPED);
    return GTK_WIDGET(self);
}

/* ---- GObject ---- */

static void wb_roof_page_map(GtkWidget *widget)
{
    if (((WbRoofPage *)widget)->dirty)
        refresh((WbRoofPage *)widget);
    GTK_WIDGET_CLASS(wb_roof_page_parent_class)->map(widget);
}

static void wb_roof_page_dispose(GObject *object)
{
    WB_ROOF_PAGE(object)->context.document = NULL;
    wb_drop_children(GTK_WIDGET(object), WB_TYPE_ROOF_PAGE);
    G_OBJECT_CLASS(wb_roof_page_parent_class)->dispose(object);
}

static void wb_roof_page_class_init(WbRoofPageClass *klass)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(klass);
    G_OBJECT_CLASS(klass)->dispose = wb_roof_page_dispose;
    widget->map = wb_roof_page_map;
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/roof/page.ui");
    gtk_widget_class_bind_template_child(widget, WbRoofPage, status);
    gtk_widget_class_bind_template_child(widget, WbRoofPage, clear);
    gtk_widget_class_bind_template_child(widget, WbRoofPage, split);
    gtk_widget_class_bind_template_child(widget, WbRoofPage, obstacles);
    gtk_widget_class_bind_template_child(widget, WbRoofPage, outline);
    gtk_widget_class_bind_template_child(widget, WbRoofPage, bay);
    gtk_widget_class_bind_template_child(widget, WbRoofPage, fits);
}

static void wb_roof_page_init(WbRoofPage *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
}
