/* Packing instances as lines of figures with spaces between; data/FORMATS.md. */
#include "brief_read.h"
#include "roof_instances_gather.h"
#include "store_fail.h"
#include "text_rules.h"

static const WbFigure roof_length = {"W", 1, WB_MOST_MM, "mm"};
static const WbFigure roof_width = {"H", 1, WB_MOST_MM, "mm"};
static const WbFigure n_obstacles = {"n_obstacles", 0, WB_ROOF_INSTANCE_OBSTACLES, ""};
static const WbFigure n_sizes = {"n_sizes", 1, WB_MIX_SIZES, ""};
static const WbFigure most_flag = {"most", 0, 1, ""};
static const WbFigure turns_flag = {"turns", 0, 1, ""};
static const WbFigure obstacle_x = {"x", -WB_MOST_MM, WB_MOST_MM, "mm"};
static const WbFigure obstacle_y = {"y", -WB_MOST_MM, WB_MOST_MM, "mm"};
static const WbFigure obstacle_w = {"w", 1, WB_MOST_MM, "mm"};
static const WbFigure obstacle_h = {"h", 1, WB_MOST_MM, "mm"};
static const WbFigure size_a = {"a", 1, WB_MOST_MM, "mm"};
static const WbFigure size_b = {"b", 1, WB_MOST_MM, "mm"};
static const WbFigure count_of_most = {"count", 1, WB_ROOF_INSTANCE_COUNT, ""};
static const WbFigure count_of_all = {"count", 1, WB_MIX_PANELS, ""};

enum { HEAD_FIELDS = 7, OBSTACLE_FIELDS = 4, SIZE_FIELDS = 3 };

/* Fields with spaces between: the number of all; the first `most` are stored. */
static gsize fields(WbCell line, WbCell *field, gsize most)
{
    gsize count = 0, from = 0;
    for (gsize i = 0; i <= line.n; i++) {
        if (i < line.n && line.text[i] != ' ' && line.text[i] != '\t')
            continue;
        if (i > from) {
            if (count < most)
                field[count] = (WbCell){line.text + from, i - from};
            count++;
        }
        from = i + 1;
    }
    return count;
}

static gboolean read_name(const WbHoursText *text, WbCell cell, char **name, GError **error)
{
    *name = g_strndup(cell.text, cell.n);
    gboolean right = g_utf8_strlen(*name, -1) <= WB_NAME_MOST;
    for (const char *c = *name; *c; c = g_utf8_next_char(c))
        right = right && *c != ',' && !g_unichar_iscntrl(g_utf8_get_char(c));
    if (right)
        return TRUE;
    g_clear_pointer(name, g_free);
    g_autofree char *shown = wb_cell_show(cell);
    return wb_store_fail(error, WB_STORE_ERROR_VALUE,
                         "%s, line %d: name is \"%s\"; 1 to %d characters without spaces, commas "
                         "and control characters are accepted.",
                         text->name, text->line, shown, WB_NAME_MOST);
}

/* The next line of an instance, `what` and `i` of `n` for the sentence. */
static gboolean next_fields(WbHoursText *text, const WbRoofInstance *instance, const char *what,
                            gsize i, gsize n, WbCell *field, gsize wanted, const char *names,
                            GError **error)
{
    WbCell line;
    if (!wb_instances_next(text, &line))
        return wb_store_fail(error, WB_STORE_ERROR_FORMAT,
                             "%s ends at line %d within instance %s of line %d, before %s %zu of "
                             "%zu; a line \"%s\" is needed.",
                             text->name, text->line, instance->name, instance->line, what, i + 1, n,
                             names);
    gsize found = fields(line, field, wanted);
    if (found == wanted)
        return TRUE;
    return wb_store_fail(error, WB_STORE_ERROR_FORMAT,
                         "%s, line %d has %zu field%s where %s %zu of %zu of instance %s (line %d) "
                         "takes %zu: %s.",
                         text->name, text->line, found, found == 1 ? "" : "s", what, i + 1, n,
                         instance->name, instance->line, wanted, names);
}

/* Further out it is a slip, as in a brief. */
static gboolean check_on_roof(const WbHoursText *text, const WbObstacle *obstacle,
                              const WbRoof *roof, GError **error)
{
    if (obstacle->x_mm < roof->length_mm && obstacle->x_mm + obstacle->length_mm > 0 &&
        obstacle->y_mm < roof->width_mm && obstacle->y_mm + obstacle->width_mm > 0)
        return TRUE;
    return wb_store_fail(error, WB_STORE_ERROR_VALUE,
                         "%s, line %d: the obstacle lies wholly outside the roof: it reaches from "
                         "(%" G_GINT64_FORMAT ", %" G_GINT64_FORMAT ") to (%" G_GINT64_FORMAT
                         ", %" G_GINT64_FORMAT "), the roof from (0, 0) to (%" G_GINT64_FORMAT
                         ", %" G_GINT64_FORMAT ").",
                         text->name, text->line, obstacle->x_mm, obstacle->y_mm,
                         obstacle->x_mm + obstacle->length_mm, obstacle->y_mm + obstacle->width_mm,
                         roof->length_mm, roof->width_mm);
}

