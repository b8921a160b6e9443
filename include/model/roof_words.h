/* The roof in sentences, for the window and the terminal alike. All (transfer full). */
#ifndef WB_ROOF_WORDS_H
#define WB_ROOF_WORDS_H

#include "brief.h"
#include "part.h"
#include "roof.h"
#include "roof_change.h"
#include <glib.h>

/* The answer in words: "3 fit, 4 do not: proved". */
char *wb_roof_fit_words(const WbRoofFit *fit);
/* What would let one more in, a sentence each for the first n of the changes, a space between:
 * "Move Vent 2 by 85 mm to the right and a third fits." The roof is the one asked about; n 1: one
 * sentence. NULL where n is 0. */
char *wb_roof_change_words(const WbRoof *roof, const WbRoofChange *changes, int n);
/* Whether it is of use to a person: changes of the roof are; that the panel is too large is where
 * it is by little. */
gboolean wb_roof_change_is_useful(const WbRoofChange *change);
/* Frees those that are not; so many stay, first and in their order. */
int wb_roof_changes_keep_useful(WbRoofChange *change, int n);
/* Why a fit of this panel was refused: which of its pins stands wrong, and what forbids its place:
 * the edge, one obstacle or another pin. */
char *wb_roof_refused_words(const WbRoof *roof, const WbPanel *panel);
/* An obstacle for people: its name, with its number where it has none or shares it. */
char *wb_roof_obstacle_name(const WbRoof *roof, int index);

#endif
