/* What to buy for the kit in hand, where, and for how much. */
#include "figures_text.h"
#include "sheet.h"
#include "words.h"
#include <glib/gi18n-lib.h>

typedef struct {
    const WbPart *part;
    const WbSourced *sourced;
    int count;
} Line;

static gsize lines_of(const WbProblem *problem, const WbKit *kit, Line lines[5])
{
    gsize n = 0;
    const WbPanelChoice *panel = &problem->panels[kit->panel];
    const WbControllerChoice *controller = &problem->controllers[kit->controller];
    const WbStorageChoice *storage = &problem->storage[kit->storage];
    lines[n++] = (Line){&panel->panel->part, &panel->sourced, kit->n_series * kit->n_parallel};
    lines[n++] = (Line){&controller->controller->part, &controller->sourced, kit->n_controllers};
    lines[n++] =
        (Line){&storage->storage->part, &storage->sourced, kit->bank_series * kit->bank_parallel};
    if (kit->inverter > 0)
        lines[n++] = (Line){&problem->inverters[kit->inverter].inverter->part,
                            &problem->inverters[kit->inverter].sourced, 1};
    if (kit->dcdc > 0)
        lines[n++] =
            (Line){&problem->dcdc[kit->dcdc].dcdc->part, &problem->dcdc[kit->dcdc].sourced, 1};
    return n;
}

static void add_line(WbSheetTable *table, const WbProblem *problem, const Line *line)
{
    int owned = MIN(line->sourced->owned, line->count);
    int to_buy = line->count - owned;
    gboolean buys = to_buy > 0 && line->sourced->priced;
    const char *currency = problem->brief->currency;
    g_autofree char *name = g_strdup_printf("%s %s", line->part->maker, line->part->model);
    g_autofree char *buy = g_strdup_printf("%d", to_buy);
    g_autofree char *have = g_strdup_printf("%d", owned);
    g_autofree char *each = buys ? wb_words_money(line->sourced->price_minor, currency)
                                 : g_strdup(to_buy > 0 ? _("no price") : "");
    g_autofree char *sum =
        buys ? wb_words_money(line->sourced->price_minor * to_buy, currency) : g_strdup("");
    const char *shop =
        buys && line->sourced->shop >= 0 ? problem->shops[line->sourced->shop].shop->name : "";
    const char *cells[] = {name, buy, have, shop, each, sum};
    wb_sheet_table_row(table, cells, NULL);
}

static void add_sum(WbSheetTable *table, const char *label, gint64 minor, const char *currency,
                    const char *css_class)
{
    g_autofree char *sum = wb_words_money(minor, currency);
    const char *cells[] = {label, "", "", "", "", sum};
    wb_sheet_table_row(table, cells, css_class);
}

static void add_limit(WbSheet *sheet, const WbProblem *problem, gint64 cost_minor)
{
    const WbLimit *limit = &problem->brief->money_minor;
    gint64 left = (gint64)limit->value - cost_minor;
    g_autofree char *words = wb_words_money(left < 0 ? -left : left, problem->brief->currency);
    g_autofree char *text = left < 0 ? g_strdup_printf(_("%s over the money limit."), words)
                                     : g_strdup_printf(_("%s left of the money limit."), words);
    if (limit->on)
        wb_sheet_text(sheet, text, left < 0 ? "over" : NULL);
}

static void add_wiring(WbSheet *sheet, const WbKit *kit)
{
    g_autofree char *panels = wb_words_panel_wiring(kit);
    g_autofree char *bank = wb_words_bank_wiring(kit);
    wb_sheet_section(sheet, _("How they are joined"));
    wb_sheet_row(sheet, _("Panels"), panels, NULL);
    wb_sheet_row(sheet, _("Bank"), bank, NULL);
}

static void fill(WbSheet *sheet, const WbContext *context, const WbResult *result,
                 const WbVerdict *verdict, GtkWidget *picture)
{
    if (!verdict) {
        wb_sheet_text(sheet, _("There is no kit in hand yet, so there is nothing to buy."), NULL);
        return;
    }
    const char *heads[] = {_("Part"), _("To buy"), _("Owned"), _("Shop"), _("Each"), _("Sum")};
    const WbProblem *problem = wb_result_get_problem(result);
    const WbFigures *figures = &verdict->figures;
    const char *currency = problem->brief->currency;
    Line lines[5];
    gsize n = lines_of(problem, &verdict->kit, lines);
    WbSheetTable table = wb_sheet_table(sheet, heads, G_N_ELEMENTS(heads));
    for (gsize i = 0; i < n; i++)
        add_line(&table, problem, &lines[i]);
    add_sum(&table, _("Parts"), figures->parts_minor, currency, "quiet");
    add_sum(&table, _("Shipping, once per shop"), figures->shipping_minor, currency, "quiet");
    add_sum(&table, _("Allowance for lugs, ties, sealant and cable"), figures->allowance_minor,
            currency, "quiet");
    add_sum(&table, _("All of it"), figures->cost_minor, currency, "section");
    add_limit(sheet, problem, figures->cost_minor);
    add_wiring(sheet, &verdict->kit);
    wb_sheet_text(sheet,
                  _("Conductors and fuses are not sized here; have them chosen by your local code "
                    "or a licensed person before anything is connected."),
                  "caution");
}

GtkWidget *wb_shopping_page_new(const WbContext *context)
{
    return wb_sheet_new(context, _("Shopping"), fill, NULL);
}
