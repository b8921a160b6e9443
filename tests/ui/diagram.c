/* The wiring diagram: nothing written overlaps, all stands inside its page, whatever the number of
 * circuits; every circuit is drawn, named and found under the pointer. */
#include "diagram.h"
#include "diagram_paint.h"
#include "diagram_parts.h"
#include "words_circuit.h"

#include <pango/pangocairo.h>
#include <string.h>

static PangoLayout *pango_new(void)
{
    PangoContext *context = pango_font_map_create_context(pango_cairo_font_map_get_default());
    PangoLayout *layout = pango_layout_new(context);
    g_object_unref(context);
    return layout;
}

static gboolean overlap(const WbBox *a, const WbBox *b)
{
    const double least = 0.01;
    return a->x + a->width > b->x + least && b->x + b->width > a->x + least &&
           a->y + a->height > b->y + least && b->y + b->height > a->y + least;
}

/* A symbol is drawn within 20 units of its middle, small ones within 13 by 9. */
static WbBox box_of(const WbPlacedMark *mark)
{
    gboolean thin = mark->mark == WB_MARK_FUSE || mark->mark == WB_MARK_SWITCH;
    double across = thin ? 9 : mark->mark == WB_MARK_JOINT ? 4 : 20, along = thin ? 13 : across;
    if (mark->mark == WB_MARK_BATTERY)
        along = 16;
    if (mark->mark == WB_MARK_LOAD)
        across = 4, along = 7;
    if (mark->mark == WB_MARK_FUSE)
        across = 5;
    double half_x = mark->across ? along : across, half_y = mark->across ? across : along;
    return (WbBox){mark->x - half_x, mark->y - half_y, 2 * half_x, 2 * half_y};
}

static gboolean inside(const WbDiagramLayout *layout, const WbBox *box)
{
    return box->x >= 0 && box->y >= 0 && box->x + box->width <= layout->width &&
           box->y + box->height <= layout->height;
}

static WbBox stroke_box(const WbPlacedStroke *stroke)
{
    double x = MIN(stroke->x1, stroke->x2), y = MIN(stroke->y1, stroke->y2);
    return (WbBox){x - stroke->width / 2, y - stroke->width / 2,
                   ABS(stroke->x1 - stroke->x2) + stroke->width,
                   ABS(stroke->y1 - stroke->y2) + stroke->width};
}

static void check_texts(const WbDiagramLayout *layout)
{
    for (guint i = 0; i < layout->texts->len; i++) {
        const WbPlacedText *text = &g_array_index(layout->texts, WbPlacedText, i);
        g_assert_true(inside(layout, &text->box));
        for (guint j = 0; j < i; j++) {
            const WbPlacedText *other = &g_array_index(layout->texts, WbPlacedText, j);
            if (overlap(&text->box, &other->box))
                g_error("“%s” lies on “%s”", text->text, other->text);
        }
        for (guint j = 0; j < layout->marks->len; j++) {
            WbBox mark = box_of(&g_array_index(layout->marks, WbPlacedMark, j));
            if (overlap(&text->box, &mark))
                g_error("“%s” lies on symbol %d", text->text,
                        g_array_index(layout->marks, WbPlacedMark, j).mark);
        }
        for (guint j = 0; j < layout->strokes->len; j++) {
            WbBox stroke = stroke_box(&g_array_index(layout->strokes, WbPlacedStroke, j));
            if (overlap(&text->box, &stroke))
                g_error("“%s” lies on a wire", text->text);
        }
    }
}

static void check_marks(const WbDiagramLayout *layout)
{
    for (guint i = 0; i < layout->marks->len; i++) {
        WbBox box = box_of(&g_array_index(layout->marks, WbPlacedMark, i));
        g_assert_true(inside(layout, &box));
        for (guint j = 0; j < i; j++) {
            WbBox other = box_of(&g_array_index(layout->marks, WbPlacedMark, j));
            g_assert_false(overlap(&box, &other));
        }
    }
}

