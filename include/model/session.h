/* View state, one per window: which page is shown, which kit is in hand, what is hovered, pinned
 * and plotted. Nothing of it is saved, except that a kit can be kept in the brief.
 *
 * Properties, readable and writable: "page" (name of a step, see outline.h), "kit" (text id, "":
 * the best one), "hovered" (text id, "": none), "axis-x", "axis-y" (WbCriterion as int),
 * "part-kind" (WbPartKind as int), "part-asked" (id of the part of which it is asked why it is in
 * no kit, "": none). Signal: "pins-changed". */
#ifndef WB_SESSION_H
#define WB_SESSION_H

#include "brief.h"
#include <glib-object.h>

#define WB_TYPE_SESSION (wb_session_get_type())
G_DECLARE_FINAL_TYPE(WbSession, wb_session, WB, SESSION, GObject)

#define WB_MOST_PINS 6

WbSession *wb_session_new(void);
const char *wb_session_get_page(WbSession *self);
void wb_session_set_page(WbSession *self, const char *page);
const char *wb_session_get_kit(WbSession *self);
void wb_session_set_kit(WbSession *self, const char *kit_id);
const char *wb_session_get_hovered(WbSession *self);
void wb_session_set_hovered(WbSession *self, const char *kit_id);
WbCriterion wb_session_get_axis_x(WbSession *self);
WbCriterion wb_session_get_axis_y(WbSession *self);
void wb_session_set_axes(WbSession *self, WbCriterion x, WbCriterion y);
int wb_session_get_part_kind(WbSession *self);
void wb_session_set_part_kind(WbSession *self, int kind);
const char *wb_session_get_part_asked(WbSession *self);
void wb_session_set_part_asked(WbSession *self, const char *part_id);

/* Kits kept side by side, in the order pinned. FALSE: already WB_MOST_PINS. */
gboolean wb_session_pin(WbSession *self, const char *kit_id);
void wb_session_unpin(WbSession *self, const char *kit_id);
gboolean wb_session_is_pinned(WbSession *self, const char *kit_id);
/* NULL-terminated, borrowed. */
const char *const *wb_session_get_pins(WbSession *self, gsize *n);

#endif
