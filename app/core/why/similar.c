/* Each leader is entered in a table under its five "all but one choice" keys. A kit is like a
 * leader if one of its own five keys is there, so a kit costs five look-ups whatever the number of
 * leaders. Two leaders never share a key, for the later one would have stood with the earlier: a
 * key names one leader. */
#include "similar.h"
#include <stdlib.h>

typedef struct {
    uint64_t of[WB_N_KIT_CHOICES];
} Choices;

typedef struct {
    const WbKit *const *kits;
    uint32_t *slots; /* leader x WB_N_KIT_CHOICES + the choice left out + 1; 0: free */
    size_t room, n;  /* room: a power of two, at most half of it taken */
} Table;

static Choices choices_of(const WbKit *kit)
{
    return (Choices){{
        [WB_KIT_PANELS] = (uint64_t)kit->panel << 32 | (uint32_t)(kit->n_series * kit->n_parallel),
        [WB_KIT_CONTROLLERS] = (uint64_t)kit->controller << 32 | (uint32_t)kit->n_controllers,
        [WB_KIT_BANK] = (uint64_t)kit->storage << 32 | (uint64_t)kit->bank_series << 16 |
                        (uint64_t)kit->bank_parallel,
        [WB_KIT_INVERTER] = (uint64_t)kit->inverter,
        [WB_KIT_DCDC] = (uint64_t)kit->dcdc,
    }};
}

int wb_kits_differ(const WbKit *a, const WbKit *b, WbKitChoice *first)
{
    Choices x = choices_of(a), y = choices_of(b);
    int n = 0;
    WbKitChoice found = WB_N_KIT_CHOICES;
    for (int c = WB_N_KIT_CHOICES - 1; c >= 0; c--)
        if (x.of[c] != y.of[c]) {
            found = (WbKitChoice)c;
            n++;
        }
    if (first != NULL)
        *first = found;
    return n;
}

static uint64_t mix(uint64_t x)
{
    x = (x ^ x >> 33) * 0xff51afd7ed558ccdu;
    x = (x ^ x >> 33) * 0xc4ceb9fe1a85ec53u;
    return x ^ x >> 33;
}

/* One key for each choice left out. */
static void hash_keys(const WbKit *kit, uint64_t key[WB_N_KIT_CHOICES])
{
    Choices choices = choices_of(kit);
    uint64_t part[WB_N_KIT_CHOICES], all = 0;
    for (int c = 0; c < WB_N_KIT_CHOICES; c++)
        all += part[c] = mix(choices.of[c] * WB_N_KIT_CHOICES + (uint64_t)c);
    for (int c = 0; c < WB_N_KIT_CHOICES; c++)
        key[c] = mix(all - part[c] + (uint64_t)c);
}

static bool same_but_one(const WbKit *a, const WbKit *b, int left_out)
{
    WbKitChoice first;
    int n = wb_kits_differ(a, b, &first);
    return n == 0 || (n == 1 && (int)first == left_out);
}

/* The slot of this key, or the free one where it belongs. */
static size_t find_slot(const Table *table, const WbKit *kit, uint64_t key, int left_out)
{
    size_t at = (size_t)key & (table->room - 1);
    for (; table->slots[at] != 0; at = (at + 1) & (table->room - 1)) {
        uint32_t slot = table->slots[at] - 1;
        if ((int)(slot % WB_N_KIT_CHOICES) == left_out &&
            same_but_one(table->kits[slot / WB_N_KIT_CHOICES], kit, left_out))
            break;
    }
    return at;
}

static void enter(Table *table, uint32_t leader)
{
    uint64_t key[WB_N_KIT_CHOICES];
    hash_keys(table->kits[leader], key);
    for (int c = 0; c < WB_N_KIT_CHOICES; c++)
        table->slots[find_slot(table, table->kits[leader], key[c], c)] =
            leader * WB_N_KIT_CHOICES + (uint32_t)c + 1;
    table->n++;
}

/* Room for one more leader. */
static bool make_room(Table *table, const WbSimilarRow *rows, size_t done)
{
    if (2 * WB_N_KIT_CHOICES * (table->n + 1) <= table->room)
        return true;
    size_t room = table->room == 0 ? 1024 : 4 * table->room;
    uint32_t *slots = calloc(room, sizeof *slots);
    if (slots == NULL)
        return false;
    free(table->slots);
    table->slots = slots;
    table->room = room;
    table->n = 0;
    for (size_t i = 0; i < done; i++)
        if (rows[i].leader == i)
            enter(table, (uint32_t)i);
    return true;
}

/* The first leader it is like, `self` where there is none. */
static uint32_t find_leader(const Table *table, uint32_t self)
{
    uint64_t key[WB_N_KIT_CHOICES];
    uint32_t leader = self;
    hash_keys(table->kits[self], key);
    for (int c = 0; c < WB_N_KIT_CHOICES; c++) {
        uint32_t slot = table->slots[find_slot(table, table->kits[self], key[c], c)];
        if (slot != 0 && (slot - 1) / WB_N_KIT_CHOICES < leader)
            leader = (slot - 1) / WB_N_KIT_CHOICES;
    }
    return leader;
}

WbStatus wb_similar_group(const WbKit *const *kits, size_t n, WbSimilarRow *rows, size_t *n_groups)
{
    if (n > WB_SIMILAR_MOST)
        return WB_BAD_INPUT;
    Table table = {.kits = kits};
    WbStatus status = WB_OK;
    for (size_t i = 0; i < n && status == WB_OK; i++) {
        if (!make_room(&table, rows, i)) {
            status = WB_NO_MEMORY;
            break;
        }
        uint32_t leader = find_leader(&table, (uint32_t)i);
        rows[i] = (WbSimilarRow){.leader = leader, .differs = WB_N_KIT_CHOICES};
        if (leader == i) {
            enter(&table, (uint32_t)i);
            continue;
        }
        rows[leader].n_like++;
        wb_kits_differ(kits[leader], kits[i], &rows[i].differs);
    }
    if (status == WB_OK && n_groups != NULL)
        *n_groups = table.n;
    free(table.slots);
    return status;
}
