/* Cell temperature, what a bank is and can give, and the inverter. */
#ifndef WB_ENERGY_H
#define WB_ENERGY_H

#include "brief.h"
#include "part.h"
#include "sky.h"

/* Cell temperature, C: air + (NOCT + adder - 20)/800 x W/m2 (definition of NOCT: 800 W/m2, 20 C
 * air, open rack). Missing noct_c: 45. Adders by the Sandia stand-off table: raised +2 K (a gap of
 * 64..89 mm; an open rack would be 0, which no vehicle roof is), close +11 K (13..38 mm), bonded
 * +18 K (less than 13 mm). */
double wb_cell_c(double irradiance_w_m2, double air_c, double noct_c, int mounting);
/* Of it: kelvin above the air for each W/m2. */
double wb_heating_k_m2_w(double noct_c, int mounting);

/* What a bank is to a charger. */
typedef struct {
    int system_v;          /* 12, 24, 48; 0: none fits */
    double nominal_v;      /* bank: series x part V */
    double charge_v;       /* absorption, bank */
    bool charge_v_assumed; /* by the chemistry, not by the data sheet */
} WbBankVolts;

/* system_v: the one of 12, 24, 48 with system_v <= nominal <= 1.07 x system_v. */
WbBankVolts wb_bank_volts(const WbStorage *storage, const WbChemistry *chemistry, int series);

/* What an array gives into the bank, Wh a day by month (array.h). */
typedef struct {
    double day_wh[WB_MONTHS];
    double clipped_wh[WB_MONTHS]; /* what the output limit cut off */
} WbSupply;

/* f_temp = min(1, capacity_by_c(T)), 1 without a curve; f_rate = min(1, (I_rated / I)^(k-1)),
 * I_rated = Ah / hours; I = dark_wh / dark_h / bank nominal V / strings (WbNeed: over 24 h where no
 * hour is without sun). */
double wb_temperature_factor(const WbChemistry *chemistry, double bank_c);
double wb_rate_factor(double capacity_ah, double rated_hours, double peukert, double current_a);

/* Usable capacity at the terminals in one month, Wh (DESIGN: V x Ah x strings x depth x f_temp x
 * f_rate). dark_wh over dark_h hours is what the bank carries alone. */
double wb_usable_wh(const WbStorage *storage, const WbChemistry *chemistry, int series,
                    int parallel, double bank_c, double dark_wh, double dark_h);

/* Hours a bank of one string lasts at a constant current (Peukert in the form that reproduces the
 * rating: t = H (C / (I H))^k), to a depth 0..1. Infinite without a current. */
double wb_peukert_hours(double capacity_ah, double rated_hours, double peukert, double current_a,
                        double depth);

/* By the curve at load_w / continuous_w, flat beyond its ends; kept within 0.01..1. */
double wb_inverter_efficiency(const WbInverter *inverter, double load_w);
double wb_depth_limit(const WbStorage *storage, const WbChemistry *chemistry);
double wb_peukert_exponent(const WbStorage *storage, const WbChemistry *chemistry);
/* Absorption volts of one part; missing: the chemistry's volts per cell x round(nominal / cell V).
 */
double wb_charge_v(const WbStorage *storage, const WbChemistry *chemistry);

#endif
