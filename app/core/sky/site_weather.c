#include "weather.h"

WbStatus wb_weather_of_site(const WbSite *site, WbWeather *weather)
{
    if (site->hours)
        return wb_weather_own(&site->place, site->hours, weather);
    return wb_weather_make(&site->place, site->weather_years, site->weather_seed, weather);
}
