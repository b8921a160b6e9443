/* Is a person's hourly file read to the letter, and a wrong one refused with a sentence? */
#include "hours_file.h"
#include "part.h"
#include "places.h"
#include "random.h"
#include "scratch.h"
#include "sun.h"
#include "weather.h"
#include <math.h>

#define FUZZ_ROUNDS 300

typedef enum { PLAIN, DATED, EPW } Kind;

#define HEAD_OF_EPW 8

/* A sunny year: a cosine of the day, 800 W/m2 at noon; 30 % of it diffuse; air 10 C at noon. */
static double global_at(int hour)
{
    return MAX(0, round(800 * cos((hour + 0.5 - 12) * G_PI / 12)));
}

static void add_row(GPtrArray *lines, Kind kind, int year, int month, int day, int hour)
{
    double global = global_at(hour), diffuse = round(global * 0.3);
    if (kind == PLAIN)
        g_ptr_array_add(lines, g_strdup_printf("%g,%g,%d", global, diffuse, hour - 2));
    else if (kind == DATED)
        g_ptr_array_add(lines, g_strdup_printf("%04d-%02d-%02d %02d:00,%g,%g,%d", year, month, day,
                                               hour, global, diffuse, hour - 2));
    else
        g_ptr_array_add(lines,
                        g_strdup_printf("%d,%d,%d,%d,0,?9?9,%d,-5,50,83700,0,0,181,%g,0,%g,"
                                        "0,0,0,0,0,0,2,2,6.4,20306,9,999999999,3,0.044,0,88,"
                                        "0,0,1",
                                        year, month, day, hour + 1, hour - 2, global, diffuse));
}

static void add_head(GPtrArray *lines, Kind kind)
{
    static const char *const epw[HEAD_OF_EPW] = {
        "LOCATION,Somewhere,\"A, B\",X,Own,1,45.0,7.5,1.0,200.0",
        "DESIGN CONDITIONS,0",
        "TYPICAL/EXTREME PERIODS,0",
        "GROUND TEMPERATURES,0",
        "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0",
        "COMMENTS 1,none",
        "COMMENTS 2,none",
        "DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31",
    };
    if (kind == EPW)
        for (int i = 0; i < HEAD_OF_EPW; i++)
            g_ptr_array_add(lines, g_strdup(epw[i]));
    if (kind != EPW)
        g_ptr_array_add(lines, g_strdup("# utc_offset_h: 1"));
    if (kind == PLAIN)
        g_ptr_array_add(lines, g_strdup("global_w_m2,diffuse_w_m2,air_c"));
    if (kind == DATED)
        g_ptr_array_add(lines, g_strdup("time,global_w_m2,diffuse_w_m2,air_c"));
}

/* Whole years from first_year on, 29 February among them where the calendar has one and the kind
 * has dates. (transfer full) */
static GPtrArray *make_lines(Kind kind, int first_year, int years)
{
    GPtrArray *lines = g_ptr_array_new_with_free_func(g_free);
    add_head(lines, kind);
    for (int year = first_year; year < first_year + years; year++)
        for (int month = 1; month <= 12; month++) {
            int days = g_date_get_days_in_month((GDateMonth)month, (GDateYear)year);
            if (kind == PLAIN && month == 2)
                days = 28;
            for (int day = 1; day <= days; day++)
                for (int hour = 0; hour < 24; hour++)
                    add_row(lines, kind, year, month, day, hour);
        }
    return lines;
}

/* (transfer full) */
static char *joined(GPtrArray *lines, const char *between)
{
    GString *text = g_string_new(NULL);
    for (guint i = 0; i < lines->len; i++)
        g_string_append_printf(text, "%s%s", (char *)lines->pdata[i], between);
    return g_string_free(text, FALSE);
}

static WbHoursFile *parse_lines(GPtrArray *lines, GError **error)
{
    g_autofree char *text = joined(lines, "\n");
    return wb_hours_file_parse(text, -1, "my.csv", error);
}

