#include "proof_clauses.h"
#include <stdlib.h>
#include <string.h>

enum { FACT_LITERALS_MAX = 200000000 };

/* A panel: what it takes along x and y, gap included, straight and turned; where its variables
 * begin. Positions are as in the text: pos[axis][0 .. n - 1]. */
typedef struct {
    int item, ways;
    int64_t takes_mm[2][2]; /* [way][axis] */
    int64_t *pos_mm[2];
    int32_t n[2], name[2], way_name;
} Panel;

typedef struct {
    int64_t room_mm[2], edge_mm[2], gap_mm;
    const WbRoof *roof;
    Panel *panel;
    int n_panels;
    WbInts *out;
    WbStatus status;
} Facts;

/* An obstacle as the text has it: from low to high on each axis, seen from the usable corner. */
typedef struct {
    int64_t low_mm[2], high_mm[2];
} Block;

static Block block_of(const Facts *facts, size_t i)
{
    const WbObstacle *o = &facts->roof->obstacles[i];
    int64_t x = o->x_mm - facts->edge_mm[0], y = o->y_mm - facts->edge_mm[1], c = o->clearance_mm;
    return (Block){{x - c, y - c}, {x + o->length_mm + c, y + o->width_mm + c}};
}

static bool reaches_in(const Facts *facts, const Block *block)
{
    return block->high_mm[0] > 0 && block->high_mm[1] > 0 &&
           block->low_mm[0] < facts->room_mm[0] - facts->gap_mm &&
           block->low_mm[1] < facts->room_mm[1] - facts->gap_mm;
}

static void frame(Facts *facts, const WbRoof *plain)
{
    facts->roof = plain;
    facts->gap_mm = plain->gap_mm;
    facts->edge_mm[0] = facts->edge_mm[1] = plain->margin_mm;
    facts->room_mm[0] = plain->length_mm - 2 * plain->margin_mm + plain->gap_mm;
    facts->room_mm[1] = plain->width_mm - 2 * plain->margin_mm + plain->gap_mm;
}

static void list_panels(Facts *facts, const WbMixItem *items, size_t n_items)
{
    for (size_t i = 0; i < n_items; i++)
        for (int copy = 0; copy < items[i].count; copy++) {
            int64_t a = items[i].length_mm + facts->gap_mm, b = items[i].width_mm + facts->gap_mm;
            facts->panel[facts->n_panels++] = (Panel){.item = (int)i,
                                                      .ways = items[i].turns && a != b ? 2 : 1,
                                                      .takes_mm = {{a, b}, {b, a}}};
        }
}

/* reached[mm]: the edge or a block's end, plus a sum of panels other than `self`; `far`: all of it
 * seen from the far end of the room. */
static void mark_reached(const Facts *facts, int self, int axis, bool far, uint8_t *reached)
{
    int64_t room_mm = facts->room_mm[axis];
    memset(reached, 0, room_mm);
    reached[0] = 1;
    for (size_t i = 0; i < facts->roof->n_obstacles; i++) {
        Block block = block_of(facts, i);
        int64_t end_mm = far ? room_mm - (block.low_mm[axis] + facts->gap_mm) : block.high_mm[axis];
        if (reaches_in(facts, &block) && end_mm < room_mm)
            reached[end_mm] = 1;
    }
    for (int p = 0; p < facts->n_panels; p++) {
        const Panel *panel = &facts->panel[p];
        if (p == self)
            continue;
        for (int64_t at = room_mm - 1; at > 0; at--) /* from above: each panel once at most */
            for (int way = 0; way < panel->ways && !reached[at]; way++) {
                int64_t from_mm = at - panel->takes_mm[way][axis];
                reached[at] = from_mm >= 0 && reached[from_mm];
            }
    }
}

static bool stands_at(const Panel *panel, int axis, int64_t room_mm, int64_t at,
                      const uint8_t *near, const uint8_t *far)
{
    for (int way = 0; way < panel->ways; way++) {
        int64_t right_of_it_mm = room_mm - panel->takes_mm[way][axis] - at;
        if (right_of_it_mm >= 0 && (at <= right_of_it_mm ? near[at] : far[right_of_it_mm]))
            return true;
    }
    return false;
}

