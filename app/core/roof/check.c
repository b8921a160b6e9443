/* Written without the search and without its strips: comparisons of every panel with the true edge,
 * the true obstacles and the other panels, in whole numbers. */
#include "exact_shape.h"
#include "plain_roof.h"

static bool right_size(const WbRect *rect, int64_t length_mm, int64_t width_mm)
{
    return (rect->length_mm == length_mm && rect->width_mm == width_mm) ||
           (rect->length_mm == width_mm && rect->width_mm == length_mm);
}

static WbZone grown(const WbRect *rect, int64_t by_mm)
{
    return (WbZone){rect->x_mm - by_mm, rect->y_mm - by_mm, rect->x_mm + rect->length_mm + by_mm,
                    rect->y_mm + rect->width_mm + by_mm};
}

static bool inside_frame(const WbRoof *roof, const WbRect *rect)
{
    return rect->x_mm >= roof->margin_mm && rect->y_mm >= roof->margin_mm &&
           rect->x_mm <= roof->length_mm - roof->margin_mm - rect->length_mm &&
           rect->y_mm <= roof->width_mm - roof->margin_mm - rect->width_mm;
}

static bool inside_margins(const WbRoof *roof, const WbRect *rect)
{
    return inside_frame(roof, rect) &&
           (roof->n_corners == 0 || wb_outline_holds(roof, grown(rect, roof->margin_mm)));
}

/* Apart by at least `apart_mm` along the roof or across it. */
static bool stand_apart(const WbRect *a, const WbRect *b, int64_t apart_mm)
{
    return a->x_mm + a->length_mm + apart_mm <= b->x_mm ||
           b->x_mm + b->length_mm + apart_mm <= a->x_mm ||
           a->y_mm + a->width_mm + apart_mm <= b->y_mm ||
           b->y_mm + b->width_mm + apart_mm <= a->y_mm;
}

static bool clear_of_obstacles(const WbRoof *roof, const WbRect *rect)
{
    for (size_t i = 0; i < roof->n_obstacles; i++) {
        const WbObstacle *obstacle = &roof->obstacles[i];
        WbRect outline = {obstacle->x_mm, obstacle->y_mm, obstacle->length_mm, obstacle->width_mm};
        if (!wb_obstacle_blocks(roof, obstacle) ||
            stand_apart(rect, &outline, obstacle->clearance_mm))
            continue;
        if (!obstacle->round || !wb_circle_avoids(obstacle, grown(rect, obstacle->clearance_mm)))
            return false;
    }
    return true;
}

static bool clear_of_earlier(const WbRoof *roof, const WbRect *layout, int at)
{
    for (int i = 0; i < at; i++)
        if (!stand_apart(&layout[i], &layout[at], roof->gap_mm))
            return false;
    return true;
}

bool wb_roof_place_ok(const WbRoof *roof, const WbRect *rect)
{
    return wb_roof_length_valid(rect->length_mm) && wb_roof_length_valid(rect->width_mm) &&
           inside_margins(roof, rect) && clear_of_obstacles(roof, rect);
}

/* `zone` within the obstacle's true outline; a plain obstacle is a part of it. */
static bool obstacle_covers(const WbObstacle *obstacle, WbZone zone)
{
    if (obstacle->round)
        return wb_circle_covers(obstacle, zone);
    return zone.left_mm >= obstacle->x_mm && zone.front_mm >= obstacle->y_mm &&
           zone.right_mm <= obstacle->x_mm + obstacle->length_mm &&
           zone.back_mm <= obstacle->y_mm + obstacle->width_mm;
}

bool wb_roof_forbids(const WbRoof *roof, const WbObstacle *plain)
{
    WbRect rect = {plain->x_mm, plain->y_mm, plain->length_mm, plain->width_mm};
    WbZone zone = grown(&rect, 0);
    for (size_t i = 0; i < roof->n_obstacles; i++)
        if (wb_obstacle_blocks(roof, &roof->obstacles[i]) &&
            plain->clearance_mm <= roof->obstacles[i].clearance_mm &&
            obstacle_covers(&roof->obstacles[i], zone))
            return true;
    return roof->n_corners > 0 && plain->clearance_mm <= roof->margin_mm &&
           wb_outline_avoids(roof, zone);
}

bool wb_roof_layout_ok(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm,
                       const WbRect *layout, int n, int *first_bad)
{
    bool sizes_valid = wb_roof_valid(roof) && wb_roof_length_valid(panel_length_mm) &&
                       wb_roof_length_valid(panel_width_mm);
    for (int i = 0; i < n; i++) {
        if (sizes_valid && right_size(&layout[i], panel_length_mm, panel_width_mm) &&
            wb_roof_place_ok(roof, &layout[i]) && clear_of_earlier(roof, layout, i))
            continue;
        if (first_bad)
            *first_bad = i;
        return false;
    }
    return true;
}
