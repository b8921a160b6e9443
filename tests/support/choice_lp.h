/* A table of choices as text for general solvers. */
#ifndef WB_TEST_CHOICE_LP_H
#define WB_TEST_CHOICE_LP_H

#include "reference_model.h"

/* In the LP format: a binary for each row and each bus, one row from each slot, one bus, every
 * slot's row on the bus, the rules; the least of one criterion. Bus bits from 0 up to below
 * `buses`. */
char *choice_lp(const WbChoiceTable *table, int criterion, int buses);

/* The catalogue in MiniZinc, constraint by constraint as reference_model.h has them, without any
 * library; of a solution the choices are printed. */
char *reference_mzn(const RefCatalogue *catalogue);

#endif
