/* What more money, weight or roof would buy, in words. All (transfer full). */
#ifndef WB_WORDS_MORE_H
#define WB_WORDS_MORE_H

#include "curve.h"
#include "words.h"

/* "1,612.00 EUR", "74.2 kg", "2,210 Wh", "3.20 m2", "12.4 h": a figure as curves tell it. */
char *wb_words_curve_figure(WbCriterion criterion, double value, const char *currency);
/* Its number alone, to be set in a column. */
char *wb_words_curve_number(WbCriterion criterion, double value, const char *currency);
/* "What more money buys: the most usable capacity" */
const char *wb_words_curve_title(WbCriterion resource, WbCriterion gain);

/* What the kit in hand could give for what it needs, where that is more than it gives; the next
 * step beyond it while that is within the brief's limit; the next beyond the limit, or that nothing
 * more comes. needs, gives: of the kit in hand; NaN: none is. */
char *wb_words_curve(const WbProblem *problem, const WbMoreCurve *curve, double needs,
                     double gives);

#endif
