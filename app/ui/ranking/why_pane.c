#include "why_pane.h"

#include "figures_text.h"
#include "finding_row.h"
#include "format.h"
#include "kit_list.h"
#include "month_chart.h"
#include "resources.h"
#include "share_row.h"
#include "words_way.h"
#include <glib/gi18n-lib.h>

struct _WbWhyPane {
    GtkBox parent_instance;
    GtkLabel *standing, *words, *parts, *next, *way, *firm;
    GtkBox *shares, *findings;
    WbMonthChart *months;
    WbShareRow *share[WB_N_CRITERIA];
};

G_DEFINE_FINAL_TYPE(WbWhyPane, wb_why_pane, GTK_TYPE_BOX)

/* Place in the ranking, 1 the best; 0: not in the top list. */
static gsize place_of(const WbProblem *problem, const WbRanking *ranking, const WbKit *kit)
{
    for (gsize i = 0; i < ranking->n_top; i++)
        if (wb_kit_compare(problem, &ranking->top[i].kit, kit) == 0)
            return i + 1;
    return 0;
}

static void show_standing(WbWhyPane *self, const WbRanking *ranking, const WbVerdict *verdict,
                          gsize place)
{
    g_autofree char *score = wb_text_number(verdict->score, 3);
    g_autofree char *all = wb_text_number((double)ranking->feasible, 0);
    g_autofree char *at = wb_text_number((double)place, 0);
    g_autofree char *text =
        place > 0 ? g_strdup_printf(_("Number %s of %s, score %s"), at, all, score)
        : verdict->feasible
            ? g_strdup_printf(_("Works, beyond the first %u of the ranking, score %s"),
                              (guint)ranking->n_top, score)
            : g_strdup_printf(_("Does not work, score %s"), score);
    gtk_label_set_text(self->standing, text);
}

/* How far the next one is behind, and what it is better at. */
static void show_next(WbWhyPane *self, const WbProblem *problem, const WbRanking *ranking,
                      gsize place)
{
    gtk_widget_set_visible(GTK_WIDGET(self->next), place > 0 && place < ranking->n_top);
    if (place == 0 || place >= ranking->n_top)
        return;
    const WbRanked *here = &ranking->top[place - 1], *next = &ranking->top[place];
    if (problem->rank_by.way != WB_WAY_SCORE) {
        g_autofree char *kit = wb_words_kit(problem, &next->kit);
        g_autofree char *stands = wb_words_stands(problem, &next->figures);
        g_autofree char *line = g_strdup_printf(_("The next is %s. %s"), kit, stands);
        gtk_label_set_text(self->next, line);
        return;
    }
    double lead = here->score - next->score;
    g_autofree char *by = wb_text_number(lead, lead < 0.001 ? 5 : 3);
    g_autofree char *behind = lead > 0 ? g_strdup_printf(_("%s behind"), by) : g_strdup(_("level"));
    g_autofree char *words = wb_words_kit(problem, &next->kit);
    GString *better = g_string_new(NULL);
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++)
        if (problem->weight[c] > 0 && next->u[c] > here->u[c] + 1e-9)
            g_string_append_printf(better, "%s%s", better->len > 0 ? ", " : "",
                                   wb_criterion_title(c));
    g_autofree char *text =
        better->len > 0
            ? g_strdup_printf(_("The next is %s: %s. It overtakes when its better figures "
                                "weigh more: %s."),
                              behind, words, better->str)
            : g_strdup_printf(_("The next is %s: %s. It is better in nothing that counts."), behind,
                              words);
    gtk_label_set_text(self->next, text);
    g_string_free(better, TRUE);
}

/* Of the first kit, and of those first at other weights. */
static void show_firm(WbWhyPane *self, const char *sentences)
{
    gtk_label_set_text(self->firm, sentences != NULL ? sentences : "");
    gtk_widget_set_visible(GTK_WIDGET(self->firm), sentences != NULL);
}

static void append_part(GString *text, int count, const WbPart *part)
{
    if (count > 0)
        g_string_append_printf(text, "%s%d × %s %s", text->len > 0 ? "\n" : "", count, part->maker,
                               part->model);
}

static void show_parts(WbWhyPane *self, const WbProblem *problem, const WbKit *kit)
{
    GString *text = g_string_new(NULL);
    const WbInverter *inverter = problem->inverters[kit->inverter].inverter;
    const WbDcdc *dcdc = problem->dcdc[kit->dcdc].dcdc;
    append_part(text, kit->n_series * kit->n_parallel, &problem->panels[kit->panel].panel->part);
    append_part(text, kit->n_controllers, &problem->controllers[kit->controller].controller->part);
    append_part(text, kit->bank_series * kit->bank_parallel,
                &problem->storage[kit->storage].storage->part);
    if (inverter != NULL)
        append_part(text, 1, &inverter->part);
    if (dcdc != NULL)
        append_part(text, 1, &dcdc->part);
    gtk_label_set_text(self->parts, text->str);
    g_string_free(text, TRUE);
}

