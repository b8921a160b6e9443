/* Parts as core sees them: plain records with one unit per name, read-only, owned by whoever built
 * the WbCatalogue (the store). A figure the data sheet does not give is WB_MISSING (NaN); texts are
 * never NULL, an absent one is "". Lengths on roof and bay are whole millimetres.
 *
 * Keys in JSON and columns in SQL are the member names below; part_fields.h describes every one. */
#ifndef WB_PART_H
#define WB_PART_H

#include <math.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define WB_MISSING ((double)NAN)
#define WB_MAX_POINTS 16

typedef enum {
    WB_KIND_PANEL,
    WB_KIND_CONTROLLER,
    WB_KIND_STORAGE,
    WB_KIND_INVERTER,
    WB_KIND_DCDC,
    WB_KIND_CONDUCTOR,
    WB_KIND_FUSE,
    WB_KIND_FITTING,
    WB_N_KINDS,
} WbPartKind;

/* First member of every part: any part pointer may be read as a WbPart. */
typedef struct {
    const char *id;    /* stable text id: [a-z0-9][a-z0-9-]*, at most 64 characters */
    const char *maker; /* free text */
    const char *model; /* free text */
    const char *notes; /* free text */
    double weight_kg;  /* of one; conductors: of one metre */
} WbPart;

typedef struct {
    double x, y;
} WbPoint;

/* Piecewise linear, x ascending, flat outside its ends. n = 0: no curve. */
typedef struct {
    int n;
    WbPoint point[WB_MAX_POINTS];
} WbCurve;

double wb_curve_at(const WbCurve *curve, double x); /* WB_MISSING when n is 0 */

typedef enum { WB_PANEL_RIGID, WB_PANEL_FLEXIBLE } WbPanelBuild;

typedef struct {
    WbPart part;
    double power_w;           /* at STC: 1000 W/m2, 25 C cell, AM 1.5 */
    double voc_v, vmp_v;      /* at STC */
    double isc_a, imp_a;      /* at STC */
    double voc_coeff_pct_k;   /* %/K, negative; may be missing: table factor */
    double isc_coeff_pct_k;   /* %/K, positive; may be missing */
    double power_coeff_pct_k; /* %/K, negative; may be missing */
    double noct_c;            /* may be missing: 45 C assumed and said */
    double low_light_pct;     /* efficiency at 200 W/m2, % of that at 1000; may be missing: 96 */
    int64_t cells;            /* in series inside the panel, 0 unknown */
    double max_system_v;      /* may be missing */
    double series_fuse_a;     /* largest series fuse the maker allows; may be missing */
    int64_t length_mm, width_mm, thickness_mm;
    int64_t build;   /* WbPanelBuild */
    double mount_kg; /* brackets and fixings of one panel */
} WbPanel;

typedef enum { WB_CONTROLLER_PWM, WB_CONTROLLER_MPPT } WbControllerTechnology;

typedef struct {
    WbPart part;
    int64_t technology;    /* WbControllerTechnology */
    double max_pv_v;       /* highest open-circuit voltage at the input */
    double max_pv_a;       /* highest short-circuit current at the input */
    double max_pv_w_12v;   /* array watts the maker allows on a 12 V bank; may be missing */
    double rated_output_a; /* charging current */
    bool bus_12v, bus_24v, bus_48v; /* system voltages it can charge */
    double efficiency;              /* 0..1, input to output; PWM: 1 */
    double idle_w;                  /* own draw, all day */
    double headroom_v;              /* array must exceed the charging voltage by this to run */
    double start_headroom_v;        /* and by this to start; may be missing: as headroom_v */
    bool profile_adjustable;        /* charging voltages can be set freely */
    const char *profiles;           /* chemistry ids it has a profile for, space between */
} WbController;

typedef struct {
    WbPart part;
    const char *chemistry; /* id of a WbChemistry */
    double nominal_v;      /* 12 V lead-acid 12.0, four LFP cells 12.8 */
    double capacity_ah;    /* at rated_hours, 25 C */
    double rated_hours;    /* 20 for lead-acid as a rule */
    double depth_limit;    /* 0..1; may be missing: the chemistry's */
    double peukert;        /* >= 1; may be missing: the chemistry's */
    double charge_v;       /* absorption voltage of one; may be missing: by chemistry */
    double max_charge_a;
    double min_charge_a; /* recommended minimum; may be missing: none */
    double max_discharge_a;
    double surge_discharge_a; /* a few seconds; may be missing: as continuous */
    int64_t max_series, max_parallel;
    double internal_mohm; /* may be missing */
    bool heated;          /* warms itself before charging in the cold */
    double heater_w;      /* of one while it does; may be missing: 40 W assumed and said */
    int64_t length_mm, width_mm, height_mm;
    bool
        must_not_turn; /* its length lies along the bay's, e.g. its terminals must face the front */
} WbStorage;

typedef enum { WB_WAVE_PURE_SINE, WB_WAVE_MODIFIED_SINE, WB_WAVE_SQUARE } WbWaveform;

typedef struct {
    WbPart part;
    int64_t bus_v;    /* 12, 24 or 48 */
    int64_t waveform; /* WbWaveform */
    double continuous_w, surge_w;
    double idle_w;       /* switched on without load */
    double min_v, max_v; /* DC window; may be missing */
    WbCurve efficiency;  /* x: share of continuous_w 0..1, y: efficiency 0..1 */
} WbInverter;

typedef struct {
    WbPart part;
    int64_t input_v, output_v; /* 12, 24 or 48 */
    double output_a;
    double efficiency; /* 0..1 */
    bool profile_adjustable;
    const char *profiles; /* chemistry ids, space between */
} WbDcdc;

