/* A list of answers, the one used longest ago left out first. Looking up is a pass over the hashes:
 * thousands of them take microseconds, a search takes hundreds. */
#include "fit_cache.h"
#include "roof_outline.h"
#include <pthread.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_ENTRIES = 4096 };

typedef struct {
    int64_t *word; /* what the answer depends on, see write_question */
    size_t n;
    uint64_t hash;
} Question;

typedef struct {
    Question question;
    WbRoofFit fit;
    uint64_t used; /* when last, by the cache's own count */
} Entry;

struct WbFitCache {
    pthread_mutex_t mutex;
    size_t references, most_bytes;
    Entry *entry;
    size_t room;
    uint64_t now;
    WbFitCacheCount count;
};

/* ---- questions ---- */

static void write_words(Question *question, const int64_t *word, size_t n)
{
    memcpy(question->word + question->n, word, n * sizeof *word);
    question->n += n;
}

#define WRITE(question, ...)                                                                       \
    write_words(question, (const int64_t[]){__VA_ARGS__},                                          \
                sizeof((const int64_t[]){__VA_ARGS__}) / sizeof(int64_t))

/* Circles share a number of strips, those that do not block too: their count is part of it. */
static void write_roof(Question *question, const WbRoof *roof)
{
    WRITE(question, roof->length_mm, roof->width_mm, roof->margin_mm, roof->gap_mm,
          (int64_t)roof->n_corners);
    for (size_t i = 0; i < roof->n_corners; i++)
        WRITE(question, roof->corners[i].x_mm, roof->corners[i].y_mm);
    int64_t n_blocking = 0, n_round = 0;
    for (size_t i = 0; i < roof->n_obstacles; i++) {
        const WbObstacle *o = &roof->obstacles[i];
        n_round += o->round;
        if (!wb_obstacle_blocks(roof, o))
            continue;
        n_blocking++;
        WRITE(question, o->x_mm, o->y_mm, o->length_mm, o->width_mm, o->clearance_mm, o->round);
    }
    WRITE(question, n_blocking, n_round);
}

/* FNV-1a, 64 bits, over the words' bytes from the lowest (Fowler, Noll, Vo). */
static uint64_t hash_of(const Question *question)
{
    uint64_t hash = 14695981039346656037u;
    for (size_t i = 0; i < question->n; i++)
        for (int shift = 0; shift < 64; shift += 8)
            hash = (hash ^ ((uint64_t)question->word[i] >> shift & 0xff)) * 1099511628211u;
    return hash;
}

/* Counts stand before or behind what they count, so no two questions have the same words. False:
 * out of memory. */
static bool write_question(Question *question, const WbRoof *roof, int64_t panel_length_mm,
                           int64_t panel_width_mm, const WbRect *pinned, int n_pinned, int at_most,
                           uint64_t node_budget)
{
    size_t most_words = 12 + 2 * roof->n_corners + 6 * roof->n_obstacles + 4 * (size_t)n_pinned;
    *question = (Question){.word = malloc(most_words * sizeof *question->word)};
    if (!question->word)
        return false;
    write_roof(question, roof);
    for (int i = 0; i < n_pinned; i++)
        WRITE(question, pinned[i].x_mm, pinned[i].y_mm, pinned[i].length_mm, pinned[i].width_mm);
    WRITE(question, n_pinned, panel_length_mm, panel_width_mm, at_most, (int64_t)node_budget);
    question->hash = hash_of(question);
    return true;
}

static bool same_question(const Question *a, const Question *b)
{
    return a->hash == b->hash && a->n == b->n &&
           memcmp(a->word, b->word, a->n * sizeof *a->word) == 0;
}

/* ---- entries; the lock is held ---- */

static size_t entry_bytes(const Entry *entry)
{
    return sizeof *entry + entry->question.n * sizeof *entry->question.word +
           (size_t)entry->fit.most * sizeof *entry->fit.layout;
}

static Entry *find(WbFitCache *cache, const Question *question)
{
    for (size_t i = 0; i < cache->count.kept; i++)
        if (same_question(&cache->entry[i].question, question))
            return &cache->entry[i];
    return NULL;
}

static void drop(WbFitCache *cache, Entry *entry)
{
    cache->count.bytes -= entry_bytes(entry);
    free(entry->question.word);
    wb_roof_fit_free(&entry->fit);
    *entry = cache->entry[--cache->count.kept];
}

static void drop_oldest(WbFitCache *cache)
{
    Entry *oldest = cache->entry;
    for (size_t i = 1; i < cache->count.kept; i++)
        if (cache->entry[i].used < oldest->used)
            oldest = &cache->entry[i];
    drop(cache, oldest);
}

