/* Conductors, fuses and fittings for the random catalogues: few of each, so that every way in which
 * a circuit cannot be built comes up. */
#include "conductor.h"
#include "gen.h"
#include <stdio.h>

static bool chance(WbRandom *random, double share)
{
    return wb_random_unit(random) < share;
}

static int whole(WbRandom *random, int low, int high)
{
    return low + (int)wb_random_below(random, (uint64_t)(high - low + 1));
}

static const char *new_id(Gen *gen, const char *stem)
{
    char *id = gen->id[gen->n_ids++];
    snprintf(id, sizeof gen->id[0], "%s-%02zu", stem, gen->n_ids);
    return id;
}

/* Now and then nobody sells it. */
static void sell(Gen *gen, WbRandom *random, const char *id, int from_minor, int to_minor)
{
    for (int s = 0; s < 2; s++)
        if (chance(random, 0.8))
            gen->offer[gen->catalogue.n_offers++] =
                (WbOffer){.part_id = id,
                          .shop_id = gen->shop[s].id,
                          .price_minor = whole(random, from_minor, to_minor),
                          .currency = gen->shop[s].currency,
                          .date = "2026-05-01"};
}

static WbPart part(Gen *gen, WbRandom *random, const char *stem, double kg, int minor)
{
    WbPart made = {.id = new_id(gen, stem), .maker = "", .model = "", .notes = "", .weight_kg = kg};
    sell(gen, random, made.id, minor, 3 * minor);
    return made;
}

static void fill_conductors(Gen *gen, WbRandom *random)
{
    static const double metric_mm2[] = {1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95};
    static const double metric_r20[] = {13.3,  7.98,  4.95,  3.30,  1.91, 1.21,
                                        0.780, 0.554, 0.386, 0.272, 0.206};
    static const int64_t insulation_c[] = {75, 90, 105};
    int n = 0, most = whole(random, 5, 11);
    for (int i = 0; i < most; i++) {
        bool awg = chance(random, 0.4);
        double area = awg ? wb_awg_area_mm2(wb_awg_gauge(whole(random, 2, 14))) : metric_mm2[i];
        gen->conductor[n++] =
            (WbConductor){.part = part(gen, random, "w", area * 0.011, 40 + (int)(20 * area)),
                          .system = awg ? WB_SIZE_AWG : WB_SIZE_METRIC,
                          .size = "x",
                          .area_mm2 = area,
                          .r20_ohm_km = awg ? 17.241 / area : metric_r20[i],
                          .insulation_c = insulation_c[whole(random, 0, 2)]};
    }
    gen->catalogue.conductors = gen->conductor;
    gen->catalogue.n_conductors = (size_t)n;
}

static void fill_fuses(Gen *gen, WbRandom *random)
{
    static const struct {
        int64_t form;
        double from_a, to_a, max_v, interrupt_a;
    } forms[] = {
        {WB_FUSE_BLADE, 3, 40, 32, 1000},      {WB_FUSE_MEGA, 40, 300, 32, 2000},
        {WB_FUSE_ANL, 60, 400, 32, 6000},      {WB_FUSE_CLASS_T, 110, 400, 125, 20000},
        {WB_FUSE_TERMINAL, 30, 300, 58, 2000}, {WB_FUSE_GPV, 2, 32, 1000, 20000},
    };
    static const double ratings_a[] = {3,  5,  7.5, 10,  15,  20,  25,  30,  40,
                                       60, 80, 110, 125, 150, 200, 250, 300, 400};
    int n = 0;
    for (int i = 0; i < 6; i++) {
        if (chance(random, 0.15))
            continue;
        for (int r = 0; r < 18; r++)
            if (ratings_a[r] >= forms[i].from_a && ratings_a[r] <= forms[i].to_a &&
                chance(random, 0.6))
                gen->fuse[n++] = (WbFuse){.part = part(gen, random, "f", 0.02, 150 * (i + 1)),
                                          .form = forms[i].form,
                                          .rating_a = ratings_a[r],
                                          .max_v = forms[i].max_v,
                                          .interrupt_a = forms[i].interrupt_a};
    }
    gen->catalogue.fuses = gen->fuse;
    gen->catalogue.n_fuses = (size_t)n;
}

static void fill_fittings(Gen *gen, WbRandom *random)
{
    int n = 0;
    for (int role = WB_FITTING_HOLDER; role <= WB_FITTING_BUS; role++)
        for (int i = whole(random, 0, 4); i > 0; i--) {
            double least_mm2 = whole(random, 1, 30);
            gen->fitting[n++] = (WbFitting){.part = part(gen, random, "g", 0.1, 300),
                                            .role = role,
                                            .form = whole(random, 0, WB_N_FUSE_FORMS - 1),
                                            .max_a = 50.0 * whole(random, 1, 8),
                                            .max_v = chance(random, 0.5) ? 32 : 150,
                                            .min_area_mm2 = least_mm2,
                                            .max_area_mm2 = 4 * least_mm2,
                                            .ways = whole(random, 1, 6)};
        }
    gen->catalogue.fittings = gen->fitting;
    gen->catalogue.n_fittings = (size_t)n;
}

void gen_wiring(Gen *gen, WbRandom *random)
{
    static const int64_t terminals_c[] = {60, 75, 90};
    WbWiringWishes *wiring = &gen->brief.wiring;
    size_t first = gen->n_ids;
    fill_conductors(gen, random);
    fill_fuses(gen, random);
    fill_fittings(gen, random);
    gen->brief.rule_set = whole(random, 0, 2);
    while (chance(random, 0.6) && gen->brief.n_owned < GEN_OWNED)
        gen->owned[gen->brief.n_owned++] = (WbOwned){
            gen->id[first + wb_random_below(random, gen->n_ids - first)], whole(random, 1, 8)};
    *wiring = (WbWiringWishes){.on = chance(random, 0.75),
                               .sizes = whole(random, 0, 2),
                               .terminal_c = terminals_c[whole(random, 0, 2)],
                               .inside_c = chance(random, 0.5) ? WB_MISSING : 45,
                               .roof_c = chance(random, 0.7) ? WB_MISSING : 50,
                               .bundled = whole(random, 1, 4)};
    for (int k = 0; k < WB_N_CIRCUITS; k++)
        wiring->length_m[k] = wb_circuit_usual_m(k) * (chance(random, 0.2) ? 4 : 0.5);
}
