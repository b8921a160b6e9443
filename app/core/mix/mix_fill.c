#include "mix_fill.h"
#include "random.h"
#include <stdlib.h>
#include <string.h>

enum {
    PIECES_MAX = 120,
    ZONES_MAX = 64,
    SIDES = 8, /* bit 0: along and across changed, bits 1 and 2: mirrored along and across */
    ROUND_LOOKS = 100
};

/* Rows from..to are used up to `front`. */
typedef struct {
    int64_t from_mm, to_mm, front_mm;
} Step;

typedef struct {
    int kind, turned;
    double score;
} Choice;

typedef struct {
    const WbMixQuestion *question;
    int64_t room_mm[WB_AXES]; /* as seen from the side in turn */
    WbZone *zone;
    int side;
    int64_t spare_mm2, least_mm; /* least: the shortest grown side of all panels */
    double mean_mm2, noise;
    int left[WB_MIX_SIZES], n_left;
    Step *sky; /* [depth][n_room] */
    int sky_room, depth_max;
    WbZone *laid; /* grown */
    int *laid_kind, n_laid;
    double laid_mm2, best_mm2;
    WbMixPlace *best; /* the caller's */
    int n_best;
    uint64_t *steps, step_limit;
    WbRandom random;
} Fill;

static int64_t size_mm(const Fill *fill, int kind, int axis, int turned)
{
    return wb_mix_size_mm(&fill->question->kind[kind], axis ^ (fill->side & 1), turned);
}

/* What no grown panel may lie on; empty where the obstacle is thinner than the gap. */
static WbZone cut_zone(const Fill *fill, int i)
{
    WbZone zone = fill->zone[i];
    zone.left_mm += fill->question->gap_mm;
    zone.front_mm += fill->question->gap_mm;
    return zone;
}

static bool blocks_rows(const WbZone *cut, const Step *step)
{
    return cut->left_mm < cut->right_mm && cut->front_mm < step->to_mm &&
           cut->back_mm > step->from_mm;
}

/* Past the obstacles the front stands in. */
static void skip_zones(Fill *fill, Step *step)
{
    for (int i = 0; i < fill->question->n_zones; i++, ++*fill->steps) {
        WbZone cut = cut_zone(fill, i);
        if (blocks_rows(&cut, step) && cut.left_mm <= step->front_mm &&
            step->front_mm < cut.right_mm) {
            step->front_mm = cut.right_mm;
            i = -1;
        }
    }
    if (step->front_mm > fill->room_mm[WB_ALONG])
        step->front_mm = fill->room_mm[WB_ALONG];
}

static int64_t next_zone_mm(Fill *fill, const Step *step)
{
    int64_t next_mm = fill->room_mm[WB_ALONG];
    for (int i = 0; i < fill->question->n_zones; i++, ++*fill->steps) {
        WbZone cut = cut_zone(fill, i);
        if (blocks_rows(&cut, step) && cut.left_mm > step->front_mm && cut.left_mm < next_mm)
            next_mm = cut.left_mm;
    }
    return next_mm;
}

static bool meets_zone(Fill *fill, const WbZone *grown)
{
    int64_t gap_mm = fill->question->gap_mm;
    for (int i = 0; i < fill->question->n_zones; i++, ++*fill->steps) {
        const WbZone *zone = &fill->zone[i];
        if (grown->left_mm < zone->right_mm && zone->left_mm < grown->right_mm - gap_mm &&
            grown->front_mm < zone->back_mm && zone->front_mm < grown->back_mm - gap_mm)
            return true;
    }
    return false;
}

static int start_sky(Fill *fill)
{
    Step *sky = fill->sky;
    int n = 1;
    sky[0] = (Step){0, fill->room_mm[WB_ACROSS], 0};
    for (int i = 0; i < fill->question->n_zones; i++) {
        WbZone cut = cut_zone(fill, i);
        int64_t edge_mm[2] = {cut.front_mm, cut.back_mm};
        for (int e = 0; e < 2 && cut.front_mm < cut.back_mm; e++)
            for (int k = 0; k < n; k++)
                if (sky[k].from_mm < edge_mm[e] && edge_mm[e] < sky[k].to_mm) {
                    memmove(&sky[k + 1], &sky[k], (size_t)(n++ - k) * sizeof *sky);
                    sky[k].to_mm = sky[k + 1].from_mm = edge_mm[e];
                    break;
                }
    }
    for (int k = 0; k < n; k++)
        skip_zones(fill, &sky[k]);
    return n;
}

