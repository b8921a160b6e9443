#include "database.h"
#include "catalogue_table.h"
#include "database_sql.h"
#include "exchange.h"
#include "migrate.h"
#include "random.h"
#include "scratch.h"
#include <sqlite3.h>
#include <sys/wait.h>

static WbDatabase *open_good(const char *path, gboolean empty)
{
    g_autoptr(GError) error = NULL;
    WbDatabase *database = wb_database_open(path, empty, &error);
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

static gint64 ask(const char *path, const char *text)
{
    WbSql sql = {NULL, (char *)path};
    gint64 value;
    g_autoptr(GError) error = NULL;
    g_assert_cmpint(sqlite3_open(path, &sql.handle), ==, SQLITE_OK);
    g_assert_true(wb_sql_integer(&sql, text, &value, &error));
    sqlite3_close(sql.handle);
    return value;
}

static void run_raw(const char *path, const char *text)
{
    sqlite3 *handle;
    g_assert_cmpint(sqlite3_open(path, &handle), ==, SQLITE_OK);
    g_assert_cmpint(sqlite3_exec(handle, text, NULL, NULL, NULL), ==, SQLITE_OK);
    sqlite3_close(handle);
}

static void test_new_file(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "catalogue.db");
    g_autoptr(WbDatabase) database = open_good(path, FALSE);
    g_clear_pointer(&database, wb_database_close);
    g_assert_cmpint(ask(path, "PRAGMA application_id"), ==, WB_APPLICATION_ID);
    g_assert_cmpint(ask(path, "PRAGMA user_version"), ==, 5);
    g_assert_cmpint(ask(path, "SELECT count(*) FROM pragma_table_list WHERE schema = 'main' AND "
                              "name NOT LIKE 'sqlite%' AND NOT strict"),
                    ==, 0);
    g_assert_cmpint(ask(path, "SELECT count(*) FROM pragma_table_list WHERE strict"), ==,
                    WB_N_TABLES + 2);
    g_assert_cmpint(ask(path, "SELECT journal_mode = 'wal' FROM pragma_journal_mode"), ==, 1);
    g_assert_cmpint(scratch_count(scratch), ==, 1);
}

/* What the starting catalogue must hold at least. */
static void test_seed(void)
{
    g_autoptr(WbDatabase) database = open_good(":memory:", FALSE);
    g_autoptr(GError) error = NULL;
    g_autoptr(WbCatalogueView) view = wb_database_load(database, &error);
    g_assert_no_error(error);
    const WbCatalogue *catalogue = wb_catalogue_view_get(view);
    g_assert_cmpuint(catalogue->n_panels, >=, 24);
    g_assert_cmpuint(catalogue->n_storage, >=, 20);
    g_assert_cmpuint(catalogue->n_controllers, >=, 16);
    g_assert_cmpuint(catalogue->n_inverters, >=, 14);
    g_assert_cmpuint(catalogue->n_dcdc, >=, 6);
    g_assert_cmpuint(catalogue->n_conductors, >, 0);
    g_assert_cmpuint(catalogue->n_fuses, >, 0);
    g_assert_cmpuint(catalogue->n_fittings, >=, 30);
    g_assert_cmpuint(catalogue->n_offers, >, 0);
    g_assert_cmpuint(catalogue->n_chemistries, >=, 4);
    for (WbTableId id = 0; id < WB_N_TABLES; id++) {
        WbTable table = wb_table(id);
        size_t n;
        const char *rows = wb_table_rows(&table, catalogue, &n);
        for (size_t i = 1; i < n; i++)
            g_assert_cmpint(
                wb_table_compare(&table, rows + (i - 1) * table.size, rows + i * table.size), <, 0);
    }
}

static void test_empty(void)
{
    g_autoptr(WbDatabase) database = open_good(":memory:", TRUE);
    g_autofree char *text = export_all(database);
    g_assert_nonnull(strstr(text, "\"panels\":\t[]"));
    g_assert_nonnull(strstr(text, "\"offers\":\t[]"));
}

static void test_view_outlives(void)
{
    g_autoptr(GError) error = NULL;
    WbDatabase *database = open_good(":memory:", FALSE);
    WbCatalogueView *view = wb_database_load(database, &error);
    WbCatalogueView *other = wb_catalogue_view_ref(view);
    g_autofree char *before = export_all(database);
    wb_database_close(database);
    wb_catalogue_view_unref(view);
    g_autofree char *after = wb_exchange_export(wb_catalogue_view_get(other));
    g_assert_cmpstr(before, ==, after);
    wb_catalogue_view_unref(other);
}

/* ---- constraints: the schema and the field table say the same ---- */

/* A lug needs neither fuses nor ratings. */
#define FREE_ROLE ", role = 'lug', min_area_mm2 = 1, max_area_mm2 = 1"

/* A panel's working point lies within its curve, a chemistry accepts less when full and has all
 * three figures of that or none, a fitting has those of its role: the other figures that leave the
 * range free. */
static const char *companion(const char *table, const char *column, const char *value)
{
    static const struct {
        const char *table, *column, *given, *missing;
    } companions[] = {
        {"panel", "voc_v", ", vmp_v = 0.4", ""},
        {"panel", "vmp_v", ", voc_v = 500", ""},
        {"panel", "isc_a", ", imp_a = 0.01", ""},
        {"panel", "imp_a", ", isc_a = 100", ""},
        {"chemistry", "accept_c", ", accept_full_c = 0",
         ", accept_from = NULL, accept_full_c = NULL"},
        {"chemistry", "accept_from", "", ", accept_c = NULL, accept_full_c = NULL"},
        {"chemistry", "accept_full_c", ", accept_c = 10", ", accept_c = NULL, accept_from = NULL"},
        {"fitting", "role",
         ", form = 'blade', max_a = 1, max_v = 1, min_area_mm2 = 1, max_area_mm2 = 1, ways = 1",
         ""},
        {"fitting", "form", FREE_ROLE, ""},
        {"fitting", "max_a", "", FREE_ROLE},
        {"fitting", "max_v", "", FREE_ROLE},
        {"fitting", "min_area_mm2", ", max_area_mm2 = 2000", ", role = 'bus', max_a = 1"},
        {"fitting", "max_area_mm2", ", min_area_mm2 = 0.01", ", role = 'bus', max_a = 1"},
        {"fitting", "ways", ", role = 'bus', max_a = 1", ""},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(companions); i++)
        if (strcmp(companions[i].table, table) == 0 && strcmp(companions[i].column, column) == 0)
            return strcmp(value, "NULL") == 0 ? companions[i].missing : companions[i].given;
    return "";
}

static int update(sqlite3 *handle, const char *table, const char *column, const char *value)
{
    g_autofree char *text = g_strdup_printf(
        "SAVEPOINT s; UPDATE %s SET %s = %s%s WHERE rowid = (SELECT min(rowid) FROM "
        "%s)",
        table, column, value, companion(table, column, value), table);
    int code = sqlite3_exec(handle, text, NULL, NULL, NULL);
    g_assert_cmpint(sqlite3_exec(handle, "ROLLBACK TO s; RELEASE s", NULL, NULL, NULL), ==,
                    SQLITE_OK);
    return code;
}

