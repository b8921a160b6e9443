#include "brief_read.h"
#include "text_rules.h"
#include <math.h>

#define MOST_OBSTACLES 1000
#define MOST_MM 100000

static int64_t read_mm(const WbJson *object, const char *key, int64_t least)
{
    WbJson at = wb_json_member(object, key);
    return wb_json_integer(&at, least, MOST_MM);
}

static int64_t read_mm_or_0(const WbJson *object, const char *key)
{
    WbJson at = wb_json_member(object, key);
    return wb_json_integer_or(&at, 0, MOST_MM, 0);
}

static void read_obstacle(const WbJson *at, WbObstacle *obstacle)
{
    if (!wb_json_object(at))
        return;
    WbJson name = wb_json_member(at, "name");
    *obstacle = (WbObstacle){
        .name = wb_json_text(&name, WB_NAME_MOST),
        .x_mm = read_mm(at, "x_mm", -MOST_MM),
        .y_mm = read_mm(at, "y_mm", -MOST_MM),
        .length_mm = read_mm(at, "length_mm", 1),
        .width_mm = read_mm(at, "width_mm", 1),
        .clearance_mm = read_mm_or_0(at, "clearance_mm"),
    };
}

static void check_side(const WbJson *at, const char *along, int64_t from_mm, int64_t to_mm,
                       int64_t roof_mm)
{
    if (from_mm >= roof_mm || to_mm <= 0)
        wb_json_complain(at, WB_STORE_ERROR_VALUE,
                         "lies wholly outside the roof: with its clearance it reaches along %s "
                         "from %" G_GINT64_FORMAT " to %" G_GINT64_FORMAT
                         ", the roof from 0 to %" G_GINT64_FORMAT,
                         along, from_mm, to_mm, roof_mm);
}

/* With its clearance an obstacle beside the roof may still take some of it; further out it is a
 * slip, and panels would lie where something stands. */
static void check_on_roof(const WbJson *at, const WbObstacle *obstacle, const WbRoof *roof)
{
    int64_t clear_mm = obstacle->clearance_mm;
    check_side(at, "x_mm", obstacle->x_mm - clear_mm,
               obstacle->x_mm + obstacle->length_mm + clear_mm, roof->length_mm);
    check_side(at, "y_mm", obstacle->y_mm - clear_mm,
               obstacle->y_mm + obstacle->width_mm + clear_mm, roof->width_mm);
}

static void read_obstacles(const WbJson *roof, WbRoof *to)
{
    WbJson obstacles = wb_json_member(roof, "obstacles");
    int n = wb_json_given(&obstacles) ? wb_json_list(&obstacles, 0, MOST_OBSTACLES) : 0;
    if (n == 0)
        return;
    WbObstacle *list = g_new0(WbObstacle, (gsize)n);
    to->obstacles = list;
    to->n_obstacles = (size_t)n;
    for (WbJson item = wb_json_first(&obstacles); item.item; item = wb_json_next(&item)) {
        read_obstacle(&item, &list[item.index]);
        check_on_roof(&item, &list[item.index], to);
    }
}

static void read_roof(const WbJson *root, WbRoof *to)
{
    WbJson roof = wb_json_member(root, "roof");
    if (!wb_json_object(&roof))
        return;
    WbJson load = wb_json_member(&roof, "max_load_kg");
    to->length_mm = read_mm(&roof, "length_mm", 1);
    to->width_mm = read_mm(&roof, "width_mm", 1);
    to->margin_mm = read_mm_or_0(&roof, "margin_mm");
    to->gap_mm = read_mm_or_0(&roof, "gap_mm");
    to->max_load_kg = wb_json_number_or_null(&load, 0, 1000000, NAN);
    read_obstacles(&roof, to);
}

void wb_read_space(const WbJson *root, WbBrief *brief)
{
    read_roof(root, &brief->roof);
    WbJson bay = wb_json_member(root, "bay");
    if (!wb_json_given(&bay) || cJSON_IsNull(bay.item) || !wb_json_object(&bay))
        return;
    brief->bay.length_mm = read_mm(&bay, "length_mm", 1);
    brief->bay.width_mm = read_mm(&bay, "width_mm", 1);
    brief->bay.height_mm = read_mm(&bay, "height_mm", 1);
}
