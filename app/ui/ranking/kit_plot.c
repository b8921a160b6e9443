#include "kit_plot.h"

#include "figures_text.h"
#include "format.h"
#include "resources.h"
#include "scatter.h"
#include "words.h"
#include <glib/gi18n-lib.h>

struct _WbKitPlot {
    GtkBox parent_instance;
    GtkDropDown *across, *up;
    WbScatter *scatter;
    WbSession *session;
    WbRankingJob *job;
    WbKitList *list;
    WbResult *result;  /* owns what `points` borrows */
    GPtrArray *points; /* const WbRanked */
    gboolean updating;
};

G_DEFINE_FINAL_TYPE(WbKitPlot, wb_kit_plot, GTK_TYPE_BOX)

static char *point_text(guint index, gpointer data)
{
    WbKitPlot *self = data;
    const WbRanked *ranked = self->points->pdata[index];
    const char *currency = wb_result_get_brief(self->result)->currency;
    WbCriterion x = wb_session_get_axis_x(self->session), y = wb_session_get_axis_y(self->session);
    g_autofree char *words = wb_words_kit(wb_result_get_problem(self->result), &ranked->kit);
    g_autofree char *across = wb_format_figure(x, wb_figure(&ranked->figures, x), currency);
    g_autofree char *up = wb_format_figure(y, wb_figure(&ranked->figures, y), currency);
    g_autofree char *score = wb_text_number(ranked->score, 3);
    return g_strdup_printf(_("%s\n%s %s, %s %s, score %s"), words, wb_criterion_title(x), across,
                           wb_criterion_title(y), up, score);
}

static char *axis_label(WbCriterion criterion, const char *currency)
{
    return g_strdup_printf(wb_criterion_less_is_better(criterion) ? _("%s, %s (less is better)")
                                                                  : _("%s, %s (more is better)"),
                           wb_criterion_title(criterion),
                           wb_format_criterion_unit(criterion, currency));
}

static void gather(WbKitPlot *self)
{
    guint n = wb_kit_list_get_n_kits(self->list);
    g_ptr_array_set_size(self->points, 0);
    for (guint i = 0; i < n; i++)
        g_ptr_array_add(self->points, (gpointer)wb_kit_list_get_kit(self->list, i));
}

static void set_points(WbKitPlot *self)
{
    const WbProblem *problem = wb_result_get_problem(self->result);
    WbCriterion x = wb_session_get_axis_x(self->session), y = wb_session_get_axis_y(self->session);
    const char *currency = problem->brief->currency;
    double x_scale = wb_format_criterion_scale(x, currency);
    double y_scale = wb_format_criterion_scale(y, currency);
    const char *names[WB_N_SERIES] = {NULL};
    g_autofree WbScatterPoint *points = g_new0(WbScatterPoint, self->points->len + 1);
    for (guint i = 0; i < self->points->len; i++) {
        const WbRanked *ranked = self->points->pdata[i];
        const WbChemistry *chemistry = problem->storage[ranked->kit.storage].chemistry;
        guint series = wb_palette_series(chemistry->id);
        points[i] = (WbScatterPoint){wb_figure(&ranked->figures, x) * x_scale,
                                     wb_figure(&ranked->figures, y) * y_scale, (guint8)series,
                                     ranked->on_front};
        gboolean shared = names[series] != NULL && names[series] != chemistry->name;
        names[series] = shared ? _("others") : chemistry->name;
    }
    g_autofree char *x_label = axis_label(x, currency), *y_label = axis_label(y, currency);
    wb_scatter_set_points(self->scatter, points, self->points->len);
    wb_scatter_set_axes(self->scatter, x_label, wb_criterion_less_is_better(x), y_label,
                        wb_criterion_less_is_better(y));
    for (guint s = 0; s < WB_N_SERIES; s++)
        wb_scatter_set_series(self->scatter, s, names[s]);
}

void wb_kit_plot_choose(WbKitPlot *self, const char *kit_id)
{
    g_return_if_fail(WB_IS_KIT_PLOT(self));
    WbKit kit;
    int chosen = -1;
    if (self->result == NULL)
        return;
    const WbProblem *problem = wb_result_get_problem(self->result);
    if (kit_id != NULL && wb_kit_parse(problem, kit_id, &kit))
        for (guint i = 0; i < self->points->len && chosen < 0; i++)
            if (wb_kit_compare(problem, &((const WbRanked *)self->points->pdata[i])->kit, &kit) ==
                0)
                chosen = (int)i;
    wb_scatter_set_chosen(self->scatter, chosen);
}

