#include "words_slots.h"

#include "figures_text.h"
#include "rules.h"
#include "words.h"
#include <glib/gi18n-lib.h>
#include <string.h>

const WbPanel *wb_told_panel(const WbTold *told)
{
    return told->problem->panels[told->verdict->kit.panel].panel;
}

const WbController *wb_told_controller(const WbTold *told)
{
    return told->problem->controllers[told->verdict->kit.controller].controller;
}

const WbStorage *wb_told_storage(const WbTold *told)
{
    return told->problem->storage[told->verdict->kit.storage].storage;
}

const WbChemistry *wb_told_chemistry(const WbTold *told)
{
    return told->problem->storage[told->verdict->kit.storage].chemistry;
}

const WbInverter *wb_told_inverter(const WbTold *told)
{
    return told->problem->inverters[told->verdict->kit.inverter].inverter;
}

const WbDcdc *wb_told_dcdc(const WbTold *told)
{
    return told->problem->dcdc[told->verdict->kit.dcdc].dcdc;
}

#define MOST_DECIMALS 6

/* As many decimals as it takes to tell the two numbers apart: 50.04 V against 50 V. */
static int telling_decimals(const WbTold *told)
{
    double scale = pow(10, told->decimals);
    int decimals = told->decimals;
    while (decimals < MOST_DECIMALS && told->finding->value != told->finding->limit &&
           round(told->finding->value * scale) == round(told->finding->limit * scale)) {
        decimals++;
        scale *= 10;
    }
    return decimals;
}

static char *value(const WbTold *told)
{
    return wb_text_number(told->finding->value, telling_decimals(told));
}

/* Limits are ratings, most of them whole: 50 V, not 50.0 V. */
static char *limit(const WbTold *told)
{
    double number = told->finding->limit;
    return wb_text_number(number, number == floor(number) ? 0 : telling_decimals(told));
}

static char *money(const WbTold *told, double minor)
{
    return wb_words_money(llround(minor), told->problem->brief->currency);
}

static char *value_money(const WbTold *told)
{
    return money(told, told->finding->value);
}

static char *limit_money(const WbTold *told)
{
    return money(told, told->finding->limit);
}

static char *month(const WbTold *told)
{
    int m = told->finding->month;
    return g_strdup(m >= 0 ? wb_text_month(m) : _("every month"));
}

/* Subject and verb of what the string does. */
static char *string_reaches(const WbTold *told)
{
    int n = told->verdict->kit.n_series;
    if (n == 1)
        return g_strdup(_("One of these alone reaches"));
    if (n == 2)
        return g_strdup(_("Two of these in series reach"));
    return g_strdup_printf(
        ngettext("%d of these in series reaches", "%d of these in series reach", (unsigned long)n),
        n);
}

static char *panel_count(const WbTold *told)
{
    int n = told->verdict->kit.n_series * told->verdict->kit.n_parallel;
    return g_strdup_printf(ngettext("%d panel", "%d panels", (unsigned long)n), n);
}

static char *string_count(const WbTold *told)
{
    int n = told->verdict->kit.n_parallel;
    return g_strdup_printf(ngettext("%d string", "%d strings", (unsigned long)n), n);
}

static char *controller_count(const WbTold *told)
{
    int n = told->verdict->kit.n_controllers;
    return g_strdup_printf(ngettext("%d controller", "%d controllers", (unsigned long)n), n);
}

/* What is left over when the strings share the controllers. */
static char *strings_shared(const WbTold *told)
{
    const WbKit *kit = &told->verdict->kit;
    if (kit->n_controllers == 1 && kit->n_parallel == 1)
        return g_strdup(_("The one string goes to the one controller"));
    if (kit->n_controllers == 1)
        return g_strdup_printf(_("All %d strings go to the one controller"), kit->n_parallel);
    return g_strdup_printf(_("%d strings share %d controllers evenly"), kit->n_parallel,
                           kit->n_controllers);
}

/* A string by itself has no others that could push current into it. */
static char *others_push(const WbTold *told)
{
    if (told->verdict->kit.n_parallel <= told->verdict->kit.n_controllers)
        return g_strdup(_("No other string is joined to this one, so a faulty one gets 0 A from "
                          "others"));
    g_autofree char *amps = value(told);
    return g_strdup_printf(_("A faulty string gets at most %s A from the others"), amps);
}

