/* A table of laws, looked up by a hash of their bits (open addressing, at most half full). */
#include "array_sums.h"
#include <math.h>
#include <pthread.h>
#include <stdlib.h>
#include <string.h>

enum { PLACES = 2 * WB_ARRAY_SUMS_MOST, FIRST_ROOM = 64 };

/* What a sum depends on, by the bits. */
typedef struct {
    uint64_t word[5];
} Key;

typedef struct {
    Key key;
    WbSupply supply; /* without idle draw */
    double most;     /* W in any hour before the limit; NaN: not asked yet */
} Entry;

struct WbArraySums {
    const WbPlaneHours *plane;
    pthread_mutex_t mutex;
    Entry *entry;
    size_t n, room;
    uint16_t *place; /* PLACES of them: 1 + index of an entry; 0: free */
    WbArraySumsCount count;
};

WbArraySums *wb_array_sums_new(const WbPlaneHours *plane)
{
    WbArraySums *sums = calloc(1, sizeof *sums);
    uint16_t *place = calloc(PLACES, sizeof *place);
    if (!sums || !place || pthread_mutex_init(&sums->mutex, NULL) != 0) {
        free(sums);
        free(place);
        return NULL;
    }
    sums->plane = plane;
    sums->place = place;
    return sums;
}

void wb_array_sums_free(WbArraySums *sums)
{
    if (!sums)
        return;
    pthread_mutex_destroy(&sums->mutex);
    free(sums->entry);
    free(sums->place);
    free(sums);
}

WbArraySumsCount wb_array_sums_count(WbArraySums *sums)
{
    pthread_mutex_lock(&sums->mutex);
    WbArraySumsCount count = sums->count;
    count.kept = sums->n;
    pthread_mutex_unlock(&sums->mutex);
    return count;
}

/* ---- the table; the lock is held ---- */

static Key key_of(const WbArrayLaw *law)
{
    const double member[] = {law->peak_w, law->power_coeff_k, law->heating_k_m2_w,
                             law->low_light_loss, law->limit_w};
    Key key;
    memcpy(key.word, member, sizeof key.word);
    return key;
}

/* Multiplied through and folded (Fibonacci hashing, Knuth, vol. 3, 6.4). */
static size_t first_place(const Key *key)
{
    uint64_t hash = 0;
    for (size_t i = 0; i < sizeof key->word / sizeof *key->word; i++) {
        hash = (hash ^ key->word[i]) * UINT64_C(0x9e3779b97f4a7c15);
        hash ^= hash >> 29;
    }
    return hash % PLACES;
}

/* Where the law is, or where it would go. */
static uint16_t *place_of(const WbArraySums *sums, const Key *key)
{
    size_t at = first_place(key);
    while (sums->place[at] && memcmp(&sums->entry[sums->place[at] - 1].key, key, sizeof *key) != 0)
        at = (at + 1) % PLACES;
    return &sums->place[at];
}

static bool make_room(WbArraySums *sums)
{
    if (sums->n == WB_ARRAY_SUMS_MOST) {
        memset(sums->place, 0, PLACES * sizeof *sums->place);
        sums->n = 0;
    }
    if (sums->n < sums->room)
        return true;
    size_t room = sums->room ? 2 * sums->room : FIRST_ROOM;
    Entry *grown = realloc(sums->entry, room * sizeof *grown);
    if (!grown)
        return false;
    sums->entry = grown;
    sums->room = room;
    return true;
}

/* ---- asking ---- */

/* Without its `most` where that was never asked. */
static bool recall(WbArraySums *sums, const Key *key, Entry *found)
{
    pthread_mutex_lock(&sums->mutex);
    sums->count.asked++;
    uint16_t at = *place_of(sums, key);
    if (at) {
        sums->count.reused++;
        *found = sums->entry[at - 1];
    }
    pthread_mutex_unlock(&sums->mutex);
    return at != 0;
}

/* What cannot be kept is let go: it is only summed again. */
static void keep(WbArraySums *sums, const Entry *made)
{
    pthread_mutex_lock(&sums->mutex);
    uint16_t *place = place_of(sums, &made->key);
    if (*place) {
        sums->entry[*place - 1] = *made; /* another thread's, or now with its `most` */
    } else if (make_room(sums)) {
        place = place_of(sums, &made->key); /* all may be forgotten */
        sums->entry[sums->n++] = *made;
        *place = (uint16_t)sums->n;
    }
    pthread_mutex_unlock(&sums->mutex);
}

static Entry sum(WbArraySums *sums, const WbArrayLaw *law)
{
    Entry entry = {.key = key_of(law), .most = NAN};
    if (recall(sums, &entry.key, &entry))
        return entry;
    WbArrayLaw still = *law;
    still.idle_w = 0;
    wb_array_months(&still, sums->plane, &entry.supply);
    keep(sums, &entry);
    return entry;
}

void wb_array_sums_months(WbArraySums *sums, const WbArrayLaw *law, WbSupply *supply)
{
    *supply = sum(sums, law).supply;
    for (int m = 0; m < WB_MONTHS; m++)
        supply->day_wh[m] -= law->idle_w * WB_HOURS;
}

static double most_w(const WbArrayLaw *law, const WbPlaneHours *plane)
{
    double most = 0;
    size_t n = (size_t)plane->n_years * WB_YEAR_HOURS;
    for (size_t i = 0; i < n; i++)
        if (plane->plane_w_m2[i] > 0)
            most = fmax(most, wb_array_offered_w(law, plane->plane_w_m2[i], plane->air_c[i],
                                                 plane->low_light[i]));
    return most;
}

void wb_array_sums_unit(WbArraySums *sums, const WbArrayLaw *law, WbArrayUnit *unit)
{
    WbArrayLaw one = *law;
    one.peak_w = 1;
    one.limit_w = INFINITY;
    one.idle_w = 0;
    Entry entry = sum(sums, &one);
    if (isnan(entry.most)) {
        entry.most = most_w(&one, sums->plane);
        keep(sums, &entry);
    }
    memcpy(unit->day_wh, entry.supply.day_wh, sizeof unit->day_wh);
    unit->most = entry.most;
}

void wb_array_months_by_unit(const WbArrayLaw *law, const WbArrayUnit *unit, WbArraySums *sums,
                             WbSupply *supply)
{
    if (law->peak_w * unit->most > law->limit_w) {
        wb_array_sums_months(sums, law, supply);
        return;
    }
    for (int m = 0; m < WB_MONTHS; m++) {
        supply->day_wh[m] = law->peak_w * unit->day_wh[m] - law->idle_w * WB_HOURS;
        supply->clipped_wh[m] = 0;
    }
}
