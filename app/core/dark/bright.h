/* Which of two kits on the same bank can never have more dark hours: one that gets at least as much
 * in every hour and needs no more (wb_year_is_monotone). Where that is not proved, only kits equal
 * in all of it are comparable. Private to core. */
#ifndef WB_BRIGHT_H
#define WB_BRIGHT_H

#include "feed.h"
#include "kit_year.h"

typedef struct {
    WbArrayLaw law;
    double dcdc_a; /* output; 0: none */
    int inverter;
} WbBrightKit;

/* Kits kept of one bank. */
typedef struct {
    WbBrightKit *kit;
    size_t n, room;
    uint8_t monotone; /* 0: not yet asked */
} WbBrightBank;

typedef struct {
    const WbProblem *problem;
    WbBrightBank *bank; /* by storage, series and parallel */
    WbNeeds needs;
} WbBright;

/* False: out of memory; wb_bright_free is in order all the same. */
bool wb_bright_init(WbBright *bright, const WbProblem *problem);
void wb_bright_free(WbBright *bright);

WbBrightKit wb_bright_kit(const WbProblem *problem, const WbKit *kit);
/* The bank a kit stands on. */
WbBrightBank *wb_bright_bank(WbBright *bright, const WbKit *kit);

/* Is one of the kits kept of this bank never darker than this kit? */
bool wb_bright_is_outshone(WbBright *bright, WbBrightBank *bank, const WbBrightKit *kit);
/* Is this kit never darker than one of them? */
bool wb_bright_outshines(WbBright *bright, WbBrightBank *bank, const WbBrightKit *kit);
/* Forgets those that this kit is never darker than: where only the brightest are of use. */
void wb_bright_drop_outshone(WbBright *bright, WbBrightBank *bank, const WbBrightKit *kit);
/* False: out of memory. */
bool wb_bright_keep(WbBrightBank *bank, const WbBrightKit *kit);

#endif
