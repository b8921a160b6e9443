#include "proof_places.h"
#include <stdlib.h>
#include <string.h>

static bool meet(int64_t a, int64_t a_size, int64_t b, int64_t b_size)
{
    return a < b + b_size && b < a + a_size;
}

/* Ascending lines in *lines_mm, on the roof: edge and strip sides `stops`, and sums of sides from
 * there. Answers how many, -1 without memory. */
static int find_lines(int64_t **lines_mm, int64_t low_mm, int64_t high_mm, const int64_t *stops,
                      size_t n_stops, const int64_t sides_mm[2], int64_t gap_mm)
{
    int64_t least_mm = sides_mm[0] < sides_mm[1] ? sides_mm[0] : sides_mm[1];
    int64_t last = high_mm - low_mm - least_mm;
    int n = 0;
    if (last < 0)
        return 0;
    uint8_t *on = calloc((size_t)last + 1, 1);
    int64_t *lines = malloc(((size_t)last + 1) * sizeof *lines);
    *lines_mm = lines;
    if (!on || !lines) {
        free(on);
        return -1;
    }
    on[0] = 1;
    for (size_t i = 0; i < n_stops; i++)
        if (stops[i] >= low_mm && stops[i] - low_mm <= last)
            on[stops[i] - low_mm] = 1;
    for (int64_t at = 0; at <= last; at++) {
        for (int k = 0; k < 2 && !on[at]; k++) {
            int64_t before = at - sides_mm[k] - gap_mm;
            on[at] = before >= 0 && on[before];
        }
        if (on[at])
            lines[n++] = low_mm + at;
    }
    free(on);
    return n;
}

static bool find_both(WbProofPlaces *places, const WbRect *strips, size_t n_strips)
{
    int64_t *stops = calloc(n_strips + 1, sizeof *stops);
    if (!stops)
        return false;
    for (size_t i = 0; i < n_strips; i++)
        stops[i] = strips[i].x_mm + strips[i].length_mm;
    places->nx = find_lines(&places->x_mm, places->left_mm, places->right_mm, stops, n_strips,
                            places->along_mm, places->gap_mm);
    for (size_t i = 0; i < n_strips; i++)
        stops[i] = strips[i].y_mm + strips[i].width_mm;
    places->ny = find_lines(&places->y_mm, places->front_mm, places->back_mm, stops, n_strips,
                            places->across_mm, places->gap_mm);
    free(stops);
    return places->nx >= 0 && places->ny >= 0;
}

static uint8_t *flag_of(const WbProofPlaces *places, uint8_t *flags, int turn, int i, int j)
{
    return &flags[((size_t)turn * places->ny + j) * places->nx + i];
}

static void open_inside(WbProofPlaces *places)
{
    for (int turn = 0; turn < places->turns; turn++)
        for (int j = 0; j < places->ny; j++)
            for (int i = 0; i < places->nx; i++)
                *flag_of(places, places->open, turn, i, j) =
                    places->x_mm[i] + places->along_mm[turn] <= places->right_mm &&
                    places->y_mm[j] + places->across_mm[turn] <= places->back_mm;
}

static void close_under(WbProofPlaces *places, WbRect strip)
{
    for (int turn = 0; turn < places->turns; turn++)
        for (int j = 0; j < places->ny; j++) {
            if (!meet(places->y_mm[j], places->across_mm[turn], strip.y_mm, strip.width_mm))
                continue;
            for (int i = 0; i < places->nx; i++)
                if (meet(places->x_mm[i], places->along_mm[turn], strip.x_mm, strip.length_mm))
                    *flag_of(places, places->open, turn, i, j) = 0;
        }
}

static int line_at(const int64_t *lines_mm, int n, int64_t at_mm)
{
    int low = 0, high = n - 1;
    while (low < high) {
        int middle = low + (high - low) / 2;
        if (lines_mm[middle] < at_mm)
            low = middle + 1;
        else
            high = middle;
    }
    return n > 0 && lines_mm[low] == at_mm ? low : -1;
}

/* What stands at the right side of this rectangle rests on it; `apart`: the gap a panel keeps. */
static void rest_right_of(const WbProofPlaces *places, uint8_t *rests, WbRect rect, int64_t apart)
{
    int i = line_at(places->x_mm, places->nx, rect.x_mm + rect.length_mm + apart);
    for (int turn = 0; i >= 0 && turn < places->turns; turn++)
        for (int j = 0; j < places->ny; j++)
            if (meet(places->y_mm[j], places->across_mm[turn] + apart, rect.y_mm,
                     rect.width_mm + apart))
                *flag_of(places, rests, turn, i, j) = 1;
}

