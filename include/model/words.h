/* Sentences a friend who is an electrician would say: findings, kits and figures in words, for the
 * window and the terminal alike. All (transfer full). */
#ifndef WB_WORDS_H
#define WB_WORDS_H

#include "rank.h"
#include <glib.h>

/* One whole sentence with both numbers, e.g. "Two of these in series reach 46.9 V on the coldest
 * morning; the controller takes 50 V." */
char *wb_words_finding(const WbProblem *problem, const WbVerdict *verdict,
                       const WbFinding *finding);
/* Which figures its data sheets lack and what stood in for them; "": none. */
char *wb_words_assumed(const WbProblem *problem, const WbVerdict *verdict,
                       const WbFinding *finding);
/* The caution that belongs beside a figure or finding, NULL when there is none. */
char *wb_words_safety(const WbProblem *problem, const WbVerdict *verdict, const WbFinding *finding);
/* What a rule means when it ruled out kits: "panels do not fit the roof". */
const char *wb_words_rule(WbRule rule);
/* Of the kits it alone stops, how near the nearest comes to its limit, and what change of the roof
 * lets it in; NULL: there is none, or it was not worked out. Up to a tenth of a second. */
char *wb_words_nearest(const WbProblem *problem, WbRule rule, const WbRuledOut *out);
/* "2 x 175 W in series, 3 x 100 Ah LFP in parallel (300 Ah 12 V), 30 A MPPT, 600 W inverter" */
char *wb_words_kit(const WbProblem *problem, const WbKit *kit);
/* How the parts are joined: "2 strings of 2 panels in series, joined in parallel". */
char *wb_words_panel_wiring(const WbKit *kit);
char *wb_words_bank_wiring(const WbKit *kit);
/* Money with its currency: "1,612.00 EUR". */
char *wb_words_money(int64_t minor, const char *currency);
/* General safety notes that apply to this kit (shore changeover, roof fixing, ...).
 * NULL-terminated. */
char **wb_words_safety_notes(const WbProblem *problem, const WbVerdict *verdict);
/* How the bank may travel, beside what is bought; NULL: nothing to mind. */
char *wb_words_shipping(const WbProblem *problem, const WbKit *kit);

#endif
