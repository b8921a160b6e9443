/* Every colour of our drawings, read from the CSS of the theme in force. */
#ifndef WB_PALETTE_H
#define WB_PALETTE_H

#include <gtk/gtk.h>

/* Chemistries told apart by hue and marker, the same in every picture. */
#define WB_N_SERIES 5

typedef struct {
    GdkRGBA ink, dim, grid, paper;
    GdkRGBA accent; /* what can be acted on, the kit in hand */
    GdkRGBA warm;   /* sun and supply */
    GdkRGBA over;   /* beyond a limit */
    GdkRGBA series[WB_N_SERIES];
} WbPalette;

void wb_palette_read(GtkWidget *widget, WbPalette *palette);

/* Series of a chemistry id; what the person added shares the last one. */
guint wb_palette_series(const char *chemistry);

/* The marker of a series as a path of `radius` px about the current point of view. */
void wb_palette_marker(cairo_t *cr, guint series, double x, double y, double radius);

#endif
