/* The table of every figure of every kind. "Accepted" ranges are what is physically possible, with
 * room to spare; "usual" ranges are what parts of small systems have (common practice): a value
 * outside them is questioned where it is typed, and kept. */
#include "part_fields.h"
#include <string.h>

/* record: the record's type; name: its member, which is the key too. */
#define NUMBER(record, name, words, its_unit, low, high, usual_from, usual_to, missing)            \
    {                                                                                              \
        .key = #name, .label = words, .unit = its_unit, .type = WB_FIELD_NUMBER,                   \
        .offset = offsetof(record, name), .least = low, .most = high, .usual_low = usual_from,     \
        .usual_high = usual_to, .may_be_missing = missing                                          \
    }
#define INTEGER(record, name, words, its_unit, low, high, usual_from, usual_to, missing)           \
    {                                                                                              \
        .key = #name, .label = words, .unit = its_unit, .type = WB_FIELD_INTEGER,                  \
        .offset = offsetof(record, name), .least = low, .most = high, .usual_low = usual_from,     \
        .usual_high = usual_to, .may_be_missing = missing                                          \
    }
#define ONE_OF(record, name, words, its_unit, values, low, high)                                   \
    {                                                                                              \
        .key = #name, .label = words, .unit = its_unit, .type = WB_FIELD_INTEGER,                  \
        .offset = offsetof(record, name), .least = low, .most = high, .usual_low = low,            \
        .usual_high = high, .choices = values                                                      \
    }
#define TEXT(record, name, words, missing)                                                         \
    {                                                                                              \
        .key = #name, .label = words, .unit = "", .type = WB_FIELD_TEXT,                           \
        .offset = offsetof(record, name), .may_be_missing = missing                                \
    }
#define WORDS(record, name, words)                                                                 \
    {                                                                                              \
        .key = #name, .label = words, .unit = "", .type = WB_FIELD_WORDS,                          \
        .offset = offsetof(record, name), .may_be_missing = true                                   \
    }
#define FLAG(record, name, words)                                                                  \
    {                                                                                              \
        .key = #name, .label = words, .unit = "", .type = WB_FIELD_FLAG,                           \
        .offset = offsetof(record, name), .may_be_missing = true                                   \
    }
#define CHOICE(record, name, words, values)                                                        \
    {                                                                                              \
        .key = #name, .label = words, .unit = "", .type = WB_FIELD_CHOICE,                         \
        .offset = offsetof(record, name), .choices = values                                        \
    }
#define CURVE(record, name, words, its_unit, low, high, missing)                                   \
    {                                                                                              \
        .key = #name, .label = words, .unit = its_unit, .type = WB_FIELD_CURVE,                    \
        .offset = offsetof(record, name), .least = low, .most = high, .usual_low = low,            \
        .usual_high = high, .may_be_missing = missing                                              \
    }

/* part is the first member of every record, so these offsets hold in all of them. */
#define COMMON(weight_label, usual_from, usual_to)                                                 \
    TEXT(WbPart, id, "Id", false), TEXT(WbPart, maker, "Maker", true),                             \
        TEXT(WbPart, model, "Model", true), TEXT(WbPart, notes, "Notes", true),                    \
        NUMBER(WbPart, weight_kg, weight_label, "kg", 0, 2000, usual_from, usual_to, false)

static const char *const builds[] = {"rigid", "flexible", NULL};
static const char *const technologies[] = {"pwm", "mppt", NULL};
static const char *const waveforms[] = {"pure-sine", "modified-sine", "square", NULL};
static const char *const size_systems[] = {"awg", "metric", NULL};
static const char *const forms[] = {"blade",   "midi",     "mega", "anl",
                                    "class-t", "terminal", "gpv",  NULL};
/* As forms, and one more for what takes no fuse. */
static const char *const fitting_forms[] = {"blade",    "midi", "mega", "anl", "class-t",
                                            "terminal", "gpv",  "none", NULL};
static const char *const roles[] = {"holder", "lug", "switch", "block", "bus", NULL};
static const char *const families[] = {"lead-acid", "lithium", "other", NULL};
static const char *const gassings[] = {"none", "valve-regulated", "vented", NULL};
static const char *const bus_volts[] = {"12", "24", "48", NULL};
static const char *const insulations[] = {"60", "75", "90", "105", "125", "200", NULL};