static void check_year(const WbHoursFile *file, int years)
{
    const WbHours *hours = wb_hours_file_hours(file);
    g_assert_cmpint(hours->n_years, ==, years);
    g_assert_cmpfloat(hours->utc_offset_h, ==, 1);
    g_assert_cmpstr(hours->name, ==, "my.csv");
    for (int i = 0; i < years * WB_YEAR_HOURS; i++) {
        g_assert_cmpfloat(hours->global_w_m2[i], ==, global_at(i % 24));
        g_assert_cmpfloat(hours->diffuse_w_m2[i], ==, round(global_at(i % 24) * 0.3));
        g_assert_cmpfloat(hours->air_c[i], ==, i % 24 - 2);
    }
}

static void test_whole_years(void)
{
    for (Kind kind = PLAIN; kind <= EPW; kind++)
        for (int years = 1; years <= 3; years++) {
            g_autoptr(GError) error = NULL;
            g_autoptr(GPtrArray) lines = make_lines(kind, 2021, years);
            g_autoptr(WbHoursFile) file = parse_lines(lines, &error);
            g_assert_no_error(error);
            check_year(file, years);
            g_assert_cmpuint(wb_hours_file_notes(file)->len, ==, 0);
        }
}

static void test_leap_day_is_left_out(void)
{
    for (Kind kind = DATED; kind <= EPW; kind++) {
        g_autoptr(GError) error = NULL;
        g_autoptr(GPtrArray) lines = make_lines(kind, 2023, 6);
        g_autoptr(WbHoursFile) file = parse_lines(lines, &error);
        g_assert_no_error(error);
        check_year(file, 6);
        const GPtrArray *notes = wb_hours_file_notes(file);
        g_assert_cmpuint(notes->len, ==, 1);
        g_assert_nonnull(strstr(notes->pdata[0], "29 February is left out (2 times)"));
    }
}

static void test_same_rows_in_other_clothes(void)
{
    g_autoptr(GPtrArray) lines = make_lines(PLAIN, 2021, 1);
    g_autofree char *crlf = joined(lines, "\r\n"), *plain = joined(lines, "\n");
    g_autofree char *marked = g_strconcat("\xef\xbb\xbf# made by hand\n", plain, "\n\n", NULL);
    g_autofree char *open_end = g_strndup(plain, strlen(plain) - 1);
    const char *const texts[] = {crlf, marked, open_end};
    for (gsize i = 0; i < G_N_ELEMENTS(texts); i++) {
        g_autoptr(GError) error = NULL;
        g_autoptr(WbHoursFile) file = wb_hours_file_parse(texts[i], -1, "my.csv", &error);
        g_assert_no_error(error);
        check_year(file, 1);
    }
}

static void test_absent_figures(void)
{
    g_autoptr(GPtrArray) lines = g_ptr_array_new_with_free_func(g_free);
    g_ptr_array_add(lines, g_strdup("Air_C, global_w_m2"));
    for (int i = 0; i < WB_YEAR_HOURS; i++)
        g_ptr_array_add(lines, g_strdup_printf("%s, %g", i < 100 ? "" : "7.5", global_at(i % 24)));
    g_autoptr(GError) error = NULL;
    g_autoptr(WbHoursFile) file = parse_lines(lines, &error);
    g_assert_no_error(error);
    const WbHours *hours = wb_hours_file_hours(file);
    g_assert_true(isnan(hours->utc_offset_h));
    g_assert_true(isnan(hours->air_c[99]) && isnan(hours->diffuse_w_m2[12]));
    g_assert_cmpfloat(hours->air_c[100], ==, 7.5);
    const GPtrArray *notes = wb_hours_file_notes(file);
    g_assert_cmpuint(notes->len, ==, 3);
    g_assert_nonnull(strstr(notes->pdata[0], "8760 of 8760 hours have no diffuse"));
    g_assert_nonnull(strstr(notes->pdata[1], "100 of 8760 hours have no air"));
    g_assert_nonnull(strstr(notes->pdata[2], "UTC offset"));
}

