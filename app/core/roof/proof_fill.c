#include "proof_fill.h"
#include <stdlib.h>
#include <string.h>

enum { LINES_MAX = 512, TABLE = 1 << 17, WAYS_MAX = 1 << 25, DEEP_MAX = 5000 };

typedef struct {
    int64_t length_mm, width_mm, side_mm[2], least_empty_mm2;
    int64_t *filled_mm; /* [mm]: most that sums of sides fill of it */
    int64_t row_mm[LINES_MAX + 1], column_mm[LINES_MAX + 1]; /* lines; the last is the room's end */
    int rows, columns;
    int reach[LINES_MAX]; /* [row]: column up to which it is full or given up */
    int wanted, deep;
    long ways;
    bool too_long;
    int64_t *dead_mm2;   /* [entry]: with so much emptiness it did not go */
    int16_t *dead_reach; /* [entry][row]; row 0 is -1 where the entry is free */
} Fill;

static bool fill_sums(Fill *fill)
{
    int64_t longest = fill->length_mm > fill->width_mm ? fill->length_mm : fill->width_mm;
    fill->filled_mm = calloc((size_t)longest + 1, sizeof *fill->filled_mm);
    for (int64_t mm = 1; fill->filled_mm && mm <= longest; mm++) {
        fill->filled_mm[mm] = fill->filled_mm[mm - 1];
        for (int k = 0; k < 2; k++)
            if (mm >= fill->side_mm[k] &&
                fill->filled_mm[mm - fill->side_mm[k]] == mm - fill->side_mm[k])
                fill->filled_mm[mm] = mm;
    }
    return fill->filled_mm != NULL;
}

/* Answers how many lines there are before the room's end; -1: too many. */
static int lines_of(const Fill *fill, int64_t room_mm, int64_t *line_mm)
{
    int n = 0;
    for (int64_t mm = 0; mm < room_mm; mm++)
        if (fill->filled_mm[mm] == mm) {
            if (n == LINES_MAX)
                return -1;
            line_mm[n++] = mm;
        }
    line_mm[n] = room_mm;
    return n;
}

/* First line at or past; -1: beyond the room. */
static int line_past(const int64_t *line_mm, int n, int64_t mm)
{
    for (int i = 0; i <= n; i++)
        if (line_mm[i] >= mm)
            return i;
    return -1;
}

/* Emptiness at the right ends of the rows: each row alone, and, between two columns, each run of
 * rows that are still free there. The larger of the two. */
static int64_t empty_ahead_mm2(const Fill *fill)
{
    int64_t by_row = 0, by_column = 0;
    for (int row = 0; row < fill->rows; row++) {
        int64_t free_mm = fill->length_mm - fill->column_mm[fill->reach[row]];
        by_row +=
            (fill->row_mm[row + 1] - fill->row_mm[row]) * (free_mm - fill->filled_mm[free_mm]);
    }
    int column = fill->columns;
    for (int row = 0; row < fill->rows; row++)
        column = fill->reach[row] < column ? fill->reach[row] : column;
    while (column < fill->columns) {
        int next = fill->columns;
        int64_t run_mm = 0, lost_mm = 0;
        for (int row = 0; row < fill->rows; row++) {
            if (fill->reach[row] <= column) {
                run_mm += fill->row_mm[row + 1] - fill->row_mm[row];
                continue;
            }
            next = fill->reach[row] < next ? fill->reach[row] : next;
            lost_mm += run_mm - fill->filled_mm[run_mm];
            run_mm = 0;
        }
        lost_mm += run_mm - fill->filled_mm[run_mm];
        by_column += (fill->column_mm[next] - fill->column_mm[column]) * lost_mm;
        column = next;
    }
    return by_row > by_column ? by_row : by_column;
}

static size_t entry_of(const Fill *fill)
{
    uint32_t mixed = 7;
    for (int row = 0; row < fill->rows; row++)
        mixed = mixed * 2654435761u + (uint32_t)fill->reach[row] + (mixed >> 15);
    return (mixed ^ mixed >> 13) % TABLE;
}

static bool same_rows(const Fill *fill, size_t entry)
{
    const int16_t *dead = fill->dead_reach + entry * (size_t)fill->rows;
    for (int row = 0; row < fill->rows; row++)
        if (dead[row] != fill->reach[row])
            return false;
    return true;
}

static void bury(Fill *fill, size_t entry, int64_t empty_mm2)
{
    for (int row = 0; row < fill->rows; row++)
        fill->dead_reach[entry * (size_t)fill->rows + row] = (int16_t)fill->reach[row];
    fill->dead_mm2[entry] = empty_mm2;
}

static bool go_on(Fill *fill, int set, int64_t empty_mm2);

/* A block from this row on, over rows up to `to`, as far as column `reach`; then on, then back. */
static bool try_block(Fill *fill, int row, int to, int reach, int set, int64_t empty_mm2)
{
    int before = fill->reach[row];
    for (int k = row; k < to; k++)
        fill->reach[k] = reach;
    bool done = go_on(fill, set, empty_mm2);
    for (int k = row; k < to; k++)
        fill->reach[k] = before;
    return done;
}

