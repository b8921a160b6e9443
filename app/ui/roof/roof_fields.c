#include "roof_fields.h"

#include "roof_shape_edit.h"
#include <glib/gi18n-lib.h>
#include <math.h>

static double length(const WbBrief *brief, int index)
{
    return (double)brief->roof.length_mm;
}

static double width(const WbBrief *brief, int index)
{
    return (double)brief->roof.width_mm;
}

static char *too_short(const WbBrief *brief, double value)
{
    return wb_roof_left_outside(&brief->roof, (gint64)value, brief->roof.width_mm);
}

static char *too_narrow(const WbBrief *brief, double value)
{
    return wb_roof_left_outside(&brief->roof, brief->roof.length_mm, (gint64)value);
}

static double margin(const WbBrief *brief, int index)
{
    return (double)brief->roof.margin_mm;
}

static double gap(const WbBrief *brief, int index)
{
    return (double)brief->roof.gap_mm;
}

static double load(const WbBrief *brief, int index)
{
    return brief->roof.max_load_kg;
}

static double standoff(const WbBrief *brief, int index)
{
    return (double)brief->roof.standoff_mm;
}

static double over(const WbBrief *brief, int index)
{
    return brief->roof.over_obstacles;
}

static double height(const WbBrief *brief, int index)
{
    return brief->roof.max_height_mm > 0 ? (double)brief->roof.max_height_mm : NAN;
}

static double front(const WbBrief *brief, int index)
{
    return brief->roof.front_azimuth_deg;
}

static double gland_x(const WbBrief *brief, int index)
{
    return brief->roof.has_gland ? (double)brief->roof.gland.x_mm : NAN;
}

static double gland_y(const WbBrief *brief, int index)
{
    return brief->roof.has_gland ? (double)brief->roof.gland.y_mm : NAN;
}

static double bay_length(const WbBrief *brief, int index)
{
    return (double)brief->bay.length_mm;
}

static double bay_width(const WbBrief *brief, int index)
{
    return (double)brief->bay.width_mm;
}

static double bay_height(const WbBrief *brief, int index)
{
    return (double)brief->bay.height_mm;
}

static double bay_gap(const WbBrief *brief, int index)
{
    return (double)brief->bay.gap_mm;
}

