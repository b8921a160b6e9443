/* energy: which kit, its JSON, and its hours. The text is in cli_energy_text.c. */
#include "cli_energy.h"

#include "cli_find_kit.h"
#include "cli_hours.h"
#include "cli_job.h"
#include "cli_kit_json.h"
#include "cli_year.h"
#include "weather_text.h"

static void site_json(WbJsonOut *json, const WbSite *site)
{
    wb_out_object(json, "site");
    wb_out_text(json, "place", site->place.name);
    wb_out_number(json, "latitude_deg", site->place.latitude_deg);
    wb_out_number(json, "longitude_deg", site->place.longitude_deg);
    wb_out_number(json, "tilt_deg", site->tilt_deg);
    wb_out_number(json, "azimuth_deg", site->azimuth_deg);
    wb_out_end_object(json);
}

/* Seed: null for own hours; file: null for made weather. */
static void weather_json(WbJsonOut *json, const WbSite *site)
{
    g_autofree char *sentence = wb_words_weather(site);
    wb_out_object(json, "weather");
    wb_out_integer(json, "years", site->hours ? site->hours->n_years : site->weather_years);
    if (site->hours)
        wb_out_null(json, "seed");
    else
        wb_out_count(json, "seed", site->weather_seed);
    wb_out_text(json, "hourly_file", site->hours ? site->hours->name : NULL);
    wb_out_text(json, "sentence", sentence);
    wb_out_end_object(json);
}

static void line_json(WbJsonOut *json, const WbByHandLine *line)
{
    wb_out_object(json, NULL);
    wb_out_text(json, "key", line->key);
    wb_out_text(json, "label", line->label);
    wb_out_text(json, "formula", line->formula);
    wb_out_text(json, "numbers", line->numbers[0] != '\0' ? line->numbers : NULL);
    wb_out_number(json, "figure", line->figure);
    wb_out_text(json, "unit", line->unit);
    wb_out_text(json, "source", line->source[0] != '\0' ? line->source : NULL);
    wb_out_end_object(json);
}

/* Null: no number of them is enough. */
static void count_json(WbJsonOut *json, const char *key, double exact)
{
    int whole = wb_worksheet_whole(exact);
    if (whole < 0)
        wb_out_null(json, key);
    else
        wb_out_integer(json, key, whole);
}

static void worksheet_json(WbJsonOut *json, const WbByHand *hand)
{
    if (hand == NULL) {
        wb_out_null(json, "worksheet");
        return;
    }
    const WbWorksheet *sheet = &hand->sheet;
    wb_out_object(json, "worksheet");
    wb_out_integer(json, "design_month", sheet->design_month + 1);
    wb_out_integer(json, "storage_month", sheet->storage_month + 1);
    count_json(json, "strings", sheet->strings_exact);
    count_json(json, "batteries_parallel", sheet->batteries_parallel_exact);
    wb_out_array(json, "lines");
    for (gsize i = 0; i < hand->n; i++)
        line_json(json, &hand->line[i]);
    wb_out_end_array(json);
    wb_out_array(json, "differences");
    for (char **sentence = hand->differences; *sentence != NULL; sentence++)
        wb_out_text(json, NULL, *sentence);
    wb_out_end_array(json);
    wb_out_end_object(json);
}

static char *energy_json(const WbJob *job, const WbVerdict *verdict, const WbByHand *hand)
{
    const WbSite *site = &job->problem->brief->site;
    char id[WB_KIT_ID];
    WbJsonOut json;
    wb_kit_id(job->problem, &verdict->kit, id);
    wb_out_start(&json);
    wb_out_object(&json, NULL);
    wb_cli_head_json(&json, "wattberth-energy", job->file);
    wb_out_text(&json, "id", id);
    wb_out_flag(&json, "feasible", verdict->feasible);
    site_json(&json, site);
    weather_json(&json, site);
    wb_out_number(&json, "autonomy_days", verdict->figures.autonomy_days);
    wb_cli_year_json(&json, "year", job->problem, &verdict->year);
    worksheet_json(&json, hand);
    wb_cli_safety_json(&json, job->problem, verdict);
    wb_out_end_object(&json);
    return wb_out_finish(&json);
}

static int print_energy(const WbArguments *arguments, const WbJob *job, const WbKit *kit)
{
    WbVerdict verdict;
    WbStatus status = wb_judge(job->problem, kit, &verdict);
    if (status != WB_OK)
        return wb_cli_fail_status(status);
    g_autoptr(WbByHand) hand = wb_by_hand_new(job->problem, &verdict);
    return wb_cli_print(arguments->json ? energy_json(job, &verdict, hand)
                                        : wb_cli_energy_text(job->problem, &verdict, hand));
}

static int energy(const WbArguments *arguments, const WbJob *job, WbRanking *ranking)
{
    WbHoursWanted wanted;
    WbKit kit;
    const char *text = arguments->n_rest > 1 ? arguments->rest[1] : NULL;
    int code = wb_cli_hours_wanted(arguments, job->problem, &wanted);
    if (code == WB_EXIT_DONE)
        code = wb_cli_find_kit(job->problem, text, false, ranking, &kit);
    if (code == WB_EXIT_DONE && wanted.path != NULL)
        code = wb_cli_write_hours(&wanted, job->problem, &kit);
    if (code != WB_EXIT_DONE || g_strcmp0(wanted.path, "-") == 0)
        return code;
    return print_energy(arguments, job, &kit);
}

int wb_cli_run_energy(const WbArguments *arguments)
{
    WbJob job = {0};
    WbRanking ranking = {0};
    int code = wb_cli_load_job(arguments, arguments->rest[0], &job);
    if (code == WB_EXIT_DONE)
        code = energy(arguments, &job, &ranking);
    wb_ranking_free(&ranking);
    wb_cli_clear_job(&job);
    return code;
}
