/* Loads as a person types them: cells, rows, rows of a spreadsheet, appliances. */
#include "load_day.h"
#include "load_list.h"
#include "rig.h"
#include <math.h>

typedef struct {
    WbLoadField field;
    const char *typed, *shown;
} Typed;

static const Typed taken[] = {
    {WB_LOAD_NAME, "  Fridge ", "Fridge"},
    {WB_LOAD_WATTS, "12,5", "12.5"},
    {WB_LOAD_WATTS, " 45 ", "45"},
    {WB_LOAD_COUNT, "3", "3"},
    {WB_LOAD_SUPPLY, "ac", "AC"},
    {WB_LOAD_SUPPLY, "DC", "DC"},
    {WB_LOAD_WHEN, "all day", "all day"}, /* 24 hours do not fit into an evening */
    {WB_LOAD_HOURS, "24", "24"},
    {WB_LOAD_HOURS, "0,5", "0.5"},
    {WB_LOAD_DUTY, "28 %", "28"},
    {WB_LOAD_DUTY, "33.5", "33.5"},
    {WB_LOAD_WHEN, "Night", "night"},
    {WB_LOAD_WHEN, "all day", "all day"},
    {WB_LOAD_WHEN, "7:30-9:00", "07:30-09:00"},
    {WB_LOAD_WHEN, "22:00-06:00", "22:00-06:00"},
    {WB_LOAD_MONTHS, "5-9, 12", "5-9, 12"},
    {WB_LOAD_MONTHS, "all", "all"},
    {WB_LOAD_MONTHS, "11-2", "1-2, 11-12"},
    {WB_LOAD_MONTHS, "1-12", "all"},
    {WB_LOAD_DAYS, "2,5", "2.5"},
    {WB_LOAD_SURGE, "3", "3"},
    {WB_LOAD_TOGETHER, "no", "no"},
    {WB_LOAD_SINE, "yes", "yes"},
    {WB_LOAD_DROP, "10 %", "10 %"},
    {WB_LOAD_LENGTH, "2,5", "2.5"},
    {WB_LOAD_LENGTH, "0.05", "0.05"},
    {WB_LOAD_LENGTH, " 100 ", "100"},
    {WB_LOAD_LENGTH, " ", ""},
};

static void test_taken(void)
{
    g_autoptr(WbDocument) document = rig_document();
    for (gsize i = 0; i < G_N_ELEMENTS(taken); i++) {
        g_autoptr(GError) error = NULL;
        g_test_message("%s: %s", wb_load_column(taken[i].field)->title, taken[i].typed);
        g_assert_true(wb_load_set_text(document, 0, taken[i].field, taken[i].typed, &error));
        g_assert_no_error(error);
        g_autofree char *shown =
            wb_load_text(&wb_document_get_brief(document)->loads[0], taken[i].field);
        g_assert_cmpstr(shown, ==, taken[i].shown);
    }
}

static const Typed refused[] = {
    {WB_LOAD_NAME, "   ", NULL},
    {WB_LOAD_WATTS, "many", NULL},
    {WB_LOAD_WATTS, "-5", NULL},
    {WB_LOAD_WATTS, "", NULL},
    {WB_LOAD_WATTS, "1,2,3", NULL},
    {WB_LOAD_WATTS, "inf", NULL},
    {WB_LOAD_WATTS, "1e999", NULL},
    {WB_LOAD_COUNT, "0", NULL},
    {WB_LOAD_COUNT, "1.5", NULL},
    {WB_LOAD_SUPPLY, "gas", NULL},
    {WB_LOAD_HOURS, "25", NULL},
    {WB_LOAD_DUTY, "101", NULL},
    {WB_LOAD_DUTY, "-1", NULL},
    {WB_LOAD_WHEN, "sometimes", NULL},
    {WB_LOAD_WHEN, "25:00-26:00", NULL},
    {WB_LOAD_WHEN, "7-9", NULL},
    {WB_LOAD_WHEN, "07:30-09:00x", NULL},
    {WB_LOAD_MONTHS, "13", NULL},
    {WB_LOAD_MONTHS, "0", NULL},
    {WB_LOAD_MONTHS, "5-", NULL},
    {WB_LOAD_MONTHS, "May", NULL},
    {WB_LOAD_MONTHS, "", NULL},
    {WB_LOAD_DAYS, "8", NULL},
    {WB_LOAD_SURGE, "0.5", NULL},
    {WB_LOAD_TOGETHER, "perhaps", NULL},
    {WB_LOAD_DROP, "5 %", NULL},
    {WB_LOAD_LENGTH, "0", NULL},
    {WB_LOAD_LENGTH, "-2", NULL},
    {WB_LOAD_LENGTH, "101", NULL},
    {WB_LOAD_LENGTH, "far", NULL},
    {WB_LOAD_NAME, "\xff\xfe", NULL},
};

static void test_refused(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_autofree char *before = rig_text(document);
    for (gsize i = 0; i < G_N_ELEMENTS(refused); i++) {
        g_autoptr(GError) error = NULL;
        g_test_message("%s: case %zu", wb_load_column(refused[i].field)->title, i);
        g_assert_false(wb_load_set_text(document, 0, refused[i].field, refused[i].typed, &error));
        g_assert_nonnull(error);
        g_assert_cmpuint(strlen(error->message), >, 10);
        g_autofree char *after = rig_text(document);
        g_assert_cmpstr(before, ==, after);
    }
}

