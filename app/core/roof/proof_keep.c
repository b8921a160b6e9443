#include "proof_keep.h"
#include <stdlib.h>

enum { BITS = 64 };

typedef struct {
    int n, words;
    int *place;      /* [n] */
    bool *keep;      /* [n] */
    uint64_t *left;  /* [words]: still open */
    uint64_t *meets; /* [n * words], itself too */
} Meetings;

static bool too_near(WbRect a, WbRect b, int64_t gap_mm)
{
    return a.x_mm < b.x_mm + b.length_mm + gap_mm && b.x_mm < a.x_mm + a.length_mm + gap_mm &&
           a.y_mm < b.y_mm + b.width_mm + gap_mm && b.y_mm < a.y_mm + a.width_mm + gap_mm;
}

static void note(uint64_t *set, int at)
{
    set[at / BITS] |= (uint64_t)1 << (at % BITS);
}

static bool noted(const uint64_t *set, int at)
{
    return set[at / BITS] >> (at % BITS) & 1;
}

static void free_meetings(Meetings *meetings)
{
    free(meetings->place);
    free(meetings->keep);
    free(meetings->left);
    free(meetings->meets);
}

static bool find_meetings(Meetings *meetings, const WbProofPlaces *places, const uint8_t *open,
                          const uint8_t *kept)
{
    for (int place = 0; place < places->n; place++)
        meetings->n += open[place] != 0;
    if (meetings->n > WB_PROOF_KEEP_MAX)
        return false;
    size_t n = (size_t)meetings->n;
    meetings->words = meetings->n / BITS + 1;
    meetings->place = malloc((n + 1) * sizeof *meetings->place);
    meetings->keep = malloc((n + 1) * sizeof *meetings->keep);
    meetings->left = calloc((size_t)meetings->words, sizeof *meetings->left);
    meetings->meets = calloc((n + 1) * (size_t)meetings->words, sizeof *meetings->meets);
    if (!meetings->place || !meetings->keep || !meetings->left || !meetings->meets)
        return false;
    int at = 0;
    for (int place = 0; place < places->n; place++)
        if (open[place]) {
            meetings->keep[at] = kept[place];
            note(meetings->left, at);
            meetings->place[at++] = place;
        }
    for (int p = 0; p < meetings->n; p++) {
        WbRect here = wb_proof_place(places, meetings->place[p]);
        for (int q = p; q < meetings->n; q++)
            if (too_near(here, wb_proof_place(places, meetings->place[q]), places->gap_mm)) {
                note(meetings->meets + (size_t)p * (size_t)meetings->words, q);
                note(meetings->meets + (size_t)q * (size_t)meetings->words, p);
            }
    }
    return true;
}

static bool stands_for(const Meetings *meetings, int q, int p)
{
    const uint64_t *of_q = meetings->meets + (size_t)q * (size_t)meetings->words;
    const uint64_t *of_p = meetings->meets + (size_t)p * (size_t)meetings->words;
    for (int w = 0; w < meetings->words; w++)
        if (of_q[w] & meetings->left[w] & ~of_p[w])
            return false;
    return true;
}

static bool not_needed(const Meetings *meetings, int p)
{
    const uint64_t *of_p = meetings->meets + (size_t)p * (size_t)meetings->words;
    for (int q = 0; q < meetings->n; q++)
        if (q != p && noted(of_p, q) && noted(meetings->left, q) && stands_for(meetings, q, p))
            return true;
    return false;
}

/* Answers whether only what is kept is left. */
static bool take_out(Meetings *meetings)
{
    bool done = false, any = true;
    while (any && !done) {
        done = true;
        any = false;
        for (int p = 0; p < meetings->n; p++) {
            if (meetings->keep[p] || !noted(meetings->left, p))
                continue;
            if (not_needed(meetings, p)) {
                meetings->left[p / BITS] &= ~((uint64_t)1 << (p % BITS));
                any = true;
            } else {
                done = false;
            }
        }
    }
    return done;
}

bool wb_proof_keep(const WbProofPlaces *places, uint8_t *open, const uint8_t *kept)
{
    Meetings meetings = {0};
    bool done = find_meetings(&meetings, places, open, kept) && take_out(&meetings);
    for (int p = 0; done && p < meetings.n; p++)
        open[meetings.place[p]] = meetings.keep[p];
    free_meetings(&meetings);
    return done;
}