/* The all-year design cold, and where it comes from. */
static char *cold_night(const WbTold *told)
{
    g_autofree char *cold = value(told);
    if (!isnan(told->problem->brief->site.design_cold_c))
        return g_strdup_printf(_("the coldest night of the year (%s °C)"), cold);
    return g_strdup_printf(_("the coldest night of the year (%s °C, our assumption: the coldest "
                             "month's mean low less 15 K)"),
                           cold);
}

static char *panel(const WbTold *told)
{
    return g_strdup(wb_told_panel(told)->part.model);
}

static char *controller(const WbTold *told)
{
    return g_strdup(wb_told_controller(told)->part.model);
}

static char *storage(const WbTold *told)
{
    return g_strdup(wb_told_storage(told)->part.model);
}

static char *chemistry(const WbTold *told)
{
    return g_strdup(wb_told_chemistry(told)->name);
}

static char *inverter(const WbTold *told)
{
    const WbInverter *part = wb_told_inverter(told);
    return g_strdup(part != NULL ? part->part.model : _("no inverter"));
}

/* "12 or 24" */
static char *voltages(bool v12, bool v24, bool v48)
{
    const char *texts[4] = {0};
    int n = 0;
    if (v12)
        texts[n++] = "12";
    if (v24)
        texts[n++] = "24";
    if (v48)
        texts[n++] = "48";
    if (n == 0)
        return g_strdup(_("no"));
    g_autofree char *all = g_strjoinv(", ", (char **)texts);
    char *comma = strrchr(all, ',');
    if (comma == NULL)
        return g_steal_pointer(&all);
    *comma = '\0';
    return g_strdup_printf(_("%s or %s"), all, comma + 2);
}

static char *controller_v(const WbTold *told)
{
    const WbController *part = wb_told_controller(told);
    return voltages(part->bus_12v, part->bus_24v, part->bus_48v);
}

static char *allowed_v(const WbTold *told)
{
    uint32_t bits = told->problem->brief->system_v;
    return voltages(bits & 1u, bits & 2u, bits & 4u);
}

static char *alternator(const WbTold *told)
{
    const WbDriving *driving = &told->problem->brief->driving;
    if (driving->alternator_a <= 0)
        return g_strdup(_("no alternator (0 V)"));
    g_autofree char *amps = wb_text_number(driving->alternator_a, 0);
    g_autofree char *hours = wb_text_number(driving->drive_hours_day, 1);
    return g_strdup_printf(_("a %d V alternator of %s A, driven %s hours a day"),
                           driving->alternator_v, amps, hours);
}

static char *waveform(const WbTold *told)
{
    static const char *const names[] = {N_("pure sine"), N_("modified sine"), N_("square wave")};
    const WbInverter *part = wb_told_inverter(told);
    return g_strdup(part != NULL ? _(names[part->waveform]) : _("no wave"));
}

static char *peak_ac_w(const WbTold *told)
{
    return wb_text_number(told->problem->loads.peak_ac_w, 0);
}

static char *bay(const WbTold *told)
{
    const WbBay *given = &told->problem->brief->bay;
    return g_strdup_printf("%" G_GINT64_FORMAT " x %" G_GINT64_FORMAT " x %" G_GINT64_FORMAT " mm",
                           given->length_mm, given->width_mm, given->height_mm);
}

static void add_unpriced(GString *names, const WbPart *part, const WbSourced *sourced, int count)
{
    if (sourced->priced || count <= sourced->owned)
        return;
    g_string_append_printf(names, "%s%s %s", names->len > 0 ? ", " : "", part->maker, part->model);
}

/* The parts of the kit that would have to be bought and cannot be. */
static char *unpriced(const WbTold *told)
{
    const WbProblem *p = told->problem;
    const WbKit *kit = &told->verdict->kit;
    GString *names = g_string_new(NULL);
    add_unpriced(names, &wb_told_panel(told)->part, &p->panels[kit->panel].sourced,
                 kit->n_series * kit->n_parallel);
    add_unpriced(names, &wb_told_controller(told)->part, &p->controllers[kit->controller].sourced,
                 kit->n_controllers);
    add_unpriced(names, &wb_told_storage(told)->part, &p->storage[kit->storage].sourced,
                 kit->bank_series * kit->bank_parallel);
    if (kit->inverter > 0)
        add_unpriced(names, &wb_told_inverter(told)->part, &p->inverters[kit->inverter].sourced, 1);
    if (kit->dcdc > 0)
        add_unpriced(names, &wb_told_dcdc(told)->part, &p->dcdc[kit->dcdc].sourced, 1);
    return g_string_free(names, FALSE);
}

