/* The hourly year in words. */
#include "figures_text.h"
#include "kit_energy.h"
#include <glib/gi18n-lib.h>
#include <math.h>

char *wb_energy_date(const WbYear *year, int hour)
{
    int day = hour / WB_HOURS, of_year = day % WB_YEAR_DAYS;
    int month = wb_month_of_day(of_year);
    int of_month = of_year - wb_first_day_of_month(month) + 1;
    /* Translators: day of the month and month: "14 December". */
    if (year->n_years == 1)
        return g_strdup_printf(_("%d %s"), of_month, wb_text_month(month));
    /* Translators: day of the month, month, number of a year of made weather. */
    return g_strdup_printf(_("%d %s of year %d"), of_month, wb_text_month(month),
                           day / WB_YEAR_DAYS + 1);
}

static int dark_hours(const WbKitEnergy *self)
{
    int n = 0;
    for (int h = 0; h < WB_FORTNIGHT_HOURS; h++)
        n += self->hour[h].dark != 0;
    return n;
}

char *wb_kit_energy_sentence(const WbKitEnergy *self)
{
    int lowest = wb_kit_energy_lowest(self), dark = dark_hours(self);
    g_autofree char *date = wb_energy_date(&self->year, self->first_hour + lowest);
    g_autofree char *charge = wb_text_number(self->hour[lowest].charge * 100, 0);
    g_autoptr(GString) text = g_string_new(NULL);
    if (self->year.n_years == 1)
        g_string_append_printf(text,
                               _("In the worst fortnight the bank falls to %s %% of full, on %s."),
                               charge, date);
    else
        g_string_append_printf(
            text, _("In the worst fortnight of %d years the bank falls to %s %% of full, on %s."),
            self->year.n_years, charge, date);
    if (dark > 0)
        g_string_append_printf(text,
                               ngettext(" In %d hour of it the loads do not get all they want.",
                                        " In %d hours of it the loads do not get all they want.",
                                        (gulong)dark),
                               dark);
    return g_string_free(g_steal_pointer(&text), FALSE);
}

/* "Sun 12 Wh", one decimal where an hour has little. */
static void append_energy(GString *text, const char *between, const char *what, double wh)
{
    g_autofree char *figure = wb_text_number(wh, fabs(wh) >= 0.05 && fabs(wh) < 10 ? 1 : 0);
    g_string_append_printf(text, "%s%s %s Wh", between, what, figure);
}

char *wb_kit_energy_hour_text(const WbKitEnergy *self, int hour, const char *between)
{
    const WbEnergyHour *of = &self->hour[hour];
    int clock = hour % WB_HOURS;
    g_autofree char *date = wb_energy_date(&self->year, self->first_hour + hour);
    g_autofree char *charge = wb_text_number(of->charge * 100, 0);
    g_autofree char *floor = wb_text_number(of->floor * 100, 0);
    GString *text = g_string_new(NULL);
    /* Translators: a date and an hour of it: "14 December, 6 to 7 h". */
    g_string_append_printf(text, _("%s, %d to %d h"), date, clock, clock + 1);
    g_string_append(text, between);
    g_string_append_printf(text, _("Charge %s %%, drawn down to %s %% at most"), charge, floor);
    append_energy(text, between, _("Sun"), of->sun_wh);
    if (of->other_wh > 0)
        append_energy(text, between, _("Other sources"), of->other_wh);
    append_energy(text, between, _("Need"), of->need_wh);
    if (of->dark)
        append_energy(text, between, _("Not carried"), of->unmet_wh);
    return g_string_free(text, FALSE);
}

/* ---- results ---- */

const char *wb_energy_fact_title(WbEnergyFact fact)
{
    static const char *const titles[WB_N_FACTS] = {
        [WB_FACT_DARK] = N_("Dark hours"),      [WB_FACT_UNMET] = N_("Load not carried"),
        [WB_FACT_LOWEST] = N_("Lowest charge"), [WB_FACT_SPELL] = N_("Longest dark spell"),
        [WB_FACT_AUTONOMY] = N_("Without sun"), [WB_FACT_SPILLED] = N_("Not used"),
        [WB_FACT_CYCLES] = N_("Full cycles"),
    };
    return _(titles[fact]);
}

static char *dark_text(const WbYear *year)
{
    g_autofree char *mean = wb_text_number(year->dark_h, 1);
    g_autofree char *worst = wb_text_number(year->dark_worst_h, 0);
    if (year->dark_worst_h <= 0)
        return g_strdup(_("none: the loads are carried in every hour"));
    if (year->n_years == 1)
        return g_strdup_printf(_("%s h in the year"), worst);
    return g_strdup_printf(_("%s h a year on average, %s h in the worst of %d years (year %d)"),
                           mean, worst, year->n_years, year->dark_worst_year + 1);
}

/* Two significant figures below one percent; "less than 0.01 %" is no zero. */
static char *unmet_text(const WbYear *year)
{
    double pct = year->loss_of_load * 100;
    g_autofree char *share = wb_text_number(pct, pct < 1 ? 2 : 1);
    g_autofree char *unmet = wb_text_number(year->unmet_wh / 1000, 1);
    g_autofree char *need = wb_text_number(year->need_wh / 1000, 0);
    if (pct <= 0)
        return g_strdup_printf(_("nothing of %s kWh a year"), need);
    if (pct < 0.01)
        return g_strdup_printf(_("less than 0.01 %% of %s kWh a year"), need);
    return g_strdup_printf(_("%s %%: %s of %s kWh a year"), share, unmet, need);
}

static char *lowest_text(const WbYear *year)
{
    g_autofree char *date = wb_energy_date(year, year->worst_hour);
    g_autofree char *charge = wb_text_number(year->lowest_charge * 100, 0);
    return g_strdup_printf(_("%s %% of full, on %s"), charge, date);
}

static char *spell_text(const WbYear *year)
{
    if (year->longest_dark_h == 0)
        return g_strdup(_("none"));
    return g_strdup_printf(_("%d h at one go; an hour without load ends it"), year->longest_dark_h);
}

char *wb_kit_energy_fact(const WbKitEnergy *self, WbEnergyFact fact)
{
    const WbYear *year = &self->year;
    g_autofree char *days = wb_text_number(self->autonomy_days, 1);
    g_autofree char *spilled = wb_text_number(year->spilled_wh / 1000, 0);
    g_autofree char *cycles = wb_text_number(year->full_cycles, 0);
    switch (fact) {
    case WB_FACT_DARK:
        return dark_text(year);
    case WB_FACT_UNMET:
        return unmet_text(year);
    case WB_FACT_LOWEST:
        return lowest_text(year);
    case WB_FACT_SPELL:
        return spell_text(year);
    case WB_FACT_AUTONOMY:
        return g_strdup_printf(_("the full bank carries the loads for %s days"), days);
    case WB_FACT_SPILLED:
        return g_strdup_printf(_("%s kWh a year are neither used nor stored"), spilled);
    case WB_FACT_CYCLES:
        return g_strdup_printf(_("%s a year"), cycles);
    case WB_N_FACTS:
        break;
    }
    g_return_val_if_reached(NULL);
}
