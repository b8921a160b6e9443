#include "brief_file.h"
#include "json.h"
#include "places.h"
#include "scratch.h"
#include <math.h>
#include <signal.h>
#include <sys/resource.h>

static const char *const example_path = WB_DATA_DIR "/brief.example.json";

static WbBriefFile *read_example(void)
{
    g_autoptr(GError) error = NULL;
    WbBriefFile *file = wb_brief_file_read(example_path, &error);
    g_assert_no_error(error);
    return file;
}

/* One value of the example put wrong: what the sentence must name. NULL: the member removed. */
static const struct {
    const char *pointer, *json, *words;
} wrong[] = {
    {"/format", "\"wattberth-catalogue\"",
     "/format is \"wattberth-catalogue\"|\"wattberth-brief\""},
    {"/format", NULL, "/format is missing"},
    {"/version", "2", "/version is 2|up to 1|newer"},
    {"/version", "\"1\"", "/version is \"1\"|a whole number"},
    {"/version", "0", "/version is 0|from 1 to 1"},
    {"/name", NULL, "/name is missing|a text of at most 200 characters"},
    {"/name", "7", "/name is 7|a text"},
    {"/notes", "[]", "/notes is the list []|at most 20000 characters"},
    {"/currency", "\"euro\"", "/currency is \"euro\"|three capital letters"},
    {"/currency", NULL, "/currency is missing|ISO 4217"},
    {"/rates/gbp", "1", "/rates/gbp|three capital letters"},
    {"/rates/GBP", "0", "/rates/GBP is 0"},
    {"/rates", "[]", "/rates is the list []|an object"},
    {"/loads", "{}", "/loads is an object|a list"},
    {"/loads", NULL, "/loads is missing"},
    {"/loads/0", "5", "/loads/0 is 5|an object"},
    {"/loads/0/name", NULL, "/loads/0/name is missing"},
    {"/loads/0/watts", "-5", "/loads/0/watts is -5|from 0 to 1000000"},
    {"/loads/0/watts", "\"50\"", "/loads/0/watts is \"50\"|a number"},
    {"/loads/0/watts", "null", "/loads/0/watts is null|a number"},
    {"/loads/0/watts", NULL, "/loads/0/watts is missing|volts and amps"},
    {"/loads/0/volts", "12", "/loads/0 has watts beside volts"},
    {"/loads/1/amps", NULL, "/loads/1/amps is missing"},
    {"/loads/1/volts", "-24", "/loads/1/volts is -24"},
    {"/loads/0/count", "0", "/loads/0/count is 0|from 1 to 1000"},
    {"/loads/0/count", "1.5", "/loads/0/count is 1.5|a whole number"},
    {"/loads/0/supply", "\"AC\"", "/loads/0/supply is \"AC\"|\"dc\" or \"ac\""},
    {"/loads/0/supply", NULL, "/loads/0/supply is missing|\"Fridge\":"},
    {"/loads/0/hours_per_day", "25", "/loads/0/hours_per_day is 25|from 0 to 24"},
    {"/loads/0/hours_per_day", "-1", "/loads/0/hours_per_day is -1"},
    {"/loads/0/when", "\"evening\"", "/loads/0/hours_per_day is 24|at most the 6 hours"},
    {"/loads/0/when", "\"night\"", "/loads/0/hours_per_day is 24|at most the 8 hours"},
    {"/loads/0/when", "{\"from\": \"22:30\", \"to\": \"06:00\"}", "at most the 7.5 hours"},
    {"/loads/0/when", "{\"from\": \"10:00\", \"to\": \"10:00\"}", "/loads/0/when/to|another time"},
    {"/loads/0/when", "{\"from\": \"24:00\", \"to\": \"10:00\"}",
     "/when/from is \"24:00\"|\"23:59\""},
    {"/loads/0/when", "{\"from\": \"9:00\", \"to\": \"10:00\"}", "/when/from is \"9:00\""},
    {"/loads/0/when", "{\"from\": \"09:00\"}", "/loads/0/when/to is missing"},
    {"/loads/0/when", "\"noon\"", "/loads/0/when is \"noon\"|\"daylight\""},
    {"/loads/0/when", "3", "/loads/0/when is 3|part of the day"},
    {"/loads/0/duty", "1.2", "/loads/0/duty is 1.2|from 0 to 1"},
    {"/loads/0/months", "[13]", "/loads/0/months/0 is 13|from 1 to 12"},
    {"/loads/0/months", "[1, 0]", "/loads/0/months/1 is 0"},
    {"/loads/0/months", "[5, 6, 5]", "/loads/0/months/2 is 5|already"},
    {"/system_volts", "[12, 12]", "/system_volts/1 is 12|already"},
    {"/front", "[\"cost\", \"cost\"]", "/front/1 is \"cost\"|already"},
    {"/loads/0/months", "6", "/loads/0/months is 6|a list"},
    {"/loads/0/days_per_week", "8", "/loads/0/days_per_week is 8|from 0 to 7"},
    {"/loads/0/surge_factor", "0.5", "/loads/0/surge_factor is 0.5|from 1"},
    {"/loads/0/runs_together", "1", "/loads/0/runs_together is 1|true or false"},
    {"/loads/0/drop_percent", "5", "/loads/0/drop_percent is 5|3 or 10"},
    {"/loads/0/needs_pure_sine", "\"yes\"", "is \"yes\"|true or false"},
    {"/site", NULL, "/site is missing"},
    {"/site/place", NULL, "/site/place is missing|built-in place"},
    {"/site/place", "\"atlantis\"", "/site/place is \"atlantis\"|id of a built-in place"},
    {"/site/place", "7", "/site/place is 7"},
    {"/site/place", "\"bergen-norwya\"", "the nearest is \"bergen-norway\"|wattberth places"},
    {"/site/place", "\"Bergen\"", "\"bergen-norway\""},
    {"/site/place/latitude_deg", "91", "/site/place/latitude_deg is 91|from -90 to 90"},
    {"/site/place/longitude_deg", "-181", "is -181|from -180 to 180"},
    {"/site/place/altitude_m", NULL, "/site/place/altitude_m is missing"},
    {"/site/place/ghi_kwh_m2_day", "[1, 2]", "/site/place/ghi_kwh_m2_day has 2 items|must have 12"},
    {"/site/place/ghi_kwh_m2_day/3", "-1", "/site/place/ghi_kwh_m2_day/3 is -1|from 0 to 15"},
    {"/site/place/air_min_c/6", "45", "/site/place/air_min_c|month 7"},
    {"/site/months", "[]", "/site/months has 0 items|from 1 to 12"},
    {"/site/months", NULL, "/site/months is missing"},
    {"/site/months/0", "13", "/site/months/0 is 13|from 1 to 12"},
    {"/site/tilt_deg", "91", "/site/tilt_deg is 91|from 0 to 90"},
    {"/site/azimuth_deg", "\"south\"", "/site/azimuth_deg is \"south\"|\"any\""},
    {"/site/azimuth_deg", "361", "/site/azimuth_deg is 361|from 0 to 360"},
    {"/site/shading_loss", "1.1", "/site/shading_loss is 1.1|from 0 to 1"},
    {"/site/shading_loss", "\"none\"", "/site/shading_loss is \"none\"|twelve"},
    {"/site/shading_loss", "[0, 0]", "/site/shading_loss has 2 items"},
    {"/site/mounting", "\"glued\"",
     "/site/mounting is \"glued\"|\"raised\", \"close\" or \"bonded\""},
    {"/site/design_cold_c", "\"cold\"", "/site/design_cold_c is \"cold\"|or null"},
    {"/site/design_cold_c", "-200", "/site/design_cold_c is -200|from -90 to 60"},
    {"/site/bank_place", "\"bilge\"", "/site/bank_place is \"bilge\""},
    {"/site/place/latitude_deg", "95", "/site/place/latitude_deg is 95|from -90 to 90"},
    {"/site/place/ghi_kwh_m2_day", "[1, 2, 3, 4, 5, 6, 5, 4, 3, 2, 1]",
     "/site/place/ghi_kwh_m2_day has 11 items|must have 12"},
    {"/site/weather", "[]", "/site/weather is the list []|an object"},
    {"/site/weather/years", "0", "/site/weather/years is 0|a whole number from 1 to 100"},
    {"/site/weather/years", "101", "/site/weather/years is 101|from 1 to 100"},
    {"/site/weather/years", "1.5", "/site/weather/years is 1.5|a whole number"},
    {"/site/weather/seed", "-1", "/site/weather/seed is -1|a whole number, 0 or more"},
    {"/site/weather/seed", "0.5", "/site/weather/seed is 0.5|a whole number"},
    {"/site/weather/hourly_file", "7", "/site/weather/hourly_file is 7|path of a file|or null"},
    {"/site/weather/hourly_file", "\"\"", "/site/weather/hourly_file is \"\"|path of a file"},
    {"/wiring", "[]", "/wiring is the list []|an object"},
    {"/wiring", "null", "/wiring is null|an object"},
    {"/wiring/on", "1", "/wiring/on is 1|true or false"},
    {"/wiring/sizes", "\"inch\"", "/wiring/sizes is \"inch\"|\"any\", \"awg\" or \"metric\""},
    {"/wiring/terminals_c", "80", "/wiring/terminals_c is 80|60, 75 or 90"},
    {"/wiring/terminals_c", "59", "/wiring/terminals_c is 59|from 60 to 90"},
    {"/wiring/inside_c", "91", "/wiring/inside_c is 91|from -40 to 90"},
    {"/wiring/roof_c", "-41", "/wiring/roof_c is -41|from -40 to 90"},
    {"/wiring/bundled", "0", "/wiring/bundled is 0|from 1 to 100"},
    {"/wiring/bundled", "2.5", "/wiring/bundled is 2.5|a whole number"},
    {"/wiring/lengths_m", "[]", "/wiring/lengths_m is the list []|an object"},
    {"/wiring/lengths_m/main", "0", "/wiring/lengths_m/main is 0|from 0.05 to 100"},
    {"/wiring/lengths_m/array", "-3", "/wiring/lengths_m/array is -3|from 0.05 to 100"},
    {"/wiring/lengths_m/load", "2000", "/wiring/lengths_m/load is 2000|from 0.05 to 100"},
    {"/wiring/lengths_m/feed", "\"1 m\"", "/wiring/lengths_m/feed is \"1 m\"|a number"},
    {"/loads/0/length_m", "0", "\"Fridge\": /loads/0/length_m is 0|from 0.05 to 100"},
    {"/loads/0/length_m", "150", "/loads/0/length_m is 150|from 0.05 to 100"},
    {"/shore", "[]", "/shore is the list []|an object"},
    {"/shore", "{\"charger_a\": 5}", "/shore/nights_per_week is missing|from 0 to 7"},
    {"/shore/nights_per_week", "8", "/shore/nights_per_week is 8|from 0 to 7"},
    {"/shore/nights_per_week", "-1", "/shore/nights_per_week is -1|from 0 to 7"},
    {"/shore/charger_a", "1001", "/shore/charger_a is 1001|from 0 to 1000"},
    {"/shore/charger_a", NULL, "/shore/charger_a is missing|a number"},
    {"/limits/dark_hours", "100", "/limits/dark_hours is 100|an object"},
    {"/limits/dark_hours/value", "-1", "/limits/dark_hours/value is -1|from 0 to 8760"},
    {"/limits/dark_hours/value", "8761", "/limits/dark_hours/value is 8761|from 0 to 8760"},
    {"/limits/dark_hours/value", "null", "/limits/dark_hours/value is null|a number"},
    {"/limits/dark_hours/on", "\"yes\"", "/limits/dark_hours/on is \"yes\"|true or false"},
    {"/roof", NULL, "/roof is missing"},
    {"/roof/length_mm", "0", "/roof/length_mm is 0|from 1 to 100000"},
    {"/roof/length_mm", "1500.5", "/roof/length_mm is 1500.5|a whole number"},
    {"/roof/max_load_kg", "-1", "/roof/max_load_kg is -1"},
    {"/roof/obstacles/0/width_mm", NULL, "/roof/obstacles/0/width_mm is missing"},
    {"/roof/obstacles/0/length_mm", "-100", "/roof/obstacles/0/length_mm is -100"},
    {"/roof/obstacles/0/x_mm", "4350", "\"Chimney\"|outside the roof|x_mm from 4200 to 4900"},
    {"/roof/obstacles/0/y_mm", "-550",
     "outside the roof|y_mm from -700 to 0, the roof from 0 to 2600"},
    {"/roof/obstacles/0/shape", "\"oval\"", "shape is \"oval\"|\"rectangle\" or \"round\""},
    {"/roof/obstacles/1/width_mm", "111", "/roof/obstacles/1/width_mm is 111|110|diameter"},
    {"/roof/obstacles/0/kind", "\"pond\"", "kind is \"pond\"|\"walkway\" or \"shade\""},
    {"/roof/obstacles/0/height_mm", "-1", "/roof/obstacles/0/height_mm is -1|from 0 to 100000"},
    {"/roof/corners", "7", "/roof/corners is 7|a list"},
    {"/roof/corners", "[]", "/roof/corners has 0 items|from 3 to 1000"},
    {"/roof/corners", "[[0, 0], [9, 9]]", "/roof/corners has 2 items|from 3 to 1000"},
    {"/roof/corners/1", "[5]", "/roof/corners/1 has 1 items|must have 2"},
    {"/roof/corners/1", "{\"x\": 5}", "/roof/corners/1 is|a list"},
    {"/roof/corners/1/1", "-1", "/roof/corners/1/1 is -1|from 0 to 100000"},
    {"/roof/corners/1/0", "0.5", "/roof/corners/1/0 is 0.5|a whole number"},
    {"/roof/corners/2", "[4201, 1300]", "corner 3, [4201, 1300]|length_mm, 4200|width_mm, 2600"},
    {"/roof/corners/2", "[3600, 0]", "corners 2 and 3 at the same place, [3600, 0]"},
    {"/roof/corners", "[[0, 0], [4200, 2600], [4200, 0], [0, 2600]]",
     "/roof/corners crosses|from corner 1 to corner 2|from corner 3 to corner 4"},
    {"/roof/corners", "[[0, 0], [2000, 0], [4200, 0]]", "/roof/corners crosses|touches itself"},
    {"/roof/corners", "[[0, 0], [4200, 0], [2000, 0], [2000, 900]]",
     "/roof/corners crosses|from corner 1 to corner 2|from corner 2 to corner 3"},
    {"/roof/standoff_mm", "-5", "/roof/standoff_mm is -5|from 0 to 100000"},
    {"/roof/over_obstacles", "1", "/roof/over_obstacles is 1|true or false"},
    {"/roof/max_height_mm", "0", "/roof/max_height_mm is 0|from 1 to 100000"},
    {"/roof/max_height_mm", "\"low\"", "/roof/max_height_mm is \"low\"|or null"},
    {"/roof/front_azimuth_deg", "361", "/roof/front_azimuth_deg is 361|from 0 to 360"},
    {"/roof/front_azimuth_deg", "\"north\"", "/roof/front_azimuth_deg is \"north\"|\"any\""},
    {"/roof/gland", "[1, 2]", "/roof/gland is|an object"},
    {"/roof/gland/x_mm", "4201", "/roof/gland/x_mm is 4201|from 0 to 4200"},
    {"/roof/gland/y_mm", NULL, "/roof/gland/y_mm is missing"},
    {"/roof/pins", "{}", "/roof/pins is|a list"},
    {"/roof/pins/0", "3", "/roof/pins/0 is 3|an object"},
    {"/roof/pins/0/panel", NULL, "/roof/pins/0/panel is missing"},
    {"/roof/pins/0/panel", "\"two words\"", "/roof/pins/0/panel is \"two words\""},
    {"/roof/pins/0/x_mm", "-1", "/roof/pins/0/x_mm is -1|from 0 to 100000"},
    {"/roof/pins/0/turned", "90", "/roof/pins/0/turned is 90|true or false"},
    {"/bay/gap_mm", "-1", "/bay/gap_mm is -1|from 0 to 100000"},
    {"/limits/money_minor/value", "-1", "a whole number, 0 or more"},
    {"/bay", "{\"length_mm\": 500}", "/bay/width_mm is missing"},
    {"/driving", "{\"alternator_a\": 90, \"alternator_v\": 14, \"hours_per_day\": 1}",
     "/driving/alternator_v is 14|12 or 24"},
    {"/driving", "{\"alternator_a\": 90, \"alternator_v\": 12, \"hours_per_day\": 30}",
     "/driving/hours_per_day is 30|from 0 to 24"},
    {"/inverter_hours_per_day", "24.5", "/inverter_hours_per_day is 24.5"},
    {"/targets/autonomy_days", "-1", "/targets/autonomy_days is -1"},
    {"/limits", NULL, "/limits is missing"},
    {"/limits/money_minor", NULL, "/limits/money_minor is missing"},
    {"/limits/money_minor/value", "1234.5", "/limits/money_minor/value is 1234.5|a whole number"},
    {"/limits/money_minor/value", "-1", "/limits/money_minor/value is -1"},
    {"/limits/weight_kg/value", "null", "/limits/weight_kg/value is null"},
    {"/limits/roof/on", "\"no\"", "/limits/roof/on is \"no\""},
    {"/anchors", "{\"cost\": {\"full\": 5, \"none\": 5}}",
     "/anchors/cost/none is 5|another number"},
    {"/anchors", "{\"cost\": 5}", "/anchors/cost is 5|an object"},
    {"/rank_by", "7", "/rank_by is 7|an object"},
    {"/rank_by", "{\"way\": \"best\"}",
     "/rank_by/way is \"best\"|\"score\", \"goals\" or \"importance\""},
    {"/rank_by", "{\"way\": \"goals\", \"goals\": {\"cost\": \"cheap\"}}",
     "/rank_by/goals/cost is \"cheap\"|a number, or null"},
    {"/rank_by", "{\"way\": \"importance\", \"importance\": []}",
     "/rank_by/importance has 0 items|from 1 to 8"},
    {"/rank_by",
     "{\"way\": \"importance\", \"importance\": [{\"criterion\": \"cost\", \"step\": -1}]}",
     "/rank_by/importance/0/step is -1|0 or more"},
    {"/rank_by",
     "{\"way\": \"importance\", \"importance\": [{\"criterion\": \"cost\"}, {\"criterion\": "
     "\"cost\"}]}",
     "/rank_by/importance/1/criterion is \"cost\"|does not stand in the list already"},
    {"/weights", "{\"cost\": -1}", "/weights/cost is -1"},
    {"/weights", "{\"cost\": 0, \"weight\": 0, \"usable_capacity\": 0, \"roof_area\": 0}",
     "/weights are all 0"},
    {"/front", "[\"price\"]", "/front/0 is \"price\"|\"cost\""},
    {"/front", "[]", "/front has 0 items"},
    {"/largest", "{\"series\": 21}", "/largest/series is 21|from 1 to 20"},
    {"/largest", "{\"bank_parallel\": 0}", "/largest/bank_parallel is 0"},
    {"/rule_set", "\"yacht\"", "/rule_set is \"yacht\"|\"road-vehicle\", \"boat\" or \"building\""},
    {"/system_volts", "[36]", "/system_volts/0 is 36|12, 24 or 48"},
    {"/system_volts", "[]", "/system_volts has 0 items"},
    {"/candidates", "\"some\"", "/candidates is \"some\"|\"all\""},
    {"/candidates", "[\"a-1\", \"A 1\"]", "/candidates/1 is \"A 1\"|lower-case"},
    {"/candidates", "[\"a-1\", \"a-1\"]", "/candidates/1 is \"a-1\"|already"},
    {"/owned", "[{\"part\": \"a\", \"count\": 0}]", "/owned/0/count is 0"},
    {"/owned", "[{\"count\": 1}]", "/owned/0/part is missing"},
    {"/owned", "[3]", "/owned/0 is 3"},
    {"/fixed_offers", "[{\"part\": \"a\"}]", "/fixed_offers/0/shop is missing"},
    {"/sundries_percent", "101", "/sundries_percent is 101|from 0 to 100"},
    {"/kit_in_hand", "7", "/kit_in_hand is 7"},
};

