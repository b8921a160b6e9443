/* Rows (all, in ranking order) + those shown, which the groups know. One items-changed per change.
 */
#include "kit_list.h"
#include "figures_text.h"
#include "kit_groups.h"
#include "words.h"
#include <glib/gi18n-lib.h>

/* ---- row ---- */

struct _WbKitRow {
    GObject parent_instance;
    WbResult *result;
    guint index; /* in the result's top list */
    char *id;
};

G_DEFINE_FINAL_TYPE(WbKitRow, wb_kit_row, G_TYPE_OBJECT)

static WbKitRow *row_new(WbResult *result, guint index)
{
    char id[WB_KIT_ID];
    WbKitRow *self = g_object_new(WB_TYPE_KIT_ROW, NULL);
    self->result = wb_result_ref(result);
    self->index = index;
    wb_kit_id(wb_result_get_problem(result), &wb_kit_row_get_ranked(self)->kit, id);
    self->id = g_strdup(id);
    return self;
}

const char *wb_kit_row_get_id(WbKitRow *self)
{
    g_return_val_if_fail(WB_IS_KIT_ROW(self), NULL);
    return self->id;
}

guint wb_kit_row_get_rank(WbKitRow *self)
{
    g_return_val_if_fail(WB_IS_KIT_ROW(self), 0);
    return self->index + 1;
}

const WbRanked *wb_kit_row_get_ranked(WbKitRow *self)
{
    g_return_val_if_fail(WB_IS_KIT_ROW(self), NULL);
    return &wb_result_get_ranking(self->result)->top[self->index];
}

WbResult *wb_kit_row_get_result(WbKitRow *self)
{
    g_return_val_if_fail(WB_IS_KIT_ROW(self), NULL);
    return self->result;
}

double wb_kit_row_get_figure(WbKitRow *self, WbCriterion criterion)
{
    return wb_figure(&wb_kit_row_get_ranked(self)->figures, criterion);
}

char *wb_kit_row_dup_figure(WbKitRow *self, WbCriterion criterion)
{
    const WbFigures *figures = &wb_kit_row_get_ranked(self)->figures;
    double value = wb_figure(figures, criterion);
    switch (criterion) {
    case WB_CRITERION_COST:
        return wb_words_money(figures->cost_minor, wb_result_get_brief(self->result)->currency);
    case WB_CRITERION_WEIGHT:
    case WB_CRITERION_AUTONOMY:
        return wb_text_number(value, 1);
    case WB_CRITERION_ROOF:
        return wb_text_number(value, 2);
    case WB_CRITERION_USABLE:
    case WB_CRITERION_SPARE:
    case WB_CRITERION_DARK:
    case WB_CRITERION_MARGIN:
    case WB_N_CRITERIA:
        break;
    }
    return wb_text_number(value, 0);
}

char *wb_kit_row_dup_words(WbKitRow *self)
{
    return wb_words_kit(wb_result_get_problem(self->result), &wb_kit_row_get_ranked(self)->kit);
}

const WbChemistry *wb_kit_row_get_chemistry(WbKitRow *self)
{
    const WbProblem *problem = wb_result_get_problem(self->result);
    return problem->storage[wb_kit_row_get_ranked(self)->kit.storage].chemistry;
}

static void wb_kit_row_finalize(GObject *object)
{
    WbKitRow *self = WB_KIT_ROW(object);
    g_free(self->id);
    g_clear_pointer(&self->result, wb_result_unref);
    G_OBJECT_CLASS(wb_kit_row_parent_class)->finalize(object);
}

static void wb_kit_row_class_init(WbKitRowClass *klass)
{
    G_OBJECT_CLASS(klass)->finalize = wb_kit_row_finalize;
}

static void wb_kit_row_init(WbKitRow *self)
{
}

/* ---- list ---- */

struct _WbKitList {
    GObject parent_instance;
    WbResult *result;
    GPtrArray *rows;     /* WbKitRow, by rank */
    WbKitGroups *groups; /* which of them are shown, filtered and in order */
    int criterion;       /* -1: by rank */
    gboolean descending, front_only, grouped;
    char *chemistry;
};

enum { OPENED, ARRANGED, N_SIGNALS };
static guint signals[N_SIGNALS];

static GType item_type(GListModel *model)
{
    return WB_TYPE_KIT_ROW;
}

static guint n_items(GListModel *model)
{
    return wb_kit_groups_get_n_seen(WB_KIT_LIST(model)->groups);
}

static WbKitRow *row_at(WbKitList *self, guint position)
{
    return self->rows->pdata[wb_kit_groups_get_row(self->groups, position)];
}

