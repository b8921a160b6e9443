#include "weight_row.h"

#include "brief_entry.h"
#include "format.h"
#include "kit_list.h"
#include "resources.h"
#include <glib/gi18n-lib.h>

enum { FULL, NONE, N_ENDS };

struct _WbWeightRow {
    GtkBox parent_instance;
    GtkLabel *title, *share, *anchors, *problem, *unit;
    GtkCheckButton *front;
    GtkBox *ends;
    WbBriefEntry *end[N_ENDS];
    WbBriefField field[N_ENDS]; /* of this criterion; its scale is the currency's */
    char *pointer[N_ENDS], *name[N_ENDS];
    GtkScale *scale;
    GtkAdjustment *adjustment;
    WbDocument *document;
    WbCriterion criterion;
    gboolean updating;
};

G_DEFINE_FINAL_TYPE(WbWeightRow, wb_weight_row, GTK_TYPE_BOX)

static double full_of(const WbBrief *brief, int criterion)
{
    return brief->anchor[criterion].full;
}

static double none_of(const WbBrief *brief, int criterion)
{
    return brief->anchor[criterion].none;
}

/* Money is typed in whole units and kept in the smallest. */
static void follow_currency(WbWeightRow *self)
{
    const char *currency = wb_document_get_brief(self->document)->currency;
    double scale = wb_format_criterion_scale(self->criterion, currency);
    gtk_label_set_text(self->unit, wb_format_criterion_unit(self->criterion, currency));
    for (int e = 0; e < N_ENDS; e++) {
        self->field[e].scale = scale;
        wb_brief_entry_refresh(self->end[e]);
    }
}

void wb_weight_row_refresh(WbWeightRow *self)
{
    g_return_if_fail(WB_IS_WEIGHT_ROW(self));
    const WbBrief *brief = wb_document_get_brief(self->document);
    double sum = 0, weight = brief->weight[self->criterion];
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++)
        sum += brief->weight[c];
    g_autofree char *share = wb_format_percent(sum > 0 ? weight / sum : 0);
    gtk_label_set_text(self->share, share);
    self->updating = TRUE;
    if (weight > gtk_adjustment_get_upper(self->adjustment))
        gtk_adjustment_set_upper(self->adjustment, weight);
    gtk_adjustment_set_value(self->adjustment, weight);
    gtk_check_button_set_active(self->front, brief->front >> self->criterion & 1);
    self->updating = FALSE;
    follow_currency(self);
    gtk_accessible_update_property(GTK_ACCESSIBLE(self->scale), GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT,
                                   share, -1);
}

static void on_value(WbWeightRow *self)
{
    g_autoptr(GError) error = NULL;
    if (self->updating || self->document == NULL)
        return;
    g_autofree char *pointer = g_strdup_printf("/weights/%s", wb_criterion_name(self->criterion));
    double value = gtk_adjustment_get_value(self->adjustment);
    /* Two decimals are more than a hand can set, and keep the file readable. */
    value = (double)(gint64)(value * 100 + 0.5) / 100;
    if (!wb_document_set_number(self->document, _("Change weights"), pointer, value, &error)) {
        wb_show_message(GTK_WIDGET(self), error->message);
        wb_weight_row_refresh(self);
    }
}

/* The names of these criteria as a JSON list. (transfer full) */
static char *names_of(guint32 criteria)
{
    GString *names = g_string_new("[");
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++)
        if (criteria >> c & 1)
            g_string_append_printf(names, "%s\"%s\"", names->len > 1 ? ", " : "",
                                   wb_criterion_name(c));
    return g_string_free(g_string_append_c(names, ']'), FALSE);
}

static void on_front(WbWeightRow *self)
{
    g_autoptr(GError) error = NULL;
    if (self->updating || self->document == NULL)
        return;
    guint32 criteria = wb_document_get_brief(self->document)->front;
    g_autofree char *names = names_of(criteria ^ 1u << self->criterion);
    if (!wb_document_set_json(self->document, _("Change what counts for the front"), "/front",
                              names, &error)) {
        wb_show_message(GTK_WIDGET(self), error->message);
        wb_weight_row_refresh(self);
    }
}

void wb_weight_row_set_default(WbWeightRow *self, const WbAnchor *anchor)
{
    g_return_if_fail(WB_IS_WEIGHT_ROW(self));
    const char *currency = wb_document_get_brief(self->document)->currency;
    const double values[N_ENDS] = {anchor->full, anchor->none};
    for (int e = 0; e < N_ENDS; e++) {
        g_autofree char *bare = wb_format_figure_bare(self->criterion, values[e], currency);
        wb_brief_entry_set_placeholder(self->end[e], bare);
    }
    g_autofree char *full = wb_format_figure(self->criterion, anchor->full, currency);
    g_autofree char *none = wb_format_figure(self->criterion, anchor->none, currency);
    g_autofree char *text = g_strdup_printf(_("By default full at %s, none at %s."), full, none);
    gtk_label_set_text(self->anchors, text);
}

