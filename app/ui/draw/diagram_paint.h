/* Paints a laid-out wiring diagram, on screen in the palette of the theme, on paper in black. */
#ifndef WB_DIAGRAM_PAINT_H
#define WB_DIAGRAM_PAINT_H

#include "diagram_layout.h"
#include "palette.h"

/* Black on white; faults are told by bold type and a dashed wire, as on screen. */
void wb_palette_print(WbPalette *palette);

/* In the layout's units. The circuits of the chosen and of the pointed line stand out; -1: none. */
void wb_diagram_paint(const WbDiagram *diagram, const WbDiagramLayout *layout, cairo_t *cr,
                      const WbPalette *palette, int chosen, int pointed);
/* A symbol by itself, its middle at (x, y), leads up and down or across; in the current colour. */
void wb_diagram_mark(cairo_t *cr, WbMark mark, double x, double y, gboolean across);

#endif