/* The marks of an EPW for a missing figure. */
static void test_missing_marks(void)
{
    g_autoptr(GPtrArray) lines = make_lines(EPW, 2021, 1);
    char **row = (char **)&lines->pdata[HEAD_OF_EPW + 12];
    g_free(*row);
    *row = g_strdup("2021,1,1,13,60,?9,99.9,-5,50,83700,0,0,181,640,0,9999,0,0,0,0,0,0,2,2,6.4,2,9,"
                    "9,3,0.044,0,88");
    g_autoptr(GError) error = NULL;
    g_autoptr(WbHoursFile) file = parse_lines(lines, &error);
    g_assert_no_error(error);
    const WbHours *hours = wb_hours_file_hours(file);
    g_assert_cmpfloat(hours->global_w_m2[12], ==, 640);
    g_assert_true(isnan(hours->diffuse_w_m2[12]) && isnan(hours->air_c[12]));
    g_assert_cmpuint(wb_hours_file_notes(file)->len, ==, 2);
}

/* ---- what is refused ---- */

typedef enum { REPLACE, REMOVE, REPEAT, CUT_FROM } Edit;

static void apply(GPtrArray *lines, Edit edit, guint line, const char *text)
{
    guint at = line - 1;
    if (edit == REMOVE) {
        g_ptr_array_remove_index(lines, at);
    } else if (edit == REPEAT) {
        g_ptr_array_insert(lines, (gint)at, g_strdup(lines->pdata[at]));
    } else if (edit == CUT_FROM) {
        g_ptr_array_set_size(lines, (gint)at);
    } else {
        g_free(lines->pdata[at]);
        lines->pdata[at] = g_strdup(text);
    }
}

static gpointer copy_line(gconstpointer line, gpointer unused)
{
    return g_strdup(line);
}

#define EPW_ROW(head, air, global, diffuse)                                                        \
    head ",0,?9," air ",-5,50,83700,0,0,181," global ",0," diffuse                                 \
         ",0,0,0,0,0,0,2,2,6.4,2,9,9,3,0.044,0,88,0,0,1"

