/* What unlike panels lose when they must share a current or a voltage. */
#ifndef WB_MISMATCH_H
#define WB_MISMATCH_H

#include "part.h"
#include "status.h"
#include <stddef.h>

/* So many alike panels in series. */
typedef struct {
    const WbPanel *panel;
    int n;
} WbPanelRun;

/* Where panels that work together give most, under standard conditions. */
typedef struct {
    double power_w, voltage_v, current_a;
} WbPeak;

/* Share of the power that all panels give, each at its own maximum power point, which is left at
 * the common one; 0..1, under standard conditions. Curve of a panel from its four data-sheet points
 * (Rauschenbach, Solar Cell Array Design Handbook, 1980): I = Isc (1 - c1 (exp(V / (c2 Voc)) - 1)).
 * Series: one string of all runs. A panel that cannot carry the current is bypassed and takes
 * 0.5 V for each 24 of its cells or part of them (cells unknown: 0.5 V).
 * Parallel: each run is a string; no blocking diodes.
 * WB_BAD_INPUT: no run, n below 1, or a panel without 0 < Imp < Isc and 0 < Vmp < Voc, or
 * with a corner so sharp that c1 is 0 in a double. */
WbStatus wb_mismatch_series(const WbPanelRun *runs, size_t n_runs, double *kept);
WbStatus wb_mismatch_parallel(const WbPanelRun *runs, size_t n_runs, double *kept);

/* The same points themselves, and the sum of the panels' own best, W. One run of one panel: that
 * panel's own point. WB_BAD_INPUT as above. */
WbStatus wb_peak_series(const WbPanelRun *runs, size_t n_runs, WbPeak *peak);
WbStatus wb_peak_parallel(const WbPanelRun *runs, size_t n_runs, WbPeak *peak);
WbStatus wb_peak_apart(const WbPanelRun *runs, size_t n_runs, double *apart_w);
/* What an accepted run stands at: V at a current, below 0 where it is bypassed; A at a voltage,
 * below 0 where it takes from the others. */
double wb_run_voltage_v(const WbPanelRun *run, double amps);
double wb_run_current_a(const WbPanelRun *run, double volts);

#endif