static void expect(sqlite3 *handle, const WbTable *table, const char *column, const char *value,
                   int code)
{
    int found = update(handle, table->name, column, value);
    if (found != code)
        g_error("%s.%s = %s: %d, not %d", table->name, column, value, found, code);
}

static void check_range(sqlite3 *handle, const WbTable *table, const WbField *field)
{
    double step = field->type == WB_FIELD_NUMBER ? 1e-6 * (1 + fabs(field->most)) : 1;
    const struct {
        double value;
        int code;
    } values[] = {
        {field->least, SQLITE_OK},
        /* vmp_v is below voc_v, which has the same most. */
        {field->most, strcmp(field->key, "vmp_v") == 0 ? SQLITE_CONSTRAINT : SQLITE_OK},
        {field->least - step, SQLITE_CONSTRAINT},
        {field->most + step * (field->most > 1e15 ? 2 : 1), SQLITE_CONSTRAINT},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(values); i++) {
        g_autofree char *text =
            g_strdup_printf(field->type == WB_FIELD_NUMBER ? "%.17g" : "%.0f", values[i].value);
        expect(handle, table, field->key, text, values[i].code);
    }
    expect(handle, table, field->key, "'much'", SQLITE_CONSTRAINT);
    expect(handle, table, field->key, "NULL",
           field->may_be_missing && field->type == WB_FIELD_NUMBER ? SQLITE_OK : SQLITE_CONSTRAINT);
}

static void check_text(sqlite3 *handle, const WbTable *table, const WbField *field)
{
    expect(handle, table, field->key, "NULL", SQLITE_CONSTRAINT);
    expect(handle, table, field->key, "printf('%.*c', 20001, 'x')", SQLITE_CONSTRAINT);
    if (wb_field_text_ok(field, "x") && wb_field_text_ok(field, "Any Text"))
        expect(handle, table, field->key, "printf('%.*c', 200, 'x')", SQLITE_OK);
    if (!wb_field_text_ok(field, ""))
        expect(handle, table, field->key, "''", SQLITE_CONSTRAINT);
    if (!wb_field_text_ok(field, "Any Text"))
        expect(handle, table, field->key, "'Any Text'", SQLITE_CONSTRAINT);
}

static void check_field(sqlite3 *handle, const WbTable *table, const WbField *field)
{
    switch (field->type) {
    case WB_FIELD_NUMBER:
        check_range(handle, table, field);
        break;
    case WB_FIELD_INTEGER:
        check_range(handle, table, field);
        expect(handle, table, field->key, "20.5", SQLITE_CONSTRAINT);
        for (int i = 0; field->choices && field->choices[i]; i++)
            expect(handle, table, field->key, field->choices[i], SQLITE_OK);
        if (field->choices)
            expect(handle, table, field->key, "36", SQLITE_CONSTRAINT);
        break;
    case WB_FIELD_FLAG:
        expect(handle, table, field->key, "2", SQLITE_CONSTRAINT);
        expect(handle, table, field->key, "NULL", SQLITE_CONSTRAINT);
        break;
    case WB_FIELD_CHOICE:
        for (int i = 0; field->choices[i]; i++) {
            g_autofree char *word = g_strdup_printf("'%s'", field->choices[i]);
            expect(handle, table, field->key, word, SQLITE_OK);
        }
        expect(handle, table, field->key, "'nonsense'", SQLITE_CONSTRAINT);
        break;
    case WB_FIELD_TEXT:
    case WB_FIELD_WORDS:
        check_text(handle, table, field);
        break;
    case WB_FIELD_CURVE:
        break;
    }
}

static void test_constraints(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "catalogue.db");
    wb_database_close(open_good(path, FALSE));
    sqlite3 *handle;
    sqlite3_open(path, &handle);
    sqlite3_exec(handle, "PRAGMA foreign_keys = ON; BEGIN", NULL, NULL, NULL);
    for (WbTableId id = 0; id < WB_N_TABLES; id++) {
        WbTable table = wb_table(id);
        for (size_t i = 0; i < table.n_fields; i++)
            check_field(handle, &table, &table.fields[i]);
    }
    sqlite3_close(handle);
}

static void test_references(Scratch *scratch, gconstpointer data)
{
    static const char *const refused[] = {
        "UPDATE storage SET chemistry = 'no-such'",
        "UPDATE chemistry SET accept_c = NULL WHERE id = 'agm'",
        "UPDATE chemistry SET accept_from = NULL WHERE id = 'agm'",
        "UPDATE chemistry SET accept_full_c = NULL WHERE id = 'agm'",
        "UPDATE chemistry SET accept_full_c = 0.31 WHERE id = 'agm'",
        "DELETE FROM chemistry WHERE id = 'lfp'",
        "DELETE FROM shop",
        "UPDATE offer SET part_id = 'no-such'",
        "UPDATE offer SET shop_id = 'no-such'",
        "UPDATE offer SET date = '2026-02-30'",
        "UPDATE offer SET date = 'today'",
        "UPDATE offer SET currency = 'eur'",
        "UPDATE panel SET kind = 'fuse'",
        "UPDATE fitting SET max_a = NULL WHERE role = 'holder'",
        "UPDATE fitting SET max_a = NULL WHERE role = 'switch'",
        "UPDATE fitting SET max_a = NULL WHERE role = 'block'",
        "UPDATE fitting SET max_a = NULL WHERE role = 'bus'",
        "UPDATE fitting SET max_v = NULL WHERE role = 'holder'",
        "UPDATE fitting SET max_v = NULL WHERE role = 'switch'",
        "UPDATE fitting SET max_v = NULL WHERE role = 'block'",
        "UPDATE fitting SET form = 'none' WHERE role = 'holder'",
        "UPDATE fitting SET form = 'none' WHERE role = 'block'",
        "UPDATE fitting SET ways = 0 WHERE role = 'block'",
        "UPDATE fitting SET min_area_mm2 = NULL WHERE role = 'lug'",
        "UPDATE fitting SET max_area_mm2 = NULL WHERE role = 'lug'",
        "UPDATE fitting SET min_area_mm2 = max_area_mm2 + 1 WHERE role = 'lug'",
        "UPDATE fitting SET kind = 'fuse'",
        "INSERT INTO part (id, kind) VALUES ('-x', 'panel')",
        "INSERT INTO part (id, kind) VALUES ('new', 'kettle')",
        "UPDATE part SET kind = 'fuse' WHERE kind = 'panel'",
        "UPDATE curve_point SET chemistry_id = NULL, part_id = NULL",
        "UPDATE curve_point SET curve = 'other'",
        "UPDATE curve_point SET y = 1e7",
        "UPDATE curve_point SET position = 16",
        "UPDATE curve_point SET position = 0",
    };
    g_autofree char *path = scratch_file(scratch, "catalogue.db");
    wb_database_close(open_good(path, FALSE));
    sqlite3 *handle;
    sqlite3_open(path, &handle);
    sqlite3_exec(handle, "PRAGMA foreign_keys = ON", NULL, NULL, NULL);
    for (size_t i = 0; i < G_N_ELEMENTS(refused); i++)
        if (sqlite3_exec(handle, refused[i], NULL, NULL, NULL) != SQLITE_CONSTRAINT)
            g_error("not refused: %s", refused[i]);
    sqlite3_close(handle);
}

