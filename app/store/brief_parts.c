/* Does the catalogue hold the parts and shops a brief names? */
#include "brief_document.h"
#include "store_fail.h"
#include <string.h>

static gboolean holds_panel(const WbCatalogue *catalogue, const char *id)
{
    for (size_t i = 0; i < catalogue->n_panels; i++)
        if (strcmp(catalogue->panels[i].part.id, id) == 0)
            return TRUE;
    return FALSE;
}

static gboolean holds_part(const WbCatalogue *catalogue, const char *id)
{
    const struct {
        const void *records;
        size_t n, size;
    } lists[] = {
        {catalogue->panels, catalogue->n_panels, sizeof(WbPanel)},
        {catalogue->controllers, catalogue->n_controllers, sizeof(WbController)},
        {catalogue->storage, catalogue->n_storage, sizeof(WbStorage)},
        {catalogue->inverters, catalogue->n_inverters, sizeof(WbInverter)},
        {catalogue->dcdc, catalogue->n_dcdc, sizeof(WbDcdc)},
        {catalogue->conductors, catalogue->n_conductors, sizeof(WbConductor)},
        {catalogue->fuses, catalogue->n_fuses, sizeof(WbFuse)},
        {catalogue->fittings, catalogue->n_fittings, sizeof(WbFitting)},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(lists); i++)
        for (size_t j = 0; j < lists[i].n; j++) {
            const WbPart *part =
                (const WbPart *)(const void *)((const char *)lists[i].records + j * lists[i].size);
            if (strcmp(part->id, id) == 0)
                return TRUE;
        }
    return FALSE;
}

static gboolean holds_shop(const WbCatalogue *catalogue, const char *id)
{
    for (size_t i = 0; i < catalogue->n_shops; i++)
        if (strcmp(catalogue->shops[i].id, id) == 0)
            return TRUE;
    return FALSE;
}

static gboolean missing(const WbBriefFile *file, GError **error, const char *list, size_t index,
                        const char *member, const char *id)
{
    wb_store_fail(error, WB_STORE_ERROR_VALUE,
                  "%s: /%s/%zu%s is \"%s\", but must be the id of a %s in the catalogue.",
                  wb_brief_document_name(file), list, index, member, id,
                  strcmp(member, "/shop") == 0    ? "shop"
                  : strcmp(member, "/panel") == 0 ? "panel"
                                                  : "part");
    return FALSE;
}

gboolean wb_brief_file_check_parts(const WbBriefFile *file, const WbCatalogue *catalogue,
                                   GError **error)
{
    const WbBrief *brief = wb_brief_file_brief(file);
    for (size_t i = 0; i < brief->n_candidates; i++)
        if (!holds_part(catalogue, brief->candidates[i]))
            return missing(file, error, "candidates", i, "", brief->candidates[i]);
    for (size_t i = 0; i < brief->n_owned; i++)
        if (!holds_part(catalogue, brief->owned[i].part_id))
            return missing(file, error, "owned", i, "/part", brief->owned[i].part_id);
    for (size_t i = 0; i < brief->n_fixed_offers; i++) {
        const WbFixedOffer *offer = &brief->fixed_offers[i];
        if (!holds_part(catalogue, offer->part_id))
            return missing(file, error, "fixed_offers", i, "/part", offer->part_id);
        if (!holds_shop(catalogue, offer->shop_id))
            return missing(file, error, "fixed_offers", i, "/shop", offer->shop_id);
    }
    for (size_t i = 0; i < brief->roof.n_pins; i++)
        if (!holds_panel(catalogue, brief->roof.pins[i].part_id))
            return missing(file, error, "roof/pins", i, "/panel", brief->roof.pins[i].part_id);
    return TRUE;
}
