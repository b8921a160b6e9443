#include "place_list.h"
#include "places.h"
#include <glib/gi18n-lib.h>
#include <math.h>

struct _WbPlaceRow {
    GObject parent_instance;
    const WbPlace *place; /* static storage */
    char *title;
};

G_DEFINE_FINAL_TYPE(WbPlaceRow, wb_place_row, G_TYPE_OBJECT)

const WbPlace *wb_place_row_get_place(WbPlaceRow *self)
{
    g_return_val_if_fail(WB_IS_PLACE_ROW(self), NULL);
    return self->place;
}

const char *wb_place_row_get_title(WbPlaceRow *self)
{
    g_return_val_if_fail(WB_IS_PLACE_ROW(self), NULL);
    return self->title;
}

gboolean wb_place_row_matches(WbPlaceRow *self, const char *text)
{
    g_return_val_if_fail(WB_IS_PLACE_ROW(self), FALSE);
    return g_str_match_string(text, self->title, TRUE);
}

static WbPlaceRow *row_new(const WbPlace *place)
{
    WbPlaceRow *row = g_object_new(WB_TYPE_PLACE_ROW, NULL);
    row->place = place;
    row->title = *place->country ? g_strdup_printf("%s, %s", place->name, place->country)
                                 : g_strdup(place->name);
    return row;
}

static int by_title(gconstpointer a, gconstpointer b, gpointer data)
{
    return g_utf8_collate(((const WbPlaceRow *)a)->title, ((const WbPlaceRow *)b)->title);
}

GListModel *wb_place_list_new(void)
{
    GListStore *list = g_list_store_new(WB_TYPE_PLACE_ROW);
    size_t n;
    const WbPlace *places = wb_places(&n);
    for (size_t i = 0; i < n; i++) {
        g_autoptr(WbPlaceRow) row = row_new(&places[i]);
        g_list_store_append(list, row);
    }
    g_list_store_sort(list, by_title, NULL);
    return G_LIST_MODEL(list);
}

const char *wb_place_uncertainty(const char *kind)
{
    static const struct {
        const char *kind, *words;
    } table[] = {
        {"typical year", N_("within about 5 % a year")},
        {"typical year or satellite climatology", N_("within about 5 % a year")},
        {"estimated from sunshine records",
         N_("one standard deviation is 8 % a year, 11 % a month; 10 to 30 % low in months with "
            "snow cover, and probably 5 to 10 % low for Europe today")},
        {"own figures", N_("as good as the figures you typed")},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(table); i++)
        if (g_str_equal(kind, table[i].kind))
            return _(table[i].words);
    return _("how far they can be off is not known");
}

char *wb_place_position(const WbPlace *place)
{
    return g_strdup_printf("%.2f\302\260 %s, %.2f\302\260 %s, %.0f m", fabs(place->latitude_deg),
                           place->latitude_deg < 0 ? _("south") : _("north"),
                           fabs(place->longitude_deg),
                           place->longitude_deg < 0 ? _("west") : _("east"), place->altitude_m);
}

static void wb_place_row_finalize(GObject *object)
{
    g_free(WB_PLACE_ROW(object)->title);
    G_OBJECT_CLASS(wb_place_row_parent_class)->finalize(object);
}

static void wb_place_row_class_init(WbPlaceRowClass *klass)
{
    G_OBJECT_CLASS(klass)->finalize = wb_place_row_finalize;
}

static void wb_place_row_init(WbPlaceRow *self)
{
}
