/* All rows of a kind + the permutation shown. A new catalogue makes new rows; an edit of the brief
 * only tells the rows, unless the order depends on it. */
#include "database.h"
#include "part_row.h"
#include <math.h>

typedef double (*Figure)(WbPartRow *row);

struct _WbPartList {
    GObject parent_instance;
    WbDocument *document;
    WbPartKind kind;
    WbCatalogueView *view; /* whose rows these are */
    GPtrArray *rows;       /* WbPartRow, by id */
    GPtrArray *shown;      /* borrowed */
    char **words;          /* of the filter, case folded */
    Figure figure;         /* sort by it, else by field, else by title */
    const WbField *field;
    gboolean descending, sorted;
};

static GType item_type(GListModel *model)
{
    return WB_TYPE_PART_ROW;
}

static guint n_items(GListModel *model)
{
    return WB_PART_LIST(model)->shown->len;
}

static gpointer get_item(GListModel *model, guint position)
{
    WbPartList *self = WB_PART_LIST(model);
    return position < self->shown->len ? g_object_ref(self->shown->pdata[position]) : NULL;
}

static void list_model_init(GListModelInterface *iface)
{
    iface->get_item_type = item_type;
    iface->get_n_items = n_items;
    iface->get_item = get_item;
}

G_DEFINE_FINAL_TYPE_WITH_CODE(WbPartList, wb_part_list, G_TYPE_OBJECT,
                              G_IMPLEMENT_INTERFACE(G_TYPE_LIST_MODEL, list_model_init))

/* ---- order ---- */

static double price_figure(WbPartRow *row)
{
    gint64 minor;
    return wb_part_row_get_price(row, &minor) ? (double)minor : WB_MISSING;
}

static double ticked_figure(WbPartRow *row)
{
    return wb_part_row_get_ticked(row);
}

static double field_figure(WbPartRow *row, const WbField *field)
{
    const void *at = wb_field_in(field, wb_part_row_get_part(row));
    switch (field->type) {
    case WB_FIELD_NUMBER:
        return *(const double *)at;
    case WB_FIELD_INTEGER:
    case WB_FIELD_CHOICE:
        return (double)*(const gint64 *)at;
    case WB_FIELD_FLAG:
        return *(const bool *)at;
    case WB_FIELD_CURVE:
        return ((const WbCurve *)at)->n;
    case WB_FIELD_TEXT:
    case WB_FIELD_WORDS:
        break;
    }
    return WB_MISSING;
}

/* Missing figures stand last in either direction. */
static int compare_figures(double x, double y, gboolean descending)
{
    if (isnan(x) || isnan(y))
        return isnan(x) - isnan(y);
    int order = (x > y) - (x < y);
    return descending ? -order : order;
}

static int compare_texts(WbPartList *self, WbPartRow *a, WbPartRow *b)
{
    g_autofree char *x =
        self->field ? wb_part_row_dup_field(a, self->field) : wb_part_row_dup_title(a);
    g_autofree char *y =
        self->field ? wb_part_row_dup_field(b, self->field) : wb_part_row_dup_title(b);
    int order = g_utf8_collate(x, y);
    return self->descending ? -order : order;
}

static gboolean is_text(const WbField *field)
{
    return field->type == WB_FIELD_TEXT || field->type == WB_FIELD_WORDS;
}

static int compare_rows(gconstpointer pa, gconstpointer pb, gpointer data)
{
    WbPartList *self = data;
    WbPartRow *a = *(WbPartRow *const *)pa, *b = *(WbPartRow *const *)pb;
    int order;
    if (self->figure)
        order = compare_figures(self->figure(a), self->figure(b), self->descending);
    else if (self->field && !is_text(self->field))
        order = compare_figures(field_figure(a, self->field), field_figure(b, self->field),
                                self->descending);
    else
        order = compare_texts(self, a, b);
    return order ? order : g_strcmp0(wb_part_row_get_id(a), wb_part_row_get_id(b));
}

/* ---- what is shown ---- */

static gboolean passes(WbPartList *self, WbPartRow *row)
{
    for (gsize i = 0; self->words && self->words[i]; i++)
        if (*self->words[i] && !wb_part_row_matches(row, self->words[i]))
            return FALSE;
    return TRUE;
}

static gboolean same_rows(GPtrArray *a, GPtrArray *b)
{
    for (guint i = 0; i < a->len; i++)
        if (a->pdata[i] != b->pdata[i])
            return FALSE;
    return TRUE;
}

static void refresh(WbPartList *self)
{
    g_autoptr(GPtrArray) old = self->shown;
    self->shown = g_ptr_array_new();
    for (guint i = 0; i < self->rows->len; i++)
        if (passes(self, self->rows->pdata[i]))
            g_ptr_array_add(self->shown, self->rows->pdata[i]);
    if (self->sorted)
        g_ptr_array_sort_with_data(self->shown, compare_rows, self);
    if (old->len != self->shown->len || !same_rows(old, self->shown))
        g_list_model_items_changed(G_LIST_MODEL(self), 0, old->len, self->shown->len);
}

