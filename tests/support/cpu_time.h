/* Time of the processor this program has used: steadier than the clock on a busy machine. */
#ifndef WB_TEST_CPU_TIME_H
#define WB_TEST_CPU_TIME_H

#include <time.h>

static inline double cpu_ms(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return 1e3 * (double)now.tv_sec + (double)now.tv_nsec / 1e6;
}

#endif
