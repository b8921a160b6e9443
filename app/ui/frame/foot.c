#include "foot.h"
#include "children.h"
#include "figures_text.h"
#include "gauge_bar.h"
#include "outline.h"
#include "resources.h"
#include <glib/gi18n-lib.h>
#include <math.h>

struct _WbFoot {
    GtkWidget parent_instance;
    WbContext context;
    GtkLabel *caption, *words, *status;
    GtkProgressBar *progress;
    GtkWidget *stop, *again, *best, *keep, *pin;
    GtkBox *gauges;
    GtkWidget *gauge[WB_N_GAUGES];
    guint late; /* timeout that says the ranking takes its time */
};

G_DEFINE_FINAL_TYPE(WbFoot, wb_foot, GTK_TYPE_WIDGET)

static const char *const gauge_titles[WB_N_GAUGES] = {N_("Money"), N_("Weight"), N_("Usable"),
                                                      N_("Roof")};

static void show_gauge(WbFoot *self, int which, const WbGauge *gauge)
{
    g_autofree char *words = gauge->broken_by
                                 ? g_strdup_printf("%s, %s", gauge->text, gauge->broken_by)
                                 : g_strdup(gauge->text ? gauge->text : "");
    wb_gauge_bar_set(WB_GAUGE_BAR(self->gauge[which]), _(gauge_titles[which]), words,
                     gauge->text ? gauge->value : NAN, gauge->limit, !gauge->least);
}

static void show_pin(WbFoot *self, const WbInHand *in_hand)
{
    gboolean pinned =
        in_hand->words && wb_session_is_pinned(self->context.session, in_hand->kit_id);
    gtk_button_set_label(GTK_BUTTON(self->pin), pinned ? _("Unpin") : _("Pin"));
}

static void refresh(WbFoot *self)
{
    WbInHand in_hand;
    WbResult *result = wb_ranking_job_get_result(self->context.job);
    gboolean any = wb_in_hand_make(result, wb_session_get_kit(self->context.session), &in_hand);
    gtk_label_set_text(self->caption, in_hand.best ? _("Kit in hand, the best") : _("Kit in hand"));
    gtk_label_set_text(self->words, any      ? in_hand.words
                                    : result ? _("none: no kit works yet")
                                             : _("being worked out"));
    const char *tip = any ? in_hand.words : NULL;
    if (g_strcmp0(gtk_widget_get_tooltip_text(GTK_WIDGET(self->words)), tip) != 0)
        gtk_widget_set_tooltip_text(GTK_WIDGET(self->words), tip);
    gtk_widget_set_visible(self->best, any && !in_hand.best);
    gtk_widget_set_visible(self->keep, any);
    gtk_widget_set_visible(self->pin, any);
    show_pin(self, &in_hand);
    for (int i = 0; i < WB_N_GAUGES; i++)
        show_gauge(self, i, &in_hand.gauge[i]);
    wb_in_hand_clear(&in_hand);
}

static void show_progress(WbFoot *self)
{
    double progress = wb_ranking_job_get_progress(self->context.job);
    if (progress < 0)
        gtk_progress_bar_pulse(self->progress);
    else
        gtk_progress_bar_set_fraction(self->progress, progress);
}

static char *status_text(WbRankingJob *job)
{
    const char *message = wb_ranking_job_get_message(job);
    WbResult *result = wb_ranking_job_get_result(job);
    switch (wb_ranking_job_get_state(job)) {
    case WB_JOB_RUNNING:
        return g_strdup(_("ranking"));
    case WB_JOB_STOPPED:
        return wb_ranking_job_get_stale(job)
                   ? g_strdup(_("stopped; the figures are of an earlier state"))
                   : g_strdup(_("stopped before the dark hours were worked out"));
    case WB_JOB_FAILED:
        return g_strdup(message ? message : _("the ranking could not be made"));
    case WB_JOB_IDLE:
        break;
    }
    if (!result)
        return g_strdup("");
    g_autofree char *raw = wb_text_number((double)wb_result_get_ranking(result)->raw, 0);
    g_autofree char *seconds = wb_text_number(wb_result_get_seconds(result), 2);
    /* Translators: number of combinations tried, seconds it took. */
    return g_strdup_printf(_("%s combinations in %s s"), raw, seconds);
}

