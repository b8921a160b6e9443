#include "site_edit.h"
#include "brief_file.h"
#include "figures_text.h"
#include "site_paste.h"
#include "store_error.h"
#include <glib/gi18n-lib.h>
#include <string.h>

static const struct {
    const char *key, *title;
} figures[WB_N_MONTH_FIGURES] = {
    [WB_MONTH_SUN] = {"ghi_kwh_m2_day", N_("Sun on the flat")},
    [WB_MONTH_AIR_MEAN] = {"air_mean_c", N_("Mean air")},
    [WB_MONTH_AIR_MAX] = {"air_max_c", N_("Mean highest")},
    [WB_MONTH_AIR_MIN] = {"air_min_c", N_("Mean lowest")},
};

const char *wb_month_figure_key(WbMonthFigure figure)
{
    g_return_val_if_fail((int)figure >= 0 && figure < WB_N_MONTH_FIGURES, NULL);
    return figures[figure].key;
}

const char *wb_month_figure_title(WbMonthFigure figure)
{
    g_return_val_if_fail((int)figure >= 0 && figure < WB_N_MONTH_FIGURES, NULL);
    return _(figures[figure].title);
}

static const double *twelve_of(const WbPlace *place, WbMonthFigure figure)
{
    const double *const twelve[WB_N_MONTH_FIGURES] = {place->ghi_kwh_m2_day, place->air_mean_c,
                                                      place->air_max_c, place->air_min_c};
    return twelve[figure];
}

double wb_month_figure(const WbPlace *place, WbMonthFigure figure, int month)
{
    return twelve_of(place, figure)[month];
}

/* ---- the place ---- */

gboolean wb_site_is_own(WbDocument *document)
{
    g_autofree char *json = wb_document_get_json(document, "/site/place");
    return json != NULL && json[0] == '{';
}

gboolean wb_site_choose_place(WbDocument *document, const char *place_id, GError **error)
{
    g_autofree char *json = wb_text_json(place_id);
    wb_document_seal(document);
    return wb_document_set_json(document, _("Choose a place"), "/site/place", json, error);
}

static char *twelve_json(const double *twelve)
{
    GString *json = g_string_new("[");
    for (int month = 0; month < WB_MONTHS; month++) {
        g_autofree char *number = wb_text_plain(twelve[month]);
        g_string_append_printf(json, "%s%s", month > 0 ? ", " : "", number);
    }
    g_string_append_c(json, ']');
    return g_string_free(json, FALSE);
}

static void append_text(GString *json, const char *key, const char *text)
{
    g_autofree char *quoted = wb_text_json(text);
    g_string_append_printf(json, "\"%s\": %s, ", key, quoted);
}

static void append_number(GString *json, const char *key, double value)
{
    g_autofree char *number = wb_text_plain(value);
    g_string_append_printf(json, "\"%s\": %s, ", key, number);
}

/* Whose figures they were stays with them until all are changed. */
static char *source_text(const WbPlace *place)
{
    return g_strdup_printf("begun from %s: %s", place->name, place->source);
}

static char *own_json(const WbPlace *place)
{
    GString *json = g_string_new("{");
    g_autofree char *source = source_text(place);
    append_text(json, "name", place->name);
    append_text(json, "country", place->country);
    append_number(json, "latitude_deg", place->latitude_deg);
    append_number(json, "longitude_deg", place->longitude_deg);
    append_number(json, "altitude_m", place->altitude_m);
    append_text(json, "kind", "own figures");
    append_text(json, "source", g_utf8_strlen(source, -1) <= 200 ? source : place->source);
    append_text(json, "years", place->years);
    for (int f = 0; f < WB_N_MONTH_FIGURES; f++) {
        g_autofree char *twelve = twelve_json(twelve_of(place, f));
        g_string_append_printf(json, "%s\"%s\": %s", f > 0 ? ", " : "", figures[f].key, twelve);
    }
    g_string_append_c(json, '}');
    return g_string_free(json, FALSE);
}

gboolean wb_site_begin_own(WbDocument *document, GError **error)
{
    if (wb_site_is_own(document))
        return TRUE;
    g_autofree char *json = own_json(&wb_document_get_brief(document)->site.place);
    wb_document_seal(document);
    return wb_document_set_json(document, _("Use own figures"), "/site/place", json, error);
}

/* ---- paste ---- */

