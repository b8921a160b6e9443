/* together: panels of the catalogue in one string, or their strings side by side. */
#include "cli_together.h"
#include "cli_find_panel.h"
#include "cli_job.h"
#include "edit_distance.h"
#include <glib/gi18n-lib.h>
#include <string.h>

/* The same as a brief's largest.series. */
#define COUNT_MOST 20
#define RUNS_MOST 16

static const char *const ways[] = {"series", "parallel"};

static int fail_unknown(const WbCatalogue *catalogue, const char *id)
{
    g_autofree char *text = wb_cli_told(id);
    if (g_str_equal(text, ways[0]) || g_str_equal(text, ways[1]))
        return wb_cli_fail(WB_EXIT_WRONG_USE,
                           _("“%s” stands once, before the panels: wattberth together %s a b."),
                           text, text);
    for (guint i = 0; wb_cli_nearest_panel(catalogue, text) == NULL && i < G_N_ELEMENTS(ways); i++)
        if (wb_edit_distance(text, ways[i], 2) <= 2)
            return wb_cli_fail(WB_EXIT_WRONG_USE,
                               _("The catalogue has no panel “%s” (did you mean %s?)."), text,
                               ways[i]);
    return wb_cli_fail_panel(catalogue, id);
}

/* PANEL or PANELxN. An id may itself end in x and digits, so the whole text is tried first; what
 * follows the x of a known panel is a count, right or wrong. */
static int read_run(const WbCatalogue *catalogue, const char *text, WbPanelRun *run)
{
    *run = (WbPanelRun){wb_cli_find_panel(catalogue, text), 1};
    const char *times = strrchr(text, 'x');
    if (run->panel != NULL || times == NULL)
        return run->panel != NULL ? WB_EXIT_DONE : fail_unknown(catalogue, text);
    g_autofree char *id = g_strndup(text, (gsize)(times - text));
    gboolean digits = times[1] != '\0' && strspn(times + 1, "0123456789") == strlen(times + 1);
    run->panel = wb_cli_find_panel(catalogue, id);
    if (run->panel == NULL)
        return fail_unknown(catalogue, digits && *id != '\0' ? id : text);
    guint64 n = 0;
    if (!digits || !g_ascii_string_to_unsigned(times + 1, 10, 1, COUNT_MOST, &n, NULL)) {
        g_autofree char *count = wb_cli_told(times + 1);
        return wb_cli_fail(WB_EXIT_WRONG_USE,
                           _("The number of panels %s in series is a whole number from 1 to %d, "
                             "not “%s”."),
                           id, COUNT_MOST, count);
    }
    run->n = (int)n;
    return WB_EXIT_DONE;
}

/* The catalogue refuses Imp above Isc and Vmp from Voc up; what it takes can still have no curve.
 */
static int add_run(WbTogether *together, const WbPanelRun *run)
{
    const WbPanel *panel = run->panel;
    const WbPanelRun one = {panel, 1};
    WbTogetherRun item = {.run = *run};
    if (wb_peak_series(&one, 1, &item.own) != WB_OK)
        return wb_cli_fail(
            WB_EXIT_WRONG_INPUT,
            _("Panel “%s” of the catalogue: imp_a %g of isc_a %g and vmp_v %g of voc_v %g make no "
              "curve; both have to be clearly below, as on a data sheet (about 0.95 and 0.8)."),
            panel->part.id, panel->imp_a, panel->isc_a, panel->vmp_v, panel->voc_v);
    g_array_append_val(together->runs, item);
    return WB_EXIT_DONE;
}

static int work_out(WbTogether *together)
{
    guint n = together->runs->len;
    g_autofree WbPanelRun *runs = g_new(WbPanelRun, n);
    for (guint i = 0; i < n; i++)
        runs[i] = g_array_index(together->runs, WbTogetherRun, i).run;
    WbStatus status = wb_peak_apart(runs, n, &together->apart_w);
    if (status == WB_OK)
        status = wb_peak_series(runs, n, &together->series);
    if (status == WB_OK)
        status = wb_peak_parallel(runs, n, &together->parallel);
    return status == WB_OK ? WB_EXIT_DONE : wb_cli_fail_status(status);
}

static int read_runs(const WbCatalogue *catalogue, char **texts, guint n, WbTogether *together)
{
    int panels = 0;
    if (n > RUNS_MOST)
        return wb_cli_fail(WB_EXIT_WRONG_USE,
                           _("together takes at most %d panels or strings, not %u."), RUNS_MOST, n);
    for (guint i = 0; i < n; i++) {
        WbPanelRun run;
        int code = read_run(catalogue, texts[i], &run);
        if (code == WB_EXIT_DONE)
            code = add_run(together, &run);
        if (code != WB_EXIT_DONE)
            return code;
        panels += run.n;
    }
    if (panels >= 2)
        return WB_EXIT_DONE;
    return wb_cli_fail(WB_EXIT_WRONG_USE,
                       _("together needs at least two panels, by their ids in the catalogue, such "
                         "as “%s %s”."),
                       catalogue->n_panels > 0 ? catalogue->panels[0].part.id : "a",
                       catalogue->n_panels > 1 ? catalogue->panels[1].part.id : "b");
}

int wb_cli_run_together(const WbArguments *arguments)
{
    g_autoptr(WbCatalogueView) view = NULL;
    g_autoptr(GArray) runs = g_array_new(FALSE, FALSE, sizeof(WbTogetherRun));
    WbTogether together = {.runs = runs};
    gboolean series = g_str_equal(arguments->rest[0], ways[0]);
    gboolean parallel = g_str_equal(arguments->rest[0], ways[1]);
    guint skip = series || parallel ? 1 : 0;
    together.tell_series = !parallel;
    together.tell_parallel = !series;
    int code = wb_cli_load_catalogue(arguments, &view);
    if (code == WB_EXIT_DONE)
        code = read_runs(wb_catalogue_view_get(view), arguments->rest + skip,
                         arguments->n_rest - skip, &together);
    if (code == WB_EXIT_DONE)
        code = work_out(&together);
    if (code != WB_EXIT_DONE)
        return code;
    return wb_cli_print(arguments->json ? wb_together_json(&together)
                                        : wb_together_text(&together));
}
