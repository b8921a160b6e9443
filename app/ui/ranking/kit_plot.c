#include "kit_plot.h"

#include "figures_text.h"
#include "format.h"
#include "resources.h"
#include "scatter.h"
#include "words.h"
#include <glib/gi18n-lib.h>
#include <math.h>

struct _WbKitPlot {
    GtkBox parent_instance;
    GtkDropDown *across, *up, *size;
    GtkLabel *sizes;
    WbScatter *scatter;
    WbSession *session;
    WbRankingJob *job;
    WbKitList *list;
    WbResult *result;  /* owns what `points` borrows */
    GPtrArray *points; /* const WbRanked */
    gboolean updating;
    gboolean brushing; /* the change of the filter is ours */
};

G_DEFINE_FINAL_TYPE(WbKitPlot, wb_kit_plot, GTK_TYPE_BOX)

/* Criterion told by size; FALSE: none. */
static gboolean sized_by(WbKitPlot *self, WbCriterion *criterion)
{
    guint line = gtk_drop_down_get_selected(self->size);
    *criterion = line > 0 && line <= WB_N_CRITERIA ? (WbCriterion)(line - 1) : WB_CRITERION_COST;
    return line > 0 && line <= WB_N_CRITERIA;
}

static void add_figure(GString *text, const WbRanked *ranked, WbCriterion c, const char *currency)
{
    g_autofree char *figure = wb_format_figure(c, wb_figure(&ranked->figures, c), currency);
    g_string_append_printf(text, "%s %s, ", wb_criterion_title(c), figure);
}

static char *point_text(guint index, gpointer data)
{
    WbKitPlot *self = data;
    const WbRanked *ranked = self->points->pdata[index];
    const char *currency = wb_result_get_brief(self->result)->currency;
    WbCriterion x = wb_session_get_axis_x(self->session), y = wb_session_get_axis_y(self->session);
    WbCriterion third;
    g_autofree char *words = wb_words_kit(wb_result_get_problem(self->result), &ranked->kit);
    g_autofree char *score = wb_text_number(ranked->score, 3);
    GString *text = g_string_new(words);
    g_string_append_c(text, '\n');
    add_figure(text, ranked, x, currency);
    add_figure(text, ranked, y, currency);
    if (sized_by(self, &third) && third != x && third != y)
        add_figure(text, ranked, third, currency);
    g_string_append_printf(text, _("score %s"), score);
    return g_string_free(text, FALSE);
}

static char *axis_label(WbCriterion criterion, const char *currency)
{
    return g_strdup_printf(wb_criterion_less_is_better(criterion) ? _("%s, %s (less is better)")
                                                                  : _("%s, %s (more is better)"),
                           wb_criterion_title(criterion),
                           wb_format_criterion_unit(criterion, currency));
}

/* The brush marks points, it hides none: all that pass the rest of the filter are there. */
static void gather(WbKitPlot *self)
{
    const WbProblem *problem = wb_result_get_problem(self->result);
    WbKitFilter filter = *wb_kit_list_get_filter(self->list); /* borrows its texts */
    filter.brushed = FALSE;
    g_ptr_array_set_size(self->points, 0);
    for (guint i = 0; i < wb_kit_list_get_n_ranked(self->list); i++) {
        const WbRanked *ranked = wb_kit_list_get_ranked(self->list, i);
        if (wb_kit_filter_passes(&filter, problem, ranked))
            g_ptr_array_add(self->points, (gpointer)ranked);
    }
}