/* The edits of a paste in an order that never puts a lowest above a highest on the way. */
static gboolean apply_paste(WbDocument *document, const WbMonthPaste *paste, GError **error)
{
    static const WbMonthFigure order[] = {WB_MONTH_SUN, WB_MONTH_AIR_MEAN, WB_MONTH_AIR_MAX,
                                          WB_MONTH_AIR_MIN};
    WbPlace place = wb_document_get_brief(document)->site.place;
    double *const into[WB_N_MONTH_FIGURES] = {place.ghi_kwh_m2_day, place.air_mean_c,
                                              place.air_max_c, place.air_min_c};
    for (int month = 0; month < WB_MONTHS; month++)
        for (int f = 0; f < WB_N_MONTH_FIGURES; f++)
            if (paste->given[month][f])
                into[f][month] = paste->value[month][f];
    g_autoptr(GPtrArray) texts = g_ptr_array_new_with_free_func(g_free);
    WbEdit edits[1 + G_N_ELEMENTS(order)];
    edits[0] = (WbEdit){WB_EDIT_SET, "/site/place/air_min_c",
                        "[-90, -90, -90, -90, -90, -90, -90, -90, -90, -90, -90, -90]"};
    for (gsize i = 0; i < G_N_ELEMENTS(order); i++) {
        char *pointer = g_strdup_printf("/site/place/%s", figures[order[i]].key);
        char *json = twelve_json(into[order[i]]);
        g_ptr_array_add(texts, pointer);
        g_ptr_array_add(texts, json);
        edits[i + 1] = (WbEdit){WB_EDIT_SET, pointer, json};
    }
    return wb_document_apply(document, _("Paste figures"), edits, G_N_ELEMENTS(edits), error);
}

gboolean wb_site_paste(WbDocument *document, WbMonthFigure first, int month, const char *text,
                       GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(document) && text != NULL, FALSE);
    WbMonthPaste paste;
    if (!wb_site_is_own(document)) {
        g_set_error_literal(error, WB_STORE_ERROR, WB_STORE_ERROR_VALUE,
                            _("The figures of a built-in place cannot be changed; choose own "
                              "figures first."));
        return FALSE;
    }
    return wb_month_paste_read(first, month, text, &paste, error) &&
           apply_paste(document, &paste, error);
}

/* ---- weather ---- */

/* A file in the brief's own folder is named from there, so that both may be moved together. */
static char *hourly_member(WbDocument *document, const char *path)
{
    g_autofree char *folder = wb_document_get_folder(document);
    g_autofree char *whole = g_canonicalize_filename(path, folder);
    gsize length = strlen(folder);
    gboolean beside = wb_document_get_path(document) != NULL && g_str_has_prefix(whole, folder) &&
                      whole[length] == '/';
    return g_strdup(beside ? whole + length + 1 : whole);
}

gboolean wb_site_set_hourly_file(WbDocument *document, const char *path, GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(document), FALSE);
    g_autofree char *member = path != NULL ? hourly_member(document, path) : NULL;
    if (member != NULL && !g_utf8_validate(member, -1, NULL)) {
        g_autofree char *shown = g_filename_display_name(member);
        g_set_error(error, WB_STORE_ERROR, WB_STORE_ERROR_VALUE,
                    _("The name of %s is not UTF-8 text, so a brief cannot hold it; give the file "
                      "another name."),
                    shown);
        return FALSE;
    }
    if (path == NULL && wb_site_hourly_file(document) == NULL)
        return TRUE;
    g_autofree char *json = member != NULL ? wb_text_json(member) : g_strdup("null");
    wb_document_seal(document);
    return wb_document_set_json(document, _("Change the hourly file"), "/site/weather/hourly_file",
                                json, error);
}

const char *wb_site_hourly_file(WbDocument *document)
{
    return wb_brief_file_hours_path(wb_document_get_file(document));
}

const char *wb_site_hourly_problem(WbDocument *document)
{
    return wb_brief_file_hours_problem(wb_document_get_file(document));
}

char *wb_site_hourly_note(WbDocument *document)
{
    const WbHoursFile *file = wb_brief_file_hours(wb_document_get_file(document));
    if (file == NULL)
        return NULL;
    int years = wb_hours_file_hours(file)->n_years;
    GString *text = g_string_new(NULL);
    g_string_printf(text,
                    ngettext("%d year of hours, in place of made weather.",
                             "%d years of hours, in place of made weather.", (gulong)years),
                    years);
    const GPtrArray *notes = wb_hours_file_notes(file);
    for (guint i = 0; i < notes->len; i++)
        g_string_append_printf(text, " %s", (const char *)notes->pdata[i]);
    return g_string_free(text, FALSE);
}

