#include "skyline.h"
#include <stdlib.h>
#include <string.h>

enum {
    DEPTH_MAX = 4096,      /* of the recursion; deeper counts as not decided */
    FAILED_FIRST = 1 << 8, /* entries to start with */
    FAILED_MAX = 1 << 18,
    STEPS_BETWEEN_POLLS = 1 << 16,
};

/* Every sum of panel sides up to the room is a line; the room's end closes the last cell. */
typedef struct {
    int n; /* cells */
    int64_t at_mm[WB_ROOM_LINES + 1];
    int end[2][WB_ROOM_LINES + 1]; /* [turn]: line at which a panel starting here ends; 0: beyond */
} Lines;

/* A run of columns of one height. */
typedef struct {
    int from, to, top;
} Segment;

typedef struct {
    uint64_t hash; /* 0: free */
    int64_t waste_mm2;
} Failed;

typedef struct {
    WbRoom *room;
    Lines x, y;
    int64_t *largest_sum_mm; /* [length]: largest sum of sides not above it */
    int wanted, set;
    int64_t waste_max_mm2;
    WbRect *layout;
    uint16_t *top; /* [column]: row up to which it is filled */
    size_t failed_size, failed_seen;
    Failed *failed;       /* skylines that failed, with the least waste that did */
    uint16_t *failed_top; /* their tops: compared in full, a hash alone would be no proof */
    Segment segment[WB_ROOM_LINES]; /* scratch of one step */
    int depth;
    uint64_t next_poll;
    WbStatus status;
} Skyline;

static bool find_lines(Lines *lines, const int64_t *largest_sum_mm, int64_t room_mm)
{
    lines->n = wb_room_lines(largest_sum_mm, room_mm, lines->at_mm);
    if (lines->n < 0)
        return false;
    lines->at_mm[lines->n] = room_mm;
    return true;
}

static void link_ends(Lines *lines, int turn, int64_t side_mm)
{
    for (int i = 0, end = 0; i < lines->n; i++) {
        while (end <= lines->n && lines->at_mm[end] < lines->at_mm[i] + side_mm)
            end++;
        lines->end[turn][i] = end <= lines->n ? end : 0;
    }
}

static void free_skyline(Skyline *skyline)
{
    free(skyline->largest_sum_mm);
    free(skyline->top);
    free(skyline->failed);
    free(skyline->failed_top);
}

/* What was remembered is dropped: it only saves work. */
static bool grow_failed(Skyline *skyline, size_t size)
{
    free(skyline->failed);
    free(skyline->failed_top);
    skyline->failed = calloc(size, sizeof *skyline->failed);
    skyline->failed_top = malloc(size * skyline->x.n * sizeof *skyline->top);
    skyline->failed_size = size;
    skyline->failed_seen = 0;
    return skyline->failed && skyline->failed_top;
}

static WbStatus init_skyline(Skyline *skyline, WbRoom *room)
{
    int64_t length_mm = room->length_mm, width_mm = room->width_mm;
    skyline->room = room;
    room->steps += length_mm + width_mm;
    skyline->largest_sum_mm = wb_room_sums(room, length_mm > width_mm ? length_mm : width_mm);
    if (!skyline->largest_sum_mm)
        return WB_NO_MEMORY;
    if (!find_lines(&skyline->x, skyline->largest_sum_mm, length_mm) ||
        !find_lines(&skyline->y, skyline->largest_sum_mm, width_mm))
        return WB_BUDGET;
    link_ends(&skyline->x, 0, room->panel_length_mm);
    link_ends(&skyline->x, 1, room->panel_width_mm);
    link_ends(&skyline->y, 0, room->panel_width_mm);
    link_ends(&skyline->y, 1, room->panel_length_mm);
    skyline->top = calloc(skyline->x.n, sizeof *skyline->top);
    return skyline->top && grow_failed(skyline, FAILED_FIRST) ? WB_OK : WB_NO_MEMORY;
}

static bool spend(Skyline *skyline)
{
    WbRoom *room = skyline->room;
    room->steps += skyline->x.n;
    if (room->steps > room->step_budget || skyline->depth == DEPTH_MAX)
        skyline->status = WB_BUDGET;
    if (room->steps >= skyline->next_poll) {
        skyline->next_poll = room->steps + STEPS_BETWEEN_POLLS;
        if (wb_control_stopped(room->control))
            skyline->status = WB_STOPPED;
    }
    return skyline->status == WB_OK;
}

static int find_segments(Skyline *skyline)
{
    Segment *segments = skyline->segment;
    int n = 0;
    for (int i = 0; i < skyline->x.n; i++) {
        if (n && segments[n - 1].top == skyline->top[i])
            segments[n - 1].to = i + 1;
        else
            segments[n++] = (Segment){i, i + 1, skyline->top[i]};
    }
    return n;
}

