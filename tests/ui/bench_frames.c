/* How long the window's own thread works for a frame of the ranking page: while a weight slider is
 * dragged, one step a frame, and while the table is scrolled. Prints CSV, judges nothing.
 *
 * Busy time is what passes between two frames less the waiting for events; processor time of the
 * thread beside it, which other work on the machine does not lengthen. Figures in ms. */
#include "brief_file.h"
#include "catalogue_store.h"
#include "look.h"
#include "outline.h"
#include "resources.h"
#include "scatter.h"
#include "wb-resources.h"
#include "window.h"
#include <gtk/gtk.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define STEPS 100
#define MANY_ROWS 100000
#define MANY_MONEY 600000 /* in the smallest unit */
#define MANY_KG 300
#define MANY_SECONDS 120

typedef struct {
    gint64 waited_us; /* in poll since the last frame */
    gint64 last_us;
    double last_cpu_ms;
    GArray *busy, *cpu, *gap; /* double, ms */
    guint steps_left;
    void (*step)(gpointer data, guint step);
    gpointer data;
} Watch;

static Watch *watch;
static const char *only; /* just the run whose name begins so; NULL: all */

static double cpu_ms(void)
{
    struct timespec now;
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

static gint poll_and_count(GPollFD *fds, guint n, gint timeout)
{
    gint64 begun_us = g_get_monotonic_time();
    gint ready = g_poll(fds, n, timeout);
    if (watch != NULL)
        watch->waited_us += g_get_monotonic_time() - begun_us;
    return ready;
}

static void on_after_paint(GdkFrameClock *clock, Watch *self)
{
    gint64 now_us = g_get_monotonic_time();
    double cpu = cpu_ms();
    if (self->last_us > 0) {
        double gap = (double)(now_us - self->last_us) / 1e3;
        double busy = gap - (double)self->waited_us / 1e3;
        double spent = cpu - self->last_cpu_ms;
        g_array_append_val(self->gap, gap);
        g_array_append_val(self->busy, busy);
        g_array_append_val(self->cpu, spent);
    }
    self->last_us = now_us;
    self->last_cpu_ms = cpu;
    self->waited_us = 0;
}

static gboolean on_tick(GtkWidget *window, GdkFrameClock *clock, gpointer data)
{
    Watch *self = data;
    if (self->steps_left == 0)
        return G_SOURCE_REMOVE;
    self->step(self->data, STEPS - self->steps_left);
    self->steps_left--;
    return G_SOURCE_CONTINUE;
}

static int by_value(gconstpointer a, gconstpointer b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static void print_row(const char *what, const char *measure, GArray *values)
{
    static const double shares[] = {0.5, 0.95, 0.99, 1};
    g_array_sort(values, by_value);
    g_print("%s,%s,%u", what, measure, values->len);
    for (guint i = 0; i < G_N_ELEMENTS(shares); i++)
        g_print(",%.2f",
                g_array_index(values, double, (guint)((double)(values->len - 1) * shares[i])));
    g_print("\n");
}

static void turn_for(guint ms)
{
    gint64 end_us = g_get_monotonic_time() + (gint64)ms * 1000;
    while (g_get_monotonic_time() < end_us)
        if (!g_main_context_iteration(NULL, FALSE))
            g_usleep(1000);
}

/* One step a frame until all are done, and what follows of them for a while. */
static void run(GtkWidget *window, const char *what, void (*step)(gpointer, guint), gpointer data)
{
    if (only != NULL && !g_str_has_prefix(what, only))
        return;
    Watch self = {.steps_left = STEPS, .step = step, .data = data};
    self.busy = g_array_new(FALSE, FALSE, sizeof(double));
    self.cpu = g_array_new(FALSE, FALSE, sizeof(double));
    self.gap = g_array_new(FALSE, FALSE, sizeof(double));
    GdkFrameClock *clock = gtk_widget_get_frame_clock(window);
    gulong handler = g_signal_connect(clock, "after-paint", G_CALLBACK(on_after_paint), &self);
    watch = &self;
    gtk_widget_add_tick_callback(window, on_tick, &self, NULL);
    while (self.steps_left > 0)
        g_main_context_iteration(NULL, TRUE);
    watch = NULL;
    g_signal_handler_disconnect(clock, handler);
    print_row(what, "busy", self.busy);
    print_row(what, "processor", self.cpu);
    print_row(what, "gap", self.gap);
    g_array_unref(self.busy);
    g_array_unref(self.cpu);
    g_array_unref(self.gap);
    turn_for(600);
}

static GtkWidget *find(GtkWidget *widget, const char *type, guint *nth)
{
    if (g_str_equal(G_OBJECT_TYPE_NAME(widget), type) && (*nth)-- == 0)
        return widget;
    for (GtkWidget *child = gtk_widget_get_first_child(widget); child != NULL;
         child = gtk_widget_get_next_sibling(child)) {
        GtkWidget *found = find(child, type, nth);
        if (found != NULL)
            return found;
    }
    return NULL;
}

static GtkWidget *nth_of(GtkWidget *window, const char *type, guint nth)
{
    GtkWidget *found = find(window, type, &nth);
    g_assert_nonnull(found);
    return found;
}

static void drag(gpointer scale, guint step)
{
    gtk_range_set_value(GTK_RANGE(scale), 1 + 9.0 * step / STEPS);
}

static void scroll(gpointer adjustment, guint step)
{
    gtk_adjustment_set_value(adjustment, gtk_adjustment_get_value(adjustment) + 60);
}

static void leap(gpointer adjustment, guint step)
{
    double room = gtk_adjustment_get_upper(adjustment) - gtk_adjustment_get_page_size(adjustment);
    gtk_adjustment_set_value(adjustment, room * ((step * 37) % STEPS) / STEPS);
}

/* Every listener of the window takes in a whole answer each frame, as if ranking took no time. */
static void answer(gpointer job, guint step)
{
    g_signal_emit_by_name(job, "result");
}

static void turn_to(GtkWidget *window, const char *pane)
{
    GtkWidget *page = nth_of(window, "WbWeightsPane", 0);
    gtk_stack_set_visible_child_name(GTK_STACK(gtk_widget_get_ancestor(page, GTK_TYPE_STACK)),
                                     pane);
    turn_for(400);
}

/* Scrolled by the wheel's steps and by leaps over the whole list. */
static void run_table(GtkWidget *window, const char *scroll_name, const char *leap_name)
{
    GtkAdjustment *down = gtk_scrollable_get_vadjustment(
        GTK_SCROLLABLE(nth_of(nth_of(window, "WbKitTable", 0), "GtkColumnView", 0)));
    run(window, scroll_name, scroll, down);
    run(window, leap_name, leap, down);
}

static void sort_table(gpointer list, guint step)
{
    g_autoptr(GtkColumnViewColumn) cost =
        g_list_model_get_item(gtk_column_view_get_columns(GTK_COLUMN_VIEW(list)), 3);
    gtk_column_view_sort_by_column(GTK_COLUMN_VIEW(list), cost,
                                   step % 2 ? GTK_SORT_DESCENDING : GTK_SORT_ASCENDING);
}

static void hover(gpointer scatter, guint step)
{
    wb_scatter_set_chosen(scatter, (int)step);
}

/* Wider limits, so that more kits work than the list asked for holds. */
static void fill_table(const WbContext *context)
{
    g_autoptr(GError) error = NULL;
    wb_document_set_number(context->document, "", "/limits/money_minor/value", MANY_MONEY, &error);
    g_assert_no_error(error);
    wb_document_set_number(context->document, "", "/limits/weight_kg/value", MANY_KG, &error);
    g_assert_no_error(error);
    wb_ranking_job_set_rows(context->job, MANY_ROWS);
    for (guint i = 0; i < MANY_SECONDS * 10; i++) {
        WbResult *result = wb_ranking_job_get_result(context->job);
        turn_for(100);
        if (!wb_ranking_job_get_stale(context->job) &&
            wb_ranking_job_get_state(context->job) == WB_JOB_IDLE && result != NULL &&
            wb_result_get_ranking(result)->n_top > MANY_ROWS / 2)
            return;
    }
    g_printerr("no list so long\n");
}

static void measure(GtkApplication *application)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbCatalogueStore) store = wb_catalogue_store_open(":memory:", &error);
    g_assert_no_error(error);
    GtkWidget *window = wb_window_new(application, store);
    const WbContext *context = wb_window_get_context(WB_WINDOW(window));
    gtk_window_set_default_size(GTK_WINDOW(window), 1280, 800);
    gtk_window_present(GTK_WINDOW(window));
    while (wb_ranking_job_get_result(context->job) == NULL)
        g_main_context_iteration(NULL, TRUE);
    wb_session_set_page(context->session, wb_step_name(WB_STEP_RANKING));
    turn_for(1500);
    g_print("what,measure,frames,p50,p95,p99,most\n");
    turn_to(window, "wishes");
    run(window, "drag a weight", drag, nth_of(window, "GtkScale", 0));
    run(window, "an answer a frame", answer, context->job);
    run_table(window, "scroll 60 px a frame", "leap through the table");
    fill_table(context);
    g_print("rows of the long list,%u\n",
            (guint)wb_result_get_ranking(wb_ranking_job_get_result(context->job))->n_top);
    run_table(window, "long list: scroll 60 px a frame", "long list: leap");
    run(window, "long list: sort", sort_table,
        nth_of(nth_of(window, "WbKitTable", 0), "GtkColumnView", 0));
    run(window, "long list: choose a point", hover, nth_of(window, "WbScatter", 0));
    gtk_window_destroy(GTK_WINDOW(window));
}

static void on_startup(GApplication *application)
{
    g_resources_register(wb_get_resource());
    wb_look_start(application);
}

int main(int argc, char **argv)
{
    only = argc > 1 ? argv[1] : NULL;
    g_main_context_set_poll_func(NULL, poll_and_count);
    GtkApplication *application =
        gtk_application_new(WB_APPLICATION_ID ".frames", G_APPLICATION_NON_UNIQUE);
    g_application_set_resource_base_path(G_APPLICATION(application), WB_RESOURCE_PREFIX);
    g_signal_connect(application, "startup", G_CALLBACK(on_startup), NULL);
    g_signal_connect(application, "activate", G_CALLBACK(measure), NULL);
    int code = g_application_run(G_APPLICATION(application), 0, NULL);
    wb_look_end();
    g_object_unref(application);
    return code;
}
