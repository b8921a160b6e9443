/* Moves: change_move.c. Less margin, gap or clearance and smaller panels only ever help, so the
 * least change is found by doubling and halving; every layout found tells at once the least change
 * of margin, gap or clearance it needs itself. */
#include "change_ask.h"
#include "change_move.h"
#include "plain_roof.h"
#include <stdlib.h>
#include <string.h>

/* Of the budget, for one question: beside slants and circles the hardest ones are many. */
enum { SHARE = 16, SHARE_OF_STEPS = 64 };

/* The roof and the panel changed by so much. */
typedef struct {
    WbAsker asker; /* with the changed panel */
    WbRoof roof;
    WbObstacle *obstacles; /* a copy that may be changed */
} Trial;

typedef struct {
    WbAsker *asker;
    const WbRoof *roof;
    Trial trial;
    int kind, obstacle;
    bool now_open;   /* whether the panels lie on the roof as it is was not decided */
    int64_t none_mm; /* changes up to this are proved not to do */
    WbRect *layout;
} Lessener;

static void set_change(Lessener *lessener, int64_t by_mm)
{
    Trial *trial = &lessener->trial;
    trial->roof.margin_mm = lessener->roof->margin_mm;
    trial->roof.gap_mm = lessener->roof->gap_mm;
    trial->asker.panel_length_mm = lessener->asker->panel_length_mm;
    trial->asker.panel_width_mm = lessener->asker->panel_width_mm;
    switch (lessener->kind) {
    case WB_CHANGE_MARGIN:
        trial->roof.margin_mm -= by_mm;
        break;
    case WB_CHANGE_GAP:
        trial->roof.gap_mm -= by_mm;
        break;
    case WB_CHANGE_CLEARANCE:
        trial->obstacles[lessener->obstacle].clearance_mm =
            lessener->roof->obstacles[lessener->obstacle].clearance_mm - by_mm;
        break;
    case WB_CHANGE_PANEL_LENGTH:
        trial->asker.panel_length_mm -= by_mm;
        break;
    default:
        trial->asker.panel_width_mm -= by_mm;
    }
}

static WbAsked ask_change(Lessener *lessener, int64_t by_mm)
{
    Trial *trial = &lessener->trial;
    set_change(lessener, by_mm);
    trial->asker.left = lessener->asker->left;
    trial->asker.status = lessener->asker->status;
    WbRect *layout;
    WbAsked asked = wb_ask(&trial->asker, &trial->roof, &layout);
    lessener->asker->left = trial->asker.left;
    lessener->asker->status = trial->asker.status;
    if (asked == WB_ASKED_YES) {
        free(lessener->layout);
        lessener->layout = layout;
    } else if (asked == WB_ASKED_NO && by_mm > lessener->none_mm) {
        lessener->none_mm = by_mm;
    }
    return asked;
}

/* The layout found with a change of by_mm lies with this one as well, more than above_mm. */
static int64_t own_change_mm(Lessener *lessener, int64_t above_mm, int64_t by_mm)
{
    if (lessener->kind == WB_CHANGE_PANEL_LENGTH || lessener->kind == WB_CHANGE_PANEL_WIDTH)
        return by_mm;
    const WbAsker *asker = &lessener->trial.asker;
    while (by_mm - above_mm > 1) {
        int64_t middle_mm = above_mm + (by_mm - above_mm) / 2;
        set_change(lessener, middle_mm);
        if (wb_roof_layout_ok(&lessener->trial.roof, asker->panel_length_mm, asker->panel_width_mm,
                              lessener->layout, asker->n_panels, NULL))
            by_mm = middle_mm;
        else
            above_mm = middle_mm;
    }
    return by_mm;
}

