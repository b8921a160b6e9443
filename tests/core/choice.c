/* Choice out of tables, against going through every choice: random small tables with ties, shared
 * buses and criteria that pull against each other, and small catalogues of the reference model,
 * whose text is followed here once more. The front's filter against the expected number of unbeaten
 * among independent numbers (Bentley, Kung, Schkolnick & Thompson, J. ACM 25 (1978) 536). */
#include "choice.h"
#include "front.h"
#include "random.h"
#include "reference_model.h"
#include "sieve.h"
#include <glib.h>
#include <math.h>
#include <string.h>

enum { TABLES = 2500, MOST_ROWS = 7, MOST_CHOICES = 4096, LONGEST_LIST = 50 };
enum { CATALOGUES = 60, MOST_FOUND = 400000 };

static const WbChoiceEffort no_limit = {0};

/* ---- random tables ---- */

typedef struct {
    WbChoiceTable table;
    uint32_t bus[WB_CHOICE_SLOTS][MOST_ROWS];
    int64_t term[WB_CHOICE_SLOTS][WB_CHOICE_RULES][MOST_ROWS];
    int64_t criterion[WB_CHOICE_SLOTS][WB_CHOICE_CRITERIA][MOST_ROWS];
} Drawn;

static int64_t between(WbRandom *random, int64_t low, int64_t high)
{
    return low + (int64_t)wb_random_below(random, (uint64_t)(high - low + 1));
}

static void draw_slot(WbRandom *random, Drawn *drawn, int s, int64_t most_rows, int64_t reach)
{
    WbChoiceSlot *slot = &drawn->table.slot[s];
    *slot = (WbChoiceSlot){.n = (size_t)between(random, between(random, 0, 30) ? 1 : 0, most_rows)};
    int64_t buses = between(random, 1, 5);
    for (size_t i = 0; i < slot->n; i++)
        drawn->bus[s][i] = between(random, 0, 3) ? (uint32_t)(1 << buses) - 1
                                                 : (uint32_t)between(random, 0, (1 << buses) - 1);
    slot->bus = between(random, 0, 2) ? drawn->bus[s] : NULL;
    for (int r = 0; r < drawn->table.n_rules; r++) {
        for (size_t i = 0; i < slot->n; i++)
            drawn->term[s][r][i] = between(random, -reach, reach);
        slot->term[r] = between(random, 0, 3) ? drawn->term[s][r] : NULL;
    }
    for (int c = 0; c < drawn->table.n_criteria; c++) {
        for (size_t i = 0; i < slot->n; i++)
            drawn->criterion[s][c][i] = between(random, -reach, reach);
        slot->criterion[c] = between(random, 0, 5) ? drawn->criterion[s][c] : NULL;
    }
}

static void draw(WbRandom *random, Drawn *drawn, int most_criteria)
{
    drawn->table = (WbChoiceTable){.n_slots = (int)between(random, 1, 5),
                                   .n_rules = (int)between(random, 0, 5),
                                   .n_criteria = (int)between(random, 1, most_criteria)};
    int64_t reach = between(random, 0, 3) ? between(random, 1, 6) : 1000;
    int64_t most_rows = drawn->table.n_slots > 4 ? 5 : MOST_ROWS;
    for (int s = 0; s < drawn->table.n_slots; s++)
        draw_slot(random, drawn, s, most_rows, reach);
    for (int r = 0; r < drawn->table.n_rules; r++)
        drawn->table.limit[r] = between(random, -reach / 2, 3 * reach);
}

/* ---- every choice ---- */

typedef struct {
    WbChoice choice;
    int64_t criterion[WB_CHOICE_CRITERIA], score;
} Found;

typedef struct {
    Found *found;
    size_t n;
} Every;

static int64_t at(const int64_t *column, uint32_t row)
{
    return column ? column[row] : 0;
}

static bool keeps_all(const WbChoiceTable *table, const WbChoice *choice)
{
    uint32_t bus = UINT32_MAX;
    for (int s = 0; s < table->n_slots; s++)
        bus &= table->slot[s].bus ? table->slot[s].bus[choice->row[s]] : UINT32_MAX;
    for (int r = 0; r < table->n_rules; r++) {
        int64_t sum = 0;
        for (int s = 0; s < table->n_slots; s++)
            sum += at(table->slot[s].term[r], choice->row[s]);
        if (sum > table->limit[r])
            return false;
    }
    return bus != 0;
}

static bool next_choice(const WbChoiceTable *table, WbChoice *choice)
{
    for (int s = table->n_slots - 1; s >= 0; s--) {
        if (++choice->row[s] < table->slot[s].n)
            return true;
        choice->row[s] = 0;
    }
    return false;
}

static void find_every(const WbChoiceTable *table, Every *every)
{
    WbChoice choice = {{0}};
    every->n = 0;
    for (int s = 0; s < table->n_slots; s++)
        if (table->slot[s].n == 0)
            return;
    do {
        if (!keeps_all(table, &choice))
            continue;
        Found *found = &every->found[every->n++];
        *found = (Found){.choice = choice};
        for (int c = 0; c < table->n_criteria; c++)
            for (int s = 0; s < table->n_slots; s++)
                found->criterion[c] += at(table->slot[s].criterion[c], choice.row[s]);
    } while (next_choice(table, &choice));
}

