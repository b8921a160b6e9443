/* together in words: tables of what each panel gives alone and together, and what it means. */
#include "cli_table.h"
#include "cli_together.h"
#include "figures_text.h"
#include <glib/gi18n-lib.h>

#define LOST_WORTH_A_WORD 0.005
#define SAME_W 0.5

static const WbTogetherRun *run_at(const WbTogether *together, guint i)
{
    return &g_array_index(together->runs, WbTogetherRun, i);
}

double wb_together_lost(const WbTogether *together, const WbPeak *peak)
{
    return MAX(0, 1 - peak->power_w / together->apart_w);
}

static char *lost_text(const WbTogether *together, const WbPeak *peak)
{
    return wb_text_number(100 * wb_together_lost(together, peak), 1);
}

/* The panel that is passed by, NULL: none. Of several the one that loses most. */
static const WbTogetherRun *passed_by(const WbTogether *together)
{
    const WbTogetherRun *found = NULL;
    for (guint i = 0; i < together->runs->len; i++) {
        const WbTogetherRun *item = run_at(together, i);
        if (wb_run_voltage_v(&item->run, together->series.current_a) <= 0 &&
            (found == NULL || item->own.power_w > found->own.power_w))
            found = item;
    }
    return found;
}

/* The lowest current of its own. */
static const WbTogetherRun *weakest(const WbTogether *together)
{
    const WbTogetherRun *found = run_at(together, 0);
    for (guint i = 1; i < together->runs->len; i++)
        if (run_at(together, i)->own.current_a < found->own.current_a)
            found = run_at(together, i);
    return found;
}

char *wb_together_series_sentence(const WbTogether *together)
{
    const WbPeak *peak = &together->series;
    g_autofree char *lost = lost_text(together, peak);
    g_autofree char *amps = wb_text_number(peak->current_a, 2);
    const WbTogetherRun *left_out = passed_by(together);
    if (left_out != NULL)
        return g_strdup_printf(_("In one string the %s A of the others pass %s by, which gives "
                                 "nothing: %s %% of the watts are lost."),
                               amps, left_out->run.panel->part.id, lost);
    if (wb_together_lost(together, peak) < LOST_WORTH_A_WORD)
        return g_strdup_printf(_("In one string all carry %s A: %s %% of the watts are lost."),
                               amps, lost);
    return g_strdup_printf(_("In one string all carry %s A, which the weaker %s sets: %s %% of the "
                             "watts are lost."),
                           amps, weakest(together)->run.panel->part.id, lost);
}

/* The run that is left furthest from its own best, in watts. */
static const WbTogetherRun *most_lost(const WbTogether *together)
{
    const WbTogetherRun *found = NULL;
    double most_w = -INFINITY, volts = together->parallel.voltage_v;
    for (guint i = 0; i < together->runs->len; i++) {
        const WbTogetherRun *item = run_at(together, i);
        double lost_w =
            item->run.n * item->own.power_w - volts * wb_run_current_a(&item->run, volts);
        if (lost_w > most_w) {
            most_w = lost_w;
            found = item;
        }
    }
    return found;
}

char *wb_together_parallel_sentence(const WbTogether *together)
{
    const WbPeak *peak = &together->parallel;
    const WbTogetherRun *worst = most_lost(together);
    g_autofree char *lost = lost_text(together, peak);
    g_autofree char *volts = wb_text_number(peak->voltage_v, 1);
    g_autofree char *own = wb_text_number(worst->run.n * worst->own.voltage_v, 1);
    if (wb_together_lost(together, peak) < LOST_WORTH_A_WORD)
        return g_strdup_printf(_("Side by side all stand at %s V: %s %% of the watts are lost."),
                               volts, lost);
    return g_strdup_printf(
        _("Side by side all stand at %s V, where %s would be best at %s V: %s %% "
          "of the watts are lost."),
        volts, worst->run.panel->part.id, own, lost);
}

static char *run_name(const WbPanelRun *run)
{
    return run->n == 1 ? g_strdup(run->panel->part.id)
                       : g_strdup_printf(_("%s, %d in series"), run->panel->part.id, run->n);
}