static void test_refused(void)
{
    static const struct {
        Kind kind;
        Edit edit;
        guint line;
        const char *text, *words;
    } rows[] = {
        {PLAIN, REMOVE, 100, NULL, "my.csv has 8759 rows|8760 or a whole multiple"},
        {PLAIN, REPEAT, 100, NULL, "my.csv has 8761 rows|8760"},
        {PLAIN, CUT_FROM, 3, NULL, "my.csv has 0 rows"},
        {PLAIN, CUT_FROM, 2, NULL, "no line of column names|global_w_m2"},
        {PLAIN, REPLACE, 20, "-3,0,5", "line 20|global_w_m2|\"-3\"|0 W/m2 or more"},
        {PLAIN, REPLACE, 20, "3,-1,5", "line 20|diffuse_w_m2|\"-1\"|0 W/m2 or more"},
        {PLAIN, REPLACE, 20, "3,1,61", "line 20|air_c|\"61\"|-90 to 60 C"},
        {PLAIN, REPLACE, 20, "3,1,-90.5", "line 20|air_c|\"-90.5\"|-90 to 60 C"},
        {PLAIN, REPLACE, 20, "nan,1,5", "line 20|global_w_m2|\"nan\""},
        {PLAIN, REPLACE, 20, "inf,1,5", "line 20|global_w_m2|\"inf\""},
        {PLAIN, REPLACE, 20, "0x10,1,5", "line 20|global_w_m2|\"0x10\""},
        {PLAIN, REPLACE, 20, "1e999,1,5", "line 20|global_w_m2|\"1e999\""},
        {PLAIN, REPLACE, 20, ",1,5", "line 20|global_w_m2|\"\""},
        {PLAIN, REPLACE, 20, "--,1,5", "line 20|global_w_m2|\"--\""},
        {PLAIN, REPLACE, 20, "1,5", "line 20 has 2 cells|has 3|commas"},
        {PLAIN, REPLACE, 20, "1,2,3,4", "line 20 has 4 cells|has 3|point"},
        {PLAIN, REPLACE, 20, "", "line 20 has 1 cells|has 3"},
        {PLAIN, REPLACE, 20, "300,400,5", "line 20|diffuse_w_m2 is 400|global 300"},
        {PLAIN, REPLACE, 20, "1600,400,5", "line 20|global_w_m2 is 1600|0 to 1500"},
        {PLAIN, REPLACE, 1, "# utc_offset_h: +25", "line 1|utc_offset_h|\"+25\"|-14 to 14 h"},
        {PLAIN, REPLACE, 1, "# utc_offset_h", "line 1|utc_offset_h|\"\"|-14 to 14 h"},
        {PLAIN, REPLACE, 2, "global_w_m2;diffuse_w_m2;air_c",
         "line 2|no column|separated by commas"},
        {PLAIN, REPLACE, 2, "global_w_m2,diffuse_w_m2,air", "line 2|\"air\" is no column|air_c"},
        {PLAIN, REPLACE, 2, "global_w_m2,air_c,air_c", "line 2|air_c is there twice"},
        {PLAIN, REPLACE, 2, "time,diffuse_w_m2,air_c", "line 2|global_w_m2 is missing"},
        {PLAIN, REPLACE, 2, "{}", "line 2|\"{}\" is no column"},
        {DATED, REMOVE, 50, NULL, "line 50|3 January 00:00|2 January 23:00|none missing"},
        {DATED, REPEAT, 50, NULL, "line 51|2 January 23:00|3 January 00:00|none twice"},
        {DATED, CUT_FROM, 8762, NULL, "ends at line 8761|31 December 23:00|8759 rows"},
        {DATED, REPLACE, 3, "2021-02-01 00:00,0,0,1", "line 3|1 February 00:00|1 January 00:00"},
        {DATED, REPLACE, 3, "2021-13-01 00:00,0,0,1", "line 3|\"2021-13-01 00:00\"|full hour"},
        {DATED, REPLACE, 3, "2021-02-29 00:00,0,0,1", "line 3|\"2021-02-29 00:00\"|full hour"},
        {DATED, REPLACE, 3, "2021-01-01 24:00,0,0,1", "line 3|24:00|00 to 23"},
        {DATED, REPLACE, 3, "2021-01-01 00:30,0,0,1", "line 3|00:30|full hour"},
        {DATED, REPLACE, 3, "2021-01-01,0,0,1", "line 3|\"2021-01-01\"|full hour"},
        {DATED, REPLACE, 3, "01/01/2021 00:00,0,0,1", "line 3|01/01/2021|full hour"},
        {EPW, REMOVE, 109, NULL, "line 109|5 January 05:00|5 January 04:00"},
        {EPW, CUT_FROM, 8768, NULL, "ends at line 8767|31 December 23:00|8759 rows"},
        {EPW, CUT_FROM, 9, NULL, "my.csv has 0 rows"},
        {EPW, CUT_FROM, 8, NULL, "DATA PERIODS is missing"},
        {EPW, CUT_FROM, 2, NULL, "DATA PERIODS is missing"},
        {EPW, REPLACE, 1, "LOCATION,X,Y", "line 1|LOCATION is cut short"},
        {EPW, REPLACE, 1, "LOCATION,X,Y,Z,S,1,95,7,1,200", "line 1|latitude|\"95\"|-90 to 90"},
        {EPW, REPLACE, 1, "LOCATION,X,Y,Z,S,1,45,187,1,200", "line 1|longitude|\"187\"|180"},
        {EPW, REPLACE, 1, "LOCATION,X,Y,Z,S,1,45,7,one,200", "line 1|time zone|\"one\"|-14 to 14"},
        {EPW, REPLACE, 8, "DATA PERIODS,1,4,Data,Sunday, 1/ 1,12/31",
         "line 8|records an hour|\"4\""},
        {EPW, REPLACE, 8, "DATA PERIODS,2,1,Data,Sunday, 1/ 1,12/31", "line 8|data periods|\"2\""},
        {EPW, REPLACE, 9, "2021,1,1,1,0,?9,1,-5,50", "line 9 has 9 fields|32 to 35"},
        {EPW, REPLACE, 9, EPW_ROW("2021,1,1,0", "1", "0", "0"), "line 9|hour|\"0\"|1 to 24"},
        {EPW, REPLACE, 9, EPW_ROW("2021,0,1,1", "1", "0", "0"), "line 9|month|\"0\"|1 to 12"},
        {EPW, REPLACE, 9, EPW_ROW("2021,1,x,1", "1", "0", "0"), "line 9|day|\"x\"|1 to 31"},
        {EPW, REPLACE, 9, EPW_ROW("2021,1,1.5,1", "1", "0", "0"),
         "line 9|day|\"1.5\"|whole number"},
        {EPW, REPLACE, 9, EPW_ROW("2021,1,1,1", "70", "0", "0"), "line 9|air_c|\"70\"|-90 to 60"},
        {EPW, REPLACE, 9, EPW_ROW("2021,1,1,1", "1", "-1", "0"), "line 9|field 14|\"-1\"|or more"},
        {EPW, REPLACE, 9, EPW_ROW("2021,1,1,1", "1", "9999", "0"), "line 9|field 14|9999|missing"},
        {EPW, REPLACE, 9, EPW_ROW("2021,1,1,1", "1", "0", ""), "line 9|field 16|\"\"|or more"},
    };
    GPtrArray *years[] = {make_lines(PLAIN, 2021, 1), make_lines(DATED, 2021, 1),
                          make_lines(EPW, 2021, 1)};
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        g_autoptr(GError) error = NULL;
        g_autoptr(GPtrArray) lines = g_ptr_array_copy(years[rows[i].kind], copy_line, NULL);
        g_ptr_array_set_free_func(lines, g_free);
        apply(lines, rows[i].edit, rows[i].line, rows[i].text);
        g_assert_null(parse_lines(lines, &error));
        assert_sentence(error, rows[i].words);
    }
    for (gsize i = 0; i < G_N_ELEMENTS(years); i++)
        g_ptr_array_unref(years[i]);
}

