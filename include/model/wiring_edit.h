/* The wiring a brief asks for: which of its lengths were measured and which are assumed. */
#ifndef WB_WIRING_EDIT_H
#define WB_WIRING_EDIT_H

#include "document.h"

/* The words of the brief's choices, translated. */
const char *wb_wiring_sizes_words(int sizes);       /* WbSizes: "AWG" */
const char *wb_wiring_rule_set_words(int rule_set); /* WbRuleSet: "road vehicle" */

/* Kits of this brief may have such a circuit: none from an alternator or shore power that it does
 * not have. */
gboolean wb_wiring_can_have(const WbBrief *brief, WbCircuitKind kind);

/* Nobody measured it yet: the brief does not give it, or null. */
gboolean wb_wiring_is_assumed(const WbBriefFile *file, WbCircuitKind kind);
/* Kinds of circuit that kits may have, and those of them whose length is assumed. */
guint wb_wiring_count(const WbBriefFile *file);
guint wb_wiring_count_assumed(const WbBriefFile *file);

/* Every length of these that is assumed is taken as measured, one undo step; none: nothing is done.
 */
gboolean wb_wiring_take_assumed(WbDocument *document, GError **error);

#endif
