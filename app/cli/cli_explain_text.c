#include "cli_circuits.h"
#include "cli_explain.h"

#include "cli_table.h"
#include "cli_way.h"
#include "cli_year.h"
#include "figures_text.h"
#include "roof_way_in.h"
#include "words_way.h"
#include <glib/gi18n-lib.h>
#include <math.h>

static void append_title(GString *out, const WbProblem *problem, const WbVerdict *verdict,
                         WbStanding standing)
{
    char id[WB_KIT_ID];
    wb_kit_id(problem, &verdict->kit, id);
    g_autofree char *kit = wb_words_kit(problem, &verdict->kit);
    wb_cli_wrap(out, "", kit);
    wb_cli_wrap(out, "", id);
    g_autofree char *stands =
        standing.rank > 0
            ? g_strdup_printf(_("Rank %" G_GUINT64_FORMAT ", score %.4f."), standing.rank,
                              verdict->score)
            : g_strdup_printf(verdict->feasible ? _("It works, score %.4f.")
                                                : _("It does not work; its score would be %.4f."),
                              verdict->score);
    wb_cli_wrap(out, "", stands);
    if (standing.on_front > 0)
        wb_cli_wrap(out, "",
                    _("It is on the front: no other kit is as good in all that counts there and "
                      "better in one."));
}

/* Pieces as whole numbers, metres with one decimal. */
static char *count_text(const WbBillLine *line, double count)
{
    if (line->kind != WB_KIND_CONDUCTOR)
        return g_strdup_printf("%.0f", count);
    g_autofree char *metres = wb_text_number(count, 1);
    return g_strdup_printf("%s m", metres);
}

static void append_line(WbTable *table, const WbProblem *problem, const WbBillLine *line)
{
    const WbSourced *sourced = line->sourced;
    const char *currency = problem->brief->currency;
    bool buys = wb_bill_line_buys(line) && sourced->shop >= 0;
    wb_table_cell(table, count_text(line, line->count));
    wb_table_cell(table, g_strdup_printf("%s %s", line->part->maker, line->part->model));
    wb_table_cell(table, g_strdup(buys ? problem->shops[sourced->shop].shop->name : "-"));
    wb_table_cell(table, count_text(line, line->count - line->owned));
    wb_table_cell(table, sourced->priced ? wb_words_money(sourced->price_minor, currency)
                                         : g_strdup(_("no price")));
    wb_table_cell(table, wb_words_money(line->minor, currency));
    if (line->kind < WB_KIND_CONDUCTOR)
        wb_table_cell(table, wb_text_number((double)sourced->weight_g / 1e3, 1));
}

static void append_lines(GString *out, const WbProblem *problem, const WbBill *bill, bool wires,
                         const char *heading)
{
    g_autoptr(WbTable) table =
        wb_table_new(wires ? _(">Count|Part|Shop|>Bought|>Each|>Sum")
                           : _(">Count|Part|Shop|>Bought|>Each|>Sum|>kg each"));
    bool any = false;
    for (gsize i = 0; i < bill->n; i++)
        if ((bill->line[i].kind >= WB_KIND_CONDUCTOR) == wires) {
            append_line(table, problem, &bill->line[i]);
            any = true;
        }
    if (!any)
        return;
    g_string_append_printf(out, "\n%s\n", heading);
    wb_table_append(table, out);
}

static void append_bill(GString *out, const WbProblem *problem, const WbVerdict *verdict,
                        const WbBill *bill)
{
    const char *currency = problem->brief->currency;
    const WbFigures *figures = &verdict->figures;
    append_lines(out, problem, bill, false, _("Parts"));
    append_lines(out, problem, bill, true, _("For the circuits"));
    g_autofree char *parts = wb_words_money(figures->parts_minor, currency);
    g_autofree char *wiring = wb_words_money(figures->wiring_minor, currency);
    g_autofree char *shipping = wb_words_money(figures->shipping_minor, currency);
    g_autofree char *allowance = wb_words_money(figures->allowance_minor, currency);
    g_autofree char *cost = wb_words_money(figures->cost_minor, currency);
    double pct = problem->brief->sundries_pct;
    g_autofree char *sum =
        problem->brief->wiring.on
            ? g_strdup_printf(_("Parts %s + circuits %s + shipping %s + %g %% of the parts for "
                                "ties, sealant and small terminals %s = %s"),
                              parts, wiring, shipping, pct, allowance, cost)
            : g_strdup_printf(
                  _("Parts %s + shipping %s + %g %% of the parts for lugs, cable and sealant %s = "
                    "%s"),
                  parts, shipping, pct, allowance, cost);
    wb_cli_wrap(out, "", sum);
}