/* ---- edits ---- */

static WbPanel some_panel(const char *id)
{
    return (WbPanel){
        .part = {id, "Own", "One", "", 9.5},
        .power_w = 120,
        .voc_v = 22,
        .vmp_v = 18.2,
        .isc_a = 7,
        .imp_a = 6.6,
        .voc_coeff_pct_k = WB_MISSING,
        .isc_coeff_pct_k = WB_MISSING,
        .power_coeff_pct_k = WB_MISSING,
        .noct_c = WB_MISSING,
        .low_light_pct = WB_MISSING,
        .max_system_v = WB_MISSING,
        .series_fuse_a = 10,
        .length_mm = 1200,
        .width_mm = 550,
        .thickness_mm = 30,
        .mount_kg = 1,
    };
}

static const WbPanel *find_panel(const WbCatalogue *catalogue, const char *id)
{
    for (size_t i = 0; i < catalogue->n_panels; i++)
        if (strcmp(catalogue->panels[i].part.id, id) == 0)
            return &catalogue->panels[i];
    return NULL;
}

static size_t count_offers(const WbCatalogue *catalogue, const char *part_id)
{
    size_t n = 0;
    for (size_t i = 0; i < catalogue->n_offers; i++)
        n += strcmp(catalogue->offers[i].part_id, part_id) == 0;
    return n;
}

static void test_put_and_delete(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDatabase) database = open_good(":memory:", FALSE);
    g_autofree char *before = export_all(database);
    const WbShop shop = {"own-shop", "Own shop", 500, "EUR"};
    const WbOffer offer = {"own-panel", "own-shop", 9900, "EUR", "2026-11-01"};
    const WbOffer newer = {"own-panel", "own-shop", 8900, "EUR", "2026-11-20"};
    WbPanel panel = some_panel("own-panel");
    g_assert_true(wb_database_put_part(database, WB_KIND_PANEL, &panel, &error));
    g_assert_true(wb_database_put_shop(database, &shop, &error));
    g_assert_true(wb_database_put_offer(database, &offer, &error));
    g_assert_true(wb_database_put_offer(database, &newer, &error));
    panel.power_w = 125;
    panel.noct_c = 46;
    g_assert_true(wb_database_put_part(database, WB_KIND_PANEL, &panel, &error));
    g_assert_no_error(error);
    g_autoptr(WbCatalogueView) view = wb_database_load(database, &error);
    const WbPanel *found = find_panel(wb_catalogue_view_get(view), "own-panel");
    g_assert_cmpfloat(found->power_w, ==, 125);
    g_assert_cmpfloat(found->noct_c, ==, 46);
    g_assert_true(isnan(found->voc_coeff_pct_k));
    g_assert_cmpuint(count_offers(wb_catalogue_view_get(view), "own-panel"), ==, 2);
    g_assert_true(wb_database_delete_offer(database, &offer, &error));
    g_assert_true(wb_database_delete_part(database, "own-panel", &error));
    g_assert_no_error(error);
    g_autoptr(WbCatalogueView) after = wb_database_load(database, &error);
    g_assert_null(find_panel(wb_catalogue_view_get(after), "own-panel"));
    g_assert_cmpuint(count_offers(wb_catalogue_view_get(after), "own-panel"), ==, 0);
    g_assert_false(wb_database_delete_part(database, "own-panel", &error));
    assert_sentence(error, "own-panel|no such part");
    g_clear_error(&error);
    g_assert_false(wb_database_delete_offer(database, &offer, &error));
    assert_sentence(error, "own-panel|no such offer");
    g_autofree char *end = export_all(database);
    g_assert_cmpuint(strlen(end), >, strlen(before)); /* the shop stays */
}

static void test_curve_replaced(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDatabase) database = open_good(":memory:", FALSE);
    WbInverter inverter = {
        .part = {"own-inverter", "", "", "", 2},
        .bus_v = 12,
        .continuous_w = 300,
        .surge_w = 600,
        .idle_w = 5,
        .min_v = WB_MISSING,
        .max_v = WB_MISSING,
        .efficiency = {3, {{0.1, 0.8}, {0.5, 0.9}, {1, 0.88}}},
    };
    g_assert_true(wb_database_put_part(database, WB_KIND_INVERTER, &inverter, &error));
    inverter.efficiency = (WbCurve){2, {{0.1, 0.7}, {1, 0.86}}};
    g_assert_true(wb_database_put_part(database, WB_KIND_INVERTER, &inverter, &error));
    g_assert_no_error(error);
    g_autoptr(WbCatalogueView) view = wb_database_load(database, &error);
    const WbCatalogue *catalogue = wb_catalogue_view_get(view);
    const WbInverter *found = NULL;
    for (size_t i = 0; i < catalogue->n_inverters; i++)
        if (strcmp(catalogue->inverters[i].part.id, "own-inverter") == 0)
            found = &catalogue->inverters[i];
    g_assert_nonnull(found);
    g_assert_cmpint(found->efficiency.n, ==, 2);
    g_assert_cmpfloat(found->efficiency.point[1].y, ==, 0.86);
}

static void check_refused(WbDatabase *database, const WbPanel *panel, const char *words)
{
    g_autoptr(GError) error = NULL;
    g_assert_false(wb_database_put_part(database, WB_KIND_PANEL, panel, &error));
    assert_sentence(error, words);
}

static void check_fitting(WbDatabase *database, WbFitting fitting, const char *words)
{
    g_autoptr(GError) error = NULL;
    g_assert_true(!wb_database_put_part(database, WB_KIND_FITTING, &fitting, &error) ==
                  (*words != '\0'));
    if (*words != '\0')
        assert_sentence(error, words);
    else
        g_assert_no_error(error);
}

