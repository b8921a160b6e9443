/* Random small catalogues and briefs, seeded: for brute-force tests and benchmarks. Figures are
 * drawn so that every rule breaks in some kits and a fair share of kits works. */
#ifndef WB_GEN_H
#define WB_GEN_H

#include "brief.h"
#include "part.h"
#include "random.h"

#define GEN_MOST 64
#define GEN_OWNED 8

typedef struct {
    int panels, controllers, storage, inverters, dcdc;
    int series, parallel, controllers_most, bank_series, bank_parallel;
} GenSize;

typedef struct {
    WbCatalogue catalogue;
    WbBrief brief;
    WbPanel panel[GEN_MOST];
    WbController controller[GEN_MOST];
    WbStorage storage[GEN_MOST];
    WbInverter inverter[GEN_MOST];
    WbDcdc dcdc[GEN_MOST];
    WbConductor conductor[GEN_MOST];
    WbFuse fuse[GEN_MOST];
    WbFitting fitting[GEN_MOST];
    WbChemistry chemistry[3];
    WbShop shop[4];
    WbOffer offer[4 * 9 * GEN_MOST];
    WbLoad load[6];
    WbObstacle obstacle[3];
    WbOwned owned[GEN_OWNED];
    char id[9 * GEN_MOST][16];
    size_t n_ids;
} Gen;

GenSize gen_small(WbRandom *random);
void gen_fill(Gen *gen, WbRandom *random, const GenSize *size);
/* Conductors, fuses, fittings and the brief's wiring, in most cases on. Some are not sold. */
void gen_wiring(Gen *gen, WbRandom *random);
/* The same parts in another order. */
void gen_shuffle(Gen *gen, WbRandom *random);

#endif
