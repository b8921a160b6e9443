/* The chemistries of the starting catalogue against published values: what cold leaves of a bank,
 * when its acid freezes, how long it lasts. Marked "from memory" where the source was not at hand.
 */
#include "database.h"
#include "energy.h"
#include "published.h"

typedef struct {
    WbCatalogueView *view;
    const WbCatalogue *catalogue;
} Fixture;

static void set_up(Fixture *f, gconstpointer data)
{
    GError *error = NULL;
    g_autoptr(WbDatabase) database = wb_database_open(":memory:", FALSE, &error);
    g_assert_no_error(error);
    f->view = wb_database_load(database, &error);
    g_assert_no_error(error);
    f->catalogue = wb_catalogue_view_get(f->view);
}

static void tear_down(Fixture *f, gconstpointer data)
{
    wb_catalogue_view_unref(f->view);
}

static const WbChemistry *chemistry(const Fixture *f, const char *id)
{
    const WbChemistry *found = wb_catalogue_chemistry(f->catalogue, id);
    g_assert_nonnull(found);
    return found;
}

static const char *const lead_acid[] = {"flooded", "agm", "gel"};

/* IEEE 485 table 1, from memory: how many times larger a cell is taken at the temperature. What it
 * gives is 1 / that, never more than rated. */
static const struct {
    double at_f, factor;
} ieee_485[] = {
    {25, 1.520}, {30, 1.430},  {35, 1.350},  {40, 1.300},  {45, 1.250},  {50, 1.190},  {55, 1.150},
    {60, 1.110}, {65, 1.080},  {70, 1.040},  {77, 1.000},  {80, 0.980},  {85, 0.960},  {90, 0.940},
    {95, 0.930}, {100, 0.910}, {105, 0.890}, {110, 0.880}, {115, 0.870}, {120, 0.860},
};

static double celsius(double fahrenheit)
{
    return (fahrenheit - 32) / 1.8;
}

static void test_cold_capacity(Fixture *f, gconstpointer data)
{
    const char *source = "IEEE 485 table 1, from memory";
    for (gsize i = 0; i < G_N_ELEMENTS(ieee_485); i++) {
        double share = fmin(1, 1 / ieee_485[i].factor), c = celsius(ieee_485[i].at_f);
        published(source, wb_temperature_factor(chemistry(f, "flooded"), c), share, 0.03 * share);
        for (gsize k = 1; k < G_N_ELEMENTS(lead_acid); k++)
            g_assert_cmpfloat_with_epsilon(wb_temperature_factor(chemistry(f, lead_acid[k]), c),
                                           share, 0.03 * share);
    }
    published(source, wb_temperature_factor(chemistry(f, "flooded"), 0), 1 / 1.40, 0.03 / 1.40);
    /* Vented motive power at the 6 h rate. */
    published("TM 10-6140-200-14 1-9, 32 F", wb_temperature_factor(chemistry(f, "flooded"), 0),
              0.75, 0.04);
    published("TM 10-6140-200-14 1-9, 0 F",
              wb_temperature_factor(chemistry(f, "flooded"), celsius(0)), 0.40, 0.01);
}

/* Freezing by specific gravity, a vehicle owner's manual; states of charge of a battery of 1.265 at
 * full by a maker's support page (the middle of its ranges). */
static const WbCurve freezing_by_gravity = {
    6, {{1.050, -3}, {1.100, -8}, {1.150, -15}, {1.200, -27}, {1.225, -37}, {1.265, -59}}};

static const struct {
    double depth, gravity;
} by_charge[] = {{0, 1.265}, {0.25, 1.225}, {0.5, 1.190}, {0.75, 1.160}, {1, 1.120}};

/* TM 10-6140-200-14 table 1-1, a battery of 1.280 at full: it freezes no later than ours. */
static const struct {
    double depth, freezing_c;
} tm_1_1[] = {{0, -70.6}, {0.25, -52.2}, {0.5, -35.0}, {0.75, -17.2}};

static void test_freezing(Fixture *f, gconstpointer data)
{
    for (gsize k = 0; k < G_N_ELEMENTS(lead_acid); k++) {
        const WbCurve *ours = &chemistry(f, lead_acid[k])->freezing_by_depth;
        for (gsize i = 0; i < G_N_ELEMENTS(tm_1_1); i++)
            g_assert_cmpfloat(wb_curve_at(ours, tm_1_1[i].depth), >=, tm_1_1[i].freezing_c);
    }
    const WbCurve *flooded = &chemistry(f, "flooded")->freezing_by_depth;
    published("TM 10-6140-200-14 table 1-1, 25 % charged", wb_curve_at(flooded, 0.75), -17.2, 2);
    for (gsize i = 0; i < G_N_ELEMENTS(by_charge); i++)
        published("freezing by gravity: an owner's manual and a maker's page",
                  wb_curve_at(flooded, by_charge[i].depth),
                  wb_curve_at(&freezing_by_gravity, by_charge[i].gravity), 3);
}

/* What is usual, from memory or by several pages alike: the figure lies in the range. */
static void in_range(const char *what, double got, double least, double most)
{
    published(what, got, (least + most) / 2, (most - least) / 2 + 1e-9);
}

static void test_usual_figures(Fixture *f, gconstpointer data)
{
    static const struct {
        const char *id;
        double least_k, most_k, least_pct, most_pct;
    } rows[] = {{"flooded", 1.20, 1.35, 5, 15},
                {"agm", 1.05, 1.20, 1, 4},
                {"gel", 1.10, 1.25, 1, 4},
                {"lfp", 1.01, 1.08, 2, 3}};
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        const WbChemistry *of = chemistry(f, rows[i].id);
        in_range("usual Peukert exponents (pages of mixed quality)", of->peukert, rows[i].least_k,
                 rows[i].most_k);
        in_range("self-discharge a month, from memory", of->self_discharge_pct_month,
                 rows[i].least_pct, rows[i].most_pct);
    }
    published("LFP is charged from 0 C on: cell data, two pages alike",
              chemistry(f, "lfp")->min_charge_c, 0, 0);
}

static void test_cycles(Fixture *f, gconstpointer data)
{
    static const struct {
        const char *id;
        double depth, least, most;
    } rows[] = {{"flooded", 0.5, 1000, 1800}, {"flooded", 0.8, 500, 1000}, {"agm", 0.5, 500, 900},
                {"agm", 0.8, 300, 500},       {"gel", 0.5, 800, 1200},     {"gel", 0.8, 450, 600},
                {"lfp", 0.8, 2000, 5000},     {"lfp", 1, 2000, 3000}};
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++)
        in_range("usual cycles by depth, from memory",
                 wb_curve_at(&chemistry(f, rows[i].id)->cycles_by_depth, rows[i].depth),
                 rows[i].least, rows[i].most);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
#define ADD(name, test) g_test_add("/chemistries/" name, Fixture, NULL, set_up, test, tear_down)
    ADD("cold-capacity", test_cold_capacity);
    ADD("freezing", test_freezing);
    ADD("usual-figures", test_usual_figures);
    ADD("cycles", test_cycles);
    g_test_add_func("/chemistries/published-count", published_count);
    return g_test_run();
}