static void show_state(WbFoot *self)
{
    g_clear_handle_id(&self->late, g_source_remove);
    WbJobState state = wb_ranking_job_get_state(self->context.job);
    g_autofree char *text = status_text(self->context.job);
    gtk_label_set_text(self->status, text);
    gtk_widget_set_visible(GTK_WIDGET(self->progress), state == WB_JOB_RUNNING);
    gtk_widget_set_visible(self->stop, state == WB_JOB_RUNNING);
    gtk_widget_set_visible(self->again, state == WB_JOB_STOPPED || state == WB_JOB_FAILED);
    if (wb_ranking_job_get_stale(self->context.job))
        gtk_widget_add_css_class(GTK_WIDGET(self->gauges), "stale");
    else
        gtk_widget_remove_css_class(GTK_WIDGET(self->gauges), "stale");
}

/* Sooner than this an answer simply appears; nothing flickers while a slider is dragged. */
#define LATE_MS 150

static gboolean on_late(gpointer data)
{
    WbFoot *self = data;
    self->late = 0;
    show_state(self);
    return G_SOURCE_REMOVE;
}

static void on_state(WbFoot *self)
{
    if (wb_ranking_job_get_state(self->context.job) != WB_JOB_RUNNING ||
        gtk_widget_get_visible(self->stop))
        show_state(self);
    else if (self->late == 0)
        self->late = g_timeout_add(LATE_MS, on_late, self);
}

void wb_foot_set_context(WbFoot *self, const WbContext *context)
{
    g_return_if_fail(WB_IS_FOOT(self) && !self->context.document);
    self->context = *context;
    g_signal_connect_object(context->job, "result", G_CALLBACK(refresh), self, G_CONNECT_SWAPPED);
    g_signal_connect_object(context->session, "notify::kit", G_CALLBACK(refresh), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(context->session, "pins-changed", G_CALLBACK(refresh), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(context->job, "notify::state", G_CALLBACK(on_state), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(context->job, "notify::stale", G_CALLBACK(on_state), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(context->job, "notify::progress", G_CALLBACK(show_progress), self,
                            G_CONNECT_SWAPPED);
    refresh(self);
    show_state(self);
}

static void wb_foot_dispose(GObject *object)
{
    g_clear_handle_id(&WB_FOOT(object)->late, g_source_remove);
    wb_drop_children(GTK_WIDGET(object), WB_TYPE_FOOT);
    G_OBJECT_CLASS(wb_foot_parent_class)->dispose(object);
}

static void wb_foot_class_init(WbFootClass *klass)
{
    GtkWidgetClass *widget_class = GTK_WIDGET_CLASS(klass);
    G_OBJECT_CLASS(klass)->dispose = wb_foot_dispose;
    gtk_widget_class_set_template_from_resource(widget_class, WB_RESOURCE_PREFIX "/frame/foot.ui");
    gtk_widget_class_bind_template_child(widget_class, WbFoot, caption);
    gtk_widget_class_bind_template_child(widget_class, WbFoot, words);
    gtk_widget_class_bind_template_child(widget_class, WbFoot, status);
    gtk_widget_class_bind_template_child(widget_class, WbFoot, progress);
    gtk_widget_class_bind_template_child(widget_class, WbFoot, stop);
    gtk_widget_class_bind_template_child(widget_class, WbFoot, again);
    gtk_widget_class_bind_template_child(widget_class, WbFoot, best);
    gtk_widget_class_bind_template_child(widget_class, WbFoot, keep);
    gtk_widget_class_bind_template_child(widget_class, WbFoot, pin);
    gtk_widget_class_bind_template_child(widget_class, WbFoot, gauges);
    gtk_widget_class_set_css_name(widget_class, "foot");
}

static void wb_foot_init(WbFoot *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
    for (int i = 0; i < WB_N_GAUGES; i++) {
        self->gauge[i] = wb_gauge_bar_new();
        gtk_box_append(self->gauges, self->gauge[i]);
    }
}
