#include "source.h"
#include "money.h"
#include "round.h"
#include <stdlib.h>
#include <string.h>

static int owned_count(const WbBrief *brief, const char *part_id)
{
    int count = 0;
    for (size_t i = 0; i < brief->n_owned; i++)
        if (strcmp(brief->owned[i].part_id, part_id) == 0)
            count += brief->owned[i].count;
    return count;
}

static const WbShop *find_shop(const WbCatalogue *catalogue, const char *id)
{
    for (size_t i = 0; i < catalogue->n_shops; i++)
        if (strcmp(catalogue->shops[i].id, id) == 0)
            return &catalogue->shops[i];
    return NULL;
}

/* Index of the shop among the problem's, added when new; -1: out of memory. */
static int shop_index(WbProblem *problem, const WbShop *shop, int64_t shipping_minor)
{
    for (size_t i = 0; i < problem->n_shops; i++)
        if (problem->shops[i].shop == shop)
            return (int)i;
    WbShopChoice *grown = realloc(problem->shops, (problem->n_shops + 1) * sizeof *problem->shops);
    if (!grown)
        return -1;
    problem->shops = grown;
    grown[problem->n_shops] = (WbShopChoice){.shop = shop, .shipping_minor = shipping_minor};
    return (int)problem->n_shops++;
}

bool wb_source_part(WbProblem *problem, const WbPart *part, double extra_kg, WbSourced *sourced)
{
    *sourced = (WbSourced){
        .shop = -1,
        .owned = owned_count(problem->brief, part->id),
        .weight_g = wb_round_half_up((part->weight_kg + extra_kg) * 1000.0),
    };
    int64_t price_minor;
    const WbOffer *offer =
        wb_best_offer(problem->brief, problem->catalogue, part->id, &price_minor);
    if (!offer)
        return true;
    const WbShop *shop = find_shop(problem->catalogue, offer->shop_id);
    int64_t shipping_minor = 0;
    /* A shop whose shipping cannot be converted sells nothing usable. */
    if (!shop ||
        !wb_money_convert(problem->brief, shop->shipping_minor, shop->currency, &shipping_minor))
        return true;
    sourced->shop = shop_index(problem, shop, shipping_minor);
    if (sourced->shop < 0)
        return false;
    sourced->priced = true;
    sourced->price_minor = price_minor;
    sourced->offer = offer;
    return true;
}
