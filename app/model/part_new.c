#include "part_new.h"
#include "part_fields.h"
#include "part_list.h"
#include <glib/gi18n-lib.h>
#include <string.h>

#define MOST_ID 64

struct WbNewPart {
    WbPart *record; /* of the kind's size */
    char *id, *model;
};

/* "panel-2" after "panel": a number at the end is counted on instead of added to. */
static char *free_id(const WbCatalogue *catalogue, const char *base)
{
    gsize stem = strlen(base);
    while (stem > 0 && g_ascii_isdigit(base[stem - 1]))
        stem--;
    if (stem == 0 || base[stem - 1] != '-' || strlen(base) - stem > 4)
        stem = strlen(base);
    else
        stem--;
    for (guint n = 2;; n++) {
        g_autofree char *tail = g_strdup_printf("-%u", n);
        int room = MOST_ID - (int)strlen(tail);
        char *id = g_strdup_printf("%.*s%s", MIN((int)stem, room), base, tail);
        if (wb_catalogue_find_part(catalogue, id, NULL) == NULL)
            return id;
        g_free(id);
    }
}

static int64_t first_value(const WbField *field)
{
    if (field->type == WB_FIELD_INTEGER && field->choices != NULL)
        return g_ascii_strtoll(field->choices[0], NULL, 10);
    return field->type == WB_FIELD_CHOICE ? 0
                                          : (int64_t)((field->usual_low + field->usual_high) / 2);
}

static void set_plain(const WbField *field, const WbCatalogue *catalogue, void *record)
{
    void *at = wb_field_at(field, record);
    switch (field->type) {
    case WB_FIELD_NUMBER:
        *(double *)at =
            field->may_be_missing ? WB_MISSING : (field->usual_low + field->usual_high) / 2;
        break;
    case WB_FIELD_INTEGER:
    case WB_FIELD_CHOICE:
        *(int64_t *)at = field->may_be_missing ? 0 : first_value(field);
        break;
    case WB_FIELD_TEXT:
    case WB_FIELD_WORDS:
        *(const char **)at = "";
        if (g_str_equal(field->key, "chemistry") && catalogue->n_chemistries > 0)
            *(const char **)at = catalogue->chemistries[0].id;
        else if (!field->may_be_missing)
            *(const char **)at = "1";
        break;
    case WB_FIELD_CURVE:
        if (!field->may_be_missing)
            *(WbCurve *)at = (WbCurve){1, {{0.5, (field->usual_low + field->usual_high) / 2}}};
        break;
    case WB_FIELD_FLAG: /* off */
        break;
    }
}

/* Every role needs figures of its own; the plain one, a holder, these. */
static void set_plain_holder(WbFitting *holder)
{
    holder->max_a = 30;
    holder->max_v = 32;
}

static void make_plain(WbNewPart *self, const WbCatalogue *catalogue, WbPartKind kind)
{
    size_t n;
    const WbField *fields = wb_part_fields(kind, &n);
    for (size_t i = 0; i < n; i++)
        set_plain(&fields[i], catalogue, self->record);
    if (kind == WB_KIND_FITTING)
        set_plain_holder((WbFitting *)(void *)self->record);
    self->record->maker = _("New");
    self->model = g_strdup(_("part"));
    self->record->notes = _("Figures to begin with, to be replaced by the data sheet's.");
}

WbNewPart *wb_new_part(const WbCatalogue *catalogue, WbPartKind kind, const void *original)
{
    WbNewPart *self = g_new0(WbNewPart, 1);
    self->record = g_malloc0(wb_kind_size(kind));
    if (original != NULL) {
        memcpy(self->record, original, wb_kind_size(kind));
        /* Translators: the model name of a part that was copied. */
        self->model = g_strdup_printf(_("%s, copy"), self->record->model);
    } else {
        make_plain(self, catalogue, kind);
    }
    self->id = free_id(catalogue, original != NULL ? self->record->id : wb_kind_name(kind));
    self->record->id = self->id;
    self->record->model = self->model;
    return self;
}

const WbPart *wb_new_part_get(const WbNewPart *self)
{
    return self->record;
}

void wb_new_part_free(WbNewPart *self)
{
    g_free(self->record);
    g_free(self->id);
    g_free(self->model);
    g_free(self);
}
