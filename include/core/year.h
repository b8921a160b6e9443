/* The hourly balance of one kit over years of weather: what the sun and other sources give, what
 * the bank takes, holds and gives back, what the loads want and do not get.
 *
 * Knows nothing of parts and briefs; kit_year.h fills these records from them. Energies in Wh at
 * the bank's terminals; one step is an hour, so W and Wh an hour are one number. */
#ifndef WB_YEAR_H
#define WB_YEAR_H

#include "array.h"
#include "bank_days.h"
#include "demand.h"
#include "weather.h"

/* Other sources by weekday and hour, Wh at the terminals, in the months in use. */
typedef struct {
    double alternator_wh[WB_HOURS];     /* every day */
    double shore_wh[WB_WEEK][WB_HOURS]; /* a night of shore power ends on the next weekday */
} WbOtherSources;

typedef struct {
    WbArrayLaw array;
    WbOtherSources other;
    const WbDemand *demand;
    const WbBankDays *days;
    double capacity_wh; /* nominal V x Ah x strings, at the rated hours and 25 C */
    double depth;       /* of it that may be drawn, 0..1 */
    /* Bank's W at the rated current. A Wh given in an hour takes max(1, (W / rated_w)^(k-1)) from
     * the charge besides the discharging loss; W = the hour's whole need, on the safe side in hours
     * with some sun. */
    double rated_w;
    double peukert;
    double charge_efficiency, discharge_efficiency;
    double
        charge_efficiency_full; /* at full charge; falls in a straight line from accept_from on */
    double max_charge_w, max_discharge_w;
    double accept_w, accept_full_w; /* charge acceptance below accept_from, and at full; a straight
                                       line between. INFINITY: no taper */
    double accept_from;             /* state of charge 0..1 */
    double self_discharge_h;        /* share of the charge lost each hour */
    double heater_w; /* draws this while it charges on a too cold day; 0: does not charge then */
} WbYearKit;

/* Of one hour, for traces: in Wh. Balance of the terminals, to 1e-9 of the larger side:
 *   array + alternator + shore + drawn + unmet = need + idle + heater + charged + spilled
 * and of the bank: charge = charge before + stored - drained - lost. */
typedef struct {
    double array_wh, clipped_wh, alternator_wh, shore_wh;
    double need_wh, heater_wh;
    double idle_wh;  /* controllers' own draw, as far as it was met: the loads come first */
    double unmet_wh; /* of the need */
    double charged_wh, stored_wh; /* taken at the terminals, kept after the charging loss */
    double drawn_wh, drained_wh;  /* given at the terminals, taken from the charge */
    double lost_wh;               /* self-discharge */
    double spilled_wh;            /* kept by the array's limit, but neither used nor stored */
    double charge_wh;             /* at the hour's end */
    double floor_wh;              /* charge below which nothing is drawn */
} WbYearHour;

/* Means a day of the month over all years. */
typedef struct {
    double array_wh, clipped_wh, alternator_wh, shore_wh, need_wh, own_draw_wh, unmet_wh,
        spilled_wh;
    double dark_h;        /* a month */
    double lowest_charge; /* share of full, of any year */
} WbYearMonth;

typedef struct {
    int n_years;
    double dark_h;       /* a year, mean; only months in use count */
    double dark_worst_h; /* of the worst year */
    int dark_worst_year;
    double need_wh, unmet_wh; /* a year, mean, months in use */
    double loss_of_load;      /* unmet / need; 0 without need */
    double lowest_charge;     /* share of full, months in use */
    int longest_dark_h;       /* longest spell */
    double spilled_wh;        /* a year, mean, months in use */
    double full_cycles;       /* drained / capacity, a year, mean, whole year */
    int worst_hour;           /* index of the hour of the lowest charge (first of equals); the worst
                                 fortnight ends about there */
    WbYearMonth month[WB_MONTHS];
} WbYear;

/* An hour is dark if more than this of its need is not met, Wh. */
#define WB_DARK_WH 1e-6

/* Is it proved that for this bank more array, alternator or shore in any hour, or less need or own
 * draw, never gives more dark hours? True unless the charging efficiency falls very steeply. */
bool wb_year_is_monotone(const WbYearKit *kit);

/* Whole balance of one kit; the bank starts full. trace: n_years x 8760 records, or NULL.
 * WB_BAD_INPUT: a figure negative, missing or beyond its range, an efficiency of 0 or rising
 * towards full, acceptance rising towards full, or cold days of another number of years. */
WbStatus wb_year_run(const WbYearKit *kit, const WbPlaneHours *plane, WbYear *year,
                     WbYearHour *trace);

/* Mean dark hours a year of many kits at once, which must share `days`; the same bits as
 * wb_year_run gives, whatever the vector width. A kit whose mean is already sure to exceed `enough`
 * may be left early: its answer is then some number above `enough` (INFINITY: never). Control is
 * asked once a year of every 16 kits. WB_STOPPED, WB_BAD_INPUT as wb_year_run, WB_NO_MEMORY. */
WbStatus wb_year_dark(const WbYearKit *const *kits, size_t n, const WbPlaneHours *plane,
                      double enough, WbControl *control, double *dark_h);
/* The same on one way of computing that runs here, for tests and benchmarks. */
WbStatus wb_year_dark_on(WbVector vector, const WbYearKit *const *kits, size_t n,
                         const WbPlaneHours *plane, double enough, WbControl *control,
                         double *dark_h);

#endif
