/* Answers and changes of the roof in words. */
#include "roof_words.h"

#include "figures_text.h"
#include <glib/gi18n-lib.h>

static char *not_decided(int most, int next, int bound)
{
    return bound == next
               ? g_strdup_printf(_("%d fit; whether %d do is not decided"), most, next)
               : g_strdup_printf(_("%d fit; %d to %d are not decided"), most, next, bound);
}

char *wb_roof_fit_words(const WbRoofFit *fit)
{
    int most = fit->most, next = fit->most + 1;
    if (fit->bound == most && most == fit->at_most)
        return g_strdup_printf(_("%d fit; more were not asked for"), most);
    if (fit->bound == most && most == 0)
        return g_strdup(_("does not fit: proved"));
    if (fit->bound == most)
        return g_strdup_printf(_("%d fit, %d do not: proved"), most, next);
    if (wb_roof_answer(fit, next) == WB_FIT_WITHIN_1_MM)
        return most == 0 ? g_strdup(_("whether one fits hangs on less than 1 mm"))
                         : g_strdup_printf(_("%d fit; whether %d do hangs on less than 1 mm"), most,
                                           next);
    return not_decided(most, next, fit->bound);
}

char *wb_roof_obstacle_name(const WbRoof *roof, int index)
{
    g_return_val_if_fail(index >= 0 && (gsize)index < roof->n_obstacles, NULL);
    const char *name = roof->obstacles[index].name;
    if (name == NULL || *name == '\0')
        return g_strdup_printf(_("obstacle %d"), index + 1);
    for (gsize i = 0; i < roof->n_obstacles; i++)
        if (i != (gsize)index && g_strcmp0(roof->obstacles[i].name, name) == 0)
            return g_strdup_printf(_("%s (obstacle %d)"), name, index + 1);
    return g_strdup(name);
}

/* ---- changes ---- */

/* Nobody cuts a panel: that it is too large is told where another model may do, no further. */
#define NEARLY_MM 150

/* How a sentence ends: what then fits. */
static char *then_fits(int n)
{
    static const char *const ordinal[] = {
        N_("one fits"),     N_("a second fits"), N_("a third fits"),     N_("a fourth fits"),
        N_("a fifth fits"), N_("a sixth fits"),  N_("a seventh fits"),   N_("an eighth fits"),
        N_("a ninth fits"), N_("a tenth fits"),  N_("an eleventh fits"), N_("a twelfth fits"),
    };
    return n >= 1 && n <= (int)G_N_ELEMENTS(ordinal) ? g_strdup(_(ordinal[n - 1]))
                                                     : g_strdup_printf(_("%d fit"), n);
}

static char *move_words(const char *name, const WbRoofChange *change, const char *by,
                        const char *then)
{
    gboolean more = change->by_mm > 0;
    if (change->kind == WB_CHANGE_MOVE_X)
        return more ? g_strdup_printf(_("Move %s by %s mm to the right and %s."), name, by, then)
                    : g_strdup_printf(_("Move %s by %s mm to the left and %s."), name, by, then);
    return more ? g_strdup_printf(_("Move %s by %s mm to the back and %s."), name, by, then)
                : g_strdup_printf(_("Move %s by %s mm to the front and %s."), name, by, then);
}

static char *less_words(const WbRoof *roof, const WbRoofChange *change, const char *name,
                        const char *then)
{
    int64_t now = change->kind == WB_CHANGE_MARGIN ? roof->margin_mm
                  : change->kind == WB_CHANGE_GAP  ? roof->gap_mm
                                                   : roof->obstacles[change->obstacle].clearance_mm;
    g_autofree char *had = wb_text_number((double)now, 0);
    g_autofree char *has = wb_text_number((double)(now - change->by_mm), 0);
    if (change->kind == WB_CHANGE_MARGIN)
        return g_strdup_printf(_("With a margin of %s mm instead of %s, %s."), has, had, then);
    if (change->kind == WB_CHANGE_GAP)
        return g_strdup_printf(_("With a gap of %s mm instead of %s, %s."), has, had, then);
    /* Translators: an obstacle, two lengths in mm, what then fits. */
    return g_strdup_printf(_("With a clearance round %s of %s mm instead of %s, %s."), name, has,
                           had, then);
}

static char *sentence(const WbRoof *roof, const WbRoofChange *change)
{
    g_autofree char *by = wb_text_number((double)ABS(change->by_mm), 0);
    g_autofree char *then = then_fits(change->n);
    g_autofree char *name =
        change->obstacle >= 0 ? wb_roof_obstacle_name(roof, change->obstacle) : NULL;
    switch ((WbRoofChangeKind)change->kind) {
    case WB_CHANGE_MOVE_X:
    case WB_CHANGE_MOVE_Y:
        return move_words(name, change, by, then);
    case WB_CHANGE_MARGIN:
    case WB_CHANGE_GAP:
    case WB_CHANGE_CLEARANCE:
        return less_words(roof, change, name, then);
    case WB_CHANGE_PANEL_LENGTH:
        return g_strdup_printf(_("The panels are %s mm too long: that much shorter, %s."), by,
                               then);
    case WB_CHANGE_PANEL_WIDTH:
        return g_strdup_printf(_("The panels are %s mm too wide: that much narrower, %s."), by,
                               then);
    }
    return NULL;
}

gboolean wb_roof_change_is_useful(const WbRoofChange *change)
{
    return (change->kind != WB_CHANGE_PANEL_LENGTH && change->kind != WB_CHANGE_PANEL_WIDTH) ||
           change->by_mm <= NEARLY_MM;
}

int wb_roof_changes_keep_useful(WbRoofChange *change, int n)
{
    int kept = 0;
    for (int i = 0; i < n; i++) {
        if (!wb_roof_change_is_useful(&change[i])) {
            wb_roof_changes_free(&change[i], 1);
        } else if (kept++ < i) {
            change[kept - 1] = change[i];
            change[i] = (WbRoofChange){0};
        }
    }
    return kept;
}

char *wb_roof_change_words(const WbRoof *roof, const WbRoofChange *changes, int n)
{
    GString *out = g_string_new(NULL);
    for (int i = 0; i < n; i++) {
        g_autofree char *text = sentence(roof, &changes[i]);
        g_string_append_printf(out, "%s%s", i > 0 ? " " : "", text);
        if (!changes[i].proved)
            g_string_append_printf(out, " %s", _("Whether less would do is not decided."));
    }
    return g_string_free(out, n <= 0);
}
