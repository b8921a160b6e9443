#include "small_roof.h"

int64_t between(WbRandom *random, int64_t low, int64_t high)
{
    return low + (int64_t)wb_random_below(random, (uint64_t)(high - low + 1));
}

void small_roof_draw_obstacles(WbRoof *roof, WbObstacle *obstacle, size_t n, int64_t size,
                               WbRandom *random)
{
    for (size_t i = 0; i < n; i++)
        obstacle[i] = (WbObstacle){"o",
                                   between(random, -size / 9, size),
                                   between(random, -size / 9, size),
                                   between(random, 1, size / 3),
                                   between(random, 1, size / 3),
                                   between(random, 0, size / 9)};
    roof->obstacles = obstacle;
    roof->n_obstacles = n;
}

static bool ranges_meet(int64_t low_a, int64_t size_a, int64_t low_b, int64_t size_b, int64_t apart)
{
    return low_a < low_b + size_b + apart && low_b < low_a + size_a + apart;
}

bool small_roof_meet(WbRect a, WbRect b, int64_t apart)
{
    return ranges_meet(a.x_mm, a.length_mm, b.x_mm, b.length_mm, apart) &&
           ranges_meet(a.y_mm, a.width_mm, b.y_mm, b.width_mm, apart);
}

bool small_roof_blocks(const WbRoof *roof, WbRect rect)
{
    for (size_t i = 0; i < roof->n_obstacles; i++) {
        const WbObstacle *o = &roof->obstacles[i];
        if (small_roof_meet(rect, (WbRect){o->x_mm, o->y_mm, o->length_mm, o->width_mm},
                            o->clearance_mm))
            return true;
    }
    return false;
}

void small_roof_mirror(WbRoof *roof, WbObstacle *obstacle)
{
    for (size_t i = 0; i < roof->n_obstacles; i++)
        obstacle[i].x_mm = roof->length_mm - obstacle[i].x_mm - obstacle[i].length_mm;
}

static void exchange(int64_t *a, int64_t *b)
{
    int64_t kept = *a;
    *a = *b;
    *b = kept;
}

void small_roof_transpose(WbRoof *roof, WbObstacle *obstacle)
{
    exchange(&roof->length_mm, &roof->width_mm);
    for (size_t i = 0; i < roof->n_obstacles; i++) {
        exchange(&obstacle[i].x_mm, &obstacle[i].y_mm);
        exchange(&obstacle[i].length_mm, &obstacle[i].width_mm);
    }
}

void small_roof_scale(WbRoof *roof, WbObstacle *obstacle, int64_t by)
{
    roof->length_mm *= by;
    roof->width_mm *= by;
    roof->margin_mm *= by;
    roof->gap_mm *= by;
    for (size_t i = 0; i < roof->n_obstacles; i++) {
        WbObstacle *o = &obstacle[i];
        o->x_mm *= by;
        o->y_mm *= by;
        o->length_mm *= by;
        o->width_mm *= by;
        o->clearance_mm *= by;
    }
}