/* Rows from this one up to `to` stay empty from their end to column `reach`. */
static bool try_empty(Fill *fill, int row, int to, int reach, int set, int64_t empty_mm2)
{
    int64_t more_mm2 = (fill->row_mm[to] - fill->row_mm[row]) *
                       (fill->column_mm[reach] - fill->column_mm[fill->reach[row]]);
    return try_block(fill, row, to, reach, set, empty_mm2 + more_mm2);
}

/* The bay: the rows from this one on that end where it does, between two that are fuller. */
static bool try_without(Fill *fill, int row, int set, int64_t empty_mm2)
{
    int end = row, wall = fill->columns;
    while (end < fill->rows && fill->reach[end] == fill->reach[row])
        end++;
    int before = row > 0 ? fill->reach[row - 1] : wall,
        after = end < fill->rows ? fill->reach[end] : wall;
    int64_t narrow_mm = fill->side_mm[0] < fill->side_mm[1] ? fill->side_mm[0] : fill->side_mm[1];
    if (before < wall && fill->row_mm[end] - fill->row_mm[row + 1] >= narrow_mm &&
        try_empty(fill, row, row + 1, before, set, empty_mm2))
        return true;
    return try_empty(fill, row, end, before < after ? before : after, set, empty_mm2);
}

/* Turn 1 first: other than the search. */
static bool try_corner(Fill *fill, int row, int set, int64_t empty_mm2)
{
    int column = fill->reach[row];
    for (int turn = 1; turn >= 0; turn--) {
        if (turn == 1 && fill->side_mm[0] == fill->side_mm[1])
            continue;
        int to = line_past(fill->row_mm, fill->rows, fill->row_mm[row] + fill->side_mm[!turn]);
        int reach = line_past(fill->column_mm, fill->columns,
                              fill->column_mm[column] + fill->side_mm[turn]);
        bool is_free = to > row && reach > column;
        for (int k = row; is_free && k < to; k++)
            is_free = fill->reach[k] == column;
        if (is_free && try_block(fill, row, to, reach, set + 1, empty_mm2))
            return true;
    }
    return try_without(fill, row, set, empty_mm2);
}

static bool go_on(Fill *fill, int set, int64_t empty_mm2)
{
    if (set == fill->wanted)
        return true;
    if (++fill->ways > WAYS_MAX || fill->deep == DEEP_MAX)
        fill->too_long = true;
    if (fill->too_long || empty_mm2 + empty_ahead_mm2(fill) > fill->least_empty_mm2)
        return false;
    int row = 0;
    for (int k = 1; k < fill->rows; k++)
        if (fill->reach[k] < fill->reach[row])
            row = k;
    if (fill->reach[row] == fill->columns)
        return false;
    size_t entry = entry_of(fill);
    if (same_rows(fill, entry) && empty_mm2 >= fill->dead_mm2[entry])
        return false;
    fill->deep++;
    bool done = try_corner(fill, row, set, empty_mm2);
    fill->deep--;
    if (!done && !fill->too_long)
        bury(fill, entry, empty_mm2);
    return done;
}

static bool prepare(Fill *fill)
{
    if (!fill_sums(fill))
        return false;
    fill->rows = lines_of(fill, fill->width_mm, fill->row_mm);
    fill->columns = lines_of(fill, fill->length_mm, fill->column_mm);
    if (fill->rows < 1 || fill->columns < 1)
        return false;
    fill->dead_mm2 = calloc(TABLE, sizeof *fill->dead_mm2);
    fill->dead_reach = malloc(TABLE * (size_t)fill->rows * sizeof *fill->dead_reach);
    if (!fill->dead_mm2 || !fill->dead_reach)
        return false;
    for (size_t entry = 0; entry < TABLE; entry++)
        fill->dead_reach[entry * (size_t)fill->rows] = -1;
    return true;
}

WbFillAnswer wb_proof_fill(int64_t length_mm, int64_t width_mm, int64_t a_mm, int64_t b_mm, int n)
{
    bool turned = width_mm > length_mm; /* few rows, many columns: fewer states */
    Fill *fill = calloc(1, sizeof *fill);
    if (!fill)
        return WB_FILL_TOO_LONG;
    fill->length_mm = turned ? width_mm : length_mm;
    fill->width_mm = turned ? length_mm : width_mm;
    fill->side_mm[0] = a_mm;
    fill->side_mm[1] = b_mm;
    fill->wanted = n;
    fill->least_empty_mm2 = length_mm * width_mm - n * a_mm * b_mm;
    WbFillAnswer answer = WB_FILL_TOO_LONG;
    if (prepare(fill)) {
        bool found = go_on(fill, 0, 0);
        if (!fill->too_long)
            answer = found ? WB_FILL_FOUND : WB_FILL_NONE;
    }
    free(fill->filled_mm);
    free(fill->dead_mm2);
    free(fill->dead_reach);
    free(fill);
    return answer;
}