/* The first run of steps with the lowest front: from `first` to before the answer. */
static int lowest_gap(const Step *sky, int n, int *first)
{
    int end;
    *first = 0;
    for (int k = 1; k < n; k++)
        if (sky[k].front_mm < sky[*first].front_mm)
            *first = k;
    for (end = *first + 1; end < n && sky[end].front_mm == sky[*first].front_mm; end++)
        ;
    return end;
}

static int64_t front_beside(const Fill *fill, const Step *sky, int n, int k)
{
    return k < 0 || k >= n ? fill->room_mm[WB_ALONG] : sky[k].front_mm;
}

static int64_t least_of(int64_t a, int64_t b)
{
    return a < b ? a : b;
}

/* How well a panel closes the gap: what would be left useless beside it, edges in line, area. */
static double score_of(Fill *fill, const Choice *choice, int64_t gap_mm, int64_t front_mm,
                       const int64_t beside_mm[2])
{
    int64_t along_mm = size_mm(fill, choice->kind, WB_ALONG, choice->turned);
    int64_t across_mm = size_mm(fill, choice->kind, WB_ACROSS, choice->turned);
    int64_t rest_mm = gap_mm - across_mm, end_mm = front_mm + along_mm;
    double score = (double)(along_mm * across_mm) / fill->mean_mm2;
    if (rest_mm == 0)
        score += 1;
    else if (rest_mm < fill->least_mm)
        score -= 4 * (double)(rest_mm * along_mm) / fill->mean_mm2;
    for (int k = 0; k < 2; k++)
        score += end_mm == beside_mm[k] ? 0.5 : 0;
    return score + fill->noise * wb_random_unit(&fill->random);
}

static int list_choices(Fill *fill, const Step *sky, int n, int first, int end, Choice *choice)
{
    int64_t gap_mm = sky[end - 1].to_mm - sky[first].from_mm, front_mm = sky[first].front_mm;
    int64_t beside_mm[2] = {front_beside(fill, sky, n, first - 1), front_beside(fill, sky, n, end)};
    int n_choices = 0;
    for (int kind = 0; kind < fill->question->n_kinds; kind++)
        for (int turned = 0; turned < fill->question->kind[kind].turns; turned++) {
            Choice made = {kind, turned, 0};
            ++*fill->steps;
            if (fill->left[kind] == 0 || size_mm(fill, kind, WB_ACROSS, turned) > gap_mm ||
                front_mm + size_mm(fill, kind, WB_ALONG, turned) > fill->room_mm[WB_ALONG])
                continue;
            made.score = score_of(fill, &made, gap_mm, front_mm, beside_mm);
            int k = n_choices++;
            for (; k > 0 && choice[k - 1].score < made.score; k--)
                choice[k] = choice[k - 1];
            choice[k] = made;
        }
    return n_choices;
}

/* A range as seen from the other end, of true outlines. */
static void mirror(int64_t *low_mm, int64_t *high_mm, int64_t true_room_mm)
{
    int64_t low = *low_mm;
    *low_mm = true_room_mm - *high_mm;
    *high_mm = true_room_mm - low;
}

static WbZone change_axes(WbZone zone)
{
    return (WbZone){zone.front_mm, zone.left_mm, zone.back_mm, zone.right_mm};
}

/* Keeps what is laid, seen from the question's own side. */
static void keep_best(Fill *fill)
{
    const WbMixQuestion *question = fill->question;
    for (int i = 0; i < fill->n_laid; i++) {
        WbZone at = fill->laid[i];
        at.right_mm -= question->gap_mm;
        at.back_mm -= question->gap_mm;
        if (fill->side & 2)
            mirror(&at.left_mm, &at.right_mm, fill->room_mm[WB_ALONG] - question->gap_mm);
        if (fill->side & 4)
            mirror(&at.front_mm, &at.back_mm, fill->room_mm[WB_ACROSS] - question->gap_mm);
        if (fill->side & 1)
            at = change_axes(at);
        fill->best[i] = (WbMixPlace){{at.left_mm + question->edge_mm[WB_ALONG],
                                      at.front_mm + question->edge_mm[WB_ACROSS],
                                      at.right_mm - at.left_mm, at.back_mm - at.front_mm},
                                     question->kind[fill->laid_kind[i]].item};
    }
    fill->best_mm2 = fill->laid_mm2;
    fill->n_best = fill->n_laid;
}

