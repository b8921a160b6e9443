/* One sentence per rule, for a kit that keeps it and for one that breaks it. */
#include "words.h"
#include "words_circuit.h"

#include "words_slots.h"
#include <glib/gi18n-lib.h>

typedef struct {
    int decimals;
    const char *holds, *broken;
} Sentences;

static const Sentences sentences[WB_N_RULES] = {
    [WB_RULE_NO_PRICE] =
        {0, N_("Of the parts that have to be bought {value} lack a usable offer; {limit} may."),
         N_("{value} of its parts have no usable offer ({unpriced}); more than "
            "{limit} leave the kit without a price.")},
    [WB_RULE_ROOF_FIT] = {0, N_("The kit has {panels}; the roof takes up to {limit}."),
                          N_("The kit has {panels}; the roof takes no more than {limit}.")},
    [WB_RULE_ROOF_UNDECIDED] =
        {0, N_("The kit has {panels}; {limit} are known to fit."),
         N_("The kit has {panels}; {limit} are known to fit and the search could not decide "
            "whether more do.")},
    [WB_RULE_ROOF_LOAD] = {1,
                           N_("The panels with their mounts weigh {value} kg; the roof carries "
                              "{limit} kg."),
                           N_("The panels with their mounts weigh {value} kg; the roof carries "
                              "only {limit} kg.")},
    [WB_RULE_ROOF_HEIGHT] = {0,
                             N_("The panels reach {value} mm over the roof; up to {limit} mm is "
                                "allowed."),
                             N_("The panels reach {value} mm over the roof; only {limit} mm is "
                                "allowed.")},
    [WB_RULE_CONTROLLER_SHARE] = {0, N_("{strings-shared}: {value} left over, {limit} may be."),
                                  N_("{strings} on {controllers}: {value} left over where {limit} "
                                     "may be, for each controller needs the same.")},
    [WB_RULE_CONTROLLERS_ALIKE] =
        {0, N_("The kit has {controllers}; up to {limit} there is nothing to match."),
         N_("The kit has {controllers} where {limit} would need no matching: set them alike, and "
            "let no string reach two of them.")},
    [WB_RULE_UNLIKE_PANELS] =
        {0, N_("The panels of a string differ by {value} % in current; up to {limit} % is fair."),
         N_("The panels of a string differ by {value} % in current; over {limit} % the weakest "
            "holds back the rest, so give each kind a string of its own.")},
    [WB_RULE_SYSTEM_VOLTAGE] = {1,
                                N_("{string-reaches} {value} V on the coldest morning; the panel "
                                   "is built for {limit} V."),
                                N_("{string-reaches} {value} V on the coldest morning; the panel "
                                   "is built for only {limit} V.")},
    [WB_RULE_COLD_VOC] = {1,
                          N_("{string-reaches} {value} V on the coldest morning; the controller "
                             "takes {limit} V."),
                          N_("{string-reaches} {value} V on the coldest morning; the controller "
                             "takes only {limit} V and can be destroyed.")},
    [WB_RULE_TOUCH_VOLTAGE] =
        {1,
         N_("{string-reaches} {value} V on the coldest morning; up to {limit} V is held to be safe "
            "to touch."),
         N_("{string-reaches} {value} V on the coldest morning; over {limit} V a touch can kill, "
            "so guard and mark every joint and fit a disconnect.")},
    [WB_RULE_PV_CURRENT] = {1,
                            N_("In the brightest sun the panels push up to {value} A; the "
                               "controller takes {limit} A."),
                            N_("In the brightest sun the panels push up to {value} A; the "
                               "controller takes only {limit} A.")},
    [WB_RULE_HOT_VMP] = {1,
                         N_("In the hottest hour the string still works at {value} V; charging "
                            "needs {limit} V."),
                         N_("In the hottest hour the string works at only {value} V; charging "
                            "needs {limit} V, so the bank never gets full.")},
    [WB_RULE_MPPT_START] =
        {1,
         N_("In the hottest hour the open string stands at {value} V; the controller starts from "
            "{limit} V on."),
         N_("In the hottest hour the open string stands at only {value} V; while the bank is being "
            "charged the controller starts from {limit} V on, so it may sleep until the bank has "
            "fallen.")},
    [WB_RULE_PWM_MATCH] = {0,
                           N_("Behind a PWM controller {value} % of the string's voltage is lost; "
                              "up to {limit} % is fair."),
                           N_("Behind a PWM controller {value} % of the string's voltage is lost; "
                              "over {limit} % is a waste of panel.")},
    [WB_RULE_PWM_CELLS] =
        {0,
         N_("The string has {value} cells; behind a PWM controller about {limit} suit this bank."),
         N_("The string has {value} cells; behind a PWM controller about {limit} suit this bank: "
            "more waste volts, fewer cannot fill it.")},
    [WB_RULE_ARRAY_WATTS] = {0,
                             N_("{value} W of panels hang on each controller; its maker allows "
                                "{limit} W."),
                             N_("{value} W of panels hang on each controller; its maker allows "
                                "only {limit} W.")},
    [WB_RULE_OUTPUT_CLIPPED] =
        {0,
         N_("Each controller gets {value} W of panels and puts out up to "
            "{limit} W."),
         N_("Each controller gets {value} W of panels and puts out no more "
            "than {limit} W; what is above is cut off in strong sun, over the "
            "months in use {clipped-pct} % of the harvest.")},
    [WB_RULE_STRING_FUSE] = {1, N_("{others-push}; the panel stands {limit} A."),
                             N_("A faulty string gets up to {value} A from the others; the panel "
                                "stands {limit} A, so every string needs its own fuse.")},
    [WB_RULE_CONTROLLER_BUS] = {0,
                                N_("The bank makes a {value} V system; the controller is made for "
                                   "{controller-v} V."),
                                N_("The bank makes a {value} V system; the controller is made for "
                                   "{controller-v} V.")},
    [WB_RULE_CHARGE_PROFILE] =
        {0, N_("The controller has {value} profile for {chemistry}; {limit} is needed."),
         N_("The controller has {value} profiles for {chemistry} where {limit} is "
            "needed; its voltages would harm the bank.")},
    [WB_RULE_BANK_SYSTEM] = {1, N_("The bank's {value} V make a {limit} V system."),
                             N_("The bank makes {value} V; you allow systems of {allowed-v} V.")},
    [WB_RULE_BANK_SERIES] = {0, N_("{value} in series; the battery's maker allows {limit}."),
                             N_("{value} in series; the battery's maker allows only {limit}.")},
    [WB_RULE_BANK_PARALLEL] = {0, N_("{value} in parallel; the battery's maker allows {limit}."),
                               N_("{value} in parallel; the battery's maker allows only {limit}.")},
    [WB_RULE_LOAD_VOLTAGE] = {1, N_("The DC loads' {load-v} V suit the bank's {limit} V."),
                              N_("The load “{load}” runs on {load-v} V; this bank makes {limit} "
                                 "V, so it needs a converter.")},
    [WB_RULE_LOAD_CONVERTER] =
        {1, N_("No load needs more than the {limit} A that are counted for it."),
         N_("“{odd-load}” runs on {odd-load-v} V and needs a converter: through one, at 85 %, such "
            "loads take {value} A from the bank where {limit} A are counted for them.")},
    [WB_RULE_MOTOR_START] =
        {1,
         N_("Starting, “{starting-load}” takes {value} A; a fuse for its running current stands "
            "{limit} A for a moment."),
         N_("Starting, “{starting-load}” takes {value} A; a quick fuse for its running current "
            "stands {limit} A for a moment, so give it a slow one.")},
    [WB_RULE_BAY_FIT] = {0, N_("All {value} of the batteries stand in the bay of {bay}."),
                         N_("The bank needs {value} batteries; no more than {limit} were found to "
                            "stand in the bay of {bay}.")},
    [WB_RULE_NO_INVERTER] =
        {0,
         N_("The AC loads draw up to {peak-ac-w} W; the kit has {value} inverter "
            "and needs {limit}."),
         N_("The AC loads draw up to {peak-ac-w} W; the kit has {value} inverters "
            "and needs {limit}.")},
    [WB_RULE_INVERTER_BUS] = {0,
                              N_("The bank makes a {value} V system; the inverter runs on {limit} "
                                 "V."),
                              N_("The bank makes a {value} V system; the inverter runs on {limit} "
                                 "V.")},
    [WB_RULE_INVERTER_WINDOW] = {1,
                                 N_("While it charges the bank stands at {value} V; the inverter "
                                    "takes up to {limit} V."),
                                 N_("While it charges the bank stands at {value} V; the inverter "
                                    "takes only {limit} V and would switch off.")},
    [WB_RULE_INVERTER_LOWEST] =
        {1, N_("The inverter runs down to {value} V; the bank's nominal voltage is {limit} V."),
         N_("The inverter runs down to {value} V; the bank's nominal voltage is only {limit} V, so "
            "it will not run.")},
    [WB_RULE_INVERTER_CUTOUT] =
        {1, N_("The inverter stops at {value} V; the bank's cells may be drawn down to {limit} V."),
         N_("The inverter runs down to {value} V; the bank's cells must not be drawn below {limit} "
            "V, so set its stop higher or fit a voltage-controlled disconnect.")},
    [WB_RULE_INVERTER_CONTINUOUS] = {0,
                                     N_("The AC loads that run together draw {value} W; the "
                                        "inverter carries {limit} W."),
                                     N_("The AC loads that run together draw {value} W; the "
                                        "inverter carries only {limit} W.")},
    [WB_RULE_INVERTER_SURGE] = {0,
                                N_("Starting, the AC loads take {value} W for a moment; the "
                                   "inverter gives {limit} W."),
                                N_("Starting, the AC loads take {value} W for a moment; the "
                                   "inverter gives only {limit} W.")},
    [WB_RULE_WAVEFORM] =
        {0, N_("A load needs {limit} output of pure sine; the inverter has {value}."),
         N_("A load needs {limit} output of pure sine; the inverter has {value}, for it "
            "makes a {waveform}.")},
    [WB_RULE_INVERTER_DRAW] = {0,
                               N_("At full load the inverter draws {value} A; the bank gives "
                                  "{limit} A."),
                               N_("At full load the inverter draws {value} A; the bank gives only "
                                  "{limit} A.")},
    [WB_RULE_INVERTER_SURGE_DRAW] =
        {0, N_("In a surge the inverter can draw {value} A; the bank gives {limit} A for seconds."),
         N_("In a surge the inverter can draw {value} A; the bank gives only {limit} A for "
            "seconds, so its protection may cut off when something large starts.")},
    [WB_RULE_PEAK_DRAW] = {0,
                           N_("At their peak all loads draw {value} A; the bank gives {limit} A."),
                           N_("At their peak all loads draw {value} A; the bank gives only {limit} "
                              "A.")},
    [WB_RULE_SHORE_CHARGE] =
        {0, N_("The shore charger gives {value} A; the bank takes {limit} A."),
         N_("The shore charger gives {value} A; the bank takes only {limit} A.")},
    [WB_RULE_COLD_CHARGE] =
        {0, N_("{chemistry} may be charged down to {limit} °C; {cold-night} is no colder."),
         N_("{chemistry} must not be charged below {limit} °C; {cold-night} is colder, so "
            "charging has to stop then or the bank be warmed.")},
    [WB_RULE_FREEZING] =
        {0,
         N_("Drawn to its limit this battery freezes at {limit} °C; {cold-night} is "
            "no colder."),
         N_("Drawn to its limit this battery freezes at {limit} °C; {cold-night} is "
            "colder, so leave it charged in the cold.")},
    [WB_RULE_VENTILATION] = {2,
                             N_("Charging gives off {value} m³ of air to be replaced an hour; the "
                                "vents carry {limit} m³."),
                             N_("While charging, this bank gives off hydrogen and needs {value} m³ "
                                "of fresh air an hour ({float-air} m³ once full); the brief names "
                                "{limit} m³. Two openings of {vent-cm2} cm² each, low and high, "
                                "carry it.")},
    [WB_RULE_AUTONOMY] = {1,
                          N_("In {month} the bank alone carries the loads for {value} days; you "
                             "want {limit}."),
                          N_("In {month} the bank alone carries the loads for only {value} days; "
                             "you want {limit}.")},
    [WB_RULE_DCDC_SOURCE] = {0,
                             N_("The DC-DC charger needs {limit} V from an alternator; there is "
                                "{alternator}."),
                             N_("The DC-DC charger needs {limit} V from an alternator; there is "
                                "{alternator}.")},
    [WB_RULE_DCDC_BUS] = {0,
                          N_("The bank makes a {value} V system; the DC-DC charger puts out "
                             "{limit} V."),
                          N_("The bank makes a {value} V system; the DC-DC charger puts out "
                             "{limit} V.")},
    [WB_RULE_DCDC_PROFILE] =
        {0, N_("The DC-DC charger has {value} profile for {chemistry}; {limit} is needed."),
         N_("The DC-DC charger has {value} profiles for {chemistry} where {limit} is "
            "needed; its voltages would harm the bank.")},
    [WB_RULE_DCDC_ALTERNATOR] = {0,
                                 N_("The DC-DC charger draws {value} A; half the alternator's "
                                    "rating is {limit} A."),
                                 N_("The DC-DC charger draws {value} A; half the alternator's "
                                    "rating is {limit} A, and more for hours on end overheats "
                                    "it.")},
    [WB_RULE_SOURCE_CIRCUITS] =
        {0,
         N_("Every circuit of panels and starter battery has a conductor and a fuse of the "
            "catalogue: {value} lack one, {limit} may."),
         N_("{value} of the circuits of panels and starter battery find no conductor and fuse in "
            "the catalogue that carry, protect and keep the drop; {limit} may lack one.")},
    [WB_RULE_BANK_CIRCUITS] =
        {0,
         N_("Every circuit on the bus bars has a conductor and a fuse of the catalogue: {value} "
            "lack one, {limit} may."),
         N_("{value} of the circuits on the bus bars find no conductor and fuse in the catalogue "
            "that carry, protect and keep the drop; {limit} may lack one.")},
    [WB_RULE_FITTINGS] =
        {0,
         N_("The catalogue sells every holder, lug and switch: {value} are missing, {limit} may."),
         N_("{value} pieces (holders, lugs, switches, fuse blocks, bus bars) are not in the "
            "catalogue; {limit} may be missing, so their cost and weight come on top.")},
    [WB_RULE_CHARGE_MAXIMUM] = {0, N_("Charging reaches {value} A; the bank takes {limit} A."),
                                N_("Charging reaches {value} A; the bank takes only {limit} A.")},
    [WB_RULE_CHARGE_MINIMUM] = {0,
                                N_("Charging reaches {value} A; the bank wants at least {limit} "
                                   "A."),
                                N_("Charging reaches only {value} A; the bank wants at least "
                                   "{limit} A and ages faster below.")},
    [WB_RULE_SUPPLY] = {0, N_("In {month} {value} Wh come in a day; the loads need {limit} Wh."),
                        N_("In {month} only {value} Wh come in a day; the loads need {limit} "
                           "Wh.")},
    [WB_RULE_MONEY] = {0,
                       N_("The kit costs {value-money}; you want to spend {limit-money} at most."),
                       N_("The kit costs {value-money}; you want to spend {limit-money} at "
                          "most.")},
    [WB_RULE_WEIGHT] = {1, N_("The kit weighs {value} kg; you allow {limit} kg."),
                        N_("The kit weighs {value} kg; you allow only {limit} kg.")},
    [WB_RULE_DARK_HOURS] = {0,
                            N_("Some load goes short in {value} hours a year; you accept {limit}."),
                            N_("Some load goes short in {value} hours a year; you accept only "
                               "{limit}.")},
};

