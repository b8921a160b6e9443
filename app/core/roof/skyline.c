#include "skyline.h"
#include <stdlib.h>
#include <string.h>

enum {
    LINES_MAX = 400,
    DEPTH_MAX = 4096,      /* of the recursion; deeper counts as not decided */
    FAILED_FIRST = 1 << 8, /* entries to start with */
    FAILED_MAX = 1 << 16,
    STEPS_BETWEEN_POLLS = 1 << 16,
};

/* Every sum of panel sides up to the room is a line; the room's end closes the last cell. */
typedef struct {
    int n; /* cells */
    int64_t at_mm[LINES_MAX + 1];
    int end[2][LINES_MAX + 1]; /* [turn]: line at which a panel starting here ends; 0: beyond */
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
    WbSkylineJob *job;
    Lines x, y;
    int64_t *largest_sum_mm; /* [length]: largest sum of sides not above it */
    int wanted, set;
    int64_t waste_max_mm2;
    WbRect *layout;
    uint16_t *top; /* [column]: row up to which it is filled */
    size_t failed_size, failed_seen;
    Failed *failed;             /* skylines that failed, with the least waste that did */
    uint16_t *failed_top;       /* their tops: compared in full, a hash alone would be no proof */
    Segment segment[LINES_MAX]; /* scratch of one step */
    int depth;
    uint64_t next_poll;
    WbStatus status;
} Skyline;

static int64_t *largest_sums(const WbSkylineJob *job, int64_t longest_mm)
{
    int64_t *largest = malloc((longest_mm + 1) * sizeof *largest);
    if (!largest)
        return NULL;
    int64_t a = job->panel_length_mm, b = job->panel_width_mm;
    largest[0] = 0;
    for (int64_t length = 1; length <= longest_mm; length++) {
        bool is_sum = (length >= a && largest[length - a] == length - a) ||
                      (length >= b && largest[length - b] == length - b);
        largest[length] = is_sum ? length : largest[length - 1];
    }
    return largest;
}

static bool find_lines(Lines *lines, const int64_t *largest_sum_mm, int64_t room_mm)
{
    lines->n = 0;
    for (int64_t at = 0; at < room_mm; at++) {
        if (largest_sum_mm[at] != at)
            continue;
        if (lines->n == LINES_MAX)
            return false;
        lines->at_mm[lines->n++] = at;
    }
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

static WbStatus init_skyline(Skyline *skyline, WbSkylineJob *job)
{
    int64_t length_mm = job->room_length_mm, width_mm = job->room_width_mm;
    skyline->job = job;
    job->steps += length_mm + width_mm;
    skyline->largest_sum_mm = largest_sums(job, length_mm > width_mm ? length_mm : width_mm);
    if (!skyline->largest_sum_mm)
        return WB_NO_MEMORY;
    if (!find_lines(&skyline->x, skyline->largest_sum_mm, length_mm) ||
        !find_lines(&skyline->y, skyline->largest_sum_mm, width_mm))
        return WB_BUDGET;
    link_ends(&skyline->x, 0, job->panel_length_mm);
    link_ends(&skyline->x, 1, job->panel_width_mm);
    link_ends(&skyline->y, 0, job->panel_width_mm);
    link_ends(&skyline->y, 1, job->panel_length_mm);
    skyline->top = calloc(skyline->x.n, sizeof *skyline->top);
    return skyline->top && grow_failed(skyline, FAILED_FIRST) ? WB_OK : WB_NO_MEMORY;
}

static bool spend(Skyline *skyline)
{
    WbSkylineJob *job = skyline->job;
    job->steps += skyline->x.n;
    if (job->steps > job->step_budget || skyline->depth == DEPTH_MAX)
        skyline->status = WB_BUDGET;
    if (job->steps >= skyline->next_poll) {
        skyline->next_poll = job->steps + STEPS_BETWEEN_POLLS;
        if (wb_control_stopped(job->control))
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
    const WbSkylineJob *job = skyline->job;
    skyline->layout[skyline->set++] =
        (WbRect){skyline->x.at_mm[segment.from], skyline->y.at_mm[segment.top],
                 turn ? job->panel_width_mm : job->panel_length_mm,
                 turn ? job->panel_length_mm : job->panel_width_mm};
    raise(skyline, segment.from, right, back);
    if (fill(skyline, waste_mm2))
        return true;
    raise(skyline, segment.from, right, segment.top);
    skyline->set--;
    return false;
}

/* No panel starts in this cell, and none reaches into it from a line further on. */
static bool fill_with_waste(Skyline *skyline, Segment segment, int64_t waste_mm2)
{
    int column = segment.from, row = segment.top;
    waste_mm2 += (skyline->x.at_mm[column + 1] - skyline->x.at_mm[column]) *
                 (skyline->y.at_mm[row + 1] - skyline->y.at_mm[row]);
    raise(skyline, column, column + 1, row + 1);
    bool done = fill(skyline, waste_mm2);
    if (!done)
        raise(skyline, column, column + 1, row);
    return done;
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
    int turns = skyline->job->panel_length_mm == skyline->job->panel_width_mm ? 1 : 2;
    for (int turn = 0; turn < turns; turn++)
        if (fill_with_panel(skyline, segment, turn, waste_mm2))
            return true;
    return fill_with_waste(skyline, segment, waste_mm2);
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

WbStatus wb_skyline_search(WbSkylineJob *job, int n, WbRect *layout, bool *found)
{
    Skyline *skyline = calloc(1, sizeof *skyline);
    if (!skyline)
        return WB_NO_MEMORY;
    WbStatus status = init_skyline(skyline, job);
    if (status == WB_OK) {
        skyline->wanted = n;
        skyline->layout = layout;
        skyline->waste_max_mm2 = job->room_length_mm * job->room_width_mm -
                                 n * job->panel_length_mm * job->panel_width_mm;
        *found = skyline->waste_max_mm2 >= 0 && fill(skyline, 0);
        status = *found ? WB_OK : skyline->status;
    }
    free_skyline(skyline);
    free(skyline);
    return status;
}
