/* Compares with published values: each names its source, and the program tells how many it saw. */
#ifndef WB_TEST_PUBLISHED_H
#define WB_TEST_PUBLISHED_H

#include <glib.h>
#include <math.h>

static int n_published;

/* Within `tolerance` of `expected`, both in the same unit as `got`. */
static inline void published(const char *source, double got, double expected, double tolerance)
{
    n_published++;
    if (fabs(got - expected) <= tolerance)
        return;
    g_test_message("%s: got %.6g, published %.6g +- %.3g", source, got, expected, tolerance);
    g_test_fail();
}

/* Last test of a program that has published values. */
static inline void published_count(void)
{
    g_test_message("%d published values checked", n_published);
    g_assert_cmpint(n_published, >, 0);
}

#endif