static int compare_rows(const WbChoice *a, const WbChoice *b)
{
    for (int s = 0; s < WB_CHOICE_SLOTS; s++)
        if (a->row[s] != b->row[s])
            return a->row[s] < b->row[s] ? -1 : 1;
    return 0;
}

static int by_score(const void *left, const void *right)
{
    const Found *a = left, *b = right;
    if (a->score != b->score)
        return a->score < b->score ? -1 : 1;
    return compare_rows(&a->choice, &b->choice);
}

/* ---- the best ---- */

/* Something that is no sum: what is left after dividing by 7, of the rows together. */
static int64_t rest_of(const WbChoice *choice, int64_t sum, const void *data)
{
    const int64_t *most = data;
    int64_t mixed = 0;
    for (int s = 0; s < WB_CHOICE_SLOTS; s++)
        mixed = (mixed * 31 + choice->row[s] * 17 + 5) % 1009;
    return sum + mixed % *most;
}

static void check_best(const WbChoiceTable *table, Every *every, const WbChoiceAim *aim)
{
    for (size_t i = 0; i < every->n; i++) {
        Found *found = &every->found[i];
        found->score = 0;
        for (int c = 0; c < table->n_criteria; c++)
            found->score += aim->weight[c] * found->criterion[c];
        if (aim->exact)
            found->score = aim->exact(&found->choice, found->score, aim->data);
    }
    qsort(every->found, every->n, sizeof *every->found, by_score);
    for (size_t most = 0; most <= LONGEST_LIST; most++) {
        WbChoiceList list;
        g_assert_cmpint(wb_choice_best(table, aim, most, &no_limit, &list), ==, WB_OK);
        g_assert_cmpuint(list.n, ==, MIN(most, every->n));
        for (size_t i = 0; i < list.n; i++) {
            g_assert_cmpint(list.best[i].score, ==, every->found[i].score);
            g_assert_cmpint(compare_rows(&list.best[i].choice, &every->found[i].choice), ==, 0);
        }
        wb_choice_list_free(&list);
    }
}

static void test_best(void)
{
    WbRandom random;
    wb_random_seed(&random, 20260601);
    g_autofree Drawn *drawn = g_new0(Drawn, 1);
    Every every = {g_new(Found, MOST_CHOICES * MOST_ROWS), 0};
    size_t some = 0, many = 0;
    for (int i = 0; i < TABLES; i++) {
        WbChoiceAim aim = {.weight = {0}};
        int64_t most = between(&random, 1, 6);
        draw(&random, drawn, 4);
        for (int c = 0; c < drawn->table.n_criteria; c++)
            aim.weight[c] = between(&random, 0, 3);
        if (i % 3 == 0)
            aim.exact = rest_of;
        aim.data = &most;
        find_every(&drawn->table, &every);
        some += every.n > 0;
        many += every.n > LONGEST_LIST;
        check_best(&drawn->table, &every, &aim);
    }
    g_test_message("%zu of %d tables have choices, %zu more than %d", some, TABLES, many,
                   LONGEST_LIST);
    g_assert_cmpuint(some, >, TABLES / 3);
    g_assert_cmpuint(many, >, TABLES / 10);
    g_free(every.found);
}

/* ---- how many ---- */

static void test_count(void)
{
    WbRandom random;
    wb_random_seed(&random, 20260602);
    g_autofree Drawn *drawn = g_new0(Drawn, 1);
    Every every = {g_new(Found, MOST_CHOICES * MOST_ROWS), 0};
    for (int i = 0; i < 2 * TABLES; i++) {
        uint64_t count = 0;
        draw(&random, drawn, 1);
        find_every(&drawn->table, &every);
        g_assert_cmpint(wb_choice_count(&drawn->table, &no_limit, &count), ==, WB_OK);
        g_assert_cmpuint(count, ==, every.n);
    }
    g_free(every.found);
}

/* Halves too long to be listed at once: two slots whose rows two rules couple, beside two short
 * ones that one rule couples with them. */
static void test_count_in_pieces(void)
{
    enum { LONG = 1700, SHORT = 3 };
    WbRandom random;
    wb_random_seed(&random, 20260607);
    g_autofree int64_t *term = g_new(int64_t, 6 * LONG);
    WbChoiceTable table = {.n_slots = 4, .n_rules = 4, .limit = {1000, 1300, 900, 1800}};
    uint64_t count = 0, expected = 0;
    for (int i = 0; i < 6 * LONG; i++)
        term[i] = between(&random, 0, 999);
    const int64_t *t[6];
    for (int i = 0; i < 6; i++)
        t[i] = term + i * LONG;
    table.slot[0] = (WbChoiceSlot){.n = LONG, .term = {t[0], t[1], NULL, t[0]}};
    table.slot[1] = (WbChoiceSlot){.n = LONG, .term = {t[2], t[3], NULL, t[1]}};
    table.slot[2] = (WbChoiceSlot){.n = SHORT, .term = {NULL, NULL, t[4], t[4]}};
    table.slot[3] = (WbChoiceSlot){.n = SHORT, .term = {NULL, NULL, t[5], t[5]}};
    for (int a = 0; a < LONG; a++)
        for (int b = 0; b < LONG; b++)
            for (int cd = 0; cd < SHORT * SHORT; cd++) {
                int64_t c = t[4][cd / SHORT], d = t[5][cd % SHORT];
                expected += t[0][a] + t[2][b] <= 1000 && t[1][a] + t[3][b] <= 1300 &&
                            c + d <= 900 && t[0][a] + t[1][b] + c + d <= 1800;
            }
    g_assert_cmpint(wb_choice_count(&table, &no_limit, &count), ==, WB_OK);
    g_assert_cmpuint(count, ==, expected);
    g_assert_cmpuint(count, >, 100000);
}

