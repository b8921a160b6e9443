/* Stretched by k along y, a x b becomes a x kb; turned it is kb long, too long for the roof once
 * kb > L. A layout on whole mm stretches to one on whole mm. Back from y to floor(y / k): edges of
 * roof and obstacles are multiples of k, and y + kb <= z gives floor(y / k) + b <= floor(z / k), so
 * nothing that was apart meets. What does not enter unturned becomes a square longer than the roof,
 * which does not enter either. */
#include "roof_outline.h"
#include "roof_stretch.h"
#include <stdlib.h>

static const int64_t LENGTH_MOST_MM = 100000; /* as wb_roof_most */

static bool is_plain(const WbRoof *roof)
{
    if (!wb_roof_valid(roof) || roof->n_corners > 0 || roof->margin_mm != 0 || roof->gap_mm != 0)
        return false;
    for (size_t i = 0; i < roof->n_obstacles; i++)
        if (roof->obstacles[i].clearance_mm != 0 || roof->obstacles[i].round)
            return false;
    return true;
}

/* The factor of one side that makes the turned rectangle longer than the other side; 0: the side
 * grows too long.*/
static int64_t factor_of(int64_t side_mm, int64_t of_rect_mm, int64_t other_side_mm)
{
    int64_t factor = other_side_mm / of_rect_mm + 1;
    return factor * side_mm <= LENGTH_MOST_MM ? factor : 0;
}

static int64_t within(int64_t value_mm, int64_t most_mm)
{
    return value_mm < 0 ? 0 : value_mm > most_mm ? most_mm : value_mm;
}

/* Cut to the roof first: what reaches far out would grow too long. */
static size_t stretch_obstacles(const WbRoof *roof, int64_t along, int64_t across, WbObstacle *to)
{
    size_t n = 0;
    for (size_t i = 0; i < roof->n_obstacles; i++) {
        WbObstacle cut = roof->obstacles[i];
        int64_t right_mm = within(cut.x_mm + cut.length_mm, roof->length_mm);
        int64_t back_mm = within(cut.y_mm + cut.width_mm, roof->width_mm);
        int64_t left_mm = within(cut.x_mm, roof->length_mm);
        int64_t front_mm = within(cut.y_mm, roof->width_mm);
        if (left_mm == right_mm || front_mm == back_mm)
            continue;
        cut.x_mm = along * left_mm;
        cut.y_mm = across * front_mm;
        cut.length_mm = along * (right_mm - left_mm);
        cut.width_mm = across * (back_mm - front_mm);
        to[n++] = cut;
    }
    return n;
}

static int64_t longer(int64_t a_mm, int64_t b_mm)
{
    return a_mm > b_mm ? a_mm : b_mm;
}

WbStatus wb_roof_stretch(const WbRoof *roof, int64_t length_mm, int64_t width_mm,
                         WbStretch *stretch)
{
    if (!is_plain(roof) || !wb_roof_length_valid(length_mm) || !wb_roof_length_valid(width_mm))
        return WB_BAD_INPUT;
    bool enters = length_mm <= roof->length_mm && width_mm <= roof->width_mm;
    int64_t along = 1, across = enters ? factor_of(roof->width_mm, width_mm, roof->length_mm) : 1;
    int64_t other = enters ? factor_of(roof->length_mm, length_mm, roof->width_mm) : 1;
    int64_t square_mm = longer(roof->length_mm, roof->width_mm) + 1;
    if (other > 0 && (across == 0 || other < across)) {
        along = other;
        across = 1;
    }
    if (across == 0 || square_mm > LENGTH_MOST_MM)
        return WB_BAD_INPUT;
    WbObstacle *obstacles = calloc(roof->n_obstacles + 1, sizeof *obstacles);
    if (!obstacles)
        return WB_NO_MEMORY;
    *stretch = (WbStretch){.roof = *roof,
                           .length_mm = enters ? along * length_mm : square_mm,
                           .width_mm = enters ? across * width_mm : square_mm,
                           .along = along,
                           .across = across};
    stretch->roof.length_mm *= along;
    stretch->roof.width_mm *= across;
    stretch->roof.n_obstacles = stretch_obstacles(roof, along, across, obstacles);
    stretch->roof.obstacles = obstacles;
    return WB_OK;
}

void wb_roof_stretch_free(WbStretch *stretch)
{
    free((WbObstacle *)stretch->roof.obstacles);
    *stretch = (WbStretch){0};
}

WbRect wb_roof_unstretch(const WbStretch *stretch, WbRect rect)
{
    return (WbRect){rect.x_mm / stretch->along, rect.y_mm / stretch->across,
                    rect.length_mm / stretch->along, rect.width_mm / stretch->across};
}
