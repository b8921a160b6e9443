#include "more_pane.h"

#include "columns.h"
#include "format.h"
#include "kit_list.h"
#include "more_study.h"
#include "resources.h"
#include "step_chart.h"
#include "words_more.h"
#include <glib/gi18n-lib.h>
#include <math.h>

#define PROGRESS_MS 100

enum { NEEDS, GIVES, KIT, N_COLUMNS };

struct _WbMorePane {
    GtkBox parent_instance;
    GtkDropDown *resource, *gain;
    GtkLabel *words, *status;
    GtkBox *work;
    GtkSpinner *spinner;
    GtkButton *stop, *go_on;
    WbStepChart *chart;
    GtkColumnView *view;
    GtkColumnViewColumn *column[N_COLUMNS];
    GtkSingleSelection *selection;
    WbMoreStudy *study;
    WbSession *session;
    WbResult *result;         /* the kit in hand is one of its */
    WbResult *of;             /* owns what `curve` borrows; NULL: no curve is shown */
    const WbMoreCurve *curve; /* of the study */
    guint progress_source;
};

G_DEFINE_FINAL_TYPE(WbMorePane, wb_more_pane, GTK_TYPE_BOX)

static const char *currency_of(WbMorePane *self)
{
    return wb_result_get_brief(self->of)->currency;
}

/* ---- the table ---- */

/* A row's item is a string of its own; what it shows follows from its place. */
static char *cell_text(WbMorePane *self, guint index, int column)
{
    const WbCurveStep *step = &self->curve->step[index];
    if (column == KIT)
        return wb_words_kit(wb_result_get_problem(self->of), &step->kit);
    if (column == GIVES)
        return wb_words_curve_number(self->curve->gain, step->gain, currency_of(self));
    return wb_words_curve_number(self->curve->resource, step->resource, currency_of(self));
}

static void set_up(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer column)
{
    GtkWidget *text = gtk_inscription_new(NULL);
    gboolean words = GPOINTER_TO_INT(column) == KIT;
    gtk_inscription_set_xalign(GTK_INSCRIPTION(text), words ? 0 : 1);
    gtk_inscription_set_text_overflow(GTK_INSCRIPTION(text),
                                      GTK_INSCRIPTION_OVERFLOW_ELLIPSIZE_END);
    gtk_inscription_set_min_chars(GTK_INSCRIPTION(text), words ? 8 : 7);
    gtk_inscription_set_yalign(GTK_INSCRIPTION(text), 0);
    gtk_inscription_set_min_lines(GTK_INSCRIPTION(text), words ? 2 : 1);
    gtk_widget_add_css_class(text, "small");
    gtk_widget_add_css_class(text, "numeric");
    gtk_list_item_set_child(item, text);
}

static void bind(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer column)
{
    GtkWidget *text = gtk_list_item_get_child(item);
    WbMorePane *self = WB_MORE_PANE(gtk_widget_get_ancestor(text, WB_TYPE_MORE_PANE));
    guint index = gtk_list_item_get_position(item);
    if (self == NULL || self->curve == NULL || index >= self->curve->n)
        return;
    g_autofree char *words = cell_text(self, index, GPOINTER_TO_INT(column));
    g_autofree char *kit = cell_text(self, index, KIT);
    gboolean beyond = self->curve->step[index].resource > self->curve->limit;
    g_autofree char *tip =
        beyond ? g_strdup_printf(_("%s\nBeyond your limit, which is all that stops this kit"), kit)
               : g_steal_pointer(&kit);
    gtk_inscription_set_text(GTK_INSCRIPTION(text), words);
    gtk_widget_set_tooltip_text(text, tip);
    if (beyond && GPOINTER_TO_INT(column) == NEEDS)
        gtk_widget_add_css_class(text, "stop");
    else
        gtk_widget_remove_css_class(text, "stop");
}

static void add_column(WbMorePane *self, int column)
{
    GtkListItemFactory *factory = gtk_signal_list_item_factory_new();
    g_signal_connect(factory, "setup", G_CALLBACK(set_up), GINT_TO_POINTER(column));
    g_signal_connect(factory, "bind", G_CALLBACK(bind), GINT_TO_POINTER(column));
    g_autoptr(GtkColumnViewColumn) added = gtk_column_view_column_new(NULL, factory);
    gtk_column_view_column_set_expand(added, column == KIT);
    gtk_column_view_append_column(self->view, added);
    self->column[column] = added;
}