/* The example with one value replaced, whether that is valid or not. (transfer full) */
static char *spoil(const char *pointer, const char *json)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(GBytes) bytes = scratch_read(example_path);
    g_autoptr(WbJsonTree) tree = cJSON_Parse(g_bytes_get_data(bytes, NULL));
    if (json)
        wb_json_set(tree, pointer, cJSON_Parse(json), &error);
    else
        wb_json_remove(tree, pointer, &error);
    g_assert_no_error(error);
    return wb_json_print(tree);
}

static void test_wrong_values(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "spoilt.json");
    for (size_t i = 0; i < G_N_ELEMENTS(wrong); i++) {
        g_autoptr(GError) error = NULL;
        g_autofree char *text = spoil(wrong[i].pointer, wrong[i].json);
        scratch_write(path, text, -1);
        g_autoptr(WbBriefFile) file = wb_brief_file_read(path, &error);
        if (file)
            g_error("%s = %s was accepted", wrong[i].pointer,
                    wrong[i].json ? wrong[i].json : "nothing");
        assert_sentence(error, wrong[i].words);
        assert_sentence(error, path);
        g_autoptr(GBytes) after = scratch_read(path);
        g_assert_cmpmem(g_bytes_get_data(after, NULL), g_bytes_get_size(after), text, strlen(text));
    }
}

