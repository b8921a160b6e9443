/* A place and how the system stands in it. Months run 0 (January) to 11 (December). */
#ifndef WB_PLACE_H
#define WB_PLACE_H

#include <stdbool.h>
#include <stdint.h>

#define WB_MONTHS 12
#define WB_HOURS 24

typedef struct {
    const char *id, *name, *country;
    const char *kind, *source, *years; /* how good the figures are and whose they are */
    double latitude_deg, longitude_deg, altitude_m; /* north and east positive */
    double ghi_kwh_m2_day[WB_MONTHS];               /* global horizontal, mean day of the month */
    double air_mean_c[WB_MONTHS], air_max_c[WB_MONTHS], air_min_c[WB_MONTHS];
} WbPlace;

typedef enum { WB_MOUNT_RAISED, WB_MOUNT_CLOSE, WB_MOUNT_BONDED } WbMounting;
typedef enum { WB_BANK_INSIDE, WB_BANK_OUTSIDE, WB_BANK_OWN } WbBankWhere;

typedef struct {
    WbPlace place;
    uint32_t months;                /* bit m: month m is in use */
    double tilt_deg;                /* 0 flat .. 90 upright */
    double azimuth_deg;             /* clockwise from north; NaN: any, the mean over all */
    double shading_loss[WB_MONTHS]; /* 0..1 */
    double soiling_loss;            /* 0..1 */
    double ground_albedo;           /* 0..1 */
    int mounting;                   /* WbMounting */
    double design_cold_c;           /* lowest air temperature ever expected, all twelve months; see
                                       wb_design_cold_c for the default */
    int bank_where;                 /* WbBankWhere */
    double bank_own_c;              /* bank temperature where bank_where is WB_BANK_OWN */
    double inside_c;                /* living space, where the bank stands inside */
    bool sleeping_space;            /* the bank shares air with sleepers */
    int weather_years;              /* of made weather, 1..100; 10 */
    uint64_t weather_seed;          /* of made weather; 1 */
    const struct WbHours *hours;    /* the person's own hours instead (weather.h); NULL: made */
} WbSite;

/* Default design cold: the coldest month's mean minimum less 15 K (our assumption, shown). */
double wb_design_cold_c(const WbPlace *place);
/* Bank temperature in a month, C. Inside: inside_c, whatever the weather. Outside: the month's mean
 * air. Own: bank_own_c. */
double wb_bank_temperature_c(const WbSite *site, int month);

#endif
