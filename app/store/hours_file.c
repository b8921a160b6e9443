#include "hours_file.h"
#include "hours_gather.h"
#include "store_fail.h"
#include "sun.h"
#include "text_file.h"
#include <math.h>
#include <string.h>

/* A hundred years of EPW. */
#define MOST_MIB 256
#define MOST_AWAY_DEG 3
#define MOST_OFF_NOON_H 0.75
/* Dusk, a clock a little off and a place some degrees away leave less than this at night. */
#define MOST_AT_NIGHT 0.02

struct WbHoursFile {
    gatomicrefcount references;
    WbHoursGather gather; /* owns the figures */
    WbHours hours;        /* a view of them */
    char *name;
    GPtrArray *notes;
};

static void add_note(WbHoursFile *file, const char *format, ...) G_GNUC_PRINTF(2, 3);

static void add_note(WbHoursFile *file, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    g_ptr_array_add(file->notes, g_strdup_vprintf(format, arguments));
    va_end(arguments);
}

static void add_notes(WbHoursFile *file)
{
    const WbHoursGather *gather = &file->gather;
    if (gather->n_leap_days > 0)
        add_note(file, "29 February is left out (%d times): a year has 365 days here.",
                 gather->n_leap_days);
    if (gather->n_no_diffuse > 0)
        add_note(file,
                 "%zu of %u hours have no diffuse radiation; it is worked out from the global "
                 "(Erbs, Klein & Duffie 1982).",
                 gather->n_no_diffuse, gather->line->len);
    if (gather->n_no_air > 0)
        add_note(file,
                 "%zu of %u hours have no air temperature; the usual course of the place's month "
                 "is taken.",
                 gather->n_no_air, gather->line->len);
    if (isnan(gather->utc_offset_h))
        add_note(file, "The file does not tell its clock's UTC offset (# utc_offset_h: 1); the "
                       "whole hours nearest to the place's longitude / 15 are taken.");
}

static void fill_view(WbHoursFile *file)
{
    const WbHoursGather *gather = &file->gather;
    file->hours = (WbHours){
        .n_years = (int)(gather->line->len / WB_YEAR_HOURS),
        .global_w_m2 = (const double *)(gconstpointer)gather->global_w_m2->data,
        .diffuse_w_m2 = (const double *)(gconstpointer)gather->diffuse_w_m2->data,
        .air_c = (const double *)(gconstpointer)gather->air_c->data,
        .utc_offset_h = gather->utc_offset_h,
        .name = file->name,
    };
}

/* text[length] is NUL. */
static WbHoursFile *parse(const char *text, gsize length, const char *name, GError **error)
{
    static const char mark[] = "\xef\xbb\xbf"; /* some programs begin UTF-8 with it */
    WbHoursText rows = {.name = name, .at = text, .end = text + length};
    if (length >= strlen(mark) && memcmp(text, mark, strlen(mark)) == 0)
        rows.at += strlen(mark);
    g_autoptr(WbHoursFile) file = g_new0(WbHoursFile, 1);
    g_atomic_ref_count_init(&file->references);
    file->name = g_strdup(name);
    file->notes = g_ptr_array_new_with_free_func(g_free);
    wb_hours_gather_init(&file->gather);
    WbCell head = {rows.at, (gsize)(rows.end - rows.at)};
    gboolean read = wb_cell_begins(head, "LOCATION,")
                        ? wb_hours_read_epw(&rows, &file->gather, error)
                        : wb_hours_read_csv(&rows, &file->gather, error);
    if (!read || !wb_hours_gather_end(&file->gather, &rows, error))
        return NULL;
    fill_view(file);
    add_notes(file);
    return g_steal_pointer(&file);
}

WbHoursFile *wb_hours_file_read(const char *path, GError **error)
{
    gsize length;
    g_autofree char *text = wb_text_file_read_most(path, MOST_MIB, &length, error);
    return text ? parse(text, length, path, error) : NULL;
}

WbHoursFile *wb_hours_file_parse(const char *text, gssize length, const char *name, GError **error)
{
    gsize n = length < 0 ? strlen(text) : (gsize)length;
    g_autofree char *copy = g_malloc(n + 1);
    memcpy(copy, text, n);
    copy[n] = '\0';
    return parse(copy, n, name, error);
}

WbHoursFile *wb_hours_file_ref(WbHoursFile *file)
{
    g_atomic_ref_count_inc(&file->references);
    return file;
}

void wb_hours_file_unref(WbHoursFile *file)
{
    if (!g_atomic_ref_count_dec(&file->references))
        return;
    wb_hours_gather_clear(&file->gather);
    g_ptr_array_unref(file->notes);
    g_free(file->name);
    g_free(file);
}

