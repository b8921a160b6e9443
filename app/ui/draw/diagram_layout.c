/* The bus bars lie across; what charges the bank hangs above them, bank, inverter and fuse block
 * below, one chain a column with its texts to the right; loads are rows to the right of their fuse
 * block. All is laid out about bus bars at height 0, then moved to the origin. */
#include "diagram_layout_private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define HALF WB_DIAGRAM_HALF
#define BESIDE 26.0 /* texts begin so far right of the wire */
#define APART 14.0  /* between columns */
#define CELL 34.0   /* least height of fuse, switch, wire */
#define SYMBOL 40.0 /* of what stands at an end */
#define FUSE 26.0   /* length of a fuse's symbol */
#define FUSE_DEEP 6.0
#define JOINT 20.0
#define WRAP 128.0
#define NAME 150.0 /* of a load */
#define ARROW 14.0
#define PAD 4.0
#define BUS_THICK 4.0
#define WIRE_THICK 1.4
#define SCREEN_ROWS 18 /* of loads in one column on a screen */

typedef struct {
    const WbDiagram *diagram;
    WbDiagramLayout *out;
    PangoLayout *pango;
    double text_height;
} Lay;

/* ---- text ---- */

static void measure(Lay *lay, WbPlacedText *text)
{
    int width, height;
    wb_diagram_set_text(lay->pango, text);
    pango_layout_get_size(lay->pango, &width, &height);
    text->box.width = ceil((double)width / PANGO_SCALE);
    text->box.height = ceil((double)height / PANGO_SCALE);
}

static double width_of(Lay *lay, const char *text, gboolean bold)
{
    WbPlacedText placed = {.text = (char *)text, .bold = bold};
    measure(lay, &placed);
    return placed.box.width;
}

/* Upper left corner at (x, y). Answers its box. */
static WbBox put(Lay *lay, WbPlacedText text, double x, double y)
{
    measure(lay, &text);
    text.box.x = x;
    text.box.y = y;
    text.text = g_strdup(text.text);
    g_array_append_val(lay->out->texts, text);
    return text.box;
}

static void put_mark(Lay *lay, WbMark mark, double x, double y, gboolean across, int count,
                     int line)
{
    const WbPlacedMark placed = {mark, x, y, across, count, line};
    g_array_append_val(lay->out->marks, placed);
}

static void put_stroke(Lay *lay, double x1, double y1, double x2, double y2, int line)
{
    const WbPlacedStroke stroke = {x1, y1, x2, y2, WIRE_THICK, line};
    if (fabs(x1 - x2) + fabs(y1 - y2) > 0)
        g_array_append_val(lay->out->strokes, stroke);
}

static void put_area(Lay *lay, double x1, double y1, double x2, double y2, int line)
{
    const WbPlacedArea area = {{fmin(x1, x2), fmin(y1, y2), fabs(x2 - x1), fabs(y2 - y1)}, line};
    if (line >= 0)
        g_array_append_val(lay->out->areas, area);
}

/* ---- cells of a chain: from `y` on by `way` (+1 down, -1 up); each answers where it ends ---- */

typedef struct {
    double x, y, way;
    double right; /* of all its texts so far */
} Chain;

static void reach(Chain *chain, double right)
{
    chain->right = fmax(chain->right, right);
}

/* A symbol on the wire with one text beside it. */
static void marked(Lay *lay, Chain *chain, WbMark mark, const char *text, double height, int line)
{
    const WbDiagramLine *of = &lay->diagram->line[line];
    double middle = chain->y + chain->way * height / 2, end = chain->y + chain->way * height;
    double lead = chain->way * FUSE / 2;
    put_stroke(lay, chain->x, chain->y, chain->x, middle - lead, line);
    put_stroke(lay, chain->x, middle + lead, chain->x, end, line);
    put_mark(lay, mark, chain->x, middle, FALSE, 1, line);
    WbPlacedText label = {.text = (char *)text,
                          .tone = of->fault && mark == WB_MARK_FUSE ? WB_TONE_OVER : WB_TONE_INK,
                          .line = line};
    WbBox box = put(lay, label, chain->x + BESIDE, middle - lay->text_height / 2);
    reach(chain, box.x + box.width);
    put_area(lay, chain->x - HALF, chain->y, box.x + box.width, end, line);
    chain->y = end;
}