static char *figure_text(const WbProblem *problem, WbCriterion criterion, double value)
{
    static const struct {
        const char *unit;
        int decimals;
    } units[WB_N_CRITERIA] = {
        [WB_CRITERION_WEIGHT] = {"kg", 1}, [WB_CRITERION_USABLE] = {"Wh", 0},
        [WB_CRITERION_ROOF] = {"m2", 2},   [WB_CRITERION_AUTONOMY] = {N_("days"), 2},
        [WB_CRITERION_SPARE] = {"W", 0},   [WB_CRITERION_DARK] = {"h", 1},
        [WB_CRITERION_MARGIN] = {"Wh", 0},
    };
    if (criterion == WB_CRITERION_COST)
        return wb_words_money(llround(value), problem->brief->currency);
    g_autofree char *number = wb_text_number(value, units[criterion].decimals);
    return g_strdup_printf("%s %s", number, _(units[criterion].unit));
}

static void append_score(GString *out, const WbProblem *problem, const WbVerdict *verdict)
{
    static const char *const names[WB_N_CRITERIA] = {
        [WB_CRITERION_COST] = N_("Cost"),
        [WB_CRITERION_WEIGHT] = N_("Weight"),
        [WB_CRITERION_USABLE] = N_("Usable capacity"),
        [WB_CRITERION_ROOF] = N_("Roof area"),
        [WB_CRITERION_AUTONOMY] = N_("Autonomy"),
        [WB_CRITERION_SPARE] = N_("Spare power"),
        [WB_CRITERION_DARK] = N_("Dark hours a year"),
        [WB_CRITERION_MARGIN] = N_("Supply margin a day"),
    };
    g_autoptr(WbTable) table =
        wb_table_new(_("Criterion|>Figure|>Worth 0 at|>Worth 1 at|>Worth|>Weight|>Worth x weight"));
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        WbCriterion criterion = (WbCriterion)c;
        const WbAnchor *anchor = &problem->anchor[c];
        wb_table_cell(table, g_strdup(_(names[c])));
        wb_table_cell(table,
                      figure_text(problem, criterion, wb_figure(&verdict->figures, criterion)));
        wb_table_cell(table, figure_text(problem, criterion, anchor->none));
        wb_table_cell(table, figure_text(problem, criterion, anchor->full));
        wb_table_cell(table, wb_text_number(verdict->u[c], 4));
        wb_table_cell(table, wb_text_number(problem->weight[c], 4));
        wb_table_cell(table, wb_text_number(verdict->u[c] * problem->weight[c], 4));
    }
    g_string_append_printf(out, "\n%s\n", _("Score"));
    wb_table_append(table, out);
    g_autofree char *score = wb_text_number(verdict->score, 4);
    g_autofree char *sum = g_strdup_printf(_("Score: the last column's sum, %s"), score);
    wb_cli_wrap(out, "", sum);
    if (problem->rank_by.way == WB_WAY_SCORE)
        return;
    wb_cli_append_way(out, problem);
    g_autofree char *stands = wb_words_stands(problem, &verdict->figures);
    wb_cli_wrap(out, "", stands);
}