static void rest_behind(const WbProofPlaces *places, uint8_t *rests, WbRect rect, int64_t apart)
{
    int j = line_at(places->y_mm, places->ny, rect.y_mm + rect.width_mm + apart);
    for (int turn = 0; j >= 0 && turn < places->turns; turn++)
        for (int i = 0; i < places->nx; i++)
            if (meet(places->x_mm[i], places->along_mm[turn] + apart, rect.x_mm,
                     rect.length_mm + apart))
                *flag_of(places, rests, turn, i, j) = 1;
}

static void rest_on_fixed(const WbProofPlaces *places, const WbRect *strips, size_t n_strips,
                          uint8_t *left, uint8_t *front)
{
    for (int turn = 0; turn < places->turns; turn++) {
        for (int j = 0; j < places->ny; j++)
            *flag_of(places, left, turn, 0, j) = 1;
        for (int i = 0; i < places->nx; i++)
            *flag_of(places, front, turn, i, 0) = 1;
    }
    for (size_t k = 0; k < n_strips; k++) {
        rest_right_of(places, left, strips[k], 0);
        rest_behind(places, front, strips[k], 0);
    }
}

/* fixed: two arrays of flags; now: two more. True while places go. */
static bool close_unsupported(WbProofPlaces *places, const uint8_t *fixed, uint8_t *now)
{
    bool gone = false;
    memcpy(now, fixed, 2 * (size_t)places->n);
    for (int place = 0; place < places->n; place++) {
        if (!places->open[place])
            continue;
        rest_right_of(places, now, wb_proof_place(places, place), places->gap_mm);
        rest_behind(places, now + places->n, wb_proof_place(places, place), places->gap_mm);
    }
    for (int place = 0; place < places->n; place++)
        if (places->open[place] && !(now[place] && now[places->n + place])) {
            places->open[place] = 0;
            gone = true;
        }
    return gone;
}

static bool find_open(WbProofPlaces *places, const WbRect *strips, size_t n_strips)
{
    if ((int64_t)places->turns * places->nx * places->ny > WB_PROOF_PLACES_MAX)
        return false;
    places->n = places->turns * places->nx * places->ny;
    places->open = malloc((size_t)places->n + 1);
    uint8_t *fixed = calloc(2 * (size_t)places->n + 1, 1), *now = malloc(2 * (size_t)places->n + 1);
    bool made = places->open && fixed && now;
    if (made && places->n > 0) {
        open_inside(places);
        for (size_t k = 0; k < n_strips; k++)
            close_under(places, strips[k]);
        rest_on_fixed(places, strips, n_strips, fixed, fixed + places->n);
        while (close_unsupported(places, fixed, now))
            ;
    }
    free(fixed);
    free(now);
    return made;
}

bool wb_proof_places_find(WbProofPlaces *places, const WbRoof *roof, int64_t panel_length_mm,
                          int64_t panel_width_mm, const WbRect *strips, size_t n_strips)
{
    *places = (WbProofPlaces){.left_mm = roof->margin_mm,
                              .front_mm = roof->margin_mm,
                              .right_mm = roof->length_mm - roof->margin_mm,
                              .back_mm = roof->width_mm - roof->margin_mm,
                              .gap_mm = roof->gap_mm,
                              .turns = panel_length_mm == panel_width_mm ? 1 : 2,
                              .along_mm = {panel_length_mm, panel_width_mm},
                              .across_mm = {panel_width_mm, panel_length_mm}};
    if (find_both(places, strips, n_strips) && find_open(places, strips, n_strips))
        return true;
    wb_proof_places_free(places);
    return false;
}

void wb_proof_places_free(WbProofPlaces *places)
{
    free(places->x_mm);
    free(places->y_mm);
    free(places->open);
    *places = (WbProofPlaces){0};
}

WbRect wb_proof_place(const WbProofPlaces *places, int place)
{
    int i = place % places->nx, j = place / places->nx % places->ny;
    int turn = place / places->nx / places->ny;
    return (WbRect){places->x_mm[i], places->y_mm[j], places->along_mm[turn],
                    places->across_mm[turn]};
}