/* ---- the front ---- */

static bool beats(const Found *a, const Found *b, uint32_t criteria)
{
    bool better = false;
    for (int c = 0; c < WB_CHOICE_CRITERIA; c++) {
        if (!(criteria >> c & 1))
            continue;
        if (a->criterion[c] > b->criterion[c])
            return false;
        better |= a->criterion[c] < b->criterion[c];
    }
    return better;
}

static uint32_t sorted_by;

static int by_vector(const void *left, const void *right)
{
    const Found *a = left, *b = right;
    for (int c = 0; c < WB_CHOICE_CRITERIA; c++)
        if ((sorted_by >> c & 1) && a->criterion[c] != b->criterion[c])
            return a->criterion[c] < b->criterion[c] ? -1 : 1;
    return compare_rows(&a->choice, &b->choice);
}

static size_t brute_front(const Every *every, uint32_t criteria, Found *front)
{
    size_t n = 0;
    for (size_t i = 0; i < every->n; i++) {
        bool beaten = false;
        for (size_t j = 0; j < every->n && !beaten; j++)
            beaten = beats(&every->found[j], &every->found[i], criteria);
        if (!beaten)
            front[n++] = every->found[i];
    }
    sorted_by = criteria;
    if (n > 0)
        qsort(front, n, sizeof *front, by_vector);
    return n;
}

static void check_front(const WbChoiceTable *table, const Every *every, uint32_t criteria,
                        Found *expected)
{
    WbChoiceFront front;
    size_t n = brute_front(every, criteria, expected), vectors = 0;
    g_assert_cmpint(wb_choice_front(table, criteria, &no_limit, &front), ==, WB_OK);
    g_assert_cmpuint(front.n, ==, n);
    g_assert_cmpint(front.n_criteria, ==, __builtin_popcount(criteria));
    for (size_t i = 0; i < n; i++) {
        int k = 0;
        g_assert_cmpint(compare_rows(&front.choice[i], &expected[i].choice), ==, 0);
        bool differs = i == 0;
        for (int c = 0; c < WB_CHOICE_CRITERIA; c++) {
            if (!(criteria >> c & 1))
                continue;
            double worse = front.worse[i * (size_t)front.n_criteria + (size_t)k++];
            g_assert_cmpfloat(worse, ==, (double)expected[i].criterion[c]);
            differs |= i > 0 && expected[i - 1].criterion[c] != expected[i].criterion[c];
        }
        vectors += differs;
    }
    g_assert_cmpuint(front.n_vectors, ==, vectors);
    wb_choice_front_free(&front);
}

static void test_front(void)
{
    WbRandom random;
    wb_random_seed(&random, 20260603);
    g_autofree Drawn *drawn = g_new0(Drawn, 1);
    Every every = {g_new(Found, MOST_CHOICES * MOST_ROWS), 0};
    g_autofree Found *expected = g_new(Found, MOST_CHOICES * MOST_ROWS);
    int checked = 0;
    for (int i = 0; checked < TABLES; i++) {
        draw(&random, drawn, i % 20 == 0 ? 8 : 3);
        find_every(&drawn->table, &every);
        if (every.n > 400) /* the comparison of all with all would take long */
            continue;
        for (uint32_t criteria = 1; criteria < UINT32_C(1) << drawn->table.n_criteria; criteria++)
            check_front(&drawn->table, &every, criteria, expected);
        checked++;
    }
    g_free(every.found);
}

/* ---- rows in another order ---- */

static void shuffle_slot(WbRandom *random, const Drawn *from, Drawn *to, int s)
{
    size_t n = from->table.slot[s].n;
    for (size_t i = n; i > 1; i--) {
        size_t j = wb_random_below(random, i), k = i - 1;
        uint32_t bus = to->bus[s][j];
        to->bus[s][j] = to->bus[s][k];
        to->bus[s][k] = bus;
        for (int r = 0; r < from->table.n_rules; r++) {
            int64_t term = to->term[s][r][j];
            to->term[s][r][j] = to->term[s][r][k];
            to->term[s][r][k] = term;
        }
        for (int c = 0; c < from->table.n_criteria; c++) {
            int64_t criterion = to->criterion[s][c][j];
            to->criterion[s][c][j] = to->criterion[s][c][k];
            to->criterion[s][c][k] = criterion;
        }
    }
}

static void point_into(const Drawn *from, Drawn *to, int s)
{
    const WbChoiceSlot *model = &from->table.slot[s];
    WbChoiceSlot *slot = &to->table.slot[s];
    slot->bus = model->bus ? to->bus[s] : NULL;
    for (int r = 0; r < from->table.n_rules; r++)
        slot->term[r] = model->term[r] ? to->term[s][r] : NULL;
    for (int c = 0; c < from->table.n_criteria; c++)
        slot->criterion[c] = model->criterion[c] ? to->criterion[s][c] : NULL;
}

