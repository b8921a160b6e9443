#include "words.h"

#include "figures_text.h"
#include "money.h"
#include <glib/gi18n-lib.h>
#include <math.h>

char *wb_words_money(int64_t minor, const char *currency)
{
    int decimals = MAX(wb_currency_decimals(currency), 0);
    g_autofree char *number = wb_text_number((double)minor / pow(10, decimals), decimals);
    return g_strdup_printf("%s %s", number, currency);
}

/* Whole numbers without decimals, others with one: 12.8, 200. */
static char *short_number(double value)
{
    return wb_text_number(value, value == floor(value) ? 0 : 1);
}

static char *panels_text(const WbProblem *problem, const WbKit *kit)
{
    g_autofree char *watts = short_number(problem->panels[kit->panel].panel->power_w);
    int n = kit->n_series * kit->n_parallel, each = kit->n_parallel / kit->n_controllers;
    if (n == 1)
        return g_strdup_printf(_("1 x %s W"), watts);
    if (kit->n_parallel == 1)
        return g_strdup_printf(_("%d x %s W in series"), n, watts);
    if (kit->n_series > 1)
        return g_strdup_printf(_("%d x %s W, %d strings of %d"), n, watts, kit->n_parallel,
                               kit->n_series);
    if (kit->n_controllers == 1)
        return g_strdup_printf(_("%d x %s W in parallel"), n, watts);
    if (each == 1)
        return g_strdup_printf(_("%d x %s W, one on each controller"), n, watts);
    return g_strdup_printf(_("%d x %s W, %d in parallel on each controller"), n, watts, each);
}

char *wb_words_panel_wiring(const WbKit *kit)
{
    int s = kit->n_series, p = kit->n_parallel, controllers = kit->n_controllers;
    int each = p / controllers;
    if (s * p == 1)
        return g_strdup(_("one panel by itself"));
    if (p == 1)
        return g_strdup_printf(_("%d panels in series"), s);
    g_autofree char *what = s == 1 ? g_strdup_printf(_("%d panels"), p)
                                   : g_strdup_printf(_("%d strings of %d panels in series"), p, s);
    if (controllers == 1)
        return g_strdup_printf(_("%s, joined in parallel"), what);
    if (each == 1)
        return g_strdup_printf(_("%s, one on each of the %d controllers"), what, controllers);
    return g_strdup_printf(_("%s, %d in parallel on each of the %d controllers"), what, each,
                           controllers);
}

char *wb_words_bank_wiring(const WbKit *kit)
{
    int s = kit->bank_series, p = kit->bank_parallel;
    if (s * p == 1)
        return g_strdup(_("one battery by itself"));
    if (p == 1)
        return g_strdup_printf(_("%d batteries in series"), s);
    if (s == 1)
        return g_strdup_printf(_("%d batteries in parallel"), p);
    return g_strdup_printf(_("%d strings of %d batteries in series, joined in parallel"), p, s);
}

/* "200 Ah LFP 12 V", "3 x 100 Ah LFP in parallel (300 Ah 12 V)" */
static char *bank_text(const WbProblem *problem, const WbKit *kit)
{
    const WbStorageChoice *choice = &problem->storage[kit->storage];
    const char *chemistry = choice->chemistry->name;
    int s = kit->bank_series, p = kit->bank_parallel;
    int system_v = wb_bank_volts(choice->storage, choice->chemistry, s).system_v;
    g_autofree char *one = short_number(choice->storage->capacity_ah);
    g_autofree char *ah = short_number(choice->storage->capacity_ah * p);
    g_autofree char *volts = short_number(system_v > 0 ? system_v : choice->storage->nominal_v * s);
    if (s * p == 1)
        return g_strdup_printf(_("%s Ah %s %s V"), ah, chemistry, volts);
    if (p == 1)
        return g_strdup_printf(_("%d x %s Ah %s in series (%s Ah %s V)"), s, one, chemistry, ah,
                               volts);
    if (s == 1)
        return g_strdup_printf(_("%d x %s Ah %s in parallel (%s Ah %s V)"), p, one, chemistry, ah,
                               volts);
    return g_strdup_printf(_("%d x %s Ah %s, %d strings of %d (%s Ah %s V)"), s * p, one, chemistry,
                           p, s, ah, volts);
}

static char *controllers_text(const WbProblem *problem, const WbKit *kit)
{
    const WbController *controller = problem->controllers[kit->controller].controller;
    const char *technology = controller->technology == WB_CONTROLLER_MPPT ? "MPPT" : "PWM";
    g_autofree char *amps = short_number(controller->rated_output_a);
    if (kit->n_controllers == 1)
        return g_strdup_printf(_("%s A %s"), amps, technology);
    return g_strdup_printf(_("%d x %s A %s"), kit->n_controllers, amps, technology);
}

char *wb_words_kit(const WbProblem *problem, const WbKit *kit)
{
    const WbInverter *inverter = problem->inverters[kit->inverter].inverter;
    const WbDcdc *dcdc = problem->dcdc[kit->dcdc].dcdc;
    g_autofree char *panels = panels_text(problem, kit);
    g_autofree char *bank = bank_text(problem, kit);
    g_autofree char *controllers = controllers_text(problem, kit);
    GString *text = g_string_new(NULL);
    g_string_append_printf(text, "%s, %s, %s", panels, bank, controllers);
    if (inverter != NULL) {
        g_autofree char *watts = short_number(inverter->continuous_w);
        g_string_append_printf(text, _(", %s W inverter"), watts);
    }
    if (dcdc != NULL) {
        g_autofree char *amps = short_number(dcdc->output_a);
        g_string_append_printf(text, _(", %s A DC-DC charger"), amps);
    }
    return g_string_free(text, FALSE);
}
