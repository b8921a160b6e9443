/* roof: how many of each ticked panel lie on the brief's roof. */
#include "cli_job.h"
#include "cli_json.h"
#include "cli_kit_json.h"
#include "cli_table.h"
#include "figures_text.h"
#include "roof.h"
#include <glib/gi18n-lib.h>

/* Far beyond the roofs the tool is for; an answer that reaches it says "at least". */
#define PANELS_MOST 400

typedef struct {
    const WbPanel *panel;
    WbRoofFit fit;
} PanelFit;

static void clear_fit(gpointer item)
{
    wb_roof_fit_free(&((PanelFit *)item)->fit);
}

/* Of PanelFit, the ticked panels in the order of their ids; a failure has been told. */
static int find_fits(const WbJob *job, GArray *fits)
{
    const WbBrief *brief = wb_brief_file_brief(job->file);
    const WbCatalogue *catalogue = wb_catalogue_view_get(job->view);
    for (size_t i = 0; i < catalogue->n_panels; i++) {
        PanelFit item = {.panel = &catalogue->panels[i]};
        if (!wb_brief_ticks(brief, item.panel->part.id))
            continue;
        WbStatus status = wb_roof_most(&brief->roof, item.panel->length_mm, item.panel->width_mm,
                                       PANELS_MOST, WB_ROOF_NODES, NULL, &item.fit);
        if (status != WB_OK && status != WB_BUDGET)
            return wb_cli_fail_status(status);
        g_array_append_val(fits, item);
    }
    return WB_EXIT_DONE;
}

static const char *answer_code(const WbRoofFit *fit)
{
    if (fit->most == PANELS_MOST)
        return "at-least";
    return fit->most == fit->bound ? "proved" : "not-decided";
}

static char *answer_text(const WbRoofFit *fit)
{
    if (fit->most == PANELS_MOST)
        return g_strdup(_("at least so many; more were not tried"));
    if (fit->most == fit->bound)
        return g_strdup(fit->most > 0 ? _("proved: they fit and one more does not")
                                      : _("proved: not one fits"));
    return g_strdup_printf(_("these fit; up to %d not decided"), fit->bound);
}

static void fit_json(WbJsonOut *json, const PanelFit *item)
{
    wb_out_object(json, NULL);
    wb_out_text(json, "panel", item->panel->part.id);
    wb_out_integer(json, "length_mm", item->panel->length_mm);
    wb_out_integer(json, "width_mm", item->panel->width_mm);
    wb_out_integer(json, "most", item->fit.most);
    wb_out_integer(json, "bound", item->fit.bound);
    wb_out_text(json, "answer", answer_code(&item->fit));
    wb_out_count(json, "nodes", item->fit.nodes);
    wb_out_number(json, "power_w", item->fit.most * item->panel->power_w);
    wb_out_array(json, "layout");
    for (int i = 0; i < item->fit.most; i++) {
        const WbRect *rect = &item->fit.layout[i];
        wb_out_object(json, NULL);
        wb_out_integer(json, "x_mm", rect->x_mm);
        wb_out_integer(json, "y_mm", rect->y_mm);
        wb_out_integer(json, "length_mm", rect->length_mm);
        wb_out_integer(json, "width_mm", rect->width_mm);
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
    wb_out_end_object(json);
}

static char *roof_json(const WbBriefFile *file, const GArray *fits)
{
    const WbBrief *brief = wb_brief_file_brief(file);
    WbJsonOut json;
    wb_out_start(&json);
    wb_out_object(&json, NULL);
    wb_cli_head_json(&json, "wattberth-roof", file);
    wb_out_number(&json, "clear_area_m2", (double)wb_roof_clear_mm2(&brief->roof) / 1e6);
    wb_out_array(&json, "panels");
    for (guint i = 0; i < fits->len; i++)
        fit_json(&json, &g_array_index(fits, PanelFit, i));
    wb_out_end_array(&json);
    wb_out_end_object(&json);
    return wb_out_finish(&json);
}

static void append_fits(GString *out, const GArray *fits)
{
    g_autoptr(WbTable) table = wb_table_new(_("Panel|>mm x mm|>Fit|>W|Answer"));
    for (guint i = 0; i < fits->len; i++) {
        const PanelFit *item = &g_array_index(fits, PanelFit, i);
        wb_table_cell(table, g_strdup(item->panel->part.id));
        wb_table_cell(table, g_strdup_printf("%" G_GINT64_FORMAT " x %" G_GINT64_FORMAT,
                                             item->panel->length_mm, item->panel->width_mm));
        wb_table_cell(table, g_strdup_printf("%d", item->fit.most));
        wb_table_cell(table, wb_text_number(item->fit.most * item->panel->power_w, 0));
        wb_table_cell(table, answer_text(&item->fit));
    }
    wb_table_append(table, out);
}

static char *roof_text(const WbBrief *brief, const GArray *fits)
{
    GString *out = g_string_new(NULL);
    g_autofree char *clear = wb_text_number((double)wb_roof_clear_mm2(&brief->roof) / 1e6, 2);
    g_autofree char *head = g_strdup_printf(
        _("%s: %s m2 of the roof are clear of margin and obstacles."), brief->name, clear);
    wb_cli_wrap(out, "", head);
    g_string_append_c(out, '\n');
    append_fits(out, fits);
    g_string_append_c(out, '\n');
    wb_cli_wrap(out, "",
                _("Fix panels against the wind of the road and the storm, keep to the load the "
                  "roof's maker allows, and seal every hole; work on a roof can kill by a fall."));
    return g_string_free(out, FALSE);
}

int wb_cli_run_roof(const WbArguments *arguments)
{
    WbJob job = {0};
    g_autoptr(GArray) fits = g_array_new(FALSE, FALSE, sizeof(PanelFit));
    g_array_set_clear_func(fits, clear_fit);
    int code = wb_cli_load_both(arguments, arguments->rest[0], &job);
    if (code == WB_EXIT_DONE)
        code = find_fits(&job, fits);
    if (code == WB_EXIT_DONE) {
        const WbBrief *brief = wb_brief_file_brief(job.file);
        code = wb_cli_print(arguments->json ? roof_json(job.file, fits) : roof_text(brief, fits));
    }
    wb_cli_clear_job(&job);
    return code;
}
