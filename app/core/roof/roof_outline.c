#include "roof_outline.h"
#include <stdlib.h>

enum { LENGTH_MAX_MM = 100000, FAR_MM = 1000000 };

bool wb_roof_length_valid(int64_t length_mm)
{
    return length_mm >= 1 && length_mm <= LENGTH_MAX_MM;
}

static bool near_enough(int64_t at_mm)
{
    return at_mm >= -FAR_MM && at_mm <= FAR_MM;
}

static bool obstacle_valid(const WbObstacle *obstacle)
{
    return near_enough(obstacle->x_mm) && near_enough(obstacle->y_mm) && obstacle->length_mm >= 1 &&
           obstacle->length_mm <= FAR_MM && obstacle->width_mm >= 1 &&
           obstacle->width_mm <= FAR_MM && obstacle->clearance_mm >= 0 &&
           obstacle->clearance_mm <= FAR_MM && obstacle->height_mm >= 0 &&
           obstacle->height_mm <= FAR_MM &&
           (!obstacle->round || obstacle->length_mm == obstacle->width_mm);
}

static bool up_to_100_m(int64_t length_mm)
{
    return length_mm >= 0 && length_mm <= LENGTH_MAX_MM;
}

bool wb_roof_valid(const WbRoof *roof)
{
    if (!wb_roof_length_valid(roof->length_mm) || !wb_roof_length_valid(roof->width_mm) ||
        !up_to_100_m(roof->margin_mm) || !up_to_100_m(roof->gap_mm) ||
        !up_to_100_m(roof->standoff_mm) ||
        wb_roof_outline_problem(roof, NULL, NULL) != WB_OUTLINE_GOOD)
        return false;
    for (size_t i = 0; i < roof->n_obstacles; i++)
        if (!obstacle_valid(&roof->obstacles[i]))
            return false;
    return true;
}

bool wb_obstacle_blocks(const WbRoof *roof, const WbObstacle *obstacle)
{
    bool passed_over = roof->over_obstacles && obstacle->kind == WB_OBSTACLE_STANDS &&
                       obstacle->height_mm > 0 && obstacle->height_mm < roof->standoff_mm;
    return obstacle->kind != WB_OBSTACLE_SHADE && !passed_over;
}

WbZone wb_roof_usable(const WbRoof *roof)
{
    return (WbZone){roof->margin_mm, roof->margin_mm, roof->length_mm - roof->margin_mm,
                    roof->width_mm - roof->margin_mm};
}

WbZone wb_obstacle_zone(const WbObstacle *obstacle)
{
    int64_t clearance_mm = obstacle->clearance_mm;
    return (WbZone){obstacle->x_mm - clearance_mm, obstacle->y_mm - clearance_mm,
                    obstacle->x_mm + obstacle->length_mm + clearance_mm,
                    obstacle->y_mm + obstacle->width_mm + clearance_mm};
}

bool wb_panel_enters(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm)
{
    WbZone usable = wb_roof_usable(roof);
    int64_t length_mm = usable.right_mm - usable.left_mm;
    int64_t width_mm = usable.back_mm - usable.front_mm;
    return (panel_length_mm <= length_mm && panel_width_mm <= width_mm) ||
           (panel_width_mm <= length_mm && panel_length_mm <= width_mm);
}

static int64_t least(int64_t a, int64_t b)
{
    return a < b ? a : b;
}

static int64_t largest(int64_t a, int64_t b)
{
    return a > b ? a : b;
}

static bool zone_empty(WbZone zone)
{
    return zone.right_mm <= zone.left_mm || zone.back_mm <= zone.front_mm;
}

static WbZone zone_common(WbZone a, WbZone b)
{
    return (WbZone){largest(a.left_mm, b.left_mm), largest(a.front_mm, b.front_mm),
                    least(a.right_mm, b.right_mm), least(a.back_mm, b.back_mm)};
}

static int by_front(const void *a, const void *b)
{
    int64_t front_a = ((const WbZone *)a)->front_mm, front_b = ((const WbZone *)b)->front_mm;
    return (front_a > front_b) - (front_a < front_b);
}

static int by_value(const void *a, const void *b)
{
    int64_t value_a = *(const int64_t *)a, value_b = *(const int64_t *)b;
    return (value_a > value_b) - (value_a < value_b);
}

/* Length covered in the strip left..right; zones are sorted by their front. */
static int64_t strip_covered_mm(const WbZone *zones, size_t n, int64_t left_mm, int64_t right_mm)
{
    int64_t covered_mm = 0, reached_mm = INT64_MIN;
    for (size_t i = 0; i < n; i++) {
        if (zones[i].left_mm >= right_mm || zones[i].right_mm <= left_mm)
            continue;
        int64_t from_mm = largest(zones[i].front_mm, reached_mm);
        if (zones[i].back_mm > from_mm) {
            covered_mm += zones[i].back_mm - from_mm;
            reached_mm = zones[i].back_mm;
        }
    }
    return covered_mm;
}

static int64_t union_mm2(WbZone *zones, int64_t *edges, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        edges[2 * i] = zones[i].left_mm;
        edges[2 * i + 1] = zones[i].right_mm;
    }
    qsort(zones, n, sizeof *zones, by_front);
    qsort(edges, 2 * n, sizeof *edges, by_value);
    int64_t area_mm2 = 0;
    for (size_t i = 1; i < 2 * n; i++)
        if (edges[i] > edges[i - 1])
            area_mm2 +=
                (edges[i] - edges[i - 1]) * strip_covered_mm(zones, n, edges[i - 1], edges[i]);
    return area_mm2;
}

int64_t wb_roof_area_left_mm2(const WbRoof *roof, WbZone within, int64_t cut_mm)
{
    if (zone_empty(within))
        return 0;
    int64_t whole_mm2 = (within.right_mm - within.left_mm) * (within.back_mm - within.front_mm);
    if (roof->n_obstacles == 0)
        return whole_mm2;
    WbZone *zones = malloc(roof->n_obstacles * sizeof *zones);
    int64_t *edges = malloc(2 * roof->n_obstacles * sizeof *edges);
    size_t n = 0;
    for (size_t i = 0; zones && edges && i < roof->n_obstacles; i++) {
        WbZone zone = wb_obstacle_zone(&roof->obstacles[i]);
        zone.left_mm += cut_mm;
        zone.front_mm += cut_mm;
        zone = zone_common(zone, within);
        if (!zone_empty(zone))
            zones[n++] = zone;
    }
    int64_t left_mm2 = zones && edges ? whole_mm2 - union_mm2(zones, edges, n) : -1;
    free(zones);
    free(edges);
    return left_mm2;
}

/* Every panel grown by one gap on its right and back side; see roof_grid.h. */
int wb_roof_area_bound(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm,
                       int at_most)
{
    WbZone within = wb_roof_usable(roof);
    within.right_mm += roof->gap_mm;
    within.back_mm += roof->gap_mm;
    int64_t left_mm2 = wb_roof_area_left_mm2(roof, within, roof->gap_mm);
    if (left_mm2 < 0)
        return -1;
    int64_t panel_mm2 = (panel_length_mm + roof->gap_mm) * (panel_width_mm + roof->gap_mm);
    return (int)least(at_most, left_mm2 / panel_mm2);
}
