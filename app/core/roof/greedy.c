#include "greedy.h"

/* The order in which a corner greedy meets the points. */
typedef struct {
    const WbRoofGrid *grid;
    uint8_t *open;
    bool from_right, from_back, columns_first;
    int *picked, n, room;
} Walk;

static void try_place(Walk *walk, int place)
{
    if (walk->n == walk->room || !walk->open[place])
        return;
    walk->picked[walk->n++] = place;
    wb_grid_close(walk->grid, walk->open, place);
}

static int point_of(const Walk *walk, int outer, int inner)
{
    const WbRoofGrid *grid = walk->grid;
    int i = walk->columns_first ? outer : inner, j = walk->columns_first ? inner : outer;
    if (walk->from_right)
        i = grid->x.n - 1 - i;
    if (walk->from_back)
        j = grid->y.n - 1 - j;
    return j * grid->x.n + i;
}

/* turns: the turns tried at each point, in this order. */
static void walk_points(Walk *walk, const int *turns, int n_turns)
{
    const WbRoofGrid *grid = walk->grid;
    int outer_n = walk->columns_first ? grid->x.n : grid->y.n;
    int inner_n = walk->columns_first ? grid->y.n : grid->x.n;
    for (int outer = 0; outer < outer_n && walk->n < walk->room; outer++) {
        for (int inner = 0; inner < inner_n; inner++) {
            int point = point_of(walk, outer, inner);
            for (int k = 0; k < n_turns; k++)
                if (turns[k] < grid->turns)
                    try_place(walk, turns[k] * grid->points + point);
        }
    }
}

int wb_greedy_corner(const WbRoofGrid *grid, uint8_t *open, int way, int *picked, int room)
{
    Walk walk = {.grid = grid,
                 .open = open,
                 .from_right = way & 4,
                 .from_back = way & 8,
                 .columns_first = way & 16,
                 .picked = picked,
                 .room = room};
    int turns[2] = {way & 1, !(way & 1)};
    if (way & 2) {
        walk_points(&walk, turns, 2);
    } else {
        walk_points(&walk, turns, 1);
        walk_points(&walk, turns + 1, 1);
    }
    return walk.n;
}

enum { BUCKETS = 256 };

static int bucket_of(const WbWeights *weights, WbGreedyKey key, int place)
{
    if (key == WB_GREEDY_SHARE)
        return (int)((1 - weights->share[place]) * (BUCKETS - 1));
    int64_t bucket = wb_weights_under(weights, place) / (WB_WEIGHT_ONE / (BUCKETS / 2));
    return bucket < BUCKETS ? (int)bucket : BUCKETS - 1;
}

/* Counting sort of the open places; answers how many. */
static int sort_places(const WbWeights *weights, const uint8_t *open, WbGreedyKey key,
                       bool from_back, int *queue)
{
    int start[BUCKETS + 1] = {0}, places = wb_grid_places(weights->grid);
    for (int place = 0; place < places; place++)
        if (open[place])
            start[bucket_of(weights, key, place) + 1]++;
    for (int bucket = 0; bucket < BUCKETS; bucket++)
        start[bucket + 1] += start[bucket];
    int n = start[BUCKETS];
    for (int k = 0; k < places; k++) {
        int place = from_back ? places - 1 - k : k;
        if (open[place])
            queue[start[bucket_of(weights, key, place)]++] = place;
    }
    return n;
}

int wb_greedy_weights(const WbWeights *weights, uint8_t *open, WbGreedyKey key, bool from_back,
                      int *queue, int *picked, int room)
{
    Walk walk = {.grid = weights->grid, .open = open, .picked = picked, .room = room};
    int n = sort_places(weights, open, key, from_back, queue);
    for (int k = 0; k < n && walk.n < room; k++)
        try_place(&walk, queue[k]);
    return walk.n;
}
