/* Sorted by a sum of all numbers no member is beaten by a later one (sort-filter skyline; Chomicki,
 * Godfrey, Gryz & Liang, ICDE 2003); the sum puts those first that beat many. Each number counts by
 * its span. Rounding may make sums equal but never turns them round; equal sums stand by their
 * numbers, the first first, which a member that beats another has the smaller. */
#include "choice_part.h"
#include <stdlib.h>
#include <string.h>

#define BUFFER 65536

void wb_choice_part_init(WbChoicePart *part, uint32_t slots, int n_criteria, bool thin,
                         const WbChoiceEffort *effort)
{
    *part = (WbChoicePart){.slots = slots,
                           .n_criteria = n_criteria,
                           .n_numbers = n_criteria,
                           .thin = thin,
                           .effort = *effort};
    wb_sieve_init(&part->sieve, n_criteria, n_criteria);
}

void wb_choice_part_add_rule(WbChoicePart *part, int rule)
{
    part->rule[part->n_rules++] = rule;
    part->n_numbers++;
    part->sieve.n_numbers++;
}

/* ---- sorting ---- */

typedef struct {
    double key;
    uint32_t member;
} Place;

static bool stands_before(const WbChoicePart *part, const Place *a, const Place *b)
{
    if (a->key != b->key)
        return a->key < b->key;
    size_t n = (size_t)part->n_numbers;
    const double *one = part->number + a->member * n, *other = part->number + b->member * n;
    for (size_t i = 0; i < n; i++)
        if (one[i] != other[i])
            return one[i] < other[i];
    return a->member < b->member;
}

/* Merges runs of twice the length in each pass; the result is in one or the other. */
static Place *sort_places(const WbChoicePart *part, Place *from, Place *to)
{
    size_t n = part->n - part->n_thin;
    for (size_t run = 1; run < n; run *= 2) {
        for (size_t start = 0; start < n; start += 2 * run) {
            size_t middle = start + run < n ? start + run : n;
            size_t end = start + 2 * run < n ? start + 2 * run : n, i = start, j = middle;
            for (size_t k = start; k < end; k++) {
                bool first = j == end || (i < middle && !stands_before(part, &from[j], &from[i]));
                to[k] = first ? from[i++] : from[j++];
            }
        }
        Place *held = from;
        from = to;
        to = held;
    }
    return from;
}

/* The new members, with their sums. */
static void set_keys(const WbChoicePart *part, Place *place)
{
    size_t n = (size_t)part->n_numbers, first = part->n_thin, n_new = part->n - first;
    for (size_t i = 0; i < n_new; i++)
        place[i] = (Place){0, (uint32_t)(first + i)};
    for (size_t c = 0; c < n; c++) {
        const double *x = part->number + first * n + c;
        double least = x[0], most = x[0];
        for (size_t i = 1; i < n_new; i++) {
            least = x[i * n] < least ? x[i * n] : least;
            most = x[i * n] > most ? x[i * n] : most;
        }
        double scale = most > least ? 1 / (most - least) : 0;
        for (size_t i = 0; i < n_new; i++)
            place[i].key += (x[i * n] - least) * scale;
    }
}

/* ---- sieving ---- */

static bool make_arrays(const WbChoicePart *part, size_t room, WbChoicePart *into)
{
    into->number = malloc((room * (size_t)part->n_numbers + 1) * sizeof *into->number);
    into->below = malloc(room * sizeof *into->below);
    into->choice = part->thin ? malloc(room * sizeof *into->choice) : NULL;
    into->room = room;
    return into->number && into->below && (into->choice || !part->thin);
}

static void free_arrays(WbChoicePart *part)
{
    free(part->number);
    free(part->below);
    free(part->choice);
}

static void copy_member(const WbChoicePart *from, size_t i, WbChoicePart *to, size_t k)
{
    size_t n = (size_t)from->n_numbers;
    memmove(to->number + k * n, from->number + i * n, n * sizeof *to->number);
    to->below[k] = from->below[i];
    if (from->choice)
        to->choice[k] = from->choice[i];
}

static bool beaten(const WbChoicePart *part, size_t i, WbSieve *sieve)
{
    return wb_sieve_beats(sieve, part->number + i * (size_t)part->n_numbers);
}

/* The new members nothing new beats, into kept. What was kept before they were held against when
 * they came. */
