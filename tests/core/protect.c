/* Holders, switches, bus bars and fuse blocks: what suffices, and the cheapest of it. */
#include "protect.h"
#include <glib.h>

#define SOLD(minor)                                                                                \
    {                                                                                              \
        .priced = true, .price_minor = minor                                                       \
    }

static const WbFitting fittings[] = {
    {{"holder-30"}, WB_FITTING_HOLDER, WB_FUSE_BLADE, 30, 32},
    {{"holder-80"}, WB_FITTING_HOLDER, WB_FUSE_BLADE, 80, 32},
    {{"holder-80-v"}, WB_FITTING_HOLDER, WB_FUSE_BLADE, 80, 80},
    {{"holder-midi"}, WB_FITTING_HOLDER, WB_FUSE_MIDI, 200, 80},
    {{"block-4"}, WB_FITTING_BLOCK, WB_FUSE_BLADE, 60, 32, 0, 0, 4},
    {{"block-12"}, WB_FITTING_BLOCK, WB_FUSE_BLADE, 100, 32, 0, 0, 12},
    {{"switch-100"}, WB_FITTING_SWITCH, 0, 100, 48},
    {{"switch-300"}, WB_FITTING_SWITCH, 0, 300, 48},
    {{"bus-150"}, WB_FITTING_BUS, 0, 150, 0},
};
static const int64_t minor[] = {100, 250, 300, 400, 1000, 2500, 1500, 3000, 1200};

typedef struct {
    WbFittingChoice choice[G_N_ELEMENTS(fittings)];
    WbWireStock stock;
} Shelf;

static void fill(Shelf *shelf)
{
    *shelf = (Shelf){.stock = {.fittings = shelf->choice, .n_fittings = G_N_ELEMENTS(fittings)}};
    for (gsize i = 0; i < G_N_ELEMENTS(fittings); i++)
        shelf->choice[i] = (WbFittingChoice){&fittings[i], SOLD(minor[i])};
}

static const char *id_of(const WbFittingChoice *choice)
{
    return choice ? choice->fitting->part.id : "none";
}

static void test_holders(void)
{
    static const struct {
        int64_t form;
        double amps, most_v;
        const char *id;
    } rows[] = {{WB_FUSE_BLADE, 30, 32, "holder-30"},   {WB_FUSE_BLADE, 30.5, 32, "holder-80"},
                {WB_FUSE_BLADE, 20, 33, "holder-80-v"}, {WB_FUSE_BLADE, 80, 80, "holder-80-v"},
                {WB_FUSE_BLADE, 81, 12, "none"},        {WB_FUSE_BLADE, 20, 81, "none"},
                {WB_FUSE_MIDI, 20, 12, "holder-midi"},  {WB_FUSE_ANL, 20, 12, "none"}};
    Shelf shelf;
    fill(&shelf);
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        const WbFuse fuse = {{"fuse"}, rows[i].form, rows[i].amps, 100, 1000};
        g_assert_cmpstr(id_of(wb_holder_for(&shelf.stock, &fuse, rows[i].most_v)), ==, rows[i].id);
    }
}

static void test_switches_and_bars(void)
{
    Shelf shelf;
    fill(&shelf);
    const WbWireStock *stock = &shelf.stock;
    g_assert_cmpstr(id_of(wb_fitting_for(stock, WB_FITTING_SWITCH, 100, 48)), ==, "switch-100");
    g_assert_cmpstr(id_of(wb_fitting_for(stock, WB_FITTING_SWITCH, 101, 48)), ==, "switch-300");
    g_assert_cmpstr(id_of(wb_fitting_for(stock, WB_FITTING_SWITCH, 301, 48)), ==, "none");
    g_assert_cmpstr(id_of(wb_fitting_for(stock, WB_FITTING_SWITCH, 10, 49)), ==, "none");
    g_assert_cmpstr(id_of(wb_fitting_for(stock, WB_FITTING_BUS, 150, 60)), ==, "bus-150");
    g_assert_cmpstr(id_of(wb_fitting_for(stock, WB_FITTING_BUS, 151, 12)), ==, "none");
}

/* Blocks of 4 at 1000 against blocks of 12 at 2500: up to 8 ways the small ones are cheaper. */
static void test_blocks(void)
{
    static const struct {
        int ways;
        double amps;
        const char *id;
        int count;
    } rows[] = {{1, 50, "block-4", 1},   {4, 60, "block-4", 1},    {5, 60, "block-4", 2},
                {8, 50, "block-4", 2},   {9, 50, "block-12", 1},   {13, 50, "block-4", 4},
                {17, 50, "block-4", 5},  {21, 50, "block-12", 2},  {3, 61, "block-12", 1},
                {13, 99, "block-12", 2}, {24, 100, "block-12", 2}, {3, 101, "none", 0}};
    Shelf shelf;
    fill(&shelf);
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        WbBlocks blocks =
            wb_blocks_for(&shelf.stock, WB_FUSE_BLADE, rows[i].ways, rows[i].amps, 14.4);
        g_assert_cmpstr(id_of(blocks.choice), ==, rows[i].id);
        g_assert_cmpint(blocks.count, ==, rows[i].count);
    }
    g_assert_null(wb_blocks_for(&shelf.stock, WB_FUSE_BLADE, 1, 10, 33).choice);
    g_assert_null(wb_blocks_for(&shelf.stock, WB_FUSE_MIDI, 1, 10, 12).choice);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/protect/holders", test_holders);
    g_test_add_func("/protect/switches-and-bars", test_switches_and_bars);
    g_test_add_func("/protect/blocks", test_blocks);
    return g_test_run();
}
