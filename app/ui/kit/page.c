/* The kit in hand in full, on four sides: figures and findings, wiring, energy, and the sum by
 * hand. */
#include "by_hand.h"
#include "energy_pane.h"
#include "figures_text.h"
#include "finding_list.h"
#include "pencil_table.h"
#include "sheet.h"
#include "wiring_pane.h"
#include "words.h"
#include <glib/gi18n-lib.h>

static void add_figures(WbSheet *sheet, const WbProblem *problem, const WbVerdict *verdict)
{
    const WbFigures *figures = &verdict->figures;
    g_autofree char *words = wb_words_kit(problem, &verdict->kit);
    g_autofree char *panels = wb_words_panel_wiring(&verdict->kit);
    g_autofree char *bank = wb_words_bank_wiring(&verdict->kit);
    g_autofree char *money = wb_words_money(figures->cost_minor, problem->brief->currency);
    g_autofree char *weight = wb_text_number((double)figures->weight_g / 1e3, 1);
    g_autofree char *usable = wb_text_number(figures->usable_wh, 0);
    g_autofree char *area = wb_text_number((double)figures->roof_area_mm2 / 1e6, 2);
    g_autofree char *days = wb_text_number(figures->autonomy_days, 1);
    g_autofree char *spare = wb_text_number(figures->spare_w, 0);
    g_autofree char *margin = wb_text_number(figures->supply_margin_wh, 0);
    g_autofree char *score = wb_text_number(verdict->score, 3);
    g_autofree char *sizes = g_strdup_printf(_("%s kg, %s m\302\262 of roof"), weight, area);
    g_autofree char *energy = g_strdup_printf(_("%s Wh, %s days without sun"), usable, days);
    g_autofree char *power = g_strdup_printf(_("%s W beyond the AC peak"), spare);
    /* Translators: an energy of the month that decides. */
    g_autofree char *beyond = g_strdup_printf(_("%s Wh a day beyond the need"), margin);
    wb_sheet_text(sheet, words, "section");
    wb_sheet_row(sheet, _("Panels"), panels, NULL);
    wb_sheet_row(sheet, _("Bank"), bank, NULL);
    wb_sheet_row(sheet, _("Cost"), money, NULL);
    wb_sheet_row(sheet, _("Weight, roof"), sizes, NULL);
    wb_sheet_row(sheet, _("Usable"), energy, NULL);
    wb_sheet_row(sheet, _("Spare power"), power, NULL);
    wb_sheet_row(sheet, _("Supply margin"), beyond, NULL);
    wb_sheet_row(sheet, _("Score"), score, NULL);
}

static void add_safety(WbSheet *sheet, const WbProblem *problem, const WbVerdict *verdict)
{
    g_auto(GStrv) notes = wb_words_safety_notes(problem, verdict);
    if (!notes || !notes[0])
        return;
    wb_sheet_section(sheet, _("Before you build it"));
    for (gsize i = 0; notes[i]; i++)
        wb_sheet_text(sheet, notes[i], NULL);
}

/* Columns of the months' table; the shore's is left out where nobody plugs in. */
enum { ARRAY, ALTERNATOR, SHORE, STORING_LOSS, SUPPLY, NEED, USABLE, AUTONOMY, N_MONTH_COLUMNS };

static gboolean shown(const WbProblem *problem, int column)
{
    return column != SHORE || problem->brief->shore.nights_week > 0;
}

static void add_month(WbSheetTable *table, const WbProblem *problem, const WbVerdict *verdict,
                      int m)
{
    const WbMonth *month = &verdict->month[m];
    const double figures[N_MONTH_COLUMNS] = {
        [ARRAY] = month->array_wh,   [ALTERNATOR] = month->alternator_wh,
        [SHORE] = month->shore_wh,   [STORING_LOSS] = month->storing_loss_wh,
        [SUPPLY] = month->supply_wh, [NEED] = month->need_wh,
        [USABLE] = month->usable_wh, [AUTONOMY] = month->autonomy_days};
    g_autoptr(GPtrArray) cells = g_ptr_array_new_with_free_func(g_free);
    g_ptr_array_add(cells, g_strdup(wb_text_month(m)));
    for (int c = 0; c < N_MONTH_COLUMNS; c++)
        if (shown(problem, c))
            g_ptr_array_add(cells, wb_text_number(figures[c], c == AUTONOMY ? 1 : 0));
    wb_sheet_table_row(table, (const char *const *)cells->pdata,
                       problem->brief->site.months >> m & 1 ? NULL : "quiet");
}

static void add_months(WbSheet *sheet, const WbProblem *problem, const WbVerdict *verdict)
{
    const char *const titles[N_MONTH_COLUMNS] = {
        [ARRAY] = _("Array"),   [ALTERNATOR] = _("Alternator"),
        [SHORE] = _("Shore"),   [STORING_LOSS] = _("Storing loss"),
        [SUPPLY] = _("Supply"), [NEED] = _("Need\nof this kit"),
        [USABLE] = _("Usable"), [AUTONOMY] = _("Autonomy\ndays")};
    const char *heads[1 + N_MONTH_COLUMNS] = {_("Month, Wh a day")};
    int n = 1;
    for (int c = 0; c < N_MONTH_COLUMNS; c++)
        if (shown(problem, c))
            heads[n++] = titles[c];
    wb_sheet_section(sheet, _("Month by month"));
    WbSheetTable table = wb_sheet_table(sheet, heads, n);
    for (int m = 0; m < WB_MONTHS; m++)
        add_month(&table, problem, verdict, m);
}

