/* One row of the list of kits. */
#include "figures_text.h"
#include "kit_row_private.h"
#include "words.h"

G_DEFINE_FINAL_TYPE(WbKitRow, wb_kit_row, G_TYPE_OBJECT)

WbKitRow *wb_kit_row_new(GPtrArray *places, guint position)
{
    WbKitRow *self = g_object_new(WB_TYPE_KIT_ROW, NULL);
    self->places = places;
    self->position = position;
    return self;
}

void wb_kit_row_put(WbKitRow *self, WbResult *result, const WbRanked *ranked, guint rank)
{
    if (self->result != result) {
        WbResult *old = self->result;
        self->result = wb_result_ref(result);
        g_clear_pointer(&old, wb_result_unref);
    }
    self->ranked = ranked;
    self->rank = rank;
    g_clear_pointer(&self->id, g_free);
}

const char *wb_kit_row_get_id(WbKitRow *self)
{
    g_return_val_if_fail(WB_IS_KIT_ROW(self), NULL);
    if (self->id == NULL) {
        char id[WB_KIT_ID];
        wb_kit_id(wb_result_get_problem(self->result), &self->ranked->kit, id);
        self->id = g_strdup(id);
    }
    return self->id;
}

guint wb_kit_row_get_rank(WbKitRow *self)
{
    g_return_val_if_fail(WB_IS_KIT_ROW(self), 0);
    return self->rank;
}

guint wb_kit_row_get_position(WbKitRow *self)
{
    g_return_val_if_fail(WB_IS_KIT_ROW(self), 0);
    return self->position;
}

const WbRanked *wb_kit_row_get_ranked(WbKitRow *self)
{
    g_return_val_if_fail(WB_IS_KIT_ROW(self), NULL);
    return self->ranked;
}

WbResult *wb_kit_row_get_result(WbKitRow *self)
{
    g_return_val_if_fail(WB_IS_KIT_ROW(self), NULL);
    return self->result;
}

double wb_kit_row_get_figure(WbKitRow *self, WbCriterion criterion)
{
    return wb_figure(&self->ranked->figures, criterion);
}

char *wb_kit_row_dup_figure(WbKitRow *self, WbCriterion criterion)
{
    const WbFigures *figures = &self->ranked->figures;
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
    return wb_words_kit(wb_result_get_problem(self->result), &self->ranked->kit);
}

const WbChemistry *wb_kit_row_get_chemistry(WbKitRow *self)
{
    return wb_result_get_problem(self->result)->storage[self->ranked->kit.storage].chemistry;
}

static void wb_kit_row_finalize(GObject *object)
{
    WbKitRow *self = WB_KIT_ROW(object);
    if (self->places != NULL)
        self->places->pdata[self->position] = NULL;
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