static void refresh(WbKitPlot *self)
{
    g_clear_pointer(&self->result, wb_result_unref);
    WbResult *result = wb_ranking_job_get_result(self->job);
    g_ptr_array_set_size(self->points, 0);
    if (result == NULL) {
        wb_scatter_set_points(self->scatter, NULL, 0);
        return;
    }
    self->result = wb_result_ref(result);
    gather(self);
    set_points(self);
    char kit_id[WB_KIT_ID];
    if (wb_result_kit_id(result, wb_session_get_kit(self->session), kit_id))
        wb_kit_plot_choose(self, kit_id);
}

static void show_axes(WbKitPlot *self)
{
    self->updating = TRUE;
    gtk_drop_down_set_selected(self->across, wb_session_get_axis_x(self->session));
    gtk_drop_down_set_selected(self->up, wb_session_get_axis_y(self->session));
    self->updating = FALSE;
    refresh(self);
}

static void on_axis(WbKitPlot *self)
{
    if (self->session == NULL || self->updating)
        return;
    wb_session_set_axes(self->session, (WbCriterion)gtk_drop_down_get_selected(self->across),
                        (WbCriterion)gtk_drop_down_get_selected(self->up));
}

static void on_chosen(WbKitPlot *self, guint index)
{
    char kit_id[WB_KIT_ID];
    const WbRanked *ranked = self->points->pdata[index];
    wb_kit_id(wb_result_get_problem(self->result), &ranked->kit, kit_id);
    wb_session_set_kit(self->session, kit_id);
}

static void wb_kit_plot_finalize(GObject *object)
{
    WbKitPlot *self = WB_KIT_PLOT(object);
    g_clear_pointer(&self->result, wb_result_unref);
    g_ptr_array_unref(self->points);
    G_OBJECT_CLASS(wb_kit_plot_parent_class)->finalize(object);
}

static void wb_kit_plot_dispose(GObject *object)
{
    WbKitPlot *self = WB_KIT_PLOT(object);
    g_clear_object(&self->list);
    g_clear_object(&self->session);
    g_clear_object(&self->job);
    G_OBJECT_CLASS(wb_kit_plot_parent_class)->dispose(object);
}

static void wb_kit_plot_class_init(WbKitPlotClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = wb_kit_plot_dispose;
    G_OBJECT_CLASS(class)->finalize = wb_kit_plot_finalize;
    g_type_ensure(WB_TYPE_SCATTER);
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/ranking/plot.ui");
    gtk_widget_class_bind_template_child(widget, WbKitPlot, across);
    gtk_widget_class_bind_template_child(widget, WbKitPlot, up);
    gtk_widget_class_bind_template_child(widget, WbKitPlot, scatter);
    gtk_widget_class_bind_template_callback(widget, on_axis);
    gtk_widget_class_bind_template_callback(widget, on_chosen);
}

static void wb_kit_plot_init(WbKitPlot *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
    self->points = g_ptr_array_new();
    const char *titles[WB_N_CRITERIA + 1] = {NULL};
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++)
        titles[c] = wb_criterion_title(c);
    g_autoptr(GtkStringList) names = gtk_string_list_new(titles);
    gtk_drop_down_set_model(self->across, G_LIST_MODEL(names));
    gtk_drop_down_set_model(self->up, G_LIST_MODEL(names));
    wb_scatter_set_text(self->scatter, point_text, self);
}

void wb_kit_plot_set_context(WbKitPlot *self, const WbContext *context, WbKitList *list)
{
    g_return_if_fail(WB_IS_KIT_PLOT(self) && self->session == NULL);
    self->session = g_object_ref(context->session);
    self->job = g_object_ref(context->job);
    self->list = g_object_ref(list);
    g_signal_connect_object(list, "arranged", G_CALLBACK(refresh), self, G_CONNECT_SWAPPED);
    g_signal_connect_object(context->session, "notify::axis-x", G_CALLBACK(show_axes), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(context->session, "notify::axis-y", G_CALLBACK(show_axes), self,
                            G_CONNECT_SWAPPED);
    show_axes(self);
}

void wb_kit_plot_set_stale(WbKitPlot *self, gboolean stale)
{
    g_return_if_fail(WB_IS_KIT_PLOT(self));
    wb_scatter_set_stale(self->scatter, stale);
}
