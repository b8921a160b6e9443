#include "finding_line.h"

#include "gauge_bar.h"
#include "words.h"
#include "words_detail.h"
#include <glib/gi18n-lib.h>
#include <math.h>

#define BAR_WIDTH 228

struct _WbFindingLine {
    GtkBox parent_instance;
    WbRule rule;
    GtkWidget *head, *detail;
};

G_DEFINE_FINAL_TYPE(WbFindingLine, wb_finding_line, GTK_TYPE_BOX)

static GtkWidget *label_new(const char *text, const char *css_class)
{
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    gtk_label_set_natural_wrap_mode(GTK_LABEL(label), GTK_NATURAL_WRAP_NONE);
    gtk_label_set_max_width_chars(GTK_LABEL(label), 84);
    gtk_widget_set_valign(label, GTK_ALIGN_START);
    if (css_class != NULL)
        gtk_widget_add_css_class(label, css_class);
    return label;
}

static void on_toggled(WbFindingLine *self)
{
    gboolean open = gtk_toggle_button_get_active(GTK_TOGGLE_BUTTON(self->head));
    gtk_widget_set_visible(self->detail, open);
    gtk_accessible_update_state(GTK_ACCESSIBLE(self->head), GTK_ACCESSIBLE_STATE_EXPANDED, open,
                                -1);
}

/* Of the limit when it is a ceiling; NULL where no distance is meant. */
static GtkWidget *bar_new(const WbFinding *finding)
{
    g_autofree char *words = wb_words_margin(finding);
    if (words == NULL)
        return NULL;
    GtkWidget *bar = wb_gauge_bar_new();
    gboolean at_most = wb_finding_is_at_most(finding);
    double value = finding->value, limit = finding->limit;
    if (value < 0 || limit < 0) { /* of degrees below zero: how far is left, of all there is */
        at_most = TRUE;
        value = fmax(1 - finding->margin, 0);
        limit = 1;
    }
    wb_gauge_bar_set(WB_GAUGE_BAR(bar), "", words, value, limit, at_most);
    wb_gauge_bar_set_mild(WB_GAUGE_BAR(bar), finding->severity != WB_STOP);
    gtk_widget_set_size_request(bar, BAR_WIDTH, -1);
    gtk_widget_set_valign(bar, GTK_ALIGN_START);
    return bar;
}

static void fill_head(WbFindingLine *self, const char *sentence, const WbFinding *finding,
                      GtkWidget *bar)
{
    GtkWidget *row = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 12);
    GtkWidget *words =
        label_new(sentence, !finding->holds && finding->severity == WB_STOP ? "stop" : NULL);
    gtk_widget_set_hexpand(words, TRUE);
    gtk_box_append(GTK_BOX(row), words);
    if (bar != NULL)
        gtk_box_append(GTK_BOX(row), bar);
    gtk_button_set_child(GTK_BUTTON(self->head), row);
    gtk_accessible_update_property(GTK_ACCESSIBLE(self->head), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   sentence, -1);
    gtk_widget_set_tooltip_text(self->head, _("Formula, numbers, source and what to change"));
}

static void fill_detail(WbFindingLine *self, const WbReckoning *detail)
{
    for (gsize i = 0; i < detail->n; i++) {
        GtkWidget *name = label_new(detail->line[i].label, "quiet");
        GtkWidget *text = label_new(detail->line[i].text, "numeric");
        gtk_widget_set_size_request(name, 150, -1);
        gtk_label_set_selectable(GTK_LABEL(text), TRUE);
        gtk_grid_attach(GTK_GRID(self->detail), name, 0, (int)i, 1, 1);
        gtk_grid_attach(GTK_GRID(self->detail), text, 1, (int)i, 1, 1);
    }
}

static void wb_finding_line_class_init(WbFindingLineClass *class)
{
}

static void wb_finding_line_init(WbFindingLine *self)
{
    self->head = gtk_toggle_button_new();
    self->detail = gtk_grid_new();
    gtk_orientable_set_orientation(GTK_ORIENTABLE(self), GTK_ORIENTATION_VERTICAL);
    gtk_widget_add_css_class(self->head, "flat");
    gtk_widget_add_css_class(self->head, "finding");
    gtk_grid_set_column_spacing(GTK_GRID(self->detail), 12);
    gtk_grid_set_row_spacing(GTK_GRID(self->detail), 3);
    gtk_widget_set_margin_start(self->detail, 18);
    gtk_widget_set_margin_bottom(self->detail, 6);
    gtk_widget_set_visible(self->detail, FALSE);
    gtk_box_append(GTK_BOX(self), self->head);
    g_signal_connect_object(self->head, "toggled", G_CALLBACK(on_toggled), self, G_CONNECT_SWAPPED);
}

GtkWidget *wb_finding_line_new(const WbProblem *problem, const WbVerdict *verdict,
                               const WbFinding *finding, gboolean open)
{
    WbFindingLine *self = g_object_new(WB_TYPE_FINDING_LINE, NULL);
    g_autofree char *sentence = wb_words_finding(problem, verdict, finding);
    g_autofree char *safety = wb_words_safety(problem, verdict, finding);
    g_autoptr(WbReckoning) detail = wb_finding_detail(problem, verdict, finding);
    self->rule = finding->rule;
    fill_head(self, sentence, finding, bar_new(finding));
    if (safety != NULL) {
        GtkWidget *caution = label_new(safety, finding->holds ? "quiet" : "caution");
        gtk_widget_add_css_class(caution, "small");
        gtk_widget_set_margin_start(caution, 7);
        gtk_widget_set_margin_bottom(caution, 6);
        gtk_box_append(GTK_BOX(self), caution);
    }
    gtk_box_append(GTK_BOX(self), self->detail);
    fill_detail(self, detail);
    gtk_toggle_button_set_active(GTK_TOGGLE_BUTTON(self->head), open);
    on_toggled(self);
    return GTK_WIDGET(self);
}

WbRule wb_finding_line_get_rule(WbFindingLine *self)
{
    g_return_val_if_fail(WB_IS_FINDING_LINE(self), WB_N_RULES);
    return self->rule;
}

gboolean wb_finding_line_get_open(WbFindingLine *self)
{
    g_return_val_if_fail(WB_IS_FINDING_LINE(self), FALSE);
    return gtk_toggle_button_get_active(GTK_TOGGLE_BUTTON(self->head));
}