static int64_t lost_mm(const Skyline *skyline, int64_t run_mm)
{
    return run_mm - skyline->largest_sum_mm[run_mm];
}

/* What the free height over every segment cannot be filled with. */
static int64_t columns_lost_mm2(const Skyline *skyline, const Segment *segments, int n)
{
    int64_t lost_mm2 = 0, room_mm = skyline->y.at_mm[skyline->y.n];
    for (int i = 0; i < n; i++)
        lost_mm2 += (skyline->x.at_mm[segments[i].to] - skyline->x.at_mm[segments[i].from]) *
                    lost_mm(skyline, room_mm - skyline->y.at_mm[segments[i].top]);
    return lost_mm2;
}

/* The same along one line across the rows between two neighbouring heights. */
static int64_t row_lost_mm(const Skyline *skyline, const Segment *segments, int n, int top)
{
    int64_t lost = 0;
    for (int i = 0; i < n;) {
        int from = i;
        while (i < n && segments[i].top <= top)
            i++;
        if (i > from)
            lost += lost_mm(skyline, skyline->x.at_mm[segments[i - 1].to] -
                                         skyline->x.at_mm[segments[from].from]);
        else
            i++;
    }
    return lost;
}

static int next_top(const Segment *segments, int n, int top, int rows)
{
    int next = rows;
    for (int i = 0; i < n; i++)
        if (segments[i].top > top && segments[i].top < next)
            next = segments[i].top;
    return next;
}

static int64_t rows_lost_mm2(const Skyline *skyline, const Segment *segments, int n, int lowest)
{
    int64_t lost_mm2 = 0;
    for (int top = lowest; top < skyline->y.n;) {
        int next = next_top(segments, n, top, skyline->y.n);
        lost_mm2 += (skyline->y.at_mm[next] - skyline->y.at_mm[top]) *
                    row_lost_mm(skyline, segments, n, top);
        top = next;
    }
    return lost_mm2;
}

/* First segment of the lowest. */
static int lowest_segment(const Segment *segments, int n)
{
    int lowest = 0;
    for (int i = 1; i < n; i++)
        if (segments[i].top < segments[lowest].top)
            lowest = i;
    return lowest;
}

static uint64_t hash_of(const uint16_t *top, int n)
{
    uint64_t hash = 0xcbf29ce484222325u; /* FNV-1a */
    for (int i = 0; i < n; i++)
        hash = (hash ^ top[i]) * 0x100000001b3u;
    hash ^= hash >> 29;
    return hash ? hash : 1;
}

static bool known_to_fail(const Skyline *skyline, uint64_t hash, int64_t waste_mm2)
{
    size_t entry = hash % skyline->failed_size, columns = skyline->x.n;
    const Failed *failed = &skyline->failed[entry];
    return failed->hash == hash && waste_mm2 >= failed->waste_mm2 &&
           memcmp(skyline->failed_top + entry * columns, skyline->top,
                  columns * sizeof *skyline->top) == 0;
}

static void remember_failure(Skyline *skyline, uint64_t hash, int64_t waste_mm2)
{
    size_t columns = skyline->x.n;
    if (++skyline->failed_seen > skyline->failed_size && skyline->failed_size < FAILED_MAX &&
        !grow_failed(skyline, 4 * skyline->failed_size)) {
        skyline->status = WB_NO_MEMORY;
        return;
    }
    size_t entry = hash % skyline->failed_size;
    skyline->failed[entry] = (Failed){hash, waste_mm2};
    memcpy(skyline->failed_top + entry * columns, skyline->top, columns * sizeof *skyline->top);
}

static void raise(Skyline *skyline, int from, int to, int top)
{
    for (int i = from; i < to; i++)
        skyline->top[i] = (uint16_t)top;
}

static bool fill(Skyline *skyline, int64_t waste_mm2);

static bool fill_with_panel(Skyline *skyline, Segment segment, int turn, int64_t waste_mm2)
{
    int right = skyline->x.end[turn][segment.from], back = skyline->y.end[turn][segment.top];
    if (right == 0 || right > segment.to || back == 0)
        return false;
    const WbRoom *room = skyline->room;
    skyline->layout[skyline->set++] =
        (WbRect){skyline->x.at_mm[segment.from], skyline->y.at_mm[segment.top],
                 turn ? room->panel_width_mm : room->panel_length_mm,
                 turn ? room->panel_length_mm : room->panel_width_mm};
    raise(skyline, segment.from, right, back);
    if (fill(skyline, waste_mm2))
        return true;
    raise(skyline, segment.from, right, segment.top);
    skyline->set--;
    return false;
}

