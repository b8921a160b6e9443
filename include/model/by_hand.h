/* The worst-month worksheet of one kit, line by line in words and figures, and what it leaves
 * out beside the hourly year. For the window and the terminal alike. */
#ifndef WB_BY_HAND_H
#define WB_BY_HAND_H

#include "kit.h"
#include "worksheet.h"
#include <glib.h>

typedef struct {
    const char *key; /* "corrected_ah" */
    char *label, *formula, *numbers, *value, *unit, *source;
    double figure; /* the value as a number */
} WbByHandLine;

typedef struct {
    WbWorksheetInput input;
    WbWorksheet sheet;
    gsize n;
    WbByHandLine *line;
    gboolean agrees;    /* the sheet asks for as many strings and batteries as the kit has */
    char **differences; /* sentences, NULL-terminated; where the sheet differs from the hours */
} WbByHand;

/* What the worksheet asks of this kit: its loads, its place, one of its strings. */
void wb_by_hand_input(const WbProblem *problem, const WbVerdict *verdict, WbWorksheetInput *input);
/* NULL: the sheet cannot be filled (an AC load without its inverter counts as none). The verdict
 * must hold its year. */
WbByHand *wb_by_hand_new(const WbProblem *problem, const WbVerdict *verdict);
void wb_by_hand_free(WbByHand *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbByHand, wb_by_hand_free)

#endif
