#include "status.h"

const char *wb_status_describe(WbStatus status)
{
    switch (status) {
    case WB_OK:
        return "It worked.";
    case WB_STOPPED:
        return "It was stopped before it finished.";
    case WB_BUDGET:
        return "The budget of steps was used up before the answer was proved.";
    case WB_NO_MEMORY:
        return "There was not enough memory.";
    case WB_BAD_INPUT:
        return "A value lies outside what is accepted.";
    }
    return "Unknown status.";
}
