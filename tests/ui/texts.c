/* What is typed and shown, without a display: numbers with units, axes, figures of parts. */
#include "axis.h"
#include "format.h"
#include "part_edit.h"
#include <locale.h>
#include <math.h>

static void test_parse(void)
{
    static const struct {
        const char *text;
        gboolean good;
        double value;
    } cases[] = {
        {"12", TRUE, 12},
        {" 12.5 ", TRUE, 12.5},
        {"12,5", TRUE, 12.5},
        {"1,932", TRUE, 1932},
        {"1,932.5", TRUE, 1932.5},
        {"1 932 W", TRUE, 1932},
        {"0,250 kg", TRUE, 0.25},
        {"12V", TRUE, 12},
        {"1,2,3", FALSE, 0},
        {"5 1/2", FALSE, 0},
        {"1/2", FALSE, 0},
        {"5 x 2", FALSE, 0},
        {"1,200 \xe2\x82\xac", TRUE, 1200},
        {"-12,5 \xc2\xb0"
         "C",
         TRUE, -12.5},
        {"-0.3 %/K", TRUE, -0.3},
        {"\xe2\x88\x92"
         "4",
         TRUE, -4},
        {"2.1 m2", TRUE, 2.1},
        {"", TRUE, NAN},
        {"   ", TRUE, NAN},
        {"abc", FALSE, 0},
        {"1.2.3", FALSE, 0},
        {"--4", FALSE, 0},
        {"12 apples 7", FALSE, 0},
        {"nan", FALSE, 0},
        {"inf", FALSE, 0},
        {"1e400", FALSE, 0},
        {"1\377", FALSE, 0},
        {"-", FALSE, 0},
        {"W", FALSE, 0},
    };
    for (guint i = 0; i < G_N_ELEMENTS(cases); i++) {
        double value = -77;
        gboolean good = wb_format_parse(cases[i].text, &value);
        g_test_message("“%s” gives %d, %g", cases[i].text, good, value);
        g_assert_cmpint(good, ==, cases[i].good);
        if (good && isnan(cases[i].value))
            g_assert_true(isnan(value));
        else
            g_assert_cmpfloat(value, ==, good ? cases[i].value : -77);
    }
}

static void test_figures(void)
{
    g_autofree char *cost = wb_format_figure(WB_CRITERION_COST, 161249, "EUR");
    g_autofree char *yen = wb_format_figure(WB_CRITERION_COST, 161249, "JPY");
    g_autofree char *weight = wb_format_figure(WB_CRITERION_WEIGHT, 74.04, "EUR");
    g_autofree char *missing = wb_format_quantity(NAN, 1, "kg");
    g_autofree char *money = wb_format_money(161249, "EUR");
    g_assert_cmpstr(cost, ==,
                    "1,612\xe2\x80\xaf"
                    "EUR");
    g_assert_cmpstr(yen, ==,
                    "161,249\xe2\x80\xaf"
                    "JPY");
    g_assert_cmpstr(weight, ==, "74.0\xe2\x80\xafkg");
    g_assert_cmpstr(missing, ==, "\xe2\x80\x93");
    g_assert_cmpstr(money, ==, "1,612.49");
}

/* Whatever the range: it is covered, ticks are round, and there are not too many of them. */
static void test_axis(void)
{
    static const struct {
        double low, high;
    } cases[] = {{0, 1},   {0, 7},         {912, 2613},  {-12, 40},      {3, 3},
                 {0, 0},   {1e-4, 3.2e-4}, {0, 1e9},     {NAN, NAN},     {INFINITY, -INFINITY},
                 {-5, -5}, {0.999, 1.001}, {99.5, 1000}, {-1e-12, 1e-12}};
    for (guint i = 0; i < G_N_ELEMENTS(cases); i++)
        for (int most = 2; most <= 8; most++) {
            WbAxis axis = wb_axis_fit(cases[i].low, cases[i].high, most);
            double lead = axis.step / pow(10, floor(log10(axis.step) + 1e-9));
            int ticks = wb_axis_ticks(&axis);
            g_test_message("%g to %g: %g, %g, step %g", cases[i].low, cases[i].high, axis.low,
                           axis.high, axis.step);
            g_assert_cmpint(ticks, >=, 2);
            g_assert_cmpint(ticks, <=, most + 1);
            g_assert_true(fabs(lead - 1) < 1e-6 || fabs(lead - 2) < 1e-6 || fabs(lead - 5) < 1e-6);
            if (cases[i].low <= cases[i].high) {
                g_assert_cmpfloat(axis.low, <=, cases[i].low + 1e-9 * axis.step);
                g_assert_cmpfloat(axis.high, >=, cases[i].high - 1e-9 * axis.step);
            }
            g_assert_cmpfloat_with_epsilon(wb_axis_tick(&axis, ticks - 1), axis.high,
                                           axis.step * 1e-6);
        }
}

