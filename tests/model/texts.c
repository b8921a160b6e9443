/* Numbers and months for people and from people. */
#include "figures_text.h"
#include <math.h>

static void test_number(void)
{
    static const struct {
        double value;
        int decimals;
        const char *text;
    } cases[] = {
        {0, 0, "0"},
        {-0.4, 0, "0"},
        {999, 0, "999"},
        {1000, 0, "1,000"},
        {-1234.5, 1, "-1,234.5"},
        {1234567.891, 2, "1,234,567.89"},
        {0.05, 1, "0.1"},
        {12.0, 2, "12.00"},
        {1e15, 0, "1,000,000,000,000,000"},
        {NAN, 2, "\342\200\223"},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(cases); i++) {
        g_autofree char *text = wb_text_number(cases[i].value, cases[i].decimals);
        g_assert_cmpstr(text, ==, cases[i].text);
    }
}

/* What is written for the file reads back as the same double. */
static void test_plain(void)
{
    static const double values[] = {0,      1,
                                    0.1,    1.0 / 3,
                                    1e-7,   123456789.125,
                                    1e21,   -2.5,
                                    45,     1700,
                                    1e6,    0.30000000000000004,
                                    5e-324, 1.7976931348623157e308};
    for (gsize i = 0; i < G_N_ELEMENTS(values); i++) {
        g_autofree char *text = wb_text_plain(values[i]);
        g_assert_true(g_ascii_strtod(text, NULL) == values[i]);
    }
    g_autofree char *tenth = wb_text_plain(0.1);
    g_autofree char *million = wb_text_plain(1e6);
    g_assert_cmpstr(tenth, ==, "0.1");
    g_assert_cmpstr(million, ==, "1000000");
}

static void test_read(void)
{
    static const struct {
        const char *text;
        double value; /* NaN: refused */
    } cases[] = {
        {"12.5", 12.5},
        {" 7 ", 7},
        {"-3", -3},
        {"+3", 3},
        {"\342\210\2224", -4}, /* minus sign */
        {".5", 0.5},
        {"12.", 12},
        {"007", 7},
        /* commas that group */
        {"1,200", 1200},
        {"12,345", 12345},
        {"123,456", 123456},
        {"12,345,678", 12345678},
        {"-1,200", -1200},
        {"1,234.5", 1234.5},
        /* a single comma that is decimal */
        {"12,5", 12.5},
        {"3,5", 3.5},
        {"0,25", 0.25},
        {"0,250", 0.25},
        {"1,20", 1.2},
        {"1,2000", 1.2},
        {"1234,567", 1234.567},
        {",250", 0.25},
        /* the point is never for thousands */
        {"1.200", 1.2},
        {"1.234,5", NAN},
        {"1.234.567", NAN},
        /* spaces: plain, unbreakable, thin; apostrophe */
        {"1 200", 1200},
        {"1\302\240200", 1200},
        {"1\342\200\211200", 1200},
        {"1\342\200\257200\342\200\257000", 1200000},
        {"1'200", 1200},
        {"1 200,5", 1200.5},
        {"1 200,500", 1200.5},
        {"1 200.5", 1200.5},
        {"1 2", NAN},
        {"0 250", NAN},
        {"1 200,500,000", NAN},
        /* neither */
        {"1,2,3", NAN},
        {"0,250,000", NAN},
        {"1,20,000", NAN},
        {"1234,567,890", NAN},
        {"1,200,", NAN},
        {"1.2.3", NAN},
        {"", NAN},
        {" ", NAN},
        {".", NAN},
        {",", NAN},
        {"-", NAN},
        {"--1", NAN},
        {"0x10", NAN},
        {"1e3", NAN},
        {"nan", NAN},
        {"inf", NAN},
        {"12 W", NAN},
        {"1\3772", NAN}, /* not UTF-8 */
    };
    for (gsize i = 0; i < G_N_ELEMENTS(cases); i++) {
        double value = 42;
        gboolean read = wb_text_read_number(cases[i].text, &value);
        g_autofree char *shown = g_strescape(cases[i].text, NULL);
        g_test_message("%s", shown);
        g_assert_cmpint(read, ==, !isnan(cases[i].value));
        g_assert_cmpfloat(value, ==, read ? cases[i].value : 42);
    }
}

static void test_months(void)
{
    static const struct {
        guint32 months;
        const char *text;
    } cases[] = {
        {0xfff, "all year"},
        {0x001, "January"},
        {0x0a0, "June, August"},
        {0x1e0, "June to September"},
        {0x003, "January, February"},
        {0xc03, "November to February"},
        {0, ""},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(cases); i++) {
        g_autofree char *text = wb_text_months(cases[i].months);
        g_assert_cmpstr(text, ==, cases[i].text);
    }
}

static void test_json(void)
{
    g_autofree char *text = wb_text_json("a \"b\" \\ \n\t\x01 \303\274");
    g_assert_cmpstr(text, ==, "\"a \\\"b\\\" \\\\ \\u000a\\u0009\\u0001 \303\274\"");
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/texts/number", test_number);
    g_test_add_func("/texts/plain", test_plain);
    g_test_add_func("/texts/read", test_read);
    g_test_add_func("/texts/months", test_months);
    g_test_add_func("/texts/json", test_json);
    return g_test_run();
}
