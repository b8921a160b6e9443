#include "site_fields.h"

#include "site_edit.h"
#include <glib/gi18n-lib.h>
#include <math.h>

static const char *name(const WbBrief *brief, int index)
{
    return brief->site.place.name;
}

static double latitude(const WbBrief *brief, int index)
{
    return brief->site.place.latitude_deg;
}

static double longitude(const WbBrief *brief, int index)
{
    return brief->site.place.longitude_deg;
}

static double altitude(const WbBrief *brief, int index)
{
    return brief->site.place.altitude_m;
}

static double tilt(const WbBrief *brief, int index)
{
    return brief->site.tilt_deg;
}

static double azimuth(const WbBrief *brief, int index)
{
    return brief->site.azimuth_deg;
}

static double mounting(const WbBrief *brief, int index)
{
    return brief->site.mounting;
}

static double shading(const WbBrief *brief, int month)
{
    return brief->site.shading_loss[month];
}

static double soiling(const WbBrief *brief, int index)
{
    return brief->site.soiling_loss;
}

static double albedo(const WbBrief *brief, int index)
{
    return brief->site.ground_albedo;
}

static double cold(const WbBrief *brief, int index)
{
    return brief->site.design_cold_c;
}

static double bank_place(const WbBrief *brief, int index)
{
    return brief->site.bank_where;
}

static double inside(const WbBrief *brief, int index)
{
    return brief->site.inside_c;
}

static double bank_own(const WbBrief *brief, int index)
{
    return brief->site.bank_own_c;
}

static double sleeping(const WbBrief *brief, int index)
{
    return brief->site.sleeping_space;
}

static double alternator_a(const WbBrief *brief, int index)
{
    return brief->driving.alternator_a;
}

static double alternator_v(const WbBrief *brief, int index)
{
    return brief->driving.alternator_v == 24;
}

static double drive_hours(const WbBrief *brief, int index)
{
    return brief->driving.drive_hours_day;
}

static double shore_nights(const WbBrief *brief, int index)
{
    return brief->shore.nights_week;
}

static double shore_a(const WbBrief *brief, int index)
{
    return brief->shore.charger_a;
}

static double weather_years(const WbBrief *brief, int index)
{
    return brief->site.weather_years;
}

static double weather_seed(const WbBrief *brief, int index)
{
    return (double)brief->site.weather_seed;
}

static double autonomy(const WbBrief *brief, int index)
{
    return brief->autonomy_target_days;
}

static double rules(const WbBrief *brief, int index)
{
    return brief->rule_set;
}

static double most_series(const WbBrief *brief, int index)
{
    return brief->largest.series;
}

static double most_parallel(const WbBrief *brief, int index)
{
    return brief->largest.parallel;
}

static double most_controllers(const WbBrief *brief, int index)
{
    return brief->largest.controllers;
}

static double most_bank_series(const WbBrief *brief, int index)
{
    return brief->largest.bank_series;
}

static double most_bank_parallel(const WbBrief *brief, int index)
{
    return brief->largest.bank_parallel;
}

static const char *const mounting_words[] = {N_("Raised over the roof"), N_("Close to the roof"),
                                             N_("Bonded to the roof"), NULL};
static const char *const mounting_json[] = {"\"raised\"", "\"close\"", "\"bonded\"", NULL};
static const char *const bank_words[] = {N_("Inside"), N_("Outside"), N_("At its own temperature"),
                                         NULL};
static const char *const bank_json[] = {"\"inside\"", "\"outside\"", "\"own\"", NULL};
static const char *const volt_words[] = {"12 V", "24 V", NULL};
static const char *const volt_json[] = {"12", "24", NULL};
static const char *const rule_words[] = {N_("Road vehicle"), N_("Boat"), N_("Building"), NULL};
static const char *const rule_json[] = {"\"road-vehicle\"", "\"boat\"", "\"building\"", NULL};

