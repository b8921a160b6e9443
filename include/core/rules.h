/* The rules, each a small function of just the parts and figures it looks at. A finding that does
 * not concern the kit at all, or cannot be judged because an earlier rule fails (a bank that makes
 * no system voltage), has holds = true, severity note and value, limit and margin NaN
 * (wb_finding_idle). A finding that holds is a note. Formulas and sources: wb_rule_info. */
#ifndef WB_RULES_H
#define WB_RULES_H

#include "brief.h"
#include "energy.h"
#include "finding.h"
#include "load.h"
#include "part.h"
#include "roof.h"

WbFinding wb_finding_idle(WbRule rule);
/* value <= limit holds; otherwise `severity`. margin = (limit - value) / limit, NaN for a limit
 * that is not above 0. A NaN never holds. */
WbFinding wb_finding_at_most(WbRule rule, double value, double limit, WbSeverity severity);
/* value >= limit holds. margin = (value - limit) / limit, NaN as above. */
WbFinding wb_finding_at_least(WbRule rule, double value, double limit, WbSeverity severity);

/* Voc at the design cold: by coefficient, else by the NEC 690.7(A) table factor (and colder than
 * -40 C by the table's last factor). *assumed gets WB_ASSUMED_VOC_TABLE. Never below Voc at STC. */
double wb_cold_voc_v(const WbPanel *panel, double design_cold_c, uint32_t *assumed);
/* Vmp and Voc at a cell temperature: by the Voc coefficient's volts per kelvin, else by -0.45 %/K
 * of Vmp or Voc. *assumed gets WB_ASSUMED_VMP_COEFF. */
double wb_hot_vmp_v(const WbPanel *panel, double cell_c, uint32_t *assumed);
double wb_hot_voc_v(const WbPanel *panel, double cell_c, uint32_t *assumed);

/* Defaults that stand behind the figures an array gives and a bank keeps: bits of WbAssumption for
 * what the data sheet leaves out. PWM: the panel works by its Imp alone. */
uint32_t wb_array_assumed(const WbPanel *panel, const WbController *controller);
uint32_t wb_bank_assumed(const WbStorage *storage);

/* Roof: app/core/rules/limits.c */
WbFinding wb_rule_roof_fit(const WbBrief *brief, const WbRoofFit *fit, int n_panels);
WbFinding wb_rule_roof_undecided(const WbBrief *brief, const WbRoofFit *fit, int n_panels);
WbFinding wb_rule_roof_load(const WbBrief *brief, const WbPanel *panel, int n_panels);
WbFinding wb_rule_roof_height(const WbBrief *brief, const WbPanel *panel);

/* Strings and controller: app/core/rules/strings.c, charging.c */
WbFinding wb_rule_controller_share(int n_parallel, int n_controllers);
WbFinding wb_rule_controllers_alike(int n_controllers);
/* Two panels of one string; a kit has one model, so it compares the panel with itself. */
WbFinding wb_rule_unlike_panels(const WbPanel *a, const WbPanel *b, int n_series);
WbFinding wb_rule_system_voltage(const WbPanel *panel, int n_series, double design_cold_c);
WbFinding wb_rule_cold_voc(const WbPanel *panel, int n_series, const WbController *controller,
                           double design_cold_c);
WbFinding wb_rule_touch_voltage(const WbPanel *panel, int n_series, double design_cold_c,
                                int rule_set);
WbFinding wb_rule_pv_current(const WbPanel *panel, int strings_per_controller,
                             const WbController *controller);
WbFinding wb_rule_hot_vmp(const WbPanel *panel, int n_series, const WbController *controller,
                          const WbBankVolts *bank, double hottest_cell_c);
/* A stop where even a bank at rest (its nominal voltage) asks for more than the string has. */
WbFinding wb_rule_mppt_start(const WbPanel *panel, int n_series, const WbController *controller,
                             const WbBankVolts *bank, double hottest_cell_c);
WbFinding wb_rule_pwm_match(const WbPanel *panel, int n_series, const WbController *controller,
                            const WbBankVolts *bank, double hottest_cell_c);
WbFinding wb_rule_pwm_cells(const WbPanel *panel, int n_series, const WbController *controller,
                            const WbBankVolts *bank);
WbFinding wb_rule_array_watts(const WbPanel *panel, int n_series, int strings_per_controller,
                              const WbController *controller, const WbBankVolts *bank);
WbFinding wb_rule_output_clipped(const WbPanel *panel, int n_series, int strings_per_controller,
                                 const WbController *controller, const WbBankVolts *bank);
/* n_parallel: the strings that meet on one controller. */
WbFinding wb_rule_string_fuse(const WbPanel *panel, int n_parallel);
WbFinding wb_rule_controller_bus(const WbController *controller, const WbBankVolts *bank);
WbFinding wb_rule_charge_profile(const WbController *controller, const WbChemistry *chemistry);

/* Bank and inverter: app/core/rules/discharging.c, surroundings.c, limits.c (bay, autonomy).
 * `inverter` may be NULL. */
WbFinding wb_rule_bank_system(const WbBrief *brief, const WbBankVolts *bank);
WbFinding wb_rule_bank_series(const WbStorage *storage, int series);
WbFinding wb_rule_bank_parallel(const WbStorage *storage, int parallel);
/* The DC load in use that decides wb_rule_load_voltage, NULL: none. The first whose volts make
 * another system voltage than the bank's; else, on a bank that is not of 12 V, the first given in
 * watts; else the first whose volts make the bank's. 10..15 V make 12, 20..30 V 24, 40..60 V 48;
 * other volts (5 V of a USB socket) make none and are passed over. */
const WbLoad *wb_load_of_voltage(const WbBrief *brief, const WbBankVolts *bank);
/* Another system voltage: a caution, value the load's volts. In watts: a note that does not hold,
 * value NaN. Limit: the bank's system volts. */