/* What every column shows, typed again, changes nothing. */
static void test_shown_reads_back(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_assert_true(wb_document_begin_demo(document, NULL));
    const WbBrief *brief = wb_document_get_brief(document);
    g_autofree char *before = rig_text(document);
    for (guint i = 0; i < brief->n_loads; i++)
        for (int field = 0; field < WB_N_LOAD_COLUMNS; field++) {
            g_autofree char *shown = wb_load_text(&brief->loads[i], field);
            g_autofree char *json = wb_load_json(field, shown, NULL);
            g_assert_nonnull(json);
            g_assert_true(wb_load_set_text(document, i, field, shown, NULL));
        }
    g_autofree char *after = rig_text(document);
    g_assert_cmpstr(before, ==, after);
}

static void test_volts_and_amps(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_assert_true(wb_document_set_json(document, "Set", "/loads/0",
                                       "{\"name\": \"Radio\", \"volts\": 12, \"amps\": 2, "
                                       "\"supply\": \"dc\", \"hours_per_day\": 1}",
                                       NULL));
    g_assert_true(wb_load_set_text(document, 0, WB_LOAD_WATTS, "36", NULL));
    g_autofree char *amps = wb_document_get_json(document, "/loads/0/amps");
    g_autofree char *watts = wb_document_get_json(document, "/loads/0/watts");
    g_assert_cmpstr(amps, ==, "3");
    g_assert_null(watts);
    g_assert_cmpfloat(wb_document_get_brief(document)->loads[0].power_w, ==, 36);
}

static void test_rows(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_autofree char *before = rig_text(document);
    g_assert_true(wb_load_add(document, 99, NULL));
    g_assert_true(wb_load_duplicate(document, 0, NULL));
    g_assert_true(wb_load_move(document, 0, 2, NULL));
    const WbBrief *brief = wb_document_get_brief(document);
    g_assert_cmpuint(brief->n_loads, ==, 3);
    g_assert_cmpstr(brief->loads[2].name, ==, "LED lights");
    g_assert_true(wb_load_remove(document, 1, NULL));
    g_assert_cmpuint(wb_document_get_brief(document)->n_loads, ==, 2);
    while (wb_document_undo(document))
        ;
    g_autofree char *after = rig_text(document);
    g_assert_cmpstr(before, ==, after);
}

static void test_paste(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_autoptr(GError) error = NULL;
    g_autofree char *before = rig_text(document);
    guint n = 0;
    g_assert_true(wb_load_paste(document,
                                "Fridge\t45\t1\tDC\t24\t30\tall day\r\n"
                                "\r\n"
                                "Kettle;900;1;AC;0,2;;;5-9\n",
                                &n, &error));
    g_assert_no_error(error);
    g_assert_cmpuint(n, ==, 2);
    const WbBrief *brief = wb_document_get_brief(document);
    const WbLoad *kettle = &brief->loads[brief->n_loads - 1];
    g_assert_cmpstr(kettle->name, ==, "Kettle");
    g_assert_true(kettle->ac);
    g_assert_cmpfloat(kettle->hours_day, ==, 0.2);
    g_assert_cmpuint(kettle->months, ==, 0x1f0);
    g_assert_true(wb_document_undo(document)); /* one step */
    g_autofree char *after = rig_text(document);
    g_assert_cmpstr(before, ==, after);
    g_assert_false(wb_load_paste(document, "Fridge\t45\nKettle\thot\n", &n, &error));
    g_assert_nonnull(strstr(error->message, "Line 2"));
    g_assert_nonnull(strstr(error->message, "hot"));
    g_autofree char *still = rig_text(document);
    g_assert_cmpstr(before, ==, still);
}

/* Every appliance is a load the brief takes. */
static void test_appliances(void)
{
    g_autoptr(WbDocument) document = rig_document();
    gsize n;
    const WbAppliance *appliances = wb_appliances(&n);
    g_assert_cmpuint(n, >=, 12);
    for (gsize i = 0; i < n; i++) {
        g_autoptr(GError) error = NULL;
        g_assert_true(wb_load_add_appliance(document, &appliances[i], &error));
        g_assert_no_error(error);
        const WbBrief *brief = wb_document_get_brief(document);
        const WbLoad *load = &brief->loads[brief->n_loads - 1];
        g_assert_cmpstr(load->name, ==, appliances[i].name);
        g_assert_cmpfloat(load->power_w, ==, appliances[i].watts);
        g_assert_cmpint(load->ac, ==, appliances[i].ac);
    }
}

/* The loads one by one add up to the budget, hour by hour. */
static void test_day_adds_up(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_assert_true(wb_document_begin_demo(document, NULL));
    g_autoptr(WbLoadDay) day = wb_load_day_new(wb_document_get_brief(document));
    double sum = 0;
    g_assert_cmpint(day->month, >=, 0);
    for (int h = 0; h < WB_HOURS; h++) {
        double hour = 0;
        for (gsize i = 0; i < day->n; i++)
            hour += day->wh[i][h];
        g_assert_cmpfloat_with_epsilon(
            hour, day->budget.dc_wh[day->month][h] + day->budget.ac_wh[day->month][h], 1e-9);
        sum += hour;
    }
    g_assert_cmpfloat_with_epsilon(sum, day->total_wh[day->month], 1e-6);
    for (int m = 0; m < WB_MONTHS; m++)
        if (wb_document_get_brief(document)->site.months >> m & 1)
            g_assert_cmpfloat(day->total_wh[m], <=, day->total_wh[day->month]);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/loads/taken", test_taken);
    g_test_add_func("/loads/refused", test_refused);
    g_test_add_func("/loads/shown-reads-back", test_shown_reads_back);
    g_test_add_func("/loads/volts-and-amps", test_volts_and_amps);
    g_test_add_func("/loads/rows", test_rows);
    g_test_add_func("/loads/paste", test_paste);
    g_test_add_func("/loads/appliances", test_appliances);
    g_test_add_func("/loads/day-adds-up", test_day_adds_up);
    return g_test_run();
}