static bool go_on(Fill *fill, int n, int depth, int64_t given_up_mm2);

/* The steps under a panel get its end as their front. Answers how many steps there are then. */
static int raise_under(Fill *fill, const Step *sky, int n, const WbZone *grown, Step *next)
{
    int to = 0;
    for (int k = 0; k < n; k++) {
        Step step = sky[k];
        int64_t from_mm = step.from_mm > grown->front_mm ? step.from_mm : grown->front_mm;
        int64_t to_mm = least_of(step.to_mm, grown->back_mm);
        if (from_mm >= to_mm) {
            next[to++] = step;
            continue;
        }
        if (step.from_mm < from_mm)
            next[to++] = (Step){step.from_mm, from_mm, step.front_mm};
        next[to] = (Step){from_mm, to_mm, grown->right_mm};
        skip_zones(fill, &next[to++]);
        if (to_mm < step.to_mm)
            next[to++] = (Step){to_mm, step.to_mm, step.front_mm};
    }
    *fill->steps += (uint64_t)n;
    return to;
}

static bool try_choice(Fill *fill, int n, int first, int end, int depth, int64_t given_up_mm2,
                       const Choice *choice)
{
    const Step *sky = fill->sky + (size_t)depth * fill->sky_room;
    int64_t left_mm = sky[first].front_mm;
    int64_t across_mm = size_mm(fill, choice->kind, WB_ACROSS, choice->turned);
    bool far = front_beside(fill, sky, n, end) > front_beside(fill, sky, n, first - 1);
    int64_t front_mm = far ? sky[end - 1].to_mm - across_mm : sky[first].from_mm;
    WbZone grown = {left_mm, front_mm,
                    left_mm + size_mm(fill, choice->kind, WB_ALONG, choice->turned),
                    front_mm + across_mm};
    if (meets_zone(fill, &grown))
        return false;
    int n_next =
        raise_under(fill, sky, n, &grown, fill->sky + (size_t)(depth + 1) * fill->sky_room);
    fill->laid_kind[fill->n_laid] = choice->kind;
    fill->laid[fill->n_laid++] = grown;
    fill->left[choice->kind]--;
    fill->n_left--;
    double mm2 = (double)(grown.right_mm - grown.left_mm) * (double)across_mm;
    fill->laid_mm2 += mm2;
    if (fill->laid_mm2 > fill->best_mm2)
        keep_best(fill);
    if (go_on(fill, n_next, depth + 1, given_up_mm2))
        return true;
    fill->laid_mm2 -= mm2;
    fill->n_laid--;
    fill->left[choice->kind]++;
    fill->n_left++;
    return false;
}

/* Gives the gap up as far as its lower side or the next obstacle. */
static bool give_up(Fill *fill, int n, int first, int end, int depth, int64_t given_up_mm2)
{
    const Step *sky = fill->sky + (size_t)depth * fill->sky_room;
    Step *next = fill->sky + (size_t)(depth + 1) * fill->sky_room;
    int64_t to_mm =
        least_of(front_beside(fill, sky, n, first - 1), front_beside(fill, sky, n, end));
    for (int k = first; k < end; k++)
        to_mm = least_of(to_mm, next_zone_mm(fill, &sky[k]));
    given_up_mm2 += (to_mm - sky[first].front_mm) * (sky[end - 1].to_mm - sky[first].from_mm);
    if (given_up_mm2 > fill->spare_mm2)
        return false;
    memcpy(next, sky, (size_t)n * sizeof *sky);
    for (int k = first; k < end; k++) {
        next[k].front_mm = to_mm;
        skip_zones(fill, &next[k]);
    }
    return go_on(fill, n, depth + 1, given_up_mm2);
}

static bool go_on(Fill *fill, int n, int depth, int64_t given_up_mm2)
{
    Choice choice[2 * WB_MIX_SIZES];
    int first;
    if (fill->n_left == 0)
        return true;
    ++*fill->steps;
    if (*fill->steps > fill->step_limit || depth + 1 >= fill->depth_max)
        return false;
    const Step *sky = fill->sky + (size_t)depth * fill->sky_room;
    int end = lowest_gap(sky, n, &first);
    if (sky[first].front_mm >= fill->room_mm[WB_ALONG])
        return false;
    int n_choices = list_choices(fill, sky, n, first, end, choice);
    for (int k = 0; k < n_choices; k++)
        if (try_choice(fill, n, first, end, depth, given_up_mm2, &choice[k]))
            return true;
    return give_up(fill, n, first, end, depth, given_up_mm2);
}

