/* A file is read again only when its path, time or size has changed: edits of a brief come with
 * every key. The time is that of any change, so new permissions count too. */
#include "brief_hours.h"
#include "store_fail.h"
#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>

static char *absolute_path(const cJSON *tree, const char *folder)
{
    const cJSON *member = wb_json_at((cJSON *)tree, "/site/weather/hourly_file");
    return cJSON_IsString(member) ? g_canonicalize_filename(member->valuestring, folder) : NULL;
}

/* Only a plain file has a time and an end; a pipe would keep the window waiting. */
static gboolean look_at(WbBriefHours *hours, GError **error)
{
    GStatBuf info;
    if (g_stat(hours->path, &info) != 0)
        return wb_store_fail(error, WB_STORE_ERROR_FILE, "%s cannot be opened: %s.", hours->path,
                             g_strerror(errno));
    if (!S_ISREG(info.st_mode))
        return wb_store_fail(
            error, WB_STORE_ERROR_FILE,
            "%s is no plain file; a file of hourly weather (EPW or CSV) is needed.", hours->path);
    hours->changed_ns =
        (gint64)info.st_ctim.tv_sec * G_GINT64_CONSTANT(1000000000) + info.st_ctim.tv_nsec;
    hours->size = info.st_size;
    return TRUE;
}

static void fill_place(double *figures, const WbPlace *place)
{
    figures[0] = place->latitude_deg;
    figures[1] = place->longitude_deg;
    figures[2] = place->altitude_m;
    memcpy(figures + 3, place->air_mean_c, sizeof place->air_mean_c);
}

static gboolean same_file(const WbBriefHours *a, const WbBriefHours *b)
{
    return b && g_strcmp0(a->path, b->path) == 0 && a->changed_ns == b->changed_ns &&
           a->size == b->size;
}

static gboolean read_file(WbBriefHours *hours, const WbBriefHours *before, GError **error)
{
    if (!same_file(hours, before))
        hours->read = wb_hours_file_read(hours->path, error);
    else if (before->read)
        hours->read = wb_hours_file_ref(before->read);
    else
        g_propagate_error(error, g_error_copy(before->problem));
    return hours->read != NULL;
}

static gboolean check_place(WbBriefHours *hours, const WbPlace *place, const WbBriefHours *before,
                            GError **error)
{
    gboolean known = before && before->read == hours->read &&
                     memcmp(hours->place, before->place, sizeof hours->place) == 0;
    if (!known)
        return wb_hours_file_check_place(hours->read, place, error);
    if (before->problem)
        g_propagate_error(error, g_error_copy(before->problem));
    return before->problem == NULL;
}

void wb_brief_hours_open(WbBriefHours *hours, const cJSON *tree, const char *folder,
                         const WbPlace *place, const WbBriefHours *before)
{
    *hours = (WbBriefHours){.path = absolute_path(tree, folder)};
    if (!hours->path)
        return;
    fill_place(hours->place, place);
    if (look_at(hours, &hours->problem) && read_file(hours, before, &hours->problem) &&
        check_place(hours, place, before, &hours->problem))
        hours->file = hours->read;
}

void wb_brief_hours_clear(WbBriefHours *hours)
{
    g_clear_pointer(&hours->path, g_free);
    g_clear_pointer(&hours->read, wb_hours_file_unref);
    g_clear_error(&hours->problem);
    hours->file = NULL;
}
