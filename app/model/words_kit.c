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
    static const char *const mountings[] = {N_("raised"), N_("close to the roof"), N_("bonded")};
    g_autofree char *watts = short_number(problem->panels[kit->panel].panel->power_w);
    return g_strdup_printf(_("%d x %s W %s"), kit->n_series * kit->n_parallel, watts,
                           _(mountings[problem->brief->site.mounting]));
}

static char *bank_text(const WbProblem *problem, const WbKit *kit)
{
    const WbStorageChoice *choice = &problem->storage[kit->storage];
    int system_v = wb_bank_volts(choice->storage, choice->chemistry, kit->bank_series).system_v;
    g_autofree char *ah = short_number(choice->storage->capacity_ah * kit->bank_parallel);
    g_autofree char *volts =
        short_number(system_v > 0 ? system_v : choice->storage->nominal_v * kit->bank_series);
    return g_strdup_printf(_("%s Ah %s %s V"), ah, choice->chemistry->name, volts);
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