/* Every circuit has its number, size and drop on the drawing, and an area to point at. */
static void check_circuits(const WbDiagram *diagram, const WbDiagramLayout *layout)
{
    for (int line = 0; line < diagram->n_lines; line++) {
        int tags = 0, wires = 0, flows = 0, fuses = 0;
        WbBox box;
        for (guint i = 0; i < layout->texts->len; i++) {
            const WbPlacedText *text = &g_array_index(layout->texts, WbPlacedText, i);
            if (text->line != line)
                continue;
            tags += g_str_equal(text->text, diagram->line[line].tag);
            wires += g_str_equal(text->text, diagram->line[line].wire);
            flows += g_str_equal(text->text, diagram->line[line].flow);
            fuses += g_strcmp0(text->text, diagram->line[line].fuse) == 0;
        }
        g_assert_cmpint(tags, ==, 1);
        g_assert_cmpint(wires, ==, 1);
        g_assert_cmpint(flows, ==, 1);
        g_assert_cmpint(fuses, ==, 1);
        g_assert_true(wb_diagram_bounds(layout, line, &box));
        g_assert_true(inside(layout, &box));
    }
}

static void check(const Wish *wish)
{
    g_autofree Parts *parts = g_new(Parts, 1);
    PangoLayout *pango = pango_new();
    parts_fill(parts, wish);
    g_autoptr(WbDiagram) diagram = wb_diagram_new(&parts->problem, &parts->kit, &parts->wiring);
    WbDiagramPart whole = wb_diagram_whole(diagram);
    g_autoptr(WbDiagramLayout) layout = wb_diagram_lay(diagram, &whole, pango);
    g_test_message("%d loads, %d strings, %d controllers: %g x %g", wish->loads, wish->strings,
                   wish->controllers, layout->width, layout->height);
    g_assert_cmpint(diagram->n_lines, ==, (int)parts->wiring.n);
    check_texts(layout);
    check_marks(layout);
    check_circuits(diagram, layout);
    g_object_unref(pango);
}

static void test_loads(void)
{
    for (int loads = 0; loads <= MOST_LOADS; loads++)
        for (int names = 0; names <= 1; names++) {
            Wish wish = {loads, 2, 2, 1, 1, TRUE, TRUE, TRUE, loads % 2, names, loads % 3};
            check(&wish);
        }
}

static void test_kits(void)
{
    for (int controllers = 1; controllers <= 4; controllers++)
        for (int each = 1; each <= 6; each++)
            for (int bank = 1; bank <= 4; bank++)
                for (int bits = 0; bits < 16; bits++) {
                    Wish wish = {
                        bits & 8 ? 3 : 0, controllers * each, 1 + each % 3,    controllers, bank,
                        (bits & 1) != 0,  (bits & 2) != 0,    (bits & 4) != 0, bank == 3,   FALSE,
                        bank % 3};
                    check(&wish);
                }
}

/* What lies under the middle of a circuit's number is that circuit. */
static void test_pointing(void)
{
    g_autofree Parts *parts = g_new(Parts, 1);
    PangoLayout *pango = pango_new();
    const Wish wish = {23, 3, 1, 1, 2, TRUE, TRUE, TRUE, FALSE, TRUE, WB_RULES_BOAT};
    parts_fill(parts, &wish);
    g_autoptr(WbDiagram) diagram = wb_diagram_new(&parts->problem, &parts->kit, &parts->wiring);
    WbDiagramPart whole = wb_diagram_whole(diagram);
    g_autoptr(WbDiagramLayout) layout = wb_diagram_lay(diagram, &whole, pango);
    int found = 0;
    for (guint i = 0; i < layout->texts->len; i++) {
        const WbPlacedText *text = &g_array_index(layout->texts, WbPlacedText, i);
        if (text->line < 0)
            continue;
        g_assert_cmpint(wb_diagram_at(layout, text->box.x + text->box.width / 2,
                                      text->box.y + text->box.height / 2),
                        ==, text->line);
        found++;
    }
    g_assert_cmpint(found, >=, 4 * diagram->n_lines);
    g_assert_cmpint(wb_diagram_at(layout, layout->width - 1, 1), ==, -1);
    g_object_unref(pango);
}

/* Fuse and wire of the bank: the fuse is the farther from the bus bars; of the controller the
 * nearer. */
