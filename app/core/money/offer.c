/* Which offer a part is bought at. */
#include "money.h"
#include <string.h>

static const char *fixed_shop(const WbBrief *brief, const char *part_id)
{
    for (size_t i = 0; i < brief->n_fixed_offers; i++)
        if (strcmp(brief->fixed_offers[i].part_id, part_id) == 0)
            return brief->fixed_offers[i].shop_id;
    return NULL;
}

/* ISO 8601 dates sort as text. */
static bool newest_of_its_shop(const WbCatalogue *catalogue, const WbOffer *offer)
{
    for (size_t i = 0; i < catalogue->n_offers; i++) {
        const WbOffer *other = &catalogue->offers[i];
        if (strcmp(other->part_id, offer->part_id) == 0 &&
            strcmp(other->shop_id, offer->shop_id) == 0 && strcmp(other->date, offer->date) > 0)
            return false;
    }
    return true;
}

/* A shop whose shipping cannot be converted cannot be ordered from within the brief's money. */
static bool delivers(const WbBrief *brief, const WbCatalogue *catalogue, const WbOffer *offer)
{
    int64_t shipping_minor;
    for (size_t i = 0; i < catalogue->n_shops; i++)
        if (strcmp(catalogue->shops[i].id, offer->shop_id) == 0)
            return wb_money_convert(brief, catalogue->shops[i].shipping_minor,
                                    catalogue->shops[i].currency, &shipping_minor);
    return false;
}

/* Order of offers at the same price: shop, then currency, so that no answer depends on the order
 * of the catalogue. */
static bool before(const WbOffer *a, const WbOffer *b)
{
    int by_shop = strcmp(a->shop_id, b->shop_id);
    return by_shop ? by_shop < 0 : strcmp(a->currency, b->currency) < 0;
}

/* shop_id NULL: any shop. */
static const WbOffer *cheapest(const WbBrief *brief, const WbCatalogue *catalogue,
                               const char *part_id, const char *shop_id, int64_t *price_minor)
{
    const WbOffer *best = NULL;
    int64_t best_minor = 0, minor;
    for (size_t i = 0; i < catalogue->n_offers; i++) {
        const WbOffer *offer = &catalogue->offers[i];
        if (strcmp(offer->part_id, part_id) != 0 ||
            (shop_id && strcmp(offer->shop_id, shop_id) != 0) ||
            !newest_of_its_shop(catalogue, offer) || !delivers(brief, catalogue, offer) ||
            !wb_money_convert(brief, offer->price_minor, offer->currency, &minor))
            continue;
        if (!best || minor < best_minor || (minor == best_minor && before(offer, best))) {
            best = offer;
            best_minor = minor;
        }
    }
    if (best)
        *price_minor = best_minor;
    return best;
}

const WbOffer *wb_best_offer(const WbBrief *brief, const WbCatalogue *catalogue,
                             const char *part_id, int64_t *price_minor)
{
    const char *shop_id = fixed_shop(brief, part_id);
    const WbOffer *offer =
        shop_id ? cheapest(brief, catalogue, part_id, shop_id, price_minor) : NULL;
    return offer ? offer : cheapest(brief, catalogue, part_id, NULL, price_minor);
}