static const WbBriefField fields[WB_N_ROOF_FIELDS] = {
    [WB_ROOF_LENGTH] = {.title = N_("Length"),
                        .unit = "mm",
                        .step = N_("Change the roof's length"),
                        .pointer = "/roof/length_mm",
                        .number = length,
                        .refuses = too_short},
    [WB_ROOF_WIDTH] = {.title = N_("Width"),
                       .unit = "mm",
                       .step = N_("Change the roof's width"),
                       .pointer = "/roof/width_mm",
                       .number = width,
                       .refuses = too_narrow},
    [WB_ROOF_MARGIN] = {.title = N_("Kept free at the edge"),
                        .unit = "mm",
                        .step = N_("Change the margin"),
                        .pointer = "/roof/margin_mm",
                        .number = margin},
    [WB_ROOF_GAP] = {.title = N_("Gap between panels"),
                     .unit = "mm",
                     .step = N_("Change the gap"),
                     .pointer = "/roof/gap_mm",
                     .number = gap},
    [WB_ROOF_LOAD] = {.title = N_("Carries at most"),
                      .unit = "kg",
                      .note = N_("Panels with their mounts. Empty: no limit is checked."),
                      .step = N_("Change the roof's load limit"),
                      .pointer = "/roof/max_load_kg",
                      .empty = N_("no limit"),
                      .empty_json = "null",
                      .number = load},
    [WB_ROOF_STANDOFF] = {.title = N_("Panels stand off by"),
                          .unit = "mm",
                          .note = N_("From the roof to the underside of the panels."),
                          .step = N_("Change the standoff"),
                          .pointer = "/roof/standoff_mm",
                          .number = standoff},
    [WB_ROOF_OVER] = {.title = N_("Panels may pass over what is lower than that"),
                      .note = N_("Only over obstacles whose height is given, never over walkways."),
                      .step = N_("Change whether panels pass over obstacles"),
                      .pointer = "/roof/over_obstacles",
                      .kind = WB_BRIEF_FLAG,
                      .number = over},
    [WB_ROOF_HEIGHT] = {.title = N_("Highest over the roof"),
                        .unit = "mm",
                        .note = N_("Of a panel's top. Empty: no limit."),
                        .step = N_("Change the limit of height"),
                        .pointer = "/roof/max_height_mm",
                        .empty = N_("no limit"),
                        .empty_json = "null",
                        .number = height},
    [WB_ROOF_FRONT] = {.title = N_("Front looks towards"),
                       .unit = "\302\260",
                       .note = N_("Compass direction from the back edge to the front, clockwise "
                                  "from north. Empty: any, as of what travels."),
                       .step = N_("Change where the front looks"),
                       .pointer = "/roof/front_azimuth_deg",
                       .empty = N_("any"),
                       .empty_json = "null",
                       .number = front},
    [WB_GLAND_X] = {.title = N_("Gland from the left"),
                    .unit = "mm",
                    .step = N_("Move the gland"),
                    .pointer = "/roof/gland/x_mm",
                    .number = gland_x},
    [WB_GLAND_Y] = {.title = N_("Gland from the front"),
                    .unit = "mm",
                    .step = N_("Move the gland"),
                    .pointer = "/roof/gland/y_mm",
                    .number = gland_y},
    [WB_BAY_LENGTH] = {.title = N_("Bay length"),
                       .unit = "mm",
                       .step = N_("Change the bay's length"),
                       .pointer = "/bay/length_mm",
                       .number = bay_length},
    [WB_BAY_WIDTH] = {.title = N_("Bay width"),
                      .unit = "mm",
                      .step = N_("Change the bay's width"),
                      .pointer = "/bay/width_mm",
                      .number = bay_width},
    [WB_BAY_HEIGHT] = {.title = N_("Bay height"),
                       .unit = "mm",
                       .step = N_("Change the bay's height"),
                       .pointer = "/bay/height_mm",
                       .number = bay_height},
    [WB_BAY_GAP] = {.title = N_("Air between batteries"),
                    .unit = "mm",
                    .step = N_("Change the air between batteries"),
                    .pointer = "/bay/gap_mm",
                    .number = bay_gap},
};

const WbBriefField *wb_roof_field(WbRoofFieldId id)
{
    g_return_val_if_fail((int)id >= 0 && id < WB_N_ROOF_FIELDS, NULL);
    return &fields[id];
}

/* ---- obstacles ---- */

static const WbObstacle *obstacle_of(const WbBrief *brief, int index)
{
    return index >= 0 && (size_t)index < brief->roof.n_obstacles ? &brief->roof.obstacles[index]
                                                                 : NULL;
}

static const char *name(const WbBrief *brief, int index)
{
    const WbObstacle *obstacle = obstacle_of(brief, index);
    return obstacle != NULL ? obstacle->name : NULL;
}

static double x(const WbBrief *brief, int index)
{
    const WbObstacle *obstacle = obstacle_of(brief, index);
    return obstacle != NULL ? (double)obstacle->x_mm : NAN;
}

static double y(const WbBrief *brief, int index)
{
    const WbObstacle *obstacle = obstacle_of(brief, index);
    return obstacle != NULL ? (double)obstacle->y_mm : NAN;
}

static double obstacle_length(const WbBrief *brief, int index)
{
    const WbObstacle *obstacle = obstacle_of(brief, index);
    return obstacle != NULL ? (double)obstacle->length_mm : NAN;
}

static double obstacle_width(const WbBrief *brief, int index)
{
    const WbObstacle *obstacle = obstacle_of(brief, index);
    return obstacle != NULL ? (double)obstacle->width_mm : NAN;
}

