#include "cli_brief_echo.h"
#include "cli_table.h"
#include "figures_text.h"
#include "weather_text.h"
#include "wiring_edit.h"
#include "words_circuit.h"
#include <glib/gi18n-lib.h>
#include <math.h>

#define DEGREE "\302\260"

/* As they stand in the brief. */
static const char *const rule_sets[] = {"road-vehicle", "boat", "building"};
static const char *const sizes[] = {"any", "awg", "metric"};

static void append_line(GString *out, char *sentence)
{
    wb_cli_wrap(out, "  ", sentence);
    g_free(sentence);
}

/* ---- text ---- */

static void append_sources(GString *out, const WbBrief *brief)
{
    const WbDriving *driving = &brief->driving;
    const WbShore *shore = &brief->shore;
    if (driving->alternator_a > 0) {
        g_autofree char *amps = wb_text_number(driving->alternator_a, 1);
        g_autofree char *hours = wb_text_number(driving->drive_hours_day, 2);
        append_line(out, g_strdup_printf(_("Driving: %s h a day, alternator %s A at %d V."), hours,
                                         amps, driving->alternator_v));
    } else {
        append_line(out, g_strdup(_("Driving: no alternator.")));
    }
    if (shore->charger_a > 0) {
        g_autofree char *nights = wb_text_number(shore->nights_week, 2);
        g_autofree char *amps = wb_text_number(shore->charger_a, 1);
        append_line(
            out, g_strdup_printf(_("Shore power: %s nights a week, charger %s A."), nights, amps));
    } else {
        append_line(out, g_strdup(_("Shore power: none.")));
    }
}

/* "45 °C", "40 °C (assumed)" (transfer full) */
static char *air_text(const WbBrief *brief, bool on_roof)
{
    bool assumed = isnan(on_roof ? brief->wiring.roof_c : brief->wiring.inside_c);
    g_autofree char *number = wb_text_number(wb_wiring_air_c(brief, on_roof), 1);
    return g_strdup_printf(assumed ? _("%s %sC (assumed)") : "%s %sC", number, DEGREE);
}

/* "Panel string 1.6 m, Bank to bus bars 0.5 m"; NULL: none. (transfer full) */
static char *lengths_text(const WbBriefFile *file, gboolean assumed)
{
    const WbBrief *brief = wb_brief_file_brief(file);
    g_autoptr(GString) text = g_string_new(NULL);
    for (WbCircuitKind kind = 0; kind < WB_N_CIRCUITS; kind++) {
        if (!wb_wiring_can_have(brief, kind) || wb_wiring_is_assumed(file, kind) != assumed)
            continue;
        g_autofree char *metres = wb_text_number(brief->wiring.length_m[kind], 2);
        g_string_append_printf(text, "%s%s %s m", text->len > 0 ? ", " : "", wb_words_circuit(kind),
                               metres);
    }
    return text->len > 0 ? g_strdup(text->str) : NULL;
}

/* Of the loads that give one; NULL: none does. (transfer full) */
static char *load_lengths_text(const WbBrief *brief)
{
    g_autoptr(GString) text = g_string_new(NULL);
    for (size_t i = 0; i < brief->n_loads; i++) {
        if (isnan(brief->loads[i].length_m))
            continue;
        g_autofree char *metres = wb_text_number(brief->loads[i].length_m, 2);
        g_string_append_printf(text, "%s%s %s m", text->len > 0 ? ", " : "", brief->loads[i].name,
                               metres);
    }
    return text->len > 0 ? g_strdup(text->str) : NULL;
}

static void append_lengths(GString *out, const WbBriefFile *file)
{
    const WbBrief *brief = wb_brief_file_brief(file);
    g_autofree char *measured = lengths_text(file, FALSE), *assumed = lengths_text(file, TRUE);
    if (measured != NULL)
        append_line(out, g_strdup_printf(_("Lengths, one way: %s."), measured));
    if (assumed != NULL)
        append_line(out, g_strdup_printf(_("Lengths assumed, to be measured: %s."), assumed));
    g_autofree char *loads = load_lengths_text(brief);
    if (loads != NULL)
        append_line(out, g_strdup_printf(_("Lengths to loads, one way: %s."), loads));
}