static const struct {
    WbAssumption bit;
    const char *sentence;
} assumptions[] = {
    {WB_ASSUMED_VOC_TABLE, N_("The data sheet of {panel} gives no temperature coefficient of the "
                              "open-circuit voltage; the code table's factor for crystalline "
                              "silicon was used.")},
    {WB_ASSUMED_POWER_COEFF, N_("The data sheet of {panel} gives no temperature coefficient of "
                                "power; -0.45 % per K was used.")},
    {WB_ASSUMED_NOCT, N_("The data sheet of {panel} gives no NOCT; 45 °C was used.")},
    {WB_ASSUMED_MAX_SYSTEM_V,
     N_("The data sheet of {panel} gives no maximum system voltage; 50 V was used, the least that "
        "panels are built for: look for yours on the label.")},
    {WB_ASSUMED_SERIES_FUSE,
     N_("The data sheet of {panel} gives no maximum series fuse; 15 A was used, the least that is "
        "common.")},
    {WB_ASSUMED_PV_WATTS,
     N_("The data sheet of {controller} gives no maximum of panel watts; its rated output was "
        "used, for only its maker can allow more.")},
    {WB_ASSUMED_SURGE_A, N_("The data sheet of {storage} gives no current for a few seconds; the "
                            "continuous one was used, which is never more.")},
    {WB_ASSUMED_WINDOW,
     N_("The data sheet of {inverter} gives no highest input voltage; 1.25 times its own was used, "
        "the least that is common.")},
    {WB_ASSUMED_VMP_COEFF, N_("The data sheet of {panel} gives no temperature coefficient of "
                              "voltage; -0.45 % per K was used.")},
    {WB_ASSUMED_START_V,
     N_("The data sheet of {controller} gives no voltage to start from; the one to run was used, "
        "and it may need more.")},
    {WB_ASSUMED_CELLS,
     N_("The data sheet of {panel} gives no number of cells; its voltage alone was judged.")},
    {WB_ASSUMED_LOWEST_V,
     N_("The data sheet of {inverter} gives no lowest input voltage; 10 V for each 12 V was used, "
        "the lowest that is common.")},
    {WB_ASSUMED_END_V,
     N_("The data sheet of {storage} gives no lowest voltage of a cell ({chemistry}); 1.75 V for "
        "lead-acid and 2.5 V for lithium are usual, and nothing is assumed for other kinds.")},
    {WB_ASSUMED_MIN_CHARGE,
     N_("The data sheet of {storage} gives no least charging current; a tenth of its Ah was used, "
        "the custom with lead-acid.")},
    {WB_ASSUMED_CHARGE_V,
     N_("The data sheet of {storage} gives no charging voltage; that of {chemistry} was used.")},
    {WB_ASSUMED_DEPTH,
     N_("The data sheet of {storage} gives no depth it may be drawn to; that of {chemistry} was "
        "used.")},
    {WB_ASSUMED_PEUKERT,
     N_("The data sheet of {storage} gives no Peukert exponent; that of {chemistry} was used.")},
    {WB_ASSUMED_INTERNAL_R,
     N_("The data sheet of {storage} gives no internal resistance; one by its chemistry was used, "
        "for the fault current.")},
    {WB_ASSUMED_STARTER,
     N_("The data sheet of the starter battery is not known; 5 milliohms for each 12 V were used, "
        "for the fault current.")},
    {WB_ASSUMED_LOW_LIGHT, N_("The data sheet of {panel} gives no output in low light; 96 % at 200 "
                              "W/m² was used.")},
};