WbFinding wb_rule_load_voltage(const WbBrief *brief, const WbBankVolts *bank);
/* The first DC load in use whose volts are known and make no system voltage, NULL: none. */
const WbLoad *wb_load_of_converter(const WbBrief *brief);
/* Amps at the bank of all such loads with their converters' loss (efficiency 0.85, our assumption)
 * against what the budget counts for them; any such load is told. */
WbFinding wb_rule_load_converter(const WbBrief *brief, const WbBankVolts *bank);
/* The DC load in use with the largest surge factor above 1, the first of equals; NULL: none. */
const WbLoad *wb_load_of_start(const WbBrief *brief);
/* Its starting amps against twice its running ones: what a quick fuse stands for a moment. */
WbFinding wb_rule_motor_start(const WbBrief *brief, const WbBankVolts *bank);
WbFinding wb_rule_bay_fit(const WbBrief *brief, WbFitAnswer answer, int n_batteries);
WbFinding wb_rule_no_inverter(const WbLoadBudget *loads, const WbInverter *inverter);
WbFinding wb_rule_inverter_bus(const WbInverter *inverter, const WbBankVolts *bank);
WbFinding wb_rule_inverter_window(const WbInverter *inverter, const WbBankVolts *bank);
/* Lowest input voltage: too high for the bank to run it, or so low that it would drain the bank
 * below what its cells stand. */
WbFinding wb_rule_inverter_lowest(const WbInverter *inverter, const WbBankVolts *bank);
WbFinding wb_rule_inverter_cutout(const WbInverter *inverter, const WbStorage *storage,
                                  const WbChemistry *chemistry, int series);
WbFinding wb_rule_inverter_continuous(const WbLoadBudget *loads, const WbInverter *inverter);
WbFinding wb_rule_inverter_surge(const WbLoadBudget *loads, const WbInverter *inverter);
WbFinding wb_rule_waveform(const WbLoadBudget *loads, const WbInverter *inverter);
WbFinding wb_rule_inverter_draw(const WbStorage *storage, int parallel, const WbBankVolts *bank,
                                const WbInverter *inverter);
WbFinding wb_rule_inverter_surge_draw(const WbStorage *storage, int parallel,
                                      const WbBankVolts *bank, const WbInverter *inverter);
WbFinding wb_rule_peak_draw(const WbLoadBudget *loads, const WbStorage *storage, int parallel,
                            const WbBankVolts *bank, const WbInverter *inverter);
WbFinding wb_rule_shore_charge(const WbBrief *brief, const WbStorage *storage, int parallel);
WbFinding wb_rule_cold_charge(const WbSite *site, double design_cold_c, const WbStorage *storage,
                              const WbChemistry *chemistry);
WbFinding wb_rule_freezing(const WbSite *site, double design_cold_c, const WbStorage *storage,
                           const WbChemistry *chemistry);
/* Air a lead-acid bank needs, m3/h (IEC 62485-2, from memory): 0.05 x cells x I_gas x Ah / 1000, mA
 * per Ah vented 20 in boost charging and 5 in float, valve-regulated 8 and 1. 0: gives off none. */
double wb_bank_air_m3_h(const WbStorage *storage, const WbChemistry *chemistry, int series,
                        int parallel, bool boost);
/* Each of two openings, in and out, that carry so much air by themselves, cm2: 28 x m3/h (same). */
double wb_vent_cm2(double air_m3_h);
WbFinding wb_rule_ventilation(const WbSite *site, const WbStorage *storage,
                              const WbChemistry *chemistry, int series, int parallel);
WbFinding wb_rule_autonomy(const WbBrief *brief, double autonomy_days, int worst_month);

/* DC-DC charger: app/core/rules/charging.c. `dcdc` may be NULL: then all idle. */
WbFinding wb_rule_dcdc_source(const WbBrief *brief, const WbDcdc *dcdc);
WbFinding wb_rule_dcdc_bus(const WbDcdc *dcdc, const WbBankVolts *bank);
WbFinding wb_rule_dcdc_profile(const WbDcdc *dcdc, const WbChemistry *chemistry);
WbFinding wb_rule_dcdc_alternator(const WbBrief *brief, const WbDcdc *dcdc,
                                  const WbBankVolts *bank);

/* Circuits: app/core/rules/limits.c. How many cannot be built, and fittings not sold; idle while
 * the wiring is off. rule: WB_RULE_SOURCE_CIRCUITS or WB_RULE_BANK_CIRCUITS. */
WbFinding wb_rule_circuits(const WbBrief *brief, WbRule rule, int faults, uint32_t assumed);
WbFinding wb_rule_fittings(const WbBrief *brief, int missing);

/* Joint: app/core/rules/charging.c, limits.c. solar_a: what the array can push into the bank at
 * most. */
double wb_solar_charge_a(const WbPanel *panel, int n_series, int n_parallel,
                         const WbController *controller, int n_controllers,
                         const WbBankVolts *bank);
WbFinding wb_rule_charge_maximum(double solar_a, const WbDcdc *dcdc, const WbStorage *storage,
                                 int parallel);
WbFinding wb_rule_charge_minimum(double solar_a, const WbDcdc *dcdc, const WbStorage *storage,
                                 const WbChemistry *chemistry, int parallel);
WbFinding wb_rule_supply(double supply_wh, double need_wh, int worst_month);
WbFinding wb_rule_money(const WbBrief *brief, int64_t cost_minor);
WbFinding wb_rule_weight(const WbBrief *brief, int64_t weight_g);
/* dark_h NaN, not worked out: idle. */
WbFinding wb_rule_dark_hours(const WbBrief *brief, double dark_h);

#endif
