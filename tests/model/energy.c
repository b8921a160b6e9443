/* The hourly year as the window shows it: the fortnight kept, its words, and the work done on
 * another thread. */
#include "by_hand.h"
#include "kit_energy.h"
#include "kit_year.h"
#include "panel_yield.h"
#include "rig.h"
#include "weather_text.h"
#include <math.h>

/* Made once; the tests only read it. */
static WbResult *shared;

static WbResult *get_result(void)
{
    if (shared)
        return wb_result_ref(shared);
    g_autoptr(GError) error = NULL;
    g_autoptr(WbCatalogueView) view = rig_view();
    g_autoptr(WbDocument) document = wb_document_new(view);
    g_assert_true(wb_document_begin_demo(document, &error));
    g_assert_true(wb_document_set_json(document, "Small", "/largest",
                                       "{\"series\": 1, \"parallel\": 2, \"bank_series\": 1, "
                                       "\"bank_parallel\": 3}",
                                       &error));
    shared = wb_result_make(wb_document_get_file(document), view, NULL, NULL, &error);
    g_assert_no_error(error);
    return wb_result_ref(shared);
}

/* ---- the fortnight ---- */

static void test_first_hour(void)
{
    static const struct {
        int worst_hour, n_years, first_hour;
    } rows[] = {
        {0, 1, 0},
        {10 * 24 - 1, 1, 0},
        {10 * 24, 1, 0},
        {11 * 24 + 5, 1, 24},
        {200 * 24 + 23, 1, 190 * 24},
        {364 * 24 + 23, 1, 351 * 24},        /* the record ends */
        {364 * 24 + 23, 2, 354 * 24},        /* it goes on */
        {(365 + 3) * 24, 2, (365 - 7) * 24}, /* over the turn of the year */
        {10 * 8760 - 1, 10, (3650 - 14) * 24},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++)
        g_assert_cmpint(wb_fortnight_first_hour(rows[i].worst_hour, rows[i].n_years), ==,
                        rows[i].first_hour);
}

/* The kept hours are those of the whole trace, and the lowest of them is the year's. */
static void test_fortnight(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbResult) result = get_result();
    g_autoptr(WbKitEnergy) energy = wb_kit_energy_new(result, NULL, &error);
    g_assert_no_error(error);
    const WbProblem *problem = wb_result_get_problem(result);
    WbKit kit;
    WbYearKit year_kit;
    WbYear year;
    g_assert_true(wb_kit_parse(problem, energy->kit_id, &kit));
    wb_kit_year_fill(problem, &kit, &year_kit);
    g_autofree WbYearHour *trace = g_new(WbYearHour, (gsize)problem->plane.n_years * WB_YEAR_HOURS);
    g_assert_cmpint(wb_year_run(&year_kit, &problem->plane, &year, trace), ==, WB_OK);
    g_assert_cmpint(energy->year.worst_hour, ==, year.worst_hour);
    g_assert_cmpint(energy->first_hour % WB_HOURS, ==, 0);
    g_assert_cmpint(energy->first_hour, <=, year.worst_hour);
    g_assert_cmpint(year.worst_hour, <, energy->first_hour + WB_FORTNIGHT_HOURS);
    for (int h = 0; h < WB_FORTNIGHT_HOURS; h++) {
        const WbYearHour *of = &trace[energy->first_hour + h];
        const WbEnergyHour *kept = &energy->hour[h];
        g_assert_cmpfloat(kept->charge, ==, of->charge_wh / year_kit.capacity_wh);
        g_assert_cmpfloat(kept->sun_wh + kept->other_wh, ==,
                          of->array_wh + (of->alternator_wh + of->shore_wh));
        g_assert_cmpfloat(kept->need_wh, ==, of->need_wh + of->idle_wh + of->heater_wh);
        g_assert_cmpint(kept->dark, ==, of->unmet_wh > WB_DARK_WH);
        g_assert_cmpfloat(kept->charge, >=, -1e-12);
        g_assert_cmpfloat(kept->charge, <=, 1 + 1e-12);
    }
    int lowest = wb_kit_energy_lowest(energy);
    g_assert_cmpfloat_with_epsilon(energy->hour[lowest].charge, year.lowest_charge, 1e-9);
    g_assert_cmpint(energy->months, ==, wb_result_get_brief(result)->site.months);
}

