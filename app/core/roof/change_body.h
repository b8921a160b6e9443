/* Whether an obstacle that is moved may end where it would: on the roof, on no other body. */
#ifndef WB_CHANGE_BODY_H
#define WB_CHANGE_BODY_H

#include "change_shift.h"
#include <stddef.h>

typedef struct {
    const WbMove *move;
    WbObstacle *near; /* bodies that may be in the way */
    size_t n_near;
} WbBodies;

/* For shifts 1..last_mm. WB_NO_MEMORY; free after WB_OK. */
WbStatus wb_bodies(const WbMove *move, int64_t last_mm, WbBodies *bodies);
bool wb_bodies_allow(const WbBodies *bodies, int64_t by_mm);
void wb_bodies_free(WbBodies *bodies);

#endif