static void add_by_hand(WbSheet *sheet, const WbProblem *problem, const WbVerdict *verdict)
{
    g_autoptr(WbByHand) hand = wb_by_hand_new(problem, verdict);
    if (!hand)
        return;
    g_autofree WbPencilLine *lines = g_new(WbPencilLine, hand->n);
    for (gsize i = 0; i < hand->n; i++) {
        const WbByHandLine *of = &hand->line[i];
        lines[i] =
            (WbPencilLine){of->label, of->formula, of->numbers, of->value, of->unit, of->source};
    }
    GtkWidget *table = wb_pencil_table_new();
    wb_pencil_table_set(WB_PENCIL_TABLE(table), lines, hand->n);
    wb_sheet_section(sheet, _("By hand, from the worst month"));
    wb_sheet_text(sheet,
                  _("A handbook’s sum, to be followed with a pencil. It is a check on the hourly "
                    "year, not better than it."),
                  "quiet");
    wb_sheet_widget(sheet, table);
    for (char **sentence = hand->differences; *sentence; sentence++)
        wb_sheet_text(sheet, *sentence, NULL);
}

/* ---- sides of the page ---- */

static const char *why_none(const WbResult *result)
{
    return result ? _("No kit works yet; the ranking page says what rules them out.")
                  : _("The ranking is being worked out.");
}

/* FALSE, and why: there is no kit. */
static gboolean has_kit(WbSheet *sheet, const WbResult *result, const WbVerdict *verdict,
                        GtkWidget *picture)
{
    if (picture != NULL)
        gtk_widget_set_visible(picture, verdict != NULL);
    if (verdict == NULL)
        wb_sheet_text(sheet, why_none(result), NULL);
    return verdict != NULL;
}

static void fill_findings(WbSheet *sheet, const WbContext *context, const WbResult *result,
                          const WbVerdict *verdict, GtkWidget *picture)
{
    const WbProblem *problem = result ? wb_result_get_problem(result) : NULL;
    wb_finding_list_set(WB_FINDING_LIST(picture), problem, verdict);
    if (!has_kit(sheet, result, verdict, picture))
        return;
    add_figures(sheet, problem, verdict);
    wb_sheet_below_picture(sheet);
    add_safety(sheet, problem, verdict);
}

static void fill_wiring(WbSheet *sheet, const WbContext *context, const WbResult *result,
                        const WbVerdict *verdict, GtkWidget *picture)
{
    if (verdict == NULL)
        wb_wiring_pane_show_none(WB_WIRING_PANE(picture), why_none(result));
    else
        wb_wiring_pane_show(WB_WIRING_PANE(picture), wb_ranking_job_get_result(context->job),
                            wb_session_get_kit(context->session));
}

static void fill_energy(WbSheet *sheet, const WbContext *context, const WbResult *result,
                        const WbVerdict *verdict, GtkWidget *picture)
{
    if (!has_kit(sheet, result, verdict, picture))
        return;
    wb_energy_pane_show(WB_ENERGY_PANE(picture), wb_ranking_job_get_result(context->job),
                        wb_session_get_kit(context->session));
    wb_sheet_below_picture(sheet);
    add_months(sheet, wb_result_get_problem(result), verdict);
}

static void fill_by_hand(WbSheet *sheet, const WbContext *context, const WbResult *result,
                         const WbVerdict *verdict, GtkWidget *picture)
{
    if (has_kit(sheet, result, verdict, picture))
        add_by_hand(sheet, wb_result_get_problem(result), verdict);
}

static GtkWidget *head_new(GtkWidget *stack)
{
    GtkWidget *head = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 18);
    GtkWidget *title = gtk_label_new(_("The kit")), *switcher = gtk_stack_switcher_new();
    gtk_widget_add_css_class(title, "page-title");
    gtk_widget_set_hexpand(title, TRUE);
    gtk_label_set_xalign(GTK_LABEL(title), 0);
    gtk_stack_switcher_set_stack(GTK_STACK_SWITCHER(switcher), GTK_STACK(stack));
    gtk_widget_add_css_class(switcher, "narrow-switcher");
    gtk_accessible_update_property(GTK_ACCESSIBLE(switcher), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   _("About the kit"), -1);
    gtk_widget_add_css_class(head, "page-head");
    gtk_box_append(GTK_BOX(head), title);
    gtk_box_append(GTK_BOX(head), switcher);
    return head;
}

GtkWidget *wb_kit_page_new(const WbContext *context)
{
    const struct {
        const char *name, *title;
        WbSheetFill fill;
        GtkWidget *picture;
    } sides[] = {{"findings", _("Findings"), fill_findings, wb_finding_list_new()},
                 {"wiring", _("Wiring"), fill_wiring, wb_wiring_pane_new(context)},
                 {"energy", _("Energy"), fill_energy, wb_energy_pane_new()},
                 {"by-hand", _("By hand"), fill_by_hand, NULL}};
    GtkWidget *page = gtk_box_new(GTK_ORIENTATION_VERTICAL, 0), *stack = gtk_stack_new();
    for (gsize i = 0; i < G_N_ELEMENTS(sides); i++)
        gtk_stack_add_titled(GTK_STACK(stack),
                             wb_sheet_new(context, "", sides[i].fill, sides[i].picture),
                             sides[i].name, sides[i].title);
    gtk_widget_set_vexpand(stack, TRUE);
    gtk_box_append(GTK_BOX(page), head_new(stack));
    gtk_box_append(GTK_BOX(page), stack);
    return page;
}