const WbHours *wb_hours_file_hours(const WbHoursFile *file)
{
    return &file->hours;
}

const GPtrArray *wb_hours_file_notes(const WbHoursFile *file)
{
    return file->notes;
}

/* Of the great circle between two places; a longitude east of south stands in for an azimuth. */
static double away_deg(const WbHoursGather *gather, const WbPlace *place)
{
    WbDirection there = wb_plane_normal((90 - gather->latitude_deg) * WB_RAD_PER_DEG,
                                        gather->longitude_deg * WB_RAD_PER_DEG);
    WbDirection here = wb_plane_normal((90 - place->latitude_deg) * WB_RAD_PER_DEG,
                                       place->longitude_deg * WB_RAD_PER_DEG);
    return acos(CLAMP(wb_cos_between(there, here), -1, 1)) / WB_RAD_PER_DEG;
}

static gboolean check_clock(const WbHoursFile *file, const WbPlace *place, const WbWeather *weather,
                            GError **error)
{
    double off_h = wb_light_middle_h(weather) - 12;
    if (fabs(off_h) <= MOST_OFF_NOON_H)
        return TRUE;
    return wb_store_fail(error, WB_STORE_ERROR_VALUE,
                         "%s: its light lies about %.1f h %s the noon of %s; up to %g h is "
                         "accepted, so check the clock's UTC offset (no summer time), that a row "
                         "is the hour that begins at its time, and the place.",
                         file->name, fabs(off_h), off_h < 0 ? "before" : "after", place->name,
                         MOST_OFF_NOON_H);
}

/* Noon to sunset of a day, 0..364. */
static double half_day_h(const WbPlace *place, int day)
{
    return wb_sunset_rad(place->latitude_deg * WB_RAD_PER_DEG, wb_declination_rad(day + 1)) /
           WB_PI * 12;
}

/* Share of all light that falls into hours with the sun down from end to end; 0 without light. */
static double light_at_night(const WbWeather *weather, const WbPlace *place)
{
    double all = 0, night = 0;
    for (int d = 0; d < weather->n_years * WB_YEAR_DAYS; d++) {
        double half_h = half_day_h(place, d % WB_YEAR_DAYS);
        double shift_h = weather->solar_shift_h[d % WB_YEAR_DAYS];
        for (int h = 0; h < WB_HOURS; h++) {
            double light = weather->global_w_m2[d * WB_HOURS + h];
            double from_noon_h = fabs(remainder(h + 0.5 + shift_h - 12, 24));
            all += light;
            if (from_noon_h - 0.5 >= half_h)
                night += light;
        }
    }
    return all > 0 ? night / all : 0;
}

/* The days of another hemisphere are long where the place's are short. */
static gboolean check_seasons(const WbHoursFile *file, const WbPlace *place,
                              const WbWeather *weather, GError **error)
{
    double share = light_at_night(weather, place);
    if (share <= MOST_AT_NIGHT)
        return TRUE;
    return wb_store_fail(error, WB_STORE_ERROR_VALUE,
                         "%s: %.0f %% of its light falls into hours when the sun of %s is down; up "
                         "to %g %% is accepted. It looks like a file of the other hemisphere, of a "
                         "place far away or of a year that does not begin in January.",
                         file->name, share * 100, place->name, MOST_AT_NIGHT * 100);
}

static gboolean check_light(const WbHoursFile *file, const WbPlace *place, GError **error)
{
    WbWeather weather;
    WbStatus status = wb_weather_own(place, &file->hours, &weather);
    if (status != WB_OK)
        return wb_store_fail(error, WB_STORE_ERROR_VALUE, "%s does not fit %s: %s", file->name,
                             place->name, wb_status_describe(status));
    gboolean fits =
        check_clock(file, place, &weather, error) && check_seasons(file, place, &weather, error);
    wb_weather_free(&weather);
    return fits;
}

gboolean wb_hours_file_check_place(const WbHoursFile *file, const WbPlace *place, GError **error)
{
    const WbHoursGather *gather = &file->gather;
    if (!isnan(gather->latitude_deg) && away_deg(gather, place) > MOST_AWAY_DEG)
        return wb_store_fail(error, WB_STORE_ERROR_VALUE,
                             "%s was recorded at latitude %g, longitude %g, %.0f degrees of arc "
                             "from %s (%g, %g); up to %d are accepted.",
                             file->name, gather->latitude_deg, gather->longitude_deg,
                             away_deg(gather, place), place->name, place->latitude_deg,
                             place->longitude_deg, MOST_AWAY_DEG);
    return check_light(file, place, error);
}
