#include "cli_parts.h"

#include "money.h"
#include <string.h>

static void add(GArray *parts, const WbPart *part, const WbSourced *sourced)
{
    const WbCliPart listed = {part, sourced};
    g_array_append_val(parts, listed);
}

GArray *wb_cli_parts(const WbProblem *problem)
{
    GArray *parts = g_array_new(FALSE, FALSE, sizeof(WbCliPart));
    for (size_t i = 0; i < problem->n_panels; i++)
        add(parts, &problem->panels[i].panel->part, &problem->panels[i].sourced);
    for (size_t i = 0; i < problem->n_controllers; i++)
        add(parts, &problem->controllers[i].controller->part, &problem->controllers[i].sourced);
    for (size_t i = 0; i < problem->n_storage; i++)
        add(parts, &problem->storage[i].storage->part, &problem->storage[i].sourced);
    /* Choice 0 of these two is "none". */
    for (size_t i = 1; i < problem->n_inverters; i++)
        add(parts, &problem->inverters[i].inverter->part, &problem->inverters[i].sourced);
    for (size_t i = 1; i < problem->n_dcdc; i++)
        add(parts, &problem->dcdc[i].dcdc->part, &problem->dcdc[i].sourced);
    return parts;
}

static const WbShop *find_shop(const WbCatalogue *catalogue, const char *id)
{
    for (size_t i = 0; i < catalogue->n_shops; i++)
        if (strcmp(catalogue->shops[i].id, id) == 0)
            return &catalogue->shops[i];
    return NULL;
}

static bool has_rate(const WbProblem *problem, const WbOffer *offer)
{
    int64_t converted;
    const WbShop *shop = find_shop(problem->catalogue, offer->shop_id);
    return wb_money_convert(problem->brief, offer->price_minor, offer->currency, &converted) &&
           (shop == NULL ||
            wb_money_convert(problem->brief, shop->shipping_minor, shop->currency, &converted));
}

GPtrArray *wb_cli_offers_without_rate(const WbProblem *problem)
{
    g_autoptr(GArray) parts = wb_cli_parts(problem);
    g_autoptr(GHashTable) ticked = g_hash_table_new(g_str_hash, g_str_equal);
    for (guint i = 0; i < parts->len; i++)
        g_hash_table_add(ticked, (char *)g_array_index(parts, WbCliPart, i).part->id);
    GPtrArray *offers = g_ptr_array_new();
    for (size_t i = 0; i < problem->catalogue->n_offers; i++) {
        const WbOffer *offer = &problem->catalogue->offers[i];
        if (g_hash_table_contains(ticked, offer->part_id) && !has_rate(problem, offer))
            g_ptr_array_add(offers, (gpointer)offer);
    }
    return offers;
}
