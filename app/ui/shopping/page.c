/* What to buy for the kit in hand, where, and for how much. */
#include "bill.h"
#include "figures_text.h"
#include "sheet.h"
#include "words.h"
#include <glib/gi18n-lib.h>

/* Pieces as whole numbers, metres of conductor with one decimal. */
static char *count_text(const WbBillLine *line, double count)
{
    if (line->kind != WB_KIND_CONDUCTOR || count == 0)
        return g_strdup_printf("%.0f", count);
    g_autofree char *metres = wb_text_number(count, 1);
    return g_strdup_printf(_("%s m"), metres);
}

static void add_line(WbSheetTable *table, const WbProblem *problem, const WbBillLine *line)
{
    gboolean buys = wb_bill_line_buys(line);
    const char *currency = problem->brief->currency;
    double to_buy = line->count - line->owned;
    g_autofree char *name = g_strdup_printf("%s %s", line->part->maker, line->part->model);
    g_autofree char *buy = count_text(line, to_buy);
    g_autofree char *have = count_text(line, line->owned);
    g_autofree char *each = buys ? wb_words_money(line->sourced->price_minor, currency)
                                 : g_strdup(to_buy > 0 ? _("no price") : "");
    g_autofree char *sum = buys ? wb_words_money(line->minor, currency) : g_strdup("");
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

static void add_lines(WbSheetTable *table, const WbProblem *problem, const WbBill *bill,
                      gboolean wires)
{
    for (gsize i = 0; i < bill->n; i++)
        if ((bill->line[i].kind >= WB_KIND_CONDUCTOR) == wires)
            add_line(table, problem, &bill->line[i]);
}

static void add_bill(WbSheet *sheet, const WbProblem *problem, const WbFigures *figures,
                     const WbBill *bill)
{
    const char *heads[] = {_("Part"), _("To buy"), _("Owned"), _("Shop"), _("Each"), _("Sum")};
    const char *currency = problem->brief->currency;
    gboolean wired = problem->brief->wiring.on;
    WbSheetTable table = wb_sheet_table(sheet, heads, G_N_ELEMENTS(heads));
    add_lines(&table, problem, bill, FALSE);
    add_sum(&table, _("Parts"), figures->parts_minor, currency, "quiet");
    add_lines(&table, problem, bill, TRUE);
    if (wired)
        add_sum(&table, _("Conductors, fuses and fittings"), figures->wiring_minor, currency,
                "quiet");
    add_sum(&table, _("Shipping, once per shop"), figures->shipping_minor, currency, "quiet");
    add_sum(&table,
            wired ? _("Allowance for ties, sealant and small terminals")
                  : _("Allowance for lugs, ties, sealant and cable"),
            figures->allowance_minor, currency, "quiet");
    add_sum(&table, _("All of it"), figures->cost_minor, currency, "section");
}

static void fill(WbSheet *sheet, const WbContext *context, const WbResult *result,
                 const WbVerdict *verdict, GtkWidget *picture)
{
    if (!verdict) {
        wb_sheet_text(sheet, _("There is no kit in hand yet, so there is nothing to buy."), NULL);
        return;
    }
    const WbProblem *problem = wb_result_get_problem(result);
    WbWiring wiring = {0};
    WbBill bill = {0};
    if (wb_wiring(problem, &verdict->kit, &wiring) != WB_OK ||
        wb_bill(problem, &verdict->kit, &wiring, &bill) != WB_OK) {
        wb_wiring_free(&wiring);
        wb_sheet_text(sheet, wb_status_describe(WB_NO_MEMORY), NULL);
        return;
    }
    g_autofree char *shipping = wb_words_shipping(problem, &verdict->kit);
    if (shipping)
        wb_sheet_text(sheet, shipping, "caution");
    add_bill(sheet, problem, &verdict->figures, &bill);
    add_limit(sheet, problem, verdict->figures.cost_minor);
    add_wiring(sheet, &verdict->kit);
    wb_sheet_text(sheet,
                  problem->brief->wiring.on
                      ? _("Conductors are measured out and back, without waste: add what your "
                          "ways round corners need. Have circuits checked by your local code or a "
                          "licensed person before anything is connected.")
                      : _("Conductors and fuses are not sized, for the brief has the wiring off; "
                          "have them chosen by your local code or a licensed person before "
                          "anything is connected."),
                  "caution");
    wb_bill_free(&bill);
    wb_wiring_free(&wiring);
}

GtkWidget *wb_shopping_page_new(const WbContext *context)
{
    return wb_sheet_new(context, _("Shopping"), fill, NULL);
}
