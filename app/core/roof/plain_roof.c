#include "plain_roof.h"
#include "stairs.h"
#include <stdlib.h>

/* The strips of all circles together, about. */
enum { CIRCLE_ROWS = 8192, ROWS_OF_ONE_MIN = 4 };

static bool slanted(const WbRoof *roof, size_t i)
{
    WbCorner a = roof->corners[i], b = roof->corners[i + 1 == roof->n_corners ? 0 : i + 1];
    return a.x_mm != b.x_mm && a.y_mm != b.y_mm;
}

bool wb_roof_needs_steps(const WbRoof *roof)
{
    for (size_t i = 0; i < roof->n_corners; i++)
        if (slanted(roof, i))
            return true;
    for (size_t i = 0; i < roof->n_obstacles; i++)
        if (roof->obstacles[i].round && wb_obstacle_blocks(roof, &roof->obstacles[i]))
            return true;
    return false;
}

typedef struct {
    WbPlainRoof plain;
    size_t room;
} Maker;

/* What cannot reach the usable frame is left out. */
static WbStatus add_obstacle(Maker *maker, const WbObstacle *obstacle)
{
    WbRoof *roof = &maker->plain.roof;
    WbZone zone = wb_obstacle_zone(obstacle), usable = wb_roof_usable(roof);
    if (zone.left_mm >= usable.right_mm || zone.right_mm <= usable.left_mm ||
        zone.front_mm >= usable.back_mm || zone.back_mm <= usable.front_mm)
        return WB_OK;
    if (roof->n_obstacles == maker->room) {
        size_t room = maker->room ? 2 * maker->room : 32;
        WbObstacle *grown = realloc(maker->plain.obstacles, room * sizeof *grown);
        if (!grown)
            return WB_NO_MEMORY;
        maker->plain.obstacles = grown;
        maker->room = room;
    }
    maker->plain.obstacles[roof->n_obstacles++] = *obstacle;
    return WB_OK;
}

static WbStatus add_rect(Maker *maker, WbRect rect, int64_t clearance_mm, const char *name)
{
    WbObstacle obstacle = {.name = name,
                           .x_mm = rect.x_mm,
                           .y_mm = rect.y_mm,
                           .length_mm = rect.length_mm,
                           .width_mm = rect.width_mm,
                           .clearance_mm = clearance_mm};
    return add_obstacle(maker, &obstacle);
}

static WbStatus add_stairs(Maker *maker, const WbStairRows *rows, int64_t clearance_mm,
                           const char *name)
{
    WbRect *rect = malloc((rows->n_spans + 1) * sizeof *rect);
    WbStatus status = rect ? WB_OK : WB_NO_MEMORY;
    size_t n = rect ? wb_stairs_rects(rows, rect) : 0;
    for (size_t i = 0; status == WB_OK && i < n; i++)
        status = add_rect(maker, rect[i], clearance_mm, name);
    free(rect);
    return status;
}

static WbStatus add_outside(Maker *maker, const WbRoof *roof, WbPlainSide side, int64_t step_mm)
{
    WbStairRows rows = {0};
    bool exact = true;
    WbStatus status = wb_stairs_outside(&rows, roof, side, step_mm, &exact);
    if (status == WB_OK)
        status = add_stairs(maker, &rows, roof->margin_mm, "");
    wb_stairs_free(&rows);
    maker->plain.exact = maker->plain.exact && exact;
    return status;
}

static WbStatus add_circle(Maker *maker, const WbObstacle *round, WbPlainSide side, int64_t step_mm,
                           int64_t rows_max)
{
    WbStairRows rows = {0};
    bool exact = true;
    WbStatus status = wb_stairs_circle(&rows, round, side, step_mm, rows_max, &exact);
    if (status == WB_OK)
        status = add_stairs(maker, &rows, round->clearance_mm, round->name);
    wb_stairs_free(&rows);
    maker->plain.exact = maker->plain.exact && exact;
    return status;
}

static WbStatus add_obstacles(Maker *maker, const WbRoof *roof, WbPlainSide side, int64_t step_mm)
{
    int64_t n_round = 0;
    for (size_t i = 0; i < roof->n_obstacles; i++)
        n_round += roof->obstacles[i].round;
    int64_t rows_max = n_round > 0 ? CIRCLE_ROWS / n_round : CIRCLE_ROWS;
    if (rows_max < ROWS_OF_ONE_MIN)
        rows_max = ROWS_OF_ONE_MIN;
    WbStatus status = WB_OK;
    for (size_t i = 0; status == WB_OK && i < roof->n_obstacles; i++) {
        const WbObstacle *obstacle = &roof->obstacles[i];
        if (!wb_obstacle_blocks(roof, obstacle))
            continue;
        status = obstacle->round ? add_circle(maker, obstacle, side, step_mm, rows_max)
                                 : add_obstacle(maker, obstacle);
    }
    return status;
}

WbStatus wb_plain_roof(const WbRoof *roof, const WbRect *fixed, int n_fixed, WbPlainSide side,
                       int64_t step_mm, WbPlainRoof *plain)
{
    Maker maker = {.plain = {.roof = {.length_mm = roof->length_mm,
                                      .width_mm = roof->width_mm,
                                      .margin_mm = roof->margin_mm,
                                      .gap_mm = roof->gap_mm},
                             .exact = true}};
    WbStatus status = add_obstacles(&maker, roof, side, step_mm);
    for (int i = 0; status == WB_OK && i < n_fixed; i++)
        status = add_rect(&maker, fixed[i], roof->gap_mm, "");
    if (status == WB_OK && roof->n_corners > 0)
        status = add_outside(&maker, roof, side, step_mm);
    if (status != WB_OK) {
        wb_plain_roof_free(&maker.plain);
        return status;
    }
    maker.plain.roof.obstacles = maker.plain.obstacles;
    *plain = maker.plain;
    return WB_OK;
}

void wb_plain_roof_free(WbPlainRoof *plain)
{
    free(plain->obstacles);
    *plain = (WbPlainRoof){0};
}
