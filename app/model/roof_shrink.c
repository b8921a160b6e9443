/* Why a roof cannot become so small: what would be left outside, and what to do first. */
#include "figures_text.h"
#include "roof_shape_edit.h"
#include "roof_words.h"
#include <glib/gi18n-lib.h>

/* One axis of what would be left outside: where it begins, from the left or from the front. */
typedef struct {
    gint64 from_mm, end_mm; /* its near side; the roof's new length or width */
    gboolean along;         /* from the left */
} Beyond;

static char *obstacle_words(const char *name, int more, const Beyond *beyond)
{
    g_autofree char *from = wb_text_number((double)beyond->from_mm, 0);
    g_autofree char *end = wb_text_number((double)beyond->end_mm, 0);
    g_autofree char *others =
        more > 0 ? g_strdup_printf(g_dngettext(GETTEXT_PACKAGE, " %d more lies there.",
                                               " %d more lie there.", (gulong)more),
                                   more)
                 : g_strdup("");
    /* Translators: an obstacle's name, two lengths in mm, a further sentence or nothing. */
    return beyond->along
               ? g_strdup_printf(_("%s begins, with its clearance, %s mm from the left, where a "
                                   "roof of %s mm has ended. Move it to the left or remove it "
                                   "first.%s"),
                                 name, from, end, others)
               : g_strdup_printf(_("%s begins, with its clearance, %s mm from the front, where a "
                                   "roof of %s mm has ended. Move it to the front or remove it "
                                   "first.%s"),
                                 name, from, end, others);
}

static char *point_words(const char *name, const Beyond *beyond)
{
    g_autofree char *from = wb_text_number((double)beyond->from_mm, 0);
    /* Translators: "Corner 3" or "The cable gland", a length in mm. */
    return beyond->along
               ? g_strdup_printf(_("%s is %s mm from the left. Move it to the left first."), name,
                                 from)
               : g_strdup_printf(_("%s is %s mm from the front. Move it to the front first."), name,
                                 from);
}

/* An obstacle is refused where even its clearance lies outside; see the brief's reader. */
static gboolean obstacle_beyond(const WbObstacle *o, gint64 length_mm, gint64 width_mm,
                                Beyond *beyond)
{
    gint64 x = o->x_mm - o->clearance_mm, y = o->y_mm - o->clearance_mm;
    *beyond = x >= length_mm ? (Beyond){x, length_mm, TRUE} : (Beyond){y, width_mm, FALSE};
    return x >= length_mm || y >= width_mm;
}

static gboolean point_beyond(const WbCorner *point, gint64 length_mm, gint64 width_mm,
                             Beyond *beyond)
{
    *beyond = point->x_mm > length_mm ? (Beyond){point->x_mm, length_mm, TRUE}
                                      : (Beyond){point->y_mm, width_mm, FALSE};
    return point->x_mm > length_mm || point->y_mm > width_mm;
}

static char *first_obstacle(const WbRoof *roof, gint64 length_mm, gint64 width_mm)
{
    Beyond first = {0}, beyond;
    int index = -1, more = 0;
    for (gsize i = 0; i < roof->n_obstacles; i++) {
        if (!obstacle_beyond(&roof->obstacles[i], length_mm, width_mm, &beyond))
            continue;
        if (index >= 0) {
            more++;
            continue;
        }
        index = (int)i;
        first = beyond;
    }
    g_autofree char *name = index >= 0 ? wb_roof_obstacle_name(roof, index) : NULL;
    return index >= 0 ? obstacle_words(name, more, &first) : NULL;
}

char *wb_roof_left_outside(const WbRoof *roof, gint64 length_mm, gint64 width_mm)
{
    Beyond beyond;
    if (length_mm < 1 || width_mm < 1)
        return NULL;
    char *sentence = first_obstacle(roof, length_mm, width_mm);
    for (gsize i = 0; sentence == NULL && i < roof->n_corners; i++)
        if (point_beyond(&roof->corners[i], length_mm, width_mm, &beyond)) {
            g_autofree char *name = g_strdup_printf(_("Corner %u"), (guint)i + 1);
            sentence = point_words(name, &beyond);
        }
    if (sentence == NULL && roof->has_gland &&
        point_beyond(&roof->gland, length_mm, width_mm, &beyond))
        sentence = point_words(_("The cable gland"), &beyond);
    return sentence;
}
