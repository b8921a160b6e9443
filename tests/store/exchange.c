#include "exchange.h"
#include "json.h"
#include "scratch.h"
#include <sqlite3.h>

static const char *const example_path = WB_DATA_DIR "/catalogue.example.json";

static WbDatabase *open_memory(gboolean empty)
{
    g_autoptr(GError) error = NULL;
    WbDatabase *database = wb_database_open(":memory:", empty, &error);
    g_assert_no_error(error);
    return database;
}

static char *export_all(WbDatabase *database)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbCatalogueView) view = wb_database_load(database, &error);
    g_assert_no_error(error);
    return wb_exchange_export(wb_catalogue_view_get(view));
}

static WbImportReport import_good(WbDatabase *database, const char *text, gboolean preview)
{
    WbImportReport report;
    g_autoptr(GError) error = NULL;
    wb_exchange_import(database, text, -1, "in.json", preview, &report, &error);
    g_assert_no_error(error);
    return report;
}

static void check_report(WbImportReport report, int added, int changed, int same)
{
    g_assert_cmpint(report.added, ==, added);
    g_assert_cmpint(report.changed, ==, changed);
    g_assert_cmpint(report.same, ==, same);
}

static int count_rows(const char *text)
{
    int n = 0;
    g_autoptr(WbJsonTree) tree = cJSON_Parse(text);
    for (const cJSON *list = tree->child; list; list = list->next)
        n += cJSON_IsArray(list) ? cJSON_GetArraySize(list) : 0;
    return n;
}

static void test_round_trip(void)
{
    g_autoptr(WbDatabase) from = open_memory(FALSE), to = open_memory(TRUE);
    g_autofree char *text = export_all(from), *twice = export_all(from);
    g_assert_cmpstr(text, ==, twice);
    check_report(import_good(to, text, FALSE), count_rows(text), 0, 0);
    g_autofree char *again = export_all(to);
    g_assert_cmpstr(text, ==, again);
    check_report(import_good(to, text, FALSE), 0, 0, count_rows(text));
}

/* What is read must be what the file says, figure by figure, not only the same twice. */
static void test_figures_arrive(void)
{
    g_autoptr(GBytes) bytes = scratch_read(WB_DATA_DIR "/starting-catalogue.json");
    g_autoptr(WbJsonTree) file = cJSON_Parse(g_bytes_get_data(bytes, NULL));
    g_autoptr(WbDatabase) database = open_memory(FALSE);
    g_autofree char *text = export_all(database);
    g_autoptr(WbJsonTree) exported = cJSON_Parse(text);
    int compared = 0;
    for (const cJSON *list = file->child; list; list = list->next) {
        const cJSON *rows = cJSON_GetObjectItemCaseSensitive(exported, list->string);
        const gboolean by_id = cJSON_IsArray(list) && cJSON_HasObjectItem(list->child, "id");
        for (const cJSON *row = by_id ? list->child : NULL; row; row = row->next) {
            const char *id = cJSON_GetObjectItemCaseSensitive(row, "id")->valuestring;
            const cJSON *found = rows->child;
            while (strcmp(cJSON_GetObjectItemCaseSensitive(found, "id")->valuestring, id) != 0)
                found = found->next;
            for (const cJSON *member = row->child; member; member = member->next, compared++) {
                const cJSON *value = cJSON_GetObjectItemCaseSensitive(found, member->string);
                if (!g_str_has_prefix(member->string, "//") && !cJSON_Compare(member, value, TRUE))
                    g_error("%s of %s differs", member->string, id);
            }
        }
    }
    g_assert_cmpint(compared, >, 1500);
}

static const char addition[] =
    "{\"format\": \"wattberth-catalogue\", \"version\": 1,"
    " \"shops\": [{\"id\": \"s-new\", \"name\": \"New\", \"shipping_minor\": 0,"
    "              \"currency\": \"EUR\"}],"
    " \"fuses\": [{\"id\": \"f-new\", \"weight_kg\": 0.01, \"form\": \"blade\","
    "              \"rating_a\": 15, \"max_v\": 32, \"interrupt_a\": 1000}],"
    " \"offers\": [{\"part_id\": \"f-new\", \"shop_id\": \"s-new\", \"price_minor\": 120,"
    "               \"currency\": \"EUR\", \"date\": \"2026-11-01\"}]}";

