#include "control.h"

void wb_control_init(WbControl *control)
{
    atomic_init(&control->stop, false);
    atomic_init(&control->done, 0);
    atomic_init(&control->todo, 0);
}

void wb_control_stop(WbControl *control)
{
    atomic_store(&control->stop, true);
}

bool wb_control_stopped(const WbControl *control)
{
    return control && atomic_load_explicit(&control->stop, memory_order_relaxed);
}