static void test_no_kit(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbCatalogueView) view = rig_view();
    g_autoptr(WbDocument) document = wb_document_new(view);
    g_assert_true(wb_document_tick_kind(document, WB_KIND_PANEL, FALSE, &error));
    g_autoptr(WbResult) result =
        wb_result_make(wb_document_get_file(document), view, NULL, NULL, &error);
    g_assert_no_error(error);
    g_autoptr(WbKitEnergy) energy = wb_kit_energy_new(result, NULL, &error);
    g_assert_null(energy);
    g_assert_cmpstr(error->message, ==, "No kit works yet, so there is no year to show.");
}

/* ---- another thread ---- */

typedef struct {
    gboolean done;
    WbKitEnergy *energy;
    GError *error;
} Answer;

static void on_answer(GObject *source, GAsyncResult *result, gpointer data)
{
    Answer *answer = data;
    answer->energy = wb_kit_energy_make_finish(result, &answer->error);
    answer->done = TRUE;
}

static void test_thread(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbResult) result = get_result();
    g_autoptr(WbKitEnergy) here = wb_kit_energy_new(result, "", &error);
    g_assert_no_error(error);
    Answer answer = {0};
    wb_kit_energy_make(result, here->kit_id, NULL, on_answer, &answer);
    g_assert_false(answer.done); /* never on the spot */
    rig_wait(&answer.done);
    g_assert_no_error(answer.error);
    g_assert_cmpmem(answer.energy->hour, sizeof here->hour, here->hour, sizeof here->hour);
    wb_kit_energy_free(answer.energy);
}