static void test_merge(void)
{
    g_autoptr(WbDatabase) database = open_memory(FALSE);
    g_autofree char *before = export_all(database);
    check_report(import_good(database, addition, TRUE), 3, 0, 0);
    g_autofree char *previewed = export_all(database);
    g_assert_cmpstr(before, ==, previewed);
    check_report(import_good(database, addition, FALSE), 3, 0, 0);
    check_report(import_good(database, addition, FALSE), 0, 0, 3);
    g_autofree char *after = export_all(database);
    g_assert_cmpint(count_rows(after), ==, count_rows(before) + 3);
    g_auto(GStrv) parts = g_strsplit(addition, "\"price_minor\": 120", 2);
    g_autofree char *cheaper = g_strjoinv("\"price_minor\": 90", parts);
    check_report(import_good(database, cheaper, TRUE), 0, 1, 2);
    check_report(import_good(database, cheaper, FALSE), 0, 1, 2);
    g_autofree char *changed = export_all(database);
    g_assert_cmpint(count_rows(changed), ==, count_rows(after));
}

/* An offer whose part and shop are in the catalogue already; the same file alone is refused. */
/* A chemistry of one's own, with a battery of it, comes in by a file; what it leaves out stays
 * missing. */
static const char own_chemistry[] =
    "{\"format\": \"wattberth-catalogue\", \"version\": 1, \"chemistries\": ["
    "{\"id\": \"sodium\", \"name\": \"Sodium ion\", \"family\": \"other\", \"gassing\": \"none\","
    " \"cell_v\": 3.1, \"charge_v_per_cell\": 3.9, \"depth_limit\": 0.9,"
    " \"charge_efficiency\": 0.96, \"discharge_efficiency\": 0.96, \"accept_c\": 2,"
    " \"accept_from\": 0.9, \"accept_full_c\": 0, \"peukert\": 1.04,"
    " \"self_discharge_pct_month\": 3, \"calendar_years\": 12,"
    " \"capacity_by_c\": [[-20, 0.85], [25, 1]]}],"
    " \"storage\": [{\"id\": \"b-own\", \"weight_kg\": 9, \"chemistry\": \"sodium\","
    " \"nominal_v\": 12.4, \"capacity_ah\": 80, \"rated_hours\": 5, \"max_charge_a\": 80,"
    " \"max_discharge_a\": 120, \"max_series\": 4, \"max_parallel\": 4, \"length_mm\": 260,"
    " \"width_mm\": 168, \"height_mm\": 212, \"must_not_turn\": true}]}";

static void test_own_chemistry(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDatabase) database = open_memory(FALSE);
    check_report(import_good(database, own_chemistry, FALSE), 2, 0, 0);
    g_autoptr(WbCatalogueView) view = wb_database_load(database, &error);
    g_assert_no_error(error);
    const WbCatalogue *catalogue = wb_catalogue_view_get(view);
    const WbChemistry *sodium = wb_catalogue_chemistry(catalogue, "sodium");
    g_assert_nonnull(sodium);
    g_assert_cmpint(sodium->family, ==, WB_FAMILY_OTHER);
    g_assert_cmpfloat(sodium->accept_c, ==, 2);
    g_assert_cmpfloat(sodium->accept_from, ==, 0.9);
    g_assert_cmpfloat(sodium->accept_full_c, ==, 0);
    g_assert_true(isnan(sodium->charge_efficiency_full) && isnan(sodium->min_charge_c));
    g_assert_cmpint(sodium->freezing_by_depth.n, ==, 0);
    for (size_t i = 0; i < catalogue->n_storage; i++) {
        gboolean own = strcmp(catalogue->storage[i].part.id, "b-own") == 0;
        g_assert_true(!own || isnan(catalogue->storage[i].heater_w));
        g_assert_true(catalogue->storage[i].must_not_turn == own);
    }
    g_autofree char *exported = wb_exchange_export(catalogue);
    g_assert_nonnull(strstr(exported, "\"must_not_turn\":\ttrue"));
    check_report(import_good(database, own_chemistry, FALSE), 0, 0, 2);
}

