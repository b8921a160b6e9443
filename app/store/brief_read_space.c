#include "brief_read.h"
#include <math.h>

int64_t wb_read_mm(const WbJson *object, const char *key, int64_t least)
{
    WbJson at = wb_json_member(object, key);
    return wb_json_integer(&at, least, WB_MOST_MM);
}

int64_t wb_read_mm_or_0(const WbJson *object, const char *key)
{
    WbJson at = wb_json_member(object, key);
    return wb_json_integer_or(&at, 0, WB_MOST_MM, 0);
}

static void read_heights(const WbJson *roof, WbRoof *to)
{
    WbJson over = wb_json_member(roof, "over_obstacles");
    WbJson most = wb_json_member(roof, "max_height_mm");
    to->standoff_mm = wb_read_mm_or_0(roof, "standoff_mm");
    to->over_obstacles = wb_json_flag_or(&over, false);
    if (!wb_json_given(&most) || cJSON_IsNull(most.item))
        return;
    if (cJSON_IsNumber(most.item))
        to->max_height_mm = wb_json_integer(&most, 1, WB_MOST_MM);
    else
        wb_json_refuse(&most, "a whole number from 1 to %d, or null", WB_MOST_MM);
}

static void read_roof(const WbJson *root, WbRoof *to)
{
    to->front_azimuth_deg = NAN;
    WbJson roof = wb_json_member(root, "roof");
    if (!wb_json_object(&roof))
        return;
    WbJson load = wb_json_member(&roof, "max_load_kg");
    to->length_mm = wb_read_mm(&roof, "length_mm", 1);
    to->width_mm = wb_read_mm(&roof, "width_mm", 1);
    to->margin_mm = wb_read_mm_or_0(&roof, "margin_mm");
    to->gap_mm = wb_read_mm_or_0(&roof, "gap_mm");
    to->max_load_kg = wb_json_number_or_null(&load, 0, 1000000, NAN);
    to->front_azimuth_deg = wb_read_azimuth(&roof, "front_azimuth_deg", true);
    read_heights(&roof, to);
    wb_read_outline(&roof, to);
    wb_read_obstacles(&roof, to);
    wb_read_gland(&roof, to);
    wb_read_pins(&roof, to);
}

void wb_read_space(const WbJson *root, WbBrief *brief)
{
    read_roof(root, &brief->roof);
    WbJson bay = wb_json_member(root, "bay");
    if (!wb_json_given(&bay) || cJSON_IsNull(bay.item) || !wb_json_object(&bay))
        return;
    brief->bay.length_mm = wb_read_mm(&bay, "length_mm", 1);
    brief->bay.width_mm = wb_read_mm(&bay, "width_mm", 1);
    brief->bay.height_mm = wb_read_mm(&bay, "height_mm", 1);
    brief->bay.gap_mm = wb_read_mm_or_0(&bay, "gap_mm");
}
