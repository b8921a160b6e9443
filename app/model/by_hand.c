/* Cost: a few microseconds; nothing here looks at an hour. */
#include "by_hand.h"
#include "daily_balance.h"
#include "figures_text.h"
#include "kit_year.h"
#include <glib/gi18n-lib.h>
#include <math.h>

/* Heat, ageing and unlike panels: what a handbook lets one count on of a string's rated current.
 * Common practice. */
#define DERATING 0.9
/* Charge, as a share of full; a bank that stays above it has seen no run of dull days. */
#define NOTICEABLE_FALL 0.9

/* ---- what goes in ---- */

/* Over all months in use: the sheet knows one figure. Idle draw is left out, as in the handbook. */
static double inverter_efficiency(const WbProblem *problem, const WbKit *kit)
{
    const WbNeed *need = &problem->inverters[kit->inverter].need;
    double ac_wh = 0, loss_wh = 0;
    for (int m = 0; m < WB_MONTHS; m++)
        if (problem->brief->site.months >> m & 1) {
            ac_wh += problem->loads.ac_day_wh[m];
            loss_wh += need->conversion_loss_wh[m];
        }
    return ac_wh > 0 ? ac_wh / (ac_wh + loss_wh) : 1;
}

void wb_by_hand_input(const WbProblem *problem, const WbVerdict *verdict, WbWorksheetInput *input)
{
    const WbKit *kit = &verdict->kit;
    const WbStorageChoice *storage = &problem->storage[kit->storage];
    WbArrayLaw law = wb_kit_array_law(problem, kit, &verdict->bank);
    gboolean ac = problem->inverters[kit->inverter].inverter != NULL;
    *input = (WbWorksheetInput){
        .bank_v = verdict->bank.nominal_v,
        .inverter_efficiency = inverter_efficiency(problem, kit),
        .wire_efficiency = WB_WORKSHEET_WIRE_EFFICIENCY,
        .charge_efficiency =
            storage->chemistry->charge_efficiency * storage->chemistry->discharge_efficiency,
        .string_a = law.peak_w / kit->n_parallel / verdict->bank.nominal_v,
        .derating = DERATING,
        .storage_days = problem->brief->autonomy_target_days,
        .depth = wb_depth_limit(storage->storage, storage->chemistry),
        .battery_ah = storage->storage->capacity_ah,
    };
    for (int m = 0; m < WB_MONTHS; m++) {
        input->in_use[m] = problem->brief->site.months >> m & 1;
        input->dc_wh[m] = problem->loads.dc_day_wh[m];
        input->ac_wh[m] = ac ? problem->loads.ac_day_wh[m] : 0;
        input->peak_sun_h[m] = problem->plane.plane_kwh_m2_day[m];
        input->temperature_factor[m] = verdict->month[m].temperature_factor;
    }
}

/* ---- lines ---- */

static WbByHandLine *add(WbByHand *self, const char *key, const char *label, const char *formula,
                         char *numbers, double figure, int decimals, const char *unit)
{
    WbByHandLine *line = &self->line[self->n++];
    *line = (WbByHandLine){.key = key,
                           .label = g_strdup(label),
                           .formula = g_strdup(formula),
                           .numbers = numbers,
                           .value = wb_text_number(figure, decimals),
                           .unit = g_strdup(unit),
                           .source = g_strdup(""),
                           .figure = figure};
    return line;
}

static void set_source(WbByHandLine *line, const char *source)
{
    g_free(line->source);
    line->source = g_strdup(source);
}

/* "792 / 12.8" and longer: figures in order between the signs. */
static char *chain(const char *const *signs, const double *figures, const int *decimals, int n)
{
    GString *text = g_string_new(NULL);
    for (int i = 0; i < n; i++) {
        g_autofree char *figure = wb_text_number(figures[i], decimals[i]);
        g_string_append(text, figure);
        g_string_append(text, signs[i]);
    }
    return g_string_free(text, FALSE);
}

