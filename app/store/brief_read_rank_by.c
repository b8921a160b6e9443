/* What puts one kit before another: the way, the goals, the order of importance. */
#include "brief_read.h"
#include <math.h>

static void criterion_names(const char *names[WB_N_CRITERIA + 1])
{
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++)
        names[c] = wb_criterion_name(c);
    names[WB_N_CRITERIA] = NULL;
}

static void read_goals(const WbJson *object, WbRankBy *by)
{
    WbJson goals = wb_json_member(object, "goals");
    if (!wb_json_given(&goals) || !wb_json_object(&goals))
        return;
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++) {
        WbJson goal = wb_json_member(&goals, wb_criterion_name(c));
        by->goal[c] = wb_json_number_or_null(&goal, -WB_JSON_NUMBER_MOST, WB_JSON_NUMBER_MOST, NAN);
    }
}

static void read_importance(const WbJson *object, WbRankBy *by)
{
    const char *names[WB_N_CRITERIA + 1];
    uint32_t named = 0;
    criterion_names(names);
    WbJson list = wb_json_member(object, "importance");
    if (!wb_json_given(&list))
        return;
    by->n_important = 0;
    wb_json_list(&list, 1, WB_N_CRITERIA);
    for (WbJson item = wb_json_first(&list); item.item; item = wb_json_next(&item)) {
        if (!wb_json_object(&item))
            return;
        WbJson name = wb_json_member(&item, "criterion"), step = wb_json_member(&item, "step");
        int criterion = wb_json_word(&name, names);
        wb_read_bit(&name, (unsigned)criterion, &named);
        if (by->n_important < WB_N_CRITERIA)
            by->important[by->n_important++] = (WbImportant){
                criterion, wb_json_number_or_null(&step, 0, WB_JSON_NUMBER_MOST, NAN)};
    }
}

void wb_read_rank_by(const WbJson *root, WbBrief *brief)
{
    const char *ways[WB_N_WAYS + 1] = {NULL};
    WbRankBy *by = &brief->rank_by;
    for (int way = 0; way < WB_N_WAYS; way++)
        ways[way] = wb_way_name((WbWay)way);
    for (int c = 0; c < WB_N_CRITERIA; c++)
        by->goal[c] = NAN;
    for (int c = 0; c <= WB_CRITERION_ROOF; c++)
        by->important[by->n_important++] = (WbImportant){c, NAN};
    WbJson object = wb_json_member(root, "rank_by");
    if (!wb_json_given(&object) || !wb_json_object(&object))
        return;
    WbJson way = wb_json_member(&object, "way");
    by->way = wb_json_word_or(&way, ways, WB_WAY_SCORE);
    read_goals(&object, by);
    read_importance(&object, by);
}
