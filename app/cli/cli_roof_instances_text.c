/* roof --instances for people: a line an instance. */
#include "cli_roof.h"
#include "cli_roof_instances.h"
#include "cli_table.h"
#include "figures_text.h"
#include <glib/gi18n-lib.h>

typedef struct {
    int decided, not_decided, unchecked;
} Tally;

static char *answer_words(const WbInstanceAnswer *answer)
{
    const char *code = wb_cli_instance_answer_code(answer);
    if (g_str_equal(code, "proved"))
        return g_strdup(_("proved"));
    if (g_str_equal(code, "searched"))
        return g_strdup(_("searched"));
    if (g_str_equal(code, "at-least"))
        return g_strdup(_("at least"));
    if (g_str_equal(code, "fits"))
        return g_strdup(_("fits"));
    if (g_str_equal(code, "does-not-fit"))
        return g_strdup(_("does not fit"));
    return g_strdup(g_str_equal(code, "within-1-mm") ? _("within 1 mm") : _("not decided"));
}

static char *proof_words(const WbInstanceAnswer *answer)
{
    const char *kind = wb_cli_instance_proof_kind(answer);
    if (kind == NULL)
        return g_strdup("-");
    if (g_str_equal(kind, "size"))
        return g_strdup(C_("proof", "size"));
    if (g_str_equal(kind, "area"))
        return g_strdup(C_("proof", "area"));
    if (g_str_equal(kind, "weights"))
        return g_strdup(C_("proof", "weights"));
    if (g_str_equal(kind, "search"))
        return g_strdup(C_("proof", "search"));
    return g_strdup(g_str_equal(kind, "one-size") ? C_("proof", "one size")
                                                  : C_("proof", "clauses"));
}

static bool is_decided(const WbInstanceAnswer *answer)
{
    return !g_str_equal(wb_cli_instance_answer_code(answer), "not-decided");
}

/* What the answer stands on and what was not passed by its checker. */
static bool is_unchecked(const WbInstanceAnswer *answer)
{
    bool has_layout = answer->layout != NULL, refutes = wb_cli_instance_refuses(answer) > 0;
    return (has_layout && !answer->layout_ok) || (refutes && !answer->proof_ok);
}

static char *checked_words(const WbInstanceAnswer *answer)
{
    bool layout = answer->n_layout > 0 && answer->layout_ok;
    if (is_unchecked(answer))
        return g_strdup(answer->proof_ok ? _("proof alone") : layout ? _("layout alone") : _("no"));
    if (layout && answer->proof_ok)
        return g_strdup(_("layout, proof"));
    return g_strdup(layout ? _("layout") : answer->proof_ok ? _("proof") : "-");
}

static void append_row(WbTable *table, const WbInstanceAnswer *answer)
{
    const WbRoofInstance *instance = answer->instance;
    wb_table_cell(table, g_strdup(instance->name));
    wb_table_cell(table, instance->most && answer->asked == WB_ROOF_INSTANCE_COUNT
                             ? g_strdup(_("any"))
                             : g_strdup_printf("%d", answer->asked));
    wb_table_cell(table,
                  answer->one_size ? g_strdup_printf("%d", answer->fit.most) : g_strdup("-"));
    wb_table_cell(table,
                  answer->one_size ? g_strdup_printf("%d", answer->fit.bound) : g_strdup("-"));
    wb_table_cell(table, proof_words(answer));
    wb_table_cell(table, checked_words(answer));
    wb_table_cell(table, g_strdup_printf("%" G_GUINT64_FORMAT, answer->nodes));
    wb_table_cell(table, wb_text_number(answer->time_ms, 2));
    wb_table_cell(table, answer_words(answer));
}

static int answer_all(const WbRoofInstances *instances, uint64_t nodes, WbTable *table,
                      Tally *tally)
{
    for (guint i = 0; i < wb_roof_instances_count(instances); i++) {
        WbInstanceAnswer answer;
        WbStatus status =
            wb_cli_instance_answer(wb_roof_instances_get(instances, i), nodes, &answer);
        if (status == WB_OK) {
            append_row(table, &answer);
            tally->decided += is_decided(&answer);
            tally->not_decided += !is_decided(&answer);
            tally->unchecked += is_unchecked(&answer);
        }
        wb_cli_instance_clear(&answer);
        if (status != WB_OK)
            return wb_cli_fail_status(status);
    }
    return WB_EXIT_DONE;
}

int wb_cli_instances_text(const WbRoofInstances *instances, const char *file, uint64_t nodes)
{
    g_autoptr(WbTable) table =
        wb_table_new(_("Instance|>Asked|>Most|>Bound|Proof|Checked|>Nodes|>ms|Answer"));
    Tally tally = {0};
    int code = answer_all(instances, nodes, table, &tally);
    if (code != WB_EXIT_DONE)
        return code;
    GString *out = g_string_new(NULL);
    wb_table_append(table, out);
    g_autofree char *sum = g_strdup_printf(
        _("%s: %u instances, %d decided, %d not decided; %d whose layout or bound has not passed "
          "its checker."),
        file, wb_roof_instances_count(instances), tally.decided, tally.not_decided,
        tally.unchecked);
    g_string_append_c(out, '\n');
    wb_cli_wrap(out, "", sum);
    return wb_cli_print(g_string_free(out, FALSE));
}