/* The same as edits: refused, and the brief that was there is untouched. */
static void test_wrong_edits(void)
{
    g_autoptr(WbBriefFile) file = read_example();
    g_autofree char *before = wb_brief_file_text(file);
    for (size_t i = 0; i < G_N_ELEMENTS(wrong); i++) {
        g_autoptr(GError) error = NULL;
        g_autoptr(WbBriefFile) edited =
            wrong[i].json ? wb_brief_file_set(file, wrong[i].pointer, wrong[i].json, &error)
                          : wb_brief_file_remove(file, wrong[i].pointer, &error);
        g_assert_null(edited);
        assert_sentence(error, wrong[i].words);
        g_autofree char *after = wb_brief_file_text(file);
        g_assert_cmpstr(before, ==, after);
    }
}

/* Whole files that are no brief at all. */
static void test_wrong_files(Scratch *scratch, gconstpointer data)
{
    static const struct {
        const char *text, *words;
    } files[] = {
        {"", "is empty"},
        {"   ", "the text ends"},
        {"hello", "line 1, column 1|found \"h\""},
        {"[]", "the document is the list []|an object"},
        {"{}", "/format is missing"},
        {"{\"format\": \"wattberth-brief\", \"version\": 1}", "/name is missing"},
        {"{\"format\": \"wattberth-brief\", \"version\": 99}", "/version is 99|newer"},
        {"{\"format\": \"wattberth-brief\", \"version\": 1, \"version\": 1}",
         "/version stands twice"},
        {"{\"format\": \"wattberth-brief\", \"x\": NaN}", "column 36|found \"N\""},
        {"{\"format\": \"wattberth-brief\", \"x\": 1e400}", "1e400 is too large"},
        {"\xff\xfe{\0}\0", "UTF-8"},
        {"SQLite format 3", "found \"S\""},
    };
    g_autofree char *path = scratch_file(scratch, "wrong.json");
    for (size_t i = 0; i < G_N_ELEMENTS(files); i++) {
        g_autoptr(GError) error = NULL;
        scratch_write(path, files[i].text, -1);
        g_assert_null(wb_brief_file_read(path, &error));
        assert_sentence(error, files[i].words);
        assert_sentence(error, path);
    }
}