/* ---- sides and rounds ---- */

static void take_side(Fill *fill, int side)
{
    const WbMixQuestion *question = fill->question;
    fill->side = side;
    for (int axis = 0; axis < WB_AXES; axis++)
        fill->room_mm[axis] = question->room_mm[axis ^ (side & 1)];
    for (int i = 0; i < question->n_zones; i++) {
        WbZone *zone = &fill->zone[i];
        *zone = side & 1 ? change_axes(question->zone[i]) : question->zone[i];
        if (side & 2)
            mirror(&zone->left_mm, &zone->right_mm, fill->room_mm[WB_ALONG] - question->gap_mm);
        if (side & 4)
            mirror(&zone->front_mm, &zone->back_mm, fill->room_mm[WB_ACROSS] - question->gap_mm);
    }
}

/* 1 1 2 1 1 2 4 ...; round counts from 1. */
static uint64_t luby(uint64_t round)
{
    uint64_t power = 1;
    while (2 * power - 1 < round)
        power *= 2;
    return round == 2 * power - 1 ? power : luby(round - power + 1);
}

static bool try_round(Fill *fill, uint64_t round, uint64_t step_budget)
{
    const WbMixQuestion *question = fill->question;
    uint64_t limit =
        *fill->steps + ROUND_LOOKS * (uint64_t)question->n_pieces * luby(round / SIDES + 1);
    fill->step_limit = limit < step_budget ? limit : step_budget;
    fill->noise = round < SIDES ? 0 : 1;
    take_side(fill, (int)(round % SIDES));
    fill->n_laid = 0;
    fill->laid_mm2 = 0;
    fill->n_left = question->n_pieces;
    for (int k = 0; k < question->n_kinds; k++)
        fill->left[k] = question->kind[k].count;
    return go_on(fill, start_sky(fill), 0, 0);
}

static void measure(Fill *fill)
{
    const WbMixQuestion *question = fill->question;
    fill->least_mm = INT64_MAX;
    for (int k = 0; k < question->n_kinds; k++) {
        const WbMixKind *kind = &question->kind[k];
        fill->least_mm = least_of(fill->least_mm, least_of(kind->grown_mm[0], kind->grown_mm[1]));
        fill->mean_mm2 += (double)kind->count * (double)kind->grown_mm[0] *
                          (double)kind->grown_mm[1] / question->n_pieces;
    }
}

WbStatus wb_mix_fill(const WbMixQuestion *question, int64_t spare_mm2, uint64_t seed,
                     uint64_t step_budget, WbControl *control, uint64_t *steps, WbMixPlace *place,
                     int *n_laid)
{
    *n_laid = 0;
    if (question->n_pieces == 0 || question->n_pieces > PIECES_MAX || question->n_zones > ZONES_MAX)
        return WB_OK;
    int sky_room = 2 * (question->n_pieces + question->n_zones) + 2;
    int depth_max = 3 * question->n_pieces + 2 * sky_room;
    Fill fill = {.question = question,
                 .spare_mm2 = spare_mm2,
                 .sky_room = sky_room,
                 .depth_max = depth_max,
                 .sky = malloc((size_t)sky_room * (size_t)depth_max * sizeof *fill.sky),
                 .zone = malloc((size_t)(question->n_zones + 1) * sizeof *fill.zone),
                 .laid = malloc((size_t)question->n_pieces * sizeof *fill.laid),
                 .laid_kind = malloc((size_t)question->n_pieces * sizeof *fill.laid_kind),
                 .best = place,
                 .steps = steps};
    WbStatus status = fill.sky && fill.zone && fill.laid && fill.laid_kind ? WB_OK : WB_NO_MEMORY;
    measure(&fill);
    wb_random_seed(&fill.random, seed);
    bool found = false;
    for (uint64_t round = 0; status == WB_OK && !found && *steps < step_budget; round++) {
        found = try_round(&fill, round, step_budget);
        if (wb_control_stopped(control))
            status = WB_STOPPED;
    }
    *n_laid = fill.n_best;
    free(fill.sky);
    free(fill.zone);
    free(fill.laid);
    free(fill.laid_kind);
    return status;
}