/* Each role is refused without each of its figures, and taken with just these. */
static void test_fittings(void)
{
    g_autoptr(WbDatabase) database = open_good(":memory:", TRUE);
    const int64_t none = WB_N_FUSE_FORMS;
    const double no = WB_MISSING;
    const struct {
        int64_t role, form;
        double max_a, max_v, min_area_mm2, max_area_mm2;
        int64_t ways;
        const char *words;
    } rows[] = {
        {WB_FITTING_HOLDER, WB_FUSE_GPV, 32, 1000, no, no, 0, ""},
        {WB_FITTING_HOLDER, none, 32, 1000, no, no, 0, "form of the fitting|it is a holder"},
        {WB_FITTING_HOLDER, WB_FUSE_GPV, no, 1000, no, no, 0, "max_a|is missing|a holder needs it"},
        {WB_FITTING_HOLDER, WB_FUSE_GPV, 32, no, no, no, 0, "max_v|is missing|a holder needs it"},
        {WB_FITTING_LUG, none, no, no, 4, 6, 0, ""},
        {WB_FITTING_LUG, none, no, no, 6, 6, 0, ""},
        {WB_FITTING_LUG, none, no, no, 6.01, 6, 0, "min_area_mm2|is 6.01|at most max_area_mm2"},
        {WB_FITTING_LUG, none, no, no, no, 6, 0, "min_area_mm2|is missing|a lug needs it"},
        {WB_FITTING_LUG, none, no, no, 4, no, 0, "max_area_mm2|is missing|a lug needs it"},
        {WB_FITTING_SWITCH, none, 300, 60, no, no, 0, ""},
        {WB_FITTING_SWITCH, none, no, 60, no, no, 0, "max_a|a switch needs it"},
        {WB_FITTING_SWITCH, none, 300, no, no, no, 0, "max_v|a switch needs it"},
        {WB_FITTING_BLOCK, WB_FUSE_BLADE, 100, 32, no, no, 1, ""},
        {WB_FITTING_BLOCK, WB_FUSE_BLADE, 100, 32, no, no, 0, "ways|is 0|at least 1"},
        {WB_FITTING_BLOCK, none, 100, 32, no, no, 6, "form|it is a block"},
        {WB_FITTING_BLOCK, WB_FUSE_BLADE, no, 32, no, no, 6, "max_a|a block needs it"},
        {WB_FITTING_BLOCK, WB_FUSE_BLADE, 100, no, no, no, 6, "max_v|a block needs it"},
        {WB_FITTING_BUS, none, 250, no, no, no, 0, ""},
        {WB_FITTING_BUS, none, no, no, no, no, 0, "max_a|a bus needs it"},
        {WB_FITTING_BUS, none + 1, 250, no, no, no, 0, "form|is 8|\"gpv\" or \"none\""},
        {WB_FITTING_BUS, none, 0, no, no, no, 0, "max_a|is 0|from 0.05 to 5000"},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(rows); i++)
        check_fitting(database,
                      (WbFitting){{"own", "", "", "", 0.1},
                                  rows[i].role,
                                  rows[i].form,
                                  rows[i].max_a,
                                  rows[i].max_v,
                                  rows[i].min_area_mm2,
                                  rows[i].max_area_mm2,
                                  rows[i].ways},
                      rows[i].words);
}

static void test_put_refused(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDatabase) database = open_good(":memory:", FALSE);
    g_autoptr(WbCatalogueView) view = wb_database_load(database, &error);
    g_autofree char *before = export_all(database);
    WbPanel panel = some_panel("Own Panel");
    check_refused(database, &panel, "id of the panel|\"Own Panel\"|lower-case");
    panel = some_panel("x'; DROP TABLE panel; --");
    check_refused(database, &panel, "id of the panel|lower-case");
    panel = some_panel("own");
    panel.power_w = -1;
    check_refused(database, &panel, "power_w of the panel \"own\" is -1|from 0.1 to 2000");
    panel = some_panel("own");
    panel.isc_a = NAN;
    check_refused(database, &panel, "isc_a|is missing");
    panel = some_panel("own");
    panel.build = 7;
    check_refused(database, &panel, "build|is 7|\"rigid\" or \"flexible\"");
    panel = some_panel(wb_catalogue_view_get(view)->fuses[0].part.id);
    check_refused(database, &panel, "belongs to a fuse");
    WbStorage storage = wb_catalogue_view_get(view)->storage[0];
    storage.chemistry = "no-such";
    g_assert_false(wb_database_put_part(database, WB_KIND_STORAGE, &storage, &error));
    assert_sentence(error, "chemistry is \"no-such\"");
    g_clear_error(&error);
    const WbOffer offers[] = {
        {"no-such", wb_catalogue_view_get(view)->shops[0].id, 1, "EUR", "2026-01-01"},
        {wb_catalogue_view_get(view)->panels[0].part.id, "no-such", 1, "EUR", "2026-01-01"},
        {wb_catalogue_view_get(view)->panels[0].part.id, wb_catalogue_view_get(view)->shops[0].id,
         -1, "EUR", "2026-01-01"},
        {wb_catalogue_view_get(view)->panels[0].part.id, wb_catalogue_view_get(view)->shops[0].id,
         1, "EUR", "2026-13-01"},
    };
    const char *const words[] = {"part_id is \"no-such\"", "shop_id is \"no-such\"",
                                 "price_minor|is -1", "date|\"2026-13-01\"|YYYY-MM-DD"};
    for (size_t i = 0; i < G_N_ELEMENTS(offers); i++) {
        g_assert_false(wb_database_put_offer(database, &offers[i], &error));
        assert_sentence(error, words[i]);
        g_clear_error(&error);
    }
    g_autofree char *after = export_all(database);
    g_assert_cmpstr(before, ==, after);
}

/* Texts that would matter to SQL are only texts. */
static void test_odd_texts(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDatabase) database = open_good(":memory:", TRUE);
    WbPanel panel = some_panel("own");
    panel.part.maker = "x'); DROP TABLE panel;--";
    panel.part.notes = "\"quotes\" \\ % _ \xe2\x82\xac \n second line";
    g_assert_true(wb_database_put_part(database, WB_KIND_PANEL, &panel, &error));
    g_assert_no_error(error);
    g_autoptr(WbCatalogueView) view = wb_database_load(database, &error);
    const WbPanel *found = find_panel(wb_catalogue_view_get(view), "own");
    g_assert_cmpstr(found->part.maker, ==, panel.part.maker);
    g_assert_cmpstr(found->part.notes, ==, panel.part.notes);
}

/* ---- migration ---- */

static void test_migration_steps(void)
{
    static const char *const broken[] = {
        "CREATE TABLE a (x INTEGER) STRICT; INSERT INTO a VALUES (1)",
        "CREATE TABLE b (y INTEGER) STRICT; UPDATE a SET x = 2; INSERT INTO nowhere VALUES (1)"};
    static const char *const mended[] = {"no SQL at all: a step that is done must not run again",
                                         "CREATE TABLE b (y INTEGER) STRICT; UPDATE a SET x = 2"};
    const WbMigrations first = {broken, 2}, second = {mended, 2};
    g_autoptr(GError) error = NULL;
    WbSql sql = {NULL, (char *)"m.db"};
    gint64 value;
    sqlite3_open(":memory:", &sql.handle);
    g_assert_false(wb_migrate(&sql, &first, &error));
    assert_sentence(error, "m.db");
    g_clear_error(&error);
    wb_sql_integer(&sql, "PRAGMA user_version", &value, &error);
    g_assert_cmpint(value, ==, 1);
    wb_sql_integer(&sql, "SELECT x FROM a", &value, &error);
    g_assert_cmpint(value, ==, 1);
    wb_sql_integer(&sql, "SELECT count(*) FROM sqlite_master WHERE name = 'b'", &value, &error);
    g_assert_cmpint(value, ==, 0);
    g_assert_true(wb_migrate(&sql, &second, &error));
    g_assert_no_error(error);
    wb_sql_integer(&sql, "SELECT x FROM a", &value, &error);
    g_assert_cmpint(value, ==, 2);
    g_assert_true(wb_migrate_check(&sql, &second, &error));
    const WbMigrations older = {mended, 1};
    g_assert_false(wb_migrate_check(&sql, &older, &error));
    assert_sentence(error, "m.db is of version 2|up to 1|newer");
    sqlite3_close(sql.handle);
}