static const WbBriefField fields[WB_N_SITE_FIELDS] = {
    [WB_SITE_NAME] = {.title = N_("Name"),
                      .step = N_("Rename the place"),
                      .pointer = "/site/place/name",
                      .kind = WB_BRIEF_TEXT,
                      .text = name},
    [WB_SITE_LATITUDE] = {.title = N_("Latitude, north positive"),
                          .unit = "\302\260",
                          .step = N_("Change the latitude"),
                          .pointer = "/site/place/latitude_deg",
                          .number = latitude},
    [WB_SITE_LONGITUDE] = {.title = N_("Longitude, east positive"),
                           .unit = "\302\260",
                           .step = N_("Change the longitude"),
                           .pointer = "/site/place/longitude_deg",
                           .number = longitude},
    [WB_SITE_ALTITUDE] = {.title = N_("Altitude"),
                          .unit = "m",
                          .step = N_("Change the altitude"),
                          .pointer = "/site/place/altitude_m",
                          .number = altitude},
    [WB_SITE_TILT] = {.title = N_("Tilt, 0 is flat"),
                      .unit = "\302\260",
                      .step = N_("Change the tilt"),
                      .pointer = "/site/tilt_deg",
                      .number = tilt},
    [WB_SITE_AZIMUTH] = {.title = N_("Direction they face"),
                         .unit = "\302\260",
                         .note = N_("Clockwise from north: 180 is south. Empty: any, for "
                                    "what turns."),
                         .step = N_("Change the direction"),
                         .pointer = "/site/azimuth_deg",
                         .empty = N_("any"),
                         .empty_json = "\"any\"",
                         .number = azimuth},
    [WB_SITE_MOUNTING] = {.title = N_("Mounting"),
                          .step = N_("Change the mounting"),
                          .pointer = "/site/mounting",
                          .kind = WB_BRIEF_CHOICE,
                          .words = mounting_words,
                          .json = mounting_json,
                          .number = mounting},
    [WB_SITE_SHADING] = {.title = N_("Lost to shade"),
                         .unit = "%",
                         .step = N_("Change the shading"),
                         .pointer = "/site/shading_loss",
                         .scale = 100,
                         .number = shading},
    [WB_SITE_SOILING] = {.title = N_("Lost to dust"),
                         .unit = "%",
                         .step = N_("Change the soiling"),
                         .pointer = "/site/soiling_loss",
                         .scale = 100,
                         .number = soiling},
    [WB_SITE_ALBEDO] = {.title = N_("Reflected by the ground"),
                        .unit = "%",
                        .note = N_("Matters for tilted panels: 20 grass, 60 to 80 snow."),
                        .step = N_("Change the ground's albedo"),
                        .pointer = "/site/ground_albedo",
                        .scale = 100,
                        .number = albedo},
    [WB_SITE_COLD] = {.title = N_("Coldest expected, all year"),
                      .unit = "\302\260C",
                      .step = N_("Change the coldest temperature"),
                      .pointer = "/site/design_cold_c",
                      .empty = N_("assumed"),
                      .empty_json = "null",
                      .number = cold},
    [WB_SITE_BANK_PLACE] = {.title = N_("The bank stands"),
                            .step = N_("Move the bank"),
                            .pointer = "/site/bank_place",
                            .kind = WB_BRIEF_CHOICE,
                            .words = bank_words,
                            .json = bank_json,
                            .number = bank_place},
    [WB_SITE_INSIDE] = {.title = N_("Temperature inside"),
                        .unit = "\302\260C",
                        .step = N_("Change the temperature inside"),
                        .pointer = "/site/inside_c",
                        .number = inside},
    [WB_SITE_BANK_OWN] = {.title = N_("Temperature of the bank"),
                          .unit = "\302\260C",
                          .step = N_("Change the bank's temperature"),
                          .pointer = "/site/bank_own_c",
                          .number = bank_own},
    [WB_SITE_SLEEPING] = {.title = N_("It shares the air with sleepers"),
                          .note = N_("Lead-acid gives off hydrogen when it charges."),
                          .step = N_("Change the sleeping space"),
                          .pointer = "/site/sleeping_space",
                          .kind = WB_BRIEF_FLAG,
                          .number = sleeping},
    [WB_SITE_ALTERNATOR_A] = {.title = N_("Alternator, rated"),
                              .unit = "A",
                              .step = N_("Change the alternator"),
                              .pointer = "/driving/alternator_a",
                              .number = alternator_a},
    [WB_SITE_ALTERNATOR_V] = {.title = N_("Its system"),
                              .step = N_("Change the alternator's voltage"),
                              .pointer = "/driving/alternator_v",
                              .kind = WB_BRIEF_CHOICE,
                              .words = volt_words,
                              .json = volt_json,
                              .number = alternator_v},
    [WB_SITE_DRIVE_HOURS] = {.title = N_("Driven a day"),
                             .unit = "h",
                             .step = N_("Change the hours driven"),
                             .pointer = "/driving/hours_per_day",
                             .number = drive_hours},
    [WB_SITE_SHORE_NIGHTS] = {.title = N_("Nights on shore power"),
                              .unit = N_("a week"),
                              .note = N_("Spread evenly over the week, from 18:00 to 8:00."),
                              .step = N_("Change the nights on shore power"),
                              .pointer = "/shore/nights_per_week",
                              .number = shore_nights},
    [WB_SITE_SHORE_A] = {.title = N_("Shore charger"),
                         .unit = "A",
                         .step = N_("Change the shore charger"),
                         .pointer = "/shore/charger_a",
                         .number = shore_a},
    [WB_SITE_WEATHER_YEARS] = {.title = N_("Weather made from the months"),
                               .unit = N_("years"),
                               .note = N_("More years tell rare dark spells better, and take "
                                          "longer."),
                               .step = N_("Change the years of weather"),
                               .pointer = "/site/weather/years",
                               .number = weather_years},
    [WB_SITE_WEATHER_SEED] = {.title = N_("Seed of the weather"),
                              .unit = "",
                              .note = N_("Another seed: other years of the same climate."),
                              .step = N_("Change the seed of the weather"),
                              .pointer = "/site/weather/seed",
                              .number = weather_seed},
    [WB_SITE_AUTONOMY] = {.title = N_("Without any charge, at least"),
                          .unit = N_("days"),
                          .step = N_("Change the days of autonomy"),
                          .pointer = "/targets/autonomy_days",
                          .number = autonomy},
    [WB_SITE_RULES] = {.title = N_("Built into a"),
                       .step = N_("Change the rule set"),
                       .pointer = "/rule_set",
                       .kind = WB_BRIEF_CHOICE,
                       .words = rule_words,
                       .json = rule_json,
                       .number = rules},
    [WB_SITE_MOST_SERIES] = {.title = N_("Panels in series"),
                             .step = N_("Change the most panels in series"),
                             .pointer = "/largest/series",
                             .number = most_series},
    [WB_SITE_MOST_PARALLEL] = {.title = N_("Strings of panels in parallel"),
                               .step = N_("Change the most strings"),
                               .pointer = "/largest/parallel",
                               .number = most_parallel},
    [WB_SITE_MOST_CONTROLLERS] = {.title = N_("Controllers"),
                                  .step = N_("Change the most controllers"),
                                  .pointer = "/largest/controllers",
                                  .number = most_controllers},
    [WB_SITE_MOST_BANK_SERIES] = {.title = N_("Batteries in series"),
                                  .step = N_("Change the most batteries in series"),
                                  .pointer = "/largest/bank_series",
                                  .number = most_bank_series},
    [WB_SITE_MOST_BANK_PARALLEL] = {.title = N_("Batteries in parallel"),
                                    .step = N_("Change the most batteries in parallel"),
                                    .pointer = "/largest/bank_parallel",
                                    .number = most_bank_parallel},
};

