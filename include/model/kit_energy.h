/* The hourly year of one kit as the window shows it: its results, and the fortnight about the hour
 * of the lowest charge, hour by hour. Of the trace of all hours (some 13 MB in ten years) only the
 * fortnight is kept. */
#ifndef WB_KIT_ENERGY_H
#define WB_KIT_ENERGY_H

#include "result.h"
#include "year.h"
#include <gio/gio.h>

#define WB_FORTNIGHT_DAYS 14
#define WB_FORTNIGHT_HOURS (WB_FORTNIGHT_DAYS * WB_HOURS)

/* Energies in Wh at the bank's terminals, charge and floor as shares of full at the hour's end. */
typedef struct {
    double charge, floor;
    double sun_wh, other_wh; /* array; alternator and shore */
    double need_wh;          /* of the loads, with the parts' own draw */
    double unmet_wh;
    gboolean dark;
} WbEnergyHour;

typedef struct {
    char kit_id[WB_KIT_ID];
    WbYear year;
    guint32 months; /* bit m: in use */
    gboolean own_hours;
    double autonomy_days;
    int first_hour; /* of the fortnight in the record, a midnight */
    WbEnergyHour hour[WB_FORTNIGHT_HOURS];
} WbKitEnergy;

/* Chooses the kit as wb_result_judge does. Takes some 10 ms: any thread but the main one. NULL and
 * one sentence: there is no kit, or no memory. */
WbKitEnergy *wb_kit_energy_new(const WbResult *result, const char *kit_id, GError **error);
void wb_kit_energy_free(WbKitEnergy *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbKitEnergy, wb_kit_energy_free)

/* The same on a thread of the pool; keeps a reference to the result meanwhile. */
void wb_kit_energy_make(WbResult *result, const char *kit_id, GCancellable *cancellable,
                        GAsyncReadyCallback done, gpointer data);
WbKitEnergy *wb_kit_energy_make_finish(GAsyncResult *answer, GError **error);

/* The midnight the fortnight of an hour begins with: the hour lies on its eleventh day, or nearer
 * to an end of the record. */
int wb_fortnight_first_hour(int worst_hour, int n_years);
/* Hour of the fortnight with the lowest charge, 0..335. */
int wb_kit_energy_lowest(const WbKitEnergy *self);

/* ---- in words, all (transfer full) ---- */

/* "14 December", of several years "14 December of year 7"; hour: in the record. */
char *wb_energy_date(const WbYear *year, int hour);
/* "In the worst fortnight of 10 years the bank falls to 31 % on 14 December of year 7." and what
 * the loads miss in it. */
char *wb_kit_energy_sentence(const WbKitEnergy *self);
/* One hour for a card and a screen reader, parts set apart by `between`. `hour` of the fortnight.
 */
char *wb_kit_energy_hour_text(const WbKitEnergy *self, int hour, const char *between);

typedef enum {
    WB_FACT_DARK,
    WB_FACT_UNMET,
    WB_FACT_LOWEST,
    WB_FACT_SPELL,
    WB_FACT_AUTONOMY,
    WB_FACT_SPILLED,
    WB_FACT_CYCLES,
    WB_N_FACTS
} WbEnergyFact;

const char *wb_energy_fact_title(WbEnergyFact fact); /* borrowed, translated */
char *wb_kit_energy_fact(const WbKitEnergy *self, WbEnergyFact fact);

#endif