static void fill_table(WbMorePane *self)
{
    g_autoptr(GtkStringList) rows = gtk_string_list_new(NULL);
    for (size_t i = 0; self->curve != NULL && i < self->curve->n; i++)
        gtk_string_list_append(rows, "");
    gtk_single_selection_set_model(self->selection, G_LIST_MODEL(rows));
}

/* ---- words and picture ---- */

static char *step_text(guint index, gpointer data)
{
    WbMorePane *self = data;
    if (self->curve == NULL || index >= self->curve->n)
        return g_strdup("");
    const WbCurveStep *step = &self->curve->step[index];
    g_autofree char *needs =
        wb_words_curve_figure(self->curve->resource, step->resource, currency_of(self));
    g_autofree char *gives =
        wb_words_curve_figure(self->curve->gain, step->gain, currency_of(self));
    return step->resource > self->curve->limit
               ? g_strdup_printf(_("%s: %s\nbeyond your limit"), needs, gives)
               : g_strdup_printf(_("%s: %s"), needs, gives);
}

static char *axis_label(WbCriterion criterion, const char *currency)
{
    return g_strdup_printf(_("%s, %s"), wb_criterion_title(criterion),
                           wb_format_criterion_unit(criterion, currency));
}

/* Short, for the head of a column; the picture has the whole words. */
static char *head_text(WbCriterion criterion, const char *currency)
{
    if (criterion == WB_CRITERION_USABLE)
        return g_strdup(C_("column head, short", "Usable, Wh"));
    if (criterion == WB_CRITERION_DARK)
        return g_strdup(C_("column head, short", "Dark, h"));
    return criterion == WB_CRITERION_ROOF ? g_strdup(C_("column head, short", "Roof, m²"))
                                          : axis_label(criterion, currency);
}

/* The year is worked out only where the picture is about it. FALSE: no kit is in hand. */
static gboolean judge_hand(WbMorePane *self, WbVerdict *verdict)
{
    const char *wanted = self->session != NULL ? wb_session_get_kit(self->session) : NULL;
    char kit_id[WB_KIT_ID];
    WbKit kit;
    if (self->result == NULL || !wb_result_kit_id(self->result, wanted, kit_id))
        return FALSE;
    const WbProblem *problem = wb_result_get_problem(self->result);
    if (!wb_kit_parse(problem, kit_id, &kit))
        return FALSE;
    if (self->curve->gain == WB_CRITERION_DARK)
        return wb_judge(problem, &kit, verdict) == WB_OK;
    wb_judge_without_year(problem, &kit, verdict);
    return TRUE;
}

/* What it needs and gives; NaN where none is. */
static void show_hand(WbMorePane *self, double *needs, double *gives)
{
    g_autofree WbVerdict *verdict = g_new(WbVerdict, 1);
    gboolean any = judge_hand(self, verdict);
    double scale = wb_format_criterion_scale(self->curve->resource, currency_of(self));
    *needs = any ? wb_figure(&verdict->figures, self->curve->resource) : NAN;
    *gives = any ? wb_figure(&verdict->figures, self->curve->gain) : NAN;
    wb_step_chart_set_hand(self->chart, *needs * scale, *gives);
    guint row = GTK_INVALID_LIST_POSITION;
    for (size_t i = 0; any && i < self->curve->n; i++)
        if (wb_kit_compare(NULL, &self->curve->step[i].kit, &verdict->kit) == 0)
            row = (guint)i;
    gtk_single_selection_set_selected(self->selection, row);
}

static void show_steps(WbMorePane *self)
{
    const WbMoreCurve *curve = self->curve;
    double scale = wb_format_criterion_scale(curve->resource, currency_of(self));
    g_autofree WbStep *steps = g_new(WbStep, curve->n + 1);
    for (size_t i = 0; i < curve->n; i++)
        steps[i] = (WbStep){curve->step[i].resource * scale, curve->step[i].gain};
    wb_step_chart_set_steps(self->chart, steps, (guint)curve->n, curve->limit * scale,
                            curve->reaches * scale);
}

