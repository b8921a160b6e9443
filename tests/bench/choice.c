/* The choice out of tables beside general solvers, in one run, on the reference model (its text is
 * in tests/support/reference_model.h) as the program's rule table.
 *
 * Own times begin with the parts: the rows are made and counted in; processor's time, the middle of
 * RUNS. Each case runs in a process of its own, so that its peak of memory is its own. CBC and GLPK
 * (Debian: coinor-cbc, glpk-utils) get the least cost as a mixed integer programme of the same
 * rows, without those that break a rule of their own, each in one thread with its own settings.
 * MiniZinc with Gecode (minizinc) lists all solutions of the model as it is written, on the
 * smallest catalogue. Theirs is the processor's time too, flattening included, and the clock's
 * beside it. Answers that differ end the run with an error. A solver that is not installed is left
 * out, which is said. With an argument: only the own times. */
#include "choice_lp.h"
#include "cpu_time.h"
#include "own_process.h"
#include <glib.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { RUNS = 7, SEED = 1, LONG_LIST = 100, ALL_CRITERIA = 63 };

typedef struct {
    size_t panels, controllers, batteries, inverters;
    int64_t need_wh, peak_w;
    bool front;     /* small enough to take the front of */
    bool enumerate; /* and for a solver to list */
} Case;

static const Case CASES[] = {{50, 30, 40, 30, 2200, 1400, true, true},
                             {50, 30, 40, 30, 1200, 800, true, true},
                             {500, 200, 500, 300, 2200, 1400, true, false},
                             {5000, 2000, 5000, 2000, 2200, 1400, false, false}};

typedef struct {
    double rows_ms, least_ms, list_ms, count_ms, front_ms;
    int64_t least;
    uint64_t count;
    size_t vectors, members, rows[REF_SLOTS];
    long list_kib, peak_kib;
} Own;

/* ---- the program ---- */

static int by_size(const void *a, const void *b)
{
    double one = *(const double *)a, other = *(const double *)b;
    return (one > other) - (one < other);
}

static double middle(double *ms, int n)
{
    qsort(ms, (size_t)n, sizeof *ms, by_size);
    return ms[n / 2];
}

static void make_catalogue(const Case *row, RefCatalogue *catalogue)
{
    ref_make(catalogue, SEED, row->panels, row->controllers, row->batteries, row->inverters);
    catalogue->need_wh = row->need_wh;
    catalogue->peak_w = row->peak_w;
}

/* From the parts to the best so many by cost; the time. */
static double run_list(const RefCatalogue *catalogue, size_t most, Own *own, double *rows_ms)
{
    WbChoiceAim aim = {.weight = {[REF_COST] = 1}};
    WbChoiceEffort effort = {0};
    WbChoiceList list;
    RefTable table;
    double start_ms = cpu_ms();
    ref_table(catalogue, &table);
    *rows_ms = cpu_ms() - start_ms;
    if (wb_choice_best(&table.table, &aim, most, &effort, &list) != WB_OK || list.n == 0)
        g_error("no list");
    double ms = cpu_ms() - start_ms;
    own->least = list.best[0].score;
    for (int s = 0; s < REF_SLOTS; s++)
        own->rows[s] = table.table.slot[s].n;
    wb_choice_list_free(&list);
    ref_table_free(&table);
    return ms;
}

static double run_count(const RefCatalogue *catalogue, Own *own)
{
    WbChoiceEffort effort = {0};
    RefTable table;
    double start_ms = cpu_ms();
    ref_table(catalogue, &table);
    if (wb_choice_count(&table.table, &effort, &own->count) != WB_OK)
        g_error("no count");
    double ms = cpu_ms() - start_ms;
    ref_table_free(&table);
    return ms;
}

static double run_front(const RefCatalogue *catalogue, Own *own)
{
    WbChoiceEffort effort = {0};
    WbChoiceFront front;
    RefTable table;
    double start_ms = cpu_ms();
    ref_table(catalogue, &table);
    if (wb_choice_front(&table.table, ALL_CRITERIA, &effort, &front) != WB_OK)
        g_error("no front");
    double ms = cpu_ms() - start_ms;
    own->vectors = front.n_vectors;
    own->members = front.n;
    wb_choice_front_free(&front);
    ref_table_free(&table);
    return ms;
}