/* 0: none up to most_mm. */
static int64_t least_change_mm(Lessener *lessener, int64_t most_mm)
{
    int64_t below_mm = 0, does_mm = 0;
    for (int64_t by_mm = 1; does_mm == 0 && below_mm < most_mm; by_mm *= 2) {
        if (by_mm > most_mm)
            by_mm = most_mm;
        if (ask_change(lessener, by_mm) == WB_ASKED_YES)
            does_mm = own_change_mm(lessener, below_mm, by_mm);
        else
            below_mm = by_mm;
    }
    while (does_mm - below_mm > 1) {
        int64_t middle_mm = below_mm + (does_mm - below_mm) / 2;
        if (ask_change(lessener, middle_mm) == WB_ASKED_YES)
            does_mm = own_change_mm(lessener, below_mm, middle_mm);
        else
            below_mm = middle_mm;
    }
    return does_mm;
}

typedef struct {
    Lessener lessener;
    WbRoofChange *change;
    int n;
} Finder;

static void add(Finder *finder, int kind, int obstacle, int64_t by_mm, int64_t none_mm)
{
    finder->change[finder->n++] = (WbRoofChange){.kind = kind,
                                                 .obstacle = obstacle,
                                                 .by_mm = by_mm,
                                                 .proved = none_mm >= by_mm - 1,
                                                 .layout = finder->lessener.layout,
                                                 .n = finder->lessener.asker->n_panels};
    finder->lessener.layout = NULL;
}

static int64_t none_known_mm(const Lessener *lessener)
{
    return lessener->now_open ? -1 : 0;
}

static void find_less(Finder *finder, int kind, int64_t most_mm)
{
    Lessener *lessener = &finder->lessener;
    lessener->kind = kind;
    lessener->none_mm = none_known_mm(lessener);
    int64_t by_mm = least_change_mm(lessener, most_mm);
    if (by_mm > 0)
        add(finder, kind, -1, by_mm, lessener->none_mm);
    set_change(lessener, 0);
}

/* The least of all obstacles; what is proved of it is what is proved of each. */
static void find_clearance(Finder *finder)
{
    Lessener *lessener = &finder->lessener;
    WbRect *best_layout = NULL;
    int best_obstacle = -1;
    int64_t best_mm = INT64_MAX, none_mm = INT64_MAX;
    lessener->kind = WB_CHANGE_CLEARANCE;
    for (size_t i = 0; i < lessener->roof->n_obstacles && lessener->asker->status == WB_OK; i++) {
        const WbObstacle *obstacle = &lessener->roof->obstacles[i];
        int64_t most_mm = obstacle->clearance_mm < best_mm ? obstacle->clearance_mm : best_mm - 1;
        if (most_mm < 1 || !wb_obstacle_blocks(lessener->roof, obstacle))
            continue;
        lessener->obstacle = (int)i;
        lessener->none_mm = none_known_mm(lessener);
        int64_t by_mm = least_change_mm(lessener, most_mm);
        if (by_mm > 0) {
            free(best_layout);
            best_layout = lessener->layout;
            lessener->layout = NULL;
            best_mm = by_mm;
            best_obstacle = (int)i;
        }
        set_change(lessener, 0);
        if (lessener->none_mm < most_mm && lessener->none_mm < none_mm)
            none_mm = lessener->none_mm;
    }
    lessener->layout = best_layout;
    if (best_layout)
        add(finder, WB_CHANGE_CLEARANCE, best_obstacle, best_mm, none_mm);
}

static void find_moves(Finder *finder, int64_t reach_mm)
{
    WbRoofChange move[2];
    wb_least_moves(finder->lessener.asker, finder->lessener.roof, reach_mm, move);
    for (int axis = 0; axis < 2; axis++)
        if (move[axis].n > 0) {
            move[axis].proved = move[axis].proved && !finder->lessener.now_open;
            finder->change[finder->n++] = move[axis];
        }
}

static bool of_panel(const WbRoofChange *change)
{
    return change->kind == WB_CHANGE_PANEL_LENGTH || change->kind == WB_CHANGE_PANEL_WIDTH;
}

