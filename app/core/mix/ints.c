#include "ints.h"
#include <stdlib.h>

bool wb_ints_reserve(WbInts *ints, size_t more)
{
    if (ints->n + more <= ints->room)
        return true;
    size_t room = ints->room ? 2 * ints->room : 16;
    while (room < ints->n + more)
        room *= 2;
    int32_t *at = realloc(ints->at, room * sizeof *at);
    if (!at)
        return false;
    ints->at = at;
    ints->room = room;
    return true;
}

bool wb_ints_push(WbInts *ints, int32_t value)
{
    if (!wb_ints_reserve(ints, 1))
        return false;
    ints->at[ints->n++] = value;
    return true;
}

void wb_ints_free(WbInts *ints)
{
    free(ints->at);
    *ints = (WbInts){0};
}
