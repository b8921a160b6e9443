#include "nearest_dark.h"
#include <math.h>

bool wb_nearest_dark_is_open(const WbRanking *ranking)
{
    const WbRuledOut *out = &ranking->ruled_out[WB_RULE_DARK_HOURS];
    return out->alone > 0 && isnan(out->value);
}

WbStatus wb_nearest_dark(const WbProblem *problem, int workers, WbControl *control, WbRuledOut *out)
{
    WbRankOptions options = wb_rank_options_default();
    WbRanking ranking;
    options.top = 1;
    options.front_most = 1;
    options.workers = workers;
    options.least_dark = true;
    WbStatus status = wb_rank(problem, &options, control, &ranking);
    if (status != WB_OK)
        return status;
    *out = ranking.ruled_out[WB_RULE_DARK_HOURS];
    wb_ranking_free(&ranking);
    return WB_OK;
}
