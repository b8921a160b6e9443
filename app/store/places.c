#include "places.h"
#include "edit_distance.h"
#include "embedded.h"
#include <stdlib.h>
#include <string.h>

/* Columns of data/places.csv. */
enum {
    NAME,
    COUNTRY,
    LATITUDE,
    LONGITUDE,
    ALTITUDE,
    KIND,
    SOURCE,
    YEARS,
    GHI,
    MEAN = GHI + WB_MONTHS,
    MAX = MEAN + WB_MONTHS,
    MIN = MAX + WB_MONTHS,
    N_COLUMNS = MIN + WB_MONTHS,
};

typedef struct {
    WbPlace *places;
    size_t n;
    GStringChunk *texts; /* of all places; most sources are the same */
} Places;

char *wb_places_fold(const char *text)
{
    g_autofree char *valid = g_utf8_make_valid(text, -1);
    g_autofree char *plain = g_str_to_ascii(valid, "C");
    GString *id = g_string_new(NULL);
    bool gap = false;
    for (const char *c = plain; *c; c++) {
        if (*c == '\'')
            continue;
        if (!g_ascii_isalnum(*c)) {
            gap = true;
            continue;
        }
        if (gap && id->len > 0)
            g_string_append_c(id, '-');
        gap = false;
        g_string_append_c(id, g_ascii_tolower(*c));
    }
    return g_string_free(id, FALSE);
}

static void read_twelve(char **columns, double *twelve)
{
    for (int month = 0; month < WB_MONTHS; month++)
        twelve[month] = g_ascii_strtod(columns[month], NULL);
}

/* Cells of a line; one in quotes may hold commas, and quotes doubled (RFC 4180). (transfer full) */
static char **split_row(const char *line)
{
    GPtrArray *cells = g_ptr_array_new();
    g_autoptr(GString) cell = g_string_new(NULL);
    bool quoted = false;
    for (const char *c = line; *c; c++) {
        if (*c == '"' && quoted && c[1] == '"') {
            g_string_append_c(cell, *++c);
        } else if (*c == '"') {
            quoted = !quoted;
        } else if (*c == ',' && !quoted) {
            g_ptr_array_add(cells, g_strdup(cell->str));
            g_string_truncate(cell, 0);
        } else {
            g_string_append_c(cell, *c);
        }
    }
    g_ptr_array_add(cells, g_strdup(cell->str));
    g_ptr_array_add(cells, NULL);
    return (char **)g_ptr_array_free(cells, FALSE);
}

static const char *keep(GStringChunk *texts, const char *text)
{
    return g_string_chunk_insert_const(texts, text);
}

static WbPlace read_row(char **columns, GStringChunk *texts)
{
    if (g_strv_length(columns) != N_COLUMNS)
        g_error("data/places.csv: a row has %u columns, not %d", g_strv_length(columns), N_COLUMNS);
    g_autofree char *both = g_strdup_printf("%s %s", columns[NAME], columns[COUNTRY]);
    g_autofree char *id = wb_places_fold(both);
    WbPlace place = {
        .id = keep(texts, id),
        .name = keep(texts, columns[NAME]),
        .country = keep(texts, columns[COUNTRY]),
        .kind = keep(texts, columns[KIND]),
        .source = keep(texts, columns[SOURCE]),
        .years = keep(texts, columns[YEARS]),
        .latitude_deg = g_ascii_strtod(columns[LATITUDE], NULL),
        .longitude_deg = g_ascii_strtod(columns[LONGITUDE], NULL),
        .altitude_m = g_ascii_strtod(columns[ALTITUDE], NULL),
    };
    read_twelve(columns + GHI, place.ghi_kwh_m2_day);
    read_twelve(columns + MEAN, place.air_mean_c);
    read_twelve(columns + MAX, place.air_max_c);
    read_twelve(columns + MIN, place.air_min_c);
    return place;
}

static int by_id(const void *a, const void *b)
{
    return strcmp(((const WbPlace *)a)->id, ((const WbPlace *)b)->id);
}

/* Equal ids get -2, -3, ... in the order of the file. */
static void make_unique(GArray *places, GStringChunk *texts)
{
    g_autoptr(GHashTable) seen = g_hash_table_new(g_str_hash, g_str_equal);
    for (guint i = 0; i < places->len; i++) {
        WbPlace *place = &g_array_index(places, WbPlace, i);
        const char *first = place->id;
        for (int n = 2; g_hash_table_contains(seen, place->id); n++) {
            g_autofree char *id = g_strdup_printf("%s-%d", first, n);
            place->id = keep(texts, id);
        }
        g_hash_table_add(seen, (gpointer)place->id);
    }
}

static gpointer parse_all(gpointer unused)
{
    g_auto(GStrv) lines = g_strsplit(wb_embedded_places_csv, "\n", -1);
    GArray *list = g_array_new(FALSE, FALSE, sizeof(WbPlace));
    Places *places = g_new(Places, 1);
    places->texts = g_string_chunk_new(4096);
    for (char **line = lines + 1; *line; line++) {
        if (*g_strchomp(*line) == '\0')
            continue;
        g_auto(GStrv) columns = split_row(*line);
        WbPlace place = read_row(columns, places->texts);
        g_array_append_val(list, place);
    }
    make_unique(list, places->texts);
    places->n = list->len;
    places->places = (WbPlace *)(gpointer)g_array_free(list, FALSE);
    qsort(places->places, places->n, sizeof(WbPlace), by_id);
    return places;
}

static const Places *all_places(void)
{
    static GOnce once = G_ONCE_INIT;
    return g_once(&once, parse_all, NULL);
}

const WbPlace *wb_places(size_t *n)
{
    const Places *places = all_places();
    *n = places->n;
    return places->places;
}

const WbPlace *wb_place_find(const char *id)
{
    const Places *places = all_places();
    const WbPlace wanted = {.id = id};
    return bsearch(&wanted, places->places, places->n, sizeof(WbPlace), by_id);
}

/* Changes from a folded text to the place's id or name, whichever is nearer; a text the id begins
 * with is as near as can be. */
static guint place_distance(const WbPlace *place, const char *folded, guint most)
{
    g_autofree char *name = wb_places_fold(place->name);
    if (g_str_has_prefix(place->id, folded))
        return 0;
    return MIN(wb_edit_distance(folded, place->id, most), wb_edit_distance(folded, name, most));
}

size_t wb_places_near(const char *text, const WbPlace **near, size_t most)
{
    const Places *places = all_places();
    g_autofree char *folded = wb_places_fold(text);
    size_t n = 0;
    guint furthest = (guint)MIN(strlen(folded), 12) / 3;
    if (*folded == '\0')
        return 0;
    for (guint changes = 0; changes <= furthest; changes++)
        for (size_t i = 0; i < places->n && n < most; i++)
            if (place_distance(&places->places[i], folded, furthest) == changes)
                near[n++] = &places->places[i];
    return n;
}