static const WbField panel_fields[] = {
    COMMON("Weight", 0.3, 35),
    NUMBER(WbPanel, power_w, "Rated power", "W", 0.1, 2000, 5, 600, false),
    NUMBER(WbPanel, voc_v, "Open-circuit voltage", "V", 0.5, 500, 15, 60, false),
    NUMBER(WbPanel, vmp_v, "Voltage at maximum power", "V", 0.4, 500, 12, 50, false),
    NUMBER(WbPanel, isc_a, "Short-circuit current", "A", 0.01, 100, 0.3, 20, false),
    NUMBER(WbPanel, imp_a, "Current at maximum power", "A", 0.01, 100, 0.3, 20, false),
    NUMBER(WbPanel, voc_coeff_pct_k, "Temperature coefficient of Voc", "%/K", -1, 0, -0.40, -0.20,
           true),
    NUMBER(WbPanel, isc_coeff_pct_k, "Temperature coefficient of Isc", "%/K", -0.5, 1, 0, 0.12,
           true),
    NUMBER(WbPanel, power_coeff_pct_k, "Temperature coefficient of power", "%/K", -1, 0, -0.55,
           -0.20, true),
    NUMBER(WbPanel, noct_c, "Nominal operating cell temperature", "C", 20, 90, 40, 50, true),
    NUMBER(WbPanel, low_light_pct, "Efficiency in low light, of that in full sun", "%", 50, 105, 93,
           99, true),
    INTEGER(WbPanel, cells, "Cells in series", "", 0, 600, 32, 144, true),
    NUMBER(WbPanel, max_system_v, "Maximum system voltage", "V", 10, 2000, 50, 1500, true),
    NUMBER(WbPanel, series_fuse_a, "Largest series fuse", "A", 0.5, 100, 5, 30, true),
    INTEGER(WbPanel, length_mm, "Length", "mm", 10, 10000, 300, 2300, false),
    INTEGER(WbPanel, width_mm, "Width", "mm", 10, 10000, 200, 1200, false),
    INTEGER(WbPanel, thickness_mm, "Thickness", "mm", 0, 500, 2, 50, false),
    CHOICE(WbPanel, build, "Build", builds),
    NUMBER(WbPanel, mount_kg, "Weight of brackets and fixings", "kg", 0, 200, 0, 6, false),
};

static const WbField controller_fields[] = {
    COMMON("Weight", 0.1, 8),
    CHOICE(WbController, technology, "Technology", technologies),
    NUMBER(WbController, max_pv_v, "Highest array voltage", "V", 5, 2000, 20, 250, false),
    NUMBER(WbController, max_pv_a, "Highest array short-circuit current", "A", 0.1, 1000, 5, 120,
           false),
    NUMBER(WbController, max_pv_w_12v, "Highest array power on 12 V", "W", 1, 50000, 50, 2000,
           true),
    NUMBER(WbController, rated_output_a, "Charging current", "A", 0.1, 1000, 5, 100, false),
    FLAG(WbController, bus_12v, "Charges 12 V"),
    FLAG(WbController, bus_24v, "Charges 24 V"),
    FLAG(WbController, bus_48v, "Charges 48 V"),
    NUMBER(WbController, efficiency, "Efficiency", "", 0.01, 1, 0.92, 1, false),
    NUMBER(WbController, idle_w, "Own draw", "W", 0, 200, 0, 4, false),
    NUMBER(WbController, headroom_v, "Array voltage needed over the charging voltage", "V", 0, 100,
           0, 6, false),
    NUMBER(WbController, start_headroom_v, "Array voltage needed over it to start", "V", 0, 100, 0,
           8, true),
    FLAG(WbController, profile_adjustable, "Charging voltages can be set"),
    WORDS(WbController, profiles, "Charging profiles"),
};