static double clearance(const WbBrief *brief, int index)
{
    const WbObstacle *obstacle = obstacle_of(brief, index);
    return obstacle != NULL ? (double)obstacle->clearance_mm : NAN;
}

/* 0 where it is not known, and shown as empty. */
static double obstacle_height(const WbBrief *brief, int index)
{
    const WbObstacle *obstacle = obstacle_of(brief, index);
    return obstacle != NULL && obstacle->height_mm > 0 ? (double)obstacle->height_mm : NAN;
}

static const WbBriefField obstacle_fields[WB_N_OBSTACLE_FIELDS] = {
    [WB_OBSTACLE_NAME] = {.title = N_("Obstacle"),
                          .step = N_("Rename an obstacle"),
                          .pointer = "/roof/obstacles/#/name",
                          .kind = WB_BRIEF_TEXT,
                          .text = name},
    [WB_OBSTACLE_X] = {.title = N_("From the left"),
                       .unit = "mm",
                       .step = N_("Move an obstacle"),
                       .pointer = "/roof/obstacles/#/x_mm",
                       .number = x},
    [WB_OBSTACLE_Y] = {.title = N_("From the front"),
                       .unit = "mm",
                       .step = N_("Move an obstacle"),
                       .pointer = "/roof/obstacles/#/y_mm",
                       .number = y},
    [WB_OBSTACLE_LENGTH] = {.title = N_("Length"),
                            .unit = "mm",
                            .step = N_("Change an obstacle's length"),
                            .pointer = "/roof/obstacles/#/length_mm",
                            .number = obstacle_length},
    [WB_OBSTACLE_WIDTH] = {.title = N_("Width"),
                           .unit = "mm",
                           .step = N_("Change an obstacle's width"),
                           .pointer = "/roof/obstacles/#/width_mm",
                           .number = obstacle_width},
    [WB_OBSTACLE_CLEARANCE] = {.title = N_("Clearance"),
                               .unit = "mm",
                               .step = N_("Change an obstacle's clearance"),
                               .pointer = "/roof/obstacles/#/clearance_mm",
                               .number = clearance},
    [WB_OBSTACLE_HEIGHT] = {.title = N_("Height"),
                            .unit = "mm",
                            .step = N_("Change an obstacle's height"),
                            .pointer = "/roof/obstacles/#/height_mm",
                            .empty = N_("unknown"),
                            .empty_json = "0",
                            .number = obstacle_height},
};

const WbBriefField *wb_obstacle_field(WbObstacleFieldId id)
{
    g_return_val_if_fail((int)id >= 0 && id < WB_N_OBSTACLE_FIELDS, NULL);
    return &obstacle_fields[id];
}

/* ---- corners ---- */

static double corner_x(const WbBrief *brief, int index)
{
    return index >= 0 && (size_t)index < brief->roof.n_corners
               ? (double)brief->roof.corners[index].x_mm
               : NAN;
}

static double corner_y(const WbBrief *brief, int index)
{
    return index >= 0 && (size_t)index < brief->roof.n_corners
               ? (double)brief->roof.corners[index].y_mm
               : NAN;
}

static const WbBriefField corner_fields[WB_N_CORNER_FIELDS] = {
    [WB_CORNER_X] = {.title = N_("From the left"),
                     .unit = "mm",
                     .step = N_("Move a corner"),
                     .pointer = "/roof/corners/#/0",
                     .number = corner_x},
    [WB_CORNER_Y] = {.title = N_("From the front"),
                     .unit = "mm",
                     .step = N_("Move a corner"),
                     .pointer = "/roof/corners/#/1",
                     .number = corner_y},
};

const WbBriefField *wb_corner_field(WbCornerFieldId id)
{
    g_return_val_if_fail((int)id >= 0 && id < WB_N_CORNER_FIELDS, NULL);
    return &corner_fields[id];
}
