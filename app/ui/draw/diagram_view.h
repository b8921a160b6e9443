/* The wiring diagram on screen: fits the width it is given, larger and smaller by Ctrl and the
 * wheel or + and -, pushed about by hand. A circuit under the pointer, or chosen by arrow keys,
 * shows its whole reckoning on a card; a click or Enter chooses it. */
#ifndef WB_DIAGRAM_VIEW_H
#define WB_DIAGRAM_VIEW_H

#include "wiring.h"
#include <gtk/gtk.h>

#define WB_TYPE_DIAGRAM_VIEW (wb_diagram_view_get_type())
G_DECLARE_FINAL_TYPE(WbDiagramView, wb_diagram_view, WB, DIAGRAM_VIEW, GtkWidget)

/* Signal "chosen" (int circuit; -1: none): by the person. */
GtkWidget *wb_diagram_view_new(void);
/* Copies what it shows; problem NULL: nothing. */
void wb_diagram_view_set(WbDiagramView *self, const WbProblem *problem, const WbKit *kit,
                         const WbWiring *wiring);
/* -1: none. Not told by the signal. */
void wb_diagram_view_choose(WbDiagramView *self, int circuit);
int wb_diagram_view_get_chosen(WbDiagramView *self);
void wb_diagram_view_zoom(WbDiagramView *self, double factor);
void wb_diagram_view_fit(WbDiagramView *self);

#endif
