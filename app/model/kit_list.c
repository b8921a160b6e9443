/* The kits of a result as compact records (a pointer each), those shown by what the groups know.
 *
 * A row object stands for a place in the list, not for a kit: it is made when the place is asked
 * for, lives as long as someone holds it, and shows whatever kit stands there now. A new order or a
 * new result therefore changes no object, and a view keeps its widgets: "arranged" tells it to read
 * its rows again. Items come and go only at the end, or where a group is opened. */
#include "kit_list.h"
#include "kit_groups.h"
#include "kit_row_private.h"
#include <glib/gi18n-lib.h>
#include <string.h>

struct _WbKitList {
    GObject parent_instance;
    WbResult *result;
    GPtrArray *ranked;   /* const WbRanked: the top of the result, then its front beyond */
    guint n_top;         /* how many of them are the top */
    GPtrArray *places;   /* WbKitRow or NULL, by position; not owned */
    WbKitGroups *groups; /* which kits are shown, filtered and in order */
    int criterion;       /* -1: by rank */
    gboolean descending, grouped;
    WbKitFilter filter;
};

enum { OPENED, ARRANGED, N_SIGNALS };
static guint signals[N_SIGNALS];

static GType item_type(GListModel *model)
{
    return WB_TYPE_KIT_ROW;
}

static guint n_items(GListModel *model)
{
    return WB_KIT_LIST(model)->places->len;
}

static void fill(WbKitList *self, WbKitRow *row)
{
    guint index = wb_kit_groups_get_row(self->groups, row->position);
    wb_kit_row_put(row, self->result, self->ranked->pdata[index],
                   index < self->n_top ? index + 1 : 0);
}

static gpointer get_item(GListModel *model, guint position)
{
    WbKitList *self = WB_KIT_LIST(model);
    if (position >= self->places->len)
        return NULL;
    if (self->places->pdata[position] != NULL)
        return g_object_ref(self->places->pdata[position]);
    WbKitRow *row = wb_kit_row_new(self->places, position);
    self->places->pdata[position] = row;
    fill(self, row);
    return row;
}

static void list_model_init(GListModelInterface *iface)
{
    iface->get_item_type = item_type;
    iface->get_n_items = n_items;
    iface->get_item = get_item;
}

G_DEFINE_FINAL_TYPE_WITH_CODE(WbKitList, wb_kit_list, G_TYPE_OBJECT,
                              G_IMPLEMENT_INTERFACE(G_TYPE_LIST_MODEL, list_model_init))

WbKitList *wb_kit_list_new(void)
{
    return g_object_new(WB_TYPE_KIT_LIST, NULL);
}

/* ---- order ---- */

typedef struct {
    double key;
    guint index;
} Keyed;

/* Ties keep the order of the ranking; what is not known stands last either way. */
static int by_key(gconstpointer a, gconstpointer b, gpointer descending)
{
    const Keyed *p = a, *q = b;
    int by_rank = (p->index > q->index) - (p->index < q->index);
    int unknown = (p->key != p->key) - (q->key != q->key);
    int order = (p->key > q->key) - (p->key < q->key);
    if (unknown != 0)
        return unknown;
    if (order == 0)
        return by_rank;
    return GPOINTER_TO_INT(descending) ? -order : order;
}

static void sort(WbKitList *self, guint *order, guint n)
{
    g_autofree Keyed *keyed = g_new(Keyed, n + 1);
    for (guint i = 0; i < n; i++) {
        const WbRanked *ranked = self->ranked->pdata[order[i]];
        double key = self->criterion < 0
                         ? order[i]
                         : wb_figure(&ranked->figures, (WbCriterion)self->criterion);
        keyed[i] = (Keyed){key, order[i]};
    }
    g_qsort_with_data(keyed, (int)n, sizeof *keyed, by_key, GINT_TO_POINTER(self->descending));
    for (guint i = 0; i < n; i++)
        order[i] = keyed[i].index;
}

/* The places follow the number of rows shown; those who hold a row find another kit in it. */
static void fit_places(WbKitList *self, guint before, guint after)
{
    for (guint i = after; i < before; i++)
        if (self->places->pdata[i] != NULL)
            ((WbKitRow *)self->places->pdata[i])->places = NULL;
    g_ptr_array_set_size(self->places, (int)after);
    for (guint i = 0; i < MIN(before, after); i++)
        if (self->places->pdata[i] != NULL)
            fill(self, self->places->pdata[i]);
    guint kept = MIN(before, after);
    if (before != after)
        g_list_model_items_changed(G_LIST_MODEL(self), kept, before - kept, after - kept);
}

