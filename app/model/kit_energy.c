#include "kit_energy.h"
#include "kit_task.h"
#include "kit_year.h"
#include "store_error.h"
#include <glib/gi18n-lib.h>

#define DAYS_BEFORE 10

int wb_fortnight_first_hour(int worst_hour, int n_years)
{
    int last_day = n_years * WB_YEAR_DAYS - WB_FORTNIGHT_DAYS;
    int day = worst_hour / WB_HOURS - DAYS_BEFORE;
    return CLAMP(day, 0, MAX(last_day, 0)) * WB_HOURS;
}

int wb_kit_energy_lowest(const WbKitEnergy *self)
{
    int lowest = 0;
    for (int h = 1; h < WB_FORTNIGHT_HOURS; h++)
        if (self->hour[h].charge < self->hour[lowest].charge)
            lowest = h;
    return lowest;
}

static void keep_fortnight(WbKitEnergy *self, const WbYearHour *trace, double capacity_wh)
{
    self->first_hour = wb_fortnight_first_hour(self->year.worst_hour, self->year.n_years);
    for (int h = 0; h < WB_FORTNIGHT_HOURS; h++) {
        const WbYearHour *from = &trace[self->first_hour + h];
        self->hour[h] = (WbEnergyHour){
            .charge = from->charge_wh / capacity_wh,
            .floor = from->floor_wh / capacity_wh,
            .sun_wh = from->array_wh,
            .other_wh = from->alternator_wh + from->shore_wh,
            .need_wh = from->need_wh + from->idle_wh + from->heater_wh,
            .unmet_wh = from->unmet_wh,
            .dark = from->unmet_wh > WB_DARK_WH,
        };
    }
}

static gboolean run(WbKitEnergy *self, const WbProblem *problem, const WbKit *kit)
{
    WbYearKit year_kit;
    const WbPlaneHours *plane = &problem->plane;
    WbYearHour *trace = g_try_new(WbYearHour, (gsize)plane->n_years * WB_YEAR_HOURS);
    if (!trace)
        return FALSE;
    wb_kit_year_fill(problem, kit, &year_kit);
    gboolean done = wb_year_run(&year_kit, plane, &self->year, trace) == WB_OK;
    if (done)
        keep_fortnight(self, trace, year_kit.capacity_wh);
    g_free(trace);
    return done;
}

WbKitEnergy *wb_kit_energy_new(const WbResult *result, const char *kit_id, GError **error)
{
    const WbProblem *problem = wb_result_get_problem(result);
    g_autoptr(WbKitEnergy) self = g_new0(WbKitEnergy, 1);
    g_autofree WbVerdict *verdict = g_new(WbVerdict, 1);
    WbKit kit;
    if (!wb_result_kit_id(result, kit_id, self->kit_id) ||
        !wb_kit_parse(problem, self->kit_id, &kit)) {
        g_set_error_literal(error, WB_STORE_ERROR, WB_STORE_ERROR_VALUE,
                            _("No kit works yet, so there is no year to show."));
        return NULL;
    }
    wb_judge_without_year(problem, &kit, verdict);
    self->months = problem->brief->site.months;
    self->own_hours = problem->brief->site.hours != NULL;
    self->autonomy_days = verdict->figures.autonomy_days;
    if (!run(self, problem, &kit)) {
        g_set_error_literal(error, WB_STORE_ERROR, WB_STORE_ERROR_VALUE,
                            _("There was not enough memory to work out the year hour by hour."));
        return NULL;
    }
    return g_steal_pointer(&self);
}

void wb_kit_energy_free(WbKitEnergy *self)
{
    g_free(self);
}

/* ---- on another thread ---- */

static gpointer work(WbResult *result, const char *kit_id, GError **error)
{
    return wb_kit_energy_new(result, kit_id, error);
}

static void free_it(gpointer energy)
{
    wb_kit_energy_free(energy);
}

void wb_kit_energy_make(WbResult *result, const char *kit_id, GCancellable *cancellable,
                        GAsyncReadyCallback done, gpointer data)
{
    wb_kit_task_run(result, kit_id, work, free_it, cancellable, done, data);
}

WbKitEnergy *wb_kit_energy_make_finish(GAsyncResult *result, GError **error)
{
    return g_task_propagate_pointer(G_TASK(result), error);
}
