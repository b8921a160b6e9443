/* How the kit is to be wired: sizes, terminals, the hottest air, bundling, lengths. */
#include "brief_read.h"
#include <math.h>

#define LEAST_AIR_C (-40)
#define MOST_AIR_C 90
#define MOST_BUNDLED 100

static const char *const sizes[] = {"any", "awg", "metric", NULL};

double wb_read_length_m(const WbJson *object, const char *key, double absent_m)
{
    WbJson length = wb_json_member(object, key);
    return wb_json_number_or_null(&length, WB_LEAST_LENGTH_M, WB_MOST_LENGTH_M, absent_m);
}

static int64_t read_terminals(const WbJson *wiring)
{
    WbJson terminals = wb_json_member(wiring, "terminals_c");
    int64_t terminal_c = wb_json_integer_or(&terminals, 60, 90, 75);
    if (terminal_c != 60 && terminal_c != 75 && terminal_c != 90)
        wb_json_refuse(&terminals, "60, 75 or 90");
    return terminal_c;
}

static void read_lengths(const WbJson *wiring, double length_m[WB_N_CIRCUITS])
{
    WbJson lengths = wb_json_member(wiring, "lengths_m");
    if (!wb_json_given(&lengths) || !wb_json_object(&lengths))
        return;
    for (WbCircuitKind kind = 0; kind < WB_N_CIRCUITS; kind++)
        length_m[kind] = wb_read_length_m(&lengths, wb_circuit_name(kind), length_m[kind]);
}

void wb_read_wiring(const WbJson *root, WbBrief *brief)
{
    WbWiringWishes *to = &brief->wiring;
    *to = (WbWiringWishes){.on = true,
                           .sizes = WB_SIZES_ANY,
                           .terminal_c = 75,
                           .inside_c = NAN,
                           .roof_c = NAN,
                           .bundled = 3};
    for (WbCircuitKind kind = 0; kind < WB_N_CIRCUITS; kind++)
        to->length_m[kind] = wb_circuit_usual_m(kind);
    WbJson wiring = wb_json_member(root, "wiring");
    if (!wb_json_given(&wiring) || !wb_json_object(&wiring))
        return;
    WbJson on = wb_json_member(&wiring, "on"), size = wb_json_member(&wiring, "sizes");
    WbJson inside = wb_json_member(&wiring, "inside_c"), roof = wb_json_member(&wiring, "roof_c");
    WbJson bundled = wb_json_member(&wiring, "bundled");
    to->on = wb_json_flag_or(&on, true);
    to->sizes = wb_json_word_or(&size, sizes, WB_SIZES_ANY);
    to->terminal_c = read_terminals(&wiring);
    to->inside_c = wb_json_number_or_null(&inside, LEAST_AIR_C, MOST_AIR_C, NAN);
    to->roof_c = wb_json_number_or_null(&roof, LEAST_AIR_C, MOST_AIR_C, NAN);
    to->bundled = (int)wb_json_integer_or(&bundled, 1, MOST_BUNDLED, 3);
    read_lengths(&wiring, to->length_m);
}
