/* The checker of proofs. It knows nothing of the search: places of its own (proof_places.h says why
 * no others are needed), sums of whole numbers, and the cases one by one as the proof tells them.
 *
 * The case at hand is: some places are open, `need` more panels are wanted on them. For any weights
 * w >= 0 on square millimetres, with w(p) the sum under place p grown by a gap, no set of places
 * that keep their gap has more than
 *     sum of w + sum over open p of max(0, 1 - w(p))
 * of them, for each square millimetre lies under one panel at most.
 *   REFUTE: that is less than need; the case is done.
 *   CLOSE: a place p is closed where that less (w(p) - 1) is less than need: with p in use there
 *     are not enough.
 *   SPLIT: the places over a point one by one; what follows is the case with this one in use, those
 *     before it and all that are in its way closed, need - 1. After them the case goes on with all
 *     of them closed.
 *   EMPTY: no place is open.
 *   KEEP: proof_keep.h. */
#include "plain_roof.h"
#include "proof_fill.h"
#include "proof_keep.h"
#include "proof_places.h"
#include <stdlib.h>
#include <string.h>

enum { TABLE_MAX = 1 << 24, DEEP_MAX = 4096, COORDINATE_MAX_MM = 4000000, AREA_STRIPS_MAX = 20000 };

typedef struct {
    const WbRoof *roof;
    int64_t panel_length_mm, panel_width_mm;
    const WbRoofProof *proof;
    WbRect *zones; /* the strips with their clearance */
    WbProofPlaces places;
    size_t at; /* next step */
    int deep;
    const char *why;
} Check;

static bool refuse(Check *check, const char *why)
{
    if (!check->why)
        check->why = why;
    return false;
}

/* ---- sums of weights ---- */

typedef struct {
    int nx, ny;
    int64_t *x_mm, *y_mm; /* distinct, ascending */
    int64_t *sum;         /* [(ny + 1) x (nx + 1)], of all points further left and in front */
    int *x_from, *x_to[2], *y_from, *y_to[2]; /* by line of the places: what a panel covers */
} Weighed;

static int by_size(const void *a, const void *b)
{
    int64_t first = *(const int64_t *)a, second = *(const int64_t *)b;
    return (first > second) - (first < second);
}

static int sort_distinct(int64_t *values, int n)
{
    int kept = 0;
    qsort(values, (size_t)n, sizeof *values, by_size);
    for (int i = 0; i < n; i++)
        if (kept == 0 || values[kept - 1] != values[i])
            values[kept++] = values[i];
    return kept;
}

