/* The handbook's worksheet: one kit sized with a pencil from the worst month. Method of the Sandia
 * stand-alone handbook (SAND87-7023) and IEEE 1013, both from memory; no weather hour by hour. */
#ifndef WB_WORKSHEET_H
#define WB_WORKSHEET_H

#include "place.h"
#include "status.h"

/* What goes in. Only months in use are looked at. Shares are above 0 and at most 1. */
typedef struct {
    bool in_use[WB_MONTHS];
    double dc_wh[WB_MONTHS], ac_wh[WB_MONTHS]; /* Wh a day, as the devices draw them */
    double peak_sun_h[WB_MONTHS];         /* kWh/m2 a day on the plane, shading and soiling off */
    double temperature_factor[WB_MONTHS]; /* share of the capacity left in the month's cold */
    double bank_v;                        /* nominal */
    double inverter_efficiency;           /* looked at only where a month has ac_wh */
    double wire_efficiency, charge_efficiency;
    double string_a; /* A into the bank from one string at 1000 W/m2 */
    double derating; /* share of string_a to count on */
    double storage_days;
    double depth;      /* share that may be drawn */
    double battery_ah; /* of one battery, in one string of the bank */
} WbWorksheetInput;

typedef struct {
    double load_ah[WB_MONTHS];       /* a day: (dc + ac / inverter efficiency) / bank V */
    double corrected_ah[WB_MONTHS];  /* a day: load / (wire x charge efficiency) */
    double design_a[WB_MONTHS];      /* corrected / peak sun hours; INFINITY: a need without sun */
    int design_month;                /* largest design current, first of equals */
    double strings_exact;            /* design current / (string A x derating) */
    int storage_month;               /* largest required Ah, first of equals */
    double required_ah[WB_MONTHS];   /* corrected x days / (depth x temperature factor) */
    double batteries_parallel_exact; /* required / battery Ah */
} WbWorksheet;

#define WB_WORKSHEET_WIRE_EFFICIENCY 0.98

/* Months out of use are 0. WB_BAD_INPUT: no month in use, or a figure of one that is not finite,
 * negative or outside its range. */
WbStatus wb_worksheet(const WbWorksheetInput *input, WbWorksheet *sheet);

/* An exact count rounded up to whole ones, a billionth over not counted; -1 where no number of them
 * is enough. */
int wb_worksheet_whole(double exact);

#endif
