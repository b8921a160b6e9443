/* Moves: change_move.c. Less margin, gap or clearance and smaller panels only ever help. So a
 * change that does is looked for with quick questions, by doubling and halving; every layout found
 * tells at once how much less it needs itself; and one whole question just below is mostly all it
 * takes to prove it the least. */
#include "change_ask.h"
#include "change_move.h"
#include "change_press.h"
#include "plain_roof.h"
#include <stdlib.h>
#include <string.h>

/* Of the budget, for one question: beside slants and circles the hardest ones are many. */
enum { SHARE = 16, SHARE_OF_STEPS = 64 };
/* Parts of the share: all of it, asked in the hope of a quick answer, and where a larger change was
 * not decided. */
enum { WHOLE = 1, QUICK = 32, UNLIKELY = 4 };

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

static WbAsked ask_change(Lessener *lessener, int64_t by_mm, int part)
{
    Trial *trial = &lessener->trial;
    set_change(lessener, by_mm);
    trial->asker.left = lessener->asker->left;
    trial->asker.status = lessener->asker->status;
    WbRect *layout;
    WbAsked asked =
        wb_ask_within(&trial->asker, trial->asker.share / part + 1, &trial->roof, &layout);
    if (asked == WB_ASKED_OPEN && part == WHOLE && !wb_roof_needs_steps(&trial->roof))
        asked = wb_ask_afresh(&trial->asker, trial->asker.share / 2, &trial->roof, &layout);
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

/* The layout found with a change of by_mm, pressed, lies with less change as well: how little,
 * above above_mm. */
static int64_t own_change_mm(Lessener *lessener, int64_t above_mm, int64_t by_mm)
{
    const WbAsker *asker = &lessener->trial.asker;
    size_t size = (size_t)asker->n_panels * sizeof(WbRect);
    WbRect *pressed = malloc(size);
    set_change(lessener, by_mm);
    WbPanelSize from = {asker->panel_length_mm, asker->panel_width_mm};
    while (pressed && by_mm - above_mm > 1) {
        int64_t middle_mm = above_mm + (by_mm - above_mm) / 2;
        set_change(lessener, middle_mm);
        WbPanelSize to = {asker->panel_length_mm, asker->panel_width_mm};
        if (wb_press_layout(&lessener->trial.roof, from, to, lessener->layout, asker->n_panels,
                            pressed)) {
            memcpy(lessener->layout, pressed, size);
            by_mm = middle_mm;
            from = to;
        } else {
            above_mm = middle_mm;
        }
    }
    free(pressed);
    return by_mm;
}

/* Narrows below_mm..does_mm by halving; a question not decided counts as "does not do". */
static int64_t halve_mm(Lessener *lessener, int64_t below_mm, int64_t does_mm, int part)
{
    while (does_mm - below_mm > 1) {
        int64_t middle_mm = below_mm + (does_mm - below_mm) / 2;
        if (ask_change(lessener, middle_mm, part) == WB_ASKED_YES)
            does_mm = own_change_mm(lessener, below_mm, middle_mm);
        else
            below_mm = middle_mm;
    }
    return does_mm;
}

/* By doubling, then halving. 0: none up to most_mm. */
static int64_t quick_change_mm(Lessener *lessener, int64_t most_mm)
{
    int64_t below_mm = 0;
    for (int64_t by_mm = 1; below_mm < most_mm; by_mm *= 2) {
        if (by_mm > most_mm)
            by_mm = most_mm;
        if (ask_change(lessener, by_mm, QUICK) == WB_ASKED_YES)
            return halve_mm(lessener, below_mm, own_change_mm(lessener, below_mm, by_mm), QUICK);
        below_mm = by_mm;
    }
    return 0;
}

static int64_t none_or_0_mm(const Lessener *lessener)
{
    return lessener->none_mm > 0 ? lessener->none_mm : 0;
}

/* A change that does is mostly found at once and mostly the least: one question just below it
 * proves that. Else from there down, in growing steps where layouts do not need less themselves.
 * 0: none up to most_mm. */
static int64_t least_change_mm(Lessener *lessener, int64_t most_mm)
{
    if (most_mm < 1)
        return 0;
    int64_t does_mm = quick_change_mm(lessener, most_mm);
    if (does_mm == 0) {
        if (ask_change(lessener, most_mm, WHOLE) != WB_ASKED_YES)
            return 0;
        does_mm = own_change_mm(lessener, none_or_0_mm(lessener), most_mm);
    }
    int64_t step_mm = 1;
    while (does_mm - none_or_0_mm(lessener) > 1) {
        int64_t below_mm = does_mm - step_mm;
        if (below_mm <= none_or_0_mm(lessener))
            return halve_mm(lessener, none_or_0_mm(lessener), does_mm, WHOLE);
        WbAsked asked = ask_change(lessener, below_mm, WHOLE);
        if (asked == WB_ASKED_OPEN) {
            int64_t less_mm = halve_mm(lessener, none_or_0_mm(lessener), below_mm, UNLIKELY);
            return less_mm < below_mm ? less_mm : does_mm;
        }
        if (asked == WB_ASKED_NO)
            return halve_mm(lessener, below_mm, does_mm, WHOLE);
        does_mm = own_change_mm(lessener, none_or_0_mm(lessener), below_mm);
        step_mm = does_mm < below_mm ? 1 : 2 * step_mm;
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
    if (n_panels < 1 || reach_mm < 0 || !wb_roof_valid(roof) ||
        !wb_roof_length_valid(panel_length_mm) || !wb_roof_length_valid(panel_width_mm))
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
