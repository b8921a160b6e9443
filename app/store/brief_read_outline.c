/* The roof's corners, and the points fixed on it: pinned panels and the cable gland. */
#include "brief_read.h"
#include "roof.h"

#define MOST_PINS 1000

/* [x, y] */
static WbCorner read_corner(const WbJson *at)
{
    WbCorner corner = {0};
    if (wb_json_list(at, 2, 2) != 2)
        return corner;
    WbJson x = wb_json_first(at), y = wb_json_next(&x);
    corner.x_mm = wb_json_integer(&x, 0, WB_MOST_MM);
    corner.y_mm = wb_json_integer(&y, 0, WB_MOST_MM);
    return corner;
}

/* Corners are counted from 1, as in the window. */
static void check_outline(const WbJson *at, const WbRoof *roof)
{
    size_t first = 0, second = 0, n = roof->n_corners;
    WbOutlineProblem problem = wb_roof_outline_problem(roof, &first, &second);
    if (problem == WB_OUTLINE_OFF_FRAME)
        wb_json_complain(at, WB_STORE_ERROR_VALUE,
                         "leaves the roof with corner %zu, [%" G_GINT64_FORMAT ", %" G_GINT64_FORMAT
                         "]; x must be from 0 to length_mm, %" G_GINT64_FORMAT
                         ", and y from 0 to width_mm, %" G_GINT64_FORMAT,
                         first + 1, roof->corners[first].x_mm, roof->corners[first].y_mm,
                         roof->length_mm, roof->width_mm);
    else if (problem == WB_OUTLINE_NO_LENGTH)
        wb_json_complain(at, WB_STORE_ERROR_VALUE,
                         "has corners %zu and %zu at the same place, [%" G_GINT64_FORMAT
                         ", %" G_GINT64_FORMAT "]; neighbours must differ",
                         first + 1, (first + 1) % n + 1, roof->corners[first].x_mm,
                         roof->corners[first].y_mm);
    else if (problem == WB_OUTLINE_CROSSES)
        wb_json_complain(at, WB_STORE_ERROR_VALUE,
                         "crosses or touches itself: the edge from corner %zu to corner %zu meets "
                         "the edge from corner %zu to corner %zu; an outline goes round the roof "
                         "once and encloses it",
                         first + 1, (first + 1) % n + 1, second + 1, (second + 1) % n + 1);
    else if (problem != WB_OUTLINE_GOOD)
        wb_json_complain(at, WB_STORE_ERROR_VALUE, "has %zu corners, but must have from 3 to %d", n,
                         WB_ROOF_CORNERS);
}

void wb_read_outline(const WbJson *roof, WbRoof *to)
{
    WbJson corners = wb_json_member(roof, "corners");
    if (!wb_json_given(&corners) || cJSON_IsNull(corners.item))
        return;
    int n = wb_json_list(&corners, 3, WB_ROOF_CORNERS);
    if (n == 0)
        return;
    WbCorner *list = g_new0(WbCorner, (gsize)n);
    to->corners = list;
    to->n_corners = (size_t)n;
    for (WbJson item = wb_json_first(&corners); item.item; item = wb_json_next(&item))
        list[item.index] = read_corner(&item);
    if (!roof->reader->error)
        check_outline(&corners, to);
}

void wb_read_pins(const WbJson *roof, WbRoof *to)
{
    WbJson pins = wb_json_member(roof, "pins");
    int n = wb_json_given(&pins) ? wb_json_list(&pins, 0, MOST_PINS) : 0;
    if (n == 0)
        return;
    WbPin *list = g_new0(WbPin, (gsize)n);
    to->pins = list;
    to->n_pins = (size_t)n;
    for (WbJson item = wb_json_first(&pins); item.item; item = wb_json_next(&item)) {
        if (!wb_json_object(&item))
            return;
        WbJson panel = wb_json_member(&item, "panel"), turned = wb_json_member(&item, "turned");
        list[item.index] = (WbPin){
            .part_id = wb_read_id(&panel),
            .x_mm = wb_read_mm(&item, "x_mm", 0),
            .y_mm = wb_read_mm(&item, "y_mm", 0),
            .turned = wb_json_flag_or(&turned, false),
        };
    }
}

void wb_read_gland(const WbJson *roof, WbRoof *to)
{
    WbJson gland = wb_json_member(roof, "gland");
    if (!wb_json_given(&gland) || cJSON_IsNull(gland.item) || !wb_json_object(&gland))
        return;
    WbJson x = wb_json_member(&gland, "x_mm"), y = wb_json_member(&gland, "y_mm");
    to->has_gland = true;
    to->gland.x_mm = wb_json_integer(&x, 0, to->length_mm);
    to->gland.y_mm = wb_json_integer(&y, 0, to->width_mm);
}