/* The DC load whose voltage is told. */
static char *load(const WbTold *told)
{
    const WbLoad *decides = wb_load_of_voltage(told->problem->brief, &told->verdict->bank);
    return g_strdup(decides != NULL ? decides->name : _("any"));
}

/* As whole as it is: 12 V, but 13.8 V. */
static char *load_v(const WbTold *told)
{
    double volts = told->finding->value;
    return wb_text_number(volts, volts == floor(volts) ? 0 : telling_decimals(told));
}

/* A name and its volts; none: words that read on. */
static char *odd_load(const WbTold *told)
{
    const WbLoad *decides = wb_load_of_converter(told->problem->brief);
    return g_strdup(decides != NULL ? decides->name : _("any"));
}

static char *odd_load_v(const WbTold *told)
{
    const WbLoad *decides = wb_load_of_converter(told->problem->brief);
    double volts = decides != NULL ? decides->volts : 0;
    return wb_text_number(volts, volts == floor(volts) ? 0 : 1);
}

static char *starting_load(const WbTold *told)
{
    const WbLoad *decides = wb_load_of_start(told->problem->brief);
    return g_strdup(decides != NULL ? decides->name : _("any"));
}

/* Of what the panels could give over the months in use. */
static char *clipped_pct(const WbTold *told)
{
    double clipped_wh = 0, kept_wh = 0;
    for (int m = 0; m < WB_MONTHS; m++) {
        if (!(told->problem->brief->site.months >> m & 1))
            continue;
        clipped_wh += told->verdict->month[m].clipped_wh;
        kept_wh += told->verdict->month[m].array_wh;
    }
    return wb_text_number(clipped_wh > 0 ? 100 * clipped_wh / (clipped_wh + fmax(0, kept_wh)) : 0,
                          1);
}

static double air_m3_h(const WbTold *told, bool boost)
{
    const WbKit *kit = &told->verdict->kit;
    return wb_bank_air_m3_h(wb_told_storage(told), wb_told_chemistry(told), kit->bank_series,
                            kit->bank_parallel, boost);
}

static char *float_air(const WbTold *told)
{
    return wb_text_number(air_m3_h(told, false), 2);
}

static char *vent_cm2(const WbTold *told)
{
    return wb_text_number(wb_vent_cm2(air_m3_h(told, true)), 0);
}

static const struct {
    const char *name;
    char *(*text)(const WbTold *told);
} slots[] = {
    {"value", value},
    {"limit", limit},
    {"value-money", value_money},
    {"limit-money", limit_money},
    {"month", month},
    {"string-reaches", string_reaches},
    {"panels", panel_count},
    {"strings", string_count},
    {"controllers", controller_count},
    {"strings-shared", strings_shared},
    {"others-push", others_push},
    {"cold-night", cold_night},
    {"panel", panel},
    {"controller", controller},
    {"storage", storage},
    {"chemistry", chemistry},
    {"inverter", inverter},
    {"controller-v", controller_v},
    {"allowed-v", allowed_v},
    {"alternator", alternator},
    {"waveform", waveform},
    {"peak-ac-w", peak_ac_w},
    {"bay", bay},
    {"unpriced", unpriced},
    {"load", load},
    {"load-v", load_v},
    {"odd-load", odd_load},
    {"odd-load-v", odd_load_v},
    {"starting-load", starting_load},
    {"clipped-pct", clipped_pct},
    {"float-air", float_air},
    {"vent-cm2", vent_cm2},
};

static char *slot_text(const char *name, gsize length, const WbTold *told)
{
    for (gsize i = 0; i < G_N_ELEMENTS(slots); i++)
        if (strlen(slots[i].name) == length && strncmp(slots[i].name, name, length) == 0)
            return slots[i].text(told);
    g_error("no gap {%.*s}", (int)length, name);
}

char *wb_words_fill(const char *sentence, const WbTold *told)
{
    GString *filled = g_string_new(NULL);
    const char *at = sentence, *open;
    while ((open = strchr(at, '{')) != NULL) {
        const char *close = strchr(open, '}');
        g_assert(close != NULL);
        g_autofree char *text = slot_text(open + 1, (gsize)(close - open - 1), told);
        g_string_append_len(filled, at, open - at);
        g_string_append(filled, text);
        at = close + 1;
    }
    g_string_append(filled, at);
    return g_string_free(filled, FALSE);
}
