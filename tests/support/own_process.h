/* Part of a benchmark in a process of its own, so that its peak of memory is its own. */
#ifndef WB_TEST_OWN_PROCESS_H
#define WB_TEST_OWN_PROCESS_H

#include <glib.h>
#include <stdbool.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

static inline long own_peak_kib(void)
{
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    return usage.ru_maxrss;
}

/* What `work` writes into the result, of so many bytes, is brought back. */
static inline void own_process(void (*work)(const void *asked, void *result), const void *asked,
                               void *result, size_t size)
{
    int ends[2], status;
    if (pipe(ends) != 0)
        g_error("no pipe");
    pid_t child = fork();
    if (child == 0) {
        work(asked, result);
        _exit(write(ends[1], result, size) == (ssize_t)size ? 0 : 1);
    }
    close(ends[1]);
    bool whole = child > 0 && read(ends[0], result, size) == (ssize_t)size;
    close(ends[0]);
    if (!whole || waitpid(child, &status, 0) != child || status != 0)
        g_error("a process of the benchmark did not finish");
}

#endif