/* ---- season, shade, driving ---- */

gboolean wb_site_use_month(WbDocument *document, int month, gboolean in_use, GError **error)
{
    g_return_val_if_fail(month >= 0 && month < WB_MONTHS, FALSE);
    guint32 months = wb_document_get_brief(document)->site.months;
    months = in_use ? months | 1U << month : months & ~(1U << month);
    if ((months & 0xfff) == 0) {
        g_set_error_literal(error, WB_STORE_ERROR, WB_STORE_ERROR_VALUE,
                            _("At least one month must be in use."));
        return FALSE;
    }
    g_autoptr(GString) json = g_string_new("[");
    for (int m = 0; m < WB_MONTHS; m++)
        if (months >> m & 1)
            g_string_append_printf(json, "%s%d", json->len > 1 ? ", " : "", m + 1);
    g_string_append_c(json, ']');
    return wb_document_set_json(document, _("Change the months in use"), "/site/months", json->str,
                                error);
}

gboolean wb_site_try_system(WbDocument *document, int bit, gboolean tried, GError **error)
{
    g_return_val_if_fail(bit >= 0 && bit < 3, FALSE);
    guint32 bits = wb_document_get_brief(document)->system_v;
    bits = tried ? bits | 1U << bit : bits & ~(1U << bit);
    if ((bits & 7) == 0) {
        g_set_error_literal(error, WB_STORE_ERROR, WB_STORE_ERROR_VALUE,
                            _("At least one system voltage must be tried."));
        return FALSE;
    }
    g_autoptr(GString) json = g_string_new("[");
    for (int b = 0; b < 3; b++)
        if (bits >> b & 1)
            g_string_append_printf(json, "%s%d", json->len > 1 ? ", " : "", 12 << b);
    g_string_append_c(json, ']');
    return wb_document_set_json(document, _("Change the system voltages"), "/system_volts",
                                json->str, error);
}

gboolean wb_site_is_shaded_by_month(WbDocument *document)
{
    g_autofree char *json = wb_document_get_json(document, "/site/shading_loss");
    return json != NULL && json[0] == '[';
}

static double mean_shading(const WbSite *site)
{
    double sum = 0;
    int n = 0;
    for (int month = 0; month < WB_MONTHS; month++)
        if (site->months >> month & 1) {
            sum += site->shading_loss[month];
            n++;
        }
    double mean = sum / n; /* a brief has at least one month in use */
    return (double)(gint64)(mean * 1e4 + 0.5) / 1e4;
}

gboolean wb_site_shade_by_month(WbDocument *document, gboolean by_month, GError **error)
{
    if (by_month == wb_site_is_shaded_by_month(document))
        return TRUE;
    const WbSite *site = &wb_document_get_brief(document)->site;
    g_autofree char *json =
        by_month ? twelve_json(site->shading_loss) : wb_text_plain(mean_shading(site));
    wb_document_seal(document);
    return wb_document_set_json(document, _("Change how shading is given"), "/site/shading_loss",
                                json, error);
}

gboolean wb_site_set_shore(WbDocument *document, gboolean plugged, GError **error)
{
    static const char first[] = "{\"nights_per_week\": 1, \"charger_a\": 20}";
    if (plugged == wb_site_has_shore(document))
        return TRUE;
    wb_document_seal(document);
    return wb_document_set_json(document, _("Shore power"), "/shore", plugged ? first : "null",
                                error);
}

gboolean wb_site_has_shore(WbDocument *document)
{
    g_autofree char *json = wb_document_get_json(document, "/shore");
    return json != NULL && json[0] == '{';
}

gboolean wb_site_set_driving(WbDocument *document, gboolean drives, GError **error)
{
    static const char first[] =
        "{\"alternator_a\": 90, \"alternator_v\": 12, \"hours_per_day\": 1}";
    if (drives == (wb_document_get_brief(document)->driving.alternator_a > 0))
        return TRUE;
    wb_document_seal(document);
    return wb_document_set_json(document, _("Charging while driving"), "/driving",
                                drives ? first : "null", error);
}
