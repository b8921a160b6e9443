#include "words_part.h"

#include "edit_distance.h"
#include "part_list.h"
#include "store_error.h"
#include "words.h"
#include <glib/gi18n-lib.h>
#include <string.h>

const char *wb_part_near(const WbCatalogue *catalogue, const char *text)
{
    const char *near = NULL, *within = NULL;
    guint least = (guint)MIN(strlen(text), 15) / 3 + 1;
    for (int k = 0; k < WB_N_KINDS; k++)
        for (gsize i = 0; i < wb_catalogue_count(catalogue, (WbPartKind)k); i++) {
            const char *id = wb_catalogue_part(catalogue, (WbPartKind)k, i)->id;
            guint changes = wb_edit_distance(text, id, least);
            if (changes < least) {
                least = changes;
                near = id;
            }
            if (within == NULL && strlen(text) > 2 && strstr(id, text) != NULL)
                within = id;
        }
    return near != NULL ? near : within;
}

/* ---- the answer ---- */

void wb_talk_add(WbAnswerTalk *talk, char *text, const WbKit *kit)
{
    WbAnswerLine line = {.text = text};
    if (kit != NULL) {
        char id[WB_KIT_ID];
        wb_kit_id(talk->problem, kit, id);
        line.kit_id = g_strdup(id);
        line.kit_words = wb_words_kit(talk->problem, kit);
    }
    g_array_append_val(talk->lines, line);
}

static WbStatus ask_circuits(WbPartAnswer *self, const WbProblem *problem, const WbRanking *ranking,
                             const WbKit *kit)
{
    gsize index;
    WbPartKind kind;
    if (!problem->brief->wiring.on || (kit == NULL && ranking->n_top == 0)) {
        self->state = WB_ANSWER_NO_WIRING;
        return WB_OK;
    }
    if (!wb_wire_find(problem, self->part_id, &kind, &index)) {
        self->state = WB_ANSWER_LEFT_OUT;
        return WB_OK;
    }
    self->state = WB_ANSWER_CIRCUITS;
    self->kit = kit != NULL ? *kit : ranking->top[0].kit;
    WbStatus status = wb_wiring(problem, &self->kit, &self->wiring);
    if (status != WB_OK)
        return status;
    self->place = g_new0(WbWirePlace, self->wiring.n + 1);
    self->n_places = wb_wire_why(problem, &self->wiring, kind, index, self->place);
    return WB_OK;
}

static WbStatus ask(WbPartAnswer *self, const WbProblem *problem, const WbRanking *ranking,
                    const WbKit *kit, WbControl *control)
{
    WbPartChoice choice;
    if (self->kind > WB_KIND_DCDC)
        return ask_circuits(self, problem, ranking, kit);
    if (!wb_part_choice(problem, self->part_id, &choice)) {
        self->state = WB_ANSWER_NOT_TICKED;
        return WB_OK;
    }
    self->state = WB_ANSWER_KITS;
    int workers = CLAMP((int)g_get_num_processors(), 1, WB_MOST_WORKERS);
    return wb_part_why(problem, &choice, ranking, workers, control, &self->why);
}

static char *plain_headline(const WbProblem *problem, WbAnswerState state)
{
    if (state == WB_ANSWER_NOT_TICKED)
        return g_strdup(_("It is not ticked, so no kit may hold it. Tick it among the parts "
                          "(/candidates of the brief) to have it tried."));
    if (state == WB_ANSWER_LEFT_OUT)
        return g_strdup(_("No circuit may use it: it has no usable offer and you own none, or the "
                          "wiring of your brief leaves out its system of sizes or one so thin."));
    return problem->brief->wiring.on
               ? g_strdup(_("No kit works, so there are no circuits it could be in."))
               : g_strdup(_("Your brief leaves the wiring out, so there are no circuits it could "
                            "be in."));
}

static void talk(WbPartAnswer *self, const WbProblem *problem, const WbRanking *ranking)
{
    WbAnswerTalk talk = {self, problem, g_array_new(FALSE, FALSE, sizeof(WbAnswerLine))};
    if (self->state == WB_ANSWER_KITS)
        wb_words_part_kits(&talk, ranking);
    else if (self->state == WB_ANSWER_CIRCUITS)
        wb_words_part_circuits(&talk);
    else
        self->headline = plain_headline(problem, self->state);
    self->n = talk.lines->len;
    self->line = (WbAnswerLine *)(gpointer)g_array_free(talk.lines, FALSE);
}