/* The same scores, numbers and vectors, if not the same rows. */
static void test_shuffled(void)
{
    WbRandom random;
    wb_random_seed(&random, 20260604);
    g_autofree Drawn *drawn = g_new0(Drawn, 1), *other = g_new0(Drawn, 1);
    for (int i = 0; i < TABLES; i++) {
        draw(&random, drawn, 4);
        *other = *drawn;
        for (int s = 0; s < drawn->table.n_slots; s++) {
            point_into(drawn, other, s);
            shuffle_slot(&random, drawn, other, s);
        }
        WbChoiceAim aim = {.weight = {2, 1, 3, 1}};
        WbChoiceList one, two;
        WbChoiceFront front, front_two;
        uint64_t count = 0, count_two = 1;
        g_assert_cmpint(wb_choice_best(&drawn->table, &aim, 20, &no_limit, &one), ==, WB_OK);
        g_assert_cmpint(wb_choice_best(&other->table, &aim, 20, &no_limit, &two), ==, WB_OK);
        g_assert_cmpuint(one.n, ==, two.n);
        for (size_t k = 0; k < one.n; k++)
            g_assert_cmpint(one.best[k].score, ==, two.best[k].score);
        g_assert_cmpint(wb_choice_count(&drawn->table, &no_limit, &count), ==, WB_OK);
        g_assert_cmpint(wb_choice_count(&other->table, &no_limit, &count_two), ==, WB_OK);
        g_assert_cmpuint(count, ==, count_two);
        g_assert_cmpint(wb_choice_front(&drawn->table, 15, &no_limit, &front), ==, WB_OK);
        g_assert_cmpint(wb_choice_front(&other->table, 15, &no_limit, &front_two), ==, WB_OK);
        g_assert_cmpmem(front.worse, front.n * (size_t)front.n_criteria * sizeof(double),
                        front_two.worse,
                        front_two.n * (size_t)front_two.n_criteria * sizeof(double));
        wb_choice_list_free(&one);
        wb_choice_list_free(&two);
        wb_choice_front_free(&front);
        wb_choice_front_free(&front_two);
    }
}

/* ---- the reference model, from its text ---- */

typedef struct {
    Every every;
    int64_t least_cost;
} Model;

static bool array_ok(const RefCatalogue *c, const RefPanel *panel, int64_t ns, int64_t np,
                     const RefController *controller, int64_t bus_dv)
{
    int64_t n = ns * np;
    return ns * panel->voc_dv <= controller->most_dv &&
           np * panel->isc_da <= controller->input_da && 100 * ns * panel->vmp_dv >= 125 * bus_dv &&
           100 * n * panel->w <= controller->output_da * bus_dv * 130 / 100 &&
           n * panel->w * 35 * 75 / 1000 >= c->need_wh && n * panel->area_cm2 <= c->most_area_cm2;
}

static bool bank_ok(const RefCatalogue *c, const RefBattery *battery, int64_t s, int64_t p,
                    const RefInverter *inverter, int64_t bus_dv)
{
    return bus_dv <= s * battery->dv && 100 * s * battery->dv <= 107 * bus_dv &&
           s * p * battery->dv * battery->ah / 10 * battery->depth_pct / 100 * 10 >=
               15 * c->need_wh &&
           inverter->w >= c->peak_w &&
           10 * (p * battery->discharge_da * bus_dv / 100) >= 11 * inverter->w;
}

typedef struct {
    const RefPanel *panel;
    const RefController *controller;
    const RefBattery *battery;
    const RefInverter *inverter;
    int64_t panels, batteries, parallel;
} System;

static void add_system(const RefCatalogue *c, const System *system, Model *model)
{
    const RefPanel *panel = system->panel;
    const RefBattery *battery = system->battery;
    int64_t weight_g = system->panels * panel->weight_g + system->controller->weight_g +
                       system->batteries * battery->weight_g + system->inverter->weight_g;
    if (system->controller->output_da > system->parallel * battery->charge_da ||
        weight_g > c->most_weight_g)
        return;
    int64_t cost = system->panels * panel->cost + system->controller->cost +
                   system->batteries * battery->cost + system->inverter->cost;
    g_assert_cmpuint(model->every.n, <, MOST_FOUND);
    model->every.found[model->every.n++] = (Found){
        .criterion = {cost, weight_g, system->panels * panel->area_cm2, -system->panels * panel->w,
                      -(system->batteries * battery->dv * battery->ah / 10), -system->inverter->w}};
}

/* All banks and inverters with one array on one controller. */
static void add_banks(const RefCatalogue *c, System *system, int b, Model *model)
{
    for (size_t i = 0; i < c->n_batteries; i++)
        for (size_t k = 0; k < c->n_inverters; k++)
            for (int64_t s = 1; s <= REF_MOST_BANK; s++)
                for (int64_t p = 1; p <= REF_MOST_BANK; p++) {
                    system->battery = &c->battery[i];
                    system->inverter = &c->inverter[k];
                    system->batteries = s * p;
                    system->parallel = p;
                    if (system->inverter->bus == b &&
                        bank_ok(c, system->battery, s, p, system->inverter, REF_BUS_DV[b]))
                        add_system(c, system, model);
                }
}

