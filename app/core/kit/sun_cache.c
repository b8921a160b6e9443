#include "sun_cache.h"
#include "same_site.h"
#include <pthread.h>
#include <stdatomic.h>
#include <stdlib.h>

enum { MOST_KEPT = 16 };

typedef struct {
    WbSiteSun sun; /* first, so that a pointer to it is one to this */
    WbSite site;   /* its own hours, no names */
    size_t bytes;
    atomic_size_t references;
} Kept;

typedef struct {
    Kept *kept;
    uint64_t used; /* when last, by the cache's own count */
} Entry;

struct WbSunCache {
    pthread_mutex_t mutex;
    size_t references, most_bytes;
    Entry entry[MOST_KEPT];
    uint64_t now;
    WbSunCacheCount count;
};

/* ---- one weather ---- */

static void free_kept(Kept *kept)
{
    wb_array_sums_free(kept->sun.sums);
    wb_plane_hours_free(&kept->sun.plane);
    wb_site_copy_free(&kept->site);
    free(kept);
}

static WbStatus weather_on_plane(const WbSite *site, WbPlaneHours *plane)
{
    WbWeather weather = {0};
    WbStatus status = wb_weather_of_site(site, &weather);
    if (status == WB_OK)
        status = wb_plane_hours(site, &weather, plane);
    wb_weather_free(&weather);
    return status;
}

/* As large as it may get: the sums grow while it is used. */
static size_t bytes_of(const Kept *kept)
{
    size_t hours = (size_t)kept->sun.plane.n_years * WB_YEAR_HOURS;
    size_t own = kept->site.hours ? (size_t)kept->site.hours->n_years * WB_YEAR_HOURS : 0;
    return sizeof *kept + (3 * (hours + own) + hours / WB_HOURS) * sizeof(double) +
           WB_ARRAY_SUMS_BYTES;
}

/* With one reference. */
static WbStatus make(const WbSite *site, Kept **made)
{
    Kept *kept = calloc(1, sizeof *kept);
    if (!kept)
        return WB_NO_MEMORY;
    atomic_init(&kept->references, 1);
    WbStatus status = weather_on_plane(site, &kept->sun.plane);
    if (status == WB_OK && (!(kept->sun.sums = wb_array_sums_new(&kept->sun.plane)) ||
                            !wb_site_copy(site, &kept->site)))
        status = WB_NO_MEMORY;
    if (status != WB_OK) {
        free_kept(kept);
        return status;
    }
    kept->bytes = bytes_of(kept);
    *made = kept;
    return WB_OK;
}

void wb_site_sun_unref(const WbSiteSun *sun)
{
    Kept *kept = (Kept *)sun;
    if (kept && atomic_fetch_sub(&kept->references, 1) == 1)
        free_kept(kept);
}

/* ---- entries; the lock is held ---- */

static Entry *find(WbSunCache *cache, const WbSite *site)
{
    for (size_t i = 0; i < cache->count.kept; i++)
        if (wb_same_site(&cache->entry[i].kept->site, site))
            return &cache->entry[i];
    return NULL;
}

static void drop(WbSunCache *cache, Entry *entry)
{
    cache->count.bytes -= entry->kept->bytes;
    wb_site_sun_unref(&entry->kept->sun);
    *entry = cache->entry[--cache->count.kept];
}

static void drop_oldest(WbSunCache *cache)
{
    Entry *oldest = cache->entry;
    for (size_t i = 1; i < cache->count.kept; i++)
        if (cache->entry[i].used < oldest->used)
            oldest = &cache->entry[i];
    drop(cache, oldest);
}

/* ---- asking ---- */

/* With a reference for who asks; NULL: not there. */
static Kept *recall(WbSunCache *cache, const WbSite *site)
{
    pthread_mutex_lock(&cache->mutex);
    cache->count.asked++;
    Entry *entry = find(cache, site);
    Kept *kept = NULL;
    if (entry) {
        cache->count.reused++;
        entry->used = ++cache->now;
        kept = entry->kept;
        atomic_fetch_add(&kept->references, 1);
    }
    pthread_mutex_unlock(&cache->mutex);
    return kept;
}

static void keep(WbSunCache *cache, Kept *made)
{
    pthread_mutex_lock(&cache->mutex);
    /* Another thread may have made it meanwhile: the same bits, so either will do. */
    if (made->bytes <= cache->most_bytes && !find(cache, &made->site)) {
        while (cache->count.kept == MOST_KEPT ||
               (cache->count.kept && cache->count.bytes + made->bytes > cache->most_bytes))
            drop_oldest(cache);
        atomic_fetch_add(&made->references, 1);
        cache->entry[cache->count.kept++] = (Entry){made, ++cache->now};
        cache->count.bytes += made->bytes;
    }
    pthread_mutex_unlock(&cache->mutex);
}

WbStatus wb_sun_cache_get(WbSunCache *cache, const WbSite *site, const WbSiteSun **sun)
{
    Kept *kept = cache ? recall(cache, site) : NULL;
    if (!kept) {
        WbStatus status = make(site, &kept);
        if (status != WB_OK)
            return status;
        if (cache)
            keep(cache, kept);
    }
    *sun = &kept->sun;
    return WB_OK;
}

/* ---- the cache ---- */

WbSunCache *wb_sun_cache_new(size_t most_bytes)
{
    WbSunCache *cache = calloc(1, sizeof *cache);
    if (!cache)
        return NULL;
    if (pthread_mutex_init(&cache->mutex, NULL) != 0) {
        free(cache);
        return NULL;
    }
    cache->references = 1;
    cache->most_bytes = most_bytes;
    return cache;
}

WbSunCache *wb_sun_cache_ref(WbSunCache *cache)
{
    if (!cache)
        return NULL;
    pthread_mutex_lock(&cache->mutex);
    cache->references++;
    pthread_mutex_unlock(&cache->mutex);
    return cache;
}

void wb_sun_cache_unref(WbSunCache *cache)
{
    if (!cache)
        return;
    pthread_mutex_lock(&cache->mutex);
    bool last = --cache->references == 0;
    pthread_mutex_unlock(&cache->mutex);
    if (!last)
        return;
    while (cache->count.kept > 0)
        drop_oldest(cache);
    pthread_mutex_destroy(&cache->mutex);
    free(cache);
}

WbSunCacheCount wb_sun_cache_count(WbSunCache *cache)
{
    pthread_mutex_lock(&cache->mutex);
    WbSunCacheCount count = cache->count;
    pthread_mutex_unlock(&cache->mutex);
    return count;
}