/* Foreign keys rest while a script runs, so a table can be made anew under rows that refer to it;
 * a script that leaves one dangling fails, and they are watched again after either. */
static void test_migration_references(void)
{
    static const char *const scripts[] = {
        "CREATE TABLE a (x INTEGER PRIMARY KEY) STRICT; INSERT INTO a VALUES (1), (2);"
        "CREATE TABLE b (x INTEGER REFERENCES a (x) ON DELETE CASCADE) STRICT;"
        "INSERT INTO b VALUES (1), (2)",
        "CREATE TABLE n (x INTEGER PRIMARY KEY, y INTEGER) STRICT; INSERT INTO n SELECT x, 0 FROM "
        "a;"
        "DROP TABLE a; ALTER TABLE n RENAME TO a",
        "DELETE FROM a WHERE x = 2"};
    const WbMigrations good = {scripts, 2}, bad = {scripts, 3};
    g_autoptr(GError) error = NULL;
    WbSql sql = {NULL, (char *)"m.db"};
    gint64 value;
    sqlite3_open(":memory:", &sql.handle);
    g_assert_true(wb_sql_run(&sql, "PRAGMA foreign_keys = ON", &error));
    g_assert_true(wb_migrate(&sql, &good, &error));
    wb_sql_integer(&sql, "SELECT count(*) FROM b", &value, &error);
    g_assert_cmpint(value, ==, 2);
    g_assert_false(wb_migrate(&sql, &bad, &error));
    assert_sentence(error, "m.db|1 rows would refer to what is not there");
    g_clear_error(&error);
    wb_sql_integer(&sql, "PRAGMA user_version", &value, &error);
    g_assert_cmpint(value, ==, 2);
    wb_sql_integer(&sql, "SELECT count(*) FROM a", &value, &error);
    g_assert_cmpint(value, ==, 2);
    g_assert_false(wb_sql_run(&sql, "INSERT INTO b VALUES (3)", &error));
    assert_sentence(error, "FOREIGN KEY");
    sqlite3_close(sql.handle);
}

/* ---- catalogues of older versions ---- */

/* Columns of a table of an older version, with a comma between. (transfer full) */
static char *columns_of(sqlite3 *handle, const char *table)
{
    g_autofree char *text =
        g_strdup_printf("SELECT group_concat(name) FROM pragma_table_info('%s', 'main')", table);
    sqlite3_stmt *statement;
    g_assert_cmpint(sqlite3_prepare_v2(handle, text, -1, &statement, NULL), ==, SQLITE_OK);
    g_assert_cmpint(sqlite3_step(statement), ==, SQLITE_ROW);
    char *columns = g_strdup((const char *)sqlite3_column_text(statement, 0));
    sqlite3_finalize(statement);
    return columns;
}

static void run_on(sqlite3 *handle, const char *text)
{
    char *problem = NULL;
    if (sqlite3_exec(handle, text, NULL, NULL, &problem) != SQLITE_OK)
        g_error("%s: %s", text, problem);
}

/* Without the rows the starting catalogue has since version 5. */
static const char older_rows[] =
    "DELETE FROM fuse WHERE form = 'gpv' OR max_v IN (58, 70, 80)"
    " OR (form = 'class-t' AND rating_a > 400);"
    "DELETE FROM conductor WHERE substr(id, 14) IN ("
    "'mm2-120-105c',"
    "'awg-18-75c',"
    "'awg-16-75c',"
    "'awg-4-75c',"
    "'awg-2-75c',"
    "'mm2-0-75-75c',"
    "'mm2-1-75c',"
    "'mm2-16-75c',"
    "'mm2-25-75c',"
    "'mm2-35-75c',"
    "'awg-14-90c',"
    "'awg-1-90c',"
    "'awg-3-0-90c',"
    "'mm2-1-5-90c',"
    "'mm2-25-90c',"
    "'mm2-35-90c',"
    "'mm2-50-90c',"
    "'mm2-70-90c',"
    "'mm2-95-90c',"
    "'mm2-120-90c'"
    ");"
    "DELETE FROM part WHERE kind = 'fitting' OR (kind IN ('fuse', 'conductor')"
    " AND id NOT IN (SELECT id FROM fuse UNION SELECT id FROM conductor));"
    "DELETE FROM offer WHERE part_id NOT IN (SELECT id FROM part);";

/* The starting catalogue as a program of that version left it; `more` is run on it. */
static void make_version(int version, const char *path, const char *newest, const char *more)
{
    static const char *const tables[] = {"part",       "chemistry", "shop",     "panel",
                                         "controller", "storage",   "inverter", "dcdc",
                                         "conductor",  "fuse",      "offer",    "curve_point"};
    WbMigrations migrations = wb_migrations();
    sqlite3 *handle;
    g_assert_cmpint(sqlite3_open(path, &handle), ==, SQLITE_OK);
    g_autofree char *begin = g_strdup_printf("ATTACH '%s' AS newest; PRAGMA application_id = %d; "
                                             "PRAGMA user_version = %d; PRAGMA journal_mode = WAL",
                                             newest, WB_APPLICATION_ID, version);
    run_on(handle, begin);
    for (int i = 0; i < version; i++)
        run_on(handle, migrations.scripts[i]);
    for (size_t i = 0; i < G_N_ELEMENTS(tables); i++) {
        g_autofree char *columns = columns_of(handle, tables[i]);
        g_autofree char *copy =
            g_strdup_printf("INSERT OR IGNORE INTO main.%s (%s) SELECT %s FROM newest.%s",
                            tables[i], columns, columns, tables[i]);
        run_on(handle, copy);
    }
    run_on(handle, older_rows);
    run_on(handle, more);
    sqlite3_close(handle);
}

static char *export_file(const char *path)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbCatalogueView) view = wb_exchange_load(path, &error);
    g_assert_no_error(error);
    return wb_exchange_export(wb_catalogue_view_get(view));
}

