/* Ampacity tables. A column is an insulation, a row a size as wb_awg_gauge. */
#include "brief.h"
#include "conductor.h"
#include <math.h>

enum { BOAT_COLUMNS = 7, LAND_COLUMNS = 3 };

static const int64_t boat_insulation_c[BOAT_COLUMNS] = {60, 75, 80, 90, 105, 125, 200};

/* 33 CFR 183.425 table 5, A in air of 30 C. */
static const double boat_a[WB_AWG_SIZES][BOAT_COLUMNS] = {
    {10, 10, 15, 20, 20, 25, 25},        {15, 15, 20, 25, 25, 30, 35},
    {20, 20, 25, 30, 35, 40, 45},        {25, 25, 35, 40, 45, 50, 55},
    {40, 40, 50, 55, 60, 70, 70},        {55, 65, 70, 70, 80, 90, 100},
    {80, 95, 100, 100, 120, 125, 135},   {105, 125, 130, 135, 160, 170, 180},
    {120, 145, 150, 155, 180, 195, 210}, {140, 170, 175, 180, 210, 225, 240},
    {165, 195, 210, 210, 245, 265, 280}, {195, 230, 245, 245, 285, 305, 325},
    {225, 265, 285, 285, 330, 355, 370}, {260, 310, 330, 330, 385, 410, 430},
    {300, 360, 385, 385, 445, 475, 510},
};

/* The same paragraph: factors for machinery spaces, 50 C; those of 60, 75, 80, 90, 125 and 200 C
 * from memory. */
static const double boat_hot[BOAT_COLUMNS] = {0.58, 0.75, 0.78, 0.82, 0.85, 0.89, 1.00};

static const int64_t land_insulation_c[LAND_COLUMNS] = {60, 75, 90};

/* NEC (NFPA 70) table 310.16, copper, A in air of 30 C; from memory. 0: none given. */
static const double land_a[WB_AWG_SIZES][LAND_COLUMNS] = {
    {0, 0, 14},      {0, 0, 18},      {15, 20, 25},    {20, 25, 30},    {30, 35, 40},
    {40, 50, 55},    {55, 65, 75},    {70, 85, 95},    {85, 100, 115},  {95, 115, 130},
    {110, 130, 145}, {125, 150, 170}, {145, 175, 195}, {165, 200, 225}, {195, 230, 260},
};

typedef struct {
    int up_to;
    double factor;
} BundleRow;

/* From memory: the usual factors for bundles on boats, and NEC table 310.15(C)(1). */
static const BundleRow boat_bundles[] = {{2, 1}, {3, 0.7}, {6, 0.6}, {24, 0.5}, {1 << 30, 0.4}};
static const BundleRow land_bundles[] = {{3, 1},     {6, 0.8},  {9, 0.7},       {20, 0.5},
                                         {30, 0.45}, {40, 0.4}, {1 << 30, 0.35}};

static double bundle_factor(const BundleRow *row, int bundled)
{
    while (row->up_to < bundled)
        row++;
    return row->factor;
}

/* Insulations above the last column take the last; -1: below the first. */
static int column_of(const int64_t *columns_c, int n, int64_t insulation_c)
{
    int column = -1;
    for (int i = 0; i < n && columns_c[i] <= insulation_c; i++)
        column = i;
    return column;
}

#define TABLE_C 30.0
#define HOT_SPACE_C 50.0

/* Up to 50 C the boat's own factor, beyond it what is left of the rise over the air there. */
static double boat_ambient(int column, double ambient_c)
{
    if (ambient_c <= TABLE_C)
        return 1;
    if (ambient_c <= HOT_SPACE_C)
        return boat_hot[column];
    double left_c = (double)boat_insulation_c[column] - ambient_c;
    return left_c > 0
               ? boat_hot[column] * sqrt(left_c / ((double)boat_insulation_c[column] - HOT_SPACE_C))
               : 0;
}

static WbAmpacity on_boat(int size, int64_t insulation_c, const WbLaying *laying)
{
    int column = column_of(boat_insulation_c, BOAT_COLUMNS, insulation_c);
    if (column < 0)
        return (WbAmpacity){0};
    WbAmpacity found = {.table_a = boat_a[size][column],
                        .column_c = (double)boat_insulation_c[column],
                        .ambient = boat_ambient(column, laying->ambient_c),
                        .bundle = bundle_factor(boat_bundles, laying->bundled),
                        .terminals = INFINITY};
    found.amps = found.table_a * found.ambient * found.bundle;
    found.fuse_a = found.amps;
    return found;
}

/* 310.15(B)(1): the root of the rise left to the rise of the table; cooler air counts as 30 C. */
static double land_ambient(int64_t column_c, double ambient_c)
{
    double left_c = (double)column_c - fmax(ambient_c, TABLE_C);
    return left_c > 0 ? sqrt(left_c / ((double)column_c - TABLE_C)) : 0;
}

/* 240.4(D), with 16 and 18 AWG. */
static double small_fuse_a(int size)
{
    static const double most_a[] = {7, 10, 15, 20, 30};
    return size < (int)(sizeof most_a / sizeof *most_a) ? most_a[size] : INFINITY;
}

static WbAmpacity on_land(int size, int64_t insulation_c, const WbLaying *laying)
{
    int column = column_of(land_insulation_c, LAND_COLUMNS, insulation_c);
    int terminal = column_of(land_insulation_c, LAND_COLUMNS, laying->terminal_c);
    if (column < 0 || terminal < 0)
        return (WbAmpacity){0};
    WbAmpacity found = {.table_a = land_a[size][column],
                        .column_c = (double)land_insulation_c[column],
                        .ambient = land_ambient(land_insulation_c[column], laying->ambient_c),
                        .bundle = bundle_factor(land_bundles, laying->bundled),
                        .terminals = land_a[size][terminal] > 0 ? land_a[size][terminal]
                                                                : land_a[size][column]};
    found.amps = fmin(found.table_a * found.ambient * found.bundle, found.terminals);
    found.fuse_a = fmin(found.amps, small_fuse_a(size));
    return found;
}

WbAmpacity wb_ampacity(double area_mm2, int64_t insulation_c, const WbLaying *laying)
{
    int size = wb_awg_size_within(area_mm2);
    if (size < 0)
        return (WbAmpacity){0};
    return laying->rule_set == WB_RULES_BOAT ? on_boat(size, insulation_c, laying)
                                             : on_land(size, insulation_c, laying);
}