const WbBriefField *wb_site_field(WbSiteFieldId id)
{
    g_return_val_if_fail((int)id >= 0 && id < WB_N_SITE_FIELDS, NULL);
    return &fields[id];
}

/* ---- months ---- */

static double sun(const WbBrief *brief, int month)
{
    return wb_month_figure(&brief->site.place, WB_MONTH_SUN, month);
}

static double air_mean(const WbBrief *brief, int month)
{
    return wb_month_figure(&brief->site.place, WB_MONTH_AIR_MEAN, month);
}

static double air_max(const WbBrief *brief, int month)
{
    return wb_month_figure(&brief->site.place, WB_MONTH_AIR_MAX, month);
}

static double air_min(const WbBrief *brief, int month)
{
    return wb_month_figure(&brief->site.place, WB_MONTH_AIR_MIN, month);
}

static const WbBriefField month_fields[WB_N_MONTH_FIGURES + 1] = {
    [WB_MONTH_SUN] = {.title = N_("Sun on the flat"),
                      .unit = N_("kWh/m\302\262 a day"),
                      .step = N_("Change the irradiation"),
                      .pointer = "/site/place/ghi_kwh_m2_day/#",
                      .decimals = 2,
                      .number = sun},
    [WB_MONTH_AIR_MEAN] = {.title = N_("Mean air"),
                           .unit = "\302\260C",
                           .step = N_("Change the mean temperature"),
                           .pointer = "/site/place/air_mean_c/#",
                           .decimals = 1,
                           .number = air_mean},
    [WB_MONTH_AIR_MAX] = {.title = N_("Mean highest"),
                          .unit = "\302\260C",
                          .step = N_("Change the highest temperature"),
                          .pointer = "/site/place/air_max_c/#",
                          .decimals = 1,
                          .number = air_max},
    [WB_MONTH_AIR_MIN] = {.title = N_("Mean lowest"),
                          .unit = "\302\260C",
                          .step = N_("Change the lowest temperature"),
                          .pointer = "/site/place/air_min_c/#",
                          .decimals = 1,
                          .number = air_min},
    [WB_N_MONTH_FIGURES] = {.title = N_("Shade"),
                            .unit = "%",
                            .step = N_("Change the shading"),
                            .pointer = "/site/shading_loss/#",
                            .scale = 100,
                            .number = shading},
};

const WbBriefField *wb_month_field(int figure)
{
    g_return_val_if_fail(figure >= 0 && figure < WB_N_MONTH_FIGURES, NULL);
    return &month_fields[figure];
}

const WbBriefField *wb_shading_field(void)
{
    return &month_fields[WB_N_MONTH_FIGURES];
}
