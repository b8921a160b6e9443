/* roof --instances as JSON; the keys are documented in the man page. */
#include "cli_json.h"
#include "cli_roof.h"
#include "cli_roof_instances.h"
#include "cli_roof_proof_json.h"

static void place_json(WbJsonOut *json, const WbMixPlace *place)
{
    wb_out_object(json, NULL);
    wb_out_integer(json, "x_mm", place->rect.x_mm);
    wb_out_integer(json, "y_mm", place->rect.y_mm);
    wb_out_integer(json, "length_mm", place->rect.length_mm);
    wb_out_integer(json, "width_mm", place->rect.width_mm);
    wb_out_integer(json, "size", place->item);
    wb_out_end_object(json);
}

static void obstacles_json(WbJsonOut *json, const WbRoof *roof)
{
    wb_out_array(json, "obstacles");
    for (size_t i = 0; i < roof->n_obstacles; i++) {
        const WbObstacle *obstacle = &roof->obstacles[i];
        wb_out_object(json, NULL);
        wb_out_integer(json, "x_mm", obstacle->x_mm);
        wb_out_integer(json, "y_mm", obstacle->y_mm);
        wb_out_integer(json, "length_mm", obstacle->length_mm);
        wb_out_integer(json, "width_mm", obstacle->width_mm);
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
}

static void question_json(WbJsonOut *json, const WbInstanceAnswer *answer)
{
    const WbRoofInstance *instance = answer->instance;
    wb_out_text(json, "name", instance->name);
    wb_out_integer(json, "line", instance->line);
    wb_out_integer(json, "length_mm", instance->roof.length_mm);
    wb_out_integer(json, "width_mm", instance->roof.width_mm);
    obstacles_json(json, &instance->roof);
    wb_out_text(json, "question", instance->most ? "most" : "all");
    wb_out_flag(json, "turns", instance->items[0].turns);
    wb_out_array(json, "sizes");
    for (size_t i = 0; i < instance->n_items; i++) {
        wb_out_object(json, NULL);
        wb_out_integer(json, "length_mm", instance->items[i].length_mm);
        wb_out_integer(json, "width_mm", instance->items[i].width_mm);
        wb_out_integer(json, "count", instance->items[i].count);
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
    wb_out_integer(json, "asked", answer->asked);
}

static void bounds_json(WbJsonOut *json, const WbInstanceAnswer *answer)
{
    if (answer->one_size) {
        wb_out_integer(json, "most", answer->fit.most);
        wb_out_integer(json, "bound", answer->fit.bound);
    } else {
        wb_out_null(json, "most");
        wb_out_null(json, "bound");
    }
}

/* The proof of rectangles that may not turn speaks of a roof stretched by these factors. */
static void stretch_json(WbJsonOut *json, const WbInstanceAnswer *answer)
{
    wb_out_integer(json, "stretch_along", answer->stretched ? answer->stretch.along : 1);
    wb_out_integer(json, "stretch_across", answer->stretched ? answer->stretch.across : 1);
}

static void proof_json(WbJsonOut *json, const WbInstanceAnswer *answer)
{
    const WbMixItem *item = &answer->instance->items[0];
    const WbStretch *stretch = &answer->stretch;
    stretch_json(json, answer);
    if (answer->one_size)
        wb_cli_roof_proof_json(
            json, "proof", answer->stretched ? stretch->length_mm : item->length_mm,
            answer->stretched ? stretch->width_mm : item->width_mm,
            answer->proof.kind != WB_PROOF_NONE ? &answer->proof : NULL, answer->proof_ok);
    else
        wb_cli_mix_proof_json(json, "proof", answer->has_why ? &answer->why : NULL);
}

static void answer_json(WbJsonOut *json, const WbInstanceAnswer *answer)
{
    wb_out_object(json, NULL);
    question_json(json, answer);
    bounds_json(json, answer);
    wb_out_text(json, "answer", wb_cli_instance_answer_code(answer));
    wb_out_count(json, "nodes", answer->nodes);
    wb_out_number(json, "time_ms", answer->time_ms);
    wb_out_number(json, "proof_ms", answer->proof_ms);
    wb_out_number(json, "check_ms", answer->check_ms);
    wb_out_array(json, "layout");
    for (int i = 0; i < answer->n_layout; i++)
        place_json(json, &answer->layout[i]);
    wb_out_end_array(json);
    wb_out_flag(json, "layout_checked", answer->layout_ok);
    wb_out_text(json, "proof_kind", wb_cli_instance_proof_kind(answer));
    wb_out_flag(json, "proof_checked", answer->proof_ok);
    proof_json(json, answer);
    wb_out_end_object(json);
}

static int answers_json(WbJsonOut *json, const WbRoofInstances *instances, uint64_t nodes)
{
    for (guint i = 0; i < wb_roof_instances_count(instances); i++) {
        WbInstanceAnswer answer;
        WbStatus status =
            wb_cli_instance_answer(wb_roof_instances_get(instances, i), nodes, &answer);
        if (status == WB_OK)
            answer_json(json, &answer);
        wb_cli_instance_clear(&answer);
        if (status != WB_OK)
            return wb_cli_fail_status(status);
    }
    return WB_EXIT_DONE;
}

int wb_cli_instances_json(const WbRoofInstances *instances, const char *file, uint64_t nodes)
{
    const GPtrArray *not_read = wb_roof_instances_not_read(instances);
    WbJsonOut json;
    wb_out_start(&json);
    wb_out_object(&json, NULL);
    wb_out_format(&json, "wattberth-roof-instances");
    wb_out_text(&json, "file", file);
    wb_out_array(&json, "columns_not_read");
    for (guint i = 0; i < not_read->len; i++)
        wb_out_text(&json, NULL, g_ptr_array_index(not_read, i));
    wb_out_end_array(&json);
    wb_out_count(&json, "node_budget", nodes);
    wb_out_array(&json, "instances");
    int code = answers_json(&json, instances, nodes);
    if (code != WB_EXIT_DONE) {
        g_free(wb_out_finish(&json));
        return code;
    }
    wb_out_end_array(&json);
    wb_out_end_object(&json);
    return wb_cli_print(wb_out_finish(&json));
}
