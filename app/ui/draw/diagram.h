/* What the wiring diagram shows, as plain texts: chains of circuits that hang on the bus bars, and
 * the loads behind the fuse block. Drawing and layout know nothing else of the kit. */
#ifndef WB_DIAGRAM_H
#define WB_DIAGRAM_H

#include "wiring.h"
#include <glib.h>

/* Symbols in the manner of IEC 60617, drawn by us. */
typedef enum {
    WB_MARK_PANELS,
    WB_MARK_BATTERY,
    WB_MARK_CONVERTER, /* DC to DC */
    WB_MARK_INVERTER,  /* DC to AC */
    WB_MARK_RECTIFIER, /* AC to DC */
    WB_MARK_LOAD,
    WB_MARK_JOINT,
    WB_MARK_FUSE,
    WB_MARK_SWITCH,
    WB_MARK_EARTH,
    WB_MARK_PROTECTIVE_EARTH,
    WB_MARK_CHASSIS,
} WbMark;

/* One circuit; `count` alike are drawn once. NULL texts: not there. */
typedef struct {
    char *tag;  /* its number in the table: "7" */
    char *wire; /* size and length */
    char *flow; /* current and drop, how many alike */
    char *fuse;
    gboolean switched;
    gboolean fuse_at_bus; /* its source is the end nearer the bus bars */
    gboolean fault;
} WbDiagramLine;

/* What stands at the far end of a circuit. */
typedef struct {
    int line; /* that leads to it from the bus bars; -1: a plain wire */
    WbMark mark;
    char *title, *detail; /* may be NULL */
    int count;            /* so many alike */
} WbDiagramStep;

#define WB_DIAGRAM_STEPS 3

typedef struct {
    WbDiagramStep step[WB_DIAGRAM_STEPS];
    int n;
} WbDiagramChain;

#define WB_DIAGRAM_CHAINS 4

typedef struct {
    int line;
    char *title, *detail;
} WbDiagramLoad;

typedef struct {
    WbDiagramLine *line; /* as the circuits of the wiring, in their order */
    int n_lines;
    WbDiagramChain above[WB_DIAGRAM_CHAINS]; /* what charges the bank */
    int n_above;
    WbDiagramChain below[WB_DIAGRAM_CHAINS]; /* bank and inverter */
    int n_below;
    int feed; /* line from the bus bars to the fuse block; -1: no loads behind it */
    char *block_title, *block_detail;
    WbDiagramLoad *load;
    int n_loads;
    char *bus_title, *bus_detail;
    WbMark earth;
    char *earth_text;
} WbDiagram;

/* NULL while the wiring has no circuits. */
WbDiagram *wb_diagram_new(const WbProblem *problem, const WbKit *kit, const WbWiring *wiring);
void wb_diagram_free(WbDiagram *diagram);
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbDiagram, wb_diagram_free)

#endif