static void test_cut_short(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "cut.json");
    g_autoptr(WbBriefFile) file = read_example();
    g_autofree char *text = wb_brief_file_text(file);
    for (size_t length = 0; length < strlen(text) - 2; length += 97) {
        g_autoptr(GError) error = NULL;
        scratch_write(path, text, (gssize)length);
        g_assert_null(wb_brief_file_read(path, &error));
        assert_sentence(error, path);
    }
}

static void test_no_file(Scratch *scratch, gconstpointer data)
{
    g_autofree char *missing = scratch_file(scratch, "nothing.json");
    g_autoptr(GError) error = NULL;
    g_assert_null(wb_brief_file_read(missing, &error));
    assert_sentence(error, missing);
    assert_sentence(error, "cannot be opened");
    g_clear_error(&error);
    g_assert_null(wb_brief_file_read(scratch->path, &error));
    assert_sentence(error, scratch->path);
    assert_sentence(error, "cannot be read");
    g_clear_error(&error);
    g_assert_null(wb_brief_file_read("/dev/zero", &error));
    assert_sentence(error, "/dev/zero is larger than 16 MiB");
    g_assert_cmpint(scratch_count(scratch), ==, 0);
}

/* A text of a megabyte is refused in a sentence that does not repeat it. */
static void test_long_texts(void)
{
    static const struct {
        const char *pointer;
        gsize length;
        gboolean accepted;
    } texts[] = {
        {"/name", 200, TRUE},
        {"/name", 201, FALSE},
        {"/name", 1000000, FALSE},
        {"/notes", 20000, TRUE},
        {"/notes", 20001, FALSE},
        {"/notes", 1000000, FALSE},
        {"/loads/0/name", 201, FALSE},
        {"/roof/obstacles/0/name", 1000000, FALSE},
        {"/site/place", 1000000, FALSE},
        {"/rule_set", 1000000, FALSE},
        {"/currency", 1000000, FALSE},
    };
    g_autoptr(WbBriefFile) file = read_example();
    for (size_t i = 0; i < G_N_ELEMENTS(texts); i++) {
        g_autoptr(GError) error = NULL;
        g_autofree char *letters = g_strnfill(texts[i].length, 'x');
        g_autofree char *json = g_strdup_printf("\"%s\"", letters);
        g_autoptr(WbBriefFile) edited = wb_brief_file_set(file, texts[i].pointer, json, &error);
        g_assert_cmpint(edited != NULL, ==, texts[i].accepted);
        if (!edited)
            assert_sentence(error, texts[i].pointer);
    }
}

