/* roof --panel ID --count N: do so many of it fit? */
#include "cli_roof.h"
#include <glib/gi18n-lib.h>

/* More pinned than asked for: they fit. */
static WbFitAnswer answer_of(const WbRoofReport *report, const WbRoofModel *model)
{
    return report->count <= model->fit.most ? WB_FITS : wb_roof_answer(&model->fit, report->count);
}

const char *wb_cli_roof_count_code(const WbRoofReport *report, const WbRoofModel *model)
{
    static const char *const codes[] = {[WB_FITS] = "fits",
                                        [WB_FITS_NOT] = "does-not-fit",
                                        [WB_FIT_UNDECIDED] = "not-decided",
                                        [WB_FIT_WITHIN_1_MM] = "within-1-mm"};
    return codes[answer_of(report, model)];
}

/* There is room; the brief's other limits may still forbid them. */
static char *fits_words(const WbRoofReport *report, const WbRoofModel *model)
{
    const char *id = model->panel->part.id;
    int n = report->count, carried = wb_cli_roof_load_most(report->brief, model->panel);
    int64_t most_mm = report->brief->roof.max_height_mm;
    if (most_mm > 0 && wb_cli_roof_top_mm(report->brief, model->panel) > most_mm)
        return g_strdup_printf(_("No: there is room for %d of %s, but they stand too high over the "
                                 "roof."),
                               n, id);
    if (carried >= 0 && carried < n)
        return g_strdup_printf(_("No: there is room for %d of %s, but the limit of the roof's load "
                                 "carries %d."),
                               n, id, carried);
    return g_strdup_printf(_("Yes: %d of %s fit."), n, id);
}

char *wb_cli_roof_count_words(const WbRoofReport *report, const WbRoofModel *model)
{
    const char *id = model->panel->part.id;
    int n = report->count, most = model->fit.most;
    switch (answer_of(report, model)) {
    case WB_FITS:
        return fits_words(report, model);
    case WB_FITS_NOT:
        return most == 0 ? g_strdup_printf(_("No: %d of %s do not fit."), n, id)
                         : g_strdup_printf(_("No: %d of %s do not fit; %d do."), n, id, most);
    case WB_FIT_WITHIN_1_MM:
        return g_strdup_printf(_("Whether %d of %s fit hangs on less than 1 mm."), n, id);
    case WB_FIT_UNDECIDED:
        break;
    }
    return g_strdup_printf(_("Whether %d of %s fit is not decided within the budget; a larger "
                             "--nodes may tell."),
                           n, id);
}