static void follow_rows(WbPartList *self)
{
    WbBriefFile *file = wb_document_get_file(self->document);
    for (guint i = 0; i < self->rows->len; i++)
        wb_part_row_follow(self->rows->pdata[i], file);
}

static void rebuild(WbPartList *self)
{
    g_autoptr(GPtrArray) old = self->rows; /* alive until listeners know */
    const WbCatalogue *catalogue = wb_document_get_catalogue(self->document);
    WbCatalogueView *view = wb_catalogue_view_ref(wb_document_get_view(self->document));
    g_clear_pointer(&self->view, wb_catalogue_view_unref);
    self->view = view;
    self->rows = g_ptr_array_new_with_free_func(g_object_unref);
    for (gsize i = 0; i < wb_catalogue_count(catalogue, self->kind); i++)
        g_ptr_array_add(self->rows, wb_part_row_new(view, self->kind, i));
    follow_rows(self);
    refresh(self);
}

static void follow(WbPartList *self)
{
    if (self->view != wb_document_get_view(self->document)) {
        rebuild(self);
        return;
    }
    follow_rows(self);
    if (self->figure)
        refresh(self);
}

WbPartList *wb_part_list_new(WbDocument *document, WbPartKind kind)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(document) && kind < WB_N_KINDS, NULL);
    WbPartList *self = g_object_new(WB_TYPE_PART_LIST, NULL);
    self->document = g_object_ref(document);
    self->kind = kind;
    g_signal_connect_object(document, "changed", G_CALLBACK(follow), self, G_CONNECT_SWAPPED);
    rebuild(self);
    return self;
}

WbPartKind wb_part_list_get_kind(WbPartList *self)
{
    g_return_val_if_fail(WB_IS_PART_LIST(self), WB_KIND_PANEL);
    return self->kind;
}

void wb_part_list_set_filter(WbPartList *self, const char *text)
{
    g_return_if_fail(WB_IS_PART_LIST(self));
    g_autofree char *folded = g_utf8_casefold(text ? text : "", -1);
    g_strfreev(self->words);
    self->words = g_strsplit_set(folded, " \t", -1);
    refresh(self);
}

gboolean wb_part_list_set_sort(WbPartList *self, const char *key, gboolean descending)
{
    static const struct {
        const char *key;
        Figure figure;
    } figures[] = {{"title", NULL},
                   {"price", price_figure},
                   {"ticked", ticked_figure},
                   {"per_watt", wb_part_row_get_per_watt},
                   {"per_usable_wh", wb_part_row_get_per_usable_wh},
                   {"per_kg", wb_part_row_get_per_kg}};
    g_return_val_if_fail(WB_IS_PART_LIST(self) && key != NULL, FALSE);
    gsize n, which = 0;
    const WbField *fields = wb_part_fields(self->kind, &n);
    const WbField *field = NULL;
    while (which < G_N_ELEMENTS(figures) && !g_str_equal(figures[which].key, key))
        which++;
    if (which == G_N_ELEMENTS(figures) && !(field = wb_field_find(fields, n, key)))
        return FALSE;
    self->figure = field ? NULL : figures[which].figure;
    self->field = field;
    self->descending = descending;
    self->sorted = TRUE;
    refresh(self);
    return TRUE;
}

gboolean wb_part_list_find(WbPartList *self, const char *part_id, guint *position)
{
    g_return_val_if_fail(WB_IS_PART_LIST(self) && part_id != NULL, FALSE);
    for (guint i = 0; i < self->shown->len; i++)
        if (g_str_equal(wb_part_row_get_id(self->shown->pdata[i]), part_id)) {
            *position = i;
            return TRUE;
        }
    return FALSE;
}

guint wb_part_list_get_total(WbPartList *self)
{
    g_return_val_if_fail(WB_IS_PART_LIST(self), 0);
    return self->rows->len;
}

guint wb_part_list_get_ticked(WbPartList *self)
{
    g_return_val_if_fail(WB_IS_PART_LIST(self), 0);
    guint n = 0;
    for (guint i = 0; i < self->rows->len; i++)
        n += wb_part_row_get_ticked(self->rows->pdata[i]) ? 1 : 0;
    return n;
}

static void wb_part_list_dispose(GObject *object)
{
    g_clear_object(&WB_PART_LIST(object)->document);
    G_OBJECT_CLASS(wb_part_list_parent_class)->dispose(object);
}

static void wb_part_list_finalize(GObject *object)
{
    WbPartList *self = WB_PART_LIST(object);
    g_ptr_array_unref(self->shown);
    g_ptr_array_unref(self->rows);
    g_strfreev(self->words);
    g_clear_pointer(&self->view, wb_catalogue_view_unref);
    G_OBJECT_CLASS(wb_part_list_parent_class)->finalize(object);
}

static void wb_part_list_class_init(WbPartListClass *klass)
{
    G_OBJECT_CLASS(klass)->dispose = wb_part_list_dispose;
    G_OBJECT_CLASS(klass)->finalize = wb_part_list_finalize;
}

static void wb_part_list_init(WbPartList *self)
{
    self->rows = g_ptr_array_new_with_free_func(g_object_unref);
    self->shown = g_ptr_array_new();
}
