/* A staircase: the best that so much of something buys. Each step is a kit; what lies beyond a
 * limit is shaded, the kit in hand is marked. Pointer and Left/Right show a step's numbers; click
 * or Enter chooses it. */
#ifndef WB_STEP_CHART_H
#define WB_STEP_CHART_H

#include <gtk/gtk.h>

#define WB_TYPE_STEP_CHART (wb_step_chart_get_type())
G_DECLARE_FINAL_TYPE(WbStepChart, wb_step_chart, WB, STEP_CHART, GtkWidget)

typedef struct {
    double x, y; /* in the units of the axes */
} WbStep;

/* What the card beside a step says. (transfer full) */
typedef char *(*WbStepText)(guint index, gpointer data);

GtkWidget *wb_step_chart_new(void);
void wb_step_chart_set_text(WbStepChart *self, WbStepText text, gpointer data);
/* `x_label` stands under the picture, `y_label` over it; the summary is read to who does not see
 * it. */
void wb_step_chart_set_words(WbStepChart *self, const char *x_label, const char *y_label,
                             const char *summary);
/* x rises. limit: of x; INFINITY: none. end: the last step holds as far; INFINITY: just beyond. */
void wb_step_chart_set_steps(WbStepChart *self, const WbStep *steps, guint n, double limit,
                             double end);
/* The kit in hand, on the line or off it; a NaN: it is not drawn. */
void wb_step_chart_set_hand(WbStepChart *self, double x, double y);
/* Dimmed while its numbers are being worked out again. */
void wb_step_chart_set_stale(WbStepChart *self, gboolean stale);

#endif
