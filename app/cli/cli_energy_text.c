#include "cli_energy.h"

#include "cli_table.h"
#include "cli_year.h"
#include "figures_text.h"
#include "kit_energy.h"
#include "weather_text.h"
#include "words.h"
#include <glib/gi18n-lib.h>
#include <math.h>

/* ---- what was reckoned with ---- */

static char *direction_text(const WbSite *site)
{
    if (isnan(site->azimuth_deg))
        return g_strdup(_("turned any way"));
    return g_strdup_printf(_("turned to %g degrees from north"), site->azimuth_deg);
}

static void append_site(GString *out, const WbSite *site)
{
    g_autofree char *direction = direction_text(site);
    g_autofree char *months = wb_text_months(site->months);
    g_autofree char *place = g_strdup_printf(
        /* Translators: place, latitude, longitude, tilt, direction of the panels, months. */
        _("%s, latitude %.2f, longitude %.2f; panels tilted %g degrees, %s; in use: %s."),
        site->place.name, site->place.latitude_deg, site->place.longitude_deg, site->tilt_deg,
        direction, months);
    g_autofree char *weather = wb_words_weather(site);
    wb_cli_wrap(out, "", place);
    wb_cli_wrap(out, "", weather);
    wb_cli_wrap(out, "", wb_words_weather_clock(site->hours != NULL));
}

static void append_head(GString *out, const WbProblem *problem, const WbVerdict *verdict)
{
    char id[WB_KIT_ID];
    wb_kit_id(problem, &verdict->kit, id);
    g_autofree char *kit = wb_words_kit(problem, &verdict->kit);
    wb_cli_wrap(out, "", kit);
    wb_cli_wrap(out, "", id);
    if (!verdict->feasible)
        wb_cli_wrap(out, "", _("This kit does not work; wattberth explain says why."));
    g_string_append_printf(out, "\n%s\n", _("Site and weather"));
    append_site(out, &problem->brief->site);
}

/* ---- months ---- */

static void add_month(WbTable *table, const WbProblem *problem, const WbYear *year, int m)
{
    const WbYearMonth *of = &year->month[m];
    bool used = problem->brief->site.months >> m & 1u;
    const double asked = used ? 1 : NAN; /* no need and no dark hours out of use */
    wb_table_cell(table, g_strdup(wb_text_month(m)));
    wb_table_cell(table, wb_text_number(problem->plane.plane_kwh_m2_day[m], 2));
    wb_table_cell(table, wb_text_number(of->array_wh, 0));
    wb_table_cell(table, wb_text_number(of->clipped_wh, 0));
    wb_table_cell(table, wb_text_number(of->alternator_wh, 0));
    wb_table_cell(table, wb_text_number(of->shore_wh, 0));
    wb_table_cell(table, wb_text_number(of->need_wh * asked, 0));
    wb_table_cell(table, wb_text_number(of->own_draw_wh, 0));
    wb_table_cell(table, wb_text_number(of->unmet_wh * asked, 1));
    wb_table_cell(table, wb_text_number(of->spilled_wh * asked, 0));
    wb_table_cell(table, wb_text_number(of->lowest_charge * 100 * asked, 0));
    wb_table_cell(table, wb_text_number(of->dark_h * asked, 1));
}

static void append_months(GString *out, const WbProblem *problem, const WbYear *year)
{
    g_autoptr(WbTable) table = wb_table_new(_("Month|>Plane|>Array|>Cut off|>Altern.|>Shore|>Need|"
                                              ">Own draw|>Unmet|>Spilled|>Lowest|>Dark h"));
    for (int m = 0; m < WB_MONTHS; m++)
        add_month(table, problem, year, m);
    g_string_append_printf(out, "\n%s\n", _("Month by month, mean of all years"));
    wb_table_append(table, out);
    wb_cli_wrap(out, "",
                _("Plane: sun on the panels, kWh/m2 a day. Array to spilled: Wh a day at the "
                  "bank's terminals; cut off by the controller, own draw of controllers and "
                  "heater; spilled: neither used nor stored. Lowest: charge in % of full, in any "
                  "year. Dark h: hours a month without full power. A dash: not in use."));
}