static void test_references_in_database(void)
{
    static const char offer[] =
        "{\"format\": \"wattberth-catalogue\", \"version\": 1, \"offers\": [{\"part_id\": "
        "\"f-new\", \"shop_id\": \"s-new\", \"price_minor\": 99, \"currency\": \"EUR\", \"date\": "
        "\"2026-11-11\"}]}";
    WbImportReport report = {7, 7, 7};
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDatabase) database = open_memory(TRUE);
    g_assert_false(wb_exchange_import(database, offer, -1, "o.json", FALSE, &report, &error));
    assert_sentence(error,
                    "o.json: /offers/0/part_id is \"f-new\"|of this file or of the catalogue");
    check_report(report, 7, 7, 7);
    import_good(database, addition, FALSE);
    check_report(import_good(database, offer, FALSE), 1, 0, 0);
}

/* One value of the commented example put wrong; NULL: removed. */
static const struct {
    const char *pointer, *json, *words;
} wrong[] = {
    {"/format", "\"wattberth-brief\"", "/format is \"wattberth-brief\"|\"wattberth-catalogue\""},
    {"/version", "2", "/version is 2|up to 1"},
    {"/panels", "{}", "/panels is an object|a list"},
    {"/panels/0", "[]", "/panels/0 is the list []|an object"},
    {"/panels/0/id", "\"Big Panel\"", "/panels/0/id is \"Big Panel\"|lower-case"},
    {"/panels/0/id", NULL, "/panels/0/id is missing"},
    {"/panels/0/power_w", "-100", "/panels/0/power_w is -100|from 0.1 to 2000"},
    {"/panels/0/power_w", "\"100\"", "/panels/0/power_w is \"100\"|a number"},
    {"/panels/0/power_w", "null", "/panels/0/power_w is null|a number"},
    {"/panels/0/power_w", NULL, "/panels/0/power_w is missing"},
    {"/fittings/2/form", "\"none\"", "/fittings/2/form is \"none\"|because it is a block"},
    {"/fittings/2/form", "\"kettle\"", "/fittings/2/form is \"kettle\"|\"gpv\" or \"none\""},
    {"/fittings/2/max_a", NULL, "/fittings/2/max_a is missing|a block needs it"},
    {"/fittings/2/max_v", "null", "/fittings/2/max_v is null|a block needs it"},
    {"/fittings/2/ways", "0", "/fittings/2/ways is 0|at least 1"},
    {"/fittings/2/ways", "2.5", "/fittings/2/ways is 2.5|a whole number"},
    {"/fittings/2/role", "\"box\"", "/fittings/2/role is \"box\"|\"holder\""},
    {"/fuses/0/form", "\"none\"", "/fuses/0/form is \"none\"|\"terminal\" or \"gpv\""},
    {"/panels/0/vmp_v", "400", "/panels/0/vmp_v is 400|below voc_v, which is"},
    {"/panels/0/imp_a", "99", "/panels/0/imp_a is 99|at most isc_a, which is"},
    {"/panels/0/voc_coeff_pct_k", "0.3", "/panels/0/voc_coeff_pct_k is 0.3|from -1 to 0, or null"},
    {"/panels/0/cells", "36.5", "/panels/0/cells is 36.5|a whole number"},
    {"/panels/0/build", "\"bendy\"", "/panels/0/build is \"bendy\"|\"rigid\" or \"flexible\""},
    {"/panels/0/maker", "5", "/panels/0/maker is 5|a text"},
    {"/controllers/0/bus_12v", "1", "/controllers/0/bus_12v is 1|true or false"},
    {"/controllers/0/profiles", "\"agm\"", "/controllers/0/profiles is \"agm\"|a list"},
    {"/controllers/0/profiles", "[\"AGM\"]", "/controllers/0/profiles|a list of chemistry ids"},
    {"/controllers/0/profiles", "[\"a b\", \"\"]", "/controllers/0/profiles"},
    {"/storage/0/chemistry", "\"air\"", "/storage/0/chemistry is \"air\"|of this file or of"},
    {"/storage/0/peukert", "0.9", "/storage/0/peukert is 0.9|from 1 to 2"},
    {"/inverters/0/bus_v", "36", "/inverters/0/bus_v is 36|12, 24 or 48"},
    {"/inverters/0/efficiency", "[[0.1, 0.8], [0.1, 0.9]]",
     "/inverters/0/efficiency is the list [[0.1,0.8],[0.1,0.9]]|ascending"},
    {"/inverters/0/efficiency", "[[0.1, 1.8]]", "/inverters/0/efficiency|from 0.01 to 1"},
    {"/inverters/0/efficiency", "[[0.1]]", "/inverters/0/efficiency|points [x, y]"},
    {"/inverters/0/efficiency", "[]", "/inverters/0/efficiency"},
    {"/inverters/0/efficiency", NULL, "/inverters/0/efficiency is missing"},
    {"/chemistries/0/family", "\"nickel\"", "/chemistries/0/family is \"nickel\"|\"other\""},
    {"/panels/0/low_light_pct", "49", "/panels/0/low_light_pct is 49|from 50 to 105, or null"},
    {"/panels/0/low_light_pct", "\"good\"", "/panels/0/low_light_pct is \"good\"|a number"},
    {"/storage/0/capacity_ah", "0", "/storage/0/capacity_ah is 0|from 0.1 to 20000"},
    {"/storage/0/heater_w", "0", "/storage/0/heater_w is 0|from 1 to 1000, or null"},
    {"/storage/0/must_not_turn", "1", "/storage/0/must_not_turn is 1|true or false"},
    {"/chemistries/0/charge_efficiency_full", "1.1", "is 1.1|from 0.01 to 1, or null"},
    {"/chemistries/0/accept_c", NULL,
     "/chemistries/0/accept_c is missing|accept_from is given|all three or none"},
    {"/chemistries/0/accept_from", "null",
     "/chemistries/0/accept_from is null|accept_c is given|all three or none"},
    {"/chemistries/0/accept_full_c", NULL,
     "/chemistries/0/accept_full_c is missing|all three or none"},
    {"/chemistries/0/accept_c", "0", "/chemistries/0/accept_c is 0|from 0.001 to 10"},
    {"/chemistries/0/accept_from", "1", "/chemistries/0/accept_from is 1|from 0 to 0.999"},
    {"/chemistries/0/accept_full_c", "0.5",
     "/chemistries/0/accept_full_c is 0.5|at most accept_c, which is 0.3"},
    {"/chemistries/0/name", "\"\"", "/chemistries/0/name is \"\"|1 to 200"},
    {"/offers/0/date", "\"2026-02-30\"", "/offers/0/date is \"2026-02-30\"|YYYY-MM-DD"},
    {"/offers/0/currency", "\"EURO\"", "/offers/0/currency is \"EURO\"|ISO 4217"},
    {"/offers/0/price_minor", "99.5", "/offers/0/price_minor is 99.5|a whole number"},
    {"/offers/0/part_id", "\"no-such\"", "/offers/0/part_id is \"no-such\""},
    {"/offers/0/shop_id", "\"no-such\"", "/offers/0/shop_id is \"no-such\""},
    {"/shops/0/shipping_minor", "-1", "/shops/0/shipping_minor is -1"},
};

