/* Lines, cells and figures of a table of text, with sentences that tell where. Private to the
 * store. */
#ifndef WB_HOURS_TEXT_H
#define WB_HOURS_TEXT_H

#include <glib.h>

/* Runs over a NUL-terminated text. */
typedef struct {
    const char *name; /* of the file, for messages */
    const char *at, *end;
    int line; /* number of the last line taken, from 1 */
} WbHoursText;

/* A piece of the text, not terminated. */
typedef struct {
    const char *text;
    gsize n;
} WbCell;

/* The next line without its end (LF or CR LF); FALSE when there is none. */
gboolean wb_hours_text_next(WbHoursText *text, WbCell *line);

/* Cells between commas, without spaces and quotes around; commas in quotes do not part. The number
 * of all cells; the first `most` are stored. */
gsize wb_cells(WbCell line, WbCell *cells, gsize most);

gboolean wb_cell_is(WbCell cell, const char *word); /* in either case */
gboolean wb_cell_begins(WbCell cell, const char *word);
/* The cell for a message, cut after 40 bytes. (transfer full) */
char *wb_cell_show(WbCell cell);

/* What a column takes; most may be INFINITY; unit as in "W/m2", or "". */
typedef struct {
    const char *column;
    double least, most;
    const char *unit;
} WbFigure;

/* A decimal number with a point, within least..most. */
gboolean wb_cell_figure(const WbHoursText *text, const WbFigure *figure, WbCell cell, double *value,
                        GError **error);
/* A whole number. */
gboolean wb_cell_whole(const WbHoursText *text, const WbFigure *figure, WbCell cell, int *value,
                       GError **error);

#endif