/* Number and size, under them current and drop. Answers the right edge. */
static double wire_texts(Lay *lay, int line, double x, double y, double y_flow)
{
    const WbDiagramLine *of = &lay->diagram->line[line];
    WbBox tag = put(lay, (WbPlacedText){.text = of->tag, .bold = TRUE, .line = line}, x, y);
    WbBox wire =
        put(lay, (WbPlacedText){.text = of->wire, .line = line}, tag.x + tag.width + 2 * PAD, y);
    WbBox flow = put(lay,
                     (WbPlacedText){.text = of->flow,
                                    .tone = of->fault ? WB_TONE_OVER : WB_TONE_DIM,
                                    .bold = of->fault,
                                    .line = line},
                     x, y_flow);
    return fmax(wire.x + wire.width, flow.x + flow.width);
}

static void wire(Lay *lay, Chain *chain, int line)
{
    double height = fmax(2 * lay->text_height + 3 * PAD, CELL);
    double end = chain->y + chain->way * height, middle = (chain->y + end) / 2;
    double right = wire_texts(lay, line, chain->x + BESIDE, middle - lay->text_height, middle);
    put_stroke(lay, chain->x, chain->y, chain->x, end, line);
    put_area(lay, chain->x - HALF, chain->y, right, end, line);
    reach(chain, right);
    chain->y = end;
}

/* All cells of a circuit, from the bus bars outwards. */
static void circuit(Lay *lay, Chain *chain, int line)
{
    const WbDiagramLine *of = &lay->diagram->line[line];
    if (!of->fuse_at_bus)
        wire(lay, chain, line);
    else if (of->fuse != NULL)
        marked(lay, chain, WB_MARK_FUSE, of->fuse, CELL, line);
    if (of->switched)
        marked(lay, chain, WB_MARK_SWITCH, _("disconnect"), CELL, line);
    if (of->fuse_at_bus)
        wire(lay, chain, line);
    else if (of->fuse != NULL)
        marked(lay, chain, WB_MARK_FUSE, of->fuse, CELL, line);
}

static void plain_wire(Lay *lay, Chain *chain, double length)
{
    put_stroke(lay, chain->x, chain->y, chain->x, chain->y + chain->way * length, -1);
    chain->y += chain->way * length;
}

/* Title and detail beside a symbol, in its middle. Answers the height they take. */
static double name_height(Lay *lay, const char *title, const char *detail)
{
    WbPlacedText upper = {.text = (char *)title, .bold = TRUE, .wrap = WRAP};
    WbPlacedText lower = {.text = (char *)detail, .wrap = WRAP};
    if (title != NULL)
        measure(lay, &upper);
    if (detail != NULL)
        measure(lay, &lower);
    return upper.box.height + lower.box.height;
}

static double put_name(Lay *lay, const char *title, const char *detail, double x, double y)
{
    WbBox upper = {x, y, 0, 0}, lower = {0};
    if (title != NULL)
        upper =
            put(lay, (WbPlacedText){.text = (char *)title, .bold = TRUE, .wrap = WRAP, .line = -1},
                x, y);
    if (detail != NULL)
        lower = put(
            lay,
            (WbPlacedText){.text = (char *)detail, .wrap = WRAP, .tone = WB_TONE_DIM, .line = -1},
            x, y + upper.height);
    return x + fmax(upper.width, lower.width);
}

/* Where a symbol's own lines begin, from its middle. */
static double half_of(WbMark mark)
{
    if (mark == WB_MARK_JOINT)
        return 0;
    if (mark == WB_MARK_LOAD)
        return ARROW / 2;
    return mark == WB_MARK_BATTERY ? WB_BATTERY_HALF : SYMBOL / 2;
}

static void node(Lay *lay, Chain *chain, const WbDiagramStep *step, gboolean last)
{
    gboolean joint = step->mark == WB_MARK_JOINT;
    double least = joint ? JOINT : SYMBOL + 2 * PAD,
           words = name_height(lay, step->title, step->detail);
    double height = fmax(least, words + 2 * PAD), half = half_of(step->mark);
    double end = chain->y + chain->way * height, middle = (chain->y + end) / 2;
    put_stroke(lay, chain->x, chain->y, chain->x, middle - chain->way * half, step->line);
    if (!last)
        put_stroke(lay, chain->x, middle + chain->way * half, chain->x, end, step[1].line);
    put_mark(lay, step->mark, chain->x, middle, FALSE, step->count, -1);
    reach(chain, put_name(lay, step->title, step->detail, chain->x + BESIDE, middle - words / 2));
    chain->y = end;
}

/* Answers the right edge; *end is the height it reaches. */
static double chain_out(Lay *lay, const WbDiagramChain *of, double left, double way, double *end)
{
    Chain chain = {left + HALF, way * BUS_THICK / 2, way, left + 2 * HALF};
    for (int i = 0; i < of->n; i++) {
        if (of->step[i].line >= 0)
            circuit(lay, &chain, of->step[i].line);
        else
            plain_wire(lay, &chain, CELL / 2);
        node(lay, &chain, &of->step[i], i == of->n - 1);
    }
    *end = chain.y;
    return chain.right;
}

