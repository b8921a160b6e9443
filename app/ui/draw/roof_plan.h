/* A roof from above, to scale: outline, grid, dimensions, margin, obstacles, panels and gland.
 *
 * Once editable, things are chosen by click or by Space and Backspace, dragged, resized by their
 * handles and nudged by the arrow keys (1 mm, Shift 10 mm, Ctrl 100 mm; with Alt their right and
 * back sides). Drags snap to what lies around and to 10 mm; with Shift they are free to 1 mm. Ctrl
 * and the wheel, + and - zoom, 0 shows all; the wheel and the middle button pan. The plan edits
 * nothing itself. Signals: "chosen" (int kind, int index); "edit" (const WbPlanEdit *): asked for,
 * to be done at once or refused (then see wb_roof_plan_tell). */
#ifndef WB_ROOF_PLAN_H
#define WB_ROOF_PLAN_H

#include "roof.h"
#include <gtk/gtk.h>

#define WB_TYPE_ROOF_PLAN (wb_roof_plan_get_type())
G_DECLARE_FINAL_TYPE(WbRoofPlan, wb_roof_plan, WB, ROOF_PLAN, GtkWidget)

typedef enum {
    WB_PLAN_NONE,
    WB_PLAN_OBSTACLE,
    WB_PLAN_PANEL,
    WB_PLAN_CORNER,
    WB_PLAN_RIGHT, /* the right edge of a rectangular roof */
    WB_PLAN_BACK,  /* its back edge */
    WB_PLAN_GLAND,
} WbPlanKind;

typedef struct {
    WbPlanKind kind;
    int index; /* 0 where there is but one */
} WbPlanThing;

typedef struct {
    WbRect rect;         /* true outline */
    const char *part_id; /* of the panel model, may be NULL */
    int pin;             /* index among the roof's pins; -1: not pinned */
} WbPlanPanel;

typedef enum {
    WB_PLAN_MOVE,   /* to rect; an edge: rect's x or y is the roof's new length or width */
    WB_PLAN_RESIZE, /* to rect */
    WB_PLAN_NUDGE,  /* by rect's x, y */
    WB_PLAN_GROW,   /* by rect's x, y, its right and back side */
    WB_PLAN_REMOVE, /* a panel: unpin it */
    WB_PLAN_ADD,    /* a corner on edge `index` at rect's x, y */
    WB_PLAN_PIN,    /* a panel where it lies */
    WB_PLAN_TURN,   /* a panel by 90 degrees; rect: how it lies then */
} WbPlanAction;

typedef struct {
    WbPlanAction action;
    WbPlanThing thing;
    WbRect rect;
} WbPlanEdit;

GtkWidget *wb_roof_plan_new(void);
/* Copies everything; roof NULL: none given. What was chosen stays so where it is still there. */
void wb_roof_plan_show(WbRoofPlan *self, const WbRoof *roof, const WbPlanPanel *panels, guint n);
/* The same for panels of one model of which no pin is known. */
void wb_roof_plan_set(WbRoofPlan *self, const WbRoof *roof, const WbRect *layout, guint n);
/* How it would be, drawn dashed instead of the panels until the next show: n panels and, where
 * obstacle >= 0, that one at the true outline `to`. */
void wb_roof_plan_try(WbRoofPlan *self, const WbRect *panels, guint n, int obstacle,
                      const WbRect *to);
void wb_roof_plan_make_editable(WbRoofPlan *self);
/* Emits nothing. */
void wb_roof_plan_choose(WbRoofPlan *self, WbPlanThing thing);
WbPlanThing wb_roof_plan_get_chosen(WbRoofPlan *self);
/* NULL: there is no such panel. Borrowed until the next show. */
const WbPlanPanel *wb_roof_plan_get_panel(WbRoofPlan *self, int index);
/* Why a panel cannot be moved to this true outline, the other panels left out that are not pinned;
 * NULL: it can. One of a mix, of no part id, cannot be moved at all. (transfer full) */
char *wb_roof_plan_not_free(WbRoofPlan *self, int panel, const WbRect *rect);
/* A sentence on the drawing until the next thing is done; NULL: none. */
void wb_roof_plan_tell(WbRoofPlan *self, const char *sentence);

#endif
