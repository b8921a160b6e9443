#include "catalogue_table.h"
#include <string.h>

#define MOST_MINOR 9007199254740992.0 /* 2^53: exact in JSON */

#define TEXT(record, name, words)                                                                  \
    {                                                                                              \
        .key = #name, .label = words, .unit = "", .type = WB_FIELD_TEXT,                           \
        .offset = offsetof(record, name)                                                           \
    }
#define MINOR(record, name, words)                                                                 \
    {                                                                                              \
        .key = #name, .label = words, .unit = "minor units", .type = WB_FIELD_INTEGER,             \
        .offset = offsetof(record, name), .least = 0, .most = MOST_MINOR, .usual_low = 0,          \
        .usual_high = 1000000                                                                      \
    }

static const WbField shop_fields[] = {
    TEXT(WbShop, id, "Id"),
    TEXT(WbShop, name, "Name"),
    MINOR(WbShop, shipping_minor, "Shipping per order"),
    TEXT(WbShop, currency, "Currency"),
};

static const WbField offer_fields[] = {
    TEXT(WbOffer, part_id, "Part"),       TEXT(WbOffer, shop_id, "Shop"),
    MINOR(WbOffer, price_minor, "Price"), TEXT(WbOffer, currency, "Currency"),
    TEXT(WbOffer, date, "Date"),
};

#define IN_CATALOGUE(record, array)                                                                \
    .size = sizeof(record), .array_offset = offsetof(WbCatalogue, array),                          \
    .count_offset = offsetof(WbCatalogue, n_##array)

static const WbTable tables[WB_N_TABLES] = {
    [WB_TABLE_CHEMISTRY] = {"chemistry", "chemistries", IN_CATALOGUE(WbChemistry, chemistries)},
    [WB_TABLE_SHOP] = {"shop", "shops", IN_CATALOGUE(WbShop, shops)},
    [WB_TABLE_PART + WB_KIND_PANEL] = {"panel", "panels", IN_CATALOGUE(WbPanel, panels)},
    [WB_TABLE_PART + WB_KIND_CONTROLLER] = {"controller", "controllers",
                                            IN_CATALOGUE(WbController, controllers)},
    [WB_TABLE_PART + WB_KIND_STORAGE] = {"storage", "storage", IN_CATALOGUE(WbStorage, storage)},
    [WB_TABLE_PART +
        WB_KIND_INVERTER] = {"inverter", "inverters", IN_CATALOGUE(WbInverter, inverters)},
    [WB_TABLE_PART + WB_KIND_DCDC] = {"dcdc", "dcdc", IN_CATALOGUE(WbDcdc, dcdc)},
    [WB_TABLE_PART +
        WB_KIND_CONDUCTOR] = {"conductor", "conductors", IN_CATALOGUE(WbConductor, conductors)},
    [WB_TABLE_PART + WB_KIND_FUSE] = {"fuse", "fuses", IN_CATALOGUE(WbFuse, fuses)},
    [WB_TABLE_PART + WB_KIND_FITTING] = {"fitting", "fittings", IN_CATALOGUE(WbFitting, fittings)},
    [WB_TABLE_OFFER] = {"offer", "offers", IN_CATALOGUE(WbOffer, offers)},
};

WbTable wb_table(WbTableId id)
{
    WbTable table = tables[id];
    table.n_keys = 1;
    table.keys[0] = "id";
    if (wb_table_is_part(id)) {
        table.fields = wb_part_fields((WbPartKind)(id - WB_TABLE_PART), &table.n_fields);
    } else if (id == WB_TABLE_CHEMISTRY) {
        table.fields = wb_chemistry_fields(&table.n_fields);
    } else if (id == WB_TABLE_SHOP) {
        table.fields = shop_fields;
        table.n_fields = G_N_ELEMENTS(shop_fields);
    } else {
        table.fields = offer_fields;
        table.n_fields = G_N_ELEMENTS(offer_fields);
        table.n_keys = 3;
        table.keys[0] = "part_id";
        table.keys[1] = "shop_id";
        table.keys[2] = "date";
    }
    return table;
}

const void *wb_table_rows(const WbTable *table, const WbCatalogue *catalogue, size_t *n)
{
    const char *base = (const char *)catalogue;
    const void *rows;
    memcpy(n, base + table->count_offset, sizeof *n);
    memcpy(&rows, base + table->array_offset, sizeof rows);
    return rows;
}

void wb_table_set_rows(const WbTable *table, WbCatalogue *catalogue, const void *rows, size_t n)
{
    char *base = (char *)catalogue;
    memcpy(base + table->count_offset, &n, sizeof n);
    memcpy(base + table->array_offset, &rows, sizeof rows);
}

const char *wb_table_key(const WbTable *table, const void *record, size_t n)
{
    const WbField *field = wb_field_find(table->fields, table->n_fields, table->keys[n]);
    return *(const char *const *)wb_field_in(field, record);
}

int wb_table_compare(const WbTable *table, const void *a, const void *b)
{
    int order = 0;
    for (size_t i = 0; i < table->n_keys && order == 0; i++)
        order = strcmp(wb_table_key(table, a, i), wb_table_key(table, b, i));
    return order;
}

const void *wb_table_find(const WbTable *table, const void *rows, size_t n, const void *record)
{
    size_t low = 0, high = n;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        const void *row = (const char *)rows + middle * table->size;
        int order = wb_table_compare(table, record, row);
        if (order == 0)
            return row;
        if (order < 0)
            high = middle;
        else
            low = middle + 1;
    }
    return NULL;
}

static bool same_number(double a, double b)
{
    return a == b || (isnan(a) && isnan(b));
}

static bool same_curve(const WbCurve *a, const WbCurve *b)
{
    if (a->n != b->n)
        return false;
    for (int i = 0; i < a->n; i++)
        if (!same_number(a->point[i].x, b->point[i].x) ||
            !same_number(a->point[i].y, b->point[i].y))
            return false;
    return true;
}

static bool same_value(const WbField *field, const void *a, const void *b)
{
    switch (field->type) {
    case WB_FIELD_NUMBER:
        return same_number(*(const double *)a, *(const double *)b);
    case WB_FIELD_INTEGER:
    case WB_FIELD_CHOICE:
        return *(const int64_t *)a == *(const int64_t *)b;
    case WB_FIELD_FLAG:
        return *(const bool *)a == *(const bool *)b;
    case WB_FIELD_CURVE:
        return same_curve(a, b);
    case WB_FIELD_TEXT:
    case WB_FIELD_WORDS:
        break;
    }
    return strcmp(*(const char *const *)a, *(const char *const *)b) == 0;
}

bool wb_table_rows_equal(const WbTable *table, const void *a, const void *b)
{
    for (size_t i = 0; i < table->n_fields; i++) {
        const WbField *field = &table->fields[i];
        if (!same_value(field, wb_field_in(field, a), wb_field_in(field, b)))
            return false;
    }
    return true;
}