static void refresh(WbKitList *self)
{
    const WbProblem *problem = self->result != NULL ? wb_result_get_problem(self->result) : NULL;
    g_autofree guint *order = g_new(guint, self->ranked->len + 1);
    guint n = 0;
    for (guint i = 0; i < self->ranked->len; i++)
        if (wb_kit_filter_passes(&self->filter, problem, self->ranked->pdata[i]))
            order[n++] = i;
    if (self->criterion >= 0 || self->descending)
        sort(self, order, n);
    wb_kit_groups_arrange(self->groups, self->result, (const WbRanked *const *)self->ranked->pdata,
                          self->grouped, order, n);
    fit_places(self, self->places->len, wb_kit_groups_get_n_seen(self->groups));
    g_signal_emit(self, signals[ARRANGED], 0);
}

/* The front has the order of the top, so what lies beyond it comes last. */
static void take_kits(WbKitList *self)
{
    const WbRanking *ranking = wb_result_get_ranking(self->result);
    gsize listed = 0;
    for (gsize i = 0; i < ranking->n_top; i++) {
        g_ptr_array_add(self->ranked, &ranking->top[i]);
        listed += ranking->top[i].on_front;
    }
    self->n_top = self->ranked->len;
    for (gsize i = listed; i < ranking->n_front; i++)
        g_ptr_array_add(self->ranked, &ranking->front[i]);
}

void wb_kit_list_set_result(WbKitList *self, WbResult *result)
{
    g_return_if_fail(WB_IS_KIT_LIST(self));
    WbResult *old = self->result; /* the rows borrow of it until they are filled anew */
    self->result = result != NULL ? wb_result_ref(result) : NULL;
    g_ptr_array_set_size(self->ranked, 0);
    self->n_top = 0;
    if (result != NULL)
        take_kits(self);
    refresh(self);
    g_clear_pointer(&old, wb_result_unref);
}

void wb_kit_list_set_order(WbKitList *self, int criterion, gboolean descending)
{
    g_return_if_fail(WB_IS_KIT_LIST(self) && criterion < WB_N_CRITERIA);
    if (self->criterion == criterion && self->descending == descending)
        return;
    self->criterion = criterion;
    self->descending = descending;
    refresh(self);
}

/* ---- filter ---- */

void wb_kit_list_set_filter(WbKitList *self, const WbKitFilter *filter)
{
    g_return_if_fail(WB_IS_KIT_LIST(self));
    if (wb_kit_filter_equal(&self->filter, filter))
        return;
    WbKitFilter old = self->filter;
    wb_kit_filter_copy(&self->filter, filter);
    wb_kit_filter_clear(&old);
    refresh(self);
}

const WbKitFilter *wb_kit_list_get_filter(WbKitList *self)
{
    g_return_val_if_fail(WB_IS_KIT_LIST(self), NULL);
    return &self->filter;
}

void wb_kit_list_set_front_only(WbKitList *self, gboolean front_only)
{
    g_return_if_fail(WB_IS_KIT_LIST(self));
    WbKitFilter filter = self->filter; /* borrows its texts */
    filter.front_only = front_only;
    wb_kit_list_set_filter(self, &filter);
}

void wb_kit_list_set_chemistry(WbKitList *self, const char *chemistry_id)
{
    g_return_if_fail(WB_IS_KIT_LIST(self));
    WbKitFilter filter = self->filter;
    filter.chemistry = (char *)chemistry_id;
    wb_kit_list_set_filter(self, &filter);
}

/* ---- finding ---- */

/* Index into `ranked`; FALSE: not there. */
static gboolean find_kit(WbKitList *self, const char *kit_id, guint *index)
{
    WbKit kit;
    if (self->result == NULL || !wb_kit_parse(wb_result_get_problem(self->result), kit_id, &kit))
        return FALSE;
    for (*index = 0; *index < self->ranked->len; ++*index) {
        const WbRanked *ranked = self->ranked->pdata[*index];
        if (wb_kit_compare(NULL, &ranked->kit, &kit) == 0)
            return TRUE;
    }
    return FALSE;
}

gboolean wb_kit_list_find(WbKitList *self, const char *kit_id, guint *position)
{
    g_return_val_if_fail(WB_IS_KIT_LIST(self) && kit_id != NULL, FALSE);
    guint index, at;
    if (!find_kit(self, kit_id, &index))
        return FALSE;
    at = wb_kit_groups_find(self->groups, index);
    if (at == WB_KIT_NOWHERE)
        return FALSE;
    *position = at;
    return TRUE;
}

gboolean wb_kit_list_reveal(WbKitList *self, const char *kit_id, guint *position)
{
    g_return_val_if_fail(WB_IS_KIT_LIST(self) && kit_id != NULL, FALSE);
    guint index;
    if (find_kit(self, kit_id, &index))
        wb_kit_list_set_open(self, wb_kit_groups_find_closed(self->groups, index), TRUE);
    return wb_kit_list_find(self, kit_id, position);
}

/* ---- groups ---- */

void wb_kit_list_set_grouped(WbKitList *self, gboolean grouped)
{
    g_return_if_fail(WB_IS_KIT_LIST(self));
    if (self->grouped == !!grouped)
        return;
    self->grouped = !!grouped;
    refresh(self);
}