static void test_given_up(void)
{
    g_autoptr(WbResult) result = get_result();
    g_autoptr(GCancellable) cancellable = g_cancellable_new();
    Answer answer = {0};
    wb_kit_energy_make(result, NULL, cancellable, on_answer, &answer);
    g_cancellable_cancel(cancellable);
    rig_wait(&answer.done);
    g_assert_null(answer.energy);
    g_assert_error(answer.error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
    g_error_free(answer.error);
}

/* ---- words ---- */

/* A fortnight from 6 December of year 2 on that falls to 31 % on the 14th at 6 h. */
static WbKitEnergy *written_energy(void)
{
    WbKitEnergy *energy = g_new0(WbKitEnergy, 1);
    energy->year.n_years = 10;
    energy->first_hour = (WB_YEAR_DAYS + wb_first_day_of_month(11) + 5) * WB_HOURS;
    for (int h = 0; h < WB_FORTNIGHT_HOURS; h++)
        energy->hour[h] = (WbEnergyHour){.charge = 0.6, .floor = 0.2, .need_wh = 40};
    energy->hour[8 * WB_HOURS + 6].charge = 0.312;
    energy->year.worst_hour = energy->first_hour + 8 * WB_HOURS + 6;
    energy->year.lowest_charge = 0.312;
    energy->year.need_wh = 300e3;
    energy->year.spilled_wh = 102.4e3;
    energy->year.full_cycles = 28.4;
    energy->autonomy_days = 3.44;
    return energy;
}

static void assert_text(char *text, const char *expected)
{
    g_assert_cmpstr(text, ==, expected);
    g_free(text);
}

static void test_sentence(void)
{
    g_autoptr(WbKitEnergy) energy = written_energy();
    assert_text(wb_kit_energy_sentence(energy),
                "In the worst fortnight of 10 years the bank falls to 31 % of full, on 14 December "
                "of year 2.");
    energy->hour[3].dark = TRUE;
    assert_text(wb_kit_energy_sentence(energy),
                "In the worst fortnight of 10 years the bank falls to 31 % of full, on 14 December "
                "of year 2. In 1 hour of it the loads do not get all they want.");
    energy->hour[4].dark = TRUE;
    energy->year.n_years = 1;
    assert_text(wb_kit_energy_sentence(energy),
                "In the worst fortnight the bank falls to 31 % of full, on 14 December. In 2 hours "
                "of it the loads do not get all they want.");
}

static void test_hour_text(void)
{
    g_autoptr(WbKitEnergy) energy = written_energy();
    assert_text(wb_kit_energy_hour_text(energy, 8 * WB_HOURS + 6, ", "),
                "14 December of year 2, 6 to 7 h, Charge 31 %, drawn down to 20 % at most, Sun 0 "
                "Wh, Need 40 Wh");
    energy->hour[0] = (WbEnergyHour){.charge = 0.2,
                                     .floor = 0.2,
                                     .sun_wh = 3.14,
                                     .other_wh = 120,
                                     .need_wh = 140,
                                     .unmet_wh = 16.9,
                                     .dark = TRUE};
    assert_text(wb_kit_energy_hour_text(energy, 0, "\n"),
                "6 December of year 2, 0 to 1 h\nCharge 20 %, drawn down to 20 % at most\nSun 3.1 "
                "Wh\nOther sources 120 Wh\nNeed 140 Wh\nNot carried 17 Wh");
}

static void test_dates(void)
{
    static const struct {
        int day, n_years;
        const char *text;
    } rows[] = {
        {0, 1, "1 January"},
        {58, 1, "28 February"},
        {59, 1, "1 March"}, /* no 29 February */
        {364, 1, "31 December"},
        {364, 3, "31 December of year 1"},
        {365, 3, "1 January of year 2"},
        {365 * 2 + 181, 3, "1 July of year 3"},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        WbYear year = {.n_years = rows[i].n_years};
        assert_text(wb_energy_date(&year, rows[i].day * WB_HOURS + 23), rows[i].text);
    }
}

static void test_facts(void)
{
    g_autoptr(WbKitEnergy) energy = written_energy();
    WbYear *year = &energy->year;
    static const char *const without[WB_N_FACTS] = {
        "none: the loads are carried in every hour",
        "nothing of 300 kWh a year",
        "31 % of full, on 14 December of year 2",
        "none",
        "the full bank carries the loads for 3.4 days",
        "102 kWh a year are neither used nor stored",
        "28 a year",
    };
    for (WbEnergyFact fact = 0; fact < WB_N_FACTS; fact++) {
        assert_text(wb_kit_energy_fact(energy, fact), without[fact]);
        g_assert_cmpstr(wb_energy_fact_title(fact), !=, "");
    }
    year->dark_h = 2.66;
    year->dark_worst_h = 23;
    year->dark_worst_year = 2;
    year->longest_dark_h = 6;
    year->unmet_wh = 90;
    year->loss_of_load = 90 / year->need_wh;
    assert_text(wb_kit_energy_fact(energy, WB_FACT_DARK),
                "2.7 h a year on average, 23 h in the worst of 10 years (year 3)");
    assert_text(wb_kit_energy_fact(energy, WB_FACT_UNMET), "0.03 %: 0.1 of 300 kWh a year");
    assert_text(wb_kit_energy_fact(energy, WB_FACT_SPELL),
                "6 h at one go; an hour without load ends it");
    year->loss_of_load = 1e-5;
    assert_text(wb_kit_energy_fact(energy, WB_FACT_UNMET), "less than 0.01 % of 300 kWh a year");
    year->n_years = 1;
    assert_text(wb_kit_energy_fact(energy, WB_FACT_DARK), "23 h in the year");
}

static void test_weather(void)
{
    WbSite site = {.weather_years = 10, .weather_seed = 7};
    WbHours hours = {.n_years = 3, .name = "roof.csv"};
    assert_text(wb_words_weather(&site), "Weather: made hour by hour from the monthly means, 10 "
                                         "years, seed 7. A real year can be darker.");
    site.weather_years = 1;
    assert_text(wb_words_weather(&site), "Weather: made hour by hour from the monthly means, 1 "
                                         "year, seed 7. A real year can be darker.");
    site.hours = &hours;
    assert_text(wb_words_weather(&site), "Weather: your own hours, roof.csv, 3 years.");
    g_assert_cmpstr(wb_words_weather_clock(TRUE), !=, wb_words_weather_clock(FALSE));
}

/* ---- 100 W of panel ---- */

/* Of a kit whose limit cuts nothing off: array + own draw, per 100 W. */
static void test_yield(void)
{
    g_autoptr(WbResult) result = get_result();
    const WbProblem *problem = wb_result_get_problem(result);
    const WbRanking *ranking = wb_result_get_ranking(result);
    g_autofree WbVerdict *verdict = g_new(WbVerdict, 1);
    guint compared = 0;
    for (gsize i = 0; i < ranking->n_top && i < 50; i++) {
        const WbKit *kit = &ranking->top[i].kit;
        double wh[WB_MONTHS];
        wb_judge_without_year(problem, kit, verdict);
        wb_panel_yield(problem, verdict, wh);
        WbArrayLaw law = wb_kit_array_law(problem, kit, &verdict->bank);
        double hundreds =
            problem->panels[kit->panel].panel->power_w * kit->n_series * kit->n_parallel / 100;
        for (int m = 0; m < WB_MONTHS; m++) {
            const WbMonth *month = &verdict->month[m];
            double whole = month->array_wh + month->clipped_wh + law.idle_w * WB_HOURS;
            g_assert_cmpfloat_with_epsilon(wh[m] * hundreds, whole, 1e-6 * whole);
            compared++;
        }
    }
    g_assert_cmpuint(compared, >=, 120);
}

/* ---- by hand ---- */

static const WbByHandLine *find_line(const WbByHand *hand, const char *key)
{
    for (gsize i = 0; i < hand->n; i++)
        if (g_str_equal(hand->line[i].key, key))
            return &hand->line[i];
    g_assert_not_reached();
}

static double line_figure(const WbByHand *hand, const char *key)
{
    return find_line(hand, key)->figure;
}

/* Who follows the lines from top to bottom gets what stands at the right. */
static void check_lines(const WbByHand *hand)
{
    const WbWorksheetInput *in = &hand->input;
    double bank_wh = line_figure(hand, "dc_wh");
    if (line_figure(hand, "ac_wh") > 0)
        bank_wh += line_figure(hand, "ac_wh") / in->inverter_efficiency;
    double load_ah = bank_wh / in->bank_v;
    double corrected_ah = load_ah / (0.98 * in->charge_efficiency);
    double design_a = corrected_ah / line_figure(hand, "peak_sun_h");
    double string_a = in->string_a * 0.9;
    double required_ah = line_figure(hand, "required_ah");
    double sun_h = fmin(fmax(line_figure(hand, "peak_sun_h"), 1), 7);
    const struct {
        const char *key;
        double figure;
    } rows[] = {{"bank_wh", bank_wh},
                {"load_ah", load_ah},
                {"corrected_ah", corrected_ah},
                {"design_a", design_a},
                {"string_a", string_a},
                {"strings", design_a / string_a},
                {"storage_days_99", 24.0 - 4.73 * sun_h + 0.3 * sun_h * sun_h},
                {"storage_days_95", 9.43 - 1.9 * sun_h + 0.11 * sun_h * sun_h},
                {"batteries_parallel", required_ah / in->battery_ah}};
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++)
        g_assert_cmpfloat_with_epsilon(line_figure(hand, rows[i].key), rows[i].figure,
                                       1e-9 * fabs(rows[i].figure));
    if (hand->sheet.storage_month == hand->sheet.design_month)
        g_assert_cmpfloat_with_epsilon(
            required_ah,
            corrected_ah * line_figure(hand, "storage_days") /
                (in->depth * in->temperature_factor[hand->sheet.storage_month]),
            1e-9 * required_ah);
}