/* A leap year's 8784 rows: with dates fine, without refused; half a 29 February never. */
static void test_leap_rows(void)
{
    g_autoptr(GError) plain_error = NULL, half_error = NULL;
    g_autoptr(GPtrArray) plain = make_lines(PLAIN, 2021, 1);
    for (int i = 0; i < 24; i++)
        add_row(plain, PLAIN, 2021, 12, 31, i);
    g_assert_null(parse_lines(plain, &plain_error));
    assert_sentence(plain_error, "8784 rows|29 February|24 rows out|column time");

    g_autoptr(GPtrArray) half = make_lines(DATED, 2024, 1);
    g_ptr_array_remove_range(half, 2 + 59 * 24 + 10, 14);
    g_assert_null(parse_lines(half, &half_error));
    assert_sentence(half_error, "line 1429|1 March 00:00|29 February 10:00");
}

static void test_units(void)
{
    static const struct {
        double factor;
        const char *words;
    } rows[] = {
        {0.001, "kWh/m2 (multiply by 1000)|line 2 on"},
        {0.0036, "MJ/m2 (divide by 0.0036)"},
        {0.36, "J/cm2 (divide by 0.36)"},
        {3.6, "kJ/m2 (divide by 3.6)|is 2854.8"},
        {3600, "J/m2 (divide by 3600)"},
        {0, "0 kWh/m2|300 to 3100"},
        {1.5, "300 to 3100"},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        g_autoptr(GError) error = NULL;
        g_autoptr(GPtrArray) lines = g_ptr_array_new_with_free_func(g_free);
        g_ptr_array_add(lines, g_strdup("global_w_m2"));
        for (int h = 0; h < WB_YEAR_HOURS; h++)
            g_ptr_array_add(lines, g_strdup_printf("%.7g", global_at(h % 24) * rows[i].factor));
        g_assert_null(parse_lines(lines, &error));
        assert_sentence(error, rows[i].words);
    }
    g_autoptr(GError) error = NULL;
    g_autoptr(GPtrArray) bright = make_lines(PLAIN, 2021, 1);
    for (guint i = 0; i < 24; i++)
        apply(bright, REPLACE, 3 + i, "700,0,5");
    g_assert_null(parse_lines(bright, &error));
    assert_sentence(error, "line 3|day that begins here has 16.8 kWh/m2|15");
}

static void test_too_many_years(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(GString) text = g_string_new("global_w_m2\n");
    for (int i = 0; i < 101 * WB_YEAR_HOURS; i++)
        g_string_append_printf(text, "%d\n", (int)global_at(i % 24));
    g_assert_null(wb_hours_file_parse(text->str, (gssize)text->len, "my.csv", &error));
    assert_sentence(error, "100|most|years");
    g_string_truncate(text, 0);
    g_string_append(text, "global_w_m2\n");
    for (int i = 0; i < 100 * WB_YEAR_HOURS; i++)
        g_string_append_printf(text, "%d\n", (int)global_at(i % 24));
    g_clear_error(&error);
    g_autoptr(WbHoursFile) file = wb_hours_file_parse(text->str, (gssize)text->len, "my", &error);
    g_assert_no_error(error);
    g_assert_cmpint(wb_hours_file_hours(file)->n_years, ==, 100);
}

