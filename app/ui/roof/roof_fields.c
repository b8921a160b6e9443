#include "roof_fields.h"

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

static const WbBriefField fields[WB_N_ROOF_FIELDS] = {
    [WB_ROOF_LENGTH] = {.title = N_("Length"),
                        .unit = "mm",
                        .step = N_("Change the roof's length"),
                        .pointer = "/roof/length_mm",
                        .number = length},
    [WB_ROOF_WIDTH] = {.title = N_("Width"),
                       .unit = "mm",
                       .step = N_("Change the roof's width"),
                       .pointer = "/roof/width_mm",
                       .number = width},
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
    [WB_OBSTACLE_Y] = {.title = N_("From the top"),
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
};

const WbBriefField *wb_obstacle_field(WbObstacleFieldId id)
{
    g_return_val_if_fail((int)id >= 0 && id < WB_N_OBSTACLE_FIELDS, NULL);
    return &obstacle_fields[id];
}
