/* The DC loads themselves: the volts they are made for, what stands between them and the bank, how
 * they start. */
#include "compare.h"
#include "load_window.h"

#define CONVERTER_EFFICIENCY 0.85 /* from the bank to a load of other volts: common practice */
#define QUICK_FUSE_FACTOR 2.0     /* of its rating, for a moment: ISO 8820-3, from memory */

/* 0: no system voltage, or not known. */
static int system_v_of(double volts)
{
    static const int system_v[] = {12, 24, 48};
    for (int i = 0; i < 3; i++)
        if (volts >= system_v[i] / 1.2 && volts <= system_v[i] * 1.25)
            return system_v[i];
    return 0;
}

static bool is_dc_in_use(const WbBrief *brief, const WbLoad *load)
{
    return !load->ac && wb_load_runs_in(load, brief->site.months);
}

static bool needs_converter(const WbBrief *brief, const WbLoad *load)
{
    return is_dc_in_use(brief, load) && !isnan(load->volts) && system_v_of(load->volts) == 0;
}

const WbLoad *wb_load_of_voltage(const WbBrief *brief, const WbBankVolts *bank)
{
    const WbLoad *same = NULL, *unknown = NULL;
    for (size_t i = 0; i < brief->n_loads && bank->system_v != 0; i++) {
        const WbLoad *load = &brief->loads[i];
        int made_for_v = system_v_of(load->volts);
        if (!is_dc_in_use(brief, load))
            continue;
        if (made_for_v != 0 && made_for_v != bank->system_v)
            return load;
        if (made_for_v != 0 && !same)
            same = load;
        if (isnan(load->volts) && !unknown)
            unknown = load;
    }
    return unknown && bank->system_v != 12 ? unknown : same;
}

WbFinding wb_rule_load_voltage(const WbBrief *brief, const WbBankVolts *bank)
{
    const WbLoad *load = wb_load_of_voltage(brief, bank);
    if (!load)
        return wb_finding_idle(WB_RULE_LOAD_VOLTAGE);
    bool same = system_v_of(load->volts) == bank->system_v;
    return wb_finding_of(WB_RULE_LOAD_VOLTAGE, load->volts, bank->system_v, same,
                         isnan(load->volts) ? WB_NOTE : WB_CAUTION);
}

const WbLoad *wb_load_of_converter(const WbBrief *brief)
{
    for (size_t i = 0; i < brief->n_loads; i++)
        if (needs_converter(brief, &brief->loads[i]))
            return &brief->loads[i];
    return NULL;
}

WbFinding wb_rule_load_converter(const WbBrief *brief, const WbBankVolts *bank)
{
    if (!wb_load_of_converter(brief) || bank->system_v == 0)
        return wb_finding_idle(WB_RULE_LOAD_CONVERTER);
    double sum_w = 0;
    for (size_t i = 0; i < brief->n_loads; i++)
        if (needs_converter(brief, &brief->loads[i]))
            sum_w += brief->loads[i].power_w * brief->loads[i].count;
    return wb_finding_at_most(WB_RULE_LOAD_CONVERTER,
                              sum_w / CONVERTER_EFFICIENCY / bank->nominal_v,
                              sum_w / bank->nominal_v, WB_NOTE);
}

const WbLoad *wb_load_of_start(const WbBrief *brief)
{
    const WbLoad *hardest = NULL;
    for (size_t i = 0; i < brief->n_loads; i++) {
        const WbLoad *load = &brief->loads[i];
        if (is_dc_in_use(brief, load) && load->surge_factor > (hardest ? hardest->surge_factor : 1))
            hardest = load;
    }
    return hardest;
}

WbFinding wb_rule_motor_start(const WbBrief *brief, const WbBankVolts *bank)
{
    const WbLoad *load = wb_load_of_start(brief);
    if (!load || bank->system_v == 0)
        return wb_finding_idle(WB_RULE_MOTOR_START);
    double run_a = load->power_w * load->count / bank->nominal_v;
    return wb_finding_at_most(WB_RULE_MOTOR_START, run_a * load->surge_factor,
                              run_a * QUICK_FUSE_FACTOR, WB_NOTE);
}
