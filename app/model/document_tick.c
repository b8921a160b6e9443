/* Ticking candidates is an edit of the brief's "candidates": "all", or a list of part ids. */
#include "brief_file.h"
#include "document.h"
#include "figures_text.h"
#include "part_list.h"
#include "problem.h"
#include <glib/gi18n-lib.h>

/* Candidates are of the five kinds a kit is made of. */
#define N_TICKED_KINDS (WB_KIND_DCDC + 1)

typedef gboolean (*Keeps)(WbPartKind kind, const char *id, gboolean ticked_now, gconstpointer data);

/* Sets the candidates to those that `keeps` says. Ids of the brief that the catalogue does not hold
 * fall out of the list: they stood for no part. */
static gboolean retick(WbDocument *self, Keeps keeps, gconstpointer data, GError **error)
{
    const WbBrief *brief = wb_document_get_brief(self);
    const WbCatalogue *catalogue = wb_document_get_catalogue(self);
    g_autoptr(GString) json = g_string_new("[");
    gboolean all = TRUE;
    for (int kind = 0; kind < N_TICKED_KINDS; kind++) {
        for (gsize i = 0; i < wb_catalogue_count(catalogue, kind); i++) {
            const char *id = wb_catalogue_part(catalogue, kind, i)->id;
            if (!keeps(kind, id, wb_brief_ticks(brief, id), data)) {
                all = FALSE;
                continue;
            }
            g_autofree char *text = wb_text_json(id);
            g_string_append_printf(json, "%s%s", json->len > 1 ? ", " : "", text);
        }
    }
    g_string_append_c(json, ']');
    wb_document_seal(self);
    return wb_document_set_json(self, _("Choose candidates"), "/candidates",
                                all ? "\"all\"" : json->str, error);
}

typedef struct {
    const char *id;
    WbPartKind kind;
    gboolean ticked;
} Tick;

static gboolean keeps_part(WbPartKind kind, const char *id, gboolean ticked_now, gconstpointer data)
{
    const Tick *tick = data;
    return g_str_equal(id, tick->id) ? tick->ticked : ticked_now;
}

static gboolean keeps_kind(WbPartKind kind, const char *id, gboolean ticked_now, gconstpointer data)
{
    const Tick *tick = data;
    return kind == tick->kind ? tick->ticked : ticked_now;
}

gboolean wb_document_tick(WbDocument *self, const char *part_id, gboolean ticked, GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self) && part_id != NULL, FALSE);
    return retick(self, keeps_part, &(Tick){.id = part_id, .ticked = ticked}, error);
}

gboolean wb_document_tick_kind(WbDocument *self, WbPartKind kind, gboolean ticked, GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), FALSE);
    return retick(self, keeps_kind, &(Tick){.kind = kind, .ticked = ticked}, error);
}

gboolean wb_document_check_parts(WbDocument *self, GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), FALSE);
    return wb_brief_file_check_parts(wb_document_get_file(self), wb_document_get_catalogue(self),
                                     error);
}
