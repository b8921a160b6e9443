/* Times the roof fit on random roofs: every one not decided and the ten slowest as rows of
 * roof.csv, then the middle, the 99th of a hundred, the worst and how many were not decided, of all
 * and of those with room for at most 60 panels; last the proofs of those decided: the slowest to
 * make, and how many were not found or not passed by their checker. One run each, processor's time.
 * With arguments: the first seed, how many. */
#include "cpu_time.h"
#include "roof_gen.h"
#include "roof_proof.h"
#include <stdlib.h>

enum { FIRST = 1, ROOFS = 500, SHOWN = 10, FEW = 60, SLOW_MS = 50 };

typedef struct {
    RoofCase *row;
    double ms;
    int most, bound;
    double proof_ms;
    bool proved;
} Timed;

/* That one more than the bound does not fit. */
static void time_proof(Timed *timed)
{
    const RoofCase *row = timed->row;
    WbRoofProof proof = {0};
    double start_ms = cpu_ms();
    WbStatus status = wb_roof_prove(&row->roof, row->panel_a_mm, row->panel_b_mm, timed->bound + 1,
                                    WB_ROOF_NODES, NULL, &proof);
    timed->proof_ms = cpu_ms() - start_ms;
    timed->proved = status == WB_OK &&
                    wb_roof_proof_ok(&row->roof, row->panel_a_mm, row->panel_b_mm, &proof, NULL);
    if (status == WB_OK)
        wb_roof_proof_free(&proof);
}

static void time_roof(Timed *timed, uint64_t seed)
{
    WbRoofFit fit = {0};
    timed->row = roof_gen(seed);
    double start_ms = cpu_ms();
    if (wb_roof_most(&timed->row->roof, timed->row->panel_a_mm, timed->row->panel_b_mm, 1000,
                     WB_ROOF_NODES, NULL, &fit) != WB_OK)
        g_error("%s: no answer", timed->row->name);
    timed->ms = cpu_ms() - start_ms;
    timed->most = fit.most;
    timed->bound = fit.bound;
    wb_roof_fit_free(&fit);
    if (timed->most == timed->bound)
        time_proof(timed);
}

static int slower(const void *a, const void *b)
{
    double one = ((const Timed *)a)->ms, other = ((const Timed *)b)->ms;
    return (one < other) - (one > other);
}

/* timed[] stands slowest first. */
static void print_summary(const char *what, const Timed *timed, int n)
{
    int undecided = 0, slow = 0;
    for (int i = 0; i < n; i++) {
        undecided += timed[i].most < timed[i].bound;
        slow += timed[i].ms > SLOW_MS;
    }
    if (n > 0)
        printf("%s,%d roofs,median ms,%.3f,99%% ms,%.3f,worst ms,%.3f,over %d ms,%d,not decided,"
               "%d\n",
               what, n, timed[n / 2].ms, timed[n / 100].ms, timed[0].ms, SLOW_MS, slow, undecided);
}

static void print_proofs(const Timed *timed, int n)
{
    int decided = 0, unproved = 0;
    double worst_ms = 0;
    for (int i = 0; i < n; i++) {
        decided += timed[i].most == timed[i].bound;
        unproved += timed[i].most == timed[i].bound && !timed[i].proved;
        worst_ms = timed[i].proof_ms > worst_ms ? timed[i].proof_ms : worst_ms;
    }
    printf("proofs,%d decided,worst ms,%.3f,without a proof,%d\n", decided, worst_ms, unproved);
}

/* Moves those with room for few panels to the front, order kept; answers how many. */
static int few_first(Timed *timed, int n)
{
    int few = 0;
    for (int i = 0; i < n; i++)
        if (timed[i].bound <= FEW) {
            Timed kept = timed[few];
            timed[few++] = timed[i];
            timed[i] = kept;
        }
    return few;
}

int main(int argc, char **argv)
{
    uint64_t first = argc > 1 ? strtoull(argv[1], NULL, 10) : FIRST;
    int n = argc > 2 ? atoi(argv[2]) : ROOFS;
    if (n < 1)
        g_error("how many roofs: '%s'; a whole number from 1 on", argv[2]);
    g_autofree Timed *timed = g_new(Timed, n);
    for (int i = 0; i < n; i++)
        time_roof(&timed[i], first + (uint64_t)i);
    qsort(timed, n, sizeof *timed, slower);
    printf("ms,most,bound,name,length,width,panel_a,panel_b,,,obstacles\n");
    for (int i = 0; i < n; i++)
        if (i < SHOWN || timed[i].most < timed[i].bound) {
            printf("%.3f,%d,%d,", timed[i].ms, timed[i].most, timed[i].bound);
            roof_gen_print(stdout, timed[i].row);
        }
    print_summary("all", timed, n);
    print_summary("to 60 panels", timed, few_first(timed, n));
    print_proofs(timed, n);
    for (int i = 0; i < n; i++)
        roof_case_free(timed[i].row);
    return 0;
}
