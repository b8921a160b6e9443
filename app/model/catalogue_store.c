#include "catalogue_store.h"
#include "catalogue_undo.h"
#include "database.h"

struct _WbCatalogueStore {
    GObject parent_instance;
    WbDatabase *database;
    WbCatalogueView *view;
    WbCatalogueUndo *undo; /* of the last edit, NULL: none */
};

G_DEFINE_FINAL_TYPE(WbCatalogueStore, wb_catalogue_store, G_TYPE_OBJECT)

static guint changed_signal;

WbCatalogueStore *wb_catalogue_store_open(const char *path, GError **error)
{
    g_autofree char *own = path ? g_strdup(path) : wb_database_default_path();
    g_autoptr(WbCatalogueStore) self = g_object_new(WB_TYPE_CATALOGUE_STORE, NULL);
    self->database = wb_database_open(own, FALSE, error);
    if (!self->database)
        return NULL;
    self->view = wb_database_load(self->database, error);
    return self->view ? g_steal_pointer(&self) : NULL;
}

WbCatalogueView *wb_catalogue_store_get_view(WbCatalogueStore *self)
{
    g_return_val_if_fail(WB_IS_CATALOGUE_STORE(self), NULL);
    return self->view;
}

const WbCatalogue *wb_catalogue_store_get_catalogue(WbCatalogueStore *self)
{
    g_return_val_if_fail(WB_IS_CATALOGUE_STORE(self), NULL);
    return wb_catalogue_view_get(self->view);
}

/* After a write: a fresh view for everyone. Takes `undo`, the way back. */
static gboolean finish(WbCatalogueStore *self, gboolean written, WbCatalogueUndo *undo,
                       GError **error)
{
    WbCatalogueView *view = written ? wb_database_load(self->database, error) : NULL;
    if (!written) {
        g_clear_pointer(&undo, wb_catalogue_undo_free);
        return FALSE;
    }
    g_clear_pointer(&self->undo, wb_catalogue_undo_free);
    self->undo = undo;
    if (!view)
        return FALSE;
    g_clear_pointer(&self->view, wb_catalogue_view_unref);
    self->view = view;
    g_signal_emit(self, changed_signal, 0);
    return TRUE;
}

gboolean wb_catalogue_store_put_part(WbCatalogueStore *self, WbPartKind kind, const void *record,
                                     GError **error)
{
    g_return_val_if_fail(WB_IS_CATALOGUE_STORE(self), FALSE);
    const WbPart *part = record;
    WbCatalogueUndo *undo = wb_catalogue_undo_part(self->view, part, part->id);
    return finish(self, wb_database_put_part(self->database, kind, record, error), undo, error);
}

gboolean wb_catalogue_store_delete_part(WbCatalogueStore *self, const char *part_id, GError **error)
{
    g_return_val_if_fail(WB_IS_CATALOGUE_STORE(self), FALSE);
    WbCatalogueUndo *undo = wb_catalogue_undo_part(self->view, NULL, part_id);
    return finish(self, wb_database_delete_part(self->database, part_id, error), undo, error);
}

gboolean wb_catalogue_store_put_offer(WbCatalogueStore *self, const WbOffer *offer, GError **error)
{
    g_return_val_if_fail(WB_IS_CATALOGUE_STORE(self), FALSE);
    WbCatalogueUndo *undo = wb_catalogue_undo_offer(self->view, offer);
    return finish(self, wb_database_put_offer(self->database, offer, error), undo, error);
}

gboolean wb_catalogue_store_delete_offer(WbCatalogueStore *self, const WbOffer *offer,
                                         GError **error)
{
    g_return_val_if_fail(WB_IS_CATALOGUE_STORE(self), FALSE);
    WbCatalogueUndo *undo = wb_catalogue_undo_offer(self->view, offer);
    return finish(self, wb_database_delete_offer(self->database, offer, error), undo, error);
}

/* Shops are not deleted, so there is no way back. */
gboolean wb_catalogue_store_put_shop(WbCatalogueStore *self, const WbShop *shop, GError **error)
{
    g_return_val_if_fail(WB_IS_CATALOGUE_STORE(self), FALSE);
    return finish(self, wb_database_put_shop(self->database, shop, error), NULL, error);
}

const char *wb_catalogue_store_get_undo_label(WbCatalogueStore *self)
{
    g_return_val_if_fail(WB_IS_CATALOGUE_STORE(self), NULL);
    return self->undo ? self->undo->label : NULL;
}

gboolean wb_catalogue_store_undo(WbCatalogueStore *self, GError **error)
{
    g_return_val_if_fail(WB_IS_CATALOGUE_STORE(self), FALSE);
    return self->undo &&
           finish(self, wb_catalogue_undo_run(self->undo, self->database, error), NULL, error);
}

static void wb_catalogue_store_finalize(GObject *object)
{
    WbCatalogueStore *self = WB_CATALOGUE_STORE(object);
    g_clear_pointer(&self->undo, wb_catalogue_undo_free);
    g_clear_pointer(&self->view, wb_catalogue_view_unref);
    g_clear_pointer(&self->database, wb_database_close);
    G_OBJECT_CLASS(wb_catalogue_store_parent_class)->finalize(object);
}

static void wb_catalogue_store_class_init(WbCatalogueStoreClass *klass)
{
    G_OBJECT_CLASS(klass)->finalize = wb_catalogue_store_finalize;
    changed_signal = g_signal_new("changed", WB_TYPE_CATALOGUE_STORE, G_SIGNAL_RUN_LAST, 0, NULL,
                                  NULL, NULL, G_TYPE_NONE, 0);
}

static void wb_catalogue_store_init(WbCatalogueStore *self)
{
}
