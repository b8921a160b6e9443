/* The finite set of places a panel need be tried at.
 *
 * Push every panel of a layout to the left and to the front until it is blocked: then its x is the
 * usable edge or an obstacle's right edge plus a sum of panels standing before it, and its y
 * likewise (normal patterns: Herz 1972; Christofides & Whitlock 1977; from memory).
 *
 * The gap stands between panels only. So each panel is grown by one gap on its right and back
 * side; two panels keep their gap exactly when the grown ones do not overlap. Against the edge and
 * against obstacles the true outline counts. */
#ifndef WB_ROOF_GRID_H
#define WB_ROOF_GRID_H

#include "roof_outline.h"

enum {
    WB_GRID_POINTS_MAX = 1 << 18, /* beyond this the fine grid is not searched */
    WB_GRID_THIN_LINES = 512,     /* lines each way of the thin grid at most */
};

/* Lines at which a panel may start. `turn` 0: as given, 1: turned by 90 degrees. */
typedef struct {
    int n;
    int64_t *at_mm; /* ascending, from the usable edge */
    int *end[2];    /* [turn][i]: first line at or past the end of a grown panel starting at i */
    int *from[2];   /* [turn][i]: first line at which a grown panel starts and still covers i */
} WbAxis;

/* A place is one number: turn * points + row * x.n + column. */
typedef struct {
    int turns; /* 1 for a square panel */
    int64_t length_mm[2], width_mm[2];
    WbZone usable;
    WbAxis x, y;
    int points;
    uint8_t *open; /* [place]: 1 where a panel may stand, as far as edge and obstacles go */
} WbRoofGrid;

/* WB_BUDGET: too many points. `thin` keeps only rows of panels that stand alike, so that a grid
 * always comes about; it holds good layouts but proves nothing. */
WbStatus wb_grid_build(WbRoofGrid *grid, const WbRoof *roof, int64_t panel_length_mm,
                       int64_t panel_width_mm, bool thin);
void wb_grid_free(WbRoofGrid *grid);

static inline int wb_grid_places(const WbRoofGrid *grid)
{
    return grid->turns * grid->points;
}

WbRect wb_grid_rect(const WbRoofGrid *grid, int place);

/* First and past-the-end line of a place each way. */
typedef struct {
    int left, right, front, back;
} WbGridBlock;

static inline WbGridBlock wb_grid_block(const WbRoofGrid *grid, int place)
{
    int turn = place / grid->points, point = place % grid->points;
    int i = point % grid->x.n, j = point / grid->x.n;
    return (WbGridBlock){i, grid->x.end[turn][i], j, grid->y.end[turn][j]};
}

/* Clears in open[] every place that overlaps `place`, itself too. */
void wb_grid_close(const WbRoofGrid *grid, uint8_t *open, int place);

/* Closes the places no pushed layout uses, and drops lines at which nothing starts any more: what
 * is left still holds a layout with the most panels. See support.c. */
WbStatus wb_grid_prune(WbRoofGrid *grid, const WbRoof *roof);

/* Closes places that others can stand for (dominate.c), and drops lines. After the pruning, if at
 * all: what is left holds a layout with the most panels, not always a pushed one. */
WbStatus wb_grid_dominate(WbRoofGrid *grid, const WbRoof *roof);

/* Within the grid's own sources. */

/* Lines at which no open place starts go. */
WbStatus wb_grid_drop_lines(WbRoofGrid *grid, int64_t gap_mm);

/* Fills end[] and from[] of one turn. */
void wb_axis_link(WbAxis *axis, int turn, int64_t grown_mm);
/* First line at or past wanted_mm. */
int wb_axis_at_or_past(const WbAxis *axis, int64_t wanted_mm);
/* Range of lines at which a panel of this length would enter between low_mm and high_mm. */
void wb_axis_starts_inside(const WbAxis *axis, int64_t low_mm, int64_t high_mm, int64_t panel_mm,
                           int start[2]);
/* Sets open[] of one turn for a range of columns and of rows. */
void wb_grid_set_block(const WbRoofGrid *grid, uint8_t *open, int turn, const int column[2],
                       const int row[2], int value);

#endif