static void run_own(const void *asked, void *result)
{
    const Case *row = asked;
    Own *own = result;
    RefCatalogue catalogue;
    double rows_ms[RUNS], least_ms[RUNS], list_ms[RUNS], count_ms[RUNS], front_ms[RUNS], again;
    make_catalogue(row, &catalogue);
    for (int run = 0; run < RUNS; run++) {
        list_ms[run] = run_list(&catalogue, LONG_LIST, own, &again);
        least_ms[run] = run_list(&catalogue, 1, own, &rows_ms[run]);
    }
    own->list_kib = own_peak_kib();
    own->rows_ms = middle(rows_ms, RUNS);
    own->least_ms = middle(least_ms, RUNS);
    own->list_ms = middle(list_ms, RUNS);
    int runs = row->panels > 50 ? 1 : RUNS;
    for (int run = 0; run < runs; run++) {
        count_ms[run] = run_count(&catalogue, own);
        front_ms[run] = row->front ? run_front(&catalogue, own) : 0;
    }
    own->count_ms = middle(count_ms, runs);
    own->front_ms = middle(front_ms, runs);
    own->peak_kib = own_peak_kib();
    ref_free(&catalogue);
}

/* ---- the solvers ---- */

typedef struct {
    bool ran;
    double cpu_s, clock_s;
    int64_t answer;
} Solver;

static double children_s(void)
{
    struct rusage usage;
    getrusage(RUSAGE_CHILDREN, &usage);
    return (double)(usage.ru_utime.tv_sec + usage.ru_stime.tv_sec) +
           (double)(usage.ru_utime.tv_usec + usage.ru_stime.tv_usec) / 1e6;
}

/* What it printed. */
static char *run_program(const char *const *argv, Solver *solver)
{
    g_autoptr(GError) error = NULL;
    char *output = NULL;
    int status;
    double before_s = children_s();
    gint64 start_us = g_get_monotonic_time();
    if (!g_spawn_sync(NULL, (char **)argv, NULL, G_SPAWN_SEARCH_PATH | G_SPAWN_STDERR_TO_DEV_NULL,
                      NULL, NULL, &output, NULL, &status, &error))
        g_error("%s", error->message);
    if (status != 0)
        g_error("%s ended with %d:\n%s", argv[0], status, output);
    solver->clock_s = (double)(g_get_monotonic_time() - start_us) / 1e6;
    solver->cpu_s = children_s() - before_s;
    solver->ran = true;
    return output;
}

/* The number behind the last of these words. */
static int64_t number_after(const char *text, const char *words, const char *program)
{
    const char *at = g_strrstr(text, words);
    if (!at)
        g_error("%s does not say \"%s\":\n%s", program, words, text);
    at += strlen(words);
    while (*at == ' ' || *at == '=')
        at++;
    return llround(g_ascii_strtod(at, NULL));
}

static char *contents(const char *path)
{
    char *text = NULL;
    if (!g_file_get_contents(path, &text, NULL, NULL))
        g_error("%s was not written", path);
    return text;
}

static Solver run_cbc(const char *model, const char *answer)
{
    Solver solver = {0};
    const char *argv[] = {"cbc", model, "-threads", "0", "-solve", "-solu", answer, NULL};
    g_autofree char *output = run_program(argv, &solver);
    g_autofree char *text = contents(answer);
    if (!g_str_has_prefix(text, "Optimal"))
        g_error("cbc found no optimum:\n%s", output);
    solver.answer = number_after(text, "objective value", "cbc");
    return solver;
}

static Solver run_glpk(const char *model, const char *answer)
{
    Solver solver = {0};
    const char *argv[] = {"glpsol", "--lp", model, "-o", answer, NULL};
    g_autofree char *output = run_program(argv, &solver);
    g_autofree char *text = contents(answer);
    if (!strstr(text, "INTEGER OPTIMAL"))
        g_error("glpsol found no optimum:\n%s", output);
    solver.answer = number_after(text, "Objective:  least", "glpsol");
    return solver;
}

static Solver run_all(const char *const *argv)
{
    Solver solver = {0};
    g_autofree char *output = run_program(argv, &solver);
    if (!strstr(output, "=========="))
        g_error("%s did not finish", argv[0]);
    for (const char *at = output; (at = strstr(at, "----------")); at += 10)
        solver.answer++;
    return solver;
}

static Solver run_minizinc(const char *model)
{
    return run_all((const char *[]){"minizinc", "--solver", "gecode", "-a", model, NULL});
}

/* Without flattening the model and without writing the solutions in its terms. */
static Solver run_gecode(const char *model, const char *flat)
{
    Solver flattening;
    g_free(run_program(
        (const char *[]){"minizinc", "--solver", "gecode", "-c", model, "--fzn", flat, NULL},
        &flattening));
    return run_all((const char *[]){"fzn-gecode", "-a", flat, NULL});
}

static bool installed(const char *program)
{
    g_autofree char *path = g_find_program_in_path(program);
    return path != NULL;
}

