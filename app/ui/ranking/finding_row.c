#include "finding_row.h"

#include "resources.h"
#include "words.h"
#include <glib/gi18n-lib.h>

struct _WbFindingRow {
    GtkBox parent_instance;
    GtkLabel *severity, *sentence, *safety;
};

G_DEFINE_FINAL_TYPE(WbFindingRow, wb_finding_row, GTK_TYPE_BOX)

static void wb_finding_row_class_init(WbFindingRowClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    gtk_widget_class_set_template_from_resource(widget,
                                                WB_RESOURCE_PREFIX "/ranking/finding_row.ui");
    gtk_widget_class_bind_template_child(widget, WbFindingRow, severity);
    gtk_widget_class_bind_template_child(widget, WbFindingRow, sentence);
    gtk_widget_class_bind_template_child(widget, WbFindingRow, safety);
}

static void wb_finding_row_init(WbFindingRow *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
}

GtkWidget *wb_finding_row_new(const WbProblem *problem, const WbVerdict *verdict,
                              const WbFinding *finding)
{
    static const struct {
        const char *word, *style;
    } severities[] = {
        [WB_NOTE] = {N_("Good to know"), "quiet"},
        [WB_CAUTION] = {N_("Caution"), "caution"},
        [WB_STOP] = {N_("Will not do"), "stop"},
    };
    WbFindingRow *self = g_object_new(WB_TYPE_FINDING_ROW, NULL);
    g_autofree char *sentence = wb_words_finding(problem, verdict, finding);
    g_autofree char *safety = wb_words_safety(problem, verdict, finding);
    gtk_label_set_text(self->severity, _(severities[finding->severity].word));
    gtk_widget_add_css_class(GTK_WIDGET(self->severity), severities[finding->severity].style);
    gtk_label_set_text(self->sentence, sentence);
    gtk_label_set_text(self->safety, safety != NULL ? safety : "");
    gtk_widget_set_visible(GTK_WIDGET(self->safety), safety != NULL);
    return GTK_WIDGET(self);
}