/* Everything is checked before the first row is written: nothing of the file arrives. */
static void test_wrong_values(void)
{
    g_autoptr(GBytes) bytes = scratch_read(example_path);
    g_autoptr(WbDatabase) database = open_memory(TRUE);
    g_autofree char *before = export_all(database);
    for (size_t i = 0; i < G_N_ELEMENTS(wrong); i++) {
        g_autoptr(GError) error = NULL;
        WbImportReport report;
        g_autoptr(WbJsonTree) tree = cJSON_Parse(g_bytes_get_data(bytes, NULL));
        if (wrong[i].json)
            wb_json_set(tree, wrong[i].pointer, cJSON_Parse(wrong[i].json), &error);
        else
            wb_json_remove(tree, wrong[i].pointer, &error);
        g_assert_no_error(error);
        g_autofree char *text = wb_json_print(tree);
        if (wb_exchange_import(database, text, -1, "in.json", FALSE, &report, &error))
            g_error("%s was accepted", wrong[i].pointer);
        assert_sentence(error, wrong[i].words);
        assert_sentence(error, "in.json");
        g_autofree char *after = export_all(database);
        g_assert_cmpstr(before, ==, after);
    }
}

/* A misspelt figure would be missing without a word. */
static void test_not_read(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(GBytes) bytes = scratch_read(example_path);
    g_autoptr(WbJsonTree) tree = cJSON_Parse(g_bytes_get_data(bytes, NULL));
    g_autofree char *plain = wb_json_print(tree);
    g_autoptr(GPtrArray) none = wb_exchange_not_read(plain, -1, "in.json", &error);
    g_assert_cmpuint(none->len, ==, 0);
    wb_json_remove(tree, "/panels/0/noct_c", NULL);
    wb_json_set(tree, "/panels/0/nocct", cJSON_CreateNumber(45), NULL);
    g_autofree char *text = wb_json_print(tree);
    g_autoptr(GPtrArray) rest = wb_exchange_not_read(text, -1, "in.json", &error);
    g_assert_no_error(error);
    g_assert_cmpuint(rest->len, ==, 1);
    g_autofree char *said = wb_not_read_text(rest->pdata[0]);
    g_assert_cmpstr(said, ==, "/panels/0/nocct; did you mean noct_c?");
    g_assert_null(wb_exchange_not_read("[]", -1, "in.json", &error));
    assert_sentence(error, "in.json");
}

