/* Storage compared: the best working kit of each chemistry, side by side. */
#include "figures_text.h"
#include "sheet.h"
#include "words.h"
#include <glib/gi18n-lib.h>

typedef struct {
    const WbRanked *ranked; /* NULL: none */
    gsize place;            /* in the ranking, 0: beyond the rows kept */
} Best;

static Best best_of(const WbResult *result, gsize chemistry)
{
    const WbRanking *ranking = wb_result_get_ranking(result);
    const WbChemistryRank *of = &ranking->chemistries[chemistry];
    Best best = {of->feasible > 0 ? &of->best : NULL, 0};
    for (gsize i = 0; i < ranking->n_top && best.ranked && !best.place; i++)
        if (wb_kit_compare(NULL, &ranking->top[i].kit, &best.ranked->kit) == 0)
            best.place = i + 1;
    return best;
}

static double nameplate_wh(const WbProblem *problem, const WbKit *kit)
{
    const WbStorage *storage = problem->storage[kit->storage].storage;
    return storage->nominal_v * storage->capacity_ah * kit->bank_series * kit->bank_parallel;
}

static char *place_text(const WbResult *result, const Best *best)
{
    double kept = (double)wb_result_get_ranking(result)->n_top;
    g_autofree char *number = wb_text_number(best->place ? (double)best->place : kept, 0);
    return best->place ? g_strdup(number) : g_strdup_printf(_("beyond the first %s"), number);
}

static void add_kit(WbSheetTable *table, const WbResult *result, const WbChemistry *chemistry,
                    const Best *best)
{
    const WbProblem *problem = wb_result_get_problem(result);
    const WbRanked *ranked = best->ranked;
    double nameplate = nameplate_wh(problem, &ranked->kit);
    g_autofree char *rank = place_text(result, best);
    g_autofree char *money = wb_words_money(ranked->figures.cost_minor, problem->brief->currency);
    g_autofree char *weight = wb_text_number((double)ranked->figures.weight_g / 1e3, 1);
    g_autofree char *rated = wb_text_number(nameplate, 0);
    g_autofree char *usable = wb_text_number(ranked->figures.usable_wh, 0);
    g_autofree char *share = wb_text_number(ranked->figures.usable_wh / nameplate * 100, 0);
    g_autofree char *days = wb_text_number(ranked->figures.autonomy_days, 1);
    const char *cells[] = {chemistry->name, rank, money, weight, rated, usable, share, days};
    wb_sheet_table_row(table, cells, NULL);
}

static void add_words(WbSheet *sheet, const WbResult *result, const WbChemistry *chemistry,
                      const Best *best)
{
    g_autofree char *words = wb_words_kit(wb_result_get_problem(result), &best->ranked->kit);
    wb_sheet_row(sheet, chemistry->name, words, NULL);
}

static void add_chemistries(WbSheet *sheet, const WbResult *result)
{
    const WbCatalogue *catalogue = wb_result_get_catalogue(result);
    const char *heads[] = {_("Chemistry"),  _("Place in\nranking"), _("Money"),
                           _("Weight\nkg"), _("Nameplate\nWh"),     _("Usable\nWh"),
                           _("of it\n%"),   _("Autonomy\ndays")};
    WbSheetTable table = wb_sheet_table(sheet, heads, G_N_ELEMENTS(heads));
    g_autoptr(GString) missing = g_string_new(NULL);
    for (gsize i = 0; i < catalogue->n_chemistries; i++) {
        const WbChemistry *chemistry = &catalogue->chemistries[i];
        Best best = best_of(result, i);
        if (best.ranked)
            add_kit(&table, result, chemistry, &best);
        else
            g_string_append_printf(missing, "%s%s", missing->len ? ", " : "", chemistry->name);
    }
    if (missing->len > 0) {
        g_autofree char *text =
            g_strdup_printf(_("No kit works with: %s. The ranking says why."), missing->str);
        wb_sheet_text(sheet, text, "quiet");
    }
}

static void fill(WbSheet *sheet, const WbContext *context, const WbResult *result,
                 const WbVerdict *verdict, GtkWidget *picture)
{
    if (!result || wb_result_get_ranking(result)->n_top == 0) {
        wb_sheet_text(sheet,
                      result ? _("No kit works yet; the ranking page says what rules them out.")
                             : _("The ranking is being worked out."),
                      NULL);
        return;
    }
    const WbCatalogue *catalogue = wb_result_get_catalogue(result);
    wb_sheet_text(sheet,
                  _("The best working kit of each chemistry. Usable is the lowest over the "
                    "months in use: depth limit, cold and discharge rate taken off."),
                  "quiet");
    add_chemistries(sheet, result);
    wb_sheet_section(sheet, _("These kits"));
    for (gsize i = 0; i < catalogue->n_chemistries; i++) {
        Best best = best_of(result, i);
        if (best.ranked)
            add_words(sheet, result, &catalogue->chemistries[i], &best);
    }
}

GtkWidget *wb_storage_page_new(const WbContext *context)
{
    return wb_sheet_new(context, _("Storage"), fill, NULL);
}