static void add_need(WbByHand *self, int m)
{
    const WbWorksheetInput *in = &self->input;
    g_autofree char *of_month = g_strdup_printf(_("a day in %s, from the loads"), wb_text_month(m));
    double bank_wh = self->sheet.load_ah[m] * in->bank_v;
    add(self, "dc_wh", _("DC loads"), of_month, g_strdup(""), in->dc_wh[m], 0, "Wh");
    add(self, "ac_wh", _("AC loads"), of_month, g_strdup(""), in->ac_wh[m], 0, "Wh");
    set_source(add(self, "bank_wh", _("What the bank gives"), _("DC + AC / inverter’s efficiency"),
                   chain((const char *const[]){" + ", " / ", ""},
                         (const double[]){in->dc_wh[m], in->ac_wh[m], in->inverter_efficiency},
                         (const int[]){0, 0, 3}, 3),
                   bank_wh, 0, "Wh"),
               _("Without the inverter’s idle draw"));
    add(self, "load_ah", _("In amp-hours"), _("Wh / bank’s volts"),
        chain((const char *const[]){" / ", ""}, (const double[]){bank_wh, in->bank_v},
              (const int[]){0, 1}, 2),
        self->sheet.load_ah[m], 1, "Ah");
    set_source(add(self, "corrected_ah", _("What has to be charged"),
                   _("Ah / (wires × battery, in and out)"),
                   chain((const char *const[]){" / (", " \303\227 ", ")"},
                         (const double[]){self->sheet.load_ah[m], in->wire_efficiency,
                                          in->charge_efficiency},
                         (const int[]){1, 2, 3}, 3),
                   self->sheet.corrected_ah[m], 1, "Ah"),
               _("Wires 0.98: common practice; battery: its chemistry"));
}

/* No sun: no figure stands there, and nothing follows from it. */
static void set_endless(WbByHandLine *line, const char *value)
{
    if (isfinite(line->figure))
        return;
    g_free(line->value);
    g_free(line->unit);
    line->value = g_strdup(value);
    line->unit = g_strdup("");
}

static void add_array(WbByHand *self, int m)
{
    const WbWorksheetInput *in = &self->input;
    const WbWorksheet *sheet = &self->sheet;
    g_autofree char *of_month =
        g_strdup_printf(_("mean day in %s on the panels, dust and shade off"), wb_text_month(m));
    add(self, "peak_sun_h", _("Hours of full sun"), of_month, g_strdup(""), in->peak_sun_h[m], 2,
        "h");
    set_endless(add(self, "design_a", _("Charging current wanted"), _("Ah / hours of full sun"),
                    chain((const char *const[]){" / ", ""},
                          (const double[]){sheet->corrected_ah[m], in->peak_sun_h[m]},
                          (const int[]){1, 2}, 2),
                    sheet->design_a[m], 1, "A"),
                _("no current is enough"));
    set_source(add(self, "string_a", _("One string gives"),
                   _("A into the bank in full sun × what to count on"),
                   chain((const char *const[]){" \303\227 ", ""},
                         (const double[]){in->string_a, in->derating}, (const int[]){1, 2}, 2),
                   in->string_a * in->derating, 1, "A"),
               _("0.9 for heat and age: common practice"));
    gboolean sun = isfinite(sheet->strings_exact);
    char *quotient = sun ? chain((const char *const[]){" / ", ""},
                                 (const double[]){sheet->design_a[m], in->string_a * in->derating},
                                 (const int[]){1, 1}, 2)
                         : g_strdup("");
    WbByHandLine *strings =
        add(self, "strings", _("Strings side by side"), _("current wanted / one string"), quotient,
            sheet->strings_exact, 2, "");
    set_endless(strings, _("no number is enough"));
    if (sun)
        set_source(strings, _("Round up"));
}

/* " (T = 1.00, raised from 0.86)"; empty where T was not moved. */
static char *moved_text(double sun_h, double counted_h)
{
    g_autofree char *from = wb_text_number(sun_h, 2);
    g_autofree char *to = wb_text_number(counted_h, 2);
    if (g_str_equal(from, to))
        return g_strdup("");
    return g_strdup_printf(sun_h < counted_h ? _(" (T = %s, raised from %s)")
                                             : _(" (T = %s, lowered from %s)"),
                           to, from);
}

/* What a handbook would advise for power 99 % and 95 % of the time, beside what is wished for. */
static void add_advised_days(WbByHand *self)
{
    double sun_h = self->input.peak_sun_h[self->sheet.design_month];
    double counted_h = CLAMP(sun_h, 1, 7); /* as daily_balance.h keeps it */
    g_autofree char *h = wb_text_number(counted_h, 2);
    g_autofree char *moved = moved_text(sun_h, counted_h);
    add(self, "storage_days_99", _("Days for power 99 % of the time"),
        _("24.0 − 4.73 T + 0.3 T², T: hours of full sun"),
        g_strdup_printf("24.0 − 4.73 × %s + 0.3 × %s²%s", h, h, moved), wb_autonomy_days_99(sun_h),
        1, _("days"));
    set_source(add(self, "storage_days_95", _("Days for power 95 % of the time"),
                   _("9.43 − 1.9 T + 0.11 T², T: hours of full sun"),
                   g_strdup_printf("9.43 − 1.9 × %s + 0.11 × %s²%s", h, h, moved),
                   wb_autonomy_days_95(sun_h), 1, _("days")),
               _("Wenham et al., Applied Photovoltaics, from memory; T within 1 to 7"));
}

