/* The parts a brief names: ticked, owned, with an offer fixed. Whether the catalogue holds them is
 * another question (wb_brief_file_check_parts). */
#include "brief_read.h"
#include "text_rules.h"
#include <string.h>

#define MOST_PICKS 100000
#define MOST_KIT_TEXT 1000

/* Refuses an id that stands in the list already. */
static void check_new(const WbJson *at, GHashTable *seen, const char *id)
{
    if (!g_hash_table_add(seen, (gpointer)id))
        wb_json_refuse(at, "a part that does not stand in the list already");
}

static void read_candidates(const WbJson *root, WbBrief *brief)
{
    WbJson at = wb_json_member(root, "candidates");
    if (!wb_json_given(&at) ||
        (cJSON_IsString(at.item) && strcmp(at.item->valuestring, "all") == 0))
        return;
    if (!cJSON_IsArray(at.item)) {
        wb_json_refuse(&at, "\"all\" or a list of part ids");
        return;
    }
    gsize n = (gsize)wb_json_list(&at, 0, MOST_PICKS);
    g_autoptr(GHashTable) seen = g_hash_table_new(g_str_hash, g_str_equal);
    const char **ids = g_new0(const char *, n + 1);
    brief->candidates = ids;
    for (WbJson item = wb_json_first(&at); item.item && n > 0; item = wb_json_next(&item)) {
        ids[brief->n_candidates++] = wb_read_id(&item);
        check_new(&item, seen, ids[item.index]);
    }
}

static void read_owned(const WbJson *root, WbBrief *brief)
{
    WbJson at = wb_json_member(root, "owned");
    gsize n = wb_json_given(&at) ? (gsize)wb_json_list(&at, 0, MOST_PICKS) : 0;
    g_autoptr(GHashTable) seen = g_hash_table_new(g_str_hash, g_str_equal);
    WbOwned *owned = g_new0(WbOwned, n);
    brief->owned = owned;
    for (WbJson item = wb_json_first(&at); item.item && n > 0; item = wb_json_next(&item)) {
        if (!wb_json_object(&item))
            return;
        WbJson part = wb_json_member(&item, "part"), count = wb_json_member(&item, "count");
        owned[brief->n_owned++] =
            (WbOwned){wb_read_id(&part), (int)wb_json_integer(&count, 1, 1000)};
        check_new(&part, seen, owned[item.index].part_id);
    }
}

static void read_fixed_offers(const WbJson *root, WbBrief *brief)
{
    WbJson at = wb_json_member(root, "fixed_offers");
    gsize n = wb_json_given(&at) ? (gsize)wb_json_list(&at, 0, MOST_PICKS) : 0;
    g_autoptr(GHashTable) seen = g_hash_table_new(g_str_hash, g_str_equal);
    WbFixedOffer *offers = g_new0(WbFixedOffer, n);
    brief->fixed_offers = offers;
    for (WbJson item = wb_json_first(&at); item.item && n > 0; item = wb_json_next(&item)) {
        if (!wb_json_object(&item))
            return;
        WbJson part = wb_json_member(&item, "part"), shop = wb_json_member(&item, "shop");
        offers[brief->n_fixed_offers++] = (WbFixedOffer){wb_read_id(&part), wb_read_id(&shop)};
        check_new(&part, seen, offers[item.index].part_id);
    }
}

void wb_read_picks(const WbJson *root, WbBrief *brief)
{
    WbJson kit = wb_json_member(root, "kit_in_hand");
    read_candidates(root, brief);
    read_owned(root, brief);
    read_fixed_offers(root, brief);
    brief->picked_kit = wb_json_text_or(&kit, MOST_KIT_TEXT, "");
}