static void expect_refused(WbDatabase *database, const char *text, const char *words)
{
    g_autoptr(GError) error = NULL;
    WbImportReport report;
    g_assert_false(wb_exchange_import(database, text, -1, "in.json", FALSE, &report, &error));
    assert_sentence(error, words);
}

static void test_repeated_ids(void)
{
    g_autoptr(GBytes) bytes = scratch_read(example_path);
    static const struct {
        const char *from, *to, *words;
    } copies[] = {
        {"/panels/0", "/panels/-", "stands in the file once"},
        {"/shops/0", "/shops/-", "stands in the file once"},
        {"/chemistries/0", "/chemistries/-", "stands in the file once"},
        {"/offers/0", "/offers/-", "one offer only by this shop on this date"},
    };
    g_autoptr(WbDatabase) database = open_memory(TRUE);
    for (size_t i = 0; i < G_N_ELEMENTS(copies); i++) {
        g_autoptr(WbJsonTree) tree = cJSON_Parse(g_bytes_get_data(bytes, NULL));
        cJSON *copy = cJSON_Duplicate(wb_json_at(tree, copies[i].from), TRUE);
        g_assert_true(wb_json_insert(tree, copies[i].to, copy, NULL));
        g_autofree char *text = wb_json_print(tree);
        expect_refused(database, text, copies[i].words);
    }
    g_autoptr(WbJsonTree) tree = cJSON_Parse(g_bytes_get_data(bytes, NULL));
    cJSON *panel_id = wb_json_at(tree, "/panels/0/id");
    wb_json_set(tree, "/fuses/0/id", cJSON_Duplicate(panel_id, TRUE), NULL);
    g_autofree char *across = wb_json_print(tree);
    expect_refused(database, across, "/fuses/0/id|stands in the file once");
}

