/* roof for people: a line a panel, a line a battery, and what has to be known beside. */
#include "cli_roof_mix.h"
#include "cli_table.h"
#include "figures_text.h"
#include "roof_words.h"
#include <glib/gi18n-lib.h>
#include <math.h>

GPtrArray *wb_cli_roof_cautions(const WbBrief *brief)
{
    GPtrArray *cautions = g_ptr_array_new_with_free_func(g_free);
    g_ptr_array_add(
        cautions,
        g_strdup(_("Roof load: keep to what the roof's maker allows, driving and standing; rack, "
                   "box, snow and a person count too, the kilograms here are panels and mounts.")));
    if (isnan(brief->roof.max_load_kg))
        g_ptr_array_add(cautions, g_strdup(_("The brief sets no limit for the load on the roof.")));
    g_ptr_array_add(cautions,
                    g_strdup(_("Fixing and wind: fix panels against the wind of the road and the "
                               "storm; one that comes loose can kill.")));
    g_ptr_array_add(cautions, g_strdup(_("Leaks: know what runs under the roof before drilling, "
                                         "seal every hole, and look at the seals every year.")));
    g_ptr_array_add(cautions, g_strdup(_("Falls: work on a roof can kill by a fall, and many roofs "
                                         "do not carry a person.")));
    return cautions;
}

/* Whether this alone leaves nothing of the roof. */
static bool covers_all(const WbRoof *roof, const WbObstacle *obstacle)
{
    WbRoof alone = *roof;
    alone.obstacles = obstacle;
    alone.n_obstacles = obstacle != NULL ? 1 : 0;
    return wb_roof_clear_mm2(&alone) == 0;
}

char *wb_cli_roof_nothing_left(const WbRoof *roof)
{
    if (wb_roof_clear_mm2(roof) > 0)
        return NULL;
    if (covers_all(roof, NULL))
        return g_strdup_printf(
            _("The margin of %" G_GINT64_FORMAT " mm leaves nothing of the roof."),
            roof->margin_mm);
    for (size_t i = 0; i < roof->n_obstacles; i++) {
        if (!covers_all(roof, &roof->obstacles[i]))
            continue;
        g_autofree char *name = wb_roof_obstacle_name(roof, (int)i);
        return g_strdup_printf(
            _("%s, with its clearance of %" G_GINT64_FORMAT " mm, leaves nothing of the roof."),
            name, roof->obstacles[i].clearance_mm);
    }
    return g_strdup(_("Margin and obstacles with their clearances leave nothing of the roof."));
}

/* What else speaks against them, a line each. */
static void append_limits(WbTable *table, const WbBrief *brief, const WbRoofModel *model)
{
    int carried = wb_cli_roof_load_most(brief, model->panel);
    int64_t top_mm = wb_cli_roof_top_mm(brief, model->panel), most_mm = brief->roof.max_height_mm;
    if (carried >= 0 && carried < model->fit.most)
        wb_table_line(
            table, g_strdup_printf(_("The limit of the roof's load carries %d of them."), carried));
    if (most_mm > 0 && top_mm > most_mm)
        wb_table_line(table,
                      g_strdup_printf(_("Its top would be %" G_GINT64_FORMAT
                                        " mm over the roof; the limit is %" G_GINT64_FORMAT " mm."),
                                      top_mm, most_mm));
    if (model->refused != NULL)
        wb_table_line(table, g_strdup(model->refused));
}

static bool is_of_roof(const WbRoofChange *change)
{
    return change->kind != WB_CHANGE_PANEL_LENGTH && change->kind != WB_CHANGE_PANEL_WIDTH;
}

/* A change of the roof goes before a word on the panel, of either kind one that is proved before
 * one that may be too much, and then the first, which is the least. */
static void append_change(WbTable *table, const WbBrief *brief, const WbRoofMore *more)
{
    const WbRoofChange *told = NULL;
    for (int i = 0; i < more->n_changes; i++) {
        const WbRoofChange *change = &more->change[i];
        if (wb_roof_change_is_useful(change) &&
            (told == NULL ||
             (is_of_roof(change) == is_of_roof(told) && !told->proved && change->proved)))
            told = change;
    }
    if (told != NULL)
        wb_table_line(table, wb_roof_change_words(&brief->roof, told, 1));
}

/* With the panel in full its proof was asked for; without one it is not called proved. */
static char *answer_words(const WbRoofModel *model, bool full)
{
    const WbRoofFit *fit = &model->fit;
    if (!full || !g_str_equal(wb_cli_roof_answer_code(fit, model->more.proof_ok), "searched"))
        return wb_roof_fit_words(fit);
    return fit->most == 0 ? g_strdup(_("does not fit: searched through"))
                          : g_strdup_printf(_("%d fit, %d do not: searched through"), fit->most,
                                            fit->most + 1);
}

