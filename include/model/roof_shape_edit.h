/* Edits of the roof's shape, of what stands on it, and of what is fixed by hand, as a person makes
 * them. Each is one undo step; nudges of the same thing in a row are one. FALSE and one sentence
 * where it is refused, and nothing changed. Lengths in mm. */
#ifndef WB_ROOF_SHAPE_EDIT_H
#define WB_ROOF_SHAPE_EDIT_H

#include "document.h"

/* Length and width. Corners on the right and on the back edge of the frame go along with it. */
gboolean wb_roof_resize(WbDocument *document, gint64 length_mm, gint64 width_mm, GError **error);
/* A nudge of the right (dx) or the back edge (dy) of a rectangle. */
gboolean wb_roof_nudge(WbDocument *document, gint64 dx_mm, gint64 dy_mm, GError **error);
/* What a roof so long and wide would leave outside, and what to move first: one sentence, NULL:
 * nothing. (transfer full) */
char *wb_roof_left_outside(const WbRoof *roof, gint64 length_mm, gint64 width_mm);

/* ---- corners ---- */

/* Four corners of the rectangle, to be moved; or none, the rectangle again. */
gboolean wb_corners_set_given(WbDocument *document, gboolean given, GError **error);
/* A new corner on the edge from corner `edge` to the next; it is corner edge + 1 then. */
gboolean wb_corner_add(WbDocument *document, guint edge, gint64 x_mm, gint64 y_mm, GError **error);
gboolean wb_corner_remove(WbDocument *document, guint index, GError **error);
/* A drag. The frame grows where the corner leaves it to the right or to the back. */
gboolean wb_corner_move(WbDocument *document, guint index, gint64 x_mm, gint64 y_mm,
                        GError **error);
gboolean wb_corner_nudge(WbDocument *document, guint index, gint64 dx_mm, gint64 dy_mm,
                         GError **error);

/* ---- obstacles ---- */

/* A drag of an edge or corner. Of a round one the larger length is its diameter. */
gboolean wb_obstacle_resize(WbDocument *document, guint index, gint64 x_mm, gint64 y_mm,
                            gint64 length_mm, gint64 width_mm, GError **error);
/* A nudge of the right (dx) or back edge (dy); a round one keeps its left front corner. */
gboolean wb_obstacle_grow(WbDocument *document, guint index, gint64 dx_mm, gint64 dy_mm,
                          GError **error);
/* Round: about its centre, of its smaller length. */
gboolean wb_obstacle_set_round(WbDocument *document, guint index, gboolean round, GError **error);
gboolean wb_obstacle_set_kind(WbDocument *document, guint index, WbObstacleKind kind,
                              GError **error);
/* Both at once. */
gboolean wb_obstacle_set_form(WbDocument *document, guint index, WbObstacleKind kind,
                              gboolean round, GError **error);
gboolean wb_obstacle_set_height(WbDocument *document, guint index, gint64 height_mm,
                                GError **error);

/* ---- pins and gland ---- */

gboolean wb_pin_add(WbDocument *document, const char *part_id, gint64 x_mm, gint64 y_mm,
                    gboolean turned, GError **error);
gboolean wb_pin_remove(WbDocument *document, guint index, GError **error);
/* All pins of a panel; NULL: of every panel. */
gboolean wb_pins_remove(WbDocument *document, const char *part_id, GError **error);
gboolean wb_pin_move(WbDocument *document, guint index, gint64 x_mm, gint64 y_mm, GError **error);
gboolean wb_pin_nudge(WbDocument *document, guint index, gint64 dx_mm, gint64 dy_mm,
                      GError **error);
gboolean wb_pin_turn(WbDocument *document, guint index, gboolean turned, GError **error);

gboolean wb_gland_set(WbDocument *document, gint64 x_mm, gint64 y_mm, GError **error);
gboolean wb_gland_nudge(WbDocument *document, gint64 dx_mm, gint64 dy_mm, GError **error);
gboolean wb_gland_remove(WbDocument *document, GError **error);

#endif