static void add_arrays(const RefCatalogue *c, const RefPanel *panel,
                       const RefController *controller, Model *model)
{
    for (int64_t ns = 1; ns <= REF_MOST_STRING; ns++)
        for (int64_t np = 1; np <= REF_MOST_STRING; np++)
            for (int b = 0; b < REF_BUSES; b++) {
                System system = {.panel = panel, .controller = controller, .panels = ns * np};
                if ((controller->buses >> b & 1) &&
                    array_ok(c, panel, ns, np, controller, REF_BUS_DV[b]))
                    add_banks(c, &system, b, model);
            }
}

static void check_catalogue(const RefCatalogue *catalogue, Model *model, Found *expected)
{
    RefTable table;
    uint64_t count = 0;
    WbChoiceList list;
    WbChoiceAim aim = {.weight = {1}};
    model->every.n = 0;
    for (size_t i = 0; i < catalogue->n_panels; i++)
        for (size_t k = 0; k < catalogue->n_controllers; k++)
            add_arrays(catalogue, &catalogue->panel[i], &catalogue->controller[k], model);
    ref_table(catalogue, &table);
    g_assert_cmpint(wb_choice_count(&table.table, &no_limit, &count), ==, WB_OK);
    g_assert_cmpuint(count, ==, model->every.n);
    for (size_t i = 0; i < model->every.n; i++)
        model->every.found[i].score = model->every.found[i].criterion[REF_COST];
    qsort(model->every.found, model->every.n, sizeof(Found), by_score);
    g_assert_cmpint(wb_choice_best(&table.table, &aim, 200, &no_limit, &list), ==, WB_OK);
    g_assert_cmpuint(list.n, ==, MIN(200, model->every.n));
    for (size_t i = 0; i < list.n; i++)
        g_assert_cmpint(list.best[i].score, ==, model->every.found[i].score);
    WbChoiceFront front;
    g_assert_cmpint(wb_choice_front(&table.table, 63, &no_limit, &front), ==, WB_OK);
    if (model->every.n < 3000) {
        size_t n = brute_front(&model->every, 63, expected);
        g_assert_cmpuint(front.n, ==, n);
        for (size_t i = 0; i < n * 6; i++)
            g_assert_cmpfloat(front.worse[i], ==, (double)expected[i / 6].criterion[i % 6]);
    }
    wb_choice_list_free(&list);
    wb_choice_front_free(&front);
    ref_table_free(&table);
}

static void test_reference_model(void)
{
    Model model = {.every = {g_new(Found, MOST_FOUND), 0}};
    g_autofree Found *expected = g_new(Found, MOST_FOUND);
    size_t some = 0, fronts = 0;
    for (uint64_t seed = 1; seed <= CATALOGUES; seed++) {
        RefCatalogue catalogue;
        ref_make(&catalogue, seed, 6, 5, 7, 5);
        catalogue.need_wh = seed % 2 ? 1200 : 700;
        catalogue.peak_w = 600;
        check_catalogue(&catalogue, &model, expected);
        some += model.every.n > 0;
        fronts += model.every.n > 0 && model.every.n < 3000;
        ref_free(&catalogue);
    }
    g_test_message("%zu of %d catalogues have systems, %zu fronts compared", some, CATALOGUES,
                   fronts);
    g_assert_cmpuint(some, >, CATALOGUES / 2);
    g_assert_cmpuint(fronts, >, CATALOGUES / 4);
    g_free(model.every.found);
}

/* ---- how many are unbeaten among independent numbers ---- */

/* A table of one slot whose rows are the points. */
static size_t unbeaten(int64_t *const *column, size_t n, int d)
{
    WbChoiceTable table = {.n_slots = 1, .n_criteria = d, .slot = {{.n = n}}};
    WbChoiceFront front;
    for (int c = 0; c < d; c++)
        table.slot[0].criterion[c] = column[c];
    g_assert_cmpint(wb_choice_front(&table, (UINT32_C(1) << d) - 1, &no_limit, &front), ==, WB_OK);
    size_t found = front.n;
    wb_choice_front_free(&front);
    return found;
}

static bool next_order(int64_t *x, size_t n)
{
    size_t i = n - 1, j = n - 1;
    while (i > 0 && x[i - 1] > x[i])
        i--;
    for (size_t a = i, b = n - 1; a < b; a++, b--) {
        int64_t held = x[a];
        x[a] = x[b];
        x[b] = held;
    }
    if (i == 0)
        return false; /* the first order again */
    for (j = i; x[j] < x[i - 1]; j++) {
    }
    int64_t held = x[j];
    x[j] = x[i - 1];
    x[i - 1] = held;
    return true;
}

