/* The figures of place, panels, bank, driving and wishes, as the place page edits them. */
#ifndef WB_SITE_FIELDS_H
#define WB_SITE_FIELDS_H

#include "brief_field.h"

typedef enum {
    WB_SITE_NAME,
    WB_SITE_LATITUDE,
    WB_SITE_LONGITUDE,
    WB_SITE_ALTITUDE,
    WB_SITE_TILT,
    WB_SITE_AZIMUTH,
    WB_SITE_MOUNTING,
    WB_SITE_SHADING,
    WB_SITE_SOILING,
    WB_SITE_ALBEDO,
    WB_SITE_COLD,
    WB_SITE_BANK_PLACE,
    WB_SITE_INSIDE,
    WB_SITE_BANK_OWN,
    WB_SITE_SLEEPING,
    WB_SITE_ALTERNATOR_A,
    WB_SITE_ALTERNATOR_V,
    WB_SITE_DRIVE_HOURS,
    WB_SITE_SHORE_NIGHTS,
    WB_SITE_SHORE_A,
    WB_SITE_WEATHER_YEARS,
    WB_SITE_WEATHER_SEED,
    WB_SITE_AUTONOMY,
    WB_SITE_RULES,
    WB_SITE_MOST_SERIES,
    WB_SITE_MOST_PARALLEL,
    WB_SITE_MOST_CONTROLLERS,
    WB_SITE_MOST_BANK_SERIES,
    WB_SITE_MOST_BANK_PARALLEL,
    WB_N_SITE_FIELDS,
} WbSiteFieldId;

const WbBriefField *wb_site_field(WbSiteFieldId id);
/* A cell of the months' table: WbMonthFigure, or the shading of a month; index: the month. */
const WbBriefField *wb_month_field(int figure);
const WbBriefField *wb_shading_field(void);

#endif
