/* Edits of the list of loads as a person makes them: a cell, a row, rows from a spreadsheet. */
#include "brief_file.h"
#include "figures_text.h"
#include "load_list.h"
#include <glib/gi18n-lib.h>
#include <string.h>

/* Typing watts for a load given by volts and amps changes its amps: the volts are the appliance's.
 */
static gboolean set_watts(WbDocument *document, guint index, const char *json, GError **error)
{
    g_autofree char *watts = g_strdup_printf("/loads/%u/watts", index);
    g_autofree char *volts = g_strdup_printf("/loads/%u/volts", index);
    g_autofree char *amps = g_strdup_printf("/loads/%u/amps", index);
    g_autofree char *given = wb_document_get_json(document, volts);
    if (!given)
        return wb_document_set_json(document, _("Change power"), watts, json, error);
    double amperes = g_ascii_strtod(json, NULL) / g_ascii_strtod(given, NULL);
    return wb_document_set_number(document, _("Change power"), amps, amperes, error);
}

static const char *label_of(WbLoadField field)
{
    static const char *const labels[WB_N_LOAD_COLUMNS] = {N_("Rename load"),
                                                          N_("Change power"),
                                                          N_("Change count"),
                                                          N_("Change supply"),
                                                          N_("Change hours"),
                                                          N_("Change duty"),
                                                          N_("Change time of day"),
                                                          N_("Change months"),
                                                          N_("Change days"),
                                                          N_("Change start surge"),
                                                          N_("Change running together"),
                                                          N_("Change waveform"),
                                                          N_("Change voltage drop"),
                                                          N_("Change length of cable")};
    return _(labels[field]);
}

gboolean wb_load_set_text(WbDocument *document, guint index, WbLoadField field, const char *text,
                          GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(document) && text != NULL, FALSE);
    const WbBrief *brief = wb_document_get_brief(document);
    g_return_val_if_fail(index < brief->n_loads, FALSE);
    const WbLoad *load = &brief->loads[index];
    g_autofree char *shown = wb_load_text(load, field);
    if (g_str_equal(shown, text))
        return TRUE;
    g_autofree char *json = wb_load_json(field, text, error);
    if (!json)
        return FALSE;
    if (field == WB_LOAD_WATTS)
        return set_watts(document, index, json, error);
    g_autofree char *pointer = g_strdup_printf("/loads/%u/%s", index, wb_load_column(field)->key);
    return wb_document_set_json(document, label_of(field), pointer, json, error);
}

/* ---- whole rows ---- */

gboolean wb_load_add(WbDocument *document, guint at, GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(document), FALSE);
    guint n = (guint)wb_document_get_brief(document)->n_loads;
    g_autofree char *pointer = g_strdup_printf("/loads/%u", MIN(at, n));
    return wb_document_insert(document, _("Add load"), at < n ? pointer : "/loads/-",
                              "{\"name\": \"New load\", \"watts\": 10, \"supply\": \"dc\", "
                              "\"hours_per_day\": 1}",
                              error);
}

gboolean wb_load_duplicate(WbDocument *document, guint index, GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(document), FALSE);
    g_autofree char *pointer = g_strdup_printf("/loads/%u", index);
    g_autofree char *json = wb_document_get_json(document, pointer);
    g_return_val_if_fail(json != NULL, FALSE);
    g_autofree char *next = index + 1 < wb_document_get_brief(document)->n_loads
                                ? g_strdup_printf("/loads/%u", index + 1)
                                : g_strdup("/loads/-");
    return wb_document_insert(document, _("Duplicate load"), next, json, error);
}

gboolean wb_load_remove(WbDocument *document, guint index, GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(document), FALSE);
    g_autofree char *pointer = g_strdup_printf("/loads/%u", index);
    return wb_document_remove(document, _("Remove load"), pointer, error);
}

gboolean wb_load_move(WbDocument *document, guint from, guint to, GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(document), FALSE);
    return wb_document_move(document, _("Move load"), "/loads", (int)from, (int)to, error);
}

/* ---- paste ---- */

static void append_member(GString *json, const char *key, const char *value)
{
    g_string_append_printf(json, "%s\"%s\": %s", json->len > 1 ? ", " : "", key, value);
}

/* One line to one load; cells beyond the last column, and empty ones, are left to the defaults. */
static char *line_json(char **cells, guint line, GError **error)
{
    g_autoptr(GString) json = g_string_new("{");
    for (int field = 0; field < WB_N_LOAD_COLUMNS && cells[field]; field++) {
        if (!*g_strstrip(cells[field]))
            continue;
        g_autofree char *value = wb_load_json(field, cells[field], error);
        if (!value) {
            g_prefix_error(error, _("Line %u: "), line);
            return NULL;
        }
        append_member(json, wb_load_column(field)->key, value);
    }
    if (!strstr(json->str, "\"supply\""))
        append_member(json, "supply", "\"dc\"");
    if (!strstr(json->str, "\"hours_per_day\""))
        append_member(json, "hours_per_day", "1");
    g_string_append_c(json, '}');
    return g_steal_pointer(&json->str);
}

gboolean wb_load_paste(WbDocument *document, const char *text, guint *n_rows, GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(document) && text != NULL, FALSE);
    g_auto(GStrv) lines = g_strsplit(text, "\n", -1);
    g_autoptr(GPtrArray) rows = g_ptr_array_new_with_free_func(g_free);
    g_autoptr(GArray) edits = g_array_new(FALSE, TRUE, sizeof(WbEdit));
    for (guint i = 0; lines[i]; i++) {
        if (!*g_strstrip(lines[i]))
            continue;
        g_auto(GStrv) cells = g_strsplit(lines[i], strchr(lines[i], '\t') ? "\t" : ";", -1);
        char *json = line_json(cells, i + 1, error);
        if (!json)
            return FALSE;
        g_ptr_array_add(rows, json);
        WbEdit edit = {WB_EDIT_INSERT, "/loads/-", json};
        g_array_append_val(edits, edit);
    }
    if (n_rows)
        *n_rows = rows->len;
    return wb_document_apply(document, _("Paste loads"), (const WbEdit *)edits->data, edits->len,
                             error);
}