static void add_bank(WbByHand *self, int m)
{
    const WbWorksheetInput *in = &self->input;
    const WbWorksheet *sheet = &self->sheet;
    g_autofree char *asked = g_strdup_printf(
        _("Ah to charge in %s × days / (depth × left in the cold)"), wb_text_month(m));
    add(self, "storage_days", _("Days without sun"), _("as wished for"), g_strdup(""),
        in->storage_days, 1, _("days"));
    add_advised_days(self);
    WbByHandLine *required =
        add(self, "required_ah", _("Bank wanted"), asked,
            chain((const char *const[]){" \303\227 ", " / (", " \303\227 ", ")"},
                  (const double[]){sheet->corrected_ah[m], in->storage_days, in->depth,
                                   in->temperature_factor[m]},
                  (const int[]){1, 1, 2, 3}, 4),
            sheet->required_ah[m], 0, "Ah");
    if (m != sheet->design_month) {
        g_autofree char *again =
            g_strdup_printf(_("Its Ah as in lines 1 to 5, for %s"), wb_text_month(m));
        set_source(required, again);
    }
    set_source(
        add(self, "batteries_parallel", _("Batteries side by side"), _("bank wanted / one battery"),
            chain((const char *const[]){" / ", ""},
                  (const double[]){sheet->required_ah[m], in->battery_ah}, (const int[]){0, 0}, 2),
            sheet->batteries_parallel_exact, 2, ""),
        _("Round up"));
}

/* ---- beside the hourly year ---- */

static char *batteries_text(int n)
{
    g_autofree char *figure = wb_text_number(n, 0);
    return g_strdup_printf(
        ngettext("%s battery side by side", "%s batteries side by side", (gulong)n), figure);
}

static char *no_sun_text(const WbByHand *self, const WbKit *kit, const char *batteries)
{
    /* Translators: month; "2 batteries side by side"; batteries of the kit. */
    return g_strdup_printf(_("In %s there is no sun: no number of panels does it. The "
                             "bank asks for %s; this kit has %d."),
                           wb_text_month(self->sheet.design_month), batteries, kit->bank_parallel);
}

static char *counts_text(const WbByHand *self, const WbKit *kit)
{
    const char *month = wb_text_month(self->sheet.design_month);
    int n_strings = wb_worksheet_whole(self->sheet.strings_exact);
    g_autofree char *figure = wb_text_number(n_strings, 0);
    g_autofree char *batteries =
        batteries_text(wb_worksheet_whole(self->sheet.batteries_parallel_exact));
    if (n_strings < 0)
        return no_sun_text(self, kit, batteries);
    g_autofree char *strings =
        g_strdup_printf(ngettext("%s string", "%s strings", (gulong)n_strings), figure);
    /* Translators: month; "2 strings"; "1 battery side by side". */
    if (self->agrees)
        return g_strdup_printf(_("By hand %s decides and asks for %s and %s, as this kit has."),
                               month, strings, batteries);
    /* Translators: the same; strings and batteries of the kit. */
    return g_strdup_printf(_("By hand %s decides and asks for %s and %s; this kit has %d and %d."),
                           month, strings, batteries, kit->n_parallel, kit->bank_parallel);
}

static char *other_text(const WbByHand *self, const WbVerdict *verdict)
{
    const WbYearMonth *month = &verdict->year.month[self->sheet.design_month];
    double other_wh = month->alternator_wh + month->shore_wh;
    if (other_wh < 0.5)
        return NULL;
    g_autofree char *wh = wb_text_number(other_wh, 0);
    return g_strdup_printf(_("The sheet counts on the sun alone. Hour by hour, other sources "
                             "bring %s Wh a day besides."),
                           wh);
}