static char *write_model(const char *folder, const char *name, char *text)
{
    g_autoptr(GError) error = NULL;
    char *path = g_build_filename(folder, name, NULL);
    if (!g_file_set_contents(path, text, -1, &error))
        g_error("%s", error->message);
    g_free(text);
    return path;
}

/* ---- both ---- */

static void tell(const char *name, const Solver *solver, double own_ms, int64_t own)
{
    if (!solver->ran)
        return;
    printf("  %-28s %10.1f ms (clock %.1f)  %8.0f times  %s\n", name, 1e3 * solver->cpu_s,
           1e3 * solver->clock_s, 1e3 * solver->cpu_s / own_ms,
           solver->answer == own ? "same answer" : "ANOTHER ANSWER");
    fflush(stdout);
    if (solver->answer != own)
        g_error("%s says %" G_GINT64_FORMAT, name, solver->answer);
}

static void compare_least(const RefCatalogue *catalogue, const Own *own, const char *folder)
{
    RefTable table;
    ref_table(catalogue, &table);
    g_autofree char *answer = g_build_filename(folder, "answer", NULL);
    g_autofree char *lp =
        write_model(folder, "model.lp", choice_lp(&table.table, REF_COST, REF_BUSES));
    Solver cbc = {0}, glpk = {0};
    if (installed("cbc"))
        cbc = run_cbc(lp, answer);
    tell("least cost by CBC", &cbc, own->least_ms, own->least);
    if (installed("glpsol"))
        glpk = run_glpk(lp, answer);
    tell("least cost by GLPK", &glpk, own->least_ms, own->least);
    remove(answer);
    remove(lp);
    ref_table_free(&table);
}

static void compare_all(const RefCatalogue *catalogue, const Own *own, const char *folder)
{
    g_autofree char *flat = g_build_filename(folder, "model.fzn", NULL);
    g_autofree char *mzn = write_model(folder, "model.mzn", reference_mzn(catalogue));
    Solver minizinc = {0}, gecode = {0};
    if (installed("minizinc"))
        minizinc = run_minizinc(mzn);
    tell("all by MiniZinc and Gecode", &minizinc, own->count_ms + own->front_ms,
         (int64_t)own->count);
    if (installed("minizinc") && installed("fzn-gecode"))
        gecode = run_gecode(mzn, flat);
    tell("all by Gecode alone", &gecode, own->count_ms + own->front_ms, (int64_t)own->count);
    remove(flat);
    remove(mzn);
}

static void print_own(const Case *row, const Own *own)
{
    printf("%zu/%zu/%zu/%zu, E %d, PK %d; rows %zu/%zu/%zu/%zu in %.3f ms\n", row->panels,
           row->controllers, row->batteries, row->inverters, (int)row->need_wh, (int)row->peak_w,
           own->rows[0], own->rows[1], own->rows[2], own->rows[3], own->rows_ms);
    printf("  least cost %" G_GINT64_FORMAT " in %.3f ms, best %d in %.3f ms, peak %ld KiB\n",
           own->least, own->least_ms, LONG_LIST, own->list_ms, own->list_kib);
    printf("  all %" G_GUINT64_FORMAT " counted in %.3f ms", own->count, own->count_ms);
    if (row->front)
        printf(", front of 6 criteria: %zu vectors, %zu systems in %.3f ms", own->vectors,
               own->members, own->front_ms);
    printf(", peak %ld KiB\n", own->peak_kib);
    fflush(stdout);
}

int main(int argc, char **argv)
{
    static const char *const NEEDED[] = {"cbc", "glpsol", "minizinc"};
    g_autoptr(GError) error = NULL;
    g_autofree char *folder = g_dir_make_tmp("wattberth-choice-XXXXXX", &error);
    if (!folder)
        g_error("%s", error->message);
    for (size_t i = 0; argc < 2 && i < G_N_ELEMENTS(NEEDED); i++)
        if (!installed(NEEDED[i]))
            printf("%s is not installed and left out\n", NEEDED[i]);
    for (size_t i = 0; i < G_N_ELEMENTS(CASES); i++) {
        Own own = {0};
        own_process(run_own, &CASES[i], &own, sizeof own);
        print_own(&CASES[i], &own);
        RefCatalogue catalogue;
        make_catalogue(&CASES[i], &catalogue);
        if (argc < 2)
            compare_least(&catalogue, &own, folder);
        if (argc < 2 && CASES[i].enumerate)
            compare_all(&catalogue, &own, folder);
        ref_free(&catalogue);
    }
    remove(folder);
    return 0;
}
