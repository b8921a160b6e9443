/* The roof: drawn to scale with the kit in hand on it, and what fits of each panel model. */
#include "figures_text.h"
#include "roof_plan.h"
#include "sheet.h"
#include <glib/gi18n-lib.h>

static void show_plan(GtkWidget *plan, const WbRoof *roof, const WbResult *result,
                      const WbVerdict *verdict)
{
    const WbRect *layout = NULL;
    guint n = 0;
    if (verdict) {
        const WbKit *kit = &verdict->kit;
        const WbRoofFit *fit = &wb_result_get_problem(result)->panels[kit->panel].fit;
        n = (guint)MIN(kit->n_series * kit->n_parallel, fit->most);
        layout = fit->layout;
    }
    wb_roof_plan_set(WB_ROOF_PLAN(plan), roof, layout, n);
}

static char *millimetres(gint64 a, gint64 b)
{
    g_autofree char *x = wb_text_number((double)a, 0);
    g_autofree char *y = wb_text_number((double)b, 0);
    return g_strdup_printf("%s \303\227 %s mm", x, y);
}

static void add_outline(WbSheet *sheet, const WbRoof *roof)
{
    g_autofree char *size = millimetres(roof->length_mm, roof->width_mm);
    g_autofree char *margin = g_strdup_printf("%d mm", (int)roof->margin_mm);
    g_autofree char *gap = g_strdup_printf("%d mm", (int)roof->gap_mm);
    g_autofree char *clear = wb_text_number((double)wb_roof_clear_mm2(roof) / 1e6, 2);
    g_autofree char *clear_m2 = g_strdup_printf("%s m\302\262", clear);
    wb_sheet_row(sheet, _("Outline"), size, NULL);
    wb_sheet_row(sheet, _("Kept free at the edge"), margin, NULL);
    wb_sheet_row(sheet, _("Gap between panels"), gap, NULL);
    wb_sheet_row(sheet, _("Clear"), clear_m2,
                 _("outline less margin and obstacles; the limit is "
                   "whether panels fit, never this area"));
}

static void add_obstacles(WbSheet *sheet, const WbRoof *roof)
{
    const char *heads[] = {_("Obstacle"), _("From the left"), _("From the front"), _("Size"),
                           _("Clearance, mm")};
    if (roof->n_obstacles == 0)
        return;
    wb_sheet_section(sheet, _("Obstacles"));
    WbSheetTable table = wb_sheet_table(sheet, heads, G_N_ELEMENTS(heads));
    for (gsize i = 0; i < roof->n_obstacles; i++) {
        const WbObstacle *o = &roof->obstacles[i];
        g_autofree char *x = wb_text_number((double)o->x_mm, 0);
        g_autofree char *y = wb_text_number((double)o->y_mm, 0);
        g_autofree char *size = millimetres(o->length_mm, o->width_mm);
        g_autofree char *clearance = wb_text_number((double)o->clearance_mm, 0);
        const char *cells[] = {o->name, x, y, size, clearance};
        wb_sheet_table_row(&table, cells, NULL);
    }
}

static char *fit_words(const WbRoofFit *fit)
{
    if (fit->most == fit->bound)
        return g_strdup(_("proved"));
    return g_strdup_printf(_("not decided; no more than %d"), fit->bound);
}

static void add_fits(WbSheet *sheet, const WbProblem *problem)
{
    const char *heads[] = {_("Panel"), _("Size"),          _("W"),
                           _("Fit"),   _("W on the roof"), _("Answer")};
    wb_sheet_section(sheet, _("What fits of each ticked panel"));
    WbSheetTable table = wb_sheet_table(sheet, heads, G_N_ELEMENTS(heads));
    for (gsize i = 0; i < problem->n_panels; i++) {
        const WbPanel *panel = problem->panels[i].panel;
        const WbRoofFit *fit = &problem->panels[i].fit;
        g_autofree char *name = g_strdup_printf("%s %s", panel->part.maker, panel->part.model);
        g_autofree char *size = millimetres(panel->length_mm, panel->width_mm);
        g_autofree char *watts = wb_text_number(panel->power_w, 0);
        g_autofree char *most = wb_text_number(fit->most, 0);
        g_autofree char *all = wb_text_number(fit->most * panel->power_w, 0);
        g_autofree char *answer = fit_words(fit);
        const char *cells[] = {name, size, watts, most, all, answer};
        wb_sheet_table_row(&table, cells, fit->most == 0 ? "quiet" : NULL);
    }
}

static void fill(WbSheet *sheet, const WbContext *context, const WbResult *result,
                 const WbVerdict *verdict, GtkWidget *picture)
{
    const WbRoof *roof = &wb_document_get_brief(context->document)->roof;
    show_plan(picture, roof, result, verdict);
    add_outline(sheet, roof);
    add_obstacles(sheet, roof);
    if (result)
        add_fits(sheet, wb_result_get_problem(result));
    wb_sheet_text(
        sheet,
        _("Panels and their fixings must stand wind, vibration and the load rating of the "
          "roof, and every hole through it must be sealed."),
        "caution");
}

GtkWidget *wb_roof_page_new(const WbContext *context)
{
    GtkWidget *plan = wb_roof_plan_new();
    gtk_widget_set_size_request(plan, 300, 264);
    return wb_sheet_new(context, _("Roof"), fill, plan);
}
