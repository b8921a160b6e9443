/* The ranking page: points and table of the kits that work; beside them why the kit in hand stands
 * where it stands, the weights, and what was ruled out. */
#include "page.h"

#include "figures_text.h"
#include "kit_plot.h"
#include "kit_table.h"
#include "more_pane.h"
#include "nothing_works.h"
#include "resources.h"
#include "ruled_out_pane.h"
#include "weights_pane.h"
#include "why_pane.h"
#include <glib/gi18n-lib.h>

#define WB_TYPE_RANKING_PAGE (wb_ranking_page_get_type())
G_DECLARE_FINAL_TYPE(WbRankingPage, wb_ranking_page, WB, RANKING_PAGE, GtkBox)

struct _WbRankingPage {
    GtkBox parent_instance;
    GtkSpinner *spinner;
    GtkLabel *status;
    GtkButton *stop, *restart;
    GtkStack *main, *side;
    WbKitPlot *plot;
    WbKitTable *table;
    WbNothingWorks *nothing;
    WbWhyPane *why;
    WbWeightsPane *weights;
    WbRuledOutPane *ruled_out;
    WbMorePane *more;
    WbSession *session;
    WbRankingJob *job;
    WbKitList *list;
    guint frame; /* tick that shows the answer; 0: none waits */
    guint late;  /* timeout that says the ranking takes its time */
    gboolean due, why_due, weights_due, ruled_out_due;
    char *side_before; /* the pane shown before nothing worked, NULL: we did not turn it */
};

G_DEFINE_FINAL_TYPE(WbRankingPage, wb_ranking_page, GTK_TYPE_BOX)

/* What the last result says, as long as nothing runs. (transfer full) */
static char *result_line(const WbRanking *ranking)
{
    g_autofree char *works = wb_text_number((double)ranking->feasible, 0);
    g_autofree char *raw = wb_text_number((double)ranking->raw, 0);
    g_autofree char *front = wb_text_number((double)ranking->front_count, 0);
    if (ranking->front_too_many) {
        g_autofree char *most = wb_text_number(WB_RANK_FRONT_MOST, 0);
        return g_strdup_printf(_("%s of %s combinations work; more than %s of them beat each other "
                                 "nowhere, too many for a front: fewer criteria give one"),
                               works, raw, most);
    }
    return g_strdup_printf(_("%s of %s combinations work; %s are on the front, beaten by none in "
                             "what counts there"),
                           works, raw, front);
}

/* What the first answer says: the list is there, but not the last word. (transfer full) */
static char *soon_line(const WbRanking *ranking)
{
    g_autofree char *works = wb_text_number((double)ranking->feasible, 0);
    if (ranking->proved)
        return g_strdup_printf(_("%s work, in this order; their dark hours are being worked out"),
                               works);
    return g_strdup_printf(_("First answer: %s work before the dark hours, which are being worked "
                             "out and may rule some out or move them"),
                           works);
}

static char *status_line(WbRankingPage *self, WbResult *result)
{
    double progress = wb_ranking_job_get_progress(self->job);
    switch (wb_ranking_job_get_state(self->job)) {
    case WB_JOB_RUNNING:
        if (result != NULL && !wb_ranking_job_get_stale(self->job))
            return soon_line(wb_result_get_ranking(result));
        return progress >= 0
                   ? g_strdup_printf(_("Ranking again, %d %% done"), (int)(progress * 100))
                   : g_strdup(_("Ranking again"));
    case WB_JOB_STOPPED:
        return wb_ranking_job_get_stale(self->job)
                   ? g_strdup(_("Stopped; what you see is of before"))
                   : g_strdup(_("Stopped at the first answer, before the dark hours were worked "
                                "out"));
    case WB_JOB_FAILED:
        return g_strdup(wb_ranking_job_get_message(self->job));
    case WB_JOB_IDLE:
    default:
        return result != NULL ? result_line(wb_result_get_ranking(result)) : g_strdup("");
    }
}

/* Sooner than this an answer simply appears: no sign of work flickers while a slider is dragged. */
#define LATE_MS 150