gboolean wb_kit_list_get_grouped(WbKitList *self)
{
    g_return_val_if_fail(WB_IS_KIT_LIST(self), FALSE);
    return self->grouped;
}

WbKitPlace wb_kit_list_get_place(WbKitList *self, guint position)
{
    if (position >= n_items(G_LIST_MODEL(self)))
        return (WbKitPlace){.differs = WB_N_KIT_CHOICES};
    return wb_kit_groups_get_place(self->groups, position);
}

/* `n` places come in behind `at`, or as many go. */
static void shift_places(WbKitList *self, guint at, int n)
{
    guint behind = self->places->len - at;
    if (n > 0) {
        g_ptr_array_set_size(self->places, (int)self->places->len + n);
        gpointer *from = self->places->pdata + at;
        memmove(from + n, from, behind * sizeof *from);
        memset(from, 0, (gsize)n * sizeof *from);
    }
    for (guint i = at; n < 0 && i < at + (guint)-n; i++)
        if (self->places->pdata[i] != NULL)
            ((WbKitRow *)self->places->pdata[i])->places = NULL;
    if (n < 0)
        g_ptr_array_remove_range(self->places, at, (guint)-n);
    for (guint i = at; i < self->places->len; i++)
        if (self->places->pdata[i] != NULL)
            ((WbKitRow *)self->places->pdata[i])->position = i;
}

gboolean wb_kit_list_set_open(WbKitList *self, guint position, gboolean open)
{
    g_return_val_if_fail(WB_IS_KIT_LIST(self), FALSE);
    if (position >= n_items(G_LIST_MODEL(self)))
        return FALSE;
    int more = wb_kit_groups_set_open(self->groups, position, open);
    if (more == 0)
        return FALSE;
    shift_places(self, position + 1, more);
    g_list_model_items_changed(G_LIST_MODEL(self), position + 1, more < 0 ? (guint)-more : 0,
                               more > 0 ? (guint)more : 0);
    g_signal_emit(self, signals[OPENED], 0);
    return TRUE;
}

guint wb_kit_list_get_n_kits(WbKitList *self)
{
    return wb_kit_groups_get_n_kits(self->groups);
}

guint wb_kit_list_get_n_groups(WbKitList *self)
{
    return wb_kit_groups_get_n_groups(self->groups);
}

const WbRanked *wb_kit_list_get_kit(WbKitList *self, guint i)
{
    return self->ranked->pdata[wb_kit_groups_get_kit(self->groups, i)];
}

guint wb_kit_list_get_n_ranked(WbKitList *self)
{
    return self->ranked->len;
}

const WbRanked *wb_kit_list_get_ranked(WbKitList *self, guint i)
{
    return self->ranked->pdata[i];
}

/* ---- ends ---- */

static void wb_kit_list_finalize(GObject *object)
{
    WbKitList *self = WB_KIT_LIST(object);
    for (guint i = 0; i < self->places->len; i++)
        if (self->places->pdata[i] != NULL)
            ((WbKitRow *)self->places->pdata[i])->places = NULL;
    g_ptr_array_unref(self->places);
    g_ptr_array_unref(self->ranked);
    wb_kit_groups_free(self->groups);
    g_clear_pointer(&self->result, wb_result_unref);
    wb_kit_filter_clear(&self->filter);
    G_OBJECT_CLASS(wb_kit_list_parent_class)->finalize(object);
}

static void wb_kit_list_class_init(WbKitListClass *klass)
{
    GType type = G_TYPE_FROM_CLASS(klass);
    G_OBJECT_CLASS(klass)->finalize = wb_kit_list_finalize;
    signals[OPENED] =
        g_signal_new("opened", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
    signals[ARRANGED] =
        g_signal_new("arranged", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void wb_kit_list_init(WbKitList *self)
{
    self->ranked = g_ptr_array_new();
    self->places = g_ptr_array_new();
    self->groups = wb_kit_groups_new();
    self->criterion = -1;
    self->filter = wb_kit_filter_none();
}

const char *wb_criterion_unit(WbCriterion criterion)
{
    static const char *const units[WB_N_CRITERIA] = {"",         "kg", "Wh", "m\302\262",
                                                     N_("days"), "W",  "h",  "Wh"};
    return criterion < WB_N_CRITERIA && *units[criterion] ? _(units[criterion]) : "";
}

const char *wb_criterion_title(WbCriterion criterion)
{
    static const char *const titles[WB_N_CRITERIA] = {
        N_("Cost"),     N_("Weight"),      N_("Usable capacity"), N_("Roof area"),
        N_("Autonomy"), N_("Spare power"), N_("Dark hours"),      N_("Supply margin")};
    return criterion < WB_N_CRITERIA ? _(titles[criterion]) : "";
}