static const char shortest[] =
    "{\"format\": \"wattberth-brief\", \"version\": 1, \"name\": \"n\", \"currency\": \"EUR\","
    " \"loads\": [{\"name\": \"l\", \"watts\": 5, \"supply\": \"ac\", \"hours_per_day\": 2}],"
    " \"site\": {\"place\": \"bariloche-argentina\", \"months\": [1, 12]},"
    " \"roof\": {\"length_mm\": 2000, \"width_mm\": 1000},"
    " \"limits\": {\"money_minor\": {\"value\": 5000}, \"weight_kg\": {\"value\": 80}}}";

static void check_default_load(const WbLoad *load)
{
    g_assert_true(load->ac && load->together && !load->needs_pure_sine);
    g_assert_cmpint(load->count, ==, 1);
    g_assert_cmpfloat(load->duty, ==, 1);
    g_assert_cmpint(load->day_part, ==, WB_DAY_ALL);
    g_assert_cmpuint(load->months, ==, 0xFFF);
    g_assert_cmpfloat(load->days_week, ==, 7);
    g_assert_cmpfloat(load->surge_factor, ==, 1);
    g_assert_cmpint(load->drop_pct, ==, 3);
    g_assert_true(isnan(load->length_m));
}

static void check_default_wiring(const WbWiringWishes *wiring)
{
    static const double usual_m[WB_N_CIRCUITS] = {2, 4, 1.5, 5, 1.5, 1.5, 0.4, 0.5, 1, 1, 4};
    g_assert_true(wiring->on);
    g_assert_cmpint(wiring->sizes, ==, WB_SIZES_ANY);
    g_assert_cmpint(wiring->terminal_c, ==, 75);
    g_assert_true(isnan(wiring->inside_c) && isnan(wiring->roof_c));
    g_assert_cmpint(wiring->bundled, ==, 3);
    for (int kind = 0; kind < WB_N_CIRCUITS; kind++)
        g_assert_cmpfloat(wiring->length_m[kind], ==, usual_m[kind]);
}

static void check_default_site(const WbSite *site)
{
    g_assert_cmpstr(site->place.name, ==, "Bariloche");
    g_assert_cmpuint(site->months, ==, 1u << 0 | 1u << 11);
    g_assert_cmpfloat(site->tilt_deg, ==, 0);
    g_assert_true(isnan(site->azimuth_deg));
    g_assert_cmpfloat(site->shading_loss[7], ==, 0);
    g_assert_cmpfloat(site->soiling_loss, ==, 0.03);
    g_assert_cmpfloat(site->ground_albedo, ==, 0.2);
    g_assert_cmpint(site->mounting, ==, WB_MOUNT_RAISED);
    /* Coldest month's mean minimum, -2.0 C in July, less 15 K. */
    g_assert_cmpfloat_with_epsilon(site->design_cold_c, -17, 1e-9);
    g_assert_cmpint(site->bank_where, ==, WB_BANK_INSIDE);
    g_assert_cmpfloat(site->inside_c, ==, 15);
    g_assert_true(site->sleeping_space);
    g_assert_cmpint(site->weather_years, ==, 10);
    g_assert_cmpuint(site->weather_seed, ==, 1);
    g_assert_null(site->hours);
}

/* The defaults FORMATS.md gives. */
static void test_defaults(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbBriefFile) file = wb_brief_file_parse(shortest, -1, "shortest", &error);
    g_assert_no_error(error);
    const WbBrief *brief = wb_brief_file_brief(file);
    check_default_load(&brief->loads[0]);
    check_default_site(&brief->site);
    g_assert_cmpint(brief->roof.margin_mm + brief->roof.gap_mm, ==, 0);
    g_assert_true(isnan(brief->roof.max_load_kg));
    g_assert_cmpint(brief->bay.length_mm, ==, 0);
    g_assert_cmpfloat(brief->driving.alternator_a, ==, 0);
    g_assert_cmpfloat(brief->shore.nights_week, ==, 0);
    g_assert_cmpfloat(brief->shore.charger_a, ==, 0);
    g_assert_true(isnan(brief->inverter_hours_day));
    g_assert_cmpfloat(brief->autonomy_target_days, ==, 2);
    g_assert_cmpfloat(brief->dark_hours.value, ==, 100);
    g_assert_true(brief->dark_hours.on);
    g_assert_true(brief->money_minor.on && brief->weight_kg.on && brief->roof_on && brief->bay_on);
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        g_assert_true(isnan(brief->anchor[c].full) && isnan(brief->anchor[c].none));
        g_assert_cmpfloat(brief->weight[c], ==, c < 4 ? 1 : 0);
    }
    g_assert_cmpuint(brief->front, ==, 0xF);
    g_assert_cmpint(brief->largest.series, ==, 6);
    g_assert_cmpint(brief->largest.parallel, ==, 6);
    g_assert_cmpint(brief->largest.controllers, ==, 1);
    g_assert_cmpint(brief->largest.bank_series, ==, 4);
    g_assert_cmpint(brief->largest.bank_parallel, ==, 4);
    g_assert_cmpint(brief->rule_set, ==, WB_RULES_ROAD_VEHICLE);
    g_assert_cmpuint(brief->system_v, ==, 7);
    g_assert_null(brief->candidates);
    g_assert_cmpuint(brief->n_owned + brief->n_fixed_offers + brief->n_rates, ==, 0);
    check_default_wiring(&brief->wiring);
    g_assert_cmpfloat(brief->sundries_pct, ==, 7);
    g_assert_cmpstr(brief->picked_kit, ==, "");
}

/* The values of the commented example, one by one where they differ from the defaults. */
static void test_example(void)
{
    g_autoptr(WbBriefFile) file = read_example();
    const WbBrief *brief = wb_brief_file_brief(file);
    g_assert_cmpstr(brief->name, ==, "Example: a cabin on a slope");
    g_assert_cmpuint(brief->n_rates, ==, 2);
    g_assert_cmpstr(brief->rates[1].currency, ==, "USD");
    g_assert_cmpfloat(brief->rates[1].rate, ==, 0.9);
    g_assert_cmpuint(brief->n_loads, ==, 3);
    g_assert_cmpuint(brief->loads[0].months, ==, 0x1F8);
    g_assert_cmpfloat(brief->loads[1].power_w, ==, 120);
    g_assert_cmpfloat(brief->loads[1].volts, ==, 24);
    g_assert_true(isnan(brief->loads[0].volts));
    g_assert_cmpint(brief->loads[1].day_part, ==, WB_DAY_DAYLIGHT);
    g_assert_cmpint(brief->loads[2].day_part, ==, WB_DAY_FROM_TO);
    g_assert_cmpfloat(brief->loads[2].from_h, ==, 21);
    g_assert_cmpfloat(brief->loads[2].to_h, ==, 1);
    g_assert_true(brief->loads[2].ac && brief->loads[2].needs_pure_sine);
    g_assert_cmpstr(brief->site.place.name, ==, "Upper meadow");
    g_assert_cmpfloat(brief->site.place.latitude_deg, ==, 46.2);
    g_assert_cmpint(brief->site.weather_years, ==, 20);
    g_assert_cmpuint(brief->site.weather_seed, ==, 1);
    g_assert_cmpfloat(brief->shore.nights_week, ==, 0.5);
    g_assert_cmpfloat(brief->shore.charger_a, ==, 20);
    g_assert_cmpfloat(brief->dark_hours.value, ==, 60);
    g_assert_true(brief->dark_hours.on);
}

