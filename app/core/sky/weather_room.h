/* Memory of a weather record. Private to core/sky. */
#ifndef WB_WEATHER_ROOM_H
#define WB_WEATHER_ROOM_H

#include "weather.h"

/* A record of so many years with all its arrays, solar_shift_h 0; values not set. WB_BAD_INPUT
 * outside 1..WB_MOST_WEATHER_YEARS. */
WbStatus wb_weather_room(int n_years, WbWeather *weather);

#endif
