/* The figures of roof, bay and obstacles, as the roof page edits them. */
#ifndef WB_ROOF_FIELDS_H
#define WB_ROOF_FIELDS_H

#include "brief_field.h"

typedef enum {
    WB_ROOF_LENGTH,
    WB_ROOF_WIDTH,
    WB_ROOF_MARGIN,
    WB_ROOF_GAP,
    WB_ROOF_LOAD,
    WB_ROOF_STANDOFF,
    WB_ROOF_OVER,
    WB_ROOF_HEIGHT,
    WB_ROOF_FRONT,
    WB_GLAND_X,
    WB_GLAND_Y,
    WB_BAY_LENGTH,
    WB_BAY_WIDTH,
    WB_BAY_HEIGHT,
    WB_BAY_GAP,
    WB_N_ROOF_FIELDS,
} WbRoofFieldId;

typedef enum {
    WB_OBSTACLE_NAME,
    WB_OBSTACLE_X,
    WB_OBSTACLE_Y,
    WB_OBSTACLE_LENGTH,
    WB_OBSTACLE_WIDTH,
    WB_OBSTACLE_CLEARANCE,
    WB_OBSTACLE_HEIGHT,
    WB_N_OBSTACLE_FIELDS,
} WbObstacleFieldId;

typedef enum { WB_CORNER_X, WB_CORNER_Y, WB_N_CORNER_FIELDS } WbCornerFieldId;

const WbBriefField *wb_roof_field(WbRoofFieldId id);
/* index: the obstacle. */
const WbBriefField *wb_obstacle_field(WbObstacleFieldId id);
/* index: the corner. */
const WbBriefField *wb_corner_field(WbCornerFieldId id);

#endif
