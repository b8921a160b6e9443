/* Panel by panel and sun by sun, the share of its area in any shadow: the mean over lines along it
 * and lines across it, as a shadow may be narrow either way; more shadow is never less on any line.
 * Cost: suns (at most 48 a month) x headings x panels x lines x obstacles higher than the panels.
 */
#include "mean_day.h"
#include "roof_arrange.h"
#include "roof_outline.h"
#include "shade_cast.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { LINES = 20, HEADINGS = 16, MOMENTS = 2 /* of an hour */ };

typedef struct {
    WbDirection sun;
    double weight; /* its part of the day's direct light on the flat, kWh/m2 */
} Moment;

typedef struct {
    WbCaster *caster;
    WbShadowSpan *span; /* [n_casters] */
    int n_casters, n_panels;
    const WbRect *layout;
    double *panel_light; /* [n_panels] direct light taken over the year, kWh/m2 */
    double light;        /* of the year */
    WbControl *control;
} Shader;

/* ---- suns ---- */

/* An hour's direct light goes to its moments by the height of the sun. */
static int moments_of(const WbMeanDay *day, const WbDayHour *hour, Moment moment[MOMENTS])
{
    double up = 0;
    for (int k = 0; k < MOMENTS; k++) {
        double at_h = hour->from_h + (k + 0.5) / MOMENTS * (hour->to_h - hour->from_h);
        moment[k].sun =
            wb_sun_direction(day->latitude_rad, day->declination_rad, wb_hour_angle_rad(at_h));
        moment[k].weight = fmax(0, moment[k].sun.up);
        up += moment[k].weight;
    }
    if (!(hour->on.beam > 0 && up > 0))
        return 0;
    int n = 0;
    for (int k = 0; k < MOMENTS; k++)
        if (moment[k].weight > 0) {
            moment[n] = moment[k];
            moment[n++].weight *= hour->on.beam / up;
        }
    return n;
}

/* The way of a shadow for one unit of height, in the roof's axes: along it to the right of who
 * looks to the front, across it to the back. */
static void shadow_way(WbDirection sun, double front_azimuth_deg, double way[2])
{
    double front_rad = front_azimuth_deg * WB_RAD_PER_DEG;
    double east = -sun.east / sun.up, north = -sun.north / sun.up;
    way[0] = east * cos(front_rad) - north * sin(front_rad);
    way[1] = -east * sin(front_rad) - north * cos(front_rad);
}

/* ---- one panel under one sun ---- */

static void sort_in(WbShadowSpan *span, int n, WbShadowSpan added)
{
    int at = n;
    for (; at > 0 && span[at - 1].from > added.from; at--)
        span[at] = span[at - 1];
    span[at] = added;
}

static double covered(const WbShadowSpan *span, int n)
{
    double sum = 0, reached = -INFINITY;
    for (int i = 0; i < n; i++) {
        double from = fmax(span[i].from, reached);
        if (span[i].to > from) {
            sum += span[i].to - from;
            reached = span[i].to;
        }
    }
    return sum;
}

static bool can_meet(const WbCaster *caster, const double way[2], const double low[2],
                     const double high[2])
{
    for (int axis = 0; axis < 2; axis++) {
        double shift = way[axis] * caster->height;
        if (caster->low[axis] + fmin(0, shift) >= high[axis] ||
            caster->high[axis] + fmax(0, shift) <= low[axis])
            return false;
    }
    return true;
}

static double line_share(const Shader *shader, const WbCaster *near, int n_near,
                         const double way[2], int axis, double at, const double low[2],
                         const double high[2])
{
    int n = 0;
    for (int i = 0; i < n_near; i++) {
        WbShadowSpan span;
        if (!wb_shadow_cut(&near[i], way, axis, at, &span))
            continue;
        span.from = fmax(span.from, low[1 - axis]);
        span.to = fmin(span.to, high[1 - axis]);
        if (span.from < span.to)
            sort_in(shader->span, n++, span);
    }
    return covered(shader->span, n) / (high[1 - axis] - low[1 - axis]);
}

/* The casters that can meet the panel are brought to the front of their array. */
static double panel_share(Shader *shader, const WbRect *rect, const double way[2])
{
    double low[2] = {(double)rect->x_mm, (double)rect->y_mm};
    double high[2] = {(double)(rect->x_mm + rect->length_mm),
                      (double)(rect->y_mm + rect->width_mm)};
    int n_near = 0;
    for (int i = 0; i < shader->n_casters; i++)
        if (can_meet(&shader->caster[i], way, low, high)) {
            WbCaster near = shader->caster[i];
            shader->caster[i] = shader->caster[n_near];
            shader->caster[n_near++] = near;
        }
    if (n_near == 0)
        return 0;
    double sum = 0;
    for (int k = 0; k < 2 * LINES; k++) {
        int axis = k % 2;
        double at = low[axis] + (k / 2 + 0.5) / LINES * (high[axis] - low[axis]);
        sum += line_share(shader, shader->caster, n_near, way, axis, at, low, high);
    }
    return sum / (2 * LINES);
}