static gboolean read_obstacles(WbHoursText *text, WbRoofInstance *instance, int n, GError **error)
{
    WbObstacle *obstacles = g_new0(WbObstacle, n);
    instance->roof.obstacles = obstacles;
    for (int i = 0; i < n; i++) {
        WbCell field[OBSTACLE_FIELDS];
        int x_mm, y_mm, length_mm, width_mm;
        if (!next_fields(text, instance, "obstacle", (gsize)i, (gsize)n, field, OBSTACLE_FIELDS,
                         "x y w h", error) ||
            !wb_cell_whole(text, &obstacle_x, field[0], &x_mm, error) ||
            !wb_cell_whole(text, &obstacle_y, field[1], &y_mm, error) ||
            !wb_cell_whole(text, &obstacle_w, field[2], &length_mm, error) ||
            !wb_cell_whole(text, &obstacle_h, field[3], &width_mm, error))
            return FALSE;
        obstacles[i] = (WbObstacle){.name = "obstacle",
                                    .x_mm = x_mm,
                                    .y_mm = y_mm,
                                    .length_mm = length_mm,
                                    .width_mm = width_mm};
        if (!check_on_roof(text, &obstacles[i], &instance->roof, error))
            return FALSE;
        instance->roof.n_obstacles++;
    }
    return TRUE;
}

static gboolean read_sizes(WbHoursText *text, WbRoofInstance *instance, int n, gboolean turns,
                           GError **error)
{
    const WbFigure *count_figure = instance->most ? &count_of_most : &count_of_all;
    int panels = 0;
    instance->items = g_new0(WbMixItem, n);
    for (int i = 0; i < n; i++) {
        WbCell field[SIZE_FIELDS];
        int a_mm, b_mm, count;
        if (!next_fields(text, instance, "size", (gsize)i, (gsize)n, field, SIZE_FIELDS,
                         "a b count", error) ||
            !wb_cell_whole(text, &size_a, field[0], &a_mm, error) ||
            !wb_cell_whole(text, &size_b, field[1], &b_mm, error) ||
            !wb_cell_whole(text, count_figure, field[2], &count, error))
            return FALSE;
        panels += count;
        if (!instance->most && panels > WB_MIX_PANELS)
            return wb_store_fail(error, WB_STORE_ERROR_VALUE,
                                 "%s, line %d: the counts of instance %s (line %d) come to %d "
                                 "here; 1 to %d rectangles together are accepted.",
                                 text->name, text->line, instance->name, instance->line, panels,
                                 WB_MIX_PANELS);
        instance->items[instance->n_items++] =
            (WbMixItem){.length_mm = a_mm, .width_mm = b_mm, .count = count, .turns = turns};
    }
    return TRUE;
}

static gboolean read_instance(WbHoursText *text, WbCell head, WbRoofInstances *to, GError **error)
{
    WbCell field[HEAD_FIELDS];
    gsize found = fields(head, field, HEAD_FIELDS);
    if (found != HEAD_FIELDS)
        return wb_store_fail(error, WB_STORE_ERROR_FORMAT,
                             "%s, line %d has %zu field%s; an instance begins with 7: name W H "
                             "n_obstacles n_sizes most turns.",
                             text->name, text->line, found, found == 1 ? "" : "s");
    char *name;
    int length_mm, width_mm, obstacles, sizes, most, turns;
    if (!read_name(text, field[0], &name, error))
        return FALSE;
    WbRoofInstance *instance = wb_instances_add(to, text, name, error);
    if (!instance || !wb_cell_whole(text, &roof_length, field[1], &length_mm, error) ||
        !wb_cell_whole(text, &roof_width, field[2], &width_mm, error) ||
        !wb_cell_whole(text, &n_obstacles, field[3], &obstacles, error) ||
        !wb_cell_whole(text, &n_sizes, field[4], &sizes, error) ||
        !wb_cell_whole(text, &most_flag, field[5], &most, error) ||
        !wb_cell_whole(text, &turns_flag, field[6], &turns, error))
        return FALSE;
    instance->roof.length_mm = length_mm;
    instance->roof.width_mm = width_mm;
    instance->most = most == 1;
    if (most == 1 && sizes != 1)
        return wb_store_fail(error, WB_STORE_ERROR_VALUE,
                             "%s, line %d: n_sizes is %d; with most 1 one size is accepted, with "
                             "most 0 all sizes are asked for together.",
                             text->name, text->line, sizes);
    return read_obstacles(text, instance, obstacles, error) &&
           read_sizes(text, instance, sizes, turns == 1, error);
}

gboolean wb_instances_read_plain(WbHoursText *text, WbRoofInstances *to, GError **error)
{
    WbCell line;
    while (wb_instances_next(text, &line))
        if (!read_instance(text, line, to, error))
            return FALSE;
    return TRUE;
}
