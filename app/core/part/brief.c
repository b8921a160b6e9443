#include "brief.h"

const char *wb_criterion_name(WbCriterion criterion)
{
    static const char *const names[WB_N_CRITERIA] = {
        "cost", "weight", "usable_capacity", "roof_area", "autonomy", "spare_power", "dark_hours",
    };
    return names[criterion];
}