static WbStatus keep_new(WbChoicePart *part, const Place *place, WbSieve *sieve, WbChoicePart *kept)
{
    for (size_t k = 0; k < part->n - part->n_thin; k++) {
        size_t i = place[k].member;
        if (k % 1024 == 0 && wb_control_stopped(part->effort.control))
            return WB_STOPPED;
        if (beaten(part, i, sieve))
            continue;
        if (!wb_sieve_add(sieve, part->number + i * (size_t)part->n_numbers))
            return WB_NO_MEMORY;
        copy_member(part, i, kept, kept->n++);
    }
    return WB_OK;
}

/* The old members nothing new beats, and behind them the new ones kept. */
static WbStatus put_together(WbChoicePart *part, WbSieve *sieve, const WbChoicePart *kept)
{
    size_t n = 0;
    for (size_t i = 0; i < part->n_thin; i++) {
        if (i % 1024 == 0 && wb_control_stopped(part->effort.control))
            return WB_STOPPED;
        if (!beaten(part, i, sieve))
            copy_member(part, i, part, n++);
    }
    for (size_t i = 0; i < kept->n; i++)
        copy_member(kept, i, part, n++);
    part->n = part->n_thin = n;
    return WB_OK;
}

static WbStatus thin_out(WbChoicePart *part)
{
    size_t n_new = part->n - part->n_thin;
    if (n_new == 0)
        return WB_OK;
    Place *place = malloc(n_new * sizeof *place), *spare = malloc(n_new * sizeof *spare);
    WbChoicePart kept = {.n_numbers = part->n_numbers};
    WbSieve sieve;
    WbStatus status = WB_NO_MEMORY;
    wb_sieve_init(&sieve, part->n_numbers, part->n_criteria);
    if (place && spare && make_arrays(part, n_new, &kept)) {
        set_keys(part, place);
        status = keep_new(part, sort_places(part, place, spare), &sieve, &kept);
    }
    if (status == WB_OK)
        status = put_together(part, &sieve, &kept);
    free(place);
    free(spare);
    free_arrays(&kept);
    wb_sieve_free(&sieve);
    return status;
}

static bool grow(WbChoicePart *part)
{
    size_t room = part->room < 64 ? 64 : part->room + part->room / 2;
    double *number = realloc(part->number, (room * (size_t)part->n_numbers + 1) * sizeof *number);
    if (!number)
        return false;
    part->number = number;
    uint32_t *below = realloc(part->below, room * sizeof *below);
    if (!below)
        return false;
    part->below = below;
    WbChoice *choice = part->thin ? realloc(part->choice, room * sizeof *choice) : NULL;
    if (part->thin && !choice)
        return false;
    part->choice = choice;
    part->room = room;
    return true;
}

static bool too_many(const WbChoicePart *part, size_t n)
{
    return part->effort.members && n > part->effort.members;
}

static WbStatus make_room(WbChoicePart *part)
{
    if (part->n < part->room)
        return WB_OK;
    size_t buffer = part->n_thin > BUFFER ? part->n_thin : BUFFER;
    if (part->thin && part->n >= part->n_thin + buffer) {
        WbStatus status = thin_out(part);
        if (status == WB_OK && !wb_sieve_fill(&part->sieve, part->number, part->n))
            status = WB_NO_MEMORY;
        if (status != WB_OK || part->n + buffer / 2 < part->room)
            return status;
    }
    return grow(part) ? WB_OK : WB_NO_MEMORY;
}

WbStatus wb_choice_part_put(WbChoicePart *part, const double *number, uint32_t below,
                            const WbChoice *choice)
{
    /* First the room: that may thin, and then there is more to hold this member against. */
    WbStatus status = make_room(part);
    if (status == WB_OK && too_many(part, part->thin ? part->n_thin : part->n + 1))
        status = WB_BUDGET;
    if (status != WB_OK || (part->thin && wb_sieve_beats(&part->sieve, number)))
        return status;
    size_t n = (size_t)part->n_numbers;
    memcpy(part->number + part->n * n, number, n * sizeof *number);
    part->below[part->n] = below;
    if (part->thin)
        part->choice[part->n] = *choice;
    part->n++;
    return WB_OK;
}

WbStatus wb_choice_part_finish(WbChoicePart *part)
{
    WbStatus status = part->thin ? thin_out(part) : WB_OK;
    return status == WB_OK && too_many(part, part->n) ? WB_BUDGET : status;
}

void wb_choice_part_free(WbChoicePart *part)
{
    free_arrays(part);
    wb_sieve_free(&part->sieve);
    *part = (WbChoicePart){0};
}
