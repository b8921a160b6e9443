/* Copper conductors: resistance, voltage drop, and what current they carry under the brief's rule
 * set. Each function takes figures, so that handbook examples run through the same code. */
#ifndef WB_CONDUCTOR_H
#define WB_CONDUCTOR_H

#include "part.h"
#include "status.h"

/* The sizes the ampacity tables know, from 18 AWG to 4/0. */
enum { WB_AWG_SIZES = 15 };

/* Gauge numbers as the formula takes them: 18, 16, ..., 1, 0 (1/0), -1 (2/0), -2 (3/0), -3 (4/0).
 */
int wb_awg_gauge(int size);

/* Diameter of a solid wire, mm: 0.127 mm x 92^((36 - gauge) / 39) (ASTM B258). */
double wb_awg_diameter_mm(int gauge);
double wb_awg_area_mm2(int gauge);

/* Ohm/km at 20 C of a gauge: 17.241 / mm2, annealed copper (IACS). */
double wb_awg_r20_ohm_km(int gauge);

/* The largest gauge size whose area is not above this one (0.1 % of area counts as equal), an index
 * as for wb_awg_gauge; -1: thinner than 18 AWG. Metric sizes take that gauge's ampacity. */
int wb_awg_size_within(double area_mm2);

/* At a conductor temperature, from the one at 20 C: R20 x (230 + T) / 250 (IEC 60228, copper). */
double wb_resistance_at(double r20_ohm_km, double conductor_c);

/* Out and back, V: 2 x length x resistance x current. */
double wb_drop_v(double r_ohm_km, double one_way_m, double amps);

/* The handbooks' size for a drop, for the check by hand; the program itself goes by resistance at
 * operating temperature. Round trip lengths.
 * Circular mils: 10.75 x A x ft / V (boats, from memory). mm2: 0.0164 x A x m / V (ISO 10133). */
double wb_handbook_circular_mils(double amps, double round_trip_ft, double drop_v);
double wb_handbook_mm2(double amps, double round_trip_m, double drop_v);

/* How conductors lie. */
typedef struct {
    int rule_set;       /* WbRuleSet */
    double ambient_c;   /* of the air round them; boats: above 30 C counts as hot space */
    int bundled;        /* that carry current, side by side; at least 1 */
    int64_t terminal_c; /* what the terminals are rated for: 60, 75 or 90; boats: not used */
} WbLaying;

/* What one conductor carries, and why no more. */
typedef struct {
    double table_a;   /* by size and insulation at the table's own temperature; 0: too thin */
    double column_c;  /* insulation of the table's column, not above the conductor's */
    double ambient;   /* factor */
    double bundle;    /* factor */
    double terminals; /* A that the terminals allow; infinite on boats */
    double amps;      /* least of table x factors and terminals */
    double fuse_a;    /* no fuse is larger: amps, on land for 14, 12 and 10 AWG also 15, 20, 30 */
} WbAmpacity;

/* Boat: 33 CFR 183.425 table 5 with its note for spaces at 50 C, and bundles of 3 and more.
 * Road vehicle, building: NEC table 310.16 (copper; above 90 C its 90 C column), corrected by
 * 310.15(B)(1) and 310.15(C)(1), held to the terminals' column by 110.14(C), fuses of small sizes
 * by 240.4(D). A metric size counts as wb_awg_size_within. All 0 where the insulation is none of
 * 60, 75, 80, 90, 105, 125, 200 C, where the air is as hot as it, or where the size is below the
 * table's (boat 18 AWG; land 14 AWG, at 90 C 18 AWG). */
WbAmpacity wb_ampacity(double area_mm2, int64_t insulation_c, const WbLaying *laying);

/* C, of a conductor that carries `amps`: air + (column - air) x (amps / (table x factors))^2, for
 * the rise goes with the square of the current and the table's current heats it to its column. */
double wb_conductor_c(const WbAmpacity *ampacity, double ambient_c, double amps);

#endif
