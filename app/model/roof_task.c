#include "roof_task.h"
#include "roof_pins.h"
#include "roof_study.h"

WbRoofTask *wb_roof_task_new(WbRoofTaskKind kind, WbBriefFile *file, WbCatalogueView *view,
                             const WbPanel *panel, const WbRect *layout, int n)
{
    WbRoofTask *task = g_new0(WbRoofTask, 1);
    task->kind = kind;
    task->file = wb_brief_file_ref(file);
    task->view = wb_catalogue_view_ref(view);
    task->panel = panel;
    task->nodes = WB_ROOF_NODES;
    task->layout = n > 0 ? g_memdup2(layout, (gsize)n * sizeof *layout) : NULL;
    task->n = n;
    task->status = WB_STOPPED;
    return task;
}

static void find_fit(WbRoofTask *task, const WbRoof *roof, WbControl *control)
{
    const WbPanel *panel = task->panel;
    g_autofree WbRect *pinned = wb_roof_pinned(roof, panel, &task->n_pinned);
    task->status =
        wb_fit_cache_most(task->fits, roof, panel->length_mm, panel->width_mm, pinned,
                          task->n_pinned, WB_STUDY_MOST, task->nodes, control, &task->fit);
}

static void find_shade(WbRoofTask *task, const WbSite *site, const WbRoof *roof, WbControl *control)
{
    g_autofree double *by_panel = g_new0(double, task->n + 1);
    task->status = wb_roof_shade(roof, site, task->layout, task->n, control, task->shade, by_panel);
    if (task->status == WB_OK)
        task->shade_by_panel = g_steal_pointer(&by_panel);
}

void wb_roof_task_run(gpointer data, WbControl *control)
{
    WbRoofTask *task = data;
    const WbRoof *roof = &wb_brief_file_brief(task->file)->roof;
    const WbPanel *panel = task->panel;
    if (task->kind == WB_ROOF_TASK_FIT)
        find_fit(task, roof, control);
    else if (task->kind == WB_ROOF_TASK_ARRANGE)
        task->status = wb_roof_arrange(roof, panel->length_mm, panel->width_mm, task->layout,
                                       task->n, task->n_pinned, control);
    else if (task->kind == WB_ROOF_TASK_CHANGES)
        task->status =
            wb_roof_changes(roof, panel->length_mm, panel->width_mm, task->n + 1, WB_STUDY_REACH_MM,
                            task->nodes, control, task->change, &task->n_changes);
    else if (task->kind == WB_ROOF_TASK_SHADE)
        find_shade(task, &wb_brief_file_brief(task->file)->site, roof, control);
}

void wb_roof_task_free(gpointer data)
{
    WbRoofTask *task = data;
    wb_roof_fit_free(&task->fit);
    wb_roof_changes_free(task->change, task->n_changes);
    wb_brief_file_unref(task->file);
    wb_catalogue_view_unref(task->view);
    wb_fit_cache_unref(task->fits);
    g_free(task->layout);
    g_free(task->shade_by_panel);
    g_free(task);
}