static bool idle(const WbFinding *finding)
{
    return finding->holds && isnan(finding->value);
}

/* Which figures the data sheets lack, and what stood in for them. */
static void append_assumed(GString *text, const WbTold *told)
{
    for (gsize i = 0; i < G_N_ELEMENTS(assumptions); i++) {
        if (!(told->finding->assumed & (uint32_t)assumptions[i].bit))
            continue;
        g_autofree char *sentence = wb_words_fill(_(assumptions[i].sentence), told);
        g_string_append_printf(text, " %s", sentence);
    }
}

#define MOST_FAULTS 3

static bool is_of_rule(const WbCircuit *circuit, WbRule rule)
{
    WbCircuitKind kind = circuit->ask.kind;
    bool source =
        kind == WB_CIRCUIT_STRING || kind == WB_CIRCUIT_ARRAY || kind == WB_CIRCUIT_DCDC_IN;
    return source == (rule == WB_RULE_SOURCE_CIRCUITS);
}

/* Why the first of them cannot be built, each with its two numbers. */
static void append_circuits(GString *text, const WbTold *told)
{
    WbWiring wiring;
    if (wb_wiring(told->problem, &told->verdict->kit, &wiring) != WB_OK)
        return;
    int left = MOST_FAULTS;
    for (gsize i = 0; i < wiring.n && left > 0; i++) {
        const WbCircuit *circuit = &wiring.circuit[i];
        if (circuit->fault == WB_CIRCUIT_SOUND || !is_of_rule(circuit, told->finding->rule))
            continue;
        g_autofree char *sentence = wb_words_circuit_fault(told->problem, circuit);
        g_string_append_printf(text, " %s", sentence);
        left--;
    }
    wb_wiring_free(&wiring);
}