static double chains_out(Lay *lay, const WbDiagramChain *chains, int n, double way)
{
    double left = 0, end;
    for (int i = 0; i < n; i++)
        left = chain_out(lay, &chains[i], left, way, &end) + APART;
    return left;
}

/* ---- loads ---- */

typedef struct {
    double fuse, wire, name; /* widths of its columns */
    double column, row;
} LoadGrid;

static LoadGrid load_grid(Lay *lay, const WbDiagramPart *part)
{
    LoadGrid grid = {FUSE, 0, 0, 0, 2 * lay->text_height + 3 * PAD + FUSE_DEEP};
    for (int i = part->first_load; i < part->first_load + part->n_loads; i++) {
        const WbDiagramLoad *load = &lay->diagram->load[i];
        const WbDiagramLine *line = &lay->diagram->line[load->line];
        if (line->fuse != NULL)
            grid.fuse = fmax(grid.fuse, width_of(lay, line->fuse, FALSE));
        grid.wire = fmax(grid.wire, width_of(lay, line->tag, TRUE) + 2 * PAD +
                                        width_of(lay, line->wire, FALSE));
        grid.wire = fmax(grid.wire, width_of(lay, line->flow, line->fault));
        grid.name = fmax(grid.name, fmin(width_of(lay, load->title, TRUE), NAME));
        grid.name = fmax(grid.name, fmin(width_of(lay, load->detail, FALSE), NAME));
    }
    grid.fuse += 3 * PAD;
    grid.wire += 3 * PAD;
    grid.column = grid.fuse + grid.wire + ARROW + PAD + grid.name + 2 * APART;
    return grid;
}

static void load_name(Lay *lay, const WbDiagramLoad *load, double x, double y)
{
    WbPlacedText title = {
        .text = load->title, .wrap = NAME, .shortened = TRUE, .bold = TRUE, .line = load->line};
    WbPlacedText detail = {.text = load->detail,
                           .wrap = NAME,
                           .shortened = TRUE,
                           .tone = WB_TONE_DIM,
                           .line = load->line};
    put(lay, title, x, y - lay->text_height);
    put(lay, detail, x, y);
}

/* From the block's bar at (x, y) to the right. */
static void load_row(Lay *lay, const LoadGrid *grid, const WbDiagramLoad *load, double x, double y)
{
    const WbDiagramLine *of = &lay->diagram->line[load->line];
    double fuse = x + grid->fuse / 2, begin = x + grid->fuse, end = begin + grid->wire;
    double upper = y - lay->text_height - PAD / 2;
    if (of->fuse != NULL) {
        WbPlacedText label = {
            .text = of->fuse, .tone = of->fault ? WB_TONE_OVER : WB_TONE_INK, .line = load->line};
        put(lay, label, fuse - width_of(lay, of->fuse, FALSE) / 2, upper - FUSE_DEEP);
        put_mark(lay, WB_MARK_FUSE, fuse, y, TRUE, 1, load->line);
        put_stroke(lay, x, y, fuse - FUSE / 2, y, load->line);
        put_stroke(lay, fuse + FUSE / 2, y, end, y, load->line);
    } else {
        put_stroke(lay, x, y, end, y, load->line);
    }
    wire_texts(lay, load->line, begin + PAD, upper, y + PAD / 2);
    put_mark(lay, WB_MARK_LOAD, end + ARROW / 2, y, TRUE, 1, load->line);
    load_name(lay, load, end + ARROW + PAD, y);
    put_area(lay, x, y - grid->row / 2, x + grid->column - 2 * APART, y + grid->row / 2,
             load->line);
}

static void bar(Lay *lay, double x1, double y1, double x2, double y2)
{
    const WbPlacedStroke stroke = {x1, y1, x2, y2, BUS_THICK, -1};
    g_array_append_val(lay->out->strokes, stroke);
}

/* That there are loads on another page. */
static void put_rest(Lay *lay, const WbDiagramPart *part, double x, double y)
{
    int rest = lay->diagram->n_loads - part->first_load - part->n_loads;
    g_autofree char *text = g_strdup_printf(
        ngettext("%d load on the next page", "%d loads on the next page", (unsigned long)rest),
        rest);
    if (rest > 0)
        put(lay, (WbPlacedText){.text = text, .tone = WB_TONE_DIM, .line = -1}, x, y);
}

