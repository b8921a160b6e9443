/* The catalogue's arrays, by kind. */
#include "part_list.h"
#include <string.h>

typedef struct {
    const WbPart *first;
    gsize n, size;
} Shelf;

static Shelf shelf_of(const WbCatalogue *catalogue, WbPartKind kind)
{
    gsize size = wb_kind_size(kind);
    switch (kind) {
    case WB_KIND_PANEL:
        return (Shelf){(const WbPart *)catalogue->panels, catalogue->n_panels, size};
    case WB_KIND_CONTROLLER:
        return (Shelf){(const WbPart *)catalogue->controllers, catalogue->n_controllers, size};
    case WB_KIND_STORAGE:
        return (Shelf){(const WbPart *)catalogue->storage, catalogue->n_storage, size};
    case WB_KIND_INVERTER:
        return (Shelf){(const WbPart *)catalogue->inverters, catalogue->n_inverters, size};
    case WB_KIND_DCDC:
        return (Shelf){(const WbPart *)catalogue->dcdc, catalogue->n_dcdc, size};
    case WB_KIND_CONDUCTOR:
        return (Shelf){(const WbPart *)catalogue->conductors, catalogue->n_conductors, size};
    case WB_KIND_FUSE:
        return (Shelf){(const WbPart *)catalogue->fuses, catalogue->n_fuses, size};
    case WB_KIND_FITTING:
        return (Shelf){(const WbPart *)catalogue->fittings, catalogue->n_fittings, size};
    case WB_N_KINDS:
        break;
    }
    return (Shelf){0};
}

gsize wb_catalogue_count(const WbCatalogue *catalogue, WbPartKind kind)
{
    return shelf_of(catalogue, kind).n;
}

const WbPart *wb_catalogue_part(const WbCatalogue *catalogue, WbPartKind kind, gsize index)
{
    Shelf shelf = shelf_of(catalogue, kind);
    g_return_val_if_fail(index < shelf.n, NULL);
    return (const WbPart *)((const char *)shelf.first + index * shelf.size);
}

const WbPart *wb_catalogue_find_part(const WbCatalogue *catalogue, const char *id, WbPartKind *kind)
{
    for (int k = 0; k < WB_N_KINDS; k++)
        for (gsize i = 0; i < wb_catalogue_count(catalogue, (WbPartKind)k); i++) {
            const WbPart *part = wb_catalogue_part(catalogue, (WbPartKind)k, i);
            if (strcmp(part->id, id) != 0)
                continue;
            if (kind != NULL)
                *kind = (WbPartKind)k;
            return part;
        }
    return NULL;
}
