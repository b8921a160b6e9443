#include "cli_rank_more.h"

#include "cli_job.h"
#include "cli_progress.h"
#include "cli_table.h"
#include "words_more.h"
#include <glib/gi18n-lib.h>
#include <math.h>

static WbStatus fill(const WbProblem *problem, const WbRanking *ranking, WbControl *control,
                     WbMore *more)
{
    WbStatus status = WB_OK;
    for (int g = 0; g < WB_CURVE_GAINS; g++)
        for (int r = 0; r < WB_CURVE_RESOURCES && status == WB_OK; r++)
            status = wb_more_curve(problem, ranking->pool, ranking->proved, wb_curve_resource[r],
                                   wb_curve_gain[g], control, &more->curve[r][g]);
    return status;
}

int wb_cli_more(const WbProblem *problem, const WbRanking *ranking, WbMore *more)
{
    *more = (WbMore){.whole = ranking->pool != NULL && ranking->pool->whole};
    if (!more->whole)
        return WB_EXIT_DONE;
    WbControl control;
    wb_control_init(&control);
    WbProgress *progress =
        wb_progress_start(_("Working out what more would buy, Ctrl-C stops it"), &control);
    WbStatus status = fill(problem, ranking, &control, more);
    wb_progress_end(progress);
    return status == WB_OK ? WB_EXIT_DONE : wb_cli_fail_status(status);
}

void wb_cli_more_free(WbMore *more)
{
    for (int r = 0; r < WB_CURVE_RESOURCES; r++)
        for (int g = 0; g < WB_CURVE_GAINS; g++)
            wb_more_curve_free(&more->curve[r][g]);
}

/* A figure of the first kit; NaN: there is none. */
static double in_hand(const WbRanking *ranking, WbCriterion criterion)
{
    return ranking->n_top > 0 ? wb_figure(&ranking->top[0].figures, criterion) : NAN;
}

/* (transfer full) */
static char *sentence_of(const WbProblem *problem, const WbRanking *ranking,
                         const WbMoreCurve *curve)
{
    return wb_words_curve(problem, curve, in_hand(ranking, curve->resource),
                          in_hand(ranking, curve->gain));
}

/* ---- text ---- */

static const char *heads_of(WbCriterion resource, WbCriterion gain)
{
    gboolean usable = gain == WB_CRITERION_USABLE;
    if (resource == WB_CRITERION_COST)
        return usable ? _(">Cost|>Usable Wh|Kit") : _(">Cost|>Dark h|Kit");
    if (resource == WB_CRITERION_WEIGHT)
        return usable ? _(">Weight kg|>Usable Wh|Kit") : _(">Weight kg|>Dark h|Kit");
    return usable ? _(">Roof m2|>Usable Wh|Kit") : _(">Roof m2|>Dark h|Kit");
}

static void append_curve(GString *out, const WbProblem *problem, const WbRanking *ranking,
                         const WbMoreCurve *curve)
{
    const char *currency = problem->brief->currency;
    g_autofree char *sentence = sentence_of(problem, ranking, curve);
    g_string_append_printf(out, "\n%s\n", wb_words_curve_title(curve->resource, curve->gain));
    wb_cli_wrap(out, "", sentence);
    if (curve->n == 0)
        return;
    g_autoptr(WbTable) table = wb_table_new(heads_of(curve->resource, curve->gain));
    for (size_t i = 0; i < curve->n; i++) {
        const WbCurveStep *step = &curve->step[i];
        g_autofree char *resource =
            wb_words_curve_number(curve->resource, step->resource, currency);
        wb_table_cell(
            table, g_strdup_printf("%s%s", resource, step->resource > curve->limit ? " +" : "  "));
        wb_table_cell(table, wb_words_curve_number(curve->gain, step->gain, currency));
        wb_table_cell(table, wb_words_kit(problem, &step->kit));
    }
    wb_table_append(table, out);
}

static bool any_beyond(const WbMore *more)
{
    for (int r = 0; r < WB_CURVE_RESOURCES; r++)
        for (int g = 0; g < WB_CURVE_GAINS; g++) {
            const WbMoreCurve *curve = &more->curve[r][g];
            if (curve->n > 0 && curve->step[curve->n - 1].resource > curve->limit)
                return true;
        }
    return false;
}

void wb_cli_more_append(GString *out, const WbProblem *problem, const WbRanking *ranking,
                        const WbMore *more)
{
    if (!more->whole) {
        g_string_append_c(out, '\n');
        wb_cli_wrap(out, "",
                    _("Too many kits work to tell what more would buy: untick some parts, or set "
                      "limits on money and weight."));
        return;
    }
    for (int r = 0; r < WB_CURVE_RESOURCES; r++)
        for (int g = 0; g < WB_CURVE_GAINS; g++)
            append_curve(out, problem, ranking, &more->curve[r][g]);
    g_string_append_c(out, '\n');
    if (ranking->n_top > 0)
        wb_cli_wrap(out, "", _("The kit in hand is the first of all."));
    if (any_beyond(more))
        wb_cli_wrap(out, "", _("+: beyond your limit, which is all that stops this kit."));
}

/* ---- JSON ---- */

static void steps_json(WbJsonOut *json, const WbProblem *problem, const WbMoreCurve *curve)
{
    wb_out_array(json, "steps");
    for (size_t i = 0; i < curve->n; i++) {
        char id[WB_KIT_ID];
        wb_kit_id(problem, &curve->step[i].kit, id);
        wb_out_object(json, NULL);
        wb_out_number(json, "needs", curve->step[i].resource);
        wb_out_number(json, "gives", curve->step[i].gain);
        wb_out_text(json, "id", id);
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
}

static void number_or_null(WbJsonOut *json, const char *key, double value)
{
    if (isinf(value))
        wb_out_null(json, key);
    else
        wb_out_number(json, key, value);
}

void wb_cli_more_json(WbJsonOut *json, const WbProblem *problem, const WbRanking *ranking,
                      const WbMore *more)
{
    if (!more->whole) {
        wb_out_null(json, "more");
        return;
    }
    wb_out_array(json, "more");
    for (int r = 0; r < WB_CURVE_RESOURCES; r++)
        for (int g = 0; g < WB_CURVE_GAINS; g++) {
            const WbMoreCurve *curve = &more->curve[r][g];
            g_autofree char *sentence = sentence_of(problem, ranking, curve);
            wb_out_object(json, NULL);
            wb_out_text(json, "resource", wb_criterion_name(curve->resource));
            wb_out_text(json, "gain", wb_criterion_name(curve->gain));
            number_or_null(json, "limit", curve->limit);
            number_or_null(json, "reaches", curve->reaches);
            wb_out_text(json, "sentence", sentence);
            steps_json(json, problem, curve);
            wb_out_end_object(json);
        }
    wb_out_end_array(json);
}