/* Over all orders of all columns but the first, which only names the points. */
static void check_exact(size_t n, int d, uint64_t over, uint64_t under)
{
    int64_t x[WB_CHOICE_CRITERIA][8], *column[WB_CHOICE_CRITERIA];
    uint64_t sum = 0, orders = 0;
    for (int c = 0; c < d; c++) {
        column[c] = x[c];
        for (size_t i = 0; i < n; i++)
            x[c][i] = (int64_t)i;
    }
    for (int c = 1; c < d;) {
        if (c == 1) {
            sum += unbeaten(column, n, d);
            orders++;
        }
        c = next_order(x[c], n) ? 1 : c + 1;
    }
    g_assert_cmpuint(sum * under, ==, over * orders);
}

/* E(n,1) = 1, E(n,d) = E(n-1,d) + E(n,d-1)/n. */
static double expected_unbeaten(size_t n, int d)
{
    double e[WB_CHOICE_CRITERIA + 1] = {0};
    for (size_t i = 1; i <= n; i++) {
        e[1] = 1;
        for (int k = 2; k <= d; k++)
            e[k] += e[k - 1] / (double)i;
    }
    return e[d];
}

static void test_exact_sizes(void)
{
    check_exact(2, 2, 3, 2);
    check_exact(3, 3, 85, 36);
    check_exact(4, 4, 5845, 1728);
    check_exact(5, 3, 12019, 3600);
    static const struct {
        size_t n;
        int d;
        double mean;
    } row[] = {{1000, 2, 7.485},   {1000, 4, 76.458},  {1000, 6, 269.622},
               {1000, 8, 537.027}, {10000, 3, 48.721}, {100000, 5, 955.820}};
    for (size_t i = 0; i < G_N_ELEMENTS(row); i++)
        g_assert_cmpfloat_with_epsilon(expected_unbeaten(row[i].n, row[i].d), row[i].mean, 0.006);
}

static void check_drawn(WbRandom *random, size_t n, int d, int draws)
{
    int64_t *column[WB_CHOICE_CRITERIA];
    double sum = 0, squares = 0;
    for (int c = 0; c < d; c++)
        column[c] = g_new(int64_t, n);
    for (int k = 0; k < draws; k++) {
        for (int c = 0; c < d; c++)
            for (size_t i = 0; i < n; i++)
                column[c][i] = between(random, 0, WB_CHOICE_MOST - 1);
        double found = (double)unbeaten(column, n, d);
        sum += found;
        squares += found * found;
    }
    for (int c = 0; c < d; c++)
        g_free(column[c]);
    double mean = sum / draws, variance = squares / draws - mean * mean;
    double error = sqrt(variance / draws), expected = expected_unbeaten(n, d);
    g_test_message("n %zu, d %d: %.2f +- %.2f, expected %.3f", n, d, mean, error, expected);
    g_assert_cmpfloat(fabs(mean - expected), <, 4 * error);
    g_assert_cmpfloat(error, <, expected / 25);
}

static void test_drawn_sizes(void)
{
    WbRandom random;
    wb_random_seed(&random, 20260605);
    check_drawn(&random, 1000, 2, 300);
    check_drawn(&random, 1000, 4, 300);
    check_drawn(&random, 1000, 6, 100);
    check_drawn(&random, 1000, 8, 40);
    check_drawn(&random, 20000, 4, 40);
}

/* ---- more than a buffer holds ---- */

/* First a chain of points none of which beats another, then for each even one a point that beats
 * just that: what was kept from earlier buffers has to go again. */
enum { CHAIN = 110000 };

static void chain_point(int64_t i, int64_t *x, int64_t *y)
{
    int64_t at = i < CHAIN ? i : 2 * (i - CHAIN), better = i < CHAIN ? 0 : 1;
    *x = 2 * at - better;
    *y = 2 * (CHAIN - at) - better;
}

/* In this order. */
static void check_many(const int64_t *order, size_t n)
{
    g_autofree int64_t *x = g_new(int64_t, n), *y = g_new(int64_t, n);
    WbChoiceTable table = {.n_slots = 1, .n_criteria = 2};
    WbChoiceFront front;
    WbFront kits;
    table.slot[0] = (WbChoiceSlot){.n = n, .criterion = {x, y}};
    wb_front_init(&kits, 3, NULL);
    for (size_t i = 0; i < n; i++) {
        WbFrontKit kit = {.kit = {.panel = (int)i}};
        chain_point(order[i], &x[i], &y[i]);
        kit.worse[0] = (double)x[i];
        kit.worse[1] = (double)y[i];
        g_assert_cmpint(wb_front_put(&kits, &kit), ==, WB_OK);
    }
    g_assert_cmpint(wb_choice_front(&table, 3, &no_limit, &front), ==, WB_OK);
    g_assert_cmpint(wb_front_finish(&kits), ==, WB_OK);
    g_assert_cmpuint(front.n, ==, CHAIN);
    g_assert_cmpuint(front.n_vectors, ==, CHAIN);
    g_assert_cmpuint(kits.n_front, ==, CHAIN);
    for (size_t i = 0; i < front.n; i++) {
        uint32_t row = front.choice[i].row[0];
        g_assert_true(order[row] >= CHAIN || order[row] % 2 == 1);
        g_assert_cmpint(kits.kits[i].kit.panel, ==, (int)row);
    }
    wb_choice_front_free(&front);
    wb_front_free(&kits);
}

/* As they are, the other way round, and mixed: there are three ends of a buffer in each, where a
 * point may be beaten by one that came just before. */
