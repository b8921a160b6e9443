/* Row objects over the brief's loads. While their number stays, rows keep their places and tell
 * their own changes; else the ends that are alike are kept and the middle is announced once. */
#include "load_list.h"
#include "brief_file.h"
#include <math.h>
#include <string.h>

/* ---- row ---- */

struct _WbLoadRow {
    GObject parent_instance;
    WbBriefFile *file;
    guint index;
};

G_DEFINE_FINAL_TYPE(WbLoadRow, wb_load_row, G_TYPE_OBJECT)

static guint row_changed;

guint wb_load_row_get_index(WbLoadRow *self)
{
    g_return_val_if_fail(WB_IS_LOAD_ROW(self), 0);
    return self->index;
}

const WbLoad *wb_load_row_get_load(WbLoadRow *self)
{
    g_return_val_if_fail(WB_IS_LOAD_ROW(self), NULL);
    return &wb_brief_file_brief(self->file)->loads[self->index];
}

double wb_load_row_get_day_wh(WbLoadRow *self)
{
    const WbLoad *load = wb_load_row_get_load(self);
    return load->power_w * load->count * load->hours_day * load->duty;
}

static gboolean same_load(const WbLoad *a, const WbLoad *b)
{
    return g_str_equal(a->name, b->name) && a->power_w == b->power_w && a->count == b->count &&
           a->ac == b->ac && a->hours_day == b->hours_day && a->duty == b->duty &&
           a->day_part == b->day_part &&
           (a->day_part != WB_DAY_FROM_TO || (a->from_h == b->from_h && a->to_h == b->to_h)) &&
           a->months == b->months && a->days_week == b->days_week &&
           a->surge_factor == b->surge_factor && a->together == b->together &&
           (a->length_m == b->length_m || (isnan(a->length_m) && isnan(b->length_m))) &&
           a->drop_pct == b->drop_pct && a->needs_pure_sine == b->needs_pure_sine;
}

/* Takes over the new state; TRUE when the load it shows is another now. */
static gboolean row_update(WbLoadRow *self, WbBriefFile *file, guint index)
{
    WbBriefFile *old = self->file;
    gboolean same = old && self->index == index &&
                    same_load(&wb_brief_file_brief(old)->loads[index],
                              &wb_brief_file_brief(file)->loads[index]);
    self->file = wb_brief_file_ref(file);
    self->index = index;
    g_clear_pointer(&old, wb_brief_file_unref);
    return !same;
}

static void wb_load_row_finalize(GObject *object)
{
    g_clear_pointer(&WB_LOAD_ROW(object)->file, wb_brief_file_unref);
    G_OBJECT_CLASS(wb_load_row_parent_class)->finalize(object);
}

static void wb_load_row_class_init(WbLoadRowClass *klass)
{
    G_OBJECT_CLASS(klass)->finalize = wb_load_row_finalize;
    row_changed = g_signal_new("changed", WB_TYPE_LOAD_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                               G_TYPE_NONE, 0);
}

static void wb_load_row_init(WbLoadRow *self)
{
}

/* ---- list ---- */

struct _WbLoadList {
    GObject parent_instance;
    WbDocument *document;
    GPtrArray *rows;
};

static GType item_type(GListModel *model)
{
    return WB_TYPE_LOAD_ROW;
}

static guint n_items(GListModel *model)
{
    return WB_LOAD_LIST(model)->rows->len;
}

static gpointer get_item(GListModel *model, guint position)
{
    WbLoadList *self = WB_LOAD_LIST(model);
    return position < self->rows->len ? g_object_ref(self->rows->pdata[position]) : NULL;
}

static void list_model_init(GListModelInterface *iface)
{
    iface->get_item_type = item_type;
    iface->get_n_items = n_items;
    iface->get_item = get_item;
}

G_DEFINE_FINAL_TYPE_WITH_CODE(WbLoadList, wb_load_list, G_TYPE_OBJECT,
                              G_IMPLEMENT_INTERFACE(G_TYPE_LIST_MODEL, list_model_init))

static WbLoadRow *row_new(WbBriefFile *file, guint index)
{
    WbLoadRow *row = g_object_new(WB_TYPE_LOAD_ROW, NULL);
    row_update(row, file, index);
    return row;
}

static void update_in_place(WbLoadList *self, WbBriefFile *file)
{
    for (guint i = 0; i < self->rows->len; i++)
        if (row_update(self->rows->pdata[i], file, i))
            g_signal_emit(self->rows->pdata[i], row_changed, 0);
}

/* Rows that are alike at the front, and then at the back. */
static void count_alike(WbLoadList *self, const WbBrief *brief, guint *front, guint *back)
{
    guint old_n = self->rows->len, new_n = (guint)brief->n_loads;
    guint most = MIN(old_n, new_n);
    for (*front = 0; *front < most; (*front)++)
        if (!same_load(wb_load_row_get_load(self->rows->pdata[*front]), &brief->loads[*front]))
            break;
    for (*back = 0; *back < most - *front; (*back)++)
        if (!same_load(wb_load_row_get_load(self->rows->pdata[old_n - 1 - *back]),
                       &brief->loads[new_n - 1 - *back]))
            break;
}

static void update_middle(WbLoadList *self, WbBriefFile *file)
{
    const WbBrief *brief = wb_brief_file_brief(file);
    guint front, back;
    count_alike(self, brief, &front, &back);
    guint removed = self->rows->len - front - back;
    guint added = (guint)brief->n_loads - front - back;
    if (removed > 0)
        g_ptr_array_remove_range(self->rows, front, removed);
    for (guint i = 0; i < added; i++)
        g_ptr_array_insert(self->rows, (int)(front + i), row_new(file, front + i));
    for (guint i = 0; i < self->rows->len; i++)
        row_update(self->rows->pdata[i], file, i);
    g_list_model_items_changed(G_LIST_MODEL(self), front, removed, added);
    for (guint i = front + added; i < self->rows->len; i++) /* their index is another now */
        g_signal_emit(self->rows->pdata[i], row_changed, 0);
}

static void follow(WbLoadList *self)
{
    WbBriefFile *file = wb_document_get_file(self->document);
    if (wb_brief_file_brief(file)->n_loads == self->rows->len)
        update_in_place(self, file);
    else
        update_middle(self, file);
}

WbLoadList *wb_load_list_new(WbDocument *document)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(document), NULL);
    WbLoadList *self = g_object_new(WB_TYPE_LOAD_LIST, NULL);
    self->document = g_object_ref(document);
    g_signal_connect_object(document, "changed", G_CALLBACK(follow), self, G_CONNECT_SWAPPED);
    follow(self);
    return self;
}

static void wb_load_list_dispose(GObject *object)
{
    g_clear_object(&WB_LOAD_LIST(object)->document);
    G_OBJECT_CLASS(wb_load_list_parent_class)->dispose(object);
}

static void wb_load_list_finalize(GObject *object)
{
    g_ptr_array_unref(WB_LOAD_LIST(object)->rows);
    G_OBJECT_CLASS(wb_load_list_parent_class)->finalize(object);
}

static void wb_load_list_class_init(WbLoadListClass *klass)
{
    G_OBJECT_CLASS(klass)->dispose = wb_load_list_dispose;
    G_OBJECT_CLASS(klass)->finalize = wb_load_list_finalize;
}

static void wb_load_list_init(WbLoadList *self)
{
    self->rows = g_ptr_array_new_with_free_func(g_object_unref);
}