static void append_own(GString *out, const WbTogether *together)
{
    g_autoptr(WbTable) table = wb_table_new(_("Each panel alone|>Number|>W|>V|>A"));
    for (guint i = 0; i < together->runs->len; i++) {
        const WbTogetherRun *item = run_at(together, i);
        wb_table_cell(table, g_strdup(item->run.panel->part.id));
        wb_table_cell(table, g_strdup_printf("%d", item->run.n));
        wb_table_cell(table, wb_text_number(item->own.power_w, 1));
        wb_table_cell(table, wb_text_number(item->own.voltage_v, 1));
        wb_table_cell(table, wb_text_number(item->own.current_a, 2));
    }
    wb_table_append(table, out);
    g_autofree char *apart = wb_text_number(together->apart_w, 1);
    g_autofree char *sentence = g_strdup_printf(
        _("Apart, each at its own best: %s W. (Numbers of one panel, by a curve "
          "through its data-sheet figures; its top lies close to the rated watts.)"),
        apart);
    wb_cli_wrap(out, "", sentence);
}

/* Volts and amps of each run at a common point, then of all. */
static void append_point(GString *out, const WbTogether *together, const char *heads,
                         const WbPeak *peak, gboolean series)
{
    g_autoptr(WbTable) table = wb_table_new(heads);
    for (guint i = 0; i < together->runs->len; i++) {
        const WbPanelRun *run = &run_at(together, i)->run;
        double volts = series ? wb_run_voltage_v(run, peak->current_a) : peak->voltage_v;
        double amps = series ? peak->current_a : wb_run_current_a(run, peak->voltage_v);
        wb_table_cell(table, run_name(run));
        wb_table_cell(table, wb_text_number(volts * amps, 1));
        wb_table_cell(table, wb_text_number(volts, 1));
        wb_table_cell(table, wb_text_number(amps, 2));
    }
    wb_table_cell(table, g_strdup(_("All")));
    wb_table_cell(table, wb_text_number(peak->power_w, 1));
    wb_table_cell(table, wb_text_number(peak->voltage_v, 1));
    wb_table_cell(table, wb_text_number(peak->current_a, 2));
    g_string_append_c(out, '\n');
    wb_table_append(table, out);
}

static char *compare_text(const WbTogether *together)
{
    double more_w = together->parallel.power_w - together->series.power_w;
    g_autofree char *more = wb_text_number(ABS(more_w), 1);
    if (ABS(more_w) < SAME_W)
        return g_strdup(_("The two give the same."));
    return g_strdup_printf(more_w > 0 ? _("Side by side gives %s W more than one string.")
                                      : _("One string gives %s W more than side by side."),
                           more);
}

/* What the two ways mean, whichever was asked for. */
static void append_meaning(GString *out, const WbTogether *together)
{
    g_autofree char *series = wb_together_series_sentence(together);
    g_autofree char *parallel = wb_together_parallel_sentence(together);
    g_autofree char *compare = compare_text(together);
    double lost = MIN(wb_together_lost(together, &together->series),
                      wb_together_lost(together, &together->parallel));
    g_string_append_c(out, '\n');
    wb_cli_wrap(out, "", series);
    wb_cli_wrap(out, "", parallel);
    wb_cli_wrap(out, "", compare);
    if (lost >= LOST_WORTH_A_WORD)
        wb_cli_wrap(out, "", _("A controller for each kind of panel would lose none of it."));
}

char *wb_together_text(const WbTogether *together)
{
    GString *out = g_string_new(NULL);
    g_autoptr(GPtrArray) cautions = wb_together_cautions(together);
    append_own(out, together);
    if (together->tell_series)
        append_point(out, together, _("In one string|>W|>V|>A"), &together->series, TRUE);
    if (together->tell_parallel)
        append_point(out, together, _("Side by side|>W|>V|>A"), &together->parallel, FALSE);
    append_meaning(out, together);
    g_string_append_printf(out, "\n%s\n", _("Cautions"));
    for (guint i = 0; i < cautions->len; i++)
        wb_cli_wrap(out, "  - ", cautions->pdata[i]);
    return g_string_free(out, FALSE);
}
