/* Typical appliances of vans, boats and cabins. Figures are common practice of their class, to be
 * checked on the type plate; duty is the share of the hours a thermostat or pump really runs. */
#include "figures_text.h"
#include "load_list.h"
#include <glib/gi18n-lib.h>

static const WbAppliance appliances[] = {
    {N_("LED light"), 5, 4, 1, 1, FALSE, FALSE, "evening"},
    {N_("Reading light"), 2, 2, 1, 1, FALSE, FALSE, "evening"},
    {N_("Compressor fridge, 12 V"), 45, 24, 0.4, 3, FALSE, FALSE, "all-day"},
    {N_("Water pump"), 60, 0.3, 1, 2, FALSE, FALSE, "all-day"},
    {N_("Roof fan"), 25, 6, 1, 1.5, FALSE, FALSE, "night"},
    {N_("Diesel heater, running"), 25, 8, 0.8, 1, FALSE, FALSE, "night"},
    {N_("Phone charger"), 10, 3, 1, 1, FALSE, FALSE, "evening"},
    {N_("Laptop, DC supply"), 60, 4, 0.7, 1, FALSE, FALSE, "daylight"},
    {N_("Router or modem"), 12, 12, 1, 1, FALSE, FALSE, "all-day"},
    {N_("Television, 12 V"), 35, 2, 1, 1, FALSE, FALSE, "evening"},
    {N_("VHF radio, listening"), 6, 10, 1, 1, FALSE, FALSE, "daylight"},
    {N_("Chart plotter"), 20, 8, 1, 1, FALSE, FALSE, "daylight"},
    {N_("Anchor light"), 3, 8, 1, 1, FALSE, FALSE, "night"},
    {N_("Bilge pump"), 70, 0.1, 1, 2.5, FALSE, FALSE, "all-day"},
    {N_("Laptop, mains supply"), 65, 4, 0.7, 1.2, TRUE, FALSE, "daylight"},
    {N_("Kettle, small"), 1000, 0.2, 1, 1, TRUE, FALSE, "all-day"},
    {N_("Induction hob, one ring"), 1400, 0.5, 0.7, 1.1, TRUE, TRUE, "evening"},
    {N_("Microwave oven"), 1200, 0.2, 1, 1.5, TRUE, TRUE, "evening"},
    {N_("Power tool charger"), 90, 1, 1, 1.2, TRUE, FALSE, "daylight"},
    {N_("Hand blender"), 300, 0.1, 1, 2, TRUE, FALSE, "all-day"},
};

const WbAppliance *wb_appliances(gsize *n)
{
    *n = G_N_ELEMENTS(appliances);
    return appliances;
}

gboolean wb_load_add_appliance(WbDocument *document, const WbAppliance *appliance, GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(document) && appliance != NULL, FALSE);
    g_autofree char *name = wb_text_json(_(appliance->name));
    g_autofree char *watts = wb_text_plain(appliance->watts);
    g_autofree char *hours = wb_text_plain(appliance->hours_day);
    g_autofree char *duty = wb_text_plain(appliance->duty);
    g_autofree char *surge = wb_text_plain(appliance->surge_factor);
    g_autofree char *when = wb_text_json(appliance->when);
    g_autofree char *json = g_strdup_printf(
        "{\"name\": %s, \"watts\": %s, \"supply\": \"%s\", \"hours_per_day\": %s, \"duty\": %s, "
        "\"when\": %s, \"surge_factor\": %s, \"needs_pure_sine\": %s}",
        name, watts, appliance->ac ? "ac" : "dc", hours, duty, when, surge,
        appliance->pure_sine ? "true" : "false");
    return wb_document_insert(document, _("Add load"), "/loads/-", json, error);
}