static void show_shares(WbWhyPane *self, const WbProblem *problem, const WbVerdict *verdict)
{
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++) {
        g_autofree char *figure =
            wb_format_figure(c, wb_figure(&verdict->figures, c), problem->brief->currency);
        gtk_widget_set_visible(GTK_WIDGET(self->share[c]), problem->weight[c] > 0);
        wb_share_row_set(self->share[c], wb_criterion_title(c), figure, problem->weight[c],
                         verdict->u[c]);
    }
}

static void clear(GtkBox *box)
{
    GtkWidget *child;
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(box))) != NULL)
        gtk_box_remove(box, child);
}

static void say_in_findings(WbWhyPane *self, const char *sentence)
{
    GtkWidget *label = gtk_label_new(sentence);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    gtk_box_append(self->findings, label);
}

static void show_findings(WbWhyPane *self, const WbProblem *problem, const WbVerdict *verdict)
{
    guint shown = 0;
    clear(self->findings);
    for (int severity = WB_STOP; severity >= WB_NOTE; severity--)
        for (WbRule rule = 0; rule < WB_N_RULES; rule++) {
            const WbFinding *finding = &verdict->finding[rule];
            if (finding->holds || (int)finding->severity != severity)
                continue;
            gtk_box_append(self->findings, wb_finding_row_new(problem, verdict, finding));
            shown++;
        }
    if (shown == 0)
        say_in_findings(self, _("Every rule holds with nothing left to say."));
}

static void show_months(WbWhyPane *self, const WbProblem *problem, const WbVerdict *verdict)
{
    double supply[WB_MONTHS], need[WB_MONTHS];
    for (int m = 0; m < WB_MONTHS; m++) {
        supply[m] = verdict->month[m].supply_wh;
        need[m] = verdict->month[m].need_wh;
    }
    wb_month_chart_set(self->months, _("Supply and need of this kit"), _("Supply"), supply,
                       _("Need"), need, problem->brief->site.months,
                       verdict->figures.worst_supply_month);
}

void wb_why_pane_show(WbWhyPane *self, WbResult *result, const char *kit_id)
{
    g_return_if_fail(WB_IS_WHY_PANE(self));
    WbVerdict verdict;
    gboolean known = result != NULL && wb_result_judge(result, kit_id, &verdict);
    gtk_widget_set_visible(GTK_WIDGET(self->parts), known);
    gtk_widget_set_visible(GTK_WIDGET(self->shares), known);
    gtk_widget_set_visible(GTK_WIDGET(self->months), known);
    if (!known) {
        gtk_label_set_text(self->standing, _("No kit is in hand yet."));
        gtk_label_set_text(self->words, _("Choose a kit in the table or among the points."));
        gtk_widget_set_visible(GTK_WIDGET(self->next), FALSE);
        gtk_label_set_text(self->way, "");
        show_firm(self, NULL);
        clear(self->findings);
        say_in_findings(self, _("Nothing yet."));
        return;
    }
    const WbProblem *problem = wb_result_get_problem(result);
    const WbRanking *ranking = wb_result_get_ranking(result);
    gsize place = place_of(problem, ranking, &verdict.kit);
    g_autofree char *words = wb_words_kit(problem, &verdict.kit);
    gtk_label_set_text(self->words, words);
    show_parts(self, problem, &verdict.kit);
    show_standing(self, ranking, &verdict, place);
    show_next(self, problem, ranking, place);
    show_firm(self, wb_result_get_firm_of(result, &verdict.kit));
    show_shares(self, problem, &verdict);
    g_autofree char *stands = wb_words_stands(problem, &verdict.figures);
    gtk_label_set_text(self->way, stands);
    show_findings(self, problem, &verdict);
    show_months(self, problem, &verdict);
}

static void wb_why_pane_class_init(WbWhyPaneClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    g_type_ensure(WB_TYPE_MONTH_CHART);
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/ranking/why.ui");
    gtk_widget_class_bind_template_child(widget, WbWhyPane, standing);
    gtk_widget_class_bind_template_child(widget, WbWhyPane, words);
    gtk_widget_class_bind_template_child(widget, WbWhyPane, parts);
    gtk_widget_class_bind_template_child(widget, WbWhyPane, next);
    gtk_widget_class_bind_template_child(widget, WbWhyPane, way);
    gtk_widget_class_bind_template_child(widget, WbWhyPane, firm);
    gtk_widget_class_bind_template_child(widget, WbWhyPane, shares);
    gtk_widget_class_bind_template_child(widget, WbWhyPane, findings);
    gtk_widget_class_bind_template_child(widget, WbWhyPane, months);
}

static void wb_why_pane_init(WbWhyPane *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++) {
        self->share[c] = WB_SHARE_ROW(wb_share_row_new());
        gtk_box_append(self->shares, GTK_WIDGET(self->share[c]));
    }
    wb_why_pane_show(self, NULL, NULL);
}