static void append_wiring(GString *out, const WbBriefFile *file)
{
    const WbBrief *brief = wb_brief_file_brief(file);
    const WbWiringWishes *wiring = &brief->wiring;
    if (!wiring->on) {
        append_line(out, g_strdup(_("Wiring: switched off; circuits are neither sized nor paid "
                                    "for.")));
        return;
    }
    g_autofree char *inside = air_text(brief, false), *roof = air_text(brief, true);
    append_line(out, g_strdup_printf(_("Wiring: sizes %s, terminals for %d %sC, air round "
                                       "conductors up to %s inside and %s on the roof, at most %d "
                                       "side by side."),
                                     wb_wiring_sizes_words(wiring->sizes), (int)wiring->terminal_c,
                                     DEGREE, inside, roof, wiring->bundled));
    append_lengths(out, file);
}

void wb_cli_echo_text(GString *out, const WbBriefFile *file)
{
    const WbBrief *brief = wb_brief_file_brief(file);
    g_autofree char *dark = wb_text_number(brief->dark_hours.value, 1);
    append_line(out, g_strdup_printf(_("Dark hours: limit %s a year%s."), dark,
                                     brief->dark_hours.on ? "" : _(" (switched off)")));
    append_line(out, g_strdup_printf(_("Rules: %s."), wb_wiring_rule_set_words(brief->rule_set)));
    append_sources(out, brief);
    append_line(out, wb_words_weather(&brief->site));
    append_wiring(out, file);
}

/* ---- JSON ---- */

static void sources_json(WbJsonOut *json, const WbBrief *brief)
{
    if (brief->driving.alternator_a > 0) {
        wb_out_object(json, "driving");
        wb_out_number(json, "alternator_a", brief->driving.alternator_a);
        wb_out_integer(json, "alternator_v", brief->driving.alternator_v);
        wb_out_number(json, "hours_per_day", brief->driving.drive_hours_day);
        wb_out_end_object(json);
    } else {
        wb_out_null(json, "driving");
    }
    if (brief->shore.charger_a > 0) {
        wb_out_object(json, "shore");
        wb_out_number(json, "nights_per_week", brief->shore.nights_week);
        wb_out_number(json, "charger_a", brief->shore.charger_a);
        wb_out_end_object(json);
    } else {
        wb_out_null(json, "shore");
    }
}

static void weather_json(WbJsonOut *json, const WbBriefFile *file)
{
    const WbSite *site = &wb_brief_file_brief(file)->site;
    wb_out_object(json, "weather");
    wb_out_integer(json, "years", site->weather_years);
    wb_out_count(json, "seed", site->weather_seed);
    wb_out_text(json, "hourly_file", wb_brief_file_hours_path(file));
    wb_out_end_object(json);
}

static void wiring_json(WbJsonOut *json, const WbBriefFile *file)
{
    const WbBrief *brief = wb_brief_file_brief(file);
    const WbWiringWishes *wiring = &brief->wiring;
    wb_out_object(json, "wiring");
    wb_out_flag(json, "on", wiring->on);
    wb_out_text(json, "sizes", sizes[wiring->sizes]);
    wb_out_integer(json, "terminals_c", wiring->terminal_c);
    wb_out_number(json, "inside_c", wb_wiring_air_c(brief, false));
    wb_out_flag(json, "inside_assumed", isnan(wiring->inside_c));
    wb_out_number(json, "roof_c", wb_wiring_air_c(brief, true));
    wb_out_flag(json, "roof_assumed", isnan(wiring->roof_c));
    wb_out_integer(json, "bundled", wiring->bundled);
    wb_out_object(json, "lengths_m");
    for (WbCircuitKind kind = 0; kind < WB_N_CIRCUITS; kind++)
        wb_out_number(json, wb_circuit_name(kind), wiring->length_m[kind]);
    wb_out_end_object(json);
    wb_out_array(json, "lengths_assumed");
    for (WbCircuitKind kind = 0; kind < WB_N_CIRCUITS; kind++)
        if (wb_wiring_is_assumed(file, kind))
            wb_out_text(json, NULL, wb_circuit_name(kind));
    wb_out_end_array(json);
    wb_out_array(json, "load_lengths_m");
    for (size_t i = 0; i < brief->n_loads; i++)
        wb_out_number(json, NULL, brief->loads[i].length_m);
    wb_out_end_array(json);
    wb_out_end_object(json);
}

void wb_cli_echo_json(WbJsonOut *json, const WbBriefFile *file)
{
    const WbBrief *brief = wb_brief_file_brief(file);
    wb_out_text(json, "rule_set", rule_sets[brief->rule_set]);
    wb_out_object(json, "dark_hours");
    wb_out_number(json, "value", brief->dark_hours.value);
    wb_out_flag(json, "on", brief->dark_hours.on);
    wb_out_end_object(json);
    sources_json(json, brief);
    weather_json(json, file);
    wiring_json(json, file);
}
