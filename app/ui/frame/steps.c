#include "steps.h"
#include "children.h"
#include "resources.h"
#include "step_row.h"

struct _WbSteps {
    GtkWidget parent_instance;
    WbContext context;
    GtkListBox *list;
    GtkWidget *rows[WB_N_STEPS];
    guint refresh_source; /* several changes of one turn are shown once */
};

G_DEFINE_FINAL_TYPE(WbSteps, wb_steps, GTK_TYPE_WIDGET)

static void refresh(gpointer data)
{
    WbSteps *self = data;
    WbOutlineLine lines[WB_N_STEPS];
    self->refresh_source = 0;
    wb_outline_make(wb_document_get_brief(self->context.document),
                    wb_document_get_catalogue(self->context.document),
                    wb_ranking_job_get_result(self->context.job),
                    wb_session_get_kit(self->context.session), lines);
    for (int i = 0; i < WB_N_STEPS; i++)
        wb_step_row_set(WB_STEP_ROW(self->rows[i]), &lines[i]);
    wb_outline_clear(lines);
}

static void refresh_soon(WbSteps *self)
{
    if (!self->refresh_source)
        self->refresh_source = g_idle_add_once(refresh, self);
}

/* An answer to an older state is dimmed until the new one is there. */
static void show_stale(WbSteps *self)
{
    gboolean stale = wb_ranking_job_get_stale(self->context.job);
    for (int i = WB_STEP_RANKING; i < WB_N_STEPS; i++)
        if (stale)
            gtk_widget_add_css_class(self->rows[i], "stale");
        else
            gtk_widget_remove_css_class(self->rows[i], "stale");
}

/* The keyboard follows only if it is here. */
static void show_row(WbSteps *self, GtkWidget *row)
{
    gtk_list_box_select_row(self->list, GTK_LIST_BOX_ROW(row));
    if (gtk_widget_get_focus_child(GTK_WIDGET(self->list)))
        gtk_widget_grab_focus(row);
}

static void show_page(WbSteps *self)
{
    const char *page = wb_session_get_page(self->context.session);
    for (int i = 0; i < WB_N_STEPS; i++)
        if (g_str_equal(page, wb_step_name(i)))
            show_row(self, self->rows[i]);
}

static void on_row_selected(GtkListBox *list, GtkListBoxRow *row, gpointer data)
{
    WbSteps *self = data;
    if (row && self->context.session)
        wb_session_set_page(self->context.session,
                            wb_step_name(wb_step_row_get_step(WB_STEP_ROW(row))));
}

void wb_steps_set_context(WbSteps *self, const WbContext *context)
{
    g_return_if_fail(WB_IS_STEPS(self) && !self->context.document);
    self->context = *context;
    g_signal_connect_object(context->document, "changed", G_CALLBACK(refresh_soon), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(context->job, "result", G_CALLBACK(refresh_soon), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(context->job, "notify::stale", G_CALLBACK(show_stale), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(context->session, "notify::kit", G_CALLBACK(refresh_soon), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(context->session, "notify::page", G_CALLBACK(show_page), self,
                            G_CONNECT_SWAPPED);
    refresh(self);
    show_page(self);
}

static void wb_steps_dispose(GObject *object)
{
    WbSteps *self = WB_STEPS(object);
    g_clear_handle_id(&self->refresh_source, g_source_remove);
    wb_drop_children(GTK_WIDGET(self), WB_TYPE_STEPS);
    G_OBJECT_CLASS(wb_steps_parent_class)->dispose(object);
}

static void wb_steps_class_init(WbStepsClass *klass)
{
    GtkWidgetClass *widget_class = GTK_WIDGET_CLASS(klass);
    G_OBJECT_CLASS(klass)->dispose = wb_steps_dispose;
    gtk_widget_class_set_template_from_resource(widget_class, WB_RESOURCE_PREFIX "/frame/steps.ui");
    gtk_widget_class_bind_template_child(widget_class, WbSteps, list);
    gtk_widget_class_set_css_name(widget_class, "steps");
}

static void wb_steps_init(WbSteps *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
    for (int i = 0; i < WB_N_STEPS; i++) {
        self->rows[i] = wb_step_row_new(i);
        gtk_list_box_append(self->list, self->rows[i]);
    }
    g_signal_connect(self->list, "row-selected", G_CALLBACK(on_row_selected), self);
}