static void append_energy_month(WbTable *table, const WbMonth *month, int m, bool shore)
{
    wb_table_cell(table, g_strdup(wb_text_month(m)));
    wb_table_cell(table, wb_text_number(month->array_wh, 0));
    wb_table_cell(table, wb_text_number(month->alternator_wh, 0));
    if (shore)
        wb_table_cell(table, wb_text_number(month->shore_wh, 0));
    wb_table_cell(table, wb_text_number(month->storing_loss_wh, 0));
    wb_table_cell(table, wb_text_number(month->supply_wh, 0));
    wb_table_cell(table, wb_text_number(month->need_wh, 0));
    wb_table_cell(table, wb_text_number(month->supply_wh - month->need_wh, 0));
    wb_table_cell(table, wb_text_number(month->clipped_wh, 0));
}

/* Of the month in use in which the battery's heater takes most; 0 without one. Heater and
 * controllers make up the year's own draw. */
static double heater_day_wh(const WbProblem *problem, const WbVerdict *verdict, int *month)
{
    double idle_wh = problem->controllers[verdict->kit.controller].controller->idle_w *
                     verdict->kit.n_controllers * WB_HOURS;
    double most_wh = 0;
    for (int m = 0; m < WB_MONTHS; m++) {
        double heater_wh = verdict->year.month[m].own_draw_wh - idle_wh;
        if ((problem->brief->site.months >> m & 1u) && heater_wh > most_wh) {
            most_wh = heater_wh;
            *month = m;
        }
    }
    return most_wh;
}

static void append_heater(GString *out, const WbProblem *problem, const WbVerdict *verdict)
{
    int month = 0;
    double heater_wh = heater_day_wh(problem, verdict, &month);
    if (!problem->storage[verdict->kit.storage].storage->heated || heater_wh < 0.5)
        return;
    g_autofree char *wh = wb_text_number(heater_wh, 0);
    g_autofree char *sentence =
        g_strdup_printf(_("The battery's heater is not in this table; in the hourly year it takes "
                          "up to %s Wh a day (in %s)."),
                        wh, wb_text_month(month));
    wb_cli_wrap(out, "", sentence);
}

static void append_energy(GString *out, const WbProblem *problem, const WbVerdict *verdict)
{
    bool shore = wb_cli_has_shore(problem);
    g_autoptr(WbTable) table = wb_table_new(
        shore
            ? _("Month|>Array|>Alternator|>Shore|>Storing loss|>Supply|>Need of this "
                "kit|>Left|>Cut "
                "off")
            : _("Month|>Array|>Alternator|>Storing loss|>Supply|>Need of this kit|>Left|>Cut off"));
    for (int m = 0; m < WB_MONTHS; m++)
        if (problem->brief->site.months >> m & 1u)
            append_energy_month(table, &verdict->month[m], m, shore);
    g_string_append_printf(out, "\n%s\n", _("Energy of the mean day, Wh, in the months of use"));
    wb_table_append(table, out);
    wb_cli_wrap(out, "",
                shore ? _("Supply = array + alternator + shore - storing loss.")
                      : _("Supply = array + alternator - storing loss."));
    wb_cli_wrap(out, "", _("Array is what is left after the controllers' own draw."));
    append_heater(out, problem, verdict);
}

static void append_bank(GString *out, const WbProblem *problem, const WbVerdict *verdict)
{
    const WbStorageChoice *choice = &problem->storage[verdict->kit.storage];
    g_autoptr(WbTable) table = wb_table_new(_("Month|>Bank °C|>Share left by cold|>Draw, A a "
                                              "string|>Share left by draw|>Usable Wh|>Days"));
    for (int m = 0; m < WB_MONTHS; m++) {
        const WbMonth *month = &verdict->month[m];
        if (!(problem->brief->site.months >> m & 1u))
            continue;
        wb_table_cell(table, g_strdup(wb_text_month(m)));
        wb_table_cell(table, wb_text_number(month->bank_c, 1));
        wb_table_cell(table, wb_text_number(month->temperature_factor, 3));
        wb_table_cell(table, wb_text_number(month->dark_current_a, 2));
        wb_table_cell(table, wb_text_number(month->rate_factor, 3));
        wb_table_cell(table, wb_text_number(month->usable_wh, 0));
        wb_table_cell(table, wb_text_number(month->autonomy_days, 2));
    }
    g_string_append_printf(out, "\n%s\n", _("Bank"));
    wb_table_append(table, out);
    g_autofree char *formula = g_strdup_printf(
        ngettext("Usable = %g V x %g Ah x %d string x depth %g x share left by cold x share left "
                 "by draw; days = usable / need of this kit.",
                 "Usable = %g V x %g Ah x %d strings x depth %g x share left by cold x share left "
                 "by draw; days = usable / need of this kit.",
                 (gulong)verdict->kit.bank_parallel),
        verdict->bank.nominal_v, choice->storage->capacity_ah, verdict->kit.bank_parallel,
        wb_depth_limit(choice->storage, choice->chemistry));
    wb_cli_wrap(out, "", formula);
}

