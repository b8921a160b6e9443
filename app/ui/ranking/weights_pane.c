#include "weights_pane.h"

#include "limit_row.h"
#include "resources.h"
#include "way_pane.h"
#include "weight_row.h"

struct _WbWeightsPane {
    GtkBox parent_instance;
    GtkBox *rows, *limits, *ways;
    WbWayPane *way;
    WbWeightRow *row[WB_N_CRITERIA];
    WbLimitRow *limit[WB_N_LIMITS];
};

G_DEFINE_FINAL_TYPE(WbWeightsPane, wb_weights_pane, GTK_TYPE_BOX)

static void wb_weights_pane_class_init(WbWeightsPaneClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/ranking/weights.ui");
    gtk_widget_class_bind_template_child(widget, WbWeightsPane, rows);
    gtk_widget_class_bind_template_child(widget, WbWeightsPane, limits);
    gtk_widget_class_bind_template_child(widget, WbWeightsPane, ways);
}

static void wb_weights_pane_init(WbWeightsPane *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
}

static void refresh(WbWeightsPane *self)
{
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++)
        wb_weight_row_refresh(self->row[c]);
    for (WbLimitKind kind = 0; kind < WB_N_LIMITS; kind++)
        wb_limit_row_refresh(self->limit[kind]);
}

void wb_weights_pane_set_context(WbWeightsPane *self, const WbContext *context)
{
    g_return_if_fail(WB_IS_WEIGHTS_PANE(self) && self->row[0] == NULL);
    self->way = WB_WAY_PANE(wb_way_pane_new(context->document));
    gtk_box_append(self->ways, GTK_WIDGET(self->way));
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++) {
        self->row[c] = WB_WEIGHT_ROW(wb_weight_row_new(context->document, c));
        gtk_box_append(self->rows, GTK_WIDGET(self->row[c]));
    }
    for (WbLimitKind kind = 0; kind < WB_N_LIMITS; kind++) {
        self->limit[kind] = WB_LIMIT_ROW(wb_limit_row_new(context->document, kind));
        gtk_box_append(self->limits, GTK_WIDGET(self->limit[kind]));
    }
    g_signal_connect_object(context->document, "changed", G_CALLBACK(refresh), self,
                            G_CONNECT_SWAPPED);
}

void wb_weights_pane_show(WbWeightsPane *self, WbResult *result)
{
    g_return_if_fail(WB_IS_WEIGHTS_PANE(self));
    if (result == NULL)
        return;
    const WbProblem *problem = wb_result_get_problem(result);
    wb_way_pane_show(self->way, result);
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++) {
        WbAnchor standard = wb_default_anchor(problem, c);
        wb_weight_row_set_default(self->row[c], &standard);
    }
}