/* ---- months ---- */

/* Light taken from all panels under this sun, kWh/m2 summed over them. */
static double under_sun(Shader *shader, const Moment *moment, double front_azimuth_deg, double days)
{
    int headings = isnan(front_azimuth_deg) ? HEADINGS : 1;
    double sum = 0;
    for (int i = 0; i < headings; i++) {
        double way[2];
        shadow_way(moment->sun, headings == 1 ? front_azimuth_deg : i * 360.0 / HEADINGS, way);
        for (int k = 0; k < shader->n_panels; k++) {
            double taken = moment->weight * panel_share(shader, &shader->layout[k], way) / headings;
            shader->panel_light[k] += taken * days;
            sum += taken;
        }
    }
    return sum;
}

static WbStatus shade_month(Shader *shader, const WbRoof *roof, const WbSite *site, int m,
                            double *share)
{
    static const int days[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    WbMeanDay day = wb_mean_day_of(&site->place, m);
    WbDayHour hour[WB_HOURS];
    wb_split_day(&day, hour);
    double light = 0, taken = 0;
    for (int h = 0; h < WB_HOURS; h++) {
        if (wb_control_stopped(shader->control))
            return WB_STOPPED;
        Moment moment[MOMENTS];
        int n = moments_of(&day, &hour[h], moment);
        for (int k = 0; k < n; k++) {
            light += moment[k].weight;
            taken += under_sun(shader, &moment[k], roof->front_azimuth_deg, days[m]);
        }
    }
    shader->light += light * days[m];
    *share = light > 0 && shader->n_panels > 0 ? taken / light / shader->n_panels : 0;
    return WB_OK;
}

static bool place_valid(const WbPlace *place)
{
    if (!(fabs(place->latitude_deg) <= 90))
        return false;
    for (int m = 0; m < WB_MONTHS; m++)
        if (!(place->ghi_kwh_m2_day[m] >= 0 && isfinite(place->ghi_kwh_m2_day[m])))
            return false;
    return true;
}

static void list_casters(Shader *shader, const WbRoof *roof)
{
    for (size_t i = 0; i < roof->n_obstacles; i++) {
        const WbObstacle *obstacle = &roof->obstacles[i];
        if (obstacle->kind != WB_OBSTACLE_STANDS || obstacle->height_mm <= roof->standoff_mm)
            continue;
        shader->caster[shader->n_casters++] =
            (WbCaster){.low = {(double)obstacle->x_mm, (double)obstacle->y_mm},
                       .high = {(double)(obstacle->x_mm + obstacle->length_mm),
                                (double)(obstacle->y_mm + obstacle->width_mm)},
                       .height = (double)(obstacle->height_mm - roof->standoff_mm),
                       .round = obstacle->round};
    }
}

static WbStatus shade_year(Shader *shader, const WbRoof *roof, const WbSite *site, double month[12])
{
    WbStatus status = WB_OK;
    list_casters(shader, roof);
    for (int m = 0; m < WB_MONTHS && status == WB_OK; m++)
        status = shade_month(shader, roof, site, m, &month[m]);
    return status;
}

WbStatus wb_roof_shade(const WbRoof *roof, const WbSite *site, const WbRect *layout, int n,
                       WbControl *control, double month[12], double *by_panel)
{
    if (n < 0 || !wb_roof_valid(roof) || !place_valid(&site->place))
        return WB_BAD_INPUT;
    Shader shader = {.caster = malloc((roof->n_obstacles + 1) * sizeof(WbCaster)),
                     .span = malloc((roof->n_obstacles + 1) * sizeof(WbShadowSpan)),
                     .panel_light = calloc((size_t)n + 1, sizeof(double)),
                     .n_panels = n,
                     .layout = layout,
                     .control = control};
    double share[12];
    WbStatus status = shader.caster && shader.span && shader.panel_light
                          ? shade_year(&shader, roof, site, share)
                          : WB_NO_MEMORY;
    if (status == WB_OK) {
        memcpy(month, share, sizeof share);
        for (int i = 0; by_panel && i < n; i++)
            by_panel[i] = shader.light > 0 ? shader.panel_light[i] / shader.light : 0;
    }
    free(shader.caster);
    free(shader.span);
    free(shader.panel_light);
    return status;
}