static const WbField storage_fields[] = {
    COMMON("Weight", 2, 75),
    TEXT(WbStorage, chemistry, "Chemistry", false),
    NUMBER(WbStorage, nominal_v, "Nominal voltage", "V", 1, 120, 6, 52, false),
    NUMBER(WbStorage, capacity_ah, "Rated capacity", "Ah", 0.1, 20000, 7, 420, false),
    NUMBER(WbStorage, rated_hours, "Hours of the rating", "h", 0.1, 240, 1, 100, false),
    NUMBER(WbStorage, depth_limit, "Depth of discharge, at most", "", 0.01, 1, 0.3, 1, true),
    NUMBER(WbStorage, peukert, "Peukert exponent", "", 1, 2, 1, 1.4, true),
    NUMBER(WbStorage, charge_v, "Absorption voltage", "V", 1, 160, 7, 59, true),
    NUMBER(WbStorage, max_charge_a, "Highest charging current", "A", 0.01, 20000, 1, 250, false),
    NUMBER(WbStorage, min_charge_a, "Recommended least charging current", "A", 0, 20000, 0, 50,
           true),
    NUMBER(WbStorage, max_discharge_a, "Highest discharge current", "A", 0.01, 20000, 5, 400,
           false),
    NUMBER(WbStorage, surge_discharge_a, "Highest discharge current for seconds", "A", 0.01, 50000,
           5, 1500, true),
    INTEGER(WbStorage, max_series, "Most in series", "", 1, 100, 1, 8, false),
    INTEGER(WbStorage, max_parallel, "Most in parallel", "", 1, 100, 1, 10, false),
    NUMBER(WbStorage, internal_mohm, "Internal resistance", "mohm", 0.01, 10000, 0.5, 30, true),
    FLAG(WbStorage, heated, "Heated"),
    NUMBER(WbStorage, heater_w, "Power of the heater", "W", 1, 1000, 10, 100, true),
    INTEGER(WbStorage, length_mm, "Length", "mm", 10, 10000, 100, 600, false),
    INTEGER(WbStorage, width_mm, "Width", "mm", 10, 10000, 60, 450, false),
    INTEGER(WbStorage, height_mm, "Height", "mm", 10, 10000, 80, 450, false),
    FLAG(WbStorage, must_not_turn, "Must not be turned in the bay"),
};

static const WbField inverter_fields[] = {
    COMMON("Weight", 0.3, 40),
    ONE_OF(WbInverter, bus_v, "System voltage", "V", bus_volts, 12, 48),
    CHOICE(WbInverter, waveform, "Waveform", waveforms),
    NUMBER(WbInverter, continuous_w, "Continuous power", "W", 1, 100000, 75, 5000, false),
    NUMBER(WbInverter, surge_w, "Surge power", "W", 1, 300000, 100, 10000, false),
    NUMBER(WbInverter, idle_w, "Draw without load", "W", 0, 1000, 0.5, 40, false),
    NUMBER(WbInverter, min_v, "Lowest input voltage", "V", 1, 100, 9, 44, true),
    NUMBER(WbInverter, max_v, "Highest input voltage", "V", 5, 150, 15, 66, true),
    CURVE(WbInverter, efficiency, "Efficiency by share of continuous power", "", 0.01, 1, false),
};

static const WbField dcdc_fields[] = {
    COMMON("Weight", 0.2, 6),
    ONE_OF(WbDcdc, input_v, "Input voltage", "V", bus_volts, 12, 48),
    ONE_OF(WbDcdc, output_v, "Output voltage", "V", bus_volts, 12, 48),
    NUMBER(WbDcdc, output_a, "Charging current", "A", 0.1, 1000, 5, 60, false),
    NUMBER(WbDcdc, efficiency, "Efficiency", "", 0.01, 1, 0.8, 0.98, false),
    FLAG(WbDcdc, profile_adjustable, "Charging voltages can be set"),
    WORDS(WbDcdc, profiles, "Charging profiles"),
};

static const WbField conductor_fields[] = {
    COMMON("Weight of a metre", 0.005, 1.5),
    CHOICE(WbConductor, system, "System of sizes", size_systems),
    TEXT(WbConductor, size, "Size", false),
    NUMBER(WbConductor, area_mm2, "Cross-section", "mm2", 0.01, 2000, 0.5, 130, false),
    NUMBER(WbConductor, r20_ohm_km, "Resistance at 20 C", "ohm/km", 0.005, 2000, 0.1, 45, false),
    ONE_OF(WbConductor, insulation_c, "Insulation rating", "C", insulations, 60, 200),
};

static const WbField fuse_fields[] = {
    COMMON("Weight", 0, 0.5),
    CHOICE(WbFuse, form, "Form", forms),
    NUMBER(WbFuse, rating_a, "Rating", "A", 0.05, 5000, 1, 500, false),
    NUMBER(WbFuse, max_v, "Highest voltage, DC", "V", 1, 2000, 32, 160, false),
    NUMBER(WbFuse, interrupt_a, "Interrupting rating, DC", "A", 1, 1000000, 1000, 50000, false),
};