/* `near` and `far` have the length of the room each. */
static bool list_positions(Facts *facts, int self, int axis, uint8_t *near, uint8_t *far)
{
    Panel *panel = &facts->panel[self];
    int64_t room_mm = facts->room_mm[axis];
    if (self > 0 && facts->panel[self - 1].item == panel->item) { /* the same for each copy */
        panel->pos_mm[axis] = facts->panel[self - 1].pos_mm[axis];
        panel->n[axis] = facts->panel[self - 1].n[axis];
        return true;
    }
    mark_reached(facts, self, axis, false, near);
    mark_reached(facts, self, axis, true, far);
    panel->pos_mm[axis] = malloc(room_mm * sizeof(int64_t));
    if (!panel->pos_mm[axis])
        return false;
    for (int64_t at = 0; at < room_mm; at++)
        if (stands_at(panel, axis, room_mm, at, near, far))
            panel->pos_mm[axis][panel->n[axis]++] = at;
    return true;
}

static void name_variables(Facts *facts, int32_t *next)
{
    for (int p = 0; p < facts->n_panels; p++) {
        Panel *panel = &facts->panel[p];
        for (int axis = 0; axis < 2; axis++) {
            panel->name[axis] = *next;
            *next += panel->n[axis] - 1;
        }
        if (panel->ways == 2)
            panel->way_name = (*next)++;
    }
}

/* Clause in the making: `open` is false once one of its literals holds anyway. */
typedef struct {
    int32_t literal[8];
    int n;
    bool open;
} Clause;

static void say(Clause *clause, int32_t literal)
{
    clause->literal[clause->n++] = literal;
}

/* "Panel p stands at wanted_mm or later", or the opposite. */
static void say_from(const Facts *facts, Clause *clause, int p, int axis, int64_t wanted_mm,
                     bool holds)
{
    const Panel *panel = &facts->panel[p];
    int32_t low = 0, high = panel->n[axis]; /* the first position that is not before wanted_mm */
    while (low < high) {
        int32_t middle = low + (high - low) / 2;
        if (panel->pos_mm[axis][middle] >= wanted_mm)
            high = middle;
        else
            low = middle + 1;
    }
    if (low == 0 || low == panel->n[axis])
        clause->open = clause->open && (low == 0) != holds;
    else
        say(clause, holds ? panel->name[axis] + low - 1 : -(panel->name[axis] + low - 1));
}

static void say_not_this_way(const Facts *facts, Clause *clause, int p, int way)
{
    if (facts->panel[p].ways == 2)
        say(clause, way == 1 ? -facts->panel[p].way_name : facts->panel[p].way_name);
}

static void close_clause(Facts *facts, const Clause *clause)
{
    if (!clause->open || facts->status != WB_OK)
        return;
    if (facts->out->n > FACT_LITERALS_MAX)
        facts->status = WB_BUDGET;
    for (int k = 0; k < clause->n && facts->status == WB_OK; k++)
        if (!wb_ints_push(facts->out, clause->literal[k]))
            facts->status = WB_NO_MEMORY;
    if (facts->status == WB_OK && !wb_ints_push(facts->out, 0))
        facts->status = WB_NO_MEMORY;
}

static void state_positions(Facts *facts, int p)
{
    for (int axis = 0; axis < 2; axis++)
        for (int32_t k = 2; k < facts->panel[p].n[axis]; k++) {
            Clause clause = {.open = true};
            say(&clause, facts->panel[p].name[axis] + k - 2);
            say(&clause, -(facts->panel[p].name[axis] + k - 1));
            close_clause(facts, &clause);
        }
}

static void state_room(Facts *facts, int p, int way)
{
    for (int axis = 0; axis < 2; axis++) {
        Clause clause = {.open = true};
        int64_t last_mm = facts->room_mm[axis] - facts->panel[p].takes_mm[way][axis];
        say_not_this_way(facts, &clause, p, way);
        say_from(facts, &clause, p, axis, last_mm + 1, false);
        close_clause(facts, &clause);
    }
}

static void state_blocks(Facts *facts, int p, int way)
{
    for (size_t i = 0; i < facts->roof->n_obstacles; i++) {
        Block block = block_of(facts, i);
        Clause clause = {.open = reaches_in(facts, &block)};
        say_not_this_way(facts, &clause, p, way);
        for (int axis = 0; axis < 2; axis++) {
            int64_t true_mm = facts->panel[p].takes_mm[way][axis] - facts->gap_mm;
            say_from(facts, &clause, p, axis, block.low_mm[axis] - true_mm + 1, false);
            say_from(facts, &clause, p, axis, block.high_mm[axis], true);
        }
        close_clause(facts, &clause);
    }
}

/* Variable `name` says that q begins where p ends, or later, on this axis. */
static void state_before(Facts *facts, int32_t name, int axis, int p, int q)
{
    for (int way = 0; way < facts->panel[p].ways; way++)
        for (int32_t k = 0; k < facts->panel[p].n[axis]; k++) {
            int64_t at_mm = facts->panel[p].pos_mm[axis][k];
            Clause clause = {.open = true};
            say(&clause, -name);
            say_not_this_way(facts, &clause, p, way);
            say_from(facts, &clause, p, axis, at_mm, false);
            say_from(facts, &clause, q, axis, at_mm + facts->panel[p].takes_mm[way][axis], true);
            close_clause(facts, &clause);
        }
}