/* Sizes 0..1 between the least and the most there is, and what they stand for. */
static void set_sizes(WbKitPlot *self, WbScatterPoint *points, const char *currency)
{
    WbCriterion third;
    double low = INFINITY, high = -INFINITY;
    gboolean sized = sized_by(self, &third);
    for (guint i = 0; sized && i < self->points->len; i++) {
        double value = wb_figure(&((const WbRanked *)self->points->pdata[i])->figures, third);
        low = fmin(low, value);
        high = fmax(high, value);
    }
    for (guint i = 0; sized && high > low && i < self->points->len; i++) {
        double value = wb_figure(&((const WbRanked *)self->points->pdata[i])->figures, third);
        points[i].size = isnan(value) ? 0 : (float)((value - low) / (high - low));
    }
    wb_scatter_set_sized(self->scatter, sized && high > low);
    if (sized && high >= low) {
        g_autofree char *least = wb_format_figure_bare(third, low, currency);
        g_autofree char *most = wb_format_figure(third, high, currency);
        /* Translators: what the smallest and the largest point stand for. */
        g_autofree char *text = g_strdup_printf(_("small %s, large %s"), least, most);
        gtk_label_set_text(self->sizes, text);
    }
    gtk_widget_set_visible(GTK_WIDGET(self->sizes), sized && high >= low);
}

static void set_points(WbKitPlot *self)
{
    const WbProblem *problem = wb_result_get_problem(self->result);
    WbCriterion x = wb_session_get_axis_x(self->session), y = wb_session_get_axis_y(self->session);
    const char *currency = problem->brief->currency;
    double x_scale = wb_format_criterion_scale(x, currency);
    double y_scale = wb_format_criterion_scale(y, currency);
    const char *names[WB_N_SERIES] = {NULL};
    /* Zero between the members as well: unchanged points are known by their bytes. */
    g_autofree WbScatterPoint *points = g_new0(WbScatterPoint, self->points->len + 1);
    for (guint i = 0; i < self->points->len; i++) {
        const WbRanked *ranked = self->points->pdata[i];
        const WbChemistry *chemistry = problem->storage[ranked->kit.storage].chemistry;
        guint series = wb_palette_series(chemistry->id);
        points[i].x = wb_figure(&ranked->figures, x) * x_scale;
        points[i].y = wb_figure(&ranked->figures, y) * y_scale;
        points[i].series = (guint8)series;
        points[i].front = ranked->on_front;
        gboolean shared = names[series] != NULL && names[series] != chemistry->name;
        names[series] = shared ? _("others") : chemistry->name;
    }
    set_sizes(self, points, currency);
    g_autofree char *x_label = axis_label(x, currency), *y_label = axis_label(y, currency);
    wb_scatter_set_points(self->scatter, points, self->points->len);
    wb_scatter_set_axes(self->scatter, x_label, wb_criterion_less_is_better(x), y_label,
                        wb_criterion_less_is_better(y));
    for (guint s = 0; s < WB_N_SERIES; s++)
        wb_scatter_set_series(self->scatter, s, names[s]);
}

/* ---- brush ---- */

/* Far less than what is shown of a figure, more than what rounding moves it. */
#define SLACK 1e-9

static WbKitRange range_of(WbCriterion criterion, double low, double high, double scale)
{
    double slack = SLACK * (fabs(low) + fabs(high));
    return (WbKitRange){criterion, (low - slack) / scale, (high + slack) / scale};
}

static void on_brush(WbKitPlot *self)
{
    const WbScatterBrush *brush = wb_scatter_get_brush(self->scatter);
    if (self->result == NULL)
        return;
    const char *currency = wb_result_get_brief(self->result)->currency;
    WbCriterion x = wb_session_get_axis_x(self->session), y = wb_session_get_axis_y(self->session);
    WbKitFilter filter = *wb_kit_list_get_filter(self->list);
    filter.brushed = brush != NULL;
    if (brush != NULL) {
        filter.brush[0] =
            range_of(x, brush->x_low, brush->x_high, wb_format_criterion_scale(x, currency));
        filter.brush[1] =
            range_of(y, brush->y_low, brush->y_high, wb_format_criterion_scale(y, currency));
    }
    self->brushing = TRUE;
    wb_kit_list_set_filter(self->list, &filter);
    self->brushing = FALSE;
}