static void test_fuse_at_its_source(void)
{
    g_autofree Parts *parts = g_new(Parts, 1);
    PangoLayout *pango = pango_new();
    const Wish wish = {0, 1, 2, 1, 1, FALSE, FALSE, FALSE, FALSE, FALSE, WB_RULES_ROAD_VEHICLE};
    parts_fill(parts, &wish);
    g_autoptr(WbDiagram) diagram = wb_diagram_new(&parts->problem, &parts->kit, &parts->wiring);
    WbDiagramPart whole = wb_diagram_whole(diagram);
    g_autoptr(WbDiagramLayout) layout = wb_diagram_lay(diagram, &whole, pango);
    double bank = 0, charge = 0, battery = 0, controller = 0;
    for (guint i = 0; i < layout->marks->len; i++) {
        const WbPlacedMark *mark = &g_array_index(layout->marks, WbPlacedMark, i);
        gboolean fuse = mark->mark == WB_MARK_FUSE;
        if (fuse && parts->circuit[mark->line].ask.kind == WB_CIRCUIT_MAIN)
            bank = mark->y;
        if (fuse && parts->circuit[mark->line].ask.kind == WB_CIRCUIT_CHARGE)
            charge = mark->y;
        if (mark->mark == WB_MARK_BATTERY)
            battery = mark->y;
        if (mark->mark == WB_MARK_CONVERTER)
            controller = mark->y;
    }
    g_assert_cmpfloat(battery - bank, <, 50); /* next to the battery */
    g_assert_cmpfloat(battery, >, bank);
    g_assert_cmpfloat(charge - controller, >, 50); /* with the wire between */
    g_assert_cmpfloat(bank, >, charge);
    g_object_unref(pango);
}

static void test_words(void)
{
    g_autofree Parts *parts = g_new(Parts, 1);
    const Wish wish = {6, 3, 1, 1, 2, TRUE, TRUE, TRUE, TRUE, FALSE, WB_RULES_ROAD_VEHICLE};
    parts_fill(parts, &wish);
    for (gsize i = 0; i < parts->wiring.n; i++) {
        const WbCircuit *circuit = &parts->circuit[i];
        g_autofree char *title = wb_words_circuit_title(&parts->problem, circuit);
        g_autofree char *line = wb_words_circuit_line(&parts->problem, circuit);
        g_autofree char *fault = wb_words_circuit_fault(&parts->problem, circuit);
        g_autoptr(WbReckoning) reckoning = wb_reckoning_new(&parts->problem, &parts->kit, circuit);
        g_assert_nonnull(strstr(line, title));
        g_assert_cmpint(fault != NULL, ==, circuit->fault != WB_CIRCUIT_SOUND);
        if (fault != NULL) {
            g_assert_nonnull(strstr(fault, "130.2"));
            g_assert_nonnull(strstr(fault, "95.0"));
        }
        g_assert_cmpint(reckoning->n, >=, fault != NULL ? 3 : 8);
    }
}

/* Each fault tells its two numbers, and apart. */
static void test_faults(void)
{
    g_autofree Parts *parts = g_new(Parts, 1);
    const Wish wish = {1, 1, 1, 1, 1, FALSE, FALSE, FALSE, FALSE, FALSE, WB_RULES_BOAT};
    parts_fill(parts, &wish);
    for (WbCircuitFault fault = 1; fault < WB_N_CIRCUIT_FAULTS; fault++) {
        WbCircuit circuit = parts->circuit[0];
        circuit.fault = fault;
        circuit.value = 40.003;
        circuit.limit = 40;
        g_autofree char *text = wb_words_circuit_fault(&parts->problem, &circuit);
        g_test_message("%s", text);
        g_assert_nonnull(strstr(text, "40.003"));
        g_assert_nonnull(strstr(text, "40.000"));
    }
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/diagram/loads", test_loads);
    g_test_add_func("/diagram/kits", test_kits);
    g_test_add_func("/diagram/pointing", test_pointing);
    g_test_add_func("/diagram/fuse-at-its-source", test_fuse_at_its_source);
    g_test_add_func("/diagram/words", test_words);
    g_test_add_func("/diagram/faults", test_faults);
    return g_test_run();
}
