/* Edits of roof, obstacles and bay as a person makes them. Each is one undo step; FALSE and one
 * sentence where it is refused, and nothing changed. Lengths in mm. */
#ifndef WB_ROOF_EDIT_H
#define WB_ROOF_EDIT_H

#include "document.h"

/* A first obstacle in the roof's middle, to be moved and sized. */
gboolean wb_obstacle_add(WbDocument *document, GError **error);
gboolean wb_obstacle_duplicate(WbDocument *document, guint index, GError **error);
gboolean wb_obstacle_remove(WbDocument *document, guint index, GError **error);
/* A drag: one step of its own. */
gboolean wb_obstacle_move(WbDocument *document, guint index, gint64 x_mm, gint64 y_mm,
                          GError **error);
/* A nudge along one side; nudges in a row along the same side are one step. */
gboolean wb_obstacle_nudge(WbDocument *document, guint index, gint64 dx_mm, gint64 dy_mm,
                           GError **error);
/* A first bay to be sized, or none. */
gboolean wb_bay_set_given(WbDocument *document, gboolean given, GError **error);

/* The same outline, margin, gap, standoff, obstacles, pins and gland, whatever the names: layouts
 * of one hold for the other. */
gboolean wb_roof_same(const WbRoof *a, const WbRoof *b);

#endif
