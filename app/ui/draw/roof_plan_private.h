/* The inside of WbRoofPlan. One idea a file: roof_plan.c the widget, roof_plan_data.c what it
 * holds, roof_view.c zoom, roof_scene.c what stays while a thing is dragged, roof_things.c single
 * things, roof_names.c their names, roof_told.c a sentence on it, roof_live.c what is chosen or
 * held, roof_pick.c what is under the pointer, roof_hand.c pointer, roof_keys.c keys, roof_tell.c
 * words. */
#ifndef WB_ROOF_PLAN_PRIVATE_H
#define WB_ROOF_PLAN_PRIVATE_H

#include "roof_hand.h"
#include "roof_ink.h"
#include "roof_plan.h"

/* What a press took hold of. */
typedef enum { WB_GRIP_NONE, WB_GRIP_MOVE, WB_GRIP_RESIZE, WB_GRIP_VIEW } WbGrip;

typedef struct {
    WbGrip grip;
    WbPlanThing thing;
    guint sides;       /* of a resize: bit WbSide */
    gboolean off;      /* it has left its place */
    WbRect was, now;   /* true outline before and now */
    double x_mm, y_mm; /* pointer - outline's left front corner, at the press */
    double x, y;       /* px: of a view, where the last movement ended */
    char *refusal;     /* why it cannot lie where it is now, NULL */
} WbPlanHeld;

/* Of everything the still picture depends on. */
typedef struct {
    guint64 serial;
    WbPalette palette;
    WbPlanPlace place;
    int width, height, scale_factor;
    WbPlanThing hidden;
    gboolean former; /* panels of the roof of before */
    gboolean trial;  /* none of them */
} WbSceneKey;

/* How it would be after a change. */
typedef struct {
    WbRect *panels; /* NULL: none is shown */
    guint n;
    int obstacle; /* -1 none */
    WbRect to;
} WbPlanTrial;

struct _WbRoofPlan {
    GtkWidget parent_instance;
    gboolean given, editable;
    WbRoof roof; /* its arrays are the plan's own */
    WbPlanPanel *panels;
    WbRect *rects; /* of the panels */
    guint n_panels;
    WbRoofView view;
    WbPlanThing chosen;
    WbRect chosen_rect; /* of a panel: layouts put it elsewhere in the list */
    WbPlanHeld held;
    WbPlanTrial trial;
    char *told;
    guint64 serial; /* grows with every other roof or layout */
    WbSceneKey scene_key;
    GdkTexture *scene;
    guint32 last_press; /* time and place of the last press, for a double one */
    double last_x, last_y;
};

/* ---- roof_plan_data.c ---- */
void wb_plan_data_set(WbRoofPlan *self, const WbRoof *roof, const WbPlanPanel *panels, guint n);
void wb_plan_data_clear(WbRoofPlan *self);
gboolean wb_plan_has(WbRoofPlan *self, WbPlanThing thing);
/* True outline; points have no size. */
WbRect wb_plan_rect(WbRoofPlan *self, WbPlanThing thing);
/* All things that can be chosen, in a row: its n-th, and how many. */
guint wb_plan_count(WbRoofPlan *self);
WbPlanThing wb_plan_nth(WbRoofPlan *self, guint n);
guint wb_plan_position(WbRoofPlan *self, WbPlanThing thing);
/* For snapping and distances. */
WbHeld wb_plan_around(WbRoofPlan *self, WbPlanThing thing);
gboolean wb_plan_same(WbPlanThing a, WbPlanThing b);

/* ---- the widget ---- */
WbPlanPlace wb_plan_place(WbRoofPlan *self);
WbViewFrame wb_plan_frame(WbRoofPlan *self);
void wb_plan_redraw(WbRoofPlan *self);
/* Chooses and says so. */
void wb_plan_pick(WbRoofPlan *self, WbPlanThing thing);
/* Asks for an edit. */
void wb_plan_ask(WbRoofPlan *self, WbPlanAction action, WbPlanThing thing, WbRect rect);
void wb_roof_plan_describe(WbRoofPlan *self); /* roof_tell.c */
char *wb_plan_name(WbRoofPlan *self, WbPlanThing thing);

/* ---- pictures ---- */
/* The still picture at this place, from the cache where nothing changed. Borrowed. */
GdkTexture *wb_plan_scene(WbRoofPlan *self, const WbPlanPlace *place);
/* One thing where it lies now: roof_things.c. */
void wb_plan_paint_obstacle(WbRoofPlan *self, WbInk *ink, int index, const WbRect *rect);
void wb_plan_paint_panel(WbRoofPlan *self, WbInk *ink, int index, const WbRect *rect);
void wb_plan_paint_gland(WbInk *ink, int64_t x_mm, int64_t y_mm);
/* roof_names.c: of all but what is held; of one thing where it lies now. */
void wb_plan_paint_names(WbRoofPlan *self, WbInk *ink);
void wb_plan_paint_name(WbRoofPlan *self, WbInk *ink, WbPlanThing thing, const WbRect *rect);
void wb_plan_paint_told(WbRoofPlan *self, WbInk *ink, const char *sentence); /* roof_told.c */
void wb_plan_paint_live(WbRoofPlan *self, cairo_t *cr, const WbPlanPlace *place);

/* ---- hands ---- */
/* What lies under a point, and how it would be taken hold of. */
void wb_plan_hit(WbRoofPlan *self, double x, double y, WbPlanHeld *hit);
/* The edge of a polygon near a point, -1 none. */
int wb_plan_hit_edge(WbRoofPlan *self, double x, double y);
/* Middles of the handles of the chosen thing, px; sides: bits of WbSide each moves. Answers how
 * many, up to 8. */
int wb_plan_handles(WbRoofPlan *self, const WbPlanPlace *place, const WbRect *rect, double x[8],
                    double y[8], guint sides[8]);
void wb_plan_let_go(WbRoofPlan *self);
void wb_plan_attach_hand(WbRoofPlan *self);
void wb_plan_attach_keys(WbRoofPlan *self);

#endif