/* Upgraded, it says what a new one says; read alone, too, and then no byte of it changes. */
static void check_upgrade(Scratch *scratch, int version)
{
    g_autofree char *newest = scratch_file(scratch, "new.db");
    g_autofree char *path = scratch_file(scratch, "old.db");
    wb_database_close(open_good(newest, FALSE));
    make_version(version, path, newest, "");
    g_autofree char *expected = export_file(newest);
    g_autoptr(GBytes) before = scratch_read(path);
    g_autofree char *read = export_file(path);
    g_autoptr(GBytes) after = scratch_read(path);
    g_assert_cmpstr(read, ==, expected);
    g_assert_true(g_bytes_equal(before, after));
    g_assert_cmpint(ask(path, "PRAGMA user_version"), ==, version);
    g_autoptr(WbDatabase) database = open_good(path, FALSE);
    g_autofree char *upgraded = export_all(database);
    g_assert_cmpstr(upgraded, ==, expected);
    g_clear_pointer(&database, wb_database_close);
    g_assert_cmpint(ask(path, "PRAGMA user_version"), ==, 5);
    g_assert_cmpint(scratch_count(scratch), ==, 2);
}

static void test_upgrade(Scratch *scratch, gconstpointer data)
{
    check_upgrade(scratch, 1);
}

static void test_upgrade_2(Scratch *scratch, gconstpointer data)
{
    check_upgrade(scratch, 2);
}

static void test_upgrade_3(Scratch *scratch, gconstpointer data)
{
    check_upgrade(scratch, 3);
}

/* Tables made anew keep every row of the person's, what refers to it and what it refers to. */
static void test_upgrade_tables(Scratch *scratch, gconstpointer data)
{
    static const char edits[] =
        "INSERT INTO part (id, kind) VALUES ('my-fuse', 'fuse'), ('my-bank', 'storage'),"
        " ('t-snecklatch-bus-100a', 'fuse');"
        "INSERT INTO fuse (id, maker, model, notes, weight_kg, form, rating_a, max_v, interrupt_a)"
        " VALUES ('my-fuse', 'Own', 'F', 'n', 0.1, 'anl', 70, 80, 2500),"
        " ('t-snecklatch-bus-100a', 'Own', 'same id', '', 0.1, 'anl', 75, 80, 2500);"
        "INSERT INTO storage SELECT 'my-bank', maker, 'Mine', notes, weight_kg, chemistry, "
        "nominal_v,"
        " capacity_ah, rated_hours, depth_limit, peukert, charge_v, max_charge_a, min_charge_a,"
        " max_discharge_a, surge_discharge_a, max_series, max_parallel, 0, heated, length_mm,"
        " width_mm, height_mm, kind, heater_w, 1 FROM storage"
        " WHERE id = 'b-hobstone-12v-100-lfp-heated';"
        "INSERT INTO offer VALUES ('my-fuse', 's-elfkettle', 1234, 'EUR', '2026-02-03');"
        "DELETE FROM offer WHERE shop_id = 's-tiddybrook';"
        "DELETE FROM shop WHERE id = 's-tiddybrook';"
        "UPDATE fuse SET rating_a = 99 WHERE id = 'f-cindergap-anl-100a'";
    static const char *const true_now[] = {
        "SELECT maker = 'Own' AND model = 'F' AND notes = 'n' AND weight_kg = 0.1 AND form = 'anl'"
        " AND rating_a = 70 AND max_v = 80 AND interrupt_a = 2500 FROM fuse WHERE id = 'my-fuse'",
        "SELECT price_minor = 1234 FROM offer WHERE part_id = 'my-fuse'",
        "SELECT model = 'Mine' AND internal_mohm IS NULL AND heated = 1 AND heater_w = 45 AND"
        " must_not_turn = 1 AND capacity_ah = 100 FROM storage WHERE id = 'my-bank'",
        "SELECT internal_mohm = 7 FROM storage WHERE id = 'b-hobstone-12v-100-lfp-heated'",
        "SELECT rating_a = 99 FROM fuse WHERE id = 'f-cindergap-anl-100a'",
        "SELECT model = 'same id' FROM fuse WHERE id = 't-snecklatch-bus-100a'",
        "SELECT count(*) = 0 FROM fitting WHERE id = 't-snecklatch-bus-100a'",
        "SELECT count(*) = 36 FROM fitting",
        "SELECT count(*) = 0 FROM shop WHERE id = 's-tiddybrook'",
        "SELECT count(*) > 0 FROM curve_point WHERE part_id IS NOT NULL",
        "SELECT count(*) = 0 FROM pragma_foreign_key_check",
        "SELECT count(*) = 1 FROM sqlite_master WHERE name = 'storage_by_chemistry'",
        "SELECT count(*) = 0 FROM sqlite_master WHERE name LIKE 'new%' OR sql LIKE '%new_%'",
        "SELECT count(*) = 2 FROM pragma_foreign_key_list('storage') WHERE seq = 0 AND"
        " \"table\" IN ('part', 'chemistry')",
    };
    g_autofree char *newest = scratch_file(scratch, "new.db");
    g_autofree char *path = scratch_file(scratch, "old.db");
    wb_database_close(open_good(newest, FALSE));
    make_version(3, path, newest, edits);
    wb_database_close(open_good(path, FALSE));
    for (size_t i = 0; i < G_N_ELEMENTS(true_now); i++)
        if (ask(path, true_now[i]) != 1)
            g_error("not so: %s", true_now[i]);
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDatabase) database = open_good(path, FALSE);
    g_assert_true(wb_database_delete_part(database, "my-fuse", &error));
    g_clear_pointer(&database, wb_database_close);
    g_assert_cmpint(ask(path, "SELECT count(*) FROM offer WHERE part_id = 'my-fuse'"), ==, 0);
}

/* A catalogue that did not begin as the starting one gets nothing from it. */
static void test_upgrade_own(Scratch *scratch, gconstpointer data)
{
    g_autofree char *newest = scratch_file(scratch, "new.db");
    g_autofree char *path = scratch_file(scratch, "old.db");
    wb_database_close(open_good(newest, TRUE));
    make_version(3, path, newest, "");
    wb_database_close(open_good(path, FALSE));
    g_assert_cmpint(ask(path, "SELECT count(*) FROM part"), ==, 0);
    g_assert_cmpint(ask(path, "SELECT count(*) FROM offer"), ==, 0);
}

/* A battery of a file of version 2 may be turned; from then on it keeps what is said of it. */
static void test_upgrade_turns(Scratch *scratch, gconstpointer data)
{
    g_autofree char *newest = scratch_file(scratch, "new.db");
    g_autofree char *path = scratch_file(scratch, "old.db");
    wb_database_close(open_good(newest, FALSE));
    make_version(2, path, newest, "");
    wb_database_close(open_good(path, FALSE));
    g_assert_cmpint(ask(path, "SELECT count(*) > 20 AND max(must_not_turn) = 0 FROM storage"), ==,
                    1);
    run_raw(path, "UPDATE storage SET must_not_turn = 1 WHERE id = 'b-pellawatt-12v-50-lfp'");
    g_autoptr(GError) error = NULL;
    g_autoptr(WbCatalogueView) view = wb_exchange_load(path, &error);
    g_assert_no_error(error);
    const WbCatalogue *catalogue = wb_catalogue_view_get(view);
    for (size_t i = 0; i < catalogue->n_storage; i++)
        g_assert_true(catalogue->storage[i].must_not_turn ==
                      g_str_equal(catalogue->storage[i].part.id, "b-pellawatt-12v-50-lfp"));
}