static void append_way_in(GString *out, const WbProblem *problem, const WbKit *kit)
{
    g_autofree char *way_in = wb_roof_way_in(problem, kit, G_MAXINT);
    if (way_in == NULL)
        wb_cli_wrap(
            out, "    > ",
            _("No single change was found that lets them lie (an obstacle moved by up to 1 m, a "
              "smaller margin, gap or clearance)."));
    else
        wb_cli_wrap(out, "    > ", way_in);
}

static void append_finding(GString *out, const WbProblem *problem, const WbVerdict *verdict,
                           const WbFinding *finding)
{
    const WbRuleInfo *info = wb_rule_info(finding->rule);
    g_autofree char *sentence = wb_words_finding(problem, verdict, finding);
    g_autofree char *caution = wb_words_safety(problem, verdict, finding);
    g_autofree char *margin = isnan(finding->margin)
                                  ? g_strdup("")
                                  : g_strdup_printf(_(", margin %.0f %%"), finding->margin * 100);
    g_autofree char *origin = g_strdup_printf("[%s%s; %s]", info->code, margin, info->source);
    wb_cli_wrap(out, "  - ", sentence);
    wb_cli_wrap(out, "    ", origin);
    if (caution != NULL)
        wb_cli_wrap(out, "    ! ", caution);
    if (finding->rule == WB_RULE_ROOF_FIT && !finding->holds)
        append_way_in(out, problem, &verdict->kit);
}

/* The findings of one group under a heading: 0..2 broken with that severity, 3 kept. */
#define KEPT 3

static void append_group(GString *out, const WbProblem *problem, const WbVerdict *verdict,
                         int group, const char *heading)
{
    bool headed = false;
    for (int r = 0; r < WB_N_RULES; r++) {
        const WbFinding *finding = &verdict->finding[r];
        bool concerns = !finding->holds || !isnan(finding->value) || finding->assumed != 0;
        int belongs = finding->holds ? KEPT : (int)finding->severity;
        if (!concerns || belongs != group)
            continue;
        if (!headed)
            g_string_append_printf(out, "\n%s\n", heading);
        headed = true;
        append_finding(out, problem, verdict, finding);
    }
}

char *wb_cli_explain_text(const WbProblem *problem, const WbVerdict *verdict, WbStanding standing,
                          const WbWiring *wiring, const WbBill *bill)
{
    GString *out = g_string_new(NULL);
    append_title(out, problem, verdict, standing);
    append_group(out, problem, verdict, WB_STOP, _("Why it does not work"));
    append_group(out, problem, verdict, WB_CAUTION, _("Cautions"));
    append_group(out, problem, verdict, WB_NOTE, _("Notes"));
    append_score(out, problem, verdict);
    append_bill(out, problem, verdict, bill);
    wb_cli_circuits_text(out, problem, &verdict->kit, wiring);
    append_energy(out, problem, verdict);
    append_bank(out, problem, verdict);
    wb_cli_year_text(out, &verdict->year);
    append_group(out, problem, verdict, KEPT, _("What holds"));
    g_string_append_printf(out, "\n%s\n", _("Before you build"));
    g_auto(GStrv) notes = wb_words_safety_notes(problem, verdict);
    for (guint i = 0; notes[i] != NULL; i++)
        wb_cli_wrap(out, "  - ", notes[i]);
    return g_string_free(out, FALSE);
}
