#include "feed.h"
#include <stdlib.h>

enum { NOT_ASKED, NEVER_MORE, SOMETIMES_MORE };

bool wb_needs_init(WbNeeds *needs, const WbProblem *problem)
{
    *needs = (WbNeeds){.problem = problem};
    needs->known = calloc(problem->n_inverters * problem->n_inverters + 1, 1);
    return needs->known != NULL;
}

void wb_needs_free(WbNeeds *needs)
{
    free(needs->known);
    *needs = (WbNeeds){0};
}

bool wb_needs_no_more(WbNeeds *needs, int a, int b)
{
    const WbInverterChoice *inverter = needs->problem->inverters;
    uint8_t *known = &needs->known[(size_t)a * needs->problem->n_inverters + (size_t)b];
    if (a == b)
        return true;
    if (*known == NOT_ASKED)
        *known = wb_demand_is_never_more(&inverter[a].demand, &inverter[b].demand) ? NEVER_MORE
                                                                                   : SOMETIMES_MORE;
    return *known == NEVER_MORE;
}

bool wb_same_law(const WbArrayLaw *a, const WbArrayLaw *b)
{
    return a->peak_w == b->peak_w && a->limit_w == b->limit_w && a->idle_w == b->idle_w &&
           a->power_coeff_k == b->power_coeff_k && a->heating_k_m2_w == b->heating_k_m2_w &&
           a->low_light_loss == b->low_light_loss;
}

/* Cheapest question first. */
bool wb_feed_never_less(WbNeeds *needs, const WbFeed *a, const WbFeed *b)
{
    return a->other >= b->other && wb_needs_no_more(needs, a->inverter, b->inverter) &&
           (wb_same_law(a->law, b->law) ||
            wb_array_never_less(a->law, b->law, &needs->problem->plane));
}