/* False: no memory for one more. */
static bool make_room(WbFitCache *cache, size_t bytes)
{
    while (cache->count.kept > 0 &&
           (cache->count.kept == MOST_ENTRIES || cache->count.bytes + bytes > cache->most_bytes))
        drop_oldest(cache);
    if (cache->count.kept < cache->room)
        return true;
    size_t room = cache->room ? 2 * cache->room : 64;
    Entry *grown = realloc(cache->entry, room * sizeof *grown);
    if (!grown)
        return false;
    cache->entry = grown;
    cache->room = room;
    return true;
}

/* ---- answers ---- */

/* False: out of memory. */
static bool copy_fit(const WbRoofFit *fit, WbRoofFit *copy)
{
    *copy = *fit;
    copy->layout = NULL;
    if (fit->most == 0)
        return true;
    copy->layout = malloc((size_t)fit->most * sizeof *copy->layout);
    if (copy->layout)
        memcpy(copy->layout, fit->layout, (size_t)fit->most * sizeof *copy->layout);
    return copy->layout != NULL;
}

/* False: it is not there, or cannot be copied. */
static bool recall(WbFitCache *cache, const Question *question, WbRoofFit *fit)
{
    pthread_mutex_lock(&cache->mutex);
    cache->count.asked++;
    Entry *entry = find(cache, question);
    bool found = entry && copy_fit(&entry->fit, fit);
    if (found) {
        cache->count.reused++;
        entry->used = ++cache->now;
    }
    pthread_mutex_unlock(&cache->mutex);
    return found;
}

/* Takes the question's words over. What cannot be kept is let go: it is only searched again. */
static void keep(WbFitCache *cache, Question *question, const WbRoofFit *fit)
{
    Entry entry = {.question = *question};
    if (!copy_fit(fit, &entry.fit)) {
        free(question->word);
        return;
    }
    size_t bytes = entry_bytes(&entry);
    pthread_mutex_lock(&cache->mutex);
    /* Another thread may have answered it meanwhile. */
    if (bytes <= cache->most_bytes && !find(cache, question) && make_room(cache, bytes)) {
        entry.used = ++cache->now;
        cache->entry[cache->count.kept++] = entry;
        cache->count.bytes += bytes;
        entry = (Entry){0};
    }
    pthread_mutex_unlock(&cache->mutex);
    free(entry.question.word);
    wb_roof_fit_free(&entry.fit);
}

/* What is refused for more than the words of a question: of obstacles that do not block too. */
static bool can_be_asked(const WbRoof *roof, int n_pinned, int at_most)
{
    return wb_roof_valid(roof) && n_pinned >= 0 && at_most >= n_pinned;
}

WbStatus wb_fit_cache_most(WbFitCache *cache, const WbRoof *roof, int64_t panel_length_mm,
                           int64_t panel_width_mm, const WbRect *pinned, int n_pinned, int at_most,
                           uint64_t node_budget, WbControl *control, WbRoofFit *fit)
{
    Question question = {0};
    bool asked = cache && can_be_asked(roof, n_pinned, at_most) && !wb_control_stopped(control) &&
                 write_question(&question, roof, panel_length_mm, panel_width_mm, pinned, n_pinned,
                                at_most, node_budget);
    if (asked && recall(cache, &question, fit)) {
        free(question.word);
        return WB_OK;
    }
    WbStatus status = wb_roof_most_around(roof, panel_length_mm, panel_width_mm, pinned, n_pinned,
                                          at_most, node_budget, control, fit);
    if (asked && status == WB_OK)
        keep(cache, &question, fit);
    else
        free(question.word);
    return status;
}

/* ---- the cache ---- */

WbFitCache *wb_fit_cache_new(size_t most_bytes)
{
    WbFitCache *cache = calloc(1, sizeof *cache);
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

WbFitCache *wb_fit_cache_ref(WbFitCache *cache)
{
    if (!cache)
        return NULL;
    pthread_mutex_lock(&cache->mutex);
    cache->references++;
    pthread_mutex_unlock(&cache->mutex);
    return cache;
}

void wb_fit_cache_unref(WbFitCache *cache)
{
    if (!cache)
        return;
    pthread_mutex_lock(&cache->mutex);
    bool last = --cache->references == 0;
    pthread_mutex_unlock(&cache->mutex);
    if (!last)
        return;
    while (cache->count.kept > 0)
        drop(cache, &cache->entry[cache->count.kept - 1]);
    free(cache->entry);
    pthread_mutex_destroy(&cache->mutex);
    free(cache);
}

WbFitCacheCount wb_fit_cache_count(WbFitCache *cache)
{
    pthread_mutex_lock(&cache->mutex);
    WbFitCacheCount count = cache->count;
    pthread_mutex_unlock(&cache->mutex);
    return count;
}
