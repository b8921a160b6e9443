/* The best mixes of three models on vans and trailers with none, two and four obstacles: how many,
 * how many not decided, the most watts, processor time. CSV, a summary below. */
#include "mix.h"
#include <glib.h>
#include <math.h>
#include <stdio.h>
#include <time.h>

enum { MODELS = 8, FRAMES = 4, BODIES = 4, PANELS_MAX = 36 };
#define NODES (20 * (uint64_t)WB_ROOF_NODES) /* as the roof page asks */

static const WbMixModel MODEL[MODELS] = {{1140, 1720, 400, 30000, 22}, {1020, 670, 120, 9900, 8},
                                         {1480, 670, 175, 15900, 12},  {760, 350, 50, 4900, 3.5},
                                         {1050, 1290, 250, 21000, 15}, {1030, 1640, 340, 27000, 19},
                                         {1760, 1040, 375, 28000, 20}, {1200, 540, 100, 9000, 8}};
static const int64_t FRAME_MM[FRAMES][2] = {{3600, 2200}, {4100, 1800}, {5600, 1850}, {7000, 2300}};
static const WbObstacle BODY[BODIES] = {{"vent", 1200, 500, 400, 400, 30},
                                        {"hatch", 2600, 700, 500, 500, 30},
                                        {"rack", 0, 1500, 900, 100, 20},
                                        {"aerial", 3500, 200, 80, 80, 50}};

static double run(const WbRoof *roof, int first, int *undecided_of_all)
{
    WbMixModel models[WB_MIX_MODELS] = {MODEL[first], MODEL[(first + 3) % MODELS],
                                        MODEL[(first + 5) % MODELS]};
    WbMixBest *best = NULL;
    size_t n = 0;
    int undecided = 0;
    clock_t start = clock();
    if (wb_mix_best(roof, models, WB_MIX_MODELS, PANELS_MAX, NODES, NULL, &best, &n, &undecided) !=
        WB_OK)
        g_error("no answer");
    double ms = (double)(clock() - start) * 1000 / CLOCKS_PER_SEC;
    printf("%d x %d,%d,%d,%zu,%d,%.0f,%s,%.1f\n", (int)roof->length_mm, (int)roof->width_mm,
           (int)roof->n_obstacles, first, n, undecided, n ? best[0].power_w : 0,
           n && best[0].proved ? "yes" : "no", ms);
    fflush(stdout);
    *undecided_of_all += undecided;
    wb_mix_best_free(best, n);
    return ms;
}

int main(void)
{
    double worst_ms = 0, sum_ms = 0;
    int undecided = 0, n = 0;
    printf("roof,obstacles,first_model,mixes,undecided,most_w,proved,ms\n");
    for (int frame = 0; frame < FRAMES; frame++)
        for (size_t bodies = 0; bodies <= BODIES; bodies += 2)
            for (int first = 0; first < MODELS; first++, n++) {
                WbRoof roof = {.length_mm = FRAME_MM[frame][0],
                               .width_mm = FRAME_MM[frame][1],
                               .margin_mm = 30,
                               .gap_mm = 10,
                               .obstacles = BODY,
                               .n_obstacles = bodies,
                               .max_load_kg = NAN};
                double ms = run(&roof, first, &undecided);
                sum_ms += ms;
                worst_ms = MAX(worst_ms, ms);
            }
    printf("# %d askings: ms mean %.1f, worst %.1f; %d mixes not decided\n", n, sum_ms / n,
           worst_ms, undecided);
    return 0;
}