static void test_place(void)
{
    WbPlace place = {.name = "Here", .latitude_deg = 45.5, .longitude_deg = 8};
    g_autoptr(GPtrArray) lines = make_lines(EPW, 2021, 1);
    g_autoptr(GError) error = NULL;
    g_autoptr(WbHoursFile) file = parse_lines(lines, &error);
    g_assert_no_error(error);
    g_assert_true(wb_hours_file_check_place(file, &place, &error));
    place.longitude_deg = -7.5;
    g_assert_false(wb_hours_file_check_place(file, &place, &error));
    assert_sentence(error, "my.csv|45|7.5|Here|up to 3");
    g_clear_error(&error);

    static const char *const wrong[] = {"# utc_offset_h: 2", "# utc_offset_h: -0.5",
                                        "# utc_offset_h: 12"};
    place.longitude_deg = 15;
    for (gsize i = 0; i < G_N_ELEMENTS(wrong); i++) {
        g_autoptr(GPtrArray) moved = make_lines(PLAIN, 2021, 1);
        apply(moved, REPLACE, 1, wrong[i]);
        g_autoptr(WbHoursFile) off = parse_lines(moved, &error);
        g_assert_no_error(error);
        g_assert_false(wb_hours_file_check_place(off, &place, &error));
        assert_sentence(error, "my.csv|noon of Here|UTC offset|0.75 h");
        g_clear_error(&error);
    }
    g_autoptr(GPtrArray) right = make_lines(PLAIN, 2021, 1);
    g_autoptr(WbHoursFile) fits = parse_lines(right, &error);
    g_assert_true(wb_hours_file_check_place(fits, &place, &error));
    g_assert_no_error(error);
}

/* Six tenths of what reaches the top of the atmosphere at a latitude, by solar time. (transfer
 * full)
 */
static WbHoursFile *hours_at(double latitude_deg)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(GString) text = g_string_new("# utc_offset_h: 1\nglobal_w_m2\n");
    for (int i = 0; i < WB_YEAR_HOURS; i++) {
        double from = wb_hour_angle_rad(i % 24);
        double kwh_m2 = wb_extraterrestrial_kwh_m2(WB_SOLAR_CONSTANT_W_M2, i / 24 + 1,
                                                   latitude_deg * WB_RAD_PER_DEG, from,
                                                   from + wb_hour_angle_rad(13));
        g_string_append_printf(text, "%.1f\n", 600 * kwh_m2);
    }
    WbHoursFile *file = wb_hours_file_parse(text->str, (gssize)text->len, "my.csv", &error);
    g_assert_no_error(error);
    return file;
}

/* A plain file tells no place, but the length of its days does. */
static void test_hemisphere(void)
{
    static const double latitudes[] = {-67, -45, -36, 36, 45, 67};
    for (gsize i = 0; i < G_N_ELEMENTS(latitudes); i++) {
        WbPlace place = {.name = "Here", .latitude_deg = latitudes[i], .longitude_deg = 15};
        g_autoptr(WbHoursFile) own = hours_at(latitudes[i]);
        g_autoptr(WbHoursFile) other = hours_at(-latitudes[i]);
        g_autoptr(GError) error = NULL;
        wb_hours_file_check_place(own, &place, &error);
        g_assert_no_error(error);
        g_assert_false(wb_hours_file_check_place(other, &place, &error));
        assert_sentence(error, "my.csv|% of its light|Here is down|2 %|other hemisphere");
    }
}