static void show_words(WbMorePane *self)
{
    double needs, gives;
    const WbMoreCurve *curve = self->curve;
    show_hand(self, &needs, &gives);
    g_autofree char *x = axis_label(curve->resource, currency_of(self));
    g_autofree char *y = axis_label(curve->gain, currency_of(self));
    g_autofree char *words = wb_words_curve(wb_result_get_problem(self->of), curve, needs, gives);
    gtk_label_set_text(self->words, words);
    wb_step_chart_set_words(self->chart, x, y, words);
    g_autofree char *needs_head = head_text(curve->resource, currency_of(self));
    g_autofree char *gives_head = head_text(curve->gain, currency_of(self));
    gtk_column_view_column_set_title(self->column[NEEDS], needs_head);
    gtk_column_view_column_set_title(self->column[GIVES], gives_head);
    wb_columns_align_heads(self->view, ~(G_GUINT64_CONSTANT(1) << KIT));
}

static void show_nothing(WbMorePane *self)
{
    WbMoreState state = wb_more_study_get_state(self->study);
    const char *words =
        state == WB_MORE_TOO_MANY
            ? _("Too many kits work to tell what more would buy: untick some parts, or set limits "
                "on money and weight.")
        : state == WB_MORE_FAILED ? _("There was not enough memory to work it out.")
        : self->result == NULL    ? _("Nothing has been ranked yet.")
                                  : "";
    gtk_label_set_text(self->words, words);
    wb_step_chart_set_steps(self->chart, NULL, 0, INFINITY, INFINITY);
    wb_step_chart_set_words(self->chart, "", "", words);
}

/* ---- what is at work ---- */

static void show_status(WbMorePane *self)
{
    WbMoreState state = wb_more_study_get_state(self->study);
    double progress = wb_more_study_get_progress(self->study);
    gboolean running = state == WB_MORE_RUNNING;
    g_autofree char *text =
        !running        ? g_strdup(_("Stopped"))
        : progress >= 0 ? g_strdup_printf(_("Working it out, %d %% done"), (int)(progress * 100))
                        : g_strdup(_("Working it out"));
    gtk_label_set_text(self->status, text);
    gtk_spinner_set_spinning(self->spinner, running);
    gtk_widget_set_visible(GTK_WIDGET(self->work), running || state == WB_MORE_STOPPED);
    gtk_widget_set_visible(GTK_WIDGET(self->spinner), running);
    gtk_widget_set_visible(GTK_WIDGET(self->stop), running);
    gtk_widget_set_visible(GTK_WIDGET(self->go_on), state == WB_MORE_STOPPED);
    wb_step_chart_set_stale(self->chart, wb_more_study_is_stale(self->study));
}

static gboolean on_progress(gpointer data)
{
    show_status(data);
    return G_SOURCE_CONTINUE;
}

static void watch_progress(WbMorePane *self)
{
    gboolean running = wb_more_study_get_state(self->study) == WB_MORE_RUNNING;
    if (running && self->progress_source == 0)
        self->progress_source = g_timeout_add(PROGRESS_MS, on_progress, self);
    else if (!running)
        g_clear_handle_id(&self->progress_source, g_source_remove);
}

static void on_study(WbMorePane *self)
{
    WbResult *of;
    const WbMoreCurve *curve = wb_more_study_get(self->study, &of);
    if (!gtk_widget_get_mapped(GTK_WIDGET(self))) { /* out of sight nothing is judged */
        curve = NULL;
        of = NULL;
    }
    gboolean other = curve != self->curve || of != self->of;
    if (curve != NULL)
        wb_result_ref(of);
    g_clear_pointer(&self->of, wb_result_unref);
    self->of = of;
    self->curve = curve;
    if (other || curve == NULL)
        fill_table(self);
    if (curve != NULL && other)
        show_steps(self);
    if (curve != NULL)
        show_words(self);
    else
        show_nothing(self);
    show_status(self);
    watch_progress(self);
}

/* ---- the person ---- */

static void on_choice(WbMorePane *self)
{
    if (self->study != NULL)
        wb_more_study_ask(self->study, gtk_drop_down_get_selected(self->resource),
                          gtk_drop_down_get_selected(self->gain));
}

static void on_stop(WbMorePane *self)
{
    wb_more_study_stop(self->study);
}

static void on_go_on(WbMorePane *self)
{
    wb_more_study_go_on(self->study);
}

static void on_chosen(WbMorePane *self, guint index)
{
    char kit_id[WB_KIT_ID];
    if (self->session == NULL || self->curve == NULL || index >= self->curve->n)
        return;
    wb_kit_id(wb_result_get_problem(self->of), &self->curve->step[index].kit, kit_id);
    wb_session_set_kit(self->session, kit_id);
}

static void on_map(WbMorePane *self)
{
    wb_more_study_set_awake(self->study, TRUE);
}

static void on_unmap(WbMorePane *self)
{
    wb_more_study_set_awake(self->study, FALSE);
}

