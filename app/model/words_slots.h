/* Sentences with named gaps, "{value}", so that translators may order them as their language wants.
 * Only words*.c include this. */
#ifndef WB_WORDS_SLOTS_H
#define WB_WORDS_SLOTS_H

#include "kit.h"
#include <glib.h>

typedef struct {
    const WbProblem *problem;
    const WbVerdict *verdict;
    const WbFinding *finding; /* NULL: a sentence about the kit, without {value} and {limit} */
    int decimals;             /* of {value} and {limit} */
} WbTold;

/* Fills every gap; an unknown one is a programming error and aborts. (transfer full) */
char *wb_words_fill(const char *sentence, const WbTold *told);

/* Parts of the kit; inverter and dcdc may be NULL. */
const WbPanel *wb_told_panel(const WbTold *told);
const WbController *wb_told_controller(const WbTold *told);
const WbStorage *wb_told_storage(const WbTold *told);
const WbChemistry *wb_told_chemistry(const WbTold *told);
const WbInverter *wb_told_inverter(const WbTold *told);
const WbDcdc *wb_told_dcdc(const WbTold *told);

#endif
