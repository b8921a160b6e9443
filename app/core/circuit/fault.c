#include "circuit.h"
#include "finding.h"
#include <math.h>

#define RATED_AH 100.0
#define USUAL_CELL_MOHM 0.4 /* of 100 Ah; common practice, at the low end */

double wb_fault_a(double charged_v, double bank_mohm, double conductor_mohm)
{
    return 1000 * charged_v / (bank_mohm + conductor_mohm);
}

double wb_battery_mohm(const WbStorage *storage, const WbChemistry *chemistry, uint32_t *assumed)
{
    if (storage->internal_mohm > 0)
        return storage->internal_mohm;
    *assumed |= WB_ASSUMED_INTERNAL_R;
    double cell_mohm =
        chemistry->cell_mohm_100ah > 0 ? chemistry->cell_mohm_100ah : USUAL_CELL_MOHM;
    double cells =
        chemistry->cell_v > 0 ? fmax(1, round(storage->nominal_v / chemistry->cell_v)) : 1;
    return cells * cell_mohm * RATED_AH / storage->capacity_ah;
}