static void state_same_order(Facts *facts, int32_t p_before_q, int p, int q)
{
    for (int32_t k = 0; k < facts->panel[p].n[0]; k++) {
        Clause clause = {.open = true};
        say_from(facts, &clause, p, 0, facts->panel[p].pos_mm[0][k], false);
        say_from(facts, &clause, q, 0, facts->panel[p].pos_mm[0][k] + 1, true);
        say(&clause, p_before_q);
        close_clause(facts, &clause);
    }
    for (int32_t k = 1; k < facts->panel[p].n[0]; k++) {
        Clause clause = {.open = true};
        say_from(facts, &clause, p, 0, facts->panel[p].pos_mm[0][k], false);
        say_from(facts, &clause, q, 0, facts->panel[p].pos_mm[0][k], true);
        close_clause(facts, &clause);
    }
}

static void state_pair(Facts *facts, int32_t name, int p, int q)
{
    Clause apart = {{name, name + 1, name + 2, name + 3}, 4, true};
    close_clause(facts, &apart);
    for (int axis = 0; axis < 2; axis++) {
        state_before(facts, name + 2 * axis, axis, p, q);
        state_before(facts, name + 2 * axis + 1, axis, q, p);
    }
    if (facts->panel[p].item != facts->panel[q].item)
        return;
    Clause not_after = {{-(name + 1)}, 1, true};
    close_clause(facts, &not_after);
    if (q == p + 1)
        state_same_order(facts, name + 2, p, q);
}

static bool alone(const Facts *facts, int p)
{
    int item = facts->panel[p].item;
    return (p == 0 || facts->panel[p - 1].item != item) &&
           (p + 1 == facts->n_panels || facts->panel[p + 1].item != item);
}

static bool nothing_reaches_in(const Facts *facts)
{
    for (size_t i = 0; i < facts->roof->n_obstacles; i++) {
        Block block = block_of(facts, i);
        if (reaches_in(facts, &block))
            return false;
    }
    return true;
}

static void state_half(Facts *facts)
{
    int chosen = -1;
    int64_t most_mm2 = 0;
    if (!nothing_reaches_in(facts))
        return;
    for (int p = 0; p < facts->n_panels; p++) {
        int64_t mm2 = facts->panel[p].takes_mm[0][0] * facts->panel[p].takes_mm[0][1];
        if (alone(facts, p) && mm2 > most_mm2) {
            most_mm2 = mm2;
            chosen = p;
        }
    }
    for (int axis = 0; chosen >= 0 && axis < 2; axis++)
        for (int way = 0; way < facts->panel[chosen].ways; way++) {
            int64_t spare_mm = facts->room_mm[axis] - facts->panel[chosen].takes_mm[way][axis];
            Clause clause = {.open = spare_mm >= 0};
            say_not_this_way(facts, &clause, chosen, way);
            say_from(facts, &clause, chosen, axis, spare_mm / 2 + 1, false);
            close_clause(facts, &clause);
        }
}

static void state_all(Facts *facts, int32_t name)
{
    for (int p = 0; p < facts->n_panels; p++) {
        state_positions(facts, p);
        for (int way = 0; way < facts->panel[p].ways; way++) {
            state_room(facts, p, way);
            state_blocks(facts, p, way);
        }
    }
    for (int p = 0; p < facts->n_panels; p++)
        for (int q = p + 1; q < facts->n_panels; q++, name += 4)
            state_pair(facts, name, p, q);
    state_half(facts);
}

static void find_positions(Facts *facts)
{
    int64_t longest_mm =
        facts->room_mm[0] > facts->room_mm[1] ? facts->room_mm[0] : facts->room_mm[1];
    uint8_t *reached = malloc(2 * (longest_mm + 1));
    if (!reached)
        facts->status = WB_NO_MEMORY;
    for (int p = 0; p < facts->n_panels && facts->status == WB_OK; p++)
        for (int axis = 0; axis < 2; axis++)
            if (!list_positions(facts, p, axis, reached, reached + longest_mm + 1))
                facts->status = WB_NO_MEMORY;
    free(reached);
}

static void free_panels(Facts *facts)
{
    for (int p = 0; p < facts->n_panels; p++)
        for (int axis = 0; axis < 2; axis++)
            if (p == 0 || facts->panel[p - 1].item != facts->panel[p].item)
                free(facts->panel[p].pos_mm[axis]);
    free(facts->panel);
}