/* The block's bar stands at x from y down, further columns to its right. Answers the right edge. */
static double loads_out(Lay *lay, const WbDiagramPart *part, double x, double y)
{
    LoadGrid grid = load_grid(lay, part);
    int columns = MAX(part->columns, 1), rows = (part->n_loads + columns - 1) / columns;
    int used = rows > 0 ? (part->n_loads + rows - 1) / rows : 1;
    for (int i = 0; i < part->n_loads; i++) {
        double left = x + i / rows * grid.column;
        load_row(lay, &grid, &lay->diagram->load[part->first_load + i], left,
                 y + (i % rows + 1) * grid.row);
    }
    for (int c = 0; c < used; c++) {
        int n = MIN(rows, part->n_loads - c * rows);
        bar(lay, x + c * grid.column, y, x + c * grid.column, y + n * grid.row + PAD);
    }
    if (used > 1)
        bar(lay, x, y, x + (used - 1) * grid.column, y);
    put_rest(lay, part, x + PAD + BUS_THICK, y + (rows + 0.5) * grid.row + PAD);
    return x + used * grid.column;
}

/* ---- all together ---- */

/* Feed and block under the bus bars; the text of the block beside its bar's upper end. */
static double feed_out(Lay *lay, double left, double *end)
{
    const WbDiagram *diagram = lay->diagram;
    Chain chain = {left + HALF, BUS_THICK / 2, 1, left + 2 * HALF};
    circuit(lay, &chain, diagram->feed);
    double words = name_height(lay, diagram->block_title, diagram->block_detail);
    reach(&chain, put_name(lay, diagram->block_title, diagram->block_detail, chain.x + BESIDE,
                           chain.y + PAD));
    put_stroke(lay, chain.x, chain.y, chain.x, chain.y + words + 2 * PAD, diagram->feed);
    *end = chain.y + words + 2 * PAD;
    return chain.right;
}

/* Name above the end of the bus bars, earth below it. Answers the right edge. */
static double bus_end(Lay *lay, double left, double *end)
{
    const WbDiagram *diagram = lay->diagram;
    double x = left + HALF, height = name_height(lay, diagram->bus_title, diagram->bus_detail);
    double right =
        put_name(lay, diagram->bus_title, diagram->bus_detail, left, -BUS_THICK / 2 - PAD - height);
    double middle = CELL / 2 + SYMBOL / 2, words = name_height(lay, NULL, diagram->earth_text);
    put_stroke(lay, x, BUS_THICK / 2, x, middle, -1);
    put_mark(lay, diagram->earth, x, middle, FALSE, 1, -1);
    middle = fmax(middle, words / 2 + PAD);
    right = fmax(right, put_name(lay, NULL, diagram->earth_text, x + BESIDE, middle - words / 2));
    *end = fmax(middle + words / 2, CELL / 2 + SYMBOL) + PAD;
    return right;
}

static double trunk_out(Lay *lay, const WbDiagramPart *part)
{
    const WbDiagram *diagram = lay->diagram;
    double above = chains_out(lay, diagram->above, diagram->n_above, -1);
    double below = chains_out(lay, diagram->below, diagram->n_below, 1);
    double feed = below, block = 0, earth = 0;
    if (diagram->feed >= 0)
        below = feed_out(lay, below, &block) + APART;
    double left = fmax(above, below), right = bus_end(lay, left, &earth);
    bar(lay, 0, 0, left + 2 * HALF, 0);
    if (diagram->feed < 0)
        return right;
    double y = fmax(block, earth);
    put_stroke(lay, feed + HALF, block, feed + HALF, y, diagram->feed);
    return fmax(right, loads_out(lay, part, feed + HALF, y));
}

/* A continuation: the block's name over its bar. */
static double block_out(Lay *lay, const WbDiagramPart *part)
{
    double height = name_height(lay, lay->diagram->block_title, lay->diagram->block_detail);
    double right =
        put_name(lay, lay->diagram->block_title, lay->diagram->block_detail, 0, -height - 2 * PAD);
    return fmax(right, loads_out(lay, part, BUS_THICK, 0));
}

WbDiagramPart wb_diagram_whole(const WbDiagram *diagram)
{
    int columns = (diagram->n_loads + SCREEN_ROWS - 1) / SCREEN_ROWS;
    return (WbDiagramPart){TRUE, 0, diagram->n_loads, MAX(columns, 1)};
}

WbDiagramLayout *wb_diagram_lay(const WbDiagram *diagram, const WbDiagramPart *part,
                                PangoLayout *pango)
{
    WbDiagramLayout *layout = wb_diagram_layout_new();
    Lay lay = {diagram, layout, pango, 0};
    pango_context_set_round_glyph_positions(pango_layout_get_context(pango), FALSE);
    WbPlacedText sample = {.text = (char *)"0"};
    measure(&lay, &sample);
    lay.text_height = sample.box.height;
    if (part->trunk)
        trunk_out(&lay, part);
    else
        block_out(&lay, part);
    wb_diagram_layout_settle(layout, PAD);
    return layout;
}
