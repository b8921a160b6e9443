#include "room.h"
#include <stdlib.h>

int64_t *wb_room_sums(const WbRoom *room, int64_t longest_mm)
{
    int64_t *largest = malloc((longest_mm + 1) * sizeof *largest);
    if (!largest)
        return NULL;
    int64_t a = room->panel_length_mm, b = room->panel_width_mm;
    largest[0] = 0;
    for (int64_t length = 1; length <= longest_mm; length++) {
        bool is_sum = (length >= a && largest[length - a] == length - a) ||
                      (length >= b && largest[length - b] == length - b);
        largest[length] = is_sum ? length : largest[length - 1];
    }
    return largest;
}

int wb_room_lines(const int64_t *largest_sum_mm, int64_t room_mm, int64_t *at_mm)
{
    int n = 0;
    for (int64_t at = 0; at < room_mm; at++) {
        if (largest_sum_mm[at] != at)
            continue;
        if (n == WB_ROOM_LINES)
            return -1;
        at_mm[n++] = at;
    }
    return n;
}