WbStatus wb_facts(const WbRoof *plain, const WbMixItem *items, size_t n_items, WbFacts *out)
{
    Facts facts = {.out = &out->literals, .status = WB_OK};
    *out = (WbFacts){0};
    frame(&facts, plain);
    facts.panel = calloc(WB_MIX_PANELS, sizeof *facts.panel);
    if (!facts.panel)
        return WB_NO_MEMORY;
    list_panels(&facts, items, n_items);
    find_positions(&facts);
    int32_t next = 1;
    if (facts.status == WB_OK) {
        name_variables(&facts, &next);
        state_all(&facts, next);
    }
    out->n_variables = next - 1 + 2 * facts.n_panels * (facts.n_panels - 1);
    free_panels(&facts);
    if (facts.status != WB_OK)
        wb_facts_free(out);
    return facts.status;
}

void wb_facts_free(WbFacts *facts)
{
    wb_ints_free(&facts->literals);
    *facts = (WbFacts){0};
}

static bool enters(const Facts *facts, int64_t along_mm, int64_t across_mm)
{
    return along_mm + facts->gap_mm <= facts->room_mm[0] &&
           across_mm + facts->gap_mm <= facts->room_mm[1];
}

static int by_value(const void *a, const void *b)
{
    int64_t x = *(const int64_t *)a, y = *(const int64_t *)b;
    return (x > y) - (x < y);
}

/* How much of the strip from left to right no grown panel may lie on: the blocks less a gap on
 * their left and front. `mm` holds 2 numbers a block. */
static int64_t blocked_across(const Facts *facts, int64_t left_mm, int64_t right_mm, int64_t *mm)
{
    size_t n = 0;
    int64_t reached_mm = 0, blocked_mm = 0;
    for (size_t i = 0; i < facts->roof->n_obstacles; i++) {
        Block block = block_of(facts, i);
        if (block.low_mm[0] + facts->gap_mm > left_mm || block.high_mm[0] < right_mm)
            continue;
        mm[n++] = block.low_mm[1] + facts->gap_mm;
        mm[n++] = block.high_mm[1];
    }
    qsort(mm, n / 2, 2 * sizeof *mm, by_value);
    for (size_t k = 0; k < n; k += 2) {
        int64_t from_mm = mm[k] > reached_mm ? mm[k] : reached_mm;
        int64_t to_mm = mm[k + 1] < facts->room_mm[1] ? mm[k + 1] : facts->room_mm[1];
        if (to_mm > from_mm) {
            blocked_mm += to_mm - from_mm;
            reached_mm = to_mm;
        }
    }
    return blocked_mm;
}

/* -1: out of memory. */
static int64_t room_left_mm2(const Facts *facts)
{
    size_t n_edges = 0, room = 2 * facts->roof->n_obstacles + 2;
    int64_t *edge = malloc(room * sizeof *edge), *mm = malloc(room * sizeof *mm), left_mm2 = -1;
    if (edge && mm) {
        left_mm2 = facts->room_mm[0] * facts->room_mm[1];
        edge[n_edges++] = 0;
        edge[n_edges++] = facts->room_mm[0];
        for (size_t i = 0; i < facts->roof->n_obstacles; i++) {
            Block block = block_of(facts, i);
            edge[n_edges++] = block.low_mm[0] + facts->gap_mm;
            edge[n_edges++] = block.high_mm[0];
        }
        qsort(edge, n_edges, sizeof *edge, by_value);
        for (size_t k = 1; k < n_edges; k++)
            if (edge[k - 1] >= 0 && edge[k] <= facts->room_mm[0] && edge[k] > edge[k - 1])
                left_mm2 -=
                    (edge[k] - edge[k - 1]) * blocked_across(facts, edge[k - 1], edge[k], mm);
    }
    free(edge);
    free(mm);
    return left_mm2;
}

bool wb_facts_too_large(const WbRoof *plain, const WbMixItem *items, size_t n_items)
{
    Facts facts = {0};
    int64_t wanted_mm2 = 0;
    frame(&facts, plain);
    for (size_t i = 0; i < n_items; i++) {
        int64_t a = items[i].length_mm, b = items[i].width_mm;
        if (items[i].count > 0 && !enters(&facts, a, b) &&
            !(items[i].turns && enters(&facts, b, a)))
            return true;
        wanted_mm2 += items[i].count * (a + facts.gap_mm) * (b + facts.gap_mm);
    }
    int64_t left_mm2 = room_left_mm2(&facts);
    return left_mm2 >= 0 && wanted_mm2 > left_mm2;
}