static void test_other_kind(void)
{
    g_autoptr(WbDatabase) database = open_memory(FALSE);
    g_autoptr(GError) error = NULL;
    g_autoptr(WbCatalogueView) view = wb_database_load(database, &error);
    const char *id = wb_catalogue_view_get(view)->panels[0].part.id;
    g_auto(GStrv) pieces = g_strsplit(addition, "f-new", -1);
    g_autofree char *text = g_strjoinv(id, pieces);
    g_autofree char *before = export_all(database);
    expect_refused(database, text, "/fuses/0/id|the catalogue has a panel of that id");
    g_autofree char *after = export_all(database);
    g_assert_cmpstr(before, ==, after);
}

static void test_load_export(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbCatalogueView) view = wb_exchange_load(example_path, &error);
    g_assert_no_error(error);
    const WbCatalogue *catalogue = wb_catalogue_view_get(view);
    g_assert_cmpuint(catalogue->n_panels, >, 0);
    g_assert_nonnull(wb_catalogue_chemistry(catalogue, catalogue->storage[0].chemistry));
}

/* Loading a database for reading touches nothing, and sees what is still in its log. */
static void test_load_database(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "catalogue # 1?.db");
    g_autoptr(GError) error = NULL;
    WbDatabase *database = wb_database_open(path, FALSE, &error);
    g_assert_no_error(error);
    import_good(database, addition, FALSE);
    g_autofree char *expected = export_all(database);
    g_autoptr(WbCatalogueView) beside = wb_exchange_load(path, &error);
    g_assert_no_error(error);
    g_autofree char *while_open = wb_exchange_export(wb_catalogue_view_get(beside));
    g_assert_cmpstr(expected, ==, while_open);
    wb_database_close(database);
    g_autoptr(GBytes) before = scratch_read(path);
    g_autoptr(WbCatalogueView) alone = wb_exchange_load(path, &error);
    g_assert_no_error(error);
    g_autofree char *closed = wb_exchange_export(wb_catalogue_view_get(alone));
    g_assert_cmpstr(expected, ==, closed);
    g_autoptr(GBytes) after = scratch_read(path);
    g_assert_true(g_bytes_equal(before, after));
    g_assert_cmpint(scratch_count(scratch), ==, 1);
}

static void test_load_nothing(Scratch *scratch, gconstpointer data)
{
    g_autofree char *missing = scratch_file(scratch, "missing");
    g_autofree char *empty = scratch_file(scratch, "empty");
    g_autofree char *short_one = scratch_file(scratch, "short");
    scratch_write(empty, "", 0);
    scratch_write(short_one, "SQLite format 3\0", 16);
    const struct {
        const char *path, *words;
    } files[] = {
        {missing, "cannot be opened"},
        {empty, "is empty"},
        {scratch->path, "cannot be read"},
        {short_one, ""},
        {WB_DATA_DIR "/demo.brief.json", "/format is \"wattberth-brief\"|\"wattberth-catalogue\""},
        {WB_DATA_DIR "/places.csv", "line 1, column 1"},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(files); i++) {
        g_autoptr(GError) error = NULL;
        g_assert_null(wb_exchange_load(files[i].path, &error));
        assert_sentence(error, files[i].words);
        assert_sentence(error, files[i].path);
    }
    g_assert_cmpint(scratch_count(scratch), ==, 2);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/exchange/round-trip", test_round_trip);
    g_test_add_func("/exchange/figures-arrive", test_figures_arrive);
    g_test_add_func("/exchange/merge", test_merge);
    g_test_add_func("/exchange/own-chemistry", test_own_chemistry);
    g_test_add_func("/exchange/references-in-database", test_references_in_database);
    g_test_add_func("/exchange/wrong-values", test_wrong_values);
    g_test_add_func("/exchange/not-read", test_not_read);
    g_test_add_func("/exchange/repeated-ids", test_repeated_ids);
    g_test_add_func("/exchange/other-kind", test_other_kind);
    g_test_add_func("/exchange/load-export", test_load_export);
    g_test_add("/exchange/load-database", Scratch, NULL, scratch_set_up, test_load_database,
               scratch_tear_down);
    g_test_add("/exchange/load-nothing", Scratch, NULL, scratch_set_up, test_load_nothing,
               scratch_tear_down);
    return g_test_run();
}
