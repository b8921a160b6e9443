/* The places of a grid as a graph: which are in each other's way. All places that are pairwise so
 * lie over one point (rectangles along the axes meet pairwise only where all meet), so the points
 * that matter are few: those over which no place could be added. Made after the grid was pruned and
 * dominated, the graph is small, and a branch and bound on it quick. */
#ifndef WB_CLIQUES_H
#define WB_CLIQUES_H

#include "roof_grid.h"

typedef struct {
    int n, words; /* places; 64-bit words of a set of them */
    int *place;   /* [n], of the grid */
    int m;        /* points that matter */
    int *at;      /* [m], of the grid */
    int *first_point,
        *point;             /* points under place p: point[first_point[p] .. first_point[p + 1]) */
    int *first_over, *over; /* places over point c, likewise */
    uint64_t *meets;        /* [n * words], itself too */
} WbCliques;

/* Closes, in the grid too, the places that others can stand for. *visits is raised as in the
 * search's budget. WB_BUDGET: more open places than places_max. Free it after WB_OK. */
WbStatus wb_cliques_make(WbCliques *cliques, WbRoofGrid *grid, int64_t gap_mm, int places_max,
                         uint64_t *visits);
void wb_cliques_free(WbCliques *cliques);

/* Takes out of a set of places, one after the other, each that meets all that another one of the
 * set meets, itself too: a largest set without meetings is left. Answers the visits. */
uint64_t wb_cliques_dominate(const WbCliques *cliques, uint64_t *open);

static inline const uint64_t *wb_clique_meets(const WbCliques *cliques, int p)
{
    return cliques->meets + (size_t)p * cliques->words;
}

#endif
