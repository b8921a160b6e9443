/* A kit seen from its sides. The rules of one side look only at that side's parts and at what the
 * bank is to a charger, so the search judges each side once and joins sides that stand alone; the
 * judge of a single kit uses the very same functions. */
#ifndef WB_SIDES_H
#define WB_SIDES_H

#include "kit.h"
#include "rules.h"

/* What the other sides need to know of a bank. */
typedef struct {
    WbBankVolts volts;
    const WbChemistry *chemistry;
} WbBankKind;

WbBankKind wb_bank_kind(const WbProblem *problem, int storage, int bank_series);

/* Strings that meet on one controller, the fullest: an uneven share is a stop of its own. */
int wb_strings_of_one(const WbKit *kit);

/* Shops that charge for shipping, as bits of their index in WbProblem.shops. */
typedef struct {
    uint64_t word[WB_SHOP_WORDS];
} WbShopSet;

/* What a side costs and weighs: parts to be bought, its circuits, the shops they come from. */
typedef struct {
    int64_t parts_minor;
    int64_t wiring_minor;
    int64_t weight_g;
    int64_t used_milli[WB_MOST_OWNED_WIRES]; /* of what is owned: not yet in wiring_minor */
    WbShopSet shops;
    int unpriced; /* parts to be bought that have no usable offer */
} WbSideBill;

void wb_bill_add(WbSideBill *bill, const WbSourced *sourced, int count);
/* n pieces or metres of what circuits are made of, for so much if they are bought. */
void wb_bill_add_wiring(WbSideBill *bill, const WbSourced *sourced, double n, int64_t minor,
                        int64_t weight_g);
WbSideBill wb_bill_empty(void);
void wb_bill_join(const WbProblem *problem, WbSideBill *bill, const WbSideBill *other);
/* What circuits use beyond what is owned joins wiring_minor: once, for the whole kit. */
void wb_bill_settle(const WbProblem *problem, WbSideBill *bill);
WbSideBill wb_array_bill(const WbProblem *problem, const WbKit *kit);
WbSideBill wb_bank_bill(const WbProblem *problem, const WbKit *kit);
WbSideBill wb_dcdc_bill(const WbProblem *problem, const WbKit *kit);
/* Shipping once per shop. */
int64_t wb_shops_shipping_minor(const WbProblem *problem, const WbShopSet *shops);

/* Everything of money in the figures: the allowance is a share of the parts, not of the circuits.
 */
void wb_figures_money(const WbProblem *problem, WbSideBill *bill, WbFigures *figures);
/* The same of two bills that are not yet joined: most often nothing of wiring is owned, and then
 * neither is copied. */
void wb_figures_money_of(const WbProblem *problem, const WbSideBill *a, const WbSideBill *b,
                         WbFigures *figures);

/* The sides' rules stand together in the published order. */
#define WB_FIRST_OWN_RULE WB_RULE_ROOF_FIT /* array side, whatever the bank */
#define WB_LAST_OWN_RULE WB_RULE_PV_CURRENT
#define WB_FIRST_ARRAY_RULE WB_RULE_HOT_VMP /* array side, by the kind of bank */
#define WB_LAST_ARRAY_RULE WB_RULE_CHARGE_PROFILE
#define WB_FIRST_BANK_RULE WB_RULE_BANK_SYSTEM
#define WB_LAST_BANK_RULE WB_RULE_AUTONOMY
#define WB_FIRST_DCDC_RULE WB_RULE_DCDC_SOURCE
#define WB_LAST_DCDC_RULE WB_RULE_DCDC_ALTERNATOR

/* Each writes the findings of its own rules, by index, and leaves the others alone. */
void wb_array_findings_own(const WbProblem *problem, const WbKit *kit,
                           WbFinding finding[WB_N_RULES]);
void wb_array_findings_with(const WbProblem *problem, const WbKit *kit, const WbBankKind *bank,
                            WbFinding finding[WB_N_RULES]);
void wb_bank_findings(const WbProblem *problem, const WbKit *kit, const WbBankKind *bank,
                      double autonomy_days, int worst_autonomy_month,
                      WbFinding finding[WB_N_RULES]);
void wb_dcdc_findings(const WbProblem *problem, const WbKit *kit, const WbBankKind *bank,
                      WbFinding finding[WB_N_RULES]);

/* Bits of the rules first..last that stop the kit. */
uint64_t wb_stops(const WbFinding finding[WB_N_RULES], WbRule first, WbRule last);

/* What the bank and inverter give and need, month by month. */
typedef struct {
    double usable_wh[WB_MONTHS];
    double need_wh[WB_MONTHS];
    double storing_loss_wh[WB_MONTHS];
    double autonomy_days[WB_MONTHS];
    double lowest_usable_wh, lowest_autonomy_days;
    int worst_usable_month, worst_autonomy_month;
    double spare_w;
} WbBankSide;

/* Days without any need: this many, so that no figure is infinite. */
#define WB_MOST_AUTONOMY_DAYS 9999.0

void wb_bank_side(const WbProblem *problem, const WbKit *kit, const WbBankKind *bank,
                  WbBankSide *side);

/* Wh a day in the months in use through the DC-DC charger: output A x bank nominal V x hours
 * driven. */
double wb_alternator_wh(const WbProblem *problem, int dcdc, const WbBankKind *bank);

/* The month in use with the smallest supply less need; supply = (array + other) - loss, other =
 * alternator + shore. */
int wb_worst_supply_month(const WbProblem *problem, const double array_wh[WB_MONTHS],
                          double other_wh, const WbBankSide *bank, double *supply_wh);

#endif