static void show_status(WbRankingPage *self)
{
    g_clear_handle_id(&self->late, g_source_remove);
    WbJobState state = wb_ranking_job_get_state(self->job);
    WbResult *result = wb_ranking_job_get_result(self->job);
    gboolean stale = wb_ranking_job_get_stale(self->job);
    g_autofree char *line = status_line(self, result);
    gtk_label_set_text(self->status, line);
    if (g_strcmp0(gtk_widget_get_tooltip_text(GTK_WIDGET(self->status)), line) != 0)
        gtk_widget_set_tooltip_text(GTK_WIDGET(self->status), line);
    gtk_spinner_set_spinning(self->spinner, state == WB_JOB_RUNNING);
    gtk_widget_set_visible(GTK_WIDGET(self->stop), state == WB_JOB_RUNNING);
    gtk_widget_set_visible(GTK_WIDGET(self->restart),
                           state == WB_JOB_STOPPED || state == WB_JOB_FAILED);
    wb_kit_plot_set_stale(self->plot, stale);
    /* By a style class the theme would look at each of two thousand cells again. */
    gtk_widget_set_opacity(GTK_WIDGET(self->table), stale ? 0.55 : 1);
}

static gboolean on_late(gpointer data)
{
    WbRankingPage *self = data;
    self->late = 0;
    show_status(self);
    return G_SOURCE_REMOVE;
}

static void on_status(WbRankingPage *self)
{
    gboolean told = gtk_widget_get_visible(GTK_WIDGET(self->stop));
    if (wb_ranking_job_get_state(self->job) != WB_JOB_RUNNING || told)
        show_status(self);
    else if (self->late == 0)
        self->late = g_timeout_add(LATE_MS, on_late, self);
}

/* Of the panes beside only the one in sight is kept up to date; the others when they are turned to.
 */
static void show_side(WbRankingPage *self)
{
    WbResult *result = wb_ranking_job_get_result(self->job);
    const char *now = gtk_stack_get_visible_child_name(self->side);
    if (self->why_due && g_strcmp0(now, "why") == 0) {
        self->why_due = FALSE;
        wb_why_pane_show(self->why, result, wb_session_get_kit(self->session));
    }
    if (self->weights_due && g_strcmp0(now, "wishes") == 0) {
        self->weights_due = FALSE;
        wb_weights_pane_show(self->weights, result);
    }
    if (self->ruled_out_due && g_strcmp0(now, "ruled-out") == 0) {
        self->ruled_out_due = FALSE;
        wb_ruled_out_pane_show(self->ruled_out, result);
    }
}

static void show_kit(WbRankingPage *self)
{
    if (self->due)
        return; /* the answer that waits brings it along */
    WbResult *result = wb_ranking_job_get_result(self->job);
    const char *wanted = wb_session_get_kit(self->session);
    char kit_id[WB_KIT_ID];
    gboolean any = result != NULL && wb_result_kit_id(result, wanted, kit_id);
    self->why_due = TRUE;
    show_side(self);
    wb_more_pane_show(self->more, result);
    wb_kit_table_choose(self->table, any ? kit_id : NULL);
    wb_kit_plot_choose(self->plot, any ? kit_id : NULL);
}

/* Turns to what was ruled out while nothing works, and back afterwards unless the person chose
 * another pane meanwhile. */
static void turn_side(WbRankingPage *self, gboolean nothing_works)
{
    const char *now = gtk_stack_get_visible_child_name(self->side);
    if (nothing_works && self->side_before == NULL) {
        self->side_before = g_strdup(now);
        gtk_stack_set_visible_child_name(self->side, "ruled-out");
    } else if (!nothing_works && self->side_before != NULL) {
        if (g_str_equal(now, "ruled-out"))
            gtk_stack_set_visible_child_name(self->side, self->side_before);
        g_clear_pointer(&self->side_before, g_free);
    }
}

static void show_result(WbRankingPage *self)
{
    self->due = FALSE;
    WbResult *result = wb_ranking_job_get_result(self->job);
    gboolean works = result != NULL && wb_result_get_ranking(result)->feasible > 0;
    gtk_stack_set_visible_child_name(self->main, result == NULL ? "waiting"
                                                 : works        ? "kits"
                                                                : "none");
    wb_kit_table_show(self->table, result);
    wb_nothing_works_show(self->nothing, result);
    self->weights_due = self->ruled_out_due = TRUE;
    if (result != NULL)
        turn_side(self, !works);
    show_kit(self);
    show_status(self);
}

static gboolean on_frame(GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
    WbRankingPage *self = WB_RANKING_PAGE(widget);
    self->frame = 0;
    show_result(self);
    return G_SOURCE_REMOVE;
}

/* At most one answer a frame, and none while the page is out of sight. */
static void on_result(WbRankingPage *self)
{
    self->due = TRUE;
    if (self->frame == 0 && gtk_widget_get_mapped(GTK_WIDGET(self)))
        self->frame = gtk_widget_add_tick_callback(GTK_WIDGET(self), on_frame, NULL, NULL);
}