static void test_by_hand(void)
{
    g_autoptr(WbResult) result = get_result();
    const WbProblem *problem = wb_result_get_problem(result);
    const WbRanking *ranking = wb_result_get_ranking(result);
    g_autofree WbVerdict *verdict = g_new(WbVerdict, 1);
    gsize checked = 0;
    for (; checked < ranking->n_top && checked < 50; checked++) {
        wb_judge(problem, &ranking->top[checked].kit, verdict);
        g_autoptr(WbByHand) hand = wb_by_hand_new(problem, verdict);
        g_assert_nonnull(hand);
        g_assert_cmpuint(hand->n, ==, 14);
        g_assert_cmpuint(g_strv_length(hand->differences), >=, 4);
        check_lines(hand);
        g_assert_cmpint(hand->agrees, ==,
                        ceil(line_figure(hand, "strings") - 1e-6) == verdict->kit.n_parallel &&
                            ceil(line_figure(hand, "batteries_parallel") - 1e-6) ==
                                verdict->kit.bank_parallel);
        g_assert_cmpint(strstr(hand->differences[0], "as this kit has") != NULL, ==, hand->agrees);
        g_assert_null(strstr(hand->differences[0], " 1 strings"));
        g_assert_null(strstr(hand->differences[0], " 1 batteries"));
    }
    g_assert_cmpuint(checked, ==, 50);
}