/* Rows the person added or made into something else are left as they are. */
static void test_upgrade_keeps(Scratch *scratch, gconstpointer data)
{
    static const char edits[] =
        "UPDATE chemistry SET charge_efficiency = 0.91, name = 'My gel' WHERE id = 'gel';"
        "UPDATE storage SET heated = 0 WHERE id = 'b-hobstone-12v-100-lfp-heated';"
        "UPDATE panel SET power_w = 99 WHERE id = 'p-brambleray-100-rigid';"
        "INSERT INTO chemistry SELECT 'mine', name, family, gassing, cell_v, charge_v_per_cell,"
        " depth_limit, charge_efficiency, discharge_efficiency, peukert, min_charge_c,"
        " self_discharge_pct_month, calendar_years FROM chemistry WHERE id = 'agm';"
        "INSERT INTO curve_point (chemistry_id, curve, position, x, y)"
        " VALUES ('mine', 'capacity_by_c', 0, 25, 1)";
    g_autofree char *newest = scratch_file(scratch, "new.db");
    g_autofree char *path = scratch_file(scratch, "old.db");
    wb_database_close(open_good(newest, FALSE));
    make_version(1, path, newest, edits);
    wb_database_close(open_good(path, FALSE));
    static const char *const true_now[] = {
        "SELECT name = 'My gel' AND charge_efficiency = 0.91 AND accept_c = 0.2 FROM chemistry "
        "WHERE id = 'gel'",
        "SELECT heater_w IS NULL FROM storage WHERE id = 'b-hobstone-12v-100-lfp-heated'",
        "SELECT heater_w = 80 FROM storage WHERE id = 'b-hobstone-12v-200-lfp-heated'",
        "SELECT power_w = 99 AND low_light_pct = 95.5 FROM panel "
        "WHERE id = 'p-brambleray-100-rigid'",
        "SELECT low_light_pct IS NULL FROM panel WHERE id = 'p-orrelith-20-rigid'",
        "SELECT accept_c IS NULL AND charge_efficiency_full IS NULL FROM chemistry "
        "WHERE id = 'mine'",
    };
    for (size_t i = 0; i < G_N_ELEMENTS(true_now); i++)
        if (ask(path, true_now[i]) != 1)
            g_error("not so: %s", true_now[i]);
}

/* ---- files that are no good ---- */

/* Opening must fail with these words and leave every byte and the folder as they were. */
static void check_unusable(const Scratch *scratch, const char *path, const char *words)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(GBytes) before = scratch_read(path);
    int files = scratch_count(scratch);
    g_assert_null(wb_database_open(path, FALSE, &error));
    assert_sentence(error, words);
    assert_sentence(error, path);
    g_clear_error(&error);
    g_assert_null(wb_exchange_load(path, &error));
    assert_sentence(error, path);
    g_autoptr(GBytes) after = scratch_read(path);
    g_assert_true(g_bytes_equal(before, after));
    g_assert_cmpint(scratch_count(scratch), ==, files);
}

static void test_not_ours(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "wrong.db");
    scratch_write(path, "", 0);
    check_unusable(scratch, path, "is empty");
    scratch_write(path, "hello, this is no database at all", -1);
    check_unusable(scratch, path, "is not a database");
    g_autofree char *zeros = g_malloc0(8192);
    scratch_write(path, zeros, 8192);
    check_unusable(scratch, path, "");
    g_unlink(path);
    run_raw(path, "CREATE TABLE somebody (x); INSERT INTO somebody VALUES (1)");
    check_unusable(scratch, path, "of another program");
    run_raw(path, "PRAGMA user_version = 1");
    check_unusable(scratch, path, "of another program");
}

static void test_newer(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "catalogue.db");
    wb_database_close(open_good(path, FALSE));
    run_raw(path, "PRAGMA user_version = 6");
    check_unusable(scratch, path, "is of version 6|up to 5|a newer one is needed");
}

static void test_truncated(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "catalogue.db");
    wb_database_close(open_good(path, FALSE));
    g_autoptr(GBytes) whole = scratch_read(path);
    gsize size = g_bytes_get_size(whole);
    const gsize lengths[] = {1,    15,    50,       100,         1000,    4096,
                             8192, 40960, size / 2, size - 4096, size - 1};
    for (size_t i = 0; i < G_N_ELEMENTS(lengths); i++) {
        scratch_write(path, g_bytes_get_data(whole, NULL), (gssize)lengths[i]);
        check_unusable(scratch, path, "");
    }
    scratch_write(path, g_bytes_get_data(whole, NULL), (gssize)size);
    wb_database_close(open_good(path, FALSE));
}

static void test_broken_reference(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "catalogue.db");
    wb_database_close(open_good(path, FALSE));
    run_raw(path, "PRAGMA foreign_keys = OFF; DELETE FROM shop");
    check_unusable(scratch, path, "is damaged|rows refer to what is not there");
}

static void test_wrong_value_inside(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "catalogue.db");
    wb_database_close(open_good(path, FALSE));
    run_raw(path, "PRAGMA ignore_check_constraints = ON; UPDATE panel SET power_w = -5");
    check_unusable(scratch, path, "is damaged|CHECK");
}

/* Seeded damage inside the pages: it opens and every value is acceptable, or a sentence. */
static void test_random_damage(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "catalogue.db");
    wb_database_close(open_good(path, FALSE));
    g_autoptr(GBytes) whole = scratch_read(path);
    gsize size = g_bytes_get_size(whole);
    WbRandom random;
    wb_random_seed(&random, 7);
    int refused = 0;
    for (int round = 0; round < 150; round++) {
        g_autoptr(GError) error = NULL;
        g_autofree char *copy = g_memdup2(g_bytes_get_data(whole, NULL), size);
        for (int i = 0; i < 1 + round % 20; i++)
            copy[wb_random_below(&random, size)] = (char)wb_random_below(&random, 256);
        scratch_write(path, copy, (gssize)size);
        g_autoptr(WbDatabase) database = wb_database_open(path, FALSE, &error);
        g_autoptr(WbCatalogueView) view = database ? wb_database_load(database, &error) : NULL;
        g_assert_true((view != NULL) != (error != NULL));
        if (error) {
            assert_sentence(error, path);
            refused++;
        }
    }
    g_assert_cmpint(refused, >, 20);
}

static void test_no_folder(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = g_build_filename(scratch->path, "no", "such.db", NULL);
    g_autoptr(GError) error = NULL;
    g_assert_null(wb_database_open(path, FALSE, &error));
    assert_sentence(error, "cannot be made");
    assert_sentence(error, path);
    g_clear_error(&error);
    g_assert_null(wb_database_open(scratch->path, FALSE, &error));
    assert_sentence(error, "it is not a file");
    g_assert_cmpint(scratch_count(scratch), ==, 0);
}

