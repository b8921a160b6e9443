/* The solver's inside, for its own sources. A literal inside is 2 v for variable v = 0, 1, ... and
 * 2 v + 1 for its opposite. */
#ifndef WB_SAT_STATE_H
#define WB_SAT_STATE_H

#include "sat.h"

enum { WB_SAT_NONE = -1, WB_SAT_HEAD = 2 };

/* A clause is a position in `clauses`: its size, its marks, its literals. The first two literals
 * are watched. */
enum { WB_SAT_LEARNT = 1, WB_SAT_USED = 2, WB_SAT_SPAN_SHIFT = 2 };

typedef struct {
    int32_t clause, other; /* another literal of it: where that is true, all is well */
} WbSatWatch;

typedef struct {
    WbSatWatch *at;
    int n, room;
} WbSatWatches;

struct WbSat {
    int n_variables;
    WbStatus status;
    bool refuted;
    WbInts clauses;
    WbInts learnt;         /* positions of learnt clauses */
    WbSatWatches *watches; /* [literal]: clauses that watch it, to be met when it turns false */
    int8_t *value;         /* [literal]: 1 true, -1 false, 0 open */
    int32_t *reason;       /* [variable]: the clause that set it, or WB_SAT_NONE */
    int32_t *level;        /* [variable] */
    uint8_t *phase;        /* [variable]: 1 where it was last false */
    uint8_t *seen;         /* [variable] */
    int32_t *trail;        /* true literals in order */
    int n_trail, head;
    WbInts level_start; /* [level]: length of the trail before its decision */
    double *activity;   /* [variable] */
    double bump;
    int32_t *heap, *heap_at; /* open variables, most active first; [variable]: place or -1 */
    int n_heap;
    WbInts clause, stack, cleared; /* of the present conflict */
    int32_t *level_mark, mark;     /* [level]: counts a clause's levels */
    uint64_t propagations, conflicts;
    double span_fast, span_slow; /* running means */
    uint64_t since_restart, next_forget, forget_step;
};

/* sat_clauses.c */
void wb_sat_watch(WbSat *sat, int32_t literal, WbSatWatch entry);
int32_t wb_sat_store(WbSat *sat, const int32_t *literals, int n, int marks);
void wb_sat_forget(WbSat *sat);

/* sat_order.c */
void wb_sat_heap_insert(WbSat *sat, int variable);
int wb_sat_heap_pop(WbSat *sat); /* -1: empty */
void wb_sat_bump(WbSat *sat, int variable);

/* sat_propagate.c */
void wb_sat_set(WbSat *sat, int32_t literal, int32_t reason);
int32_t wb_sat_propagate(WbSat *sat); /* the clause in conflict, or WB_SAT_NONE */
void wb_sat_back_to(WbSat *sat, int level);

/* sat_learn.c: fills sat->clause, its first literal is the one to turn; answers the level to go
 * back to, and the number of levels in *span. */
int wb_sat_learn(WbSat *sat, int32_t conflict, int *span);

#endif