static void test_wiring(void)
{
    static const double length_m[WB_N_CIRCUITS] = {3.5,  6,   1.2, 5,   1.5, 1.5,
                                                   0.35, 0.6, 0.8, 0.7, 5};
    g_autoptr(GError) error = NULL;
    g_autoptr(WbBriefFile) file = read_example();
    const WbBrief *brief = wb_brief_file_brief(file);
    g_assert_true(brief->wiring.on);
    g_assert_cmpint(brief->wiring.sizes, ==, WB_SIZES_AWG);
    g_assert_cmpint(brief->wiring.terminal_c, ==, 75);
    g_assert_cmpfloat(brief->wiring.inside_c, ==, 35);
    g_assert_true(isnan(brief->wiring.roof_c));
    g_assert_cmpint(brief->wiring.bundled, ==, 4);
    for (int kind = 0; kind < WB_N_CIRCUITS; kind++)
        g_assert_cmpfloat(brief->wiring.length_m[kind], ==, length_m[kind]);
    g_assert_true(isnan(brief->loads[0].length_m));
    g_assert_cmpfloat(brief->loads[2].length_m, ==, 7.5);
    /* A length of null, one that is not there, and the ends of what is accepted. */
    g_autoptr(WbBriefFile) other = wb_brief_file_set(
        file, "/wiring",
        "{\"on\": false, \"terminals_c\": 90, \"roof_c\": -40, \"more\": 1,"
        " \"lengths_m\": {\"string\": null, \"array\": 0.05, \"main\": 100, \"more\": 2}}",
        &error);
    g_assert_no_error(error);
    const WbWiringWishes *wiring = &wb_brief_file_brief(other)->wiring;
    g_assert_false(wiring->on);
    g_assert_cmpint(wiring->terminal_c, ==, 90);
    g_assert_cmpfloat(wiring->roof_c, ==, -40);
    g_assert_cmpfloat(wiring->length_m[WB_CIRCUIT_STRING], ==, 2);
    g_assert_cmpfloat(wiring->length_m[WB_CIRCUIT_ARRAY], ==, 0.05);
    g_assert_cmpfloat(wiring->length_m[WB_CIRCUIT_MAIN], ==, 100);
    g_assert_cmpfloat(wiring->length_m[WB_CIRCUIT_LOAD], ==, 4);
    const GPtrArray *not_read = wb_brief_file_not_read(other);
    g_assert_cmpuint(not_read->len, ==, 2);
    g_autofree char *kept = wb_brief_file_get(other, "/wiring/lengths_m/more");
    g_assert_cmpstr(kept, ==, "2");
}

static void check_round_trip(WbBriefFile *file, const char *path)
{
    g_autoptr(GError) error = NULL;
    g_autofree char *text = wb_brief_file_text(file);
    g_assert_true(g_str_has_suffix(text, "}\n"));
    g_assert_true(wb_brief_file_write(file, path, &error));
    g_assert_no_error(error);
    g_autoptr(WbBriefFile) again = wb_brief_file_read(path, &error);
    g_assert_no_error(error);
    g_assert_true(wb_brief_file_write(again, path, &error));
    g_autoptr(GBytes) bytes = scratch_read(path);
    g_assert_cmpmem(g_bytes_get_data(bytes, NULL), g_bytes_get_size(bytes), text, strlen(text));
}

static void test_round_trip(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "trip.json");
    g_autoptr(WbBriefFile) example = read_example(), demo = wb_brief_file_demo(),
                           new_brief = wb_brief_file_new();
    check_round_trip(example, path);
    check_round_trip(demo, path);
    check_round_trip(new_brief, path);
    g_assert_cmpint(scratch_count(scratch), ==, 1);
}

/* Members nobody knows, comments, odd numbers and texts come back as they were. */
static void test_unknown_kept(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "unknown.json");
    g_autoptr(GError) error = NULL;
    g_autoptr(WbBriefFile) example = read_example();
    g_autoptr(WbBriefFile) one = wb_brief_file_set(
        example, "/x-mine", "{\"deep\": [1, 0.30000000000000004, \"a\\u00e9\\n\", null]}", &error);
    g_assert_no_error(error);
    g_autoptr(WbBriefFile) two = wb_brief_file_set(one, "/loads/0/colour", "\"blue\"", &error);
    g_assert_no_error(error);
    check_round_trip(two, path);
    g_autoptr(WbBriefFile) read = wb_brief_file_read(path, &error);
    g_autofree char *number = wb_brief_file_get(read, "/x-mine/deep/1");
    g_autofree char *colour = wb_brief_file_get(read, "/loads/0/colour");
    g_autofree char *comment = wb_brief_file_get(read, "/loads/1/~1~1");
    g_assert_cmpstr(number, ==, "0.30000000000000004");
    g_assert_cmpstr(colour, ==, "\"blue\"");
    g_assert_cmpstr(comment, ==,
                    "\"Volts and amps in the place of watts, as some labels give them.\"");
}

static void test_write_fails(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = g_build_filename(scratch->path, "no", "such", "folder.json", NULL);
    g_autoptr(GError) error = NULL;
    g_autoptr(WbBriefFile) file = wb_brief_file_new();
    g_assert_false(wb_brief_file_write(file, path, &error));
    assert_sentence(error, path);
    assert_sentence(error, "cannot be written");
    g_clear_error(&error);
    g_assert_false(wb_brief_file_write(file, scratch->path, &error));
    assert_sentence(error, scratch->path);
    g_assert_cmpint(scratch_count(scratch), ==, 0);
}

