/* The layout given, the best regular block and the first layout a short search finds, each improved
 * by local tries (seating_improve.c); on the roof as it is and mirrored along, across and both, so
 * that no corner is favoured. The best of all stays. The work is a count of comparisons: every
 * machine does the same. */
#include "arrange_block.h"
#include "seating.h"
#include <stdlib.h>
#include <string.h>

/* Comparisons of one block search and of one improvement; nodes of one search. */
enum { BLOCK_WORK = 60000, IMPROVE_WORK = 300000, SEARCH_NODES = 60 };

typedef struct {
    const WbRoof *roof; /* as given */
    const WbRect *layout;
    int n, n_pinned;
    int64_t panel_length_mm, panel_width_mm;
    WbControl *control;
    WbRect *best; /* [n] on the roof as given */
    WbArrangement best_score;
} Task;

/* The roof seen in a mirror. */
typedef struct {
    bool along, across;
    WbRoof roof;
    WbObstacle *obstacles;
    WbCorner *corners;
    WbRect *layout;
} Image;

static WbRect mirrored(const Task *task, const Image *image, WbRect rect)
{
    if (image->along)
        rect.x_mm = task->roof->length_mm - rect.x_mm - rect.length_mm;
    if (image->across)
        rect.y_mm = task->roof->width_mm - rect.y_mm - rect.width_mm;
    return rect;
}

static WbCorner mirrored_corner(const Task *task, const Image *image, WbCorner corner)
{
    WbRect point = mirrored(task, image, (WbRect){corner.x_mm, corner.y_mm, 0, 0});
    return (WbCorner){point.x_mm, point.y_mm};
}

static void image_free(Image *image)
{
    free(image->obstacles);
    free(image->corners);
    free(image->layout);
}

static WbStatus image_of(const Task *task, bool along, bool across, Image *image)
{
    const WbRoof *roof = task->roof;
    *image = (Image){.along = along,
                     .across = across,
                     .roof = *roof,
                     .obstacles = malloc((roof->n_obstacles + 1) * sizeof *image->obstacles),
                     .corners = malloc((roof->n_corners + 1) * sizeof *image->corners),
                     .layout = malloc((size_t)task->n * sizeof *image->layout)};
    if (!image->obstacles || !image->corners || !image->layout)
        return WB_NO_MEMORY;
    for (size_t i = 0; i < roof->n_obstacles; i++) {
        WbObstacle *o = &image->obstacles[i];
        *o = roof->obstacles[i];
        WbRect body = mirrored(task, image, (WbRect){o->x_mm, o->y_mm, o->length_mm, o->width_mm});
        o->x_mm = body.x_mm;
        o->y_mm = body.y_mm;
    }
    for (size_t i = 0; i < roof->n_corners; i++)
        image->corners[i] = mirrored_corner(task, image, roof->corners[i]);
    for (int i = 0; i < task->n; i++)
        image->layout[i] = mirrored(task, image, task->layout[i]);
    image->roof.gland = mirrored_corner(task, image, roof->gland);
    image->roof.obstacles = image->obstacles;
    image->roof.corners = roof->n_corners > 0 ? image->corners : NULL;
    return WB_OK;
}

static void keep_best(Task *task, const Image *image, const WbSeating *seating)
{
    if (wb_roof_arrangement_order(&seating->score, &task->best_score) >= 0)
        return;
    task->best_score = seating->score;
    for (int i = 0; i < task->n; i++)
        task->best[i] = mirrored(task, image, seating->rect[i]);
}

static void improve(Task *task, const Image *image, WbSeating *seating)
{
    seating->work_left = IMPROVE_WORK;
    wb_seating_improve(seating);
    keep_best(task, image, seating);
}

/* The layout of a short search in place of the spare's; false: it does not hold all panels. */
static WbStatus search(const Task *task, WbSeating *spare, bool *found)
{
    WbRoofFit fit;
    WbStatus status =
        wb_roof_most_around(spare->roof, task->panel_length_mm, task->panel_width_mm, spare->rect,
                            task->n_pinned, task->n, SEARCH_NODES, task->control, &fit);
    if (status != WB_OK)
        return status;
    *found = fit.most == task->n;
    if (*found) {
        memcpy(spare->rect, fit.layout, (size_t)task->n * sizeof *spare->rect);
        wb_seating_score(spare);
    }
    wb_roof_fit_free(&fit);
    return WB_OK;
}

/* The better of a block and a searched layout is improved beside the layout given. */
static WbStatus improve_others(Task *task, const Image *image, WbSeating *seating, WbSeating *spare)
{
    bool searched = false;
    spare->panel_length_mm = task->panel_length_mm;
    spare->panel_width_mm = task->panel_width_mm;
    spare->work_left = BLOCK_WORK;
    bool block = wb_best_block(seating, spare);
    WbStatus status = search(task, spare, &searched);
    if (status != WB_OK)
        return status;
    if (searched && (!block || wb_roof_arrangement_order(&spare->score, &seating->score) < 0))
        improve(task, image, spare);
    else if (block)
        improve(task, image, seating);
    return WB_OK;
}

static WbStatus arrange_image(Task *task, const Image *image)
{
    WbSeating seating = {0}, spare = {0};
    WbStatus status = wb_seating(&image->roof, image->layout, task->n, task->n_pinned, &seating);
    if (status == WB_OK)
        status = wb_seating(&image->roof, image->layout, task->n, task->n_pinned, &spare);
    if (status == WB_OK) {
        wb_seating_score(&seating);
        improve(task, image, &seating);
        status = improve_others(task, image, &seating, &spare);
    }
    wb_seating_free(&seating);
    wb_seating_free(&spare);
    return status;
}

static WbStatus arrange_all(Task *task)
{
    WbStatus status = WB_OK;
    for (int k = 0; k < 4 && status == WB_OK; k++) {
        Image image;
        status = wb_control_stopped(task->control) ? WB_STOPPED : WB_OK;
        if (status != WB_OK)
            break;
        status = image_of(task, k & 1, k & 2, &image);
        if (status == WB_OK)
            status = arrange_image(task, &image);
        image_free(&image);
    }
    return status;
}

WbStatus wb_roof_arrange(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm,
                         WbRect *layout, int n, int n_pinned, WbControl *control)
{
    if (n < 0 || n_pinned < 0 || n_pinned > n ||
        !wb_roof_layout_ok(roof, panel_length_mm, panel_width_mm, layout, n, NULL))
        return WB_BAD_INPUT;
    if (n == n_pinned)
        return WB_OK;
    Task task = {.roof = roof,
                 .layout = layout,
                 .n = n,
                 .n_pinned = n_pinned,
                 .panel_length_mm = panel_length_mm,
                 .panel_width_mm = panel_width_mm,
                 .control = control,
                 .best = malloc((size_t)n * sizeof *layout)};
    if (!task.best)
        return WB_NO_MEMORY;
    memcpy(task.best, layout, (size_t)n * sizeof *layout);
    wb_roof_arrangement(roof, layout, n, &task.best_score);
    WbStatus status = arrange_all(&task);
    if (status == WB_OK)
        memcpy(layout, task.best, (size_t)n * sizeof *layout);
    free(task.best);
    return status;
}
