/* One panel of `roof` in full. */
#include "cli_roof.h"
#include "cli_table.h"
#include <glib/gi18n-lib.h>

static void millimetres(WbTable *table, int64_t value_mm)
{
    wb_table_cell(table, g_strdup_printf("%" G_GINT64_FORMAT, value_mm));
}

/* Where the edges of each panel come, from the left and the front edge of the roof: what is
 * measured out before drilling. */
static void append_layout(GString *out, const WbRoofModel *model)
{
    g_autoptr(WbTable) table = wb_table_new(_(">No.|>left mm|>right mm|>front mm|>back mm|Lies"));
    for (int i = 0; i < model->fit.most; i++) {
        const WbRect *rect = &model->fit.layout[i];
        bool turned = rect->length_mm != model->panel->length_mm;
        wb_table_cell(table, g_strdup_printf("%d", i + 1));
        millimetres(table, rect->x_mm);
        millimetres(table, rect->x_mm + rect->length_mm);
        millimetres(table, rect->y_mm);
        millimetres(table, rect->y_mm + rect->width_mm);
        wb_table_cell(table, g_strdup(turned ? _("across") : _("along")));
        if (i < model->n_pinned)
            wb_table_line(table, g_strdup(_("Pinned by the brief.")));
    }
    wb_table_append(table, out);
}

void wb_cli_roof_one_text(GString *out, const WbRoofReport *report, const WbRoofModel *model)
{
    bool framed = report->brief->roof.n_corners > 0;
    g_string_append_c(out, '\n');
    if (model->fit.most == 0)
        return;
    wb_cli_wrap(
        out, "",
        framed ? _("Edges of each panel, measured from the left and the front of the frame the "
                   "roof's corners lie in:")
               : _("Edges of each panel, measured from the left and the front edge of the roof:"));
    append_layout(out, model);
}
