/* What belongs beside the watts of panels together: cold voltage, makers' limits, fuses. */
#include "cli_together.h"
#include "figures_text.h"
#include "rules.h"
#include <glib/gi18n-lib.h>

/* As rule string-fuse reckons: brighter than 1000 W/m2, and 15 A where a data sheet names none. */
#define IRRADIANCE_FACTOR 1.25
#define SERIES_FUSE_A 15.0

const double wb_together_cold_c[WB_TOGETHER_COLDS] = {25, -10, -25, -40};

static const WbTogetherRun *run_at(const WbTogether *together, guint i)
{
    return &g_array_index(together->runs, WbTogetherRun, i);
}

static double run_voc_v(const WbTogether *together, guint i, double cold_c, guint32 *assumed)
{
    const WbPanelRun *run = &run_at(together, i)->run;
    return run->n * wb_cold_voc_v(run->panel, cold_c, assumed);
}

double wb_together_series_voc_v(const WbTogether *together, double cold_c, guint32 *assumed)
{
    double sum_v = 0;
    for (guint i = 0; i < together->runs->len; i++)
        sum_v += run_voc_v(together, i, cold_c, assumed);
    return sum_v;
}

double wb_together_parallel_voc_v(const WbTogether *together, double cold_c, guint32 *assumed)
{
    double most_v = 0;
    for (guint i = 0; i < together->runs->len; i++)
        most_v = MAX(most_v, run_voc_v(together, i, cold_c, assumed));
    return most_v;
}

double wb_together_back_a(const WbTogether *together, guint run)
{
    double sum_a = 0;
    for (guint i = 0; i < together->runs->len; i++)
        if (i != run)
            sum_a += IRRADIANCE_FACTOR * run_at(together, i)->run.panel->isc_a;
    return sum_a;
}

/* The same sentence once, however many runs it holds for. Takes the sentence. */
static void say(GPtrArray *cautions, char *sentence)
{
    if (g_ptr_array_find_with_equal_func(cautions, sentence, g_str_equal, NULL))
        g_free(sentence);
    else
        g_ptr_array_add(cautions, sentence);
}

typedef double (*VocAt)(const WbTogether *together, double cold_c, guint32 *assumed);

/* "44.0 V at 25 °C, ..." for all told temperatures. */
static char *cold_list(const WbTogether *together, VocAt voc_at, guint32 *assumed)
{
    GString *list = g_string_new(NULL);
    for (int i = 0; i < WB_TOGETHER_COLDS; i++) {
        double cold_c = wb_together_cold_c[i];
        g_autofree char *volts = wb_text_number(voc_at(together, cold_c, assumed), 1);
        g_string_append_printf(list, i == 0 ? _("%s V at %.0f °C") : _(", %s V at %.0f °C"), volts,
                               cold_c);
    }
    return g_string_free(list, FALSE);
}

static void say_cold(GPtrArray *cautions, const WbTogether *together, gboolean series)
{
    guint32 assumed = 0;
    g_autofree char *list = cold_list(
        together, series ? wb_together_series_voc_v : wb_together_parallel_voc_v, &assumed);
    say(cautions,
        g_strdup_printf(series ? _("Open circuit the one string stands at %s: the controller's "
                                   "input has to bear the coldest of your place.")
                               : _("Open circuit the strings side by side stand at up to %s: the "
                                   "controller's input has to bear the coldest of your place."),
                        list));
    if (assumed != 0)
        say(cautions, g_strdup(_("Where a data sheet gives no voltage coefficient, the cold "
                                 "voltage is by a table for crystalline silicon.")));
}

/* The warmest of the told temperatures at which a panel's maker is passed over. */
static void say_system_v(GPtrArray *cautions, const WbTogether *together, guint run, VocAt voc_at,
                         const char *where)
{
    const WbPanel *panel = run_at(together, run)->run.panel;
    guint32 assumed = 0;
    if (isnan(panel->max_system_v)) {
        say(cautions, g_strdup_printf(_("The data sheet of %s names no highest system voltage: ask "
                                        "its maker what it may be connected to."),
                                      panel->part.id));
        return;
    }
    for (int i = 0; i < WB_TOGETHER_COLDS; i++)
        if (voc_at(together, wb_together_cold_c[i], &assumed) > panel->max_system_v) {
            g_autofree char *limit = wb_text_number(panel->max_system_v, 0);
            say(cautions, g_strdup_printf(_("%s: at %.0f °C that is more than the %s V the maker "
                                            "of %s allows: do not build this."),
                                          where, wb_together_cold_c[i], limit, panel->part.id));
            return;
        }
}