static int first_from(const int64_t *values, int n, int64_t wanted)
{
    int low = 0, high = n;
    while (low < high) {
        int middle = low + (high - low) / 2;
        if (values[middle] < wanted)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

static void free_weighed(Weighed *weighed)
{
    free(weighed->x_mm);
    free(weighed->y_mm);
    free(weighed->sum);
    free(weighed->x_from);
    free(weighed->y_from);
    for (int turn = 0; turn < 2; turn++) {
        free(weighed->x_to[turn]);
        free(weighed->y_to[turn]);
    }
}

static bool find_cover(int **from, int *to[2], const int64_t *at_mm, int n, const int64_t *line_mm,
                       int n_lines, const int64_t side_mm[2], int64_t gap_mm)
{
    *from = malloc(((size_t)n_lines + 1) * sizeof **from);
    for (int turn = 0; turn < 2; turn++)
        to[turn] = malloc(((size_t)n_lines + 1) * sizeof *to[turn]);
    if (!*from || !to[0] || !to[1])
        return false;
    for (int i = 0; i < n_lines; i++) {
        (*from)[i] = first_from(at_mm, n, line_mm[i]);
        for (int turn = 0; turn < 2; turn++)
            to[turn][i] = first_from(at_mm, n, line_mm[i] + side_mm[turn] + gap_mm);
    }
    return true;
}

static bool sum_up(Weighed *weighed, const WbProofPoint *points, int n)
{
    int columns = weighed->nx + 1;
    weighed->sum = calloc((size_t)columns * (size_t)(weighed->ny + 1), sizeof *weighed->sum);
    if (!weighed->sum)
        return false;
    for (int k = 0; k < n; k++) {
        int i = first_from(weighed->x_mm, weighed->nx, points[k].x_mm);
        int j = first_from(weighed->y_mm, weighed->ny, points[k].y_mm);
        weighed->sum[(size_t)(j + 1) * columns + i + 1] += points[k].weight;
    }
    for (int j = 1; j <= weighed->ny; j++)
        for (int i = 1; i < columns; i++) {
            int64_t *here = &weighed->sum[(size_t)j * columns + i];
            *here += here[-1] + here[-columns] - here[-columns - 1];
        }
    return true;
}

static bool weights_sound(const WbRoofProof *proof, const WbProofStep *step)
{
    if (step->first > proof->n_points || step->n > proof->n_points - step->first ||
        step->n > TABLE_MAX)
        return false;
    for (size_t k = step->first; k < step->first + step->n; k++)
        if (proof->points[k].weight < 0 || proof->points[k].weight > WB_PROOF_ONE)
            return false;
    return true;
}

/* Free `weighed` either way. */
static bool weigh(Check *check, const WbProofStep *step, Weighed *weighed)
{
    const WbProofPlaces *places = &check->places;
    if (!weights_sound(check->proof, step))
        return refuse(check, "A weight lies outside 0 to 1, or the weights outside the list.");
    int n = (int)step->n;
    const WbProofPoint *points = check->proof->points + step->first;
    weighed->x_mm = malloc((size_t)(n + 1) * sizeof *weighed->x_mm);
    weighed->y_mm = malloc((size_t)(n + 1) * sizeof *weighed->y_mm);
    if (!weighed->x_mm || !weighed->y_mm)
        return refuse(check, "There is not enough memory to check the proof.");
    for (int k = 0; k < n; k++) {
        weighed->x_mm[k] = points[k].x_mm;
        weighed->y_mm[k] = points[k].y_mm;
    }
    weighed->nx = sort_distinct(weighed->x_mm, n);
    weighed->ny = sort_distinct(weighed->y_mm, n);
    if ((int64_t)(weighed->nx + 1) * (weighed->ny + 1) > TABLE_MAX)
        return refuse(check, "The weights are spread over too many places to be summed.");
    if (sum_up(weighed, points, n) &&
        find_cover(&weighed->x_from, weighed->x_to, weighed->x_mm, weighed->nx, places->x_mm,
                   places->nx, places->along_mm, places->gap_mm) &&
        find_cover(&weighed->y_from, weighed->y_to, weighed->y_mm, weighed->ny, places->y_mm,
                   places->ny, places->across_mm, places->gap_mm))
        return true;
    return refuse(check, "There is not enough memory to check the proof.");
}

static int64_t weight_under(const WbProofPlaces *places, const Weighed *weighed, int place)
{
    int i = place % places->nx, j = place / places->nx % places->ny;
    int turn = place / places->nx / places->ny, columns = weighed->nx + 1;
    int left = weighed->x_from[i], right = weighed->x_to[turn][i];
    const int64_t *front = weighed->sum + (size_t)weighed->y_from[j] * columns;
    const int64_t *back = weighed->sum + (size_t)weighed->y_to[turn][j] * columns;
    return back[right] - back[left] - front[right] + front[left];
}

static int64_t bound_of(const WbProofPlaces *places, const Weighed *weighed, const uint8_t *open)
{
    int64_t bound = weighed->sum[(size_t)(weighed->nx + 1) * (size_t)(weighed->ny + 1) - 1];
    for (int place = 0; place < places->n; place++) {
        int64_t under = open[place] ? weight_under(places, weighed, place) : WB_PROOF_ONE;
        bound += under < WB_PROOF_ONE ? WB_PROOF_ONE - under : 0;
    }
    return bound;
}

/* ---- the steps ---- */

static bool refuted(Check *check, const WbProofStep *step, const uint8_t *open, int need)
{
    Weighed weighed = {0};
    bool done = weigh(check, step, &weighed);
    if (done && bound_of(&check->places, &weighed, open) >= need * WB_PROOF_ONE)
        done = refuse(check, "The weights leave room for as many panels as are wanted.");
    free_weighed(&weighed);
    return done;
}

static bool close_by_weights(Check *check, const WbProofStep *step, uint8_t *open, int need)
{
    Weighed weighed = {0};
    bool done = weigh(check, step, &weighed);
    if (done) {
        int64_t bound = bound_of(&check->places, &weighed, open);
        for (int place = 0; place < check->places.n; place++)
            if (open[place] &&
                bound - (weight_under(&check->places, &weighed, place) - WB_PROOF_ONE) <
                    need * WB_PROOF_ONE)
                open[place] = 0;
    }
    free_weighed(&weighed);
    return done;
}

static bool grown_cover(const WbProofPlaces *places, WbRect rect, int64_t x_mm, int64_t y_mm)
{
    return rect.x_mm <= x_mm && x_mm < rect.x_mm + rect.length_mm + places->gap_mm &&
           rect.y_mm <= y_mm && y_mm < rect.y_mm + rect.width_mm + places->gap_mm;
}

static bool keep_gap(WbRect a, WbRect b, int64_t gap_mm)
{
    return a.x_mm + a.length_mm + gap_mm <= b.x_mm || b.x_mm + b.length_mm + gap_mm <= a.x_mm ||
           a.y_mm + a.width_mm + gap_mm <= b.y_mm || b.y_mm + b.width_mm + gap_mm <= a.y_mm;
}

static int place_of(const WbProofPlaces *places, WbRect rect)
{
    int i = first_from(places->x_mm, places->nx, rect.x_mm);
    int j = first_from(places->y_mm, places->ny, rect.y_mm);
    if (i == places->nx || j == places->ny || places->x_mm[i] != rect.x_mm ||
        places->y_mm[j] != rect.y_mm)
        return -1;
    for (int turn = 0; turn < places->turns; turn++)
        if (rect.length_mm == places->along_mm[turn] && rect.width_mm == places->across_mm[turn])
            return (turn * places->ny + j) * places->nx + i;
    return -1;
}

static bool follow(Check *check, uint8_t *open, int need);

static bool take(Check *check, const uint8_t *open, int place, int need)
{
    const WbProofPlaces *places = &check->places;
    uint8_t *left = malloc((size_t)places->n);
    if (!left || check->deep == DEEP_MAX) {
        free(left);
        return refuse(check, "The cases go too deep to be followed.");
    }
    memcpy(left, open, (size_t)places->n);
    WbRect taken = wb_proof_place(places, place);
    for (int other = 0; other < places->n; other++)
        if (left[other] && !keep_gap(taken, wb_proof_place(places, other), places->gap_mm))
            left[other] = 0;
    check->deep++;
    bool done = follow(check, left, need - 1);
    check->deep--;
    free(left);
    return done;
}

static bool split(Check *check, const WbProofStep *step, uint8_t *open, int need)
{
    const WbRoofProof *proof = check->proof;
    const WbProofPlaces *places = &check->places;
    if (step->first_place > proof->n_places || step->n_places > proof->n_places - step->first_place)
        return refuse(check, "The places of a split lie outside the list.");
    for (size_t k = 0; k < step->n_places; k++) {
        int place = place_of(places, proof->places[step->first_place + k]);
        if (place < 0 || !open[place])
            return refuse(check, "A split names a place that is not open.");
        if (!take(check, open, place, need))
            return false;
        open[place] = 0;
    }
    for (int place = 0; place < places->n; place++)
        if (open[place] &&
            grown_cover(places, wb_proof_place(places, place), step->x_mm, step->y_mm))
            return refuse(check, "A split leaves out a place over its point.");
    return true;
}

static bool keep(Check *check, const WbProofStep *step, uint8_t *open)
{
    const WbRoofProof *proof = check->proof;
    const WbProofPlaces *places = &check->places;
    if (step->first_place > proof->n_places || step->n_places > proof->n_places - step->first_place)
        return refuse(check, "The places kept lie outside the list.");
    uint8_t *kept = calloc((size_t)places->n + 1, 1);
    if (!kept)
        return refuse(check, "There is not enough memory to check the proof.");
    bool all_open = true;
    for (size_t k = 0; k < step->n_places && all_open; k++) {
        int place = place_of(places, proof->places[step->first_place + k]);
        all_open = place >= 0 && open[place];
        if (all_open)
            kept[place] = 1;
    }
    bool done = all_open ? wb_proof_keep(places, open, kept) ||
                               refuse(check, "A place is let go for which no other can stand.")
                         : refuse(check, "A place is kept that is not open.");
    free(kept);
    return done;
}

static bool nothing_open(Check *check, const uint8_t *open)
{
    for (int place = 0; place < check->places.n; place++)
        if (open[place])
            return refuse(check, "A place is still open in a case said to be empty.");
    return true;
}

/* One case to its end. */
static bool follow(Check *check, uint8_t *open, int need)
{
    if (need < 1)
        return refuse(check, "A split sets all the panels: they would fit.");
    while (check->at < check->proof->n_steps) {
        const WbProofStep *step = &check->proof->steps[check->at++];
        bool done = false;
        switch (step->kind) {
        case WB_STEP_CLOSE:
            done = close_by_weights(check, step, open, need);
            break;
        case WB_STEP_SPLIT:
            done = split(check, step, open, need);
            break;
        case WB_STEP_KEEP:
            done = keep(check, step, open);
            break;
        case WB_STEP_REFUTE:
            return refuted(check, step, open, need);
        case WB_STEP_EMPTY:
            return nothing_open(check, open);
        default:
            return refuse(check, "A step is of no known kind.");
        }
        if (!done)
            return false;
    }
    return refuse(check, "The proof ends before every case is closed.");
}

static bool follow_all(Check *check)
{
    if (!wb_proof_places_find(&check->places, check->roof, check->panel_length_mm,
                              check->panel_width_mm, check->zones, check->proof->n_strips))
        return refuse(check, "There are too many places, or too little memory, to check.");
    bool done = follow(check, check->places.open, check->proof->n_panels);
    wb_proof_places_free(&check->places);
    if (done && check->at < check->proof->n_steps)
        done = refuse(check, "The proof goes on after every case is closed.");
    return done;
}

/* ---- the plain kinds ---- */

static bool too_large(Check *check)
{
    const WbRoof *roof = check->roof;
    int64_t length_mm = roof->length_mm - 2 * roof->margin_mm;
    int64_t width_mm = roof->width_mm - 2 * roof->margin_mm;
    int64_t a_mm = check->panel_length_mm, b_mm = check->panel_width_mm;
    bool enters =
        (a_mm <= length_mm && b_mm <= width_mm) || (b_mm <= length_mm && a_mm <= width_mm);
    return !enters || refuse(check, "The panel enters the usable edge.");
}

static int64_t within(int64_t value, int64_t low, int64_t high)
{
    return value < low ? low : value > high ? high : value;
}

/* A grown panel lies in the edge and one gap more at the right and behind, and does not enter a
 * strip less one gap at its left and in front. What of that is left, column by column. */
static int64_t room_mm2(const Check *check, WbRect *cut, int64_t *x_mm, int n_x)
{
    const WbRoof *roof = check->roof;
    int64_t front = roof->margin_mm, back = roof->width_mm - roof->margin_mm + roof->gap_mm;
    int64_t room = 0;
    for (int i = 0; i + 1 < n_x; i++) {
        int64_t free_mm = back - front, reached = front;
        for (size_t k = 0; k < check->proof->n_strips; k++) { /* from front to back */
            if (cut[k].x_mm > x_mm[i] || cut[k].x_mm + cut[k].length_mm < x_mm[i + 1])
                continue;
            int64_t from = within(cut[k].y_mm, reached, back);
            int64_t to = within(cut[k].y_mm + cut[k].width_mm, from, back);
            free_mm -= to - from;
            reached = to > reached ? to : reached;
        }
        room += (x_mm[i + 1] - x_mm[i]) * free_mm;
    }
    return room;
}

static int by_y(const void *a, const void *b)
{
    return by_size(&((const WbRect *)a)->y_mm, &((const WbRect *)b)->y_mm);
}

static bool too_little_room(Check *check)
{
    const WbRoof *roof = check->roof;
    size_t n = check->proof->n_strips;
    int64_t gap = roof->gap_mm, left = roof->margin_mm;
    int64_t right = roof->length_mm - roof->margin_mm + gap;
    if (roof->width_mm - 2 * roof->margin_mm <= 0 || right - gap <= left)
        return true;
    WbRect *cut = n <= AREA_STRIPS_MAX ? malloc((n + 1) * sizeof *cut) : NULL;
    int64_t *x_mm = n <= AREA_STRIPS_MAX ? malloc((2 * n + 2) * sizeof *x_mm) : NULL;
    bool done = cut && x_mm;
    for (size_t k = 0; done && k < n; k++) {
        WbRect strip = check->zones[k];
        int64_t length = strip.length_mm - gap, width = strip.width_mm - gap;
        cut[k] = (WbRect){strip.x_mm + gap, strip.y_mm + gap, length, width > 0 ? width : 0};
        if (length <= 0)
            cut[k] = (WbRect){left, left, 0, 0};
        x_mm[2 * k] = within(cut[k].x_mm, left, right);
        x_mm[2 * k + 1] = within(cut[k].x_mm + cut[k].length_mm, left, right);
    }
    if (!done) {
        refuse(check, "There are too many strips, or too little memory, to check.");
    } else {
        x_mm[2 * n] = left;
        x_mm[2 * n + 1] = right;
        qsort(cut, n, sizeof *cut, by_y);
        int64_t panel_mm2 = (check->panel_length_mm + gap) * (check->panel_width_mm + gap);
        int n_x = sort_distinct(x_mm, (int)(2 * n + 2));
        done = room_mm2(check, cut, x_mm, n_x) / panel_mm2 < check->proof->n_panels ||
               refuse(check, "There is area enough for so many panels.");
    }
    free(cut);
    free(x_mm);
    return done;
}

static bool filled_anew(Check *check)
{
    const WbRoof *roof = check->roof;
    int64_t gap = roof->gap_mm;
    int64_t length_mm = roof->length_mm - 2 * roof->margin_mm + gap;
    int64_t width_mm = roof->width_mm - 2 * roof->margin_mm + gap;
    if (length_mm <= gap || width_mm <= gap)
        return true;
    switch (wb_proof_fill(length_mm, width_mm, check->panel_length_mm + gap,
                          check->panel_width_mm + gap, check->proof->n_panels)) {
    case WB_FILL_NONE:
        return true;
    case WB_FILL_FOUND:
        return refuse(check, "So many panels fit.");
    case WB_FILL_TOO_LONG:
    default:
        return refuse(check, "The fill takes too long to be done again.");
    }
}

/* ---- what every proof must have ---- */

static bool strip_sound(const Check *check, const WbProofStrip *strip)
{
    const WbRect *rect = &strip->rect;
    if (rect->length_mm < 1 || rect->width_mm < 1 || rect->length_mm > COORDINATE_MAX_MM ||
        rect->width_mm > COORDINATE_MAX_MM || rect->x_mm < -COORDINATE_MAX_MM ||
        rect->x_mm > COORDINATE_MAX_MM || rect->y_mm < -COORDINATE_MAX_MM ||
        rect->y_mm > COORDINATE_MAX_MM || strip->clearance_mm < 0 ||
        strip->clearance_mm > COORDINATE_MAX_MM)
        return false;
    WbObstacle blocks = {
        "", rect->x_mm, rect->y_mm, rect->length_mm, rect->width_mm, strip->clearance_mm};
    return wb_roof_forbids(check->roof, &blocks);
}

static bool strips_sound(Check *check)
{
    size_t n = check->proof->n_strips;
    check->zones = calloc(n + 1, sizeof *check->zones);
    if (!check->zones)
        return refuse(check, "There is not enough memory to check the proof.");
    for (size_t k = 0; k < n; k++) {
        const WbProofStrip *strip = &check->proof->strips[k];
        if (!strip_sound(check, strip))
            return refuse(check, "A strip is not wholly forbidden.");
        int64_t clearance_mm = strip->clearance_mm;
        check->zones[k] = (WbRect){strip->rect.x_mm - clearance_mm, strip->rect.y_mm - clearance_mm,
                                   strip->rect.length_mm + 2 * clearance_mm,
                                   strip->rect.width_mm + 2 * clearance_mm};
    }
    return true;
}

static bool proved(Check *check)
{
    if (check->proof->n_panels < 1)
        return refuse(check, "The proof speaks of no panel.");
    if (!strips_sound(check))
        return false;
    switch (check->proof->kind) {
    case WB_PROOF_SIZE:
        return too_large(check);
    case WB_PROOF_AREA:
        return too_little_room(check);
    case WB_PROOF_WEIGHTS:
        return follow_all(check);
    case WB_PROOF_SEARCH:
        return filled_anew(check);
    case WB_PROOF_NONE:
    default:
        return refuse(check, "The proof is of no known kind.");
    }
}

bool wb_roof_proof_ok(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm,
                      const WbRoofProof *proof, const char **why)
{
    Check check = {.roof = roof,
                   .panel_length_mm = panel_length_mm,
                   .panel_width_mm = panel_width_mm,
                   .proof = proof};
    bool done = wb_roof_valid(roof) && wb_roof_length_valid(panel_length_mm) &&
                wb_roof_length_valid(panel_width_mm);
    done = done ? proved(&check) : refuse(&check, "The roof or the panel is not valid.");
    free(check.zones);
    if (!done && why)
        *why = check.why;
    return done;
}
