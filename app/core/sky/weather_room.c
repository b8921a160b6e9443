#include "weather_room.h"
#include <stdlib.h>

WbStatus wb_weather_room(int n_years, WbWeather *weather)
{
    if (n_years < 1 || n_years > WB_MOST_WEATHER_YEARS)
        return WB_BAD_INPUT;
    size_t n = (size_t)n_years * WB_YEAR_HOURS;
    WbWeather room = {.n_years = n_years,
                      .global_w_m2 = malloc(n * sizeof(double)),
                      .diffuse_w_m2 = malloc(n * sizeof(double)),
                      .air_c = malloc(n * sizeof(double))};
    if (!room.global_w_m2 || !room.diffuse_w_m2 || !room.air_c) {
        wb_weather_free(&room);
        return WB_NO_MEMORY;
    }
    *weather = room;
    return WB_OK;
}

void wb_weather_free(WbWeather *weather)
{
    free(weather->global_w_m2);
    free(weather->diffuse_w_m2);
    free(weather->air_c);
    *weather = (WbWeather){0};
}
