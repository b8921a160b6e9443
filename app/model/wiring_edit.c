#include "wiring_edit.h"
#include "brief_file.h"
#include "figures_text.h"
#include <glib/gi18n-lib.h>

const char *wb_wiring_sizes_words(int sizes)
{
    static const char *const words[] = {N_("metric or AWG"), N_("AWG"), N_("metric")};
    g_return_val_if_fail(sizes >= 0 && sizes < (int)G_N_ELEMENTS(words), "");
    return _(words[sizes]);
}

const char *wb_wiring_rule_set_words(int rule_set)
{
    static const char *const words[] = {N_("road vehicle"), N_("boat"), N_("building")};
    g_return_val_if_fail(rule_set >= 0 && rule_set < (int)G_N_ELEMENTS(words), "");
    return _(words[rule_set]);
}

gboolean wb_wiring_can_have(const WbBrief *brief, WbCircuitKind kind)
{
    if (kind == WB_CIRCUIT_DCDC_IN || kind == WB_CIRCUIT_DCDC_OUT)
        return brief->driving.alternator_a > 0;
    return kind != WB_CIRCUIT_SHORE || brief->shore.charger_a > 0;
}

/* (transfer full) */
static char *pointer_of(WbCircuitKind kind)
{
    return g_strdup_printf("/wiring/lengths_m/%s", wb_circuit_name(kind));
}

gboolean wb_wiring_is_assumed(const WbBriefFile *file, WbCircuitKind kind)
{
    g_autofree char *pointer = pointer_of(kind);
    g_autofree char *json = wb_brief_file_get(file, pointer);
    return json == NULL || g_str_equal(json, "null");
}

guint wb_wiring_count(const WbBriefFile *file)
{
    guint n = 0;
    for (WbCircuitKind kind = 0; kind < WB_N_CIRCUITS; kind++)
        n += wb_wiring_can_have(wb_brief_file_brief(file), kind);
    return n;
}

static gboolean is_open(const WbBriefFile *file, WbCircuitKind kind)
{
    return wb_wiring_can_have(wb_brief_file_brief(file), kind) && wb_wiring_is_assumed(file, kind);
}

guint wb_wiring_count_assumed(const WbBriefFile *file)
{
    guint n = 0;
    for (WbCircuitKind kind = 0; kind < WB_N_CIRCUITS; kind++)
        n += is_open(file, kind);
    return n;
}

gboolean wb_wiring_take_assumed(WbDocument *document, GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(document), FALSE);
    WbBriefFile *file = wb_document_get_file(document);
    const WbBrief *brief = wb_document_get_brief(document);
    g_autoptr(GPtrArray) texts = g_ptr_array_new_with_free_func(g_free);
    WbEdit edits[WB_N_CIRCUITS];
    gsize n = 0;
    for (WbCircuitKind kind = 0; kind < WB_N_CIRCUITS; kind++) {
        if (!is_open(file, kind))
            continue;
        char *pointer = pointer_of(kind), *json = wb_text_plain(brief->wiring.length_m[kind]);
        g_ptr_array_add(texts, pointer);
        g_ptr_array_add(texts, json);
        edits[n++] = (WbEdit){WB_EDIT_SET, pointer, json};
    }
    wb_document_seal(document);
    return n == 0 ||
           wb_document_apply(document, _("Take the lengths as measured"), edits, n, error);
}