static gpointer get_item(GListModel *model, guint position)
{
    WbKitList *self = WB_KIT_LIST(model);
    return position < n_items(model) ? g_object_ref(row_at(self, position)) : NULL;
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

static gboolean passes(WbKitList *self, WbKitRow *row)
{
    if (self->front_only && !wb_kit_row_get_ranked(row)->on_front)
        return FALSE;
    return !self->chemistry || g_str_equal(wb_kit_row_get_chemistry(row)->id, self->chemistry);
}

/* Ties keep the order of the ranking. */
static int compare_rows(gconstpointer a, gconstpointer b, gpointer data)
{
    WbKitList *self = data;
    guint at_a = *(const guint *)a, at_b = *(const guint *)b;
    int by_rank = (at_a > at_b) - (at_a < at_b);
    if (self->criterion < 0)
        return self->descending ? -by_rank : by_rank;
    double x = wb_kit_row_get_figure(self->rows->pdata[at_a], self->criterion);
    double y = wb_kit_row_get_figure(self->rows->pdata[at_b], self->criterion);
    int order = (x > y) - (x < y);
    if (order == 0)
        return by_rank;
    return self->descending ? -order : order;
}

static void refresh(WbKitList *self)
{
    guint before = n_items(G_LIST_MODEL(self));
    g_autoptr(GArray) order = g_array_new(FALSE, FALSE, sizeof(guint));
    for (guint i = 0; i < self->rows->len; i++)
        if (passes(self, self->rows->pdata[i]))
            g_array_append_val(order, i);
    if (self->criterion >= 0 || self->descending)
        g_array_sort_with_data(order, compare_rows, self);
    wb_kit_groups_arrange(self->groups, self->result, self->grouped, (const guint *)order->data,
                          order->len);
    g_list_model_items_changed(G_LIST_MODEL(self), 0, before, n_items(G_LIST_MODEL(self)));
    g_signal_emit(self, signals[ARRANGED], 0);
}

void wb_kit_list_set_result(WbKitList *self, WbResult *result)
{
    g_return_if_fail(WB_IS_KIT_LIST(self));
    g_autoptr(GPtrArray) old = self->rows; /* alive until listeners know */
    self->rows = g_ptr_array_new_with_free_func(g_object_unref);
    gsize n = result ? wb_result_get_ranking(result)->n_top : 0;
    for (gsize i = 0; i < n; i++)
        g_ptr_array_add(self->rows, row_new(result, (guint)i));
    g_clear_pointer(&self->result, wb_result_unref);
    self->result = result != NULL ? wb_result_ref(result) : NULL;
    refresh(self);
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

void wb_kit_list_set_front_only(WbKitList *self, gboolean front_only)
{
    g_return_if_fail(WB_IS_KIT_LIST(self));
    if (self->front_only == front_only)
        return;
    self->front_only = front_only;
    refresh(self);
}

void wb_kit_list_set_chemistry(WbKitList *self, const char *chemistry_id)
{
    g_return_if_fail(WB_IS_KIT_LIST(self));
    if (g_strcmp0(self->chemistry, chemistry_id) == 0)
        return;
    char *kept = g_strdup(chemistry_id);
    g_free(self->chemistry);
    self->chemistry = kept;
    refresh(self);
}

const char *wb_kit_list_get_chemistry(WbKitList *self)
{
    g_return_val_if_fail(WB_IS_KIT_LIST(self), NULL);
    return self->chemistry;
}

gboolean wb_kit_list_find(WbKitList *self, const char *kit_id, guint *position)
{
    g_return_val_if_fail(WB_IS_KIT_LIST(self) && kit_id != NULL, FALSE);
    for (guint i = 0; i < n_items(G_LIST_MODEL(self)); i++)
        if (g_str_equal(wb_kit_row_get_id(row_at(self, i)), kit_id)) {
            *position = i;
            return TRUE;
        }
    return FALSE;
}

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

gboolean wb_kit_list_set_open(WbKitList *self, guint position, gboolean open)
{
    g_return_val_if_fail(WB_IS_KIT_LIST(self), FALSE);
    if (position >= n_items(G_LIST_MODEL(self)))
        return FALSE;
    int more = wb_kit_groups_set_open(self->groups, position, open);
    if (more == 0)
        return FALSE;
    g_list_model_items_changed(G_LIST_MODEL(self), position + 1, more < 0 ? (guint)-more : 0,
                               more > 0 ? (guint)more : 0);
    g_signal_emit(self, signals[OPENED], 0);
    return TRUE;
}

gboolean wb_kit_list_reveal(WbKitList *self, const char *kit_id, guint *position)
{
    g_return_val_if_fail(WB_IS_KIT_LIST(self) && kit_id != NULL, FALSE);
    for (guint i = 0; i < self->rows->len; i++)
        if (g_str_equal(wb_kit_row_get_id(self->rows->pdata[i]), kit_id))
            wb_kit_list_set_open(self, wb_kit_groups_find_closed(self->groups, i), TRUE);
    return wb_kit_list_find(self, kit_id, position);
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
    return &wb_result_get_ranking(self->result)->top[wb_kit_groups_get_kit(self->groups, i)];
}

static void wb_kit_list_finalize(GObject *object)
{
    WbKitList *self = WB_KIT_LIST(object);
    wb_kit_groups_free(self->groups);
    g_ptr_array_unref(self->rows);
    g_clear_pointer(&self->result, wb_result_unref);
    g_free(self->chemistry);
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
    self->rows = g_ptr_array_new_with_free_func(g_object_unref);
    self->groups = wb_kit_groups_new();
    self->criterion = -1;
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