typedef enum { WB_SIZE_AWG, WB_SIZE_METRIC } WbSizeSystem;

typedef struct {
    WbPart part;
    int64_t system;   /* WbSizeSystem */
    const char *size; /* "10", "2/0", "16" */
    double area_mm2;
    double r20_ohm_km;    /* DC resistance at 20 C */
    int64_t insulation_c; /* 60, 75, 90, 105, 125 or 200 */
} WbConductor;

typedef enum {
    WB_FUSE_BLADE,
    WB_FUSE_MIDI,
    WB_FUSE_MEGA,
    WB_FUSE_ANL,
    WB_FUSE_CLASS_T,
    WB_FUSE_TERMINAL,
    WB_FUSE_GPV, /* cylindrical, 10 x 38 mm, for photovoltaic strings (IEC 60269-6) */
    WB_N_FUSE_FORMS,
} WbFuseForm;

typedef struct {
    WbPart part;
    int64_t form; /* WbFuseForm */
    double rating_a;
    double max_v;       /* DC */
    double interrupt_a; /* at max_v, DC */
} WbFuse;

typedef enum {
    WB_FITTING_HOLDER, /* of one fuse of its form */
    WB_FITTING_LUG,    /* crimped on a conductor's end */
    WB_FITTING_SWITCH, /* disconnect, one pole */
    WB_FITTING_BLOCK,  /* fuse block of so many ways, for fuses of its form */
    WB_FITTING_BUS,    /* pair of bus bars, positive and negative */
} WbFittingRole;

/* What a circuit needs besides its conductor and fuse. Each figure counts for the roles named. */
typedef struct {
    WbPart part;
    int64_t role;                      /* WbFittingRole */
    int64_t form;                      /* WbFuseForm; holder, block; WB_N_FUSE_FORMS: none */
    double max_a;                      /* holder, block (all ways together), switch, bus */
    double max_v;                      /* DC; holder, block, switch */
    double min_area_mm2, max_area_mm2; /* of the conductor; lug */
    int64_t ways;                      /* block */
} WbFitting;

typedef enum { WB_FAMILY_LEAD_ACID, WB_FAMILY_LITHIUM, WB_FAMILY_OTHER } WbFamily;
typedef enum { WB_GAS_NONE, WB_GAS_VALVE_REGULATED, WB_GAS_VENTED } WbGassing;

/* Chemistries are data of the catalogue: a person may add one. */
typedef struct {
    const char *id; /* "flooded", "agm", "gel", "lfp", ... */
    const char *name;
    int64_t family;           /* WbFamily */
    int64_t gassing;          /* WbGassing */
    double cell_v;            /* nominal volts of a cell */
    double charge_v_per_cell; /* absorption */
    double end_v_per_cell;    /* no discharge below; may be missing: by family */
    double cell_mohm_100ah;   /* internal resistance of a cell of 100 Ah; may be missing: 0.4 */
    double depth_limit;       /* 0..1 of rated capacity drawn at most */
    double charge_efficiency, discharge_efficiency; /* 0..1, energy */
    double charge_efficiency_full; /* at full charge; may be missing: as charge_efficiency. Counts
                                      from accept_from on */
    /* Charging current the cells accept, A per Ah: accept_c up to the state of charge accept_from
     * (0..1), from there in a straight line to accept_full_c when full. All three or none. */
    double accept_c, accept_from, accept_full_c;
    double peukert;
    double min_charge_c; /* no charging below; missing: no such limit */
    double self_discharge_pct_month;
    double calendar_years;
    WbCurve capacity_by_c;   /* x: C, y: share of rated capacity, used as min(1, y) */
    WbCurve cycles_by_depth; /* x: depth 0..1, y: cycles */
    WbCurve
        freezing_by_depth; /* x: depth drawn 0..1, y: freezing point C; n = 0: does not freeze */
} WbChemistry;

typedef struct {
    const char *id, *name;
    int64_t shipping_minor; /* charged once per order, whatever its size */
    const char *currency;   /* ISO 4217 */
} WbShop;

typedef struct {
    const char *part_id, *shop_id;
    int64_t price_minor;  /* of one part; conductors: of one metre */
    const char *currency; /* ISO 4217 */
    const char *date;     /* ISO 8601, YYYY-MM-DD; the newest offer of a shop counts */
} WbOffer;

/* A whole catalogue, immutable while anyone looks at it. Arrays ordered by id. */
typedef struct {
    const WbPanel *panels;
    size_t n_panels;
    const WbController *controllers;
    size_t n_controllers;
    const WbStorage *storage;
    size_t n_storage;
    const WbInverter *inverters;
    size_t n_inverters;
    const WbDcdc *dcdc;
    size_t n_dcdc;
    const WbConductor *conductors;
    size_t n_conductors;
    const WbFuse *fuses;
    size_t n_fuses;
    const WbFitting *fittings;
    size_t n_fittings;
    const WbChemistry *chemistries;
    size_t n_chemistries;
    const WbShop *shops;
    size_t n_shops;
    const WbOffer *offers;
    size_t n_offers;
} WbCatalogue;

const WbChemistry *wb_catalogue_chemistry(const WbCatalogue *catalogue, const char *id);

/* Does a space-separated list of chemistry ids hold this one? */
bool wb_profiles_hold(const char *profiles, const char *chemistry);

/* Kind names as they stand in JSON, in the order of WbPartKind: "panel", "controller", ... */
const char *wb_kind_name(WbPartKind kind);
size_t wb_kind_size(WbPartKind kind); /* sizeof of the record of that kind */

#endif