/* The disk has no room for the new text: the old file is still there, whole, and nothing else. */
static void test_write_cut_short(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "kept.json");
    g_autoptr(GError) error = NULL;
    g_autoptr(WbBriefFile) file = read_example();
    struct rlimit before, small;
    scratch_write(path, "the old text", -1);
    signal(SIGXFSZ, SIG_IGN);
    g_assert_cmpint(getrlimit(RLIMIT_FSIZE, &before), ==, 0);
    small = before;
    small.rlim_cur = 1024;
    g_assert_cmpint(setrlimit(RLIMIT_FSIZE, &small), ==, 0);
    gboolean written = wb_brief_file_write(file, path, &error);
    g_assert_cmpint(setrlimit(RLIMIT_FSIZE, &before), ==, 0);
    g_assert_false(written);
    assert_sentence(error, path);
    g_autoptr(GBytes) kept = scratch_read(path);
    g_assert_cmpmem(g_bytes_get_data(kept, NULL), g_bytes_get_size(kept), "the old text", 12);
    g_assert_cmpint(scratch_count(scratch), ==, 1);
}

static void test_write_through_link(Scratch *scratch, gconstpointer data)
{
    g_autofree char *target = scratch_file(scratch, "target.json");
    g_autofree char *link = scratch_file(scratch, "link.json");
    g_autoptr(GError) error = NULL;
    g_autoptr(WbBriefFile) file = wb_brief_file_new();
    GStatBuf status;
    scratch_write(target, "old", -1);
    g_chmod(target, 0600);
    g_assert_cmpint(symlink("target.json", link), ==, 0);
    g_assert_true(wb_brief_file_write(file, link, &error));
    g_assert_no_error(error);
    g_assert_cmpint(g_lstat(link, &status), ==, 0);
    g_assert_true(S_ISLNK(status.st_mode));
    g_assert_cmpint(g_stat(target, &status), ==, 0);
    g_assert_cmpint(status.st_mode & 0777, ==, 0600);
    g_autoptr(WbBriefFile) again = wb_brief_file_read(target, &error);
    g_assert_no_error(error);
}

static void test_edits(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbBriefFile) demo = wb_brief_file_demo();
    size_t n = wb_brief_file_brief(demo)->n_loads;
    g_autofree char *second = g_strdup(wb_brief_file_brief(demo)->loads[1].name);
    g_autoptr(WbBriefFile) set = wb_brief_file_set(demo, "/loads/1/watts", "12.5", &error);
    g_assert_cmpfloat(wb_brief_file_brief(set)->loads[1].power_w, ==, 12.5);
    g_autoptr(WbBriefFile) moved = wb_brief_file_move(set, "/loads", 1, 0, &error);
    g_assert_cmpstr(wb_brief_file_brief(moved)->loads[0].name, ==, second);
    g_autoptr(WbBriefFile) removed = wb_brief_file_remove(moved, "/loads/0", &error);
    g_assert_cmpuint(wb_brief_file_brief(removed)->n_loads, ==, n - 1);
    g_autofree char *load = wb_brief_file_get(moved, "/loads/0");
    g_autoptr(WbBriefFile) back = wb_brief_file_insert(removed, "/loads/1", load, &error);
    g_autoptr(WbBriefFile) last = wb_brief_file_insert(back, "/loads/-", load, &error);
    g_assert_no_error(error);
    g_assert_cmpstr(wb_brief_file_brief(last)->loads[n].name, ==, second);
    g_autofree char *as_moved = wb_brief_file_text(back), *as_set = wb_brief_file_text(set);
    g_assert_cmpstr(as_moved, ==, as_set);
    g_assert_null(wb_brief_file_get(demo, "/nothing/here"));
}

static WbBriefFile *example_with(const char *pointer, const char *json)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbBriefFile) example = read_example();
    WbBriefFile *file = wb_brief_file_set(example, pointer, json, &error);
    g_assert_no_error(error);
    return file;
}

/* Kept, but named; a comment, and what is read, is not. */
static void test_not_read(void)
{
    static const struct {
        const char *pointer, *text;
    } unknown[] = {
        {"/loads/0/dutty", "/loads/0/dutty"},
        {"/loads/1/dutty", "/loads/1/dutty; did you mean duty?"},
        {"/loads/1/dayz_per_week", "/loads/1/dayz_per_week; did you mean days_per_week?"},
        {"/roof/obsticles", "/roof/obsticles"},
        {"/taregts", "/taregts"},
        {"/site/place/altitude", "/site/place/altitude"},
        {"/limits/roof/onn", "/limits/roof/onn"},
        {"/colour", "/colour"},
        {"/loads/1/~1~1 colour", NULL},
        {"/loads/1/count", NULL},
        {"/rates/CHF", NULL},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(unknown); i++) {
        g_autoptr(WbBriefFile) file = example_with(unknown[i].pointer, "1");
        const GPtrArray *rest = wb_brief_file_not_read(file);
        g_assert_cmpuint(rest->len, ==, unknown[i].text != NULL);
        g_autofree char *text = rest->len ? wb_not_read_text(rest->pdata[0]) : NULL;
        g_assert_cmpstr(text, ==, unknown[i].text);
    }
}

/* Nothing the program itself makes or shows goes unread. */
static void test_all_read(void)
{
    g_autoptr(WbBriefFile) example = read_example();
    g_autoptr(WbBriefFile) demo = wb_brief_file_demo();
    g_autoptr(WbBriefFile) new_brief = wb_brief_file_new();
    const WbBriefFile *const files[] = {example, demo, new_brief};
    for (size_t i = 0; i < G_N_ELEMENTS(files); i++)
        g_assert_cmpuint(wb_brief_file_not_read(files[i])->len, ==, 0);
}

/* A required member under a wrong name: the sentence says both. */
static void test_misspelt(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbBriefFile) file = example_with("/loads/0/suply", "\"dc\"");
    g_autoptr(WbBriefFile) without = wb_brief_file_remove(file, "/loads/0/supply", &error);
    g_assert_null(without);
    assert_sentence(error, "/loads/0/supply is missing|\"suply\" stands there");
}

/* What lies partly on the roof, or keeps panels off it by its clearance, is accepted. */
static void test_obstacle_at_the_edge(void)
{
    g_autoptr(WbBriefFile) over = example_with("/roof/obstacles/0/x_mm", "-399");
    g_autoptr(WbBriefFile) beside = example_with("/roof/obstacles/0/x_mm", "4349");
    g_assert_cmpint(wb_brief_file_brief(over)->roof.obstacles[0].x_mm, ==, -399);
    g_assert_cmpint(wb_brief_file_brief(beside)->roof.obstacles[0].x_mm, ==, 4349);
}

