/* One panel of `roof` in full. */
#include "cli_roof.h"
#include "cli_table.h"
#include "figures_text.h"
#include "roof_words.h"
#include <glib/gi18n-lib.h>

static void millimetres(WbTable *table, int64_t value_mm)
{
    wb_table_cell(table, g_strdup_printf("%" G_GINT64_FORMAT, value_mm));
}

static char *share_text(double share)
{
    g_autofree char *percent = wb_text_number(100 * share, 1);
    return g_strdup_printf("%s %%", percent);
}

/* Where the edges of each panel come, from the left and the front edge of the roof: what is
 * measured out before drilling. */
static void append_layout(GString *out, const WbRoofModel *model)
{
    bool shaded = model->more.has_shade;
    g_autoptr(WbTable) table =
        wb_table_new(shaded ? _(">No.|>left mm|>right mm|>front mm|>back mm|>Light lost|Lies")
                            : _(">No.|>left mm|>right mm|>front mm|>back mm|Lies"));
    for (int i = 0; i < model->fit.most; i++) {
        const WbRect *rect = &model->fit.layout[i];
        bool turned = rect->length_mm != model->panel->length_mm;
        wb_table_cell(table, g_strdup_printf("%d", i + 1));
        millimetres(table, rect->x_mm);
        millimetres(table, rect->x_mm + rect->length_mm);
        millimetres(table, rect->y_mm);
        millimetres(table, rect->y_mm + rect->width_mm);
        if (shaded)
            wb_table_cell(table, share_text(model->more.shade_by_panel[i]));
        wb_table_cell(table, g_strdup(turned ? _("across") : _("along")));
        if (i < model->n_pinned)
            wb_table_line(table, g_strdup(_("Pinned by the brief.")));
    }
    wb_table_append(table, out);
}

/* ---- how they lie ---- */

static char *turned_words(const WbArrangement *order)
{
    if (order->turned == 0)
        return g_strdup(_("All lie the same way."));
    return g_strdup_printf(g_dngettext(GETTEXT_PACKAGE, "%d lies the other way than the rest.",
                                       "%d lie the other way than the rest.",
                                       (gulong)order->turned),
                           order->turned);
}

static void append_order(GString *out, const WbRoof *roof, const WbArrangement *order)
{
    g_autofree char *off = wb_text_number((double)order->off_centre_mm, 0);
    g_autofree char *turned = turned_words(order);
    g_autofree char *lines = g_strdup_printf(
        /* Translators: a sentence on how they are turned, then two numbers. */
        _("%s Their edges lie on %d lines; the free margins, left against right and front against "
          "back, differ by %s mm in all."),
        turned, order->lines, off);
    wb_cli_wrap(out, "", lines);
    if (roof->has_gland) {
        g_autofree char *metres = wb_text_number((double)order->cable_mm / 1e3, 1);
        g_autofree char *cable =
            g_strdup_printf(_("From the panels' centres to the cable gland it is %s m in all, "
                              "along the roof and across."),
                            metres);
        wb_cli_wrap(out, "", cable);
    }
    if (order->shaded_mm2 > 0) {
        g_autofree char *area = wb_text_number((double)order->shaded_mm2 / 1e6, 2);
        g_autofree char *shaded =
            g_strdup_printf(_("%s m2 of the panels lie where the brief says it is shaded."), area);
        wb_cli_wrap(out, "", shaded);
    }
}

static void append_shade(GString *out, const WbRoofMore *more)
{
    GString *months = g_string_new(
        _("Direct light that what stands on the roof takes from them, an estimate for each "
          "month's mean day:"));
    for (int m = 0; m < 12; m++) {
        g_autofree char *share = share_text(more->shade[m]);
        g_string_append_printf(months, "%s %s %s", m > 0 ? "," : "", wb_text_month(m), share);
    }
    g_string_append_c(months, '.');
    wb_cli_wrap(out, "", months->str);
    g_string_free(months, TRUE);
}

/* ---- why no more ---- */

