#include "weather_text.h"
#include <glib/gi18n-lib.h>

char *wb_words_weather(const WbSite *site)
{
    const WbHours *hours = site->hours;
    int years = hours ? hours->n_years : site->weather_years;
    if (hours)
        return g_strdup_printf(ngettext("Weather: your own hours, %s, %d year.",
                                        "Weather: your own hours, %s, %d years.", (gulong)years),
                               hours->name, years);
    g_autofree char *seed = g_strdup_printf("%" G_GUINT64_FORMAT, site->weather_seed);
    /* Translators: number of years, then the seed the weather is drawn with. */
    return g_strdup_printf(ngettext("Weather: made hour by hour from the monthly means, %d year, "
                                    "seed %s. A real year can be darker.",
                                    "Weather: made hour by hour from the monthly means, %d years, "
                                    "seed %s. A real year can be darker.",
                                    (gulong)years),
                           years, seed);
}

const char *wb_words_weather_clock(gboolean own_hours)
{
    return own_hours ? _("Hours by the clock of the file.")
                     : _("Hours by the sun, which stands highest at 12.");
}
