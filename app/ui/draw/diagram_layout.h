/* Where everything of a wiring diagram stands. Every cell of a chain and every row of a load has a
 * box of its own, so that nothing written can overlap whatever the number of circuits. Lengths in
 * units of the drawing: one is a pixel at zoom 1, a point on paper at scale 1. */
#ifndef WB_DIAGRAM_LAYOUT_H
#define WB_DIAGRAM_LAYOUT_H

#include "diagram.h"
#include <pango/pango.h>

#define WB_DIAGRAM_TYPE 10  /* height of type */
#define WB_BATTERY_HALF 8.5 /* from the middle of a battery's symbol to its outer plate */

typedef struct {
    double x, y, width, height;
} WbBox;

typedef enum { WB_TONE_INK, WB_TONE_DIM, WB_TONE_OVER } WbTone;

typedef struct {
    WbMark mark;
    double x, y;     /* its middle */
    gboolean across; /* its leads run across, else up and down */
    int count, line; /* line -1: of none */
} WbPlacedMark;

typedef struct {
    char *text;
    WbBox box;
    double wrap;        /* words wrapped to so much; 0: one line */
    gboolean shortened; /* to one line of `wrap` */
    gboolean bold;
    WbTone tone;
    int line;
} WbPlacedText;

typedef struct {
    double x1, y1, x2, y2, width;
    int line;
} WbPlacedStroke;

/* A part of what stands for a circuit: pointed at, it is meant. */
typedef struct {
    WbBox box;
    int line;
} WbPlacedArea;

typedef struct {
    GArray *marks, *texts, *strokes, *areas;
    double width, height;
} WbDiagramLayout;

/* What is drawn of it: with the bus bars and all that hangs on them or the loads alone, which
 * loads, and in how many columns. */
typedef struct {
    gboolean trunk;
    int first_load, n_loads, columns;
} WbDiagramPart;

/* Of everything, for a screen. */
WbDiagramPart wb_diagram_whole(const WbDiagram *diagram);
/* `pango` measures; wb_diagram_set_text is what paints use as well. */
WbDiagramLayout *wb_diagram_lay(const WbDiagram *diagram, const WbDiagramPart *part,
                                PangoLayout *pango);
void wb_diagram_layout_free(WbDiagramLayout *layout);
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbDiagramLayout, wb_diagram_layout_free)

void wb_diagram_set_text(PangoLayout *pango, const WbPlacedText *text);
/* Line of the circuit at a point; -1: none. */
int wb_diagram_at(const WbDiagramLayout *layout, double x, double y);
/* Around all areas of a line; FALSE: it has none. */
gboolean wb_diagram_bounds(const WbDiagramLayout *layout, int line, WbBox *box);

#endif
