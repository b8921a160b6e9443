/* What charges the bank, to the bus bars: controllers and the DC-DC charger. */
#include "loom.h"

#define STARTER_MOHM_12V 5.0 /* of a starter battery: common practice */
#define ALTERNATOR_V_12V 14.4

static WbCircuitAsk ask_to_bus(const WbProblem *problem, WbCircuitKind kind,
                               const WbBankKind *kind_of_bank, double run_a, double bus_fault_a)
{
    WbCircuitAsk ask = wb_loom_ask(problem, kind);
    ask.run_a = run_a;
    ask.design_a = WB_CONTINUOUS * run_a;
    ask.volts = kind_of_bank->volts.system_v;
    ask.most_v = kind_of_bank->volts.charge_v;
    ask.fault_a = bus_fault_a;
    ask.lugs = 2;
    return ask;
}

void wb_loom_charge(const WbProblem *problem, const WbKit *kit, const WbBankKind *kind,
                    double bus_fault_a, WbLoom *loom)
{
    if (!problem->brief->wiring.on || kind->volts.system_v == 0)
        return;
    const WbController *controller = problem->controllers[kit->controller].controller;
    WbCircuitAsk ask =
        ask_to_bus(problem, WB_CIRCUIT_CHARGE, kind, controller->rated_output_a, bus_fault_a);
    ask.count = kit->n_controllers;
    WbCircuit circuit;
    wb_loom_circuit(problem, loom, &ask, &circuit);
}

void wb_loom_dcdc_out(const WbProblem *problem, const WbKit *kit, const WbBankKind *kind,
                      double bus_fault_a, WbLoom *loom)
{
    const WbDcdc *dcdc = problem->dcdc[kit->dcdc].dcdc;
    if (!problem->brief->wiring.on || kind->volts.system_v == 0 || !dcdc)
        return;
    WbCircuitAsk ask = ask_to_bus(problem, WB_CIRCUIT_DCDC_OUT, kind, dcdc->output_a, bus_fault_a);
    WbCircuit circuit;
    wb_loom_circuit(problem, loom, &ask, &circuit);
}

/* Its fuse stands at the starter battery, of which nothing is known. */
void wb_loom_dcdc_in(const WbProblem *problem, const WbKit *kit, WbLoom *loom)
{
    const WbDcdc *dcdc = problem->dcdc[kit->dcdc].dcdc;
    if (!problem->brief->wiring.on || !dcdc)
        return;
    double input_v = (double)dcdc->input_v, twelves = input_v / 12;
    WbCircuitAsk ask = wb_loom_ask(problem, WB_CIRCUIT_DCDC_IN);
    ask.run_a = dcdc->output_a * (double)dcdc->output_v / dcdc->efficiency / input_v;
    ask.design_a = WB_CONTINUOUS * ask.run_a;
    ask.volts = input_v;
    ask.most_v = ALTERNATOR_V_12V * twelves;
    ask.fault_a = wb_fault_a(ask.most_v, STARTER_MOHM_12V * twelves, 0);
    ask.assumed = WB_ASSUMED_STARTER;
    ask.lugs = 2;
    WbCircuit circuit;
    wb_loom_circuit(problem, loom, &ask, &circuit);
}

double wb_charged_a(const WbProblem *problem, const WbKit *kit)
{
    const WbController *controller = problem->controllers[kit->controller].controller;
    const WbDcdc *dcdc = problem->dcdc[kit->dcdc].dcdc;
    const WbShore *shore = &problem->brief->shore;
    double run_a = kit->n_controllers * controller->rated_output_a + (dcdc ? dcdc->output_a : 0) +
                   (shore->nights_week > 0 ? shore->charger_a : 0);
    return WB_CONTINUOUS * run_a;
}
