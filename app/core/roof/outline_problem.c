/* Every pair of edges is looked at, O(n^2), most of them by their boxes alone: about a millisecond
 * for the most corners allowed. */
#include "exact_shape.h"

typedef struct {
    WbCorner a, b;
} Edge;

static Edge edge_of(const WbRoof *roof, size_t i)
{
    return (Edge){roof->corners[i], roof->corners[i + 1 == roof->n_corners ? 0 : i + 1]};
}

static bool ranges_apart(int64_t a, int64_t b, int64_t c, int64_t d)
{
    return (a < c && a < d && b < c && b < d) || (a > c && a > d && b > c && b > d);
}

static int sign(int64_t value)
{
    return (value > 0) - (value < 0);
}

/* Closed segments: one common point is enough. */
static bool edges_meet(Edge e, Edge f)
{
    if (ranges_apart(e.a.x_mm, e.b.x_mm, f.a.x_mm, f.b.x_mm) ||
        ranges_apart(e.a.y_mm, e.b.y_mm, f.a.y_mm, f.b.y_mm))
        return false;
    return sign(wb_turn_mm2(e.a, e.b, f.a)) * sign(wb_turn_mm2(e.a, e.b, f.b)) <= 0 &&
           sign(wb_turn_mm2(f.a, f.b, e.a)) * sign(wb_turn_mm2(f.a, f.b, e.b)) <= 0;
}

/* f begins where e ends: they share more than that corner only where f runs back along e. */
static bool folds_back(Edge e, Edge f)
{
    int64_t along_mm2 = (e.b.x_mm - e.a.x_mm) * (f.b.x_mm - f.a.x_mm) +
                        (e.b.y_mm - e.a.y_mm) * (f.b.y_mm - f.a.y_mm);
    return wb_turn_mm2(e.a, e.b, f.b) == 0 && along_mm2 < 0;
}

static bool pair_bad(const WbRoof *roof, size_t i, size_t j)
{
    Edge e = edge_of(roof, i), f = edge_of(roof, j);
    if (j == i + 1 && folds_back(e, f))
        return true;
    if (i == 0 && j + 1 == roof->n_corners && folds_back(f, e))
        return true;
    bool neighbours = j == i + 1 || (i == 0 && j + 1 == roof->n_corners);
    return !neighbours && edges_meet(e, f);
}

static WbOutlineProblem corners_problem(const WbRoof *roof, size_t *first)
{
    for (size_t i = 0; i < roof->n_corners; i++) {
        WbCorner corner = roof->corners[i];
        *first = i;
        if (corner.x_mm < 0 || corner.x_mm > roof->length_mm || corner.y_mm < 0 ||
            corner.y_mm > roof->width_mm)
            return WB_OUTLINE_OFF_FRAME;
    }
    for (size_t i = 0; i < roof->n_corners; i++) {
        Edge edge = edge_of(roof, i);
        *first = i;
        if (edge.a.x_mm == edge.b.x_mm && edge.a.y_mm == edge.b.y_mm)
            return WB_OUTLINE_NO_LENGTH;
    }
    return WB_OUTLINE_GOOD;
}

static WbOutlineProblem edges_problem(const WbRoof *roof, size_t *first, size_t *second)
{
    for (size_t i = 0; i < roof->n_corners; i++)
        for (size_t j = i + 1; j < roof->n_corners; j++) {
            *first = i;
            *second = j;
            if (pair_bad(roof, i, j))
                return WB_OUTLINE_CROSSES;
        }
    return WB_OUTLINE_GOOD;
}

WbOutlineProblem wb_roof_outline_problem(const WbRoof *roof, size_t *first, size_t *second)
{
    size_t one = 0, other = 0;
    WbOutlineProblem problem = WB_OUTLINE_GOOD;
    if (roof->n_corners == 1 || roof->n_corners == 2)
        problem = WB_OUTLINE_TOO_FEW;
    else if (roof->n_corners > WB_ROOF_CORNERS)
        problem = WB_OUTLINE_TOO_MANY;
    else
        problem = corners_problem(roof, &one);
    if (problem == WB_OUTLINE_GOOD)
        problem = edges_problem(roof, &one, &other);
    if (first)
        *first = one;
    if (second)
        *second = other;
    return problem;
}