/* Of other criteria than those shown it is only told by its chip. */
static void show_brush(WbKitPlot *self)
{
    const char *currency = wb_result_get_brief(self->result)->currency;
    WbCriterion x = wb_session_get_axis_x(self->session), y = wb_session_get_axis_y(self->session);
    const WbKitFilter *filter = wb_kit_list_get_filter(self->list);
    const WbKitRange *range = filter->brush;
    double x_scale = wb_format_criterion_scale(x, currency);
    double y_scale = wb_format_criterion_scale(y, currency);
    gboolean here = filter->brushed && range[0].criterion == x && range[1].criterion == y;
    WbScatterBrush brush = {range[0].low * x_scale, range[0].high * x_scale, range[1].low * y_scale,
                            range[1].high * y_scale};
    wb_scatter_set_brush(self->scatter, here ? &brush : NULL);
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
    show_brush(self);
    char kit_id[WB_KIT_ID];
    if (wb_result_kit_id(result, wb_session_get_kit(self->session), kit_id))
        wb_kit_plot_choose(self, kit_id);
}

/* While the brush moves, the points stay as they are. */
static void on_arranged(WbKitPlot *self)
{
    if (!self->brushing)
        refresh(self);
}

static void on_size(WbKitPlot *self)
{
    if (self->job != NULL)
        refresh(self);
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
    gtk_widget_class_bind_template_child(widget, WbKitPlot, size);
    gtk_widget_class_bind_template_child(widget, WbKitPlot, sizes);
    gtk_widget_class_bind_template_child(widget, WbKitPlot, scatter);
    gtk_widget_class_bind_template_callback(widget, on_axis);
    gtk_widget_class_bind_template_callback(widget, on_brush);
    gtk_widget_class_bind_template_callback(widget, on_chosen);
    gtk_widget_class_bind_template_callback(widget, on_size);
}

static void set_up_title(GtkSignalListItemFactory *factory, GtkListItem *item)
{
    GtkWidget *label = gtk_label_new(NULL);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_ellipsize(GTK_LABEL(label), PANGO_ELLIPSIZE_END);
    gtk_label_set_width_chars(GTK_LABEL(label), 6);
    gtk_list_item_set_child(item, label);
}

static void bind_title(GtkSignalListItemFactory *factory, GtkListItem *item)
{
    GtkStringObject *title = gtk_list_item_get_item(item);
    gtk_label_set_text(GTK_LABEL(gtk_list_item_get_child(item)),
                       gtk_string_object_get_string(title));
}

/* Titles give way in a narrow window: three choices stand side by side. */
static void shorten(GtkDropDown *choice)
{
    g_autoptr(GtkListItemFactory) factory = gtk_signal_list_item_factory_new();
    g_signal_connect(factory, "setup", G_CALLBACK(set_up_title), NULL);
    g_signal_connect(factory, "bind", G_CALLBACK(bind_title), NULL);
    gtk_drop_down_set_factory(choice, factory);
}

static void wb_kit_plot_init(WbKitPlot *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
    shorten(self->across);
    shorten(self->up);
    shorten(self->size);
    self->points = g_ptr_array_new();
    const char *titles[WB_N_CRITERIA + 1] = {NULL};
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++)
        titles[c] = wb_criterion_title(c);
    g_autoptr(GtkStringList) names = gtk_string_list_new(titles);
    gtk_drop_down_set_model(self->across, G_LIST_MODEL(names));
    gtk_drop_down_set_model(self->up, G_LIST_MODEL(names));
    g_autoptr(GtkStringList) sizes = gtk_string_list_new(NULL);
    gtk_string_list_append(sizes, C_("size of the points", "All the same"));
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++)
        gtk_string_list_append(sizes, wb_criterion_title(c));
    gtk_drop_down_set_model(self->size, G_LIST_MODEL(sizes));
    wb_scatter_set_text(self->scatter, point_text, self);
}

void wb_kit_plot_set_context(WbKitPlot *self, const WbContext *context, WbKitList *list)
{
    g_return_if_fail(WB_IS_KIT_PLOT(self) && self->session == NULL);
    self->session = g_object_ref(context->session);
    self->job = g_object_ref(context->job);
    self->list = g_object_ref(list);
    g_signal_connect_object(list, "arranged", G_CALLBACK(on_arranged), self, G_CONNECT_SWAPPED);
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
