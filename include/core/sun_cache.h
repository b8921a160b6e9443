/* The weather on the panels of a site and what arrays give under it, kept from one question to the
 * next: made weather takes longer than all else but the search, and most changes leave it as it is.
 *
 * What it depends on is the site, all but the names, mounting, design cold and where the bank
 * stands, and the person's own hours, of which a copy is kept; sites are compared by every bit. So
 * every answer is the same by every bit with a cache and without one. Any number of threads may use
 * one cache at a time; weather is made outside its lock. */
#ifndef WB_SUN_CACHE_H
#define WB_SUN_CACHE_H

#include "array_sums.h"

/* Nothing in it changes but what the sums keep; counted. */
typedef struct {
    WbPlaneHours plane;
    WbArraySums *sums;
} WbSiteSun;

typedef struct WbSunCache WbSunCache;

/* Room for twenty weathers of ten years, or two of a hundred. */
#define WB_SUN_CACHE_BYTES ((size_t)64 << 20)

typedef struct {
    uint64_t asked, reused;
    size_t kept, bytes; /* now; a weather that a question still uses may have left the cache */
} WbSunCacheCount;

/* The weather used longest ago goes where more than most_bytes (or 16) would be kept; one that is
 * larger by itself is not kept. NULL: out of memory. Counted as WbFitCache. */
WbSunCache *wb_sun_cache_new(size_t most_bytes);
WbSunCache *wb_sun_cache_ref(WbSunCache *cache); /* here and there NULL: nothing happens */
void wb_sun_cache_unref(WbSunCache *cache);
WbSunCacheCount wb_sun_cache_count(WbSunCache *cache);

/* cache NULL: made anew. Statuses of wb_weather_of_site and wb_plane_hours. */
WbStatus wb_sun_cache_get(WbSunCache *cache, const WbSite *site, const WbSiteSun **sun);
void wb_site_sun_unref(const WbSiteSun *sun);

#endif