static void on_message(WbBriefEntry *entry, const char *sentence, WbWeightRow *self)
{
    gtk_label_set_text(self->problem, sentence != NULL ? sentence : "");
    gtk_widget_set_visible(GTK_WIDGET(self->problem), sentence != NULL);
}

static void add_end(WbWeightRow *self, int e, const char *before)
{
    static const char *const members[N_ENDS] = {"full", "none"};
    self->pointer[e] =
        g_strdup_printf("/anchors/%s/%s", wb_criterion_name(self->criterion), members[e]);
    /* Translators: a criterion, one of its two ends: "Cost, full worth at". */
    self->name[e] = g_strdup_printf(e == FULL ? _("%s, full worth at") : _("%s, no worth at"),
                                    wb_criterion_title(self->criterion));
    self->field[e] = (WbBriefField){.title = self->name[e],
                                    .unit = "",
                                    .step = _("Change where a figure has its worth"),
                                    .pointer = self->pointer[e],
                                    .kind = WB_BRIEF_NUMBER,
                                    .scale = 1,
                                    .empty_json = "null",
                                    .number = e == FULL ? full_of : none_of};
    GtkWidget *label = gtk_label_new(before);
    GtkWidget *entry = wb_brief_entry_new(self->document, &self->field[e], (int)self->criterion, 6);
    self->end[e] = WB_BRIEF_ENTRY(entry);
    gtk_widget_add_css_class(label, "small");
    gtk_box_append(self->ends, label);
    gtk_box_append(self->ends, entry);
    g_signal_connect_object(entry, "message", G_CALLBACK(on_message), self, 0);
}

static void add_ends(WbWeightRow *self)
{
    add_end(self, FULL, _("Full at"));
    add_end(self, NONE, _("none at"));
    self->unit = GTK_LABEL(gtk_label_new(NULL));
    gtk_widget_add_css_class(GTK_WIDGET(self->unit), "quiet");
    gtk_widget_add_css_class(GTK_WIDGET(self->unit), "small");
    gtk_box_append(self->ends, GTK_WIDGET(self->unit));
}

static void wb_weight_row_dispose(GObject *object)
{
    g_clear_object(&WB_WEIGHT_ROW(object)->document);
    G_OBJECT_CLASS(wb_weight_row_parent_class)->dispose(object);
}

/* After the entries, which read their fields to the end. */
static void wb_weight_row_finalize(GObject *object)
{
    WbWeightRow *self = WB_WEIGHT_ROW(object);
    for (int e = 0; e < N_ENDS; e++) {
        g_free(self->pointer[e]);
        g_free(self->name[e]);
    }
    G_OBJECT_CLASS(wb_weight_row_parent_class)->finalize(object);
}

static void wb_weight_row_class_init(WbWeightRowClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = wb_weight_row_dispose;
    G_OBJECT_CLASS(class)->finalize = wb_weight_row_finalize;
    gtk_widget_class_set_template_from_resource(widget,
                                                WB_RESOURCE_PREFIX "/ranking/weight_row.ui");
    gtk_widget_class_bind_template_child(widget, WbWeightRow, title);
    gtk_widget_class_bind_template_child(widget, WbWeightRow, share);
    gtk_widget_class_bind_template_child(widget, WbWeightRow, front);
    gtk_widget_class_bind_template_child(widget, WbWeightRow, anchors);
    gtk_widget_class_bind_template_child(widget, WbWeightRow, ends);
    gtk_widget_class_bind_template_child(widget, WbWeightRow, problem);
    gtk_widget_class_bind_template_child(widget, WbWeightRow, scale);
    gtk_widget_class_bind_template_child(widget, WbWeightRow, adjustment);
    gtk_widget_class_bind_template_callback(widget, on_value);
    gtk_widget_class_bind_template_callback(widget, on_front);
}

static void wb_weight_row_init(WbWeightRow *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
}

GtkWidget *wb_weight_row_new(WbDocument *document, WbCriterion criterion)
{
    WbWeightRow *self = g_object_new(WB_TYPE_WEIGHT_ROW, NULL);
    self->document = g_object_ref(document);
    self->criterion = criterion;
    gtk_label_set_text(self->title, wb_criterion_title(criterion));
    gtk_accessible_update_property(GTK_ACCESSIBLE(self->scale), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   wb_criterion_title(criterion), -1);
    /* Translators: a criterion: "Cost counts for the front". */
    g_autofree char *counts =
        g_strdup_printf(_("%s counts for the front"), wb_criterion_title(criterion));
    gtk_accessible_update_property(GTK_ACCESSIBLE(self->front), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   counts, -1);
    add_ends(self);
    wb_weight_row_refresh(self);
    return GTK_WIDGET(self);
}