/* ---- public ---- */

void wb_more_pane_set_session(WbMorePane *self, WbSession *session)
{
    g_return_if_fail(WB_IS_MORE_PANE(self));
    g_set_object(&self->session, session);
}

void wb_more_pane_show(WbMorePane *self, WbResult *result)
{
    g_return_if_fail(WB_IS_MORE_PANE(self));
    WbResult *kept = result != NULL ? wb_result_ref(result) : NULL;
    gboolean other = result != self->result;
    g_clear_pointer(&self->result, wb_result_unref);
    self->result = kept;
    if (other)
        wb_more_study_set_result(self->study, result);
    else if (self->curve != NULL && gtk_widget_get_mapped(GTK_WIDGET(self)))
        show_words(self);
}

gboolean wb_more_pane_get_busy(WbMorePane *self)
{
    g_return_val_if_fail(WB_IS_MORE_PANE(self), FALSE);
    return wb_more_study_get_state(self->study) == WB_MORE_RUNNING;
}

/* ---- GObject ---- */

static void wb_more_pane_dispose(GObject *object)
{
    WbMorePane *self = WB_MORE_PANE(object);
    g_clear_handle_id(&self->progress_source, g_source_remove);
    if (self->study != NULL)
        g_signal_handlers_disconnect_by_data(self->study, self);
    self->curve = NULL;
    g_clear_object(&self->study);
    g_clear_object(&self->session);
    g_clear_pointer(&self->result, wb_result_unref);
    g_clear_pointer(&self->of, wb_result_unref);
    G_OBJECT_CLASS(wb_more_pane_parent_class)->dispose(object);
}

static void bind_children(GtkWidgetClass *widget)
{
    gtk_widget_class_bind_template_child(widget, WbMorePane, resource);
    gtk_widget_class_bind_template_child(widget, WbMorePane, gain);
    gtk_widget_class_bind_template_child(widget, WbMorePane, words);
    gtk_widget_class_bind_template_child(widget, WbMorePane, work);
    gtk_widget_class_bind_template_child(widget, WbMorePane, spinner);
    gtk_widget_class_bind_template_child(widget, WbMorePane, status);
    gtk_widget_class_bind_template_child(widget, WbMorePane, stop);
    gtk_widget_class_bind_template_child(widget, WbMorePane, go_on);
    gtk_widget_class_bind_template_child(widget, WbMorePane, chart);
    gtk_widget_class_bind_template_child(widget, WbMorePane, view);
}

static void wb_more_pane_class_init(WbMorePaneClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = wb_more_pane_dispose;
    g_type_ensure(WB_TYPE_STEP_CHART);
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/ranking/more.ui");
    bind_children(widget);
    gtk_widget_class_bind_template_callback(widget, on_choice);
    gtk_widget_class_bind_template_callback(widget, on_stop);
    gtk_widget_class_bind_template_callback(widget, on_go_on);
    gtk_widget_class_bind_template_callback(widget, on_chosen);
}

static void wb_more_pane_init(WbMorePane *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
    const char *const resources[] = {_("Money"), _("Weight"), _("Roof"), NULL};
    const char *const gains[] = {_("Usable capacity"), _("Dark hours"), NULL};
    g_autoptr(GtkStringList) resource_names = gtk_string_list_new(resources);
    g_autoptr(GtkStringList) gain_names = gtk_string_list_new(gains);
    gtk_drop_down_set_model(self->resource, G_LIST_MODEL(resource_names));
    gtk_drop_down_set_model(self->gain, G_LIST_MODEL(gain_names));
    for (int column = 0; column < N_COLUMNS; column++)
        add_column(self, column);
    gtk_column_view_column_set_title(self->column[KIT], _("Kit"));
    self->selection = gtk_single_selection_new(NULL);
    gtk_single_selection_set_autoselect(self->selection, FALSE);
    gtk_single_selection_set_can_unselect(self->selection, TRUE);
    gtk_column_view_set_model(self->view, GTK_SELECTION_MODEL(self->selection));
    g_object_unref(self->selection); /* the view keeps it */
    wb_step_chart_set_text(self->chart, step_text, self);
    self->study = wb_more_study_new();
    g_signal_connect_swapped(self->study, "changed", G_CALLBACK(on_study), self);
    g_signal_connect(self, "map", G_CALLBACK(on_map), NULL);
    g_signal_connect(self, "unmap", G_CALLBACK(on_unmap), NULL);
    on_study(self);
}
