#include "places.h"
#include "scratch.h"

#define N_COLUMNS 56

static const WbPlace *find_named(const char *name, const char *country)
{
    size_t n;
    const WbPlace *places = wb_places(&n);
    for (size_t i = 0; i < n; i++)
        if (strcmp(places[i].name, name) == 0 && strcmp(places[i].country, country) == 0)
            return &places[i];
    return NULL;
}

/* An own reading of the file: the text of a cell ends where a comma stands outside quotes. */
static char *take_cell(const char **at)
{
    const char *c = *at;
    gboolean quoted = *c == '"';
    const char *start = quoted ? ++c : c;
    const char *end = strchr(c, quoted ? '"' : ',');
    if (!end)
        end = c + strlen(c);
    *at = end + (quoted ? 1 : 0);
    if (**at == ',')
        ++*at;
    return g_strndup(start, (gsize)(end - start));
}

static void check_figure(const char *cell, double figure, int decimals)
{
    g_autofree char *text = g_strdup_printf("%.*f", decimals, figure);
    g_assert_cmpfloat(figure, ==, g_ascii_strtod(cell, NULL));
    g_assert_true(g_str_has_prefix(cell, text) || strlen(cell) <= strlen(text));
}

static void check_line(const char *line)
{
    char *cells[N_COLUMNS];
    for (int i = 0; i < N_COLUMNS; i++)
        cells[i] = take_cell(&line);
    g_assert_cmpstr(line, ==, "");
    const WbPlace *place = find_named(cells[0], cells[1]);
    g_assert_nonnull(place);
    g_assert_true(wb_place_find(place->id) == place);
    g_assert_cmpfloat(place->latitude_deg, ==, g_ascii_strtod(cells[2], NULL));
    g_assert_cmpfloat(place->longitude_deg, ==, g_ascii_strtod(cells[3], NULL));
    g_assert_cmpfloat(place->altitude_m, ==, g_ascii_strtod(cells[4], NULL));
    g_assert_cmpstr(place->kind, ==, cells[5]);
    g_assert_cmpstr(place->source, ==, cells[6]);
    g_assert_cmpstr(place->years, ==, cells[7]);
    for (int month = 0; month < WB_MONTHS; month++) {
        check_figure(cells[8 + month], place->ghi_kwh_m2_day[month], 2);
        check_figure(cells[20 + month], place->air_mean_c[month], 1);
        check_figure(cells[32 + month], place->air_max_c[month], 1);
        check_figure(cells[44 + month], place->air_min_c[month], 1);
    }
    for (int i = 0; i < N_COLUMNS; i++)
        g_free(cells[i]);
}

static void test_every_figure(void)
{
    size_t n;
    wb_places(&n);
    g_autoptr(GBytes) bytes = scratch_read(WB_DATA_DIR "/places.csv");
    g_auto(GStrv) lines = g_strsplit(g_bytes_get_data(bytes, NULL), "\n", -1);
    size_t rows = 0;
    for (char **line = lines + 1; *line && *g_strchomp(*line); line++, rows++)
        check_line(*line);
    g_assert_cmpuint(rows, ==, 300);
    g_assert_cmpuint(n, ==, rows);
}

static void test_ids(void)
{
    size_t n;
    const WbPlace *places = wb_places(&n);
    for (size_t i = 0; i < n; i++) {
        g_assert_cmpuint(strspn(places[i].id, "abcdefghijklmnopqrstuvwxyz0123456789-"), ==,
                         strlen(places[i].id));
        g_assert_false(g_str_has_suffix(places[i].id, "-"));
        if (i > 0)
            g_assert_cmpint(strcmp(places[i - 1].id, places[i].id), <, 0);
    }
}

static void test_find(void)
{
    static const struct {
        const char *id, *name;
    } known[] = {
        {"bariloche-argentina", "Bariloche"},
        {"st-johns-canada", "St John's"},
        {"la-paz-baja-california-mexico", "La Paz (Baja California)"},
        {"dallas-fort-worth-usa", "Dallas-Fort Worth"},
        {"Bariloche-Argentina", NULL},
        {"bariloche", NULL},
        {"", NULL},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(known); i++) {
        const WbPlace *place = wb_place_find(known[i].id);
        g_assert_cmpstr(place ? place->name : NULL, ==, known[i].name);
    }
}

/* Figures that cannot be: a column read into the wrong array would show here. */
static void test_plausible(void)
{
    size_t n;
    const WbPlace *places = wb_places(&n);
    for (size_t i = 0; i < n; i++)
        for (int month = 0; month < WB_MONTHS; month++) {
            g_assert_cmpfloat(places[i].ghi_kwh_m2_day[month], >=, 0);
            g_assert_cmpfloat(places[i].ghi_kwh_m2_day[month], <, 10);
            g_assert_cmpfloat(places[i].air_min_c[month], <=, places[i].air_mean_c[month]);
            g_assert_cmpfloat(places[i].air_mean_c[month], <=, places[i].air_max_c[month]);
        }
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/places/every-figure", test_every_figure);
    g_test_add_func("/places/ids", test_ids);
    g_test_add_func("/places/find", test_find);
    g_test_add_func("/places/plausible", test_plausible);
    return g_test_run();
}
