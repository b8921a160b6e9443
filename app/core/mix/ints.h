/* A list of whole numbers that grows. */
#ifndef WB_INTS_H
#define WB_INTS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct {
    int32_t *at;
    size_t n, room;
} WbInts;

/* False: out of memory, the list is as it was. */
bool wb_ints_push(WbInts *ints, int32_t value);
bool wb_ints_reserve(WbInts *ints, size_t more);
void wb_ints_free(WbInts *ints);

#endif