static void test_many(void)
{
    enum { ALL = CHAIN + CHAIN / 2, MIXES = 3 };
    g_autofree int64_t *order = g_new(int64_t, ALL);
    WbRandom random;
    wb_random_seed(&random, 20260608);
    for (int i = 0; i < ALL; i++)
        order[i] = i;
    check_many(order, ALL);
    for (int i = 0; i < ALL; i++)
        order[i] = ALL - 1 - i;
    check_many(order, ALL);
    for (int mix = 0; mix < MIXES; mix++) {
        for (size_t i = ALL; i > 1; i--) {
            size_t j = wb_random_below(&random, i);
            int64_t held = order[j];
            order[j] = order[i - 1];
            order[i - 1] = held;
        }
        check_many(order, ALL);
    }
}

/* ---- the sieve ---- */

static bool beats_plainly(const double *a, const double *b, int n, int n_deciding)
{
    bool better = false;
    for (int i = 0; i < n; i++) {
        if (a[i] > b[i])
            return false;
        better |= i < n_deciding && a[i] < b[i];
    }
    return better;
}

static double draw_number(WbRandom *random, int kind)
{
    double x = (double)between(random, 0, kind ? 5 : 1000);
    if (kind == 2 && between(random, 0, 20) == 0)
        return between(random, 0, 1) ? NAN : INFINITY;
    /* Equal once rounded to float, different before. */
    return kind == 1 ? x + (double)between(random, 0, 3) * 1e-12 : x;
}

static void check_sieve(WbRandom *random, WbVector vector, int n, int n_deciding, int kind)
{
    enum { MEMBERS = 3000, ASKED = 300, WIDTH = 9 };
    static double member[MEMBERS][WIDTH];
    WbSieve sieve;
    size_t n_members = wb_random_below(random, MEMBERS), beaten = 0;
    wb_sieve_init(&sieve, n, n_deciding);
    sieve.vector = vector;
    for (size_t i = 0; i < n_members; i++) {
        double numbers[WIDTH];
        for (int k = 0; k < n; k++)
            numbers[k] = member[i][k] = draw_number(random, kind);
        g_assert_true(wb_sieve_add(&sieve, numbers));
    }
    for (int i = 0; i < ASKED; i++) {
        double asked[WIDTH];
        bool expected = false;
        for (int k = 0; k < n; k++)
            asked[k] = draw_number(random, kind) / (1 + i % 3);
        for (size_t m = 0; m < n_members && !expected; m++)
            expected = beats_plainly(member[m], asked, n, n_deciding);
        g_assert_true(wb_sieve_beats(&sieve, asked) == expected);
        beaten += expected;
    }
    g_assert_true(n_members < 500 || n > 4 || beaten > 0);
    wb_sieve_free(&sieve);
}

static void test_sieve(void)
{
    WbRandom random;
    wb_random_seed(&random, 20260606);
    for (int v = WB_VECTOR_PLAIN; v < WB_N_VECTORS; v++)
        for (int i = 0; i < 60 && wb_vector_runs((WbVector)v); i++) {
            int n = (int)between(&random, 1, 9);
            check_sieve(&random, (WbVector)v, n, (int)between(&random, 1, n), i % 3);
        }
}

/* ---- what is refused, and when it ends ---- */

static void test_bad_input(void)
{
    int64_t ok[2] = {1, 2}, large[2] = {WB_CHOICE_MOST, 0}, small[2] = {0, -WB_CHOICE_MOST - 1};
    WbChoiceTable good = {.n_slots = 1, .n_rules = 1, .n_criteria = 1};
    good.slot[0] = (WbChoiceSlot){.n = 2, .term = {ok}, .criterion = {ok}};
    good.limit[0] = 5;
    WbChoiceAim aim = {.weight = {1}};
    WbChoiceList list;
    WbChoiceFront front;
    uint64_t count = 77;
    WbChoiceTable bad[] = {good, good, good, good, good, good};
    bad[0].n_slots = 0;
    bad[1].n_slots = WB_CHOICE_SLOTS + 1;
    bad[2].n_rules = WB_CHOICE_RULES + 1;
    bad[3].slot[0].term[0] = large;
    bad[4].slot[0].criterion[0] = small;
    bad[5].limit[0] = WB_CHOICE_MOST;
    for (size_t i = 0; i < G_N_ELEMENTS(bad); i++) {
        g_assert_cmpint(wb_choice_best(&bad[i], &aim, 1, &no_limit, &list), ==, WB_BAD_INPUT);
        g_assert_cmpint(wb_choice_count(&bad[i], &no_limit, &count), ==, WB_BAD_INPUT);
        g_assert_cmpint(wb_choice_front(&bad[i], 1, &no_limit, &front), ==, WB_BAD_INPUT);
    }
    g_assert_cmpuint(count, ==, 77);
    g_assert_cmpint(wb_choice_front(&good, 0, &no_limit, &front), ==, WB_BAD_INPUT);
    g_assert_cmpint(wb_choice_front(&good, 2, &no_limit, &front), ==, WB_BAD_INPUT);
    g_assert_cmpint(wb_choice_best(&good, &aim, WB_CHOICE_BEST + 1, &no_limit, &list), ==,
                    WB_BAD_INPUT);
    aim.weight[0] = -1;
    g_assert_cmpint(wb_choice_best(&good, &aim, 1, &no_limit, &list), ==, WB_BAD_INPUT);
    aim.weight[0] = INT64_MAX / 2;
    g_assert_cmpint(wb_choice_best(&good, &aim, 1, &no_limit, &list), ==, WB_BAD_INPUT);
    aim.weight[0] = 1;
    g_assert_cmpint(wb_choice_best(&good, &aim, WB_CHOICE_BEST, &no_limit, &list), ==, WB_OK);
    g_assert_cmpuint(list.n, ==, 2);
    wb_choice_list_free(&list);
}

