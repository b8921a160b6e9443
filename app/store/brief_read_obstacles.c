/* What stands on the roof, is walked on or shades it. */
#include "brief_read.h"
#include "text_rules.h"

#define MOST_OBSTACLES 1000

static const char *const shapes[] = {"rectangle", "round", NULL};
static const char *const kinds[] = {"stands", "walkway", "shade", NULL};

static void read_obstacle(const WbJson *at, WbObstacle *obstacle)
{
    if (!wb_json_object(at))
        return;
    WbJson name = wb_json_member(at, "name"), shape = wb_json_member(at, "shape");
    WbJson kind = wb_json_member(at, "kind");
    *obstacle = (WbObstacle){
        .name = wb_json_text(&name, WB_NAME_MOST),
        .x_mm = wb_read_mm(at, "x_mm", -WB_MOST_MM),
        .y_mm = wb_read_mm(at, "y_mm", -WB_MOST_MM),
        .length_mm = wb_read_mm(at, "length_mm", 1),
        .width_mm = wb_read_mm(at, "width_mm", 1),
        .clearance_mm = wb_read_mm_or_0(at, "clearance_mm"),
        .height_mm = wb_read_mm_or_0(at, "height_mm"),
        .kind = wb_json_word_or(&kind, kinds, WB_OBSTACLE_STANDS),
        .round = wb_json_word_or(&shape, shapes, 0) == 1,
    };
    WbJson width = wb_json_member(at, "width_mm");
    if (obstacle->round && obstacle->width_mm != obstacle->length_mm)
        wb_json_refuse(&width,
                       "%" G_GINT64_FORMAT " as length_mm: both are the diameter where \"shape\" "
                       "is \"round\"",
                       obstacle->length_mm);
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

void wb_read_obstacles(const WbJson *roof, WbRoof *to)
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
