/* Rows of an hourly file on their way into whole years: their order, their number, their units.
 * Private to the store. */
#ifndef WB_HOURS_GATHER_H
#define WB_HOURS_GATHER_H

#include "hours_text.h"
#include "weather.h"

/* Begin of an hour; month and day from 1, hour 0..23. */
typedef struct {
    int month, day, hour;
} WbHoursDate;

typedef struct {
    GArray *global_w_m2, *diffuse_w_m2, *air_c; /* double; WB_MISSING where the row has none */
    GArray *line;                               /* int: where the row stands */
    gboolean dated;                             /* rows have dates */
    int leap_hours;                             /* of the 29 February just passed */
    int n_leap_days;                            /* left out */
    gsize n_no_diffuse, n_no_air;
    double utc_offset_h;                /* WB_MISSING: not told */
    double latitude_deg, longitude_deg; /* of an EPW's location; else WB_MISSING */
} WbHoursGather;

void wb_hours_gather_init(WbHoursGather *gather);
void wb_hours_gather_clear(WbHoursGather *gather);

/* Is this the next hour? *leave_out: a row of 29 February. */
gboolean wb_hours_gather_date(WbHoursGather *gather, const WbHoursText *text, WbHoursDate date,
                              gboolean *leave_out, GError **error);
void wb_hours_gather_row(WbHoursGather *gather, int line, double global_w_m2, double diffuse_w_m2,
                         double air_c);
/* FALSE with an error beyond the most years. */
gboolean wb_hours_gather_has_room(const WbHoursGather *gather, const WbHoursText *text,
                                  GError **error);
/* Whole years, and figures that can be W/m2. */
gboolean wb_hours_gather_end(const WbHoursGather *gather, const WbHoursText *text, GError **error);
gboolean wb_hours_check_units(const WbHoursGather *gather, const WbHoursText *text, GError **error);

/* Each reads a whole text. What radiation and air may be: see hours_gather.c. */
extern const WbFigure wb_hours_global, wb_hours_diffuse, wb_hours_air;
gboolean wb_hours_read_epw(WbHoursText *text, WbHoursGather *gather, GError **error);
gboolean wb_hours_read_csv(WbHoursText *text, WbHoursGather *gather, GError **error);

#endif
