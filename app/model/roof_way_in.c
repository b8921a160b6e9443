/* What change of the roof would let the panels of a kit lie on it. */
#include "roof_way_in.h"

#include "roof_change.h"
#include "roof_study.h"
#include "roof_words.h"

char *wb_roof_way_in(const WbProblem *problem, const WbKit *kit, int most)
{
    const WbPanelChoice *choice = &problem->panels[kit->panel];
    const WbRoof *roof = &problem->brief->roof;
    int panels = kit->n_series * kit->n_parallel, n = 0;
    WbRoofChange change[WB_ROOF_CHANGES];
    if (panels <= choice->fit.most)
        return NULL;
    if (wb_roof_changes(roof, choice->panel->length_mm, choice->panel->width_mm, panels,
                        WB_STUDY_REACH_MM, WB_ROOF_NODES, NULL, change, &n) != WB_OK)
        return NULL;
    int told = wb_roof_changes_keep_useful(change, n);
    char *words = told > 0 ? wb_roof_change_words(roof, change, MIN(told, most)) : NULL;
    wb_roof_changes_free(change, told);
    return words;
}