/* Eight slots of 300 rows without a rule: more than 2^64 choices, a front of one, at once. */
static void test_without_rules(void)
{
    enum { ROWS = 300 };
    g_autofree int64_t *x = g_new(int64_t, ROWS);
    WbChoiceTable table = {.n_slots = WB_CHOICE_SLOTS, .n_criteria = 1};
    WbChoiceAim aim = {.weight = {0}};
    WbChoiceList list;
    WbChoiceFront front;
    uint64_t count = 0;
    for (int i = 0; i < ROWS; i++)
        x[i] = i;
    for (int s = 0; s < WB_CHOICE_SLOTS; s++)
        table.slot[s] = (WbChoiceSlot){.n = ROWS, .criterion = {x}};
    g_assert_cmpint(wb_choice_count(&table, &no_limit, &count), ==, WB_BAD_INPUT);
    table.n_slots = 7;
    g_assert_cmpint(wb_choice_count(&table, &no_limit, &count), ==, WB_OK);
    g_assert_cmpuint(count, ==, G_GUINT64_CONSTANT(218700000000000000));
    g_assert_cmpint(wb_choice_front(&table, 1, &no_limit, &front), ==, WB_OK);
    g_assert_cmpuint(front.n, ==, 1);
    wb_choice_front_free(&front);
    /* All weights 0: the first by rows. */
    g_assert_cmpint(wb_choice_best(&table, &aim, 1000, &no_limit, &list), ==, WB_OK);
    for (uint32_t i = 0; i < 1000; i++) {
        g_assert_cmpuint(list.best[i].choice.row[6], ==, i % ROWS);
        g_assert_cmpuint(list.best[i].choice.row[5], ==, i / ROWS);
        g_assert_cmpuint(list.best[i].choice.row[0], ==, 0);
    }
    wb_choice_list_free(&list);
}

static void test_ends(void)
{
    RefCatalogue catalogue;
    RefTable table;
    WbControl control;
    WbChoiceList list;
    WbChoiceFront front;
    WbChoiceAim aim = {.weight = {1}};
    uint64_t count = 77;
    ref_make(&catalogue, 1, 50, 30, 40, 30);
    ref_table(&catalogue, &table);
    WbChoiceEffort few = {.nodes = 3};
    g_assert_cmpint(wb_choice_best(&table.table, &aim, 9, &few, &list), ==, WB_BUDGET);
    g_assert_cmpint(wb_choice_count(&table.table, &few, &count), ==, WB_BUDGET);
    g_assert_cmpint(wb_choice_front(&table.table, 63, &few, &front), ==, WB_BUDGET);
    g_assert_cmpuint(count, ==, 77);
    WbChoiceEffort small = {.members = 1000};
    g_assert_cmpint(wb_choice_count(&table.table, &small, &count), ==, WB_BUDGET);
    g_assert_cmpint(wb_choice_front(&table.table, 63, &small, &front), ==, WB_BUDGET);
    g_assert_cmpint(wb_choice_front(&table.table, 3, &small, &front), ==, WB_OK);
    g_assert_cmpuint(front.n, <, 1000);
    wb_choice_front_free(&front);
    wb_control_init(&control);
    WbChoiceEffort watched = {.control = &control};
    g_assert_cmpint(wb_choice_count(&table.table, &watched, &count), ==, WB_OK);
    wb_control_stop(&control);
    g_assert_cmpint(wb_choice_count(&table.table, &watched, &count), ==, WB_STOPPED);
    g_assert_cmpint(wb_choice_front(&table.table, 63, &watched, &front), ==, WB_STOPPED);
    g_assert_cmpint(wb_choice_best(&table.table, &aim, 100000, &watched, &list), ==, WB_STOPPED);
    ref_table_free(&table);
    ref_free(&catalogue);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/choice/best", test_best);
    g_test_add_func("/choice/count", test_count);
    g_test_add_func("/choice/count-in-pieces", test_count_in_pieces);
    g_test_add_func("/choice/front", test_front);
    g_test_add_func("/choice/shuffled", test_shuffled);
    g_test_add_func("/choice/reference-model", test_reference_model);
    g_test_add_func("/choice/exact-sizes", test_exact_sizes);
    g_test_add_func("/choice/drawn-sizes", test_drawn_sizes);
    g_test_add_func("/choice/many", test_many);
    g_test_add_func("/choice/sieve", test_sieve);
    g_test_add_func("/choice/bad-input", test_bad_input);
    g_test_add_func("/choice/without-rules", test_without_rules);
    g_test_add_func("/choice/ends", test_ends);
    return g_test_run();
}