static void on_map(WbRankingPage *self)
{
    if (self->due)
        show_result(self);
}

static void on_unmap(WbRankingPage *self)
{
    if (self->frame != 0)
        gtk_widget_remove_tick_callback(GTK_WIDGET(self), self->frame);
    self->frame = 0;
}

static void on_stop(WbRankingPage *self)
{
    wb_ranking_job_stop(self->job);
}

static void on_restart(WbRankingPage *self)
{
    wb_ranking_job_restart(self->job);
}

static void wb_ranking_page_dispose(GObject *object)
{
    WbRankingPage *self = WB_RANKING_PAGE(object);
    g_clear_handle_id(&self->late, g_source_remove);
    g_clear_object(&self->list);
    g_clear_object(&self->session);
    g_clear_object(&self->job);
    g_clear_pointer(&self->side_before, g_free);
    G_OBJECT_CLASS(wb_ranking_page_parent_class)->dispose(object);
}

static void bind_children(GtkWidgetClass *widget)
{
    gtk_widget_class_bind_template_child(widget, WbRankingPage, spinner);
    gtk_widget_class_bind_template_child(widget, WbRankingPage, status);
    gtk_widget_class_bind_template_child(widget, WbRankingPage, stop);
    gtk_widget_class_bind_template_child(widget, WbRankingPage, restart);
    gtk_widget_class_bind_template_child(widget, WbRankingPage, main);
    gtk_widget_class_bind_template_child(widget, WbRankingPage, side);
    gtk_widget_class_bind_template_child(widget, WbRankingPage, plot);
    gtk_widget_class_bind_template_child(widget, WbRankingPage, table);
    gtk_widget_class_bind_template_child(widget, WbRankingPage, nothing);
    gtk_widget_class_bind_template_child(widget, WbRankingPage, why);
    gtk_widget_class_bind_template_child(widget, WbRankingPage, weights);
    gtk_widget_class_bind_template_child(widget, WbRankingPage, ruled_out);
    gtk_widget_class_bind_template_child(widget, WbRankingPage, more);
}

static void wb_ranking_page_class_init(WbRankingPageClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = wb_ranking_page_dispose;
    g_type_ensure(WB_TYPE_KIT_PLOT);
    g_type_ensure(WB_TYPE_KIT_TABLE);
    g_type_ensure(WB_TYPE_NOTHING_WORKS);
    g_type_ensure(WB_TYPE_WHY_PANE);
    g_type_ensure(WB_TYPE_WEIGHTS_PANE);
    g_type_ensure(WB_TYPE_RULED_OUT_PANE);
    g_type_ensure(WB_TYPE_MORE_PANE);
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/ranking/page.ui");
    bind_children(widget);
    gtk_widget_class_bind_template_callback(widget, on_stop);
    gtk_widget_class_bind_template_callback(widget, on_restart);
}

static void wb_ranking_page_init(WbRankingPage *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
}

GtkWidget *wb_ranking_page_new(const WbContext *context)
{
    WbRankingPage *self = g_object_new(WB_TYPE_RANKING_PAGE, NULL);
    self->session = g_object_ref(context->session);
    self->job = g_object_ref(context->job);
    self->list = wb_kit_list_new();
    wb_kit_plot_set_context(self->plot, context, self->list);
    wb_kit_table_set_context(self->table, context, self->list);
    wb_nothing_works_set_context(self->nothing, context);
    wb_weights_pane_set_context(self->weights, context);
    wb_ruled_out_pane_set_session(self->ruled_out, context->session);
    wb_more_pane_set_session(self->more, context->session);
    g_signal_connect_object(self->job, "result", G_CALLBACK(on_result), self, G_CONNECT_SWAPPED);
    static const char *const watched[] = {"notify::state", "notify::stale", "notify::progress",
                                          "notify::message"};
    for (guint i = 0; i < G_N_ELEMENTS(watched); i++)
        g_signal_connect_object(self->job, watched[i], G_CALLBACK(on_status), self,
                                G_CONNECT_SWAPPED);
    g_signal_connect_object(self->session, "notify::kit", G_CALLBACK(show_kit), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect(self, "map", G_CALLBACK(on_map), NULL);
    g_signal_connect(self, "unmap", G_CALLBACK(on_unmap), NULL);
    g_signal_connect_object(self->side, "notify::visible-child-name", G_CALLBACK(show_side), self,
                            G_CONNECT_SWAPPED);
    show_result(self);
    return GTK_WIDGET(self);
}
