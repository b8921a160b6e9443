/* A k-d tree of which only the order of the leaves is kept (Bentley, Comm. ACM 18 (1975) 509). */
#include "sieve.h"

typedef struct {
    const double *full;
    size_t n_numbers;
    double scale[WB_SIEVE_MOST]; /* one over the span of all */
} Cloud;

static double number_of(const Cloud *cloud, uint32_t member, size_t k)
{
    return cloud->full[member * cloud->n_numbers + k];
}

static double span(const Cloud *cloud, const uint32_t *order, size_t n, size_t k)
{
    double least = number_of(cloud, order[0], k), most = least;
    for (size_t i = 1; i < n; i++) {
        double x = number_of(cloud, order[i], k);
        least = x < least ? x : least;
        most = x > most ? x : most;
    }
    return most - least;
}

static size_t widest(const Cloud *cloud, const uint32_t *order, size_t n)
{
    size_t wide = 0;
    double most = -1;
    for (size_t k = 0; k < cloud->n_numbers; k++) {
        double x = span(cloud, order, n, k) * cloud->scale[k];
        if (x > most) {
            most = x;
            wide = k;
        }
    }
    return wide;
}

/* Brings the n_low members least in number k first (Hoare, Comm. ACM 4 (1961) 321). */
static void halve(const Cloud *cloud, uint32_t *order, size_t n, size_t n_low, size_t k)
{
    size_t low = 0, high = n - 1;
    while (low < high) {
        double pivot = number_of(cloud, order[low + (high - low) / 2], k);
        size_t i = low, j = high;
        for (;;) {
            while (number_of(cloud, order[i], k) < pivot)
                i++;
            while (number_of(cloud, order[j], k) > pivot)
                j--;
            if (i >= j)
                break;
            uint32_t held = order[i];
            order[i++] = order[j];
            order[j--] = held;
        }
        if (n_low <= j)
            high = j;
        else
            low = j + 1;
    }
}

static void split(const Cloud *cloud, uint32_t *order, size_t n)
{
    while (n > WB_SIEVE_LANES) {
        size_t blocks = (n + WB_SIEVE_LANES - 1) / WB_SIEVE_LANES;
        size_t n_low = blocks / 2 * WB_SIEVE_LANES;
        halve(cloud, order, n, n_low, widest(cloud, order, n));
        split(cloud, order, n_low);
        order += n_low;
        n -= n_low;
    }
}

void wb_sieve_order(const double *full, size_t n_numbers, uint32_t *order, size_t n)
{
    Cloud cloud = {.full = full, .n_numbers = n_numbers};
    for (size_t k = 0; k < n_numbers && n > 0; k++) {
        double all = span(&cloud, order, n, k);
        cloud.scale[k] = all > 0 && all < 1e300 ? 1 / all : 0;
    }
    split(&cloud, order, n);
}
