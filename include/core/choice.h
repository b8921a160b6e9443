/* Exact choice out of tables: one row from each slot. What may be chosen is data: each rule is a
 * sum over the chosen rows that may not pass its limit, and the chosen rows must share a bus. What
 * is good is data too: criteria are sums, of which less is better (more is better: negative
 * numbers).
 *
 * Every answer is exact and the same on every machine. Sums are whole numbers, so their order does
 * not matter; equal choices stand by the row of the first slot, then of the second, and so on. */
#ifndef WB_CHOICE_H
#define WB_CHOICE_H

#include "control.h"
#include "status.h"
#include <stddef.h>
#include <stdint.h>

#define WB_CHOICE_SLOTS 8
#define WB_CHOICE_RULES 32
#define WB_CHOICE_CRITERIA 8
/* Terms, criteria and limits are at least minus this and less than this: every sum is then exact in
 * a double as well. */
#define WB_CHOICE_MOST (INT64_C(1) << 49)
#define WB_CHOICE_BEST 1000000 /* the longest list of best choices */

/* Rows of one slot, a column for each number. A column that is NULL holds 0 in every row. */
typedef struct {
    size_t n; /* below 2^32 */
    /* Bit b: the row goes with bus b. NULL: with every bus. */
    const uint32_t *bus;
    const int64_t *term[WB_CHOICE_RULES];
    const int64_t *criterion[WB_CHOICE_CRITERIA];
} WbChoiceSlot;

typedef struct {
    int n_slots, n_rules, n_criteria;
    WbChoiceSlot slot[WB_CHOICE_SLOTS];
    int64_t limit[WB_CHOICE_RULES];
} WbChoiceTable;

typedef struct {
    uint32_t row[WB_CHOICE_SLOTS]; /* 0 beyond the slots there are */
} WbChoice;

typedef struct {
    uint64_t nodes; /* rows or pairs looked at, at most; 0: as many as it takes */
    /* Choices or parts of choices in one list, at most, while a front is taken or all are counted;
     * some 100 bytes each; 0: as many as it takes. */
    size_t members;
    WbControl *control; /* may be NULL */
} WbChoiceEffort;

/* What a choice is worth, less is better. */
typedef struct {
    int64_t weight[WB_CHOICE_CRITERIA]; /* 0 or more; no weighted sum may pass 2^60 */
    /* NULL, or the true figure of a choice where it is not a sum: never below the weighted sum of
     * the choice, which then serves as a bound only, and never above 2^60. */
    int64_t (*exact)(const WbChoice *choice, int64_t sum, const void *data);
    const void *data;
} WbChoiceAim;

typedef struct {
    WbChoice choice;
    int64_t score;
} WbChoiceBest;

typedef struct {
    WbChoiceBest *best; /* best first */
    size_t n;           /* as many as asked, or all there are */
} WbChoiceList;

/* The best so many, at most WB_CHOICE_BEST. WB_BAD_INPUT: a number outside what is said above;
 * WB_STOPPED, WB_BUDGET (more nodes or members were needed), WB_NO_MEMORY. */
WbStatus wb_choice_best(const WbChoiceTable *table, const WbChoiceAim *aim, size_t most,
                        const WbChoiceEffort *effort, WbChoiceList *list);
void wb_choice_list_free(WbChoiceList *list);

/* How many choices keep all rules, without visiting each. The same answers; WB_BAD_INPUT too where
 * the count passes 2^64. */
WbStatus wb_choice_count(const WbChoiceTable *table, const WbChoiceEffort *effort, uint64_t *count);

typedef struct {
    WbChoice *choice; /* by their criteria, the first first; equal vectors by their rows */
    double *worse;    /* [n][n_criteria], only the chosen criteria, whole numbers */
    int n_criteria;
    size_t n;         /* every member: choices with equal vectors all stand here */
    size_t n_vectors; /* different vectors among them */
} WbChoiceFront;

/* The choices no other is at least as good as in every one of these criteria (bit c: criterion c)
 * and better in one. At least one criterion. */
WbStatus wb_choice_front(const WbChoiceTable *table, uint32_t criteria,
                         const WbChoiceEffort *effort, WbChoiceFront *front);
void wb_choice_front_free(WbChoiceFront *front);

#endif
