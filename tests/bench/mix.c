/* Mixes carried as data: answer, time, size of the proof, time of its check. CSV. */
#include "mix_cases.h"
#include <stdio.h>

static const char *word_of(WbFitAnswer answer)
{
    static const char *const WORD[] = {"fits", "fits not", "not decided", "within 1 mm"};
    return WORD[answer];
}

static int clauses_of(const WbMixProof *proof)
{
    int n = 0;
    for (size_t k = 0; k < proof->n_literals; k++)
        n += proof->literals[k] == 0;
    return n;
}

static void run(const char *set, const MixCase *mix_case)
{
    WbMixFit fit = {0};
    gint64 start = g_get_monotonic_time();
    WbStatus status =
        wb_mix_fit(&mix_case->roof, mix_case->item, mix_case->n_items, WB_ROOF_NODES, NULL, &fit);
    gint64 solved = g_get_monotonic_time();
    if (status != WB_OK)
        g_error("%s: %s", mix_case->name, wb_status_describe(status));
    bool good = true;
    if (fit.answer == WB_FITS)
        good = wb_mix_layout_ok(&mix_case->roof, mix_case->item, mix_case->n_items, fit.layout,
                                fit.n_layout);
    if (fit.answer == WB_FITS_NOT)
        good = wb_mix_proof_ok(&mix_case->roof, mix_case->item, mix_case->n_items, &fit);
    gint64 checked = g_get_monotonic_time();
    printf("%s,%s,%s,%s,%.2f,%d,%.2f,%" G_GUINT64_FORMAT ",%s\n", set, mix_case->name,
           word_of(mix_case->answer), word_of(fit.answer), (double)(solved - start) / 1000,
           clauses_of(&fit.proof), (double)(checked - solved) / 1000, fit.nodes,
           good ? "yes" : "NO");
    fflush(stdout);
    wb_mix_fit_free(&fit);
}

static void run_all(const char *set, GPtrArray *cases)
{
    for (guint i = 0; i < cases->len; i++)
        run(set, cases->pdata[i]);
    g_ptr_array_unref(cases);
}

int main(void)
{
    printf("set,instance,expected,answer,ms,proof_clauses,check_ms,nodes,checked\n");
    run_all("mixed cm", mix_cases("roof_mixed.csv", 1));
    run_all("mixed mm", mix_cases("roof_mixed.csv", 10));
    run_all("packing", mix_cases("packing.csv", 1));
    run_all("squares", square_cases());
    return 0;
}
