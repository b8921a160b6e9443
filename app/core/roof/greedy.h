/* Good layouts quickly: panels set one by one at the first open place of some order. */
#ifndef WB_ROOF_GREEDY_H
#define WB_ROOF_GREEDY_H

#include "bound.h"

enum { WB_GREEDY_CORNERS = 32 };

/* `open` is used up. Places are written to `picked`, at most `room`; answers how many. */

/* way 0 .. WB_GREEDY_CORNERS - 1: a corner to start from, rows or columns first, and whether both
 * turns are tried at each point or one turn is laid out first. */
int wb_greedy_corner(const WbRoofGrid *grid, uint8_t *open, int way, int *picked, int room);

/* Places of little weight or of large share first; those that come out alike stand in the order of
 * their numbers, or in the opposite one. `queue` holds as many numbers as there are places. */
typedef enum { WB_GREEDY_WEIGHT, WB_GREEDY_SHARE } WbGreedyKey;
int wb_greedy_weights(const WbWeights *weights, uint8_t *open, WbGreedyKey key, bool from_back,
                      int *queue, int *picked, int room);

#endif