static gboolean said(const WbByHand *hand, const char *words)
{
    for (char **sentence = hand->differences; *sentence; sentence++)
        if (strstr(*sentence, words))
            return TRUE;
    return FALSE;
}

/* January as bright as told, darker than the others; the bank as low as told. */
static void test_dark_january(void)
{
    static const struct {
        double sun_h, lowest;
        const char *numbers; /* of the days for power 99 % of the time */
        gboolean row;        /* of dull days */
    } rows[] = {
        {0, 0.2, "24.0 − 4.73 × 1.00 + 0.3 × 1.00² (T = 1.00, raised from 0.00)", TRUE},
        {0.26, 0.899, "24.0 − 4.73 × 1.00 + 0.3 × 1.00² (T = 1.00, raised from 0.26)", TRUE},
        {1.5, 0.9, "24.0 − 4.73 × 1.50 + 0.3 × 1.50²", FALSE},
        {7.25, 0.99, "24.0 − 4.73 × 7.00 + 0.3 × 7.00² (T = 7.00, lowered from 7.25)", FALSE},
    };
    g_autoptr(WbResult) result = get_result();
    g_autofree WbProblem *problem = g_memdup2(wb_result_get_problem(result), sizeof *problem);
    g_autofree WbVerdict *verdict = g_new(WbVerdict, 1);
    WbBrief brief = *problem->brief;
    g_assert_true(wb_result_judge(result, NULL, verdict));
    brief.site.months = 1;
    problem->brief = &brief;
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        gboolean sun = rows[i].sun_h > 0;
        problem->plane.plane_kwh_m2_day[0] = rows[i].sun_h;
        verdict->year.lowest_charge = rows[i].lowest;
        g_autoptr(WbByHand) hand = wb_by_hand_new(problem, verdict);
        g_assert_cmpstr(find_line(hand, "storage_days_99")->numbers, ==, rows[i].numbers);
        g_assert_cmpint(said(hand, "dull days"), ==, rows[i].row);
        g_assert_cmpint(said(hand, "In January there is no sun: no number of panels does it."), ==,
                        !sun);
        g_assert_false(said(hand, "-1"));
        if (!sun) {
            g_assert_cmpstr(find_line(hand, "design_a")->value, ==, "no current is enough");
            g_assert_cmpstr(find_line(hand, "design_a")->unit, ==, "");
            g_assert_cmpstr(find_line(hand, "strings")->value, ==, "no number is enough");
            g_assert_false(hand->agrees);
        }
    }
}

/* No month in use: the store refuses such a brief, the sheet has no answer. */
static void test_no_sheet(void)
{
    g_autoptr(WbResult) result = get_result();
    const WbProblem *problem = wb_result_get_problem(result);
    g_autofree WbVerdict *verdict = g_new(WbVerdict, 1);
    g_assert_true(wb_result_judge(result, NULL, verdict));
    WbBrief brief = *problem->brief;
    WbProblem without = *problem;
    brief.site.months = 0;
    without.brief = &brief;
    g_assert_null(wb_by_hand_new(&without, verdict));
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/energy/first-hour", test_first_hour);
    g_test_add_func("/energy/fortnight", test_fortnight);
    g_test_add_func("/energy/no-kit", test_no_kit);
    g_test_add_func("/energy/thread", test_thread);
    g_test_add_func("/energy/given-up", test_given_up);
    g_test_add_func("/energy/sentence", test_sentence);
    g_test_add_func("/energy/hour-text", test_hour_text);
    g_test_add_func("/energy/dates", test_dates);
    g_test_add_func("/energy/facts", test_facts);
    g_test_add_func("/energy/weather", test_weather);
    g_test_add_func("/energy/yield", test_yield);
    g_test_add_func("/energy/by-hand", test_by_hand);
    g_test_add_func("/energy/dark-january", test_dark_january);
    g_test_add_func("/energy/no-sheet", test_no_sheet);
    int failed = g_test_run();
    g_clear_pointer(&shared, wb_result_unref);
    return failed;
}
