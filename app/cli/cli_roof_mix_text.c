#include "cli_roof_mix.h"
#include "cli_table.h"
#include "figures_text.h"
#include "words.h"
#include <glib/gi18n-lib.h>

/* The table shows so many; the rest is in the JSON. */
#define ROWS_SHOWN 12

/* "4 x p-brambleray-100-rigid + 8 x p-orrelith-20-rigid" */
static char *mix_words(const WbMixRow *row)
{
    GString *out = g_string_new(NULL);
    for (size_t k = 0; k < row->n_models; k++)
        if (row->best.count[k] > 0)
            g_string_append_printf(out, "%s%d x %s", out->len > 0 ? " + " : "", row->best.count[k],
                                   row->panel[k]->part.id);
    return g_string_free(out, FALSE);
}

static const char *answer_of(const WbRoofMixes *mixes, const WbMixRow *row, bool first)
{
    if (first)
        return mixes->most_proved ? _("most watts: proved") : _("more not decided");
    if (row->per_money)
        return _("most W for the money");
    return "";
}

static void append_row(WbTable *table, const WbRoofReport *report, guint at)
{
    const WbMixRow *row = &g_array_index(report->mixes->rows, WbMixRow, at);
    const WbMixBest *best = &row->best;
    bool priced = best->price_minor >= 0;
    wb_table_cell(table, mix_words(row));
    wb_table_cell(table, wb_text_number(best->power_w, 0));
    wb_table_cell(table, priced ? wb_words_money(best->price_minor, report->brief->currency)
                                : g_strdup(_("no price")));
    wb_table_cell(table, wb_text_number(best->load_kg, 1));
    wb_table_cell(table, g_strdup(answer_of(report->mixes, row, at == 0)));
    if (at == 0 && row->per_money)
        wb_table_line(table, g_strdup(_("It gives the most watts for the money too.")));
}

static void append_rows(GString *out, const WbRoofReport *report)
{
    const GArray *rows = report->mixes->rows;
    g_autoptr(WbTable) table = wb_table_new(_("Mix|>W|>Price|>kg|Answer"));
    for (guint i = 0; i < rows->len; i++)
        if (i < ROWS_SHOWN || g_array_index(rows, WbMixRow, i).per_money)
            append_row(table, report, i);
    wb_table_append(table, out);
    if (rows->len > ROWS_SHOWN) {
        g_autofree char *more =
            g_strdup_printf(_("%u mixes of fewer watts for less money are in the --json output."),
                            rows->len - ROWS_SHOWN);
        wb_cli_wrap(out, "", more);
    }
}

static void append_layout(GString *out, const WbMixRow *row)
{
    g_autoptr(WbTable) table = wb_table_new(_(">No.|>left mm|>right mm|>front mm|>back mm|Panel"));
    for (int i = 0; i < row->best.n_layout; i++) {
        const WbRect *rect = &row->best.layout[i].rect;
        const int64_t edges_mm[] = {rect->x_mm, rect->x_mm + rect->length_mm, rect->y_mm,
                                    rect->y_mm + rect->width_mm};
        wb_table_cell(table, g_strdup_printf("%d", i + 1));
        for (gsize k = 0; k < G_N_ELEMENTS(edges_mm); k++)
            wb_table_cell(table, g_strdup_printf("%" G_GINT64_FORMAT, edges_mm[k]));
        wb_table_cell(table, g_strdup(row->panel[row->best.layout[i].item]->part.id));
    }
    wb_cli_wrap(out, "", _("Edges of each panel of the first mix, from the left and the front:"));
    wb_table_append(table, out);
}

static char *proof_words(const WbMixOneMore *more)
{
    const char *id = more->panel->part.id;
    switch ((WbMixWhyKind)more->why.kind) {
    case WB_MIX_WHY_SIZE:
        return g_strdup_printf(_("One %s more does not fit beside them: a panel enters neither "
                                 "way. Checked."),
                               id);
    case WB_MIX_WHY_AREA:
        return g_strdup_printf(_("One %s more does not fit beside them: there would be more panel "
                                 "than room. Checked."),
                               id);
    case WB_MIX_WHY_ONE:
        return g_strdup_printf(_("One %s more does not fit beside them: the panels of one model "
                                 "alone would be too many. Proof checked."),
                               id);
    case WB_MIX_WHY_CLAUSES:
        return g_strdup_printf(_("One %s more does not fit beside them. Proof checked."), id);
    }
    return NULL;
}

