/* Made mixes (mix_gen.h): answer, processor time, proof, and the check of both. CSV, a summary
 * below.
 * mix_random [HOW MANY OF EACH KIND [SEED]] */
#include "mix_gen.h"
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { EACH = 300, SEED = 20260501, ANSWERS = 4 };

typedef struct {
    int of[ANSWERS], wrong;
    double *ms;
    int n;
} Sums;

static int clauses_of(const WbMixProof *proof)
{
    int n = 0;
    for (size_t k = 0; k < proof->n_literals; k++)
        n += proof->literals[k] == 0;
    return n;
}

static double ms_of(clock_t ticks)
{
    return (double)ticks * 1000 / CLOCKS_PER_SEC;
}

static bool checked(const MixCase *mix_case, const WbMixFit *fit)
{
    if (fit->answer == WB_FITS)
        return wb_mix_layout_ok(&mix_case->roof, mix_case->item, mix_case->n_items, fit->layout,
                                fit->n_layout);
    if (mix_case->answer == WB_FITS && fit->answer == WB_FITS_NOT)
        return false;
    return fit->answer == WB_FIT_UNDECIDED ||
           wb_mix_proof_ok(&mix_case->roof, mix_case->item, mix_case->n_items, fit);
}

static void run(Sums *sums, const char *kind, int number, const MixCase *mix_case)
{
    static const char *const WORD[ANSWERS] = {"fits", "fits not", "not decided", "within 1 mm"};
    WbMixFit fit = {0};
    int panels = 0;
    for (size_t k = 0; k < mix_case->n_items; k++)
        panels += mix_case->item[k].count;
    clock_t start = clock();
    if (wb_mix_fit(&mix_case->roof, mix_case->item, mix_case->n_items, WB_ROOF_NODES, NULL, &fit) !=
        WB_OK)
        g_error("%s %d: no answer", kind, number);
    clock_t solved = clock();
    bool good = checked(mix_case, &fit);
    clock_t end = clock();
    printf("%s,%d,%d,%d,%d,%.3f,%s,%.2f,%" G_GUINT64_FORMAT ",%d,%.2f,%s\n", kind, number, panels,
           (int)mix_case->n_items, (int)mix_case->roof.n_obstacles, mix_gen_fullness(mix_case),
           WORD[fit.answer], ms_of(solved - start), fit.nodes, clauses_of(&fit.proof),
           ms_of(end - solved), good ? "yes" : "NO");
    fflush(stdout);
    sums->of[fit.answer]++;
    sums->wrong += !good;
    sums->ms[sums->n++] = ms_of(solved - start);
    wb_mix_fit_free(&fit);
}

static int by_value(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static void sum_up(const char *kind, Sums *sums)
{
    qsort(sums->ms, (size_t)sums->n, sizeof *sums->ms, by_value);
    printf("# %s: %d fit, %d fit not, %d not decided, %d wrong; ms median %.2f, 99 %% %.2f, worst "
           "%.2f\n",
           kind, sums->of[WB_FITS], sums->of[WB_FITS_NOT], sums->of[WB_FIT_UNDECIDED], sums->wrong,
           sums->ms[sums->n / 2], sums->ms[sums->n * 99 / 100], sums->ms[sums->n - 1]);
    *sums = (Sums){.ms = sums->ms};
}

int main(int argc, char **argv)
{
    int each = argc > 1 ? atoi(argv[1]) : EACH;
    WbRandom random;
    if (each < 1)
        g_error("how many of each kind: a whole number of 1 or more");
    Sums sums = {.ms = g_new(double, each)};
    wb_random_seed(&random, argc > 2 ? strtoull(argv[2], NULL, 10) : SEED);
    printf("kind,number,panels,sizes,obstacles,fullness,answer,ms,nodes,proof_clauses,check_ms,"
           "checked\n");
    for (int i = 0; i < each; i++) {
        MixCase mix_case;
        mix_gen_drawn(&mix_case, &random);
        run(&sums, "drawn", i, &mix_case);
    }
    sum_up("drawn", &sums);
    for (int i = 0; i < each; i++) {
        MixCase mix_case;
        MixGenLayout layout;
        mix_gen_cut(&mix_case, &random, &layout);
        g_assert_true(wb_mix_layout_ok(&mix_case.roof, mix_case.item, mix_case.n_items,
                                       layout.place, layout.n));
        run(&sums, "cut", i, &mix_case);
    }
    sum_up("cut", &sums);
    g_free(sums.ms);
    return 0;
}
