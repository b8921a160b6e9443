/* The weather a brief's year is worked out with, in words. */
#ifndef WB_WEATHER_TEXT_H
#define WB_WEATHER_TEXT_H

#include "weather.h"
#include <glib.h>

/* "Weather: made hour by hour from these monthly means, 10 years, seed 1. ..." or the file of own
 * hours. (transfer full) */
char *wb_words_weather(const WbSite *site);
/* Which clock the hours follow, one sentence. */
const char *wb_words_weather_clock(gboolean own_hours);

#endif
