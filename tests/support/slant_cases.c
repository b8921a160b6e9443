#include "slant_cases.h"
#include <math.h>

static int64_t between(WbRandom *random, int64_t low, int64_t high)
{
    return low + (int64_t)wb_random_below(random, (uint64_t)(high - low + 1));
}

/* Back end at x = 0 with its corners cut, a quarter of an ellipse in `segments` straight edges at
 * each side of the front. `taper_mm`: so much narrower at each side of the front. */
static void draw_outline(SlantCase *drawn, WbRandom *random)
{
    WbRoof *roof = &drawn->roof;
    int64_t segments = between(random, 1, 5), n = 0;
    int64_t cut_x = between(random, 30, 250), cut_y = between(random, 30, 250);
    int64_t taper_mm = between(random, 0, 2) == 0 ? between(random, 1, 200) : 0;
    int64_t round_x = between(random, 150, 1200);
    int64_t round_y = between(random, 150, roof->width_mm / 2 - taper_mm - 50);
    WbCorner side[SLANT_CORNERS];
    side[n++] = (WbCorner){0, cut_y};
    side[n++] = (WbCorner){cut_x, 0};
    for (int64_t k = 0; k <= segments; k++) {
        double angle = acos(-1) / 2 * (double)k / (double)segments;
        side[n++] = (WbCorner){
            roof->length_mm - round_x + (int64_t)floor((double)round_x * sin(angle) + 0.5),
            taper_mm + round_y - (int64_t)floor((double)round_y * cos(angle) + 0.5)};
    }
    for (int64_t i = 0; i < n; i++) {
        drawn->corner[i] = side[i];
        drawn->corner[2 * n - 1 - i] = (WbCorner){side[i].x_mm, roof->width_mm - side[i].y_mm};
    }
    roof->n_corners = (size_t)(2 * n);
}

static WbObstacle draw_obstacle(WbRandom *random, const WbRoof *roof)
{
    WbObstacle drawn = {.name = "o",
                        .length_mm = between(random, 150, 700),
                        .clearance_mm = 10 * between(random, 0, 4),
                        .round = between(random, 0, 2) == 0};
    drawn.width_mm = drawn.round ? drawn.length_mm : between(random, 150, 700);
    drawn.x_mm = between(random, 0, roof->length_mm - drawn.length_mm);
    drawn.y_mm = between(random, 0, roof->width_mm - drawn.width_mm);
    return drawn;
}

static void link(SlantCase *drawn)
{
    drawn->roof.corners = drawn->corner;
    drawn->roof.obstacles = drawn->obstacle;
}

void slant_case(SlantCase *drawn, WbRandom *random)
{
    *drawn = (SlantCase){.roof = {.length_mm = between(random, 3000, 7000),
                                  .width_mm = between(random, 1700, 2300),
                                  .margin_mm = between(random, 0, 50),
                                  .gap_mm = between(random, 10, 30)},
                         .panel_a_mm = between(random, 500, 2300),
                         .panel_b_mm = between(random, 350, 1150)};
    draw_outline(drawn, random);
    drawn->roof.n_obstacles = (size_t)between(random, 0, SLANT_OBSTACLES);
    for (size_t i = 0; i < drawn->roof.n_obstacles; i++)
        drawn->obstacle[i] = draw_obstacle(random, &drawn->roof);
    link(drawn);
}

void slant_mirror(SlantCase *drawn)
{
    int64_t length_mm = drawn->roof.length_mm;
    for (size_t i = 0; i < drawn->roof.n_corners; i++)
        drawn->corner[i].x_mm = length_mm - drawn->corner[i].x_mm;
    for (size_t i = 0; i < drawn->roof.n_obstacles; i++)
        drawn->obstacle[i].x_mm =
            length_mm - drawn->obstacle[i].x_mm - drawn->obstacle[i].length_mm;
    link(drawn);
}

void slant_scale(SlantCase *drawn, int64_t by)
{
    WbRoof *roof = &drawn->roof;
    int64_t *lengths[] = {&roof->length_mm, &roof->width_mm,    &roof->margin_mm,
                          &roof->gap_mm,    &drawn->panel_a_mm, &drawn->panel_b_mm};
    for (size_t i = 0; i < sizeof lengths / sizeof *lengths; i++)
        *lengths[i] *= by;
    for (size_t i = 0; i < roof->n_corners; i++) {
        drawn->corner[i].x_mm *= by;
        drawn->corner[i].y_mm *= by;
    }
    for (size_t i = 0; i < roof->n_obstacles; i++) {
        WbObstacle *o = &drawn->obstacle[i];
        o->x_mm *= by;
        o->y_mm *= by;
        o->length_mm *= by;
        o->width_mm *= by;
        o->clearance_mm *= by;
    }
    link(drawn);
}