static bool fill_with_waste(Skyline *skyline, int from, int to, int top, int64_t waste_mm2)
{
    int row = skyline->top[from];
    waste_mm2 += (skyline->x.at_mm[to] - skyline->x.at_mm[from]) *
                 (skyline->y.at_mm[top] - skyline->y.at_mm[row]);
    raise(skyline, from, to, top);
    bool done = fill(skyline, waste_mm2);
    if (!done)
        raise(skyline, from, to, row);
    return done;
}

static int64_t shorter_side_mm(const WbRoom *room)
{
    return room->panel_length_mm < room->panel_width_mm ? room->panel_length_mm
                                                        : room->panel_width_mm;
}

/* Where no panel stands on the segment's left end: either another stands further right on it, held
 * off by one that juts out from the left neighbour, and under that all is waste; or none stands on
 * it, and all is waste up to its lower neighbour. Why there is no third: wb_skyline_search. */
static bool leave_corner(Skyline *skyline, Segment segment, int64_t waste_mm2)
{
    int rows = skyline->y.n;
    int left = segment.from > 0 ? skyline->top[segment.from - 1] : rows;
    int right = segment.to < skyline->x.n ? skyline->top[segment.to] : rows;
    int64_t beside_mm = skyline->x.at_mm[segment.to] - skyline->x.at_mm[segment.from + 1];
    if (left < rows && beside_mm >= shorter_side_mm(skyline->room) &&
        fill_with_waste(skyline, segment.from, segment.from + 1, left, waste_mm2))
        return true;
    return fill_with_waste(skyline, segment.from, segment.to, left < right ? left : right,
                           waste_mm2);
}

static bool hopeless(const Skyline *skyline, int n, int lowest, int64_t waste_mm2)
{
    const Segment *segments = skyline->segment;
    int64_t spare_mm2 = skyline->waste_max_mm2 - waste_mm2;
    return columns_lost_mm2(skyline, segments, n) > spare_mm2 ||
           rows_lost_mm2(skyline, segments, n, segments[lowest].top) > spare_mm2;
}

static bool fill_corner(Skyline *skyline, Segment segment, int64_t waste_mm2)
{
    int turns = skyline->room->panel_length_mm == skyline->room->panel_width_mm ? 1 : 2;
    for (int turn = 0; turn < turns; turn++)
        if (fill_with_panel(skyline, segment, turn, waste_mm2))
            return true;
    return leave_corner(skyline, segment, waste_mm2);
}

/* Whether the panels still wanted go above the skyline. False without an answer where the status
 * is no longer WB_OK. */
static bool fill(Skyline *skyline, int64_t waste_mm2)
{
    if (skyline->set == skyline->wanted)
        return true;
    if (!spend(skyline))
        return false;
    int n = find_segments(skyline), lowest = lowest_segment(skyline->segment, n);
    Segment segment = skyline->segment[lowest];
    if (segment.top == skyline->y.n || hopeless(skyline, n, lowest, waste_mm2))
        return false;
    uint64_t hash = hash_of(skyline->top, skyline->x.n);
    if (known_to_fail(skyline, hash, waste_mm2))
        return false;
    skyline->depth++;
    bool done = fill_corner(skyline, segment, waste_mm2);
    skyline->depth--;
    if (!done && skyline->status == WB_OK)
        remember_failure(skyline, hash, waste_mm2);
    return done;
}

/* If n panels fit, they fit with every panel pushed to the front and to the left until something
 * holds it, as the layout of least sum of all x and y is. In that layout:
 * - What lies over the segment below its lower neighbour's top lies within the segment, and what
 *   holds it from the front does too, down to one that stands on the segment. If none stands on it,
 *   nothing lies there.
 * - Let R be the leftmost that stands on the segment, right of its left end. What holds R from the
 *   left stands on nothing left of R on the segment, so it, or what it stands on, juts out from the
 *   left neighbour; R is taller than that neighbour, and left of R nothing lies below the
 *   neighbour's top: it would stand on the segment left of R. */
WbStatus wb_skyline_search(WbRoom *room, int n, WbRect *layout, bool *found)
{
    Skyline *skyline = calloc(1, sizeof *skyline);
    if (!skyline)
        return WB_NO_MEMORY;
    WbStatus status = init_skyline(skyline, room);
    if (status == WB_OK) {
        skyline->wanted = n;
        skyline->layout = layout;
        skyline->waste_max_mm2 =
            room->length_mm * room->width_mm - n * room->panel_length_mm * room->panel_width_mm;
        *found = skyline->waste_max_mm2 >= 0 && fill(skyline, 0);
        status = *found ? WB_OK : skyline->status;
    }
    free_skyline(skyline);
    free(skyline);
    return status;
}
