/* Where is a row first? With two weights on an interval, with three in a polygon, both cut by one
 * half-plane a rival; with more by draws of the simplex. */
#include "firm_share.h"
#include "random.h"
#include <math.h>

#define DRAWS 40000
#define ERROR_95 (1.96 * 0.5 / 200) /* 1.96 x sqrt(1/4 / draws): the binomial's widest */
#define MOST_CORNERS 4096
#define FLAT 1e-15

/* The worth by which `first` leads row j in criterion i of the question. */
static double lead(const WbShareQuestion *q, size_t j, int i)
{
    return q->u[q->first][q->criterion[i]] - q->u[j][q->criterion[i]];
}

/* Weights w and 1 - w: lead1 (1 - w) + lead0 w >= 0. */
static double share_of_two(const WbShareQuestion *q)
{
    double low = 0, high = 1;
    for (size_t j = 0; j < q->n; j++) {
        double at0 = lead(q, j, 1), slope = lead(q, j, 0) - at0;
        if (fabs(slope) < FLAT) {
            if (at0 < 0)
                return 0;
            continue;
        }
        double zero = -at0 / slope;
        if (slope > 0)
            low = fmax(low, zero);
        else
            high = fmin(high, zero);
    }
    return fmax(0, high - low);
}

typedef struct {
    double x, y; /* first and second weight; the third is what is left */
} Corner;

typedef struct {
    Corner corner[MOST_CORNERS];
    int n;
} Polygon;

static double side_of(const double half_plane[3], Corner at)
{
    return half_plane[0] * at.x + half_plane[1] * at.y + half_plane[2] * (1 - at.x - at.y);
}

/* Sutherland and Hodgman: what of a convex polygon lies where side_of >= 0. */
static void clip(Polygon *polygon, const double half_plane[3], Polygon *scratch)
{
    scratch->n = 0;
    for (int i = 0; i < polygon->n; i++) {
        Corner a = polygon->corner[i], b = polygon->corner[(i + 1) % polygon->n];
        double at_a = side_of(half_plane, a), at_b = side_of(half_plane, b);
        if (at_a >= 0)
            scratch->corner[scratch->n++] = a;
        if ((at_a >= 0) != (at_b >= 0)) {
            double t = at_a / (at_a - at_b);
            scratch->corner[scratch->n++] = (Corner){a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)};
        }
    }
    *polygon = *scratch;
}

static double area(const Polygon *polygon)
{
    double twice = 0;
    for (int i = 0; i < polygon->n; i++) {
        Corner a = polygon->corner[i], b = polygon->corner[(i + 1) % polygon->n];
        twice += a.x * b.y - b.x * a.y;
    }
    return fabs(twice) / 2;
}

/* A polygon gains at most one corner a cut; one of so many corners is done with what it has. */
static double share_of_three(const WbShareQuestion *q)
{
    static const Polygon whole = {{{0, 0}, {1, 0}, {0, 1}}, 3};
    Polygon polygon = whole, scratch;
    for (size_t j = 0; j < q->n && polygon.n > 0; j++) {
        double half_plane[3] = {lead(q, j, 0), lead(q, j, 1), lead(q, j, 2)};
        if (j != q->first && polygon.n < MOST_CORNERS - 1)
            clip(&polygon, half_plane, &scratch);
    }
    return area(&polygon) / 0.5;
}

/* Uniform on the simplex: exponential draws over their sum. */
static void draw(WbRandom *random, int d, double weight[WB_N_CRITERIA])
{
    for (int i = 0; i < d; i++)
        weight[i] = -log(1 - wb_random_unit(random));
}

static bool is_first(const WbShareQuestion *q, const double weight[WB_N_CRITERIA])
{
    for (size_t j = 0; j < q->n; j++) {
        double leads = 0;
        for (int i = 0; i < q->d; i++)
            leads += weight[i] * lead(q, j, i);
        if (leads < 0)
            return false;
    }
    return true;
}

static WbStatus share_of_draws(const WbShareQuestion *q, uint64_t seed, WbControl *control,
                               double *share)
{
    WbRandom random;
    double weight[WB_N_CRITERIA];
    int firsts = 0;
    wb_random_seed(&random, seed);
    for (int i = 0; i < DRAWS; i++) {
        if (i % 64 == 0 && wb_control_stopped(control))
            return WB_STOPPED;
        draw(&random, q->d, weight);
        firsts += is_first(q, weight);
    }
    *share = (double)firsts / DRAWS;
    return WB_OK;
}

WbStatus wb_share_of_weightings(const WbShareQuestion *q, uint64_t seed, WbControl *control,
                                double *share, double *share_error)
{
    *share_error = 0;
    if (q->d > 3) {
        *share_error = ERROR_95;
        return share_of_draws(q, seed, control, share);
    }
    *share = q->d == 1 ? 1 : q->d == 2 ? share_of_two(q) : share_of_three(q);
    return WB_OK;
}