/* As somebody who may read the file but not write it. */
static void test_read_only(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "catalogue.db");
    g_autoptr(GError) error = NULL;
    wb_database_close(open_good(path, FALSE));
    g_autoptr(GBytes) before = scratch_read(path);
    g_chmod(path, 0444);
    g_chmod(scratch->path, 0555);
    gboolean root = geteuid() == 0;
    if (root)
        g_assert_cmpint(seteuid(65534), ==, 0);
    WbDatabase *database = wb_database_open(path, FALSE, &error);
    g_autoptr(GError) view_error = NULL;
    g_autoptr(WbCatalogueView) view = wb_exchange_load(path, &view_error);
    if (root)
        g_assert_cmpint(seteuid(0), ==, 0);
    g_chmod(scratch->path, 0755);
    g_assert_null(database);
    assert_sentence(error, path);
    g_assert_no_error(view_error);
    g_assert_cmpuint(wb_catalogue_view_get(view)->n_panels, >=, 24);
    g_autoptr(GBytes) after = scratch_read(path);
    g_assert_true(g_bytes_equal(before, after));
    g_assert_cmpint(scratch_count(scratch), ==, 1);
}

/* No room for one more page, as on a full disk: the change is taken back whole. */
static void test_full(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "catalogue.db");
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDatabase) database = open_good(path, FALSE);
    g_autofree char *before = export_all(database);
    g_autofree char *long_notes = g_strnfill(20000, 'n');
    WbPanel panel = some_panel("own");
    panel.part.notes = long_notes;
    g_assert_true(wb_sql_run(wb_database_sql(database), "PRAGMA max_page_count = 1", &error));
    g_assert_false(wb_database_put_part(database, WB_KIND_PANEL, &panel, &error));
    assert_sentence(error, "the disk is full");
    g_autofree char *after = export_all(database);
    g_assert_cmpstr(before, ==, after);
}

/* ---- more than one at work ---- */

static void test_two_connections(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "catalogue.db");
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDatabase) one = open_good(path, FALSE), two = open_good(path, FALSE);
    WbPanel panel = some_panel("own");
    g_assert_true(wb_database_put_part(one, WB_KIND_PANEL, &panel, &error));
    g_autoptr(WbCatalogueView) seen = wb_database_load(two, &error);
    g_assert_nonnull(find_panel(wb_catalogue_view_get(seen), "own"));
    g_assert_true(wb_database_delete_part(two, "own", &error));
    g_autoptr(WbCatalogueView) gone = wb_database_load(one, &error);
    g_assert_null(find_panel(wb_catalogue_view_get(gone), "own"));
    g_assert_no_error(error);
}

/* A writer that does not finish: others read on, and another writer is told after a while. */
static void test_busy(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "catalogue.db");
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDatabase) database = open_good(path, FALSE);
    g_autofree char *before = export_all(database);
    sqlite3 *writer;
    sqlite3_open(path, &writer);
    g_assert_cmpint(
        sqlite3_exec(writer, "BEGIN IMMEDIATE; UPDATE panel SET notes = 'x'", NULL, NULL, NULL), ==,
        SQLITE_OK);
    g_autofree char *meanwhile = export_all(database);
    g_assert_cmpstr(before, ==, meanwhile);
    WbPanel panel = some_panel("own");
    g_assert_false(wb_database_put_part(database, WB_KIND_PANEL, &panel, &error));
    assert_sentence(error, "in use by another program");
    g_assert_true(g_error_matches(error, WB_STORE_ERROR, WB_STORE_ERROR_BUSY));
    sqlite3_close(writer);
    g_autofree char *after = export_all(database);
    g_assert_cmpstr(before, ==, after);
}

static gpointer open_and_export(gpointer path)
{
    g_autoptr(WbDatabase) database = open_good(path, FALSE);
    return export_all(database);
}

/* Several programs that start at once, none of which finds a catalogue. */
static void test_made_at_once(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "catalogue.db");
    GThread *threads[4];
    for (size_t i = 0; i < G_N_ELEMENTS(threads); i++)
        threads[i] = g_thread_new("opener", open_and_export, path);
    g_autofree char *first = g_thread_join(threads[0]);
    for (size_t i = 1; i < G_N_ELEMENTS(threads); i++) {
        g_autofree char *other = g_thread_join(threads[i]);
        g_assert_cmpstr(first, ==, other);
    }
    g_assert_cmpint(scratch_count(scratch), ==, 1);
}

/* Killed in the middle of a change: the change is gone, the rest is there. */
static void test_killed(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "catalogue.db");
    WbDatabase *database = open_good(path, FALSE);
    g_autofree char *before = export_all(database);
    wb_database_close(database);
    pid_t child = fork();
    if (child == 0) {
        sqlite3 *handle;
        sqlite3_open(path, &handle);
        sqlite3_exec(handle,
                     "PRAGMA cache_size = 1; BEGIN; UPDATE panel SET power_w = 1; DELETE "
                     "FROM offer",
                     NULL, NULL, NULL);
        _exit(0);
    }
    g_assert_cmpint(waitpid(child, NULL, 0), ==, child);
    database = open_good(path, FALSE);
    g_autofree char *after = export_all(database);
    wb_database_close(database);
    g_assert_cmpstr(before, ==, after);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
#define ADD(name, function)                                                                        \
    g_test_add("/database/" name, Scratch, NULL, scratch_set_up, function, scratch_tear_down)
    ADD("new-file", test_new_file);
    g_test_add_func("/database/seed", test_seed);
    g_test_add_func("/database/empty", test_empty);
    g_test_add_func("/database/view-outlives", test_view_outlives);
    ADD("constraints", test_constraints);
    ADD("references", test_references);
    g_test_add_func("/database/put-and-delete", test_put_and_delete);
    g_test_add_func("/database/curve-replaced", test_curve_replaced);
    g_test_add_func("/database/put-refused", test_put_refused);
    g_test_add_func("/database/fittings", test_fittings);
    g_test_add_func("/database/odd-texts", test_odd_texts);
    g_test_add_func("/database/migration-steps", test_migration_steps);
    g_test_add_func("/database/migration-references", test_migration_references);
    ADD("upgrade", test_upgrade);
    ADD("upgrade-2", test_upgrade_2);
    ADD("upgrade-3", test_upgrade_3);
    ADD("upgrade-tables", test_upgrade_tables);
    ADD("upgrade-own", test_upgrade_own);
    ADD("upgrade-turns", test_upgrade_turns);
    ADD("upgrade-keeps", test_upgrade_keeps);
    ADD("not-ours", test_not_ours);
    ADD("newer", test_newer);
    ADD("truncated", test_truncated);
    ADD("broken-reference", test_broken_reference);
    ADD("wrong-value-inside", test_wrong_value_inside);
    ADD("random-damage", test_random_damage);
    ADD("no-folder", test_no_folder);
    ADD("read-only", test_read_only);
    ADD("full", test_full);
    ADD("two-connections", test_two_connections);
    ADD("busy", test_busy);
    ADD("made-at-once", test_made_at_once);
    ADD("killed", test_killed);
    return g_test_run();
}