static const WbField *field_of(WbPartKind kind, const char *key)
{
    size_t n;
    const WbField *fields = wb_part_fields(kind, &n);
    const WbField *field = wb_field_find(fields, n, key);
    g_assert_nonnull(field);
    return field;
}

static void test_part_figures(void)
{
    static const struct {
        WbPartKind kind;
        const char *key, *text;
        WbTyped typed;
    } cases[] = {
        {WB_KIND_PANEL, "voc_v", "22.1", WB_TYPED_GOOD},
        {WB_KIND_PANEL, "voc_v", "22,1 V", WB_TYPED_GOOD},
        {WB_KIND_PANEL, "voc_v", "221", WB_TYPED_UNUSUAL},
        {WB_KIND_PANEL, "voc_v", "-3", WB_TYPED_REFUSED},
        {WB_KIND_PANEL, "voc_v", "", WB_TYPED_REFUSED},
        {WB_KIND_PANEL, "voc_v", "many", WB_TYPED_REFUSED},
        {WB_KIND_PANEL, "noct_c", "", WB_TYPED_GOOD},
        {WB_KIND_PANEL, "length_mm", "1480", WB_TYPED_GOOD},
        {WB_KIND_PANEL, "length_mm", "1480.5", WB_TYPED_REFUSED},
        {WB_KIND_PANEL, "build", "flexible", WB_TYPED_GOOD},
        {WB_KIND_PANEL, "build", "bent", WB_TYPED_REFUSED},
        {WB_KIND_PANEL, "maker", "", WB_TYPED_GOOD},
        {WB_KIND_INVERTER, "efficiency", "0.1 0.85; 0.5 0.92; 1 0.89", WB_TYPED_GOOD},
        {WB_KIND_INVERTER, "efficiency", "0.5 0.85; 0.1 0.92", WB_TYPED_REFUSED},
        {WB_KIND_INVERTER, "efficiency", "0.5", WB_TYPED_REFUSED},
        {WB_KIND_INVERTER, "efficiency", "", WB_TYPED_REFUSED},
        {WB_KIND_INVERTER, "efficiency", "0.5 7", WB_TYPED_REFUSED},
    };
    for (guint i = 0; i < G_N_ELEMENTS(cases); i++) {
        const WbField *field = field_of(cases[i].kind, cases[i].key);
        g_autofree char *sentence = NULL;
        g_autofree char *record = g_malloc0(wb_kind_size(cases[i].kind));
        g_autofree char *before = g_memdup2(record, wb_kind_size(cases[i].kind));
        WbTyped typed = wb_part_edit_read(field, cases[i].text, record, &sentence);
        g_test_message("%s “%s”: %s", cases[i].key, cases[i].text, sentence ? sentence : "good");
        g_assert_cmpint(typed, ==, cases[i].typed);
        g_assert_true((sentence == NULL) == (typed == WB_TYPED_GOOD));
        if (typed == WB_TYPED_REFUSED)
            g_assert_cmpmem(record, wb_kind_size(cases[i].kind), before,
                            wb_kind_size(cases[i].kind));
    }
}

/* What is shown reads back to the same text. */
static void test_part_texts(void)
{
    static const char *const curve = "0.1 0.85; 0.5 0.92; 1 0.89";
    WbInverter inverter = {.part = {"i-1", "A", "B", "", 2.6}, .continuous_w = 600};
    g_autofree char *sentence = NULL;
    const WbField *field = field_of(WB_KIND_INVERTER, "efficiency");
    g_assert_cmpint(wb_part_edit_read(field, curve, &inverter, &sentence), ==, WB_TYPED_GOOD);
    g_assert_cmpint(inverter.efficiency.n, ==, 3);
    g_assert_cmpfloat(inverter.efficiency.point[1].y, ==, 0.92);
    g_autofree char *text = wb_part_edit_text(field, &inverter);
    g_assert_cmpstr(text, ==, curve);
    WbPanel panel = {.noct_c = WB_MISSING, .power_w = 117.5};
    g_autofree char *missing = wb_part_edit_text(field_of(WB_KIND_PANEL, "noct_c"), &panel);
    g_autofree char *power = wb_part_edit_text(field_of(WB_KIND_PANEL, "power_w"), &panel);
    g_assert_cmpstr(missing, ==, "");
    g_assert_cmpstr(power, ==, "117.5");
}

int main(int argc, char **argv)
{
    setlocale(LC_ALL, "");
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/ui/parse", test_parse);
    g_test_add_func("/ui/figures", test_figures);
    g_test_add_func("/ui/axis", test_axis);
    g_test_add_func("/ui/part-figures", test_part_figures);
    g_test_add_func("/ui/part-texts", test_part_texts);
    return g_test_run();
}