static char *spell_text(const WbByHand *self, const WbVerdict *verdict)
{
    const char *month = wb_text_month(self->sheet.design_month);
    g_autofree char *dark = wb_text_number(verdict->year.dark_h, 1);
    g_autofree char *lowest = wb_text_number(verdict->year.lowest_charge * 100, 0);
    if (verdict->year.lowest_charge >= NOTICEABLE_FALL)
        return g_strdup_printf(_("The sheet takes every day of %s as the mean day. Hour by hour "
                                 "the bank falls to %s %% at the lowest, and %s hours a year stay "
                                 "dark."),
                               month, lowest, dark);
    return g_strdup_printf(_("The sheet takes every day of %s as the mean day. Hour by hour dull "
                             "days come in a row: the bank falls to %s %%, and %s hours a year "
                             "stay dark."),
                           month, lowest, dark);
}

static char *days_text(const WbByHand *self, const WbVerdict *verdict)
{
    double sun_h = self->input.peak_sun_h[self->sheet.design_month];
    g_autofree char *advised = wb_text_number(wb_autonomy_days_99(sun_h), 1);
    g_autofree char *days = wb_text_number(verdict->figures.autonomy_days, 1);
    double carried = 100 - verdict->year.loss_of_load * 100;
    g_autofree char *share = wb_text_number(carried, carried > 99.99 ? 4 : 2);
    return g_strdup_printf(_("For power 99 %% of the time the handbook advises %s days of storage. "
                             "This kit's full bank carries the loads for %s days, and hour by "
                             "hour %s %% of the load is carried."),
                           advised, days, share);
}

static char *own_draw_text(const WbByHand *self, const WbProblem *problem, const WbVerdict *verdict)
{
    int m = self->sheet.design_month;
    const WbNeed *need = &problem->inverters[verdict->kit.inverter].need;
    g_autofree char *wh = wb_text_number(need->idle_wh[m] + verdict->year.month[m].own_draw_wh, 0);
    if (verdict->year.month[m].clipped_wh < 0.5)
        return g_strdup_printf(_("The sheet leaves out what the parts draw themselves, %s Wh a "
                                 "day; it takes 10 %% off for heat where the hours follow the "
                                 "weather."),
                               wh);
    g_autofree char *clipped = wb_text_number(verdict->year.month[m].clipped_wh, 0);
    return g_strdup_printf(_("The sheet leaves out what the parts draw themselves, %s Wh a day, "
                             "and what the controller cuts off, %s Wh a day; it takes 10 %% off "
                             "for heat where the hours follow the weather."),
                           wh, clipped);
}

static void explain(WbByHand *self, const WbProblem *problem, const WbVerdict *verdict)
{
    g_autoptr(GPtrArray) all = g_ptr_array_new();
    const WbKit *kit = &verdict->kit;
    self->agrees = wb_worksheet_whole(self->sheet.strings_exact) == kit->n_parallel &&
                   wb_worksheet_whole(self->sheet.batteries_parallel_exact) == kit->bank_parallel;
    char *other = other_text(self, verdict);
    g_ptr_array_add(all, counts_text(self, kit));
    if (other)
        g_ptr_array_add(all, other);
    g_ptr_array_add(all, spell_text(self, verdict));
    g_ptr_array_add(all, days_text(self, verdict));
    g_ptr_array_add(all, own_draw_text(self, problem, verdict));
    g_ptr_array_add(all, NULL);
    self->differences = (char **)g_ptr_array_steal(all, NULL);
}

WbByHand *wb_by_hand_new(const WbProblem *problem, const WbVerdict *verdict)
{
    enum { MOST_LINES = 16 };
    g_autoptr(WbByHand) self = g_new0(WbByHand, 1);
    wb_by_hand_input(problem, verdict, &self->input);
    if (wb_worksheet(&self->input, &self->sheet) != WB_OK)
        return NULL;
    self->line = g_new0(WbByHandLine, MOST_LINES);
    add_need(self, self->sheet.design_month);
    add_array(self, self->sheet.design_month);
    add_bank(self, self->sheet.storage_month);
    explain(self, problem, verdict);
    return g_steal_pointer(&self);
}

void wb_by_hand_free(WbByHand *self)
{
    for (gsize i = 0; i < self->n; i++) {
        WbByHandLine *line = &self->line[i];
        g_free(line->label);
        g_free(line->formula);
        g_free(line->numbers);
        g_free(line->value);
        g_free(line->unit);
        g_free(line->source);
    }
    g_free(self->line);
    g_strfreev(self->differences);
    g_free(self);
}