static void say_fuse(GPtrArray *cautions, const WbTogether *together, guint run)
{
    const WbPanel *panel = run_at(together, run)->run.panel;
    gboolean given = !isnan(panel->series_fuse_a);
    double limit_a = given ? panel->series_fuse_a : SERIES_FUSE_A,
           back_a = wb_together_back_a(together, run);
    g_autofree char *limit = wb_text_number(limit_a, 1), *back = wb_text_number(back_a, 1);
    if (back_a <= limit_a)
        return;
    say(cautions,
        given ? g_strdup_printf(_("The other strings can drive %s A into a faulty %s, more than "
                                  "the largest series fuse its maker allows: give its string a DC "
                                  "fuse of its own of at most %s A."),
                                back, panel->part.id, limit)
              : g_strdup_printf(_("The other strings can drive %s A into a faulty %s, whose data "
                                  "sheet names no largest series fuse: ask its maker; %s A are "
                                  "assumed, so its string needs a DC fuse of its own."),
                                back, panel->part.id, limit));
}

static void say_backwards(GPtrArray *cautions, const WbTogether *together, guint run)
{
    const WbPanelRun *item = &run_at(together, run)->run;
    double amps = wb_run_current_a(item, together->parallel.voltage_v);
    g_autofree char *taken = wb_text_number(-amps, 1);
    if (amps < 0)
        say(cautions, g_strdup_printf(_("Side by side %s gives nothing and takes %s A from the "
                                        "others, which heats it: leave it out or give it a "
                                        "controller of its own."),
                                      item->panel->part.id, taken));
}

/* By rule unlike-panels, of the two panels whose currents lie furthest apart. */
static void say_unlike(GPtrArray *cautions, const WbTogether *together)
{
    WbFinding worst = wb_finding_idle(WB_RULE_UNLIKE_PANELS);
    for (guint i = 0; i < together->runs->len; i++)
        for (guint j = 0; j < i; j++) {
            WbFinding pair = wb_rule_unlike_panels(run_at(together, i)->run.panel,
                                                   run_at(together, j)->run.panel, 2);
            if (isnan(worst.value) || pair.value > worst.value)
                worst = pair;
        }
    if (worst.holds)
        return;
    g_autofree char *differ = wb_text_number(worst.value, 1);
    g_autofree char *fair = wb_text_number(worst.limit, 0);
    say(cautions, g_strdup_printf(_("In one string the panels' currents differ by %s %%; over %s "
                                    "%% the weakest holds back the rest (common practice)."),
                                  differ, fair));
}

static void series_cautions(GPtrArray *cautions, const WbTogether *together)
{
    say_cold(cautions, together, TRUE);
    for (guint i = 0; i < together->runs->len; i++)
        say_system_v(cautions, together, i, wb_together_series_voc_v, _("In one string"));
    say_unlike(cautions, together);
    say(cautions, g_strdup(_("A panel that cannot carry the string's current is passed by through "
                             "its bypass diodes, one for each 24 cells assumed: without them it "
                             "heats up and can burn.")));
}

static void parallel_cautions(GPtrArray *cautions, const WbTogether *together)
{
    guint n = together->runs->len;
    say_cold(cautions, together, FALSE);
    g_autofree char *all = wb_text_number(wb_together_back_a(together, n), 1);
    say(cautions, g_strdup_printf(_("The controller's input has to bear %s A, 1.25 x the "
                                    "short-circuit currents of all strings."),
                                  all));
    for (guint i = 0; i < n; i++)
        say_system_v(cautions, together, i, wb_together_parallel_voc_v, _("Side by side"));
    for (guint i = 0; i < n; i++)
        say_backwards(cautions, together, i);
    guint fused = cautions->len;
    for (guint i = 0; i < n; i++)
        say_fuse(cautions, together, i);
    if (n > 1 && fused == cautions->len)
        say(cautions, g_strdup(_("The other strings cannot drive more into a faulty one than its "
                                 "series fuse allows; with one more string that may change, and "
                                 "then each string needs a DC fuse of its own.")));
}

GPtrArray *wb_together_cautions(const WbTogether *together)
{
    GPtrArray *cautions = g_ptr_array_new_with_free_func(g_free);
    if (together->tell_series)
        series_cautions(cautions, together);
    if (together->tell_parallel)
        parallel_cautions(cautions, together);
    say(cautions,
        g_strdup(_("These are watts in full sun on cells of 25 °C, all panels lying alike, at a "
                   "controller that seeks the best point (MPPT); a PWM controller holds the panels "
                   "at the bank's voltage, and shade on one panel costs more.")));
    say(cautions,
        g_strdup(_("Panels are live whenever light falls on them: cover them before you touch a "
                   "lead, and never part a DC plug under load.")));
    return cautions;
}