static bool stands_after(const WbRoofChange *a, const WbRoofChange *b)
{
    if (of_panel(a) || of_panel(b))
        return a->kind > b->kind;
    int64_t a_mm = llabs(a->by_mm), b_mm = llabs(b->by_mm);
    return a_mm > b_mm || (a_mm == b_mm && a->kind > b->kind);
}

static void sort_changes(WbRoofChange *change, int n)
{
    for (int i = 1; i < n; i++)
        for (int k = i; k > 0 && stands_after(&change[k - 1], &change[k]); k--) {
            WbRoofChange kept = change[k];
            change[k] = change[k - 1];
            change[k - 1] = kept;
        }
}

/* The moves ask most: what they use up is not missed by the others. */
static void find_all(Finder *finder, int64_t reach_mm)
{
    const WbRoof *roof = finder->lessener.roof;
    const WbAsker *asker = finder->lessener.asker;
    find_less(finder, WB_CHANGE_PANEL_LENGTH, asker->panel_length_mm - 1);
    find_less(finder, WB_CHANGE_PANEL_WIDTH, asker->panel_width_mm - 1);
    find_less(finder, WB_CHANGE_MARGIN, roof->margin_mm);
    find_less(finder, WB_CHANGE_GAP, roof->gap_mm);
    find_clearance(finder);
    if (finder->lessener.asker->status == WB_OK)
        find_moves(finder, reach_mm);
    sort_changes(finder->change, finder->n);
}

/* The panels do not lie on the roof as it is. */
static WbStatus find(Finder *finder, int64_t reach_mm)
{
    Lessener *lessener = &finder->lessener;
    const WbRoof *roof = lessener->roof;
    size_t size = (roof->n_obstacles + 1) * sizeof(WbObstacle);
    lessener->trial = (Trial){*lessener->asker, *roof, malloc(size)};
    if (!lessener->trial.obstacles)
        return WB_NO_MEMORY;
    if (roof->n_obstacles > 0)
        memcpy(lessener->trial.obstacles, roof->obstacles, size - sizeof(WbObstacle));
    lessener->trial.roof.obstacles = lessener->trial.obstacles;
    find_all(finder, reach_mm);
    free(lessener->trial.obstacles);
    free(lessener->layout);
    return lessener->asker->status;
}

WbStatus wb_roof_changes(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm,
                         int n_panels, int64_t reach_mm, uint64_t node_budget, WbControl *control,
                         WbRoofChange change[WB_ROOF_CHANGES], int *n)
{
    if (n_panels < 1 || reach_mm < 0 || !wb_roof_valid(roof))
        return WB_BAD_INPUT;
    bool steps = wb_roof_needs_steps(roof);
    WbAsker asker = {.panel_length_mm = panel_length_mm,
                     .panel_width_mm = panel_width_mm,
                     .n_panels = n_panels,
                     .share = node_budget / (steps ? SHARE_OF_STEPS : SHARE) + 1,
                     .left = node_budget + 1,
                     .control = control};
    WbRoofChange found[WB_ROOF_CHANGES];
    Finder finder = {.lessener = {.asker = &asker, .roof = roof}, .change = found};
    WbRect *layout;
    WbAsked now = wb_ask(&asker, roof, &layout);
    free(layout);
    finder.lessener.now_open = now == WB_ASKED_OPEN;
    if (asker.status == WB_OK && now != WB_ASKED_YES)
        asker.status = find(&finder, reach_mm);
    if (asker.status != WB_OK) {
        wb_roof_changes_free(found, finder.n);
        return asker.status;
    }
    memcpy(change, found, (size_t)finder.n * sizeof *change);
    *n = finder.n;
    return WB_OK;
}

void wb_roof_changes_free(WbRoofChange *change, int n)
{
    for (int i = 0; i < n; i++)
        free(change[i].layout);
    if (n > 0)
        memset(change, 0, (size_t)n * sizeof *change);
}
