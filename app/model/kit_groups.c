#include "kit_groups.h"

typedef struct {
    guint row;
    WbSimilarRow similar; /* its leader by index into `kits` */
    guint first_like;     /* of a leader: where its members begin in `members` */
    gboolean open;
} Kit;

struct WbKitGroups {
    WbResult *result;
    const WbRanked *const *ranked; /* of the result, by row; borrowed */
    GArray *kits;                  /* Kit, as given */
    GArray *members;               /* guint into kits: of the first leader, of the second, ... */
    GArray *seen;                  /* guint into kits */
    GHashTable *open;              /* ids of the kits whose groups were opened */
    guint n_groups;
};

WbKitGroups *wb_kit_groups_new(void)
{
    WbKitGroups *self = g_new0(WbKitGroups, 1);
    self->kits = g_array_new(FALSE, FALSE, sizeof(Kit));
    self->members = g_array_new(FALSE, FALSE, sizeof(guint));
    self->seen = g_array_new(FALSE, FALSE, sizeof(guint));
    self->open = g_hash_table_new_full(g_str_hash, g_str_equal, g_free, NULL);
    return self;
}

void wb_kit_groups_free(WbKitGroups *self)
{
    g_clear_pointer(&self->result, wb_result_unref);
    g_array_unref(self->kits);
    g_array_unref(self->members);
    g_array_unref(self->seen);
    g_hash_table_unref(self->open);
    g_free(self);
}

static Kit *kit_at(const WbKitGroups *self, guint i)
{
    return &g_array_index(self->kits, Kit, i);
}

static Kit *seen_at(const WbKitGroups *self, guint position)
{
    return kit_at(self, g_array_index(self->seen, guint, position));
}

static const WbKit *kit_of(const WbKitGroups *self, const Kit *kit)
{
    return &self->ranked[kit->row]->kit;
}

/* Without groups each kit leads itself. */
static void fill_similar(WbKitGroups *self, gboolean grouped)
{
    guint n = self->kits->len;
    g_autofree const WbKit **kits = g_new(const WbKit *, n + 1);
    g_autofree WbSimilarRow *similar = g_new(WbSimilarRow, n + 1);
    size_t n_groups = n;
    for (guint i = 0; i < n; i++)
        kits[i] = kit_of(self, kit_at(self, i));
    grouped = grouped && wb_similar_group(kits, n, similar, &n_groups) == WB_OK;
    for (guint i = 0; i < n; i++)
        kit_at(self, i)->similar =
            grouped ? similar[i] : (WbSimilarRow){.leader = i, .differs = WB_N_KIT_CHOICES};
    self->n_groups = (guint)n_groups;
}

/* Lays the members of each leader side by side, in the order of the list. */
static void gather_members(WbKitGroups *self)
{
    guint begin = 0;
    g_autofree guint *filled = g_new0(guint, self->kits->len + 1);
    for (guint i = 0; i < self->kits->len; i++) {
        Kit *kit = kit_at(self, i);
        kit->first_like = begin;
        begin += kit->similar.n_like;
    }
    g_array_set_size(self->members, begin);
    for (guint i = 0; i < self->kits->len; i++) {
        guint leader = kit_at(self, i)->similar.leader;
        if (leader != i)
            g_array_index(self->members, guint,
                          kit_at(self, leader)->first_like + filled[leader]++) = i;
    }
}

/* Opens again what was opened before. */
static void restore_open(WbKitGroups *self)
{
    GHashTableIter iter;
    gpointer id;
    WbKit wanted;
    g_hash_table_iter_init(&iter, self->open);
    while (g_hash_table_iter_next(&iter, &id, NULL)) {
        if (!wb_kit_parse(wb_result_get_problem(self->result), id, &wanted))
            continue;
        for (guint i = 0; i < self->kits->len; i++) {
            Kit *kit = kit_at(self, i);
            if (kit->similar.n_like > 0 && wb_kit_compare(NULL, kit_of(self, kit), &wanted) == 0)
                kit->open = TRUE;
        }
    }
}

static void fill_seen(WbKitGroups *self)
{
    g_array_set_size(self->seen, 0);
    for (guint i = 0; i < self->kits->len; i++) {
        const Kit *kit = kit_at(self, i);
        if (kit->similar.leader != i)
            continue;
        g_array_append_val(self->seen, i);
        if (kit->open)
            g_array_append_vals(self->seen, &g_array_index(self->members, guint, kit->first_like),
                                kit->similar.n_like);
    }
}

void wb_kit_groups_arrange(WbKitGroups *self, WbResult *result, const WbRanked *const *ranked,
                           gboolean grouped, const guint *rows, guint n)
{
    WbResult *old = self->result;
    self->result = result != NULL ? wb_result_ref(result) : NULL;
    g_clear_pointer(&old, wb_result_unref);
    self->ranked = ranked;
    g_array_set_size(self->kits, 0);
    for (guint i = 0; i < n; i++) {
        Kit kit = {.row = rows[i]};
        g_array_append_val(self->kits, kit);
    }
    fill_similar(self, grouped);
    gather_members(self);
    if (n > 0)
        restore_open(self);
    fill_seen(self);
}

guint wb_kit_groups_get_n_kits(const WbKitGroups *self)
{
    return self->kits->len;
}

guint wb_kit_groups_get_n_groups(const WbKitGroups *self)
{
    return self->n_groups;
}

guint wb_kit_groups_get_kit(const WbKitGroups *self, guint i)
{
    return kit_at(self, i)->row;
}

guint wb_kit_groups_get_n_seen(const WbKitGroups *self)
{
    return self->seen->len;
}

guint wb_kit_groups_get_row(const WbKitGroups *self, guint position)
{
    return seen_at(self, position)->row;
}

WbKitPlace wb_kit_groups_get_place(const WbKitGroups *self, guint position)
{
    guint at = g_array_index(self->seen, guint, position);
    const Kit *kit = kit_at(self, at);
    return (WbKitPlace){.n_like = kit->similar.n_like,
                        .open = kit->open,
                        .under = kit->similar.leader != at,
                        .differs = kit->similar.differs};
}

guint wb_kit_groups_find(const WbKitGroups *self, guint row)
{
    for (guint i = 0; i < self->seen->len; i++)
        if (seen_at(self, i)->row == row)
            return i;
    return WB_KIT_NOWHERE;
}

guint wb_kit_groups_find_closed(const WbKitGroups *self, guint row)
{
    for (guint i = 0; i < self->kits->len; i++) {
        if (kit_at(self, i)->row != row)
            continue;
        const Kit *leader = kit_at(self, kit_at(self, i)->similar.leader);
        return leader == kit_at(self, i) || leader->open ? WB_KIT_NOWHERE
                                                         : wb_kit_groups_find(self, leader->row);
    }
    return WB_KIT_NOWHERE;
}

int wb_kit_groups_set_open(WbKitGroups *self, guint position, gboolean open)
{
    Kit *kit = seen_at(self, position);
    char id[WB_KIT_ID];
    int n = (int)kit->similar.n_like;
    if (n == 0 || kit->open == !!open)
        return 0;
    kit->open = !!open;
    wb_kit_id(wb_result_get_problem(self->result), kit_of(self, kit), id);
    if (!open) {
        g_hash_table_remove(self->open, id);
        g_array_remove_range(self->seen, position + 1, (guint)n);
        return -n;
    }
    g_hash_table_add(self->open, g_strdup(id));
    g_array_insert_vals(self->seen, position + 1,
                        &g_array_index(self->members, guint, kit->first_like), (guint)n);
    return n;
}