static bool is_limit_of_brief(WbRule rule)
{
    return rule == WB_RULE_ROOF_FIT || rule == WB_RULE_ROOF_UNDECIDED || rule == WB_RULE_BAY_FIT ||
           rule == WB_RULE_MONEY || rule == WB_RULE_WEIGHT || rule == WB_RULE_DARK_HOURS;
}

/* No budget decides it: slants and circles leave the room open by less than a millimetre. */
static bool hangs_on_1_mm(const WbProblem *problem, const WbVerdict *verdict,
                          const WbFinding *finding)
{
    return finding->rule == WB_RULE_ROOF_UNDECIDED && isfinite(finding->value) &&
           wb_roof_answer(&problem->panels[verdict->kit.panel].fit, (int)finding->value) ==
               WB_FIT_WITHIN_1_MM;
}

char *wb_words_assumed(const WbProblem *problem, const WbVerdict *verdict, const WbFinding *finding)
{
    const WbTold told = {problem, verdict, finding, 0};
    GString *text = g_string_new(NULL);
    append_assumed(text, &told);
    return g_strstrip(g_string_free(text, FALSE));
}

char *wb_words_finding(const WbProblem *problem, const WbVerdict *verdict, const WbFinding *finding)
{
    const Sentences *pair = &sentences[finding->rule];
    const WbTold told = {problem, verdict, finding, pair->decimals};
    const char *broken = pair->broken;
    if (hangs_on_1_mm(problem, verdict, finding))
        broken = N_("The kit has {panels}; {limit} are known to fit, and whether more do hangs on "
                    "less than 1 mm of the roof.");
    /* Only a stop names the month: the bank itself is too cold in it. */
    if (finding->rule == WB_RULE_COLD_CHARGE && finding->month >= 0)
        broken =
            N_("In {month} the bank stands at {value} °C; {chemistry} must not be charged below "
               "{limit} °C, so it needs a warmer place or a battery that warms itself.");
    if (finding->rule == WB_RULE_MPPT_START && finding->severity == WB_STOP)
        broken = N_("In the hottest hour the open string stands at only {value} V; even with the "
                    "bank at rest the controller starts from {limit} V on, so it stays asleep.");
    if (finding->rule == WB_RULE_LOAD_VOLTAGE && isnan(finding->value))
        broken = N_("This bank makes {limit} V: whatever DC load is given in watts, such as "
                    "“{load}”, must be made for that or needs a converter.");
    if (finding->rule == WB_RULE_SUPPLY && finding->value < 0)
        broken = N_("In {month} own draw and losses take more than comes in: {value} Wh a day are "
                    "left; the loads need {limit} Wh.");
    GString *text = g_string_new(NULL);
    if (idle(finding)) {
        g_string_append(text, finding->assumed != 0 ? _("This could not be checked.")
                                                    : _("This does not concern the kit."));
    } else {
        g_autofree char *sentence = wb_words_fill(_(finding->holds ? pair->holds : broken), &told);
        g_string_append(text, sentence);
    }
    if (!finding->holds && finding->severity == WB_NOTE && is_limit_of_brief(finding->rule))
        g_string_append_printf(text, " %s", _("You have switched this limit off."));
    if (!finding->holds &&
        (finding->rule == WB_RULE_SOURCE_CIRCUITS || finding->rule == WB_RULE_BANK_CIRCUITS))
        append_circuits(text, &told);
    append_assumed(text, &told);
    return g_string_free(text, FALSE);
}
