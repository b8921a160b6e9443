/* Prints questions that do not fit and their proofs, for mix_proofs.py. A question a line group:
 * question NAME, roof LENGTH WIDTH MARGIN GAP, obstacle X Y LENGTH WIDTH CLEARANCE, item A B COUNT
 * TURNS, proof LITERALS... */
#include "mix_cases.h"
#include "random.h"
#include <stdio.h>

enum { MADE = 60, LITERALS_MAX = 6000 };

static void dump(const char *name, const WbRoof *roof, const WbMixItem *items, size_t n_items)
{
    WbMixFit fit = {0};
    if (wb_mix_fit(roof, items, n_items, WB_ROOF_NODES / 20, NULL, &fit) != WB_OK)
        g_error("%s is not answered", name);
    if (fit.answer == WB_FITS_NOT && fit.proof.n_literals > 0 &&
        fit.proof.n_literals < LITERALS_MAX) {
        printf("question %s\nroof %d %d %d %d\n", name, (int)roof->length_mm, (int)roof->width_mm,
               (int)roof->margin_mm, (int)roof->gap_mm);
        for (size_t k = 0; k < roof->n_obstacles; k++)
            printf("obstacle %d %d %d %d %d\n", (int)roof->obstacles[k].x_mm,
                   (int)roof->obstacles[k].y_mm, (int)roof->obstacles[k].length_mm,
                   (int)roof->obstacles[k].width_mm, (int)roof->obstacles[k].clearance_mm);
        for (size_t k = 0; k < n_items; k++)
            printf("item %d %d %d %d\n", (int)items[k].length_mm, (int)items[k].width_mm,
                   items[k].count, items[k].turns);
        printf("proof");
        for (size_t k = 0; k < fit.proof.n_literals; k++)
            printf(" %d", fit.proof.literals[k]);
        printf("\n");
    }
    wb_mix_fit_free(&fit);
}

static void dump_cases(GPtrArray *cases)
{
    for (guint i = 0; i < cases->len; i++) {
        MixCase *mix_case = cases->pdata[i];
        dump(mix_case->name, &mix_case->roof, mix_case->item, mix_case->n_items);
    }
    g_ptr_array_unref(cases);
}

static int between(WbRandom *random, int low, int high)
{
    return low + (int)wb_random_below(random, (uint64_t)(high - low + 1));
}

/* Roofs with margins, gaps, clearances, and items that are alike. */
static void dump_made(void)
{
    WbRandom random;
    wb_random_seed(&random, 20260405);
    for (int i = 0; i < MADE; i++) {
        WbObstacle vent = {.name = "vent",
                           .x_mm = between(&random, 0, 40),
                           .y_mm = between(&random, 0, 40),
                           .length_mm = between(&random, 1, 12),
                           .width_mm = between(&random, 1, 12),
                           .clearance_mm = between(&random, 0, 3)};
        WbRoof roof = {.length_mm = between(&random, 30, 50),
                       .width_mm = between(&random, 30, 50),
                       .margin_mm = between(&random, 0, 3),
                       .gap_mm = between(&random, 0, 4),
                       .obstacles = &vent,
                       .n_obstacles = (size_t)between(&random, 0, 1)};
        WbMixItem items[3];
        for (int k = 0; k < 3; k++)
            items[k] = (WbMixItem){between(&random, 9, 24), between(&random, 9, 24),
                                   between(&random, 1, 2), between(&random, 0, 3) > 0};
        if (i % 4 == 0) {
            items[2] = items[0];
            items[2].length_mm = items[0].width_mm;
            items[2].width_mm = items[0].length_mm;
        }
        g_autofree char *name = g_strdup_printf("made-%d", i);
        dump(name, &roof, items, 3);
    }
}

int main(void)
{
    dump_cases(mix_cases("roof_mixed.csv", 1));
    dump_cases(mix_cases("packing.csv", 1));
    dump_made();
    return 0;
}