static const WbField fitting_fields[] = {
    COMMON("Weight", 0, 2),
    CHOICE(WbFitting, role, "Role", roles),
    CHOICE(WbFitting, form, "For fuses of the form", fitting_forms),
    NUMBER(WbFitting, max_a, "Highest current", "A", 0.05, 5000, 5, 600, true),
    NUMBER(WbFitting, max_v, "Highest voltage, DC", "V", 1, 2000, 32, 1000, true),
    NUMBER(WbFitting, min_area_mm2, "Smallest conductor", "mm2", 0.01, 2000, 0.5, 130, true),
    NUMBER(WbFitting, max_area_mm2, "Largest conductor", "mm2", 0.01, 2000, 0.5, 130, true),
    INTEGER(WbFitting, ways, "Ways", "", 0, 100, 0, 24, true),
};

static const WbField chemistry_fields[] = {
    TEXT(WbChemistry, id, "Id", false),
    TEXT(WbChemistry, name, "Name", false),
    CHOICE(WbChemistry, family, "Family", families),
    CHOICE(WbChemistry, gassing, "Gassing", gassings),
    NUMBER(WbChemistry, cell_v, "Nominal voltage of a cell", "V", 0.5, 10, 1.2, 4, false),
    NUMBER(WbChemistry, charge_v_per_cell, "Absorption voltage of a cell", "V", 0.5, 10, 1.4, 4.3,
           false),
    NUMBER(WbChemistry, end_v_per_cell, "Lowest voltage of a cell", "V", 0.5, 10, 1, 3.2, true),
    NUMBER(WbChemistry, cell_mohm_100ah, "Internal resistance of a cell of 100 Ah", "mohm", 0.01,
           100, 0.2, 3, true),
    NUMBER(WbChemistry, depth_limit, "Depth of discharge, at most", "", 0.01, 1, 0.3, 1, false),
    NUMBER(WbChemistry, charge_efficiency, "Charge efficiency", "", 0.01, 1, 0.75, 1, false),
    NUMBER(WbChemistry, discharge_efficiency, "Discharge efficiency", "", 0.01, 1, 0.85, 1, false),
    NUMBER(WbChemistry, charge_efficiency_full, "Charge efficiency at full charge", "", 0.01, 1,
           0.4, 1, true),
    NUMBER(WbChemistry, accept_c, "Charging current accepted, per Ah", "A", 0.001, 10, 0.1, 2,
           true),
    NUMBER(WbChemistry, accept_from, "Accepted less from this state of charge on", "", 0, 0.999,
           0.5, 0.99, true),
    NUMBER(WbChemistry, accept_full_c, "Charging current accepted at full charge, per Ah", "A", 0,
           10, 0.005, 0.1, true),
    NUMBER(WbChemistry, peukert, "Peukert exponent", "", 1, 2, 1, 1.4, false),
    NUMBER(WbChemistry, min_charge_c, "Coldest charging", "C", -100, 60, -30, 5, true),
    NUMBER(WbChemistry, self_discharge_pct_month, "Self-discharge a month", "%", 0, 100, 0.5, 15,
           false),
    NUMBER(WbChemistry, calendar_years, "Calendar life", "years", 0.1, 100, 3, 20, false),
    CURVE(WbChemistry, capacity_by_c, "Capacity by temperature", "", 0, 2, false),
    CURVE(WbChemistry, cycles_by_depth, "Cycles by depth", "", 1, 1000000, true),
    CURVE(WbChemistry, freezing_by_depth, "Freezing point by depth", "C", -150, 20, true),
};

#define N(table) (sizeof(table) / sizeof(table)[0])

const WbField *wb_part_fields(WbPartKind kind, size_t *n)
{
    static const struct {
        const WbField *fields;
        size_t n;
    } tables[WB_N_KINDS] = {
        [WB_KIND_PANEL] = {panel_fields, N(panel_fields)},
        [WB_KIND_CONTROLLER] = {controller_fields, N(controller_fields)},
        [WB_KIND_STORAGE] = {storage_fields, N(storage_fields)},
        [WB_KIND_INVERTER] = {inverter_fields, N(inverter_fields)},
        [WB_KIND_DCDC] = {dcdc_fields, N(dcdc_fields)},
        [WB_KIND_CONDUCTOR] = {conductor_fields, N(conductor_fields)},
        [WB_KIND_FUSE] = {fuse_fields, N(fuse_fields)},
        [WB_KIND_FITTING] = {fitting_fields, N(fitting_fields)},
    };
    *n = tables[kind].n;
    return tables[kind].fields;
}

const WbField *wb_chemistry_fields(size_t *n)
{
    *n = N(chemistry_fields);
    return chemistry_fields;
}

const WbField *wb_field_find(const WbField *fields, size_t n, const char *key)
{
    for (size_t i = 0; i < n; i++)
        if (strcmp(fields[i].key, key) == 0)
            return &fields[i];
    return NULL;
}