static char *weights_words(const WbRoofProof *proof)
{
    size_t cases = 0;
    for (size_t i = 0; i < proof->n_steps; i++)
        cases += proof->steps[i].kind == WB_STEP_REFUTE || proof->steps[i].kind == WB_STEP_EMPTY;
    if (proof->n_points == 0)
        return g_strdup_printf(_("Proof that %d do not fit: no place is left that one of them "
                                 "could take."),
                               proof->n_panels);
    if (cases == 1)
        return g_strdup_printf(
            _("Proof that %d do not fit: weights on %u square millimetres of the roof. Every "
              "panel, "
              "wherever it lies, uses up its share of them, and for %d there is not enough."),
            proof->n_panels, (guint)proof->n_points, proof->n_panels);
    return g_strdup_printf(
        _("Proof that %d do not fit: %u cases, each with weights on square millimetres of the "
          "roof. Every panel, wherever it lies, uses up its share of them, and for %d there is not "
          "enough."),
        proof->n_panels, (guint)cases, proof->n_panels);
}

static char *proof_words(const WbRoofProof *proof)
{
    switch (proof->kind) {
    case WB_PROOF_SIZE:
        return g_strdup_printf(_("Proof that %d do not fit: the panel enters the edge left by the "
                                 "margin neither along nor across."),
                               proof->n_panels);
    case WB_PROOF_AREA:
        return g_strdup_printf(_("Proof that %d do not fit: with their gaps they take more area "
                                 "than is left."),
                               proof->n_panels);
    case WB_PROOF_WEIGHTS:
        return weights_words(proof);
    case WB_PROOF_SEARCH:
        return g_strdup_printf(_("Proof that %d do not fit: the rectangle was filled in every way "
                                 "there is."),
                               proof->n_panels);
    case WB_PROOF_NONE:
        break;
    }
    return g_strdup("");
}

static const char *no_proof_words(const WbRoofFit *fit)
{
    return fit->bound == fit->most
               ? _("Every way to lay one more was searched through, but no proof that can be "
                   "checked apart was found within the budget; a larger --nodes may find one.")
               : _("No proof that can be checked apart was found within the budget; a larger "
                   "--nodes may find one.");
}

static void append_proof(GString *out, const WbRoofModel *model)
{
    const WbRoofMore *more = &model->more;
    if (!more->has_proof) {
        if (model->fit.bound < model->fit.at_most)
            wb_cli_wrap(out, "", no_proof_words(&model->fit));
        return;
    }
    g_autofree char *words = proof_words(&more->proof);
    g_autofree char *text = g_strdup_printf(
        "%s %s", words,
        more->proof_ok ? _("A checker of its own followed it.")
                       : _("The checker does not follow it: take the answer as not decided."));
    wb_cli_wrap(out, "", text);
    if (model->n_pinned > 0)
        wb_cli_wrap(out, "", _("Counted beside the pinned ones."));
}

static void append_changes(GString *out, const WbRoof *roof, const WbRoofModel *model)
{
    const WbRoofMore *more = &model->more;
    if (!more->has_changes)
        return;
    int told = 0;
    for (int i = 0; i < more->n_changes; i++) {
        if (!wb_roof_change_is_useful(&more->change[i]))
            continue;
        told++;
        g_autofree char *words = wb_roof_change_words(roof, &more->change[i], 1);
        wb_cli_wrap(out, "- ", words);
    }
    if (told == 0)
        wb_cli_wrap(out, "", _("No single change of the roof that lets one more in was found."));
}

void wb_cli_roof_one_text(GString *out, const WbRoofReport *report, const WbRoofModel *model)
{
    const WbRoof *roof = &report->brief->roof;
    g_string_append_c(out, '\n');
    if (model->fit.most > 0) {
        wb_cli_wrap(
            out, "",
            roof->n_corners > 0
                ? _("Edges of each panel, measured from the left and the front of the frame the "
                    "roof's corners lie in:")
                : _("Edges of each panel, measured from the left and the front edge of the roof:"));
        append_layout(out, model);
        append_order(out, roof, &model->more.order);
        if (model->more.has_shade)
            append_shade(out, &model->more);
    }
    append_proof(out, model);
    append_changes(out, roof, model);
}
