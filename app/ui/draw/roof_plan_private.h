/* The inside of WbRoofPlan, shared by roof_plan.c (the drawing) and roof_hand.c (pointer, keys). */
#ifndef WB_ROOF_PLAN_PRIVATE_H
#define WB_ROOF_PLAN_PRIVATE_H

#include "roof_plan.h"

typedef struct {
    char *name;
    WbRect rect;
    gint64 clearance_mm;
} WbPlanObstacle;

struct _WbRoofPlan {
    GtkWidget parent_instance;
    gint64 length_mm, width_mm, margin_mm;
    WbPlanObstacle *obstacles;
    guint n_obstacles;
    WbRect *layout;
    guint n_layout;
    int chosen;   /* -1 none */
    int held;     /* obstacle being dragged, -1 none */
    gboolean off; /* it has left its place: the layout is not for this roof */
    gint64 held_x_mm, held_y_mm;
    double grip_x_mm, grip_y_mm; /* pointer - obstacle's corner */
};

/* Where the plan stands: pixels = origin + mm x scale. */
typedef struct {
    double x, y, scale;
} WbPlanPlace;

WbPlanPlace wb_roof_plan_place(WbRoofPlan *self);
/* Brings the accessible description up to date. */
void wb_roof_plan_describe(WbRoofPlan *self);
/* The signals of the class, and the hands of a plan. */
void wb_roof_hand_class_init(WbRoofPlanClass *klass);
void wb_roof_hand_attach(WbRoofPlan *self);

#endif