/* ---- the year ---- */

static void append_year(GString *out, const WbVerdict *verdict)
{
    /* Of the window's record only what the facts look at. */
    g_autoptr(WbKitEnergy) energy = g_new0(WbKitEnergy, 1);
    energy->year = verdict->year;
    energy->autonomy_days = verdict->figures.autonomy_days;
    g_autoptr(WbTable) table = wb_table_new(_("Figure|In the months in use"));
    for (int f = 0; f < WB_N_FACTS; f++) {
        wb_table_cell(table, g_strdup(wb_energy_fact_title((WbEnergyFact)f)));
        wb_table_cell(table, wb_kit_energy_fact(energy, (WbEnergyFact)f));
    }
    g_string_append_printf(out, "\n%s\n", _("The year hour by hour"));
    wb_table_append(table, out);
    wb_cli_wrap(out, "",
                _("Full cycles count the whole year. Load not carried is the loss of load: the "
                  "share of the need that is not met."));
}

/* ---- by hand ---- */

static void append_line(GString *out, const WbByHandLine *line, gsize number)
{
    g_autofree char *first = g_strdup_printf("%3" G_GSIZE_FORMAT ". ", number);
    g_autofree char *value = g_strconcat(line->value, line->unit[0] ? " " : "", line->unit, NULL);
    g_autofree char *sentence =
        line->numbers[0] != '\0' ? g_strconcat(line->label, ": ", line->formula, " = ",
                                               line->numbers, " = ", value, NULL)
                                 : g_strconcat(line->label, ", ", line->formula, ": ", value, NULL);
    wb_cli_wrap(out, first, sentence);
    if (line->source[0] == '\0')
        return;
    g_autofree char *source = g_strdup_printf("[%s]", line->source);
    wb_cli_wrap(out, "     ", source);
}

static void append_by_hand(GString *out, const WbByHand *hand)
{
    g_string_append_printf(out, "\n%s\n", _("By hand, from the worst month"));
    if (hand == NULL) {
        wb_cli_wrap(out, "", _("The worksheet cannot be filled: this array gives no current."));
        return;
    }
    for (gsize i = 0; i < hand->n; i++)
        append_line(out, &hand->line[i], i + 1);
    g_string_append_printf(out, "\n%s\n",
                           hand->agrees ? _("Beside the hourly year")
                                        : _("Why the hourly year answers otherwise"));
    for (char **sentence = hand->differences; *sentence != NULL; sentence++)
        wb_cli_wrap(out, "  - ", *sentence);
}

/* ---- cautions that belong to energy ---- */

static void append_cautions(GString *out, const WbProblem *problem, const WbVerdict *verdict)
{
    static const WbRule rules[] = {WB_RULE_COLD_CHARGE, WB_RULE_FREEZING, WB_RULE_VENTILATION};
    g_string_append_printf(out, "\n%s\n", _("Cautions"));
    wb_cli_wrap(
        out, "  - ",
        _("These are figures to plan with: parts, weather and habits differ, so do not hang "
          "anything on them that keeps someone alive."));
    for (gsize i = 0; i < G_N_ELEMENTS(rules); i++) {
        g_autofree char *caution = wb_words_safety(problem, verdict, &verdict->finding[rules[i]]);
        if (caution != NULL)
            wb_cli_wrap(out, "  - ", caution);
    }
}

char *wb_cli_energy_text(const WbProblem *problem, const WbVerdict *verdict, const WbByHand *hand)
{
    GString *out = g_string_new(NULL);
    append_head(out, problem, verdict);
    append_months(out, problem, &verdict->year);
    append_year(out, verdict);
    append_by_hand(out, hand);
    append_cautions(out, problem, verdict);
    return g_string_free(out, FALSE);
}