static void test_files(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "own.csv");
    g_autoptr(GPtrArray) lines = make_lines(DATED, 2024, 1);
    g_autofree char *text = joined(lines, "\n");
    scratch_write(path, text, -1);
    g_autoptr(GError) error = NULL;
    g_autoptr(WbHoursFile) file = wb_hours_file_read(path, &error);
    g_assert_no_error(error);
    g_assert_cmpstr(wb_hours_file_hours(file)->name, ==, path);
    g_autofree char *missing = scratch_file(scratch, "none.csv");
    g_assert_null(wb_hours_file_read(missing, &error));
    assert_sentence(error, "none.csv|cannot be opened");
    g_clear_error(&error);
    g_assert_null(wb_hours_file_read(scratch->path, &error));
    assert_sentence(error, "cannot be read");
    g_clear_error(&error);
    scratch_write(path, "", 0);
    g_assert_null(wb_hours_file_read(path, &error));
    assert_sentence(error, "own.csv|no line of column names");
}

/* ---- damage ---- */

static void damage(GString *text, WbRandom *random)
{
    static const char letters[] = ",\n\r\"#-+.eE0123456789 ;:\x01\xc3\xff";
    gsize at = wb_random_below(random, text->len);
    if (wb_random_below(random, 3) == 0)
        g_string_truncate(text, at);
    for (int i = 0; i < 3 && text->len > 0; i++) {
        at = wb_random_below(random, MIN(text->len, wb_random_below(random, 2) ? 400 : text->len));
        switch (wb_random_below(random, 4)) {
        case 0:
            text->str[at] = letters[wb_random_below(random, sizeof letters - 1)];
            break;
        case 1:
            g_string_erase(text, (gssize)at, (gssize)MIN(text->len - at, 9));
            break;
        case 2:
            text->str[at] = (char)wb_random_below(random, 256);
            break;
        default:
            g_string_insert_c(text, (gssize)at,
                              letters[wb_random_below(random, sizeof letters - 1)]);
        }
    }
}

static void check_survivor(const WbHoursFile *file)
{
    const WbHours *hours = wb_hours_file_hours(file);
    for (int i = 0; i < hours->n_years * WB_YEAR_HOURS; i++) {
        g_assert_true(hours->global_w_m2[i] >= 0 && hours->global_w_m2[i] <= 1500);
        g_assert_true(isnan(hours->diffuse_w_m2[i]) ||
                      (hours->diffuse_w_m2[i] >= 0 && hours->diffuse_w_m2[i] <= 1550));
        g_assert_true(isnan(hours->air_c[i]) || (hours->air_c[i] >= -90 && hours->air_c[i] <= 60));
    }
}

static void test_damage(void)
{
    WbRandom random;
    wb_random_seed(&random, 20261125);
    int read = 0, refused = 0;
    for (Kind kind = PLAIN; kind <= EPW; kind++) {
        g_autoptr(GPtrArray) lines = make_lines(kind, 2021, 1);
        g_autofree char *whole = joined(lines, "\n");
        for (int round = 0; round < FUZZ_ROUNDS; round++) {
            g_autoptr(GString) text = g_string_new(whole);
            g_autoptr(GError) error = NULL;
            damage(text, &random);
            g_autoptr(WbHoursFile) file =
                wb_hours_file_parse(text->str, (gssize)text->len, "fuzz", &error);
            if (file)
                check_survivor(file);
            else
                assert_sentence(error, "fuzz");
            *(file ? &read : &refused) += 1;
        }
    }
    g_test_message("%d damaged files read, %d refused", read, refused);
    g_assert_cmpint(read, >, 20);
    g_assert_cmpint(refused, >, 20);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/hours/whole-years", test_whole_years);
    g_test_add_func("/hours/leap-day", test_leap_day_is_left_out);
    g_test_add_func("/hours/same-rows", test_same_rows_in_other_clothes);
    g_test_add_func("/hours/absent-figures", test_absent_figures);
    g_test_add_func("/hours/missing-marks", test_missing_marks);
    g_test_add_func("/hours/refused", test_refused);
    g_test_add_func("/hours/leap-rows", test_leap_rows);
    g_test_add_func("/hours/units", test_units);
    g_test_add_func("/hours/too-many-years", test_too_many_years);
    g_test_add_func("/hours/place", test_place);
    g_test_add_func("/hours/hemisphere", test_hemisphere);
    g_test_add("/hours/files", Scratch, NULL, scratch_set_up, test_files, scratch_tear_down);
    g_test_add_func("/hours/damage", test_damage);
    return g_test_run();
}