static char *one_more_words(const WbMixOneMore *more)
{
    const char *id = more->panel->part.id;
    if (more->over_load)
        return g_strdup_printf(_("One %s more would be too heavy for the limit of the load."), id);
    if (more->told)
        return proof_words(more);
    if (more->fit.answer == WB_FIT_WITHIN_1_MM)
        return g_strdup_printf(_("Whether one %s more fits hangs on less than 1 mm."), id);
    if (more->fit.answer == WB_FITS)
        return g_strdup_printf(_("One %s more fits; more than %d panels were not asked for."), id,
                               WB_MIX_PANELS_MOST);
    return g_strdup_printf(_("Whether one %s more fits beside them is not decided."), id);
}

/* Ids of those mixed though others give more alone. */
static char *largest_words(const WbRoofMixes *mixes)
{
    GString *ids = g_string_new(NULL);
    for (size_t i = mixes->n_strongest; i < mixes->n_mixed; i++)
        g_string_append_printf(ids, "%s%s", ids->len > 0 ? ", " : "", mixes->mixed[i]->part.id);
    return g_string_free(ids, FALSE);
}

static char *head_words(const WbRoofReport *report)
{
    const WbRoofMixes *mixes = report->mixes;
    /* The one asked for stands first among the strongest. */
    guint n = (guint)mixes->n_strongest - (report->panel != NULL);
    g_autofree char *largest = largest_words(mixes);
    if (mixes->n_mixed <= WB_MIX_MODELS)
        return g_strdup(_("Best mixes of the ticked panels, pins left aside; each gives fewer "
                          "watts for less money than the one before:"));
    if (report->panel != NULL && *largest == '\0')
        return g_strdup_printf(_("Best mixes of %s and one of the %u other ticked panels that fit, "
                                 "pins left aside; each gives fewer watts for less money than the "
                                 "one before:"),
                               report->panel, n);
    if (report->panel != NULL)
        return g_strdup_printf(_("Best mixes of %s and one other ticked panel, one of the %u that "
                                 "give the most watts alone or of the largest of the rest that "
                                 "fit: %s. Pins are left aside; each gives fewer watts for less "
                                 "money than the one before:"),
                               report->panel, n, largest);
    if (*largest == '\0')
        return g_strdup_printf(_("Best mixes of two of the %u ticked panels that fit, and each "
                                 "panel alone, pins left aside; each gives fewer watts for less "
                                 "money than the one before:"),
                               n);
    return g_strdup_printf(_("Best mixes of two ticked panels, and each panel alone. Mixed are the "
                             "%u that give the most watts alone and the largest of the rest that "
                             "fit: %s. Pins are left aside; each gives fewer watts for less money "
                             "than the one before:"),
                           n, largest);
}

static const char *nothing_words(const WbRoofMixes *mixes)
{
    if (mixes->n_panels == 0 && mixes->n_too_high > 0)
        return _("No ticked panel may stand so high over the roof, so there is nothing to mix.");
    if (mixes->n_panels == 0)
        return _("No panel is ticked, so there is nothing to mix.");
    if (mixes->undecided > 0)
        return _("Whether any mix of the ticked panels fits is not decided.");
    return _("No ticked panel fits this roof and its load limit, so there is nothing to mix.");
}

void wb_cli_roof_mixes_text(GString *out, const WbRoofReport *report)
{
    const WbRoofMixes *mixes = report->mixes;
    g_string_append_c(out, '\n');
    if (mixes->rows->len == 0) {
        wb_cli_wrap(out, "", nothing_words(mixes));
        return;
    }
    g_autofree char *head = head_words(report);
    wb_cli_wrap(out, "", head);
    append_rows(out, report);
    for (size_t k = 0; k < mixes->n_one_more; k++) {
        g_autofree char *words = one_more_words(&mixes->one_more[k]);
        wb_cli_wrap(out, "", words);
    }
    if (mixes->undecided > 0) {
        g_autofree char *open = g_strdup_printf(
            g_dngettext(GETTEXT_PACKAGE, "%d other mix is not decided; a larger --nodes may.",
                        "%d other mixes are not decided; a larger --nodes may.",
                        (gulong)mixes->undecided),
            mixes->undecided);
        wb_cli_wrap(out, "", open);
    }
    append_layout(out, &g_array_index(mixes->rows, WbMixRow, 0));
}