static void test_roof_members(void)
{
    g_autoptr(WbBriefFile) file = read_example();
    const WbBrief *brief = wb_brief_file_brief(file);
    const WbRoof *roof = &brief->roof;
    g_assert_cmpuint(roof->n_corners, ==, 5);
    g_assert_cmpint(roof->corners[2].x_mm, ==, 4200);
    g_assert_cmpint(roof->corners[2].y_mm, ==, 1300);
    g_assert_cmpint(roof->standoff_mm, ==, 80);
    g_assert_true(roof->over_obstacles);
    g_assert_cmpint(roof->max_height_mm, ==, 150);
    g_assert_cmpfloat(roof->front_azimuth_deg, ==, 170);
    g_assert_true(roof->has_gland);
    g_assert_cmpint(roof->gland.x_mm, ==, 2900);
    g_assert_cmpint(roof->gland.y_mm, ==, 1300);
    g_assert_cmpuint(roof->n_pins, ==, 1);
    g_assert_cmpstr(roof->pins[0].part_id, ==, "p-tarnfeld-335-rigid");
    g_assert_cmpint(roof->pins[0].x_mm, ==, 100);
    g_assert_false(roof->pins[0].turned);
    g_assert_false(roof->obstacles[0].round);
    g_assert_cmpint(roof->obstacles[0].height_mm, ==, 700);
    g_assert_true(roof->obstacles[1].round);
    g_assert_cmpint(roof->obstacles[1].kind, ==, WB_OBSTACLE_STANDS);
    g_assert_cmpint(roof->obstacles[2].kind, ==, WB_OBSTACLE_WALKWAY);
    g_assert_cmpint(roof->obstacles[2].height_mm, ==, 0);
    g_assert_cmpint(brief->bay.gap_mm, ==, 10);
}

/* What a brief of before these members means, and what null means. */
static void test_roof_defaults(void)
{
    g_autoptr(WbBriefFile) fresh = wb_brief_file_new();
    g_autoptr(WbBriefFile) nulls = example_with(
        "/roof", "{\"length_mm\": 2000, \"width_mm\": 1000, \"corners\": null, "
                 "\"max_height_mm\": null, \"front_azimuth_deg\": null, \"gland\": null}");
    const WbRoof *roofs[] = {&wb_brief_file_brief(fresh)->roof, &wb_brief_file_brief(nulls)->roof};
    for (size_t i = 0; i < G_N_ELEMENTS(roofs); i++) {
        g_assert_cmpuint(roofs[i]->n_corners + roofs[i]->n_pins, ==, 0);
        g_assert_cmpint(roofs[i]->standoff_mm + roofs[i]->max_height_mm, ==, 0);
        g_assert_true(isnan(roofs[i]->front_azimuth_deg));
        g_assert_false(roofs[i]->over_obstacles || roofs[i]->has_gland);
    }
}

/* (transfer full) [item, item, ...] */
static char *list_of(const char *item, size_t n)
{
    GString *text = g_string_new("[");
    for (size_t i = 0; i < n; i++)
        g_string_append_printf(text, "%s%s", i ? "," : "", item);
    return g_string_free(g_string_append(text, "]"), FALSE);
}

static void test_too_many_on_a_roof(void)
{
    static const char vent[] =
        "{\"name\":\"\",\"x_mm\":1,\"y_mm\":1,\"length_mm\":1,\"width_mm\":1}";
    static const char pin[] = "{\"panel\":\"p\",\"x_mm\":1,\"y_mm\":1}";
    static const struct {
        const char *pointer, *item;
        size_t n;
        const char *words;
    } lists[] = {
        {"/roof/obstacles", vent, 1000, NULL},
        {"/roof/obstacles", vent, 10000, "/roof/obstacles has 10000 items|from 0 to 1000"},
        {"/roof/pins", pin, 1000, NULL},
        {"/roof/pins", pin, 1001, "/roof/pins has 1001 items|from 0 to 1000"},
        {"/roof/corners", "[1,1]", 1001, "/roof/corners has 1001 items|from 3 to 1000"},
    };
    g_autoptr(WbBriefFile) file = read_example();
    for (size_t i = 0; i < G_N_ELEMENTS(lists); i++) {
        g_autoptr(GError) error = NULL;
        g_autofree char *json = list_of(lists[i].item, lists[i].n);
        g_autoptr(WbBriefFile) edited = wb_brief_file_set(file, lists[i].pointer, json, &error);
        g_assert_cmpint(edited != NULL, ==, lists[i].words == NULL);
        if (lists[i].words)
            assert_sentence(error, lists[i].words);
    }
}

static void test_wrong_fragments(void)
{
    static const struct {
        const char *json, *words;
    } fragments[] = {
        {"", "The new value of /name is empty"},
        {"\"a\" x", "The new value of /name, line 1"},
        {"{\"a\": 1, \"a\": 1}", "stands twice"},
        {"NaN", "found \"N\""},
    };
    g_autoptr(WbBriefFile) file = read_example();
    for (size_t i = 0; i < G_N_ELEMENTS(fragments); i++) {
        g_autoptr(GError) error = NULL;
        g_assert_null(wb_brief_file_set(file, "/name", fragments[i].json, &error));
        assert_sentence(error, fragments[i].words);
    }
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
#define ADD(name, function)                                                                        \
    g_test_add("/brief/" name, Scratch, NULL, scratch_set_up, function, scratch_tear_down)
    ADD("wrong-values", test_wrong_values);
    g_test_add_func("/brief/wrong-edits", test_wrong_edits);
    ADD("wrong-files", test_wrong_files);
    ADD("cut-short", test_cut_short);
    ADD("no-file", test_no_file);
    g_test_add_func("/brief/long-texts", test_long_texts);
    g_test_add_func("/brief/defaults", test_defaults);
    g_test_add_func("/brief/example", test_example);
    g_test_add_func("/brief/wiring", test_wiring);
    ADD("round-trip", test_round_trip);
    ADD("unknown-kept", test_unknown_kept);
    ADD("write-fails", test_write_fails);
    ADD("write-cut-short", test_write_cut_short);
    ADD("write-through-link", test_write_through_link);
    g_test_add_func("/brief/edits", test_edits);
    g_test_add_func("/brief/wrong-fragments", test_wrong_fragments);
    g_test_add_func("/brief/not-read", test_not_read);
    g_test_add_func("/brief/all-read", test_all_read);
    g_test_add_func("/brief/misspelt", test_misspelt);
    g_test_add_func("/brief/obstacle-at-the-edge", test_obstacle_at_the_edge);
    g_test_add_func("/brief/roof-members", test_roof_members);
    g_test_add_func("/brief/roof-defaults", test_roof_defaults);
    g_test_add_func("/brief/too-many-on-a-roof", test_too_many_on_a_roof);
    return g_test_run();
}
