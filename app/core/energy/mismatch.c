/* Unlike panels together. The power of a string against its current has a hill for each kind of
 * panel, so the highest is looked for on a grid and then closed in upon; each look costs one
 * logarithm or exponential for each run. */
#include "mismatch.h"
#include <float.h>
#include <math.h>

#define BYPASS_V 0.5
#define CELLS_A_DIODE 24
#define LOOKS 512
#define HALVINGS 40

typedef struct {
    const WbPanelRun *runs;
    size_t n_runs;
    double (*power_w)(const WbPanelRun *runs, size_t n_runs, double x);
} Hills;

static double curve_c2(const WbPanel *panel)
{
    return (panel->vmp_v / panel->voc_v - 1) / log(1 - panel->imp_a / panel->isc_a);
}

static double curve_c1(const WbPanel *panel, double c2)
{
    return (1 - panel->imp_a / panel->isc_a) * exp(-panel->vmp_v / (c2 * panel->voc_v));
}

static double current_a(const WbPanel *panel, double volts)
{
    double c2 = curve_c2(panel);
    return panel->isc_a * (1 - curve_c1(panel, c2) * expm1(volts / (c2 * panel->voc_v)));
}

static double bypass_v(const WbPanel *panel)
{
    int64_t diodes = panel->cells > 0 ? (panel->cells + CELLS_A_DIODE - 1) / CELLS_A_DIODE : 1;
    return -BYPASS_V * (double)diodes;
}

static double volts_at(const WbPanel *panel, double amps)
{
    double c2 = curve_c2(panel);
    double inner = 1 + (1 - amps / panel->isc_a) / curve_c1(panel, c2);
    if (inner <= 0)
        return bypass_v(panel);
    return fmax(bypass_v(panel), c2 * panel->voc_v * log(inner));
}

double wb_run_voltage_v(const WbPanelRun *run, double amps)
{
    return run->n * volts_at(run->panel, amps);
}

double wb_run_current_a(const WbPanelRun *run, double volts)
{
    return current_a(run->panel, volts / run->n);
}

static double series_w(const WbPanelRun *runs, size_t n_runs, double amps)
{
    double volts = 0;
    for (size_t i = 0; i < n_runs; i++)
        volts += wb_run_voltage_v(&runs[i], amps);
    return volts * amps;
}

static double parallel_w(const WbPanelRun *runs, size_t n_runs, double volts)
{
    double amps = 0;
    for (size_t i = 0; i < n_runs; i++)
        amps += wb_run_current_a(&runs[i], volts);
    return volts * amps;
}

/* Highest power for x in 0..most, and where. */
static double highest_w(const Hills *hills, double most, double *at)
{
    double best_x = 0, best_w = 0, step = most / LOOKS;
    for (int i = 1; i <= LOOKS; i++) {
        double w = hills->power_w(hills->runs, hills->n_runs, i * step);
        if (w > best_w) {
            best_w = w;
            best_x = i * step;
        }
    }
    for (int i = 0; i < HALVINGS; i++, step /= 2)
        for (int side = -1; side <= 1; side += 2) {
            double x = best_x + side * step;
            double w = x > 0 ? hills->power_w(hills->runs, hills->n_runs, x) : 0;
            if (w > best_w) {
                best_w = w;
                best_x = x;
            }
        }
    *at = best_x;
    return best_w;
}

/* c1 shrinks to nothing where the corner of the curve is too sharp for these figures. */
static bool has_curve(const WbPanel *panel)
{
    return panel->imp_a > 0 && panel->imp_a < panel->isc_a && panel->vmp_v > 0 &&
           panel->vmp_v < panel->voc_v && isfinite(panel->isc_a) && isfinite(panel->voc_v) &&
           curve_c1(panel, curve_c2(panel)) >= DBL_MIN;
}

static bool is_accepted(const WbPanelRun *runs, size_t n_runs)
{
    for (size_t i = 0; i < n_runs; i++)
        if (runs[i].n < 1 || !has_curve(runs[i].panel))
            return false;
    return n_runs > 0;
}

WbStatus wb_peak_series(const WbPanelRun *runs, size_t n_runs, WbPeak *peak)
{
    if (!is_accepted(runs, n_runs))
        return WB_BAD_INPUT;
    double most_a = 0;
    for (size_t i = 0; i < n_runs; i++)
        most_a = fmax(most_a, runs[i].panel->isc_a);
    Hills hills = {runs, n_runs, series_w};
    peak->power_w = highest_w(&hills, most_a, &peak->current_a);
    peak->voltage_v = peak->power_w / peak->current_a;
    return WB_OK;
}

WbStatus wb_peak_parallel(const WbPanelRun *runs, size_t n_runs, WbPeak *peak)
{
    if (!is_accepted(runs, n_runs))
        return WB_BAD_INPUT;
    double most_v = 0;
    for (size_t i = 0; i < n_runs; i++)
        most_v = fmax(most_v, runs[i].n * runs[i].panel->voc_v);
    Hills hills = {runs, n_runs, parallel_w};
    peak->power_w = highest_w(&hills, most_v, &peak->voltage_v);
    peak->current_a = peak->power_w / peak->voltage_v;
    return WB_OK;
}

WbStatus wb_peak_apart(const WbPanelRun *runs, size_t n_runs, double *apart_w)
{
    double sum_w = 0;
    for (size_t i = 0; i < n_runs; i++) {
        WbPanelRun one = {runs[i].panel, 1};
        WbPeak peak;
        if (runs[i].n < 1 || wb_peak_series(&one, 1, &peak) != WB_OK)
            return WB_BAD_INPUT;
        sum_w += runs[i].n * peak.power_w;
    }
    *apart_w = sum_w;
    return n_runs > 0 ? WB_OK : WB_BAD_INPUT;
}

WbStatus wb_mismatch_series(const WbPanelRun *runs, size_t n_runs, double *kept)
{
    WbPeak together;
    double apart_w;
    if (wb_peak_series(runs, n_runs, &together) != WB_OK ||
        wb_peak_apart(runs, n_runs, &apart_w) != WB_OK)
        return WB_BAD_INPUT;
    *kept = fmin(1, together.power_w / apart_w);
    return WB_OK;
}

WbStatus wb_mismatch_parallel(const WbPanelRun *runs, size_t n_runs, double *kept)
{
    WbPeak together;
    double apart_w;
    if (wb_peak_parallel(runs, n_runs, &together) != WB_OK ||
        wb_peak_apart(runs, n_runs, &apart_w) != WB_OK)
        return WB_BAD_INPUT;
    *kept = fmin(1, together.power_w / apart_w);
    return WB_OK;
}