static void fail_no_part(const WbCatalogue *catalogue, const char *part_id, GError **error)
{
    const char *near = wb_part_near(catalogue, part_id);
    if (near != NULL)
        g_set_error(error, WB_STORE_ERROR, WB_STORE_ERROR_VALUE,
                    _("The catalogue has no part “%s” (did you mean %s?)."), part_id, near);
    else
        g_set_error(error, WB_STORE_ERROR, WB_STORE_ERROR_VALUE,
                    _("The catalogue has no part “%s”; wattberth catalogue export - prints the ids "
                      "of all parts."),
                    part_id);
}

WbPartAnswer *wb_part_answer_new(const WbProblem *problem, const WbRanking *ranking,
                                 const char *part_id, const WbKit *kit, WbControl *control,
                                 GError **error)
{
    WbPartKind kind;
    const WbPart *part = wb_catalogue_find_part(problem->catalogue, part_id, &kind);
    if (part == NULL) {
        fail_no_part(problem->catalogue, part_id, error);
        return NULL;
    }
    g_autoptr(WbPartAnswer) self = g_new0(WbPartAnswer, 1);
    self->kind = kind;
    self->part_id = g_strdup(part_id);
    self->title = g_strdup_printf("%s %s", part->maker, part->model);
    WbStatus status = ask(self, problem, ranking, kit, control);
    if (status == WB_OK) {
        talk(self, problem, ranking);
        return g_steal_pointer(&self);
    }
    if (status != WB_STOPPED)
        g_set_error_literal(error, WB_STORE_ERROR, WB_STORE_ERROR_VALUE,
                            wb_status_describe(status));
    return NULL;
}

void wb_part_answer_free(WbPartAnswer *self)
{
    for (gsize i = 0; i < self->n; i++) {
        g_free(self->line[i].text);
        g_free(self->line[i].kit_id);
        g_free(self->line[i].kit_words);
    }
    g_free(self->line);
    g_free(self->part_id);
    g_free(self->title);
    g_free(self->headline);
    g_free(self->place);
    wb_wiring_free(&self->wiring);
    wb_part_why_free(&self->why);
    g_free(self);
}

/* ---- beside the window ---- */

typedef struct {
    WbResult *result;
    char *part_id, *kit_id;
    WbControl control;
} Question;

static void question_free(gpointer data)
{
    Question *question = data;
    wb_result_unref(question->result);
    g_free(question->part_id);
    g_free(question->kit_id);
    g_free(question);
}

static void on_cancelled(GCancellable *cancellable, gpointer data)
{
    wb_control_stop(data);
}

static void answer(GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
    Question *question = data;
    const WbProblem *problem = wb_result_get_problem(question->result);
    GError *error = NULL;
    WbKit kit;
    gboolean named = question->kit_id != NULL && *question->kit_id != '\0' &&
                     wb_kit_parse(problem, question->kit_id, &kit);
    gulong stop = 0;
    if (cancellable != NULL)
        stop =
            g_cancellable_connect(cancellable, G_CALLBACK(on_cancelled), &question->control, NULL);
    WbPartAnswer *found =
        wb_part_answer_new(problem, wb_result_get_ranking(question->result), question->part_id,
                           named ? &kit : NULL, &question->control, &error);
    if (cancellable != NULL)
        g_cancellable_disconnect(cancellable, stop);
    if (found != NULL)
        g_task_return_pointer(task, found, (GDestroyNotify)wb_part_answer_free);
    else if (error != NULL)
        g_task_return_error(task, error);
    else
        g_task_return_new_error(task, G_IO_ERROR, G_IO_ERROR_CANCELLED, "stopped");
}

void wb_part_answer_ask(WbResult *result, const char *part_id, const char *kit_id,
                        GCancellable *cancellable, GAsyncReadyCallback done, gpointer data)
{
    Question *question = g_new0(Question, 1);
    question->result = wb_result_ref(result);
    question->part_id = g_strdup(part_id);
    question->kit_id = g_strdup(kit_id);
    wb_control_init(&question->control);
    g_autoptr(GTask) task = g_task_new(NULL, cancellable, done, data);
    g_task_set_task_data(task, question, question_free);
    g_task_run_in_thread(task, answer);
}

WbPartAnswer *wb_part_answer_ask_finish(GAsyncResult *answer, GError **error)
{
    return g_task_propagate_pointer(G_TASK(answer), error);
}