static void append_model(WbTable *table, const WbBrief *brief, const WbRoofModel *model, bool full)
{
    const WbPanel *panel = model->panel;
    wb_table_cell(table, g_strdup(panel->part.id));
    wb_table_cell(table, g_strdup_printf("%" G_GINT64_FORMAT " x %" G_GINT64_FORMAT,
                                         panel->length_mm, panel->width_mm));
    wb_table_cell(table, g_strdup_printf("%d", model->fit.most));
    wb_table_cell(table, wb_text_number(model->fit.most * panel->power_w, 0));
    wb_table_cell(table, wb_text_number(wb_cli_roof_load_kg(model), 1));
    wb_table_cell(table, wb_text_number(model->time_ms, 2));
    wb_table_cell(table, answer_words(model, full));
    append_limits(table, brief, model);
    if (!full)
        append_change(table, brief, &model->more);
}

static void append_models(GString *out, const WbRoofReport *report)
{
    g_autoptr(WbTable) table = wb_table_new(_("Panel|>mm x mm|>Fit|>W|>kg|>ms|Answer"));
    for (guint i = 0; i < report->models->len; i++)
        append_model(table, report->brief, &g_array_index(report->models, WbRoofModel, i),
                     report->panel != NULL);
    wb_table_append(table, out);
}

static void append_count(GString *out, const WbRoofReport *report)
{
    if (report->count == 0 || report->models->len == 0)
        return;
    g_autofree char *words =
        wb_cli_roof_count_words(report, &g_array_index(report->models, WbRoofModel, 0));
    wb_cli_wrap(out, "", words);
    g_string_append_c(out, '\n');
}

static char *stand_text(const WbBayModel *model)
{
    if (model->stand == WB_ROOF_PANELS_MOST)
        return g_strdup_printf(_("%d stand; more were not asked for"), model->stand);
    if (model->stand < model->bound)
        return g_strdup_printf(_("%d stand; up to %d not decided"), model->stand, model->bound);
    if (model->stand == 0)
        return g_strdup(_("does not fit: proved"));
    return g_strdup_printf(_("%d stand, %d do not: proved"), model->stand, model->stand + 1);
}

static void append_bays(GString *out, const WbRoofReport *report)
{
    const WbBay *bay = &report->brief->bay;
    g_autofree char *head =
        g_strdup_printf(_("Storage bay of %" G_GINT64_FORMAT " x %" G_GINT64_FORMAT
                          " mm, %" G_GINT64_FORMAT " mm high, batteries upright side by side:"),
                        bay->length_mm, bay->width_mm, bay->height_mm);
    g_autoptr(WbTable) table = wb_table_new(_("Battery|>mm x mm x mm|>Stand|Answer"));
    for (guint i = 0; i < report->bays->len; i++) {
        const WbBayModel *model = &g_array_index(report->bays, WbBayModel, i);
        const WbStorage *storage = model->storage;
        wb_table_cell(table, g_strdup(storage->part.id));
        wb_table_cell(table, g_strdup_printf(
                                 "%" G_GINT64_FORMAT " x %" G_GINT64_FORMAT " x %" G_GINT64_FORMAT,
                                 storage->length_mm, storage->width_mm, storage->height_mm));
        wb_table_cell(table, g_strdup_printf("%d", model->stand));
        wb_table_cell(table, stand_text(model));
    }
    g_string_append_c(out, '\n');
    wb_cli_wrap(out, "", head);
    wb_table_append(table, out);
}

char *wb_cli_roof_text(const WbRoofReport *report)
{
    GString *out = g_string_new(NULL);
    g_autofree char *clear =
        wb_text_number((double)wb_roof_clear_mm2(&report->brief->roof) / 1e6, 2);
    g_autofree char *head = g_strdup_printf(
        _("%s: %s m2 of the roof are clear of margin and obstacles."), report->brief->name, clear);
    g_autofree char *nothing_left = wb_cli_roof_nothing_left(&report->brief->roof);
    wb_cli_wrap(out, "", head);
    if (nothing_left != NULL)
        wb_cli_wrap(out, "", nothing_left);
    g_string_append_c(out, '\n');
    append_count(out, report);
    append_models(out, report);
    for (guint i = 0; report->panel != NULL && i < report->models->len; i++)
        wb_cli_roof_one_text(out, report, &g_array_index(report->models, WbRoofModel, i));
    if (report->mixes != NULL)
        wb_cli_roof_mixes_text(out, report);
    if (report->bays->len > 0)
        append_bays(out, report);
    g_string_append_c(out, '\n');
    g_autoptr(GPtrArray) cautions = wb_cli_roof_cautions(report->brief);
    for (guint i = 0; i < cautions->len; i++)
        wb_cli_wrap(out, "", g_ptr_array_index(cautions, i));
    return g_string_free(out, FALSE);
}
