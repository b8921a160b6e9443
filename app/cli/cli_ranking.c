#include "cli_ranking.h"

#include "cli_job.h"
#include <glib/gi18n-lib.h>

int wb_cli_rank(const WbProblem *problem, size_t top, WbRanking *ranking)
{
    WbRankOptions options = wb_rank_options_default();
    options.top = MAX(options.top, top);
    WbStatus status = wb_rank(problem, &options, NULL, ranking);
    return status == WB_OK ? WB_EXIT_DONE : wb_cli_fail_status(status);
}

static const WbRanked *find(const WbProblem *problem, const WbRanked *kits, size_t n,
                            const WbKit *kit)
{
    for (size_t i = 0; i < n; i++)
        if (wb_kit_compare(problem, &kits[i].kit, kit) == 0)
            return &kits[i];
    return NULL;
}

WbStanding wb_cli_standing(const WbProblem *problem, const WbRanking *ranking, const WbKit *kit)
{
    const WbRanked *found = find(problem, ranking->top, ranking->n_top, kit);
    if (found != NULL)
        return (WbStanding){(uint64_t)(found - ranking->top) + 1, found->on_front};
    bool on_front = find(problem, ranking->front, ranking->n_front, kit) != NULL;
    /* A front cut short, or a kit beyond the rows kept, leaves it open. */
    if (on_front || ranking->n_front == ranking->front_count)
        return (WbStanding){0, on_front};
    return (WbStanding){0, -1};
}

int wb_cli_fail_no_kit(const WbProblem *problem)
{
    return wb_cli_fail(WB_EXIT_NO_KIT, _("No combination of the ticked parts works for “%s”."),
                       problem->brief->name);
}
