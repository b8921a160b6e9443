#include "catalogue_undo.h"
#include "part_list.h"
#include <glib/gi18n-lib.h>

static char *title_of(const WbPart *part)
{
    g_autofree char *title = g_strstrip(g_strdup_printf("%s %s", part->maker, part->model));
    return g_strdup(title[0] != '\0' ? title : part->id);
}

static char *part_label(const WbPart *before, const WbPart *after)
{
    if (before == NULL && after == NULL)
        return g_strdup("");
    g_autofree char *title = title_of(before != NULL ? before : after);
    if (before == NULL)
        return g_strdup_printf(_("Add %s"), title);
    if (after == NULL)
        return g_strdup_printf(_("Delete %s"), title);
    return g_strdup_printf(_("Change %s"), title);
}

static const WbPart *part_before(const WbCatalogueUndo *undo, WbPartKind *kind)
{
    return wb_catalogue_find_part(wb_catalogue_view_get(undo->before), undo->part_id, kind);
}

WbCatalogueUndo *wb_catalogue_undo_part(WbCatalogueView *before, const WbPart *after,
                                        const char *part_id)
{
    WbPartKind kind;
    WbCatalogueUndo *self = g_new0(WbCatalogueUndo, 1);
    self->before = wb_catalogue_view_ref(before);
    self->part_id = g_strdup(part_id);
    self->label = part_label(part_before(self, &kind), after);
    return self;
}

WbCatalogueUndo *wb_catalogue_undo_offer(WbCatalogueView *before, const WbOffer *offer)
{
    WbPartKind kind;
    WbCatalogueUndo *self = g_new0(WbCatalogueUndo, 1);
    self->before = wb_catalogue_view_ref(before);
    self->part_id = g_strdup(offer->part_id);
    self->shop_id = g_strdup(offer->shop_id);
    self->date = g_strdup(offer->date);
    const WbPart *part = part_before(self, &kind);
    g_autofree char *title = part != NULL ? title_of(part) : g_strdup("");
    self->label = g_strdup_printf(_("Change the prices of %s"), title);
    return self;
}

static gboolean is_offer(const WbOffer *offer, const WbCatalogueUndo *undo)
{
    return g_str_equal(offer->part_id, undo->part_id) &&
           g_str_equal(offer->shop_id, undo->shop_id) && g_str_equal(offer->date, undo->date);
}

static gboolean undo_offer(const WbCatalogueUndo *undo, WbDatabase *database, GError **error)
{
    const WbCatalogue *before = wb_catalogue_view_get(undo->before);
    for (gsize i = 0; i < before->n_offers; i++)
        if (is_offer(&before->offers[i], undo))
            return wb_database_put_offer(database, &before->offers[i], error);
    const WbOffer added = {
        .part_id = undo->part_id, .shop_id = undo->shop_id, .currency = "", .date = undo->date};
    return wb_database_delete_offer(database, &added, error);
}

gboolean wb_catalogue_undo_run(const WbCatalogueUndo *undo, WbDatabase *database, GError **error)
{
    WbPartKind kind;
    if (undo->shop_id != NULL)
        return undo_offer(undo, database, error);
    const WbPart *old = part_before(undo, &kind);
    if (old == NULL)
        return wb_database_delete_part(database, undo->part_id, error);
    const WbCatalogue *before = wb_catalogue_view_get(undo->before);
    g_autoptr(GArray) offers = g_array_new(FALSE, FALSE, sizeof(WbOffer));
    for (gsize i = 0; i < before->n_offers; i++)
        if (g_str_equal(before->offers[i].part_id, undo->part_id))
            g_array_append_val(offers, before->offers[i]);
    return wb_database_put_part_and_offers(database, kind, old, (const WbOffer *)offers->data,
                                           offers->len, error);
}

void wb_catalogue_undo_free(WbCatalogueUndo *undo)
{
    wb_catalogue_view_unref(undo->before);
    g_free(undo->label);
    g_free(undo->part_id);
    g_free(undo->shop_id);
    g_free(undo->date);
    g_free(undo);
}
