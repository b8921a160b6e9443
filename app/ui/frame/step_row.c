#include "step_row.h"
#include "resources.h"
#include <glib/gi18n-lib.h>

struct _WbStepRow {
    GtkListBoxRow parent_instance;
    WbStep step;
    GtkLabel *number, *title, *line, *what;
    GtkImage *mark;
};

G_DEFINE_FINAL_TYPE(WbStepRow, wb_step_row, GTK_TYPE_LIST_BOX_ROW)

GtkWidget *wb_step_row_new(WbStep step)
{
    WbStepRow *self = g_object_new(WB_TYPE_STEP_ROW, NULL);
    g_autofree char *number = g_strdup_printf("%d", (int)step + 1);
    self->step = step;
    gtk_label_set_text(self->number, number);
    gtk_label_set_text(self->title, wb_step_title(step));
    return GTK_WIDGET(self);
}

WbStep wb_step_row_get_step(WbStepRow *self)
{
    return self->step;
}

typedef struct {
    const char *icon, *words, *css_class;
} MarkLook;

static MarkLook look_of(WbMark mark)
{
    switch (mark) {
    case WB_MARK_DONE:
        return (MarkLook){"object-select-symbolic", N_("done"), "quiet"};
    case WB_MARK_WANTS:
        return (MarkLook){"dialog-question-symbolic", N_("wants something"), "caution"};
    case WB_MARK_CONFLICT:
        return (MarkLook){"dialog-warning-symbolic", N_("in conflict"), "stop"};
    case WB_MARK_WAITING:
        return (MarkLook){"content-loading-symbolic", N_("working"), "quiet"};
    }
    g_return_val_if_reached(((MarkLook){NULL, NULL, NULL}));
}

static void set_look(GtkWidget *widget, const char *css_class)
{
    static const char *const all[] = {"quiet", "caution", "stop"};
    for (gsize i = 0; i < G_N_ELEMENTS(all); i++)
        gtk_widget_remove_css_class(widget, all[i]);
    gtk_widget_add_css_class(widget, css_class);
}

void wb_step_row_set(WbStepRow *self, const WbOutlineLine *line)
{
    MarkLook look = look_of(line->mark);
    gtk_image_set_from_icon_name(self->mark, look.icon);
    set_look(GTK_WIDGET(self->mark), look.css_class);
    gtk_label_set_text(self->line, line->line);
    gtk_label_set_text(self->what, line->what ? line->what : "");
    gtk_widget_set_visible(GTK_WIDGET(self->what), line->what != NULL);
    set_look(GTK_WIDGET(self->what), look.css_class);
    g_autofree char *name =
        g_strdup_printf("%s: %s, %s", wb_step_title(self->step), line->line, _(look.words));
    gtk_accessible_update_property(GTK_ACCESSIBLE(self), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                   GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                   line->what ? line->what : "", -1);
    gtk_widget_set_tooltip_text(GTK_WIDGET(self), line->what);
}

static void wb_step_row_class_init(WbStepRowClass *klass)
{
    GtkWidgetClass *widget_class = GTK_WIDGET_CLASS(klass);
    gtk_widget_class_set_template_from_resource(widget_class,
                                                WB_RESOURCE_PREFIX "/frame/step_row.ui");
    gtk_widget_class_bind_template_child(widget_class, WbStepRow, number);
    gtk_widget_class_bind_template_child(widget_class, WbStepRow, title);
    gtk_widget_class_bind_template_child(widget_class, WbStepRow, line);
    gtk_widget_class_bind_template_child(widget_class, WbStepRow, what);
    gtk_widget_class_bind_template_child(widget_class, WbStepRow, mark);
}

static void wb_step_row_init(WbStepRow *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
}
