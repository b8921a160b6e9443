#include "stairs.h"
#include <stdlib.h>
#include <string.h>

/* False without memory. */
static bool make_room(void **items, size_t *room, size_t n, size_t size)
{
    if (n < *room)
        return true;
    size_t wanted = *room ? 2 * *room : 64;
    void *grown = realloc(*items, wanted * size);
    if (!grown)
        return false;
    *items = grown;
    *room = wanted;
    return true;
}

bool wb_stairs_cut(WbStairRows *rows, int64_t at_mm)
{
    void *cuts = rows->cut_mm;
    bool done = make_room(&cuts, &rows->cut_room, rows->n_cuts, sizeof *rows->cut_mm);
    rows->cut_mm = cuts;
    if (done)
        rows->cut_mm[rows->n_cuts++] = at_mm;
    return done;
}

bool wb_stairs_span(WbStairRows *rows, int64_t from_mm, int64_t to_mm)
{
    void *spans = rows->span;
    bool done = make_room(&spans, &rows->span_room, rows->n_spans, sizeof *rows->span);
    rows->span = spans;
    if (done)
        rows->span[rows->n_spans++] = (WbSpan){from_mm, to_mm};
    return done;
}

static int by_value(const void *a, const void *b)
{
    int64_t value_a = *(const int64_t *)a, value_b = *(const int64_t *)b;
    return (value_a > value_b) - (value_a < value_b);
}

bool wb_stairs_sort_cuts(WbStairRows *rows, int64_t low_mm, int64_t high_mm)
{
    if (!wb_stairs_cut(rows, low_mm) || !wb_stairs_cut(rows, high_mm))
        return false;
    qsort(rows->cut_mm, rows->n_cuts, sizeof *rows->cut_mm, by_value);
    size_t n = 0;
    for (size_t i = 0; i < rows->n_cuts; i++) {
        int64_t at_mm = rows->cut_mm[i];
        if (at_mm >= low_mm && at_mm <= high_mm && (n == 0 || rows->cut_mm[n - 1] < at_mm))
            rows->cut_mm[n++] = at_mm;
    }
    rows->n_cuts = n;
    free(rows->first);
    rows->first = calloc(n + 1, sizeof *rows->first);
    return rows->first;
}

void wb_stairs_thin(WbStairRows *rows)
{
    size_t n = 0;
    for (size_t i = 0; i < rows->n_cuts; i++)
        if (i % 2 == 0 || i + 1 == rows->n_cuts)
            rows->cut_mm[n++] = rows->cut_mm[i];
    rows->n_cuts = n;
    rows->n_spans = 0;
}

void wb_stairs_free(WbStairRows *rows)
{
    free(rows->cut_mm);
    free(rows->span);
    free(rows->first);
    *rows = (WbStairRows){0};
}

/* The span of that row that holds all of `wanted`; NULL: none does. */
static const WbSpan *span_holding(const WbStairRows *rows, size_t row, WbSpan wanted)
{
    size_t low = rows->first[row], high = rows->first[row + 1];
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (rows->span[middle].to_mm < wanted.to_mm)
            low = middle + 1;
        else
            high = middle;
    }
    bool holds = low < rows->first[row + 1] && rows->span[low].from_mm <= wanted.from_mm;
    return holds ? &rows->span[low] : NULL;
}

/* False: a lower row has the same span, and made this rectangle. */
static bool grow_down(const WbStairRows *rows, WbSpan span, size_t *row)
{
    for (const WbSpan *below; *row > 0 && (below = span_holding(rows, *row - 1, span)); --*row)
        if (below->from_mm == span.from_mm && below->to_mm == span.to_mm)
            return false;
    return true;
}

size_t wb_stairs_rects(const WbStairRows *rows, WbRect *rect)
{
    size_t n = 0, n_rows = rows->n_cuts - 1;
    for (size_t i = 0; i < n_rows; i++) {
        for (size_t k = rows->first[i]; k < rows->first[i + 1]; k++) {
            WbSpan span = rows->span[k];
            size_t low = i, high = i + 1;
            if (!grow_down(rows, span, &low))
                continue;
            while (high < n_rows && span_holding(rows, high, span))
                high++;
            rect[n++] = (WbRect){span.from_mm, rows->cut_mm[low], span.to_mm - span.from_mm,
                                 rows->cut_mm[high] - rows->cut_mm[low]};
        }
    }
    return n;
}
