#include "part_row.h"
#include "database.h"
#include "figures_text.h"
#include "money.h"
#include "problem.h"
#include "words.h"
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

struct _WbPartRow {
    GObject parent_instance;
    WbCatalogueView *view;
    WbBriefFile *file;
    WbPartKind kind;
    const WbPart *part; /* in view */
    gboolean ticked, priced;
    gint64 price_minor;
};

G_DEFINE_FINAL_TYPE(WbPartRow, wb_part_row, G_TYPE_OBJECT)

static guint row_changed;

WbPartRow *wb_part_row_new(WbCatalogueView *view, WbPartKind kind, gsize index)
{
    WbPartRow *self = g_object_new(WB_TYPE_PART_ROW, NULL);
    self->view = wb_catalogue_view_ref(view);
    self->kind = kind;
    self->part = wb_catalogue_part(wb_catalogue_view_get(view), kind, index);
    return self;
}

void wb_part_row_follow(WbPartRow *self, WbBriefFile *file)
{
    const WbBrief *brief = wb_brief_file_brief(file);
    gint64 price = 0;
    gboolean priced =
        wb_best_offer(brief, wb_catalogue_view_get(self->view), self->part->id, &price) != NULL;
    gboolean ticked = wb_brief_ticks(brief, self->part->id);
    gboolean changed = !self->file || priced != self->priced || ticked != self->ticked ||
                       price != self->price_minor;
    WbBriefFile *old = self->file;
    self->file = wb_brief_file_ref(file);
    g_clear_pointer(&old, wb_brief_file_unref);
    self->priced = priced;
    self->price_minor = price;
    self->ticked = ticked;
    if (changed)
        g_signal_emit(self, row_changed, 0);
}

WbPartKind wb_part_row_get_kind(WbPartRow *self)
{
    g_return_val_if_fail(WB_IS_PART_ROW(self), WB_KIND_PANEL);
    return self->kind;
}

const char *wb_part_row_get_id(WbPartRow *self)
{
    g_return_val_if_fail(WB_IS_PART_ROW(self), NULL);
    return self->part->id;
}

const WbPart *wb_part_row_get_part(WbPartRow *self)
{
    g_return_val_if_fail(WB_IS_PART_ROW(self), NULL);
    return self->part;
}

gboolean wb_part_row_get_ticked(WbPartRow *self)
{
    g_return_val_if_fail(WB_IS_PART_ROW(self), FALSE);
    return self->ticked;
}

gboolean wb_part_row_get_price(WbPartRow *self, gint64 *minor)
{
    g_return_val_if_fail(WB_IS_PART_ROW(self), FALSE);
    if (self->priced && minor)
        *minor = self->price_minor;
    return self->priced;
}

static double price_per(WbPartRow *self, double amount)
{
    return self->priced && amount > 0 ? (double)self->price_minor / amount : WB_MISSING;
}

double wb_part_row_get_per_watt(WbPartRow *self)
{
    g_return_val_if_fail(WB_IS_PART_ROW(self), WB_MISSING);
    if (self->kind == WB_KIND_PANEL)
        return price_per(self, ((const WbPanel *)self->part)->power_w);
    if (self->kind == WB_KIND_INVERTER)
        return price_per(self, ((const WbInverter *)self->part)->continuous_w);
    return WB_MISSING;
}

double wb_part_row_get_per_usable_wh(WbPartRow *self)
{
    g_return_val_if_fail(WB_IS_PART_ROW(self), WB_MISSING);
    if (self->kind != WB_KIND_STORAGE)
        return WB_MISSING;
    const WbStorage *storage = (const WbStorage *)self->part;
    const WbChemistry *chemistry =
        wb_catalogue_chemistry(wb_catalogue_view_get(self->view), storage->chemistry);
    if (!chemistry)
        return WB_MISSING;
    return price_per(self, storage->nominal_v * storage->capacity_ah *
                               wb_depth_limit(storage, chemistry));
}

double wb_part_row_get_per_kg(WbPartRow *self)
{
    g_return_val_if_fail(WB_IS_PART_ROW(self), WB_MISSING);
    return price_per(self, self->part->weight_kg);
}

/* ---- texts ---- */

char *wb_part_row_dup_title(WbPartRow *self)
{
    g_return_val_if_fail(WB_IS_PART_ROW(self), NULL);
    return g_strstrip(g_strdup_printf("%s %s", self->part->maker, self->part->model));
}

char *wb_part_row_dup_price(WbPartRow *self)
{
    g_return_val_if_fail(WB_IS_PART_ROW(self), NULL);
    if (!self->priced)
        return g_strdup(_("no price"));
    return wb_words_money(self->price_minor, wb_brief_file_brief(self->file)->currency);
}

static char *curve_text(const WbCurve *curve)
{
    GString *text = g_string_new(NULL);
    for (int i = 0; i < curve->n; i++) {
        g_autofree char *x = wb_text_plain(curve->point[i].x);
        g_autofree char *y = wb_text_plain(curve->point[i].y);
        g_string_append_printf(text, "%s%s: %s", i ? ", " : "", x, y);
    }
    return g_string_free(text, FALSE);
}

char *wb_part_row_dup_field(WbPartRow *self, const WbField *field)
{
    g_return_val_if_fail(WB_IS_PART_ROW(self) && field != NULL, NULL);
    const void *at = wb_field_in(field, self->part);
    switch (field->type) {
    case WB_FIELD_NUMBER: {
        double value = *(const double *)at;
        return isnan(value) ? g_strdup(_("not given")) : wb_text_plain(value);
    }
    case WB_FIELD_INTEGER:
        return g_strdup_printf("%" G_GINT64_FORMAT, *(const gint64 *)at);
    case WB_FIELD_TEXT:
    case WB_FIELD_WORDS:
        return g_strdup(*(const char *const *)at);
    case WB_FIELD_FLAG:
        return g_strdup(*(const bool *)at ? _("yes") : _("no"));
    case WB_FIELD_CHOICE:
        return g_strdup(field->choices[*(const gint64 *)at]);
    case WB_FIELD_CURVE:
        return curve_text(at);
    }
    g_return_val_if_reached(NULL);
}

static gboolean holds_word(const char *folded_word, const char *text)
{
    g_autofree char *folded = g_utf8_casefold(text, -1);
    return strstr(folded, folded_word) != NULL;
}

gboolean wb_part_row_matches(WbPartRow *self, const char *folded_word)
{
    const WbPart *part = self->part;
    if (holds_word(folded_word, part->id) || holds_word(folded_word, part->maker) ||
        holds_word(folded_word, part->model) || holds_word(folded_word, part->notes))
        return TRUE;
    return self->kind == WB_KIND_STORAGE &&
           holds_word(folded_word, ((const WbStorage *)part)->chemistry);
}

static void wb_part_row_finalize(GObject *object)
{
    WbPartRow *self = WB_PART_ROW(object);
    g_clear_pointer(&self->view, wb_catalogue_view_unref);
    g_clear_pointer(&self->file, wb_brief_file_unref);
    G_OBJECT_CLASS(wb_part_row_parent_class)->finalize(object);
}

static void wb_part_row_class_init(WbPartRowClass *klass)
{
    G_OBJECT_CLASS(klass)->finalize = wb_part_row_finalize;
    row_changed = g_signal_new("changed", WB_TYPE_PART_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                               G_TYPE_NONE, 0);
}

static void wb_part_row_init(WbPartRow *self)
{
}
