/* Comparisons the rules share, beside wb_finding_at_most and wb_finding_at_least. */
#ifndef WB_COMPARE_H
#define WB_COMPARE_H

#include "rules.h"

/* A finding as judged elsewhere, without a margin: for limits of which a share means nothing. */
WbFinding wb_finding_of(WbRule rule, double value, double limit, bool holds, WbSeverity severity);
/* value == limit holds (volts of a system, 1 of 1); no margin is meant. */
WbFinding wb_finding_equal(WbRule rule, double value, double limit, WbSeverity severity);
/* One is needed: value 1 or 0, limit 1. */
WbFinding wb_finding_needed(WbRule rule, bool there, WbSeverity severity);
/* A limit of the brief: stop while it is switched on, else a note by how much. */
WbSeverity wb_limit_severity(bool on);
/* Idle, and which figure of the data sheet is missing (WbAssumption). */
WbFinding wb_finding_unchecked(WbRule rule, uint32_t assumed);
/* The one of the system voltages marked as made that lies nearest; the lower of two, 0 of none. */
int wb_nearest_bus_v(bool v12, bool v24, bool v48, double wanted_v);

#endif
